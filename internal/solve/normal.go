package solve

import "math"

// Normal returns the share of a standard normal quantity that lies below x, within 1e-14
// absolutely and 1e-12 of itself down to x = -37, where it is 0 in all but name.
//
// M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions: the series 26.2.11
// near the middle, the continued fraction 26.2.14 outside.
func Normal(x float64) float64 {
	const tau = 2 * math.Pi
	a := math.Abs(x)
	if a > 40 {
		return max(0, math.Copysign(1, x))
	}
	density := Exp(-a*a/2) / math.Sqrt(tau)
	if a < 3 {
		sum, term := x, x
		for k := 3.0; math.Abs(term) > 1e-17*math.Abs(sum); k += 2 {
			term *= x * x / k
			sum += term
		}
		return 0.5 + density*sum
	}
	rest := a
	for k := 60.0; k >= 1; k-- {
		rest = a + k/rest
	}
	if x > 0 {
		return 1 - density/rest
	}
	return density / rest
}
