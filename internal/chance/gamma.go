package chance

import (
	"math"

	"springrib/internal/solve"
)

// gamma returns the gamma function for x from 1 to 3, within 1e-13 of itself: Stirling's
// series at x + 8, led back by the recurrence. M. Abramowitz, I. A. Stegun, Handbook of
// Mathematical Functions, 6.1.40 and 6.1.15. It panics outside that range.
func gamma(x float64) float64 {
	if !(x >= 1 && x <= 3) {
		panic("chance: gamma is worked out from 1 to 3 only")
	}
	back := 1.0
	for range 8 {
		back *= x
		x++
	}
	r := 1 / (x * x)
	series := (1.0/12 - r*(1.0/360-r*(1.0/1260-r*(1.0/1680-r/1188)))) / x
	const halfLogTau = 0.918938533204672741780
	return solve.Exp((x-0.5)*math.Log(x)-x+halfLogTau+series) / back
}
