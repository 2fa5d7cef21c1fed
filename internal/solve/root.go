package solve

import "math"

// unitRoundoff is half the distance from 1 to the next number.
const unitRoundoff = 0x1p-53

// maxSteps bounds Root and Minimum. Brent's method needs at most about the square of
// the bisection count; real cases need 5 to 15.
const maxSteps = 400

// Root returns a zero of f between a and b, to within xtol plus four rounding units of
// the zero, and whether f(a) and f(b) had different signs (a zero at an end counts).
// If they had not, or f is not a number at an end, it returns the end where |f| is
// smaller and false. f need not be continuous; a jump through zero counts as a zero.
//
// R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4:
// inverse quadratic interpolation or secant, guarded by bisection.
func Root(f func(float64) float64, a, b, xtol float64) (float64, bool) {
	fa, fb := f(a), f(b)
	switch {
	case fa == 0:
		return a, true
	case fb == 0:
		return b, true
	case !(fa < 0 && fb > 0 || fa > 0 && fb < 0):
		if math.Abs(fa) < math.Abs(fb) || fb != fb {
			return a, false
		}
		return b, false
	}
	c, fc := a, fa
	step := b - a // the last step and the one before it
	last := step
	for range maxSteps {
		if (fb > 0) == (fc > 0) {
			c, fc = a, fa
			step = b - a
			last = step
		}
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		tol := float64(4*unitRoundoff*math.Abs(b)) + xtol/2
		half := (c - b) / 2
		if math.Abs(half) <= tol || fb == 0 {
			return b, true
		}
		if math.Abs(last) < tol || math.Abs(fa) <= math.Abs(fb) {
			step, last = half, half
		} else {
			step, last = brentStep(a, b, c, fa, fb, fc, half, tol, step, last)
		}
		a, fa = b, fb
		if math.Abs(step) > tol {
			b += step
		} else {
			b += math.Copysign(tol, half)
		}
		fb = f(b)
	}
	return b, true
}

// brentStep tries interpolation and falls back to bisection.
func brentStep(a, b, c, fa, fb, fc, half, tol, step, last float64) (float64, float64) {
	var p, q float64
	s := fb / fa
	if a == c {
		p, q = float64(2*half*s), 1-s
	} else {
		q = fa / fc
		r := fb / fc
		p = float64(s * (float64(2*half*q*(q-r)) - float64((b-a)*(r-1))))
		q = float64((q - 1) * (r - 1) * (s - 1))
	}
	if p > 0 {
		q = -q
	} else {
		p = -p
	}
	if 2*p < 3*half*q-math.Abs(tol*q) && p < math.Abs(last*q/2) {
		return p / q, step
	}
	return half, half
}
