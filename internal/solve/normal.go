package solve

import "math"

// Normal returns the share of a standard normal quantity that lies below x, within 1e-14
// absolutely and 1e-12 of itself down to x = -37, where it is 0 in all but name.
//
// It is the density times Mills's ratio R, the share beyond a over the density there, which
// follows R' = a R - 1: so each place of a table gives its neighbourhood by a Taylor series
// whose terms come one from another. The table and what lies past it are the continued
// fraction of M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 26.2.14, and
// near the middle the series 26.2.11.
func Normal(x float64) float64 {
	a := math.Abs(x)
	if a > 40 {
		return max(0, math.Copysign(1, x))
	}
	beyond := Exp(-a*a/2) / rootTau
	if a < millsEnd {
		beyond *= millsNear(a)
	} else {
		beyond *= millsFar(a, 20)
	}
	if x > 0 {
		return 1 - beyond
	}
	return beyond
}

const (
	rootTau  = 2.506628274631000502415765284811 // of 2 pi
	millsEnd = 6.0
	millsOf  = 4 // places of the table for each 1 of a
)

// mills holds Mills's ratio at 0, 1/4, 2/4 and so on.
var mills = func() (out [millsEnd*millsOf + 1]float64) {
	for i := range out {
		a := float64(i) / millsOf
		if a >= 1 {
			out[i] = millsFar(a, 300)
			continue
		}
		sum, term := a, a
		for k := 3.0; term > 1e-17*sum; k += 2 {
			term *= a * a / k
			sum += term
		}
		out[i] = rootTau/2*Exp(a*a/2) - sum
	}
	return out
}()

// inverse holds 1/2, 1/3 and so on.
var inverse = [...]float64{1.0 / 2, 1.0 / 3, 1.0 / 4, 1.0 / 5, 1.0 / 6, 1.0 / 7, 1.0 / 8, 1.0 / 9, 1.0 / 10, 1.0 / 11, 1.0 / 12}

// millsNear is the Taylor series of R about the nearest place of the table. With c_n the
// n-th derivative over n!, c_(n+1) = (a c_n + c_(n-1))/(n+1); what is left out after c_12 is
// below 1e-15 where the places are 1/4 apart.
func millsNear(a float64) float64 {
	at := int(a*millsOf + 0.5)
	from := float64(at) / millsOf
	h := a - from
	last, c := mills[at], from*mills[at]-1
	sum, power := last+float64(c*h), h
	for i := range inverse {
		last, c = c, (float64(from*c)+last)*inverse[i]
		power *= h
		sum += float64(c * power)
	}
	return sum
}

// millsFar is the continued fraction, to so many terms.
func millsFar(a, terms float64) float64 {
	rest := a
	for k := terms; k >= 1; k-- {
		rest = a + k/rest
	}
	return 1 / rest
}
