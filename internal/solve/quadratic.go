package solve

import "math"

// Quadratic returns the real roots of a t^2 + b t + c in rising order, a double root once,
// and how many there are. No root is lost to cancellation: the larger is found first and
// the other from the product of the two (any text on numerical analysis). Where a is below
// 1e-14 of the larger of b and c, the equation is taken as linear.
func Quadratic(a, b, c float64) (r [2]float64, n int) {
	if m := math.Max(math.Abs(b), math.Abs(c)); math.Abs(a) <= 1e-14*m {
		if b == 0 {
			return r, 0
		}
		return [2]float64{-c / b}, 1
	}
	disc := b*b - 4*a*c
	if disc < 0 || a == 0 {
		return r, 0
	}
	q := -0.5 * (b + math.Copysign(math.Sqrt(disc), b))
	r0 := q / a
	if q == 0 {
		return [2]float64{r0}, 1
	}
	r1 := c / q
	switch {
	case r0 == r1:
		return [2]float64{r0}, 1
	case r0 > r1:
		r0, r1 = r1, r0
	}
	return [2]float64{r0, r1}, 2
}
