package solve

import "math"

// Clamp returns x, or the end of lo to hi that lies nearest where x is outside.
func Clamp(x, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, x)) }

// Sign returns -1 for x below 0 and 1 for all others, 0 too.
func Sign(x float64) float64 {
	if x < 0 {
		return -1
	}
	return 1
}
