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

// Minimum returns a local minimum of f between a and b and its value, to within xtol
// plus about 1e-8 of the place itself (no method that only sees f can do better).
// With one minimum between a and b it is that one.
//
// R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 5:
// parabolas guarded by golden section.
func Minimum(f func(float64) float64, a, b, xtol float64) (x, fx float64) {
	const golden = 0.38196601125010515 // (3 - sqrt 5)/2
	if a > b {
		a, b = b, a
	}
	x = a + float64(golden*(b-a))
	w, v := x, x
	fx = f(x)
	fw, fv := fx, fx
	var d, e float64
	for range maxSteps {
		m := (a + b) / 2
		tol := float64(1e-8*math.Abs(x)) + xtol/3
		if math.Abs(x-m) <= float64(2*tol)-(b-a)/2 {
			break
		}
		parabola := false
		if math.Abs(e) > tol {
			r := float64((x - w) * (fx - fv))
			q := float64((x - v) * (fx - fw))
			p := float64((x-v)*q) - float64((x-w)*r)
			q = 2 * (q - r)
			if q > 0 {
				p = -p
			} else {
				q = -q
			}
			if math.Abs(p) < math.Abs(q*e/2) && p > q*(a-x) && p < q*(b-x) {
				e, d = d, p/q
				if u := x + d; u-a < 2*tol || b-u < 2*tol {
					d = math.Copysign(tol, m-x)
				}
				parabola = true
			}
		}
		if !parabola {
			if e = b - x; x >= m {
				e = a - x
			}
			d = float64(golden * e)
		}
		u := x + d
		if math.Abs(d) < tol {
			u = x + math.Copysign(tol, d)
		}
		fu := f(u)
		if fu <= fx {
			if u < x {
				b = x
			} else {
				a = x
			}
			v, fv, w, fw, x, fx = w, fw, x, fx, u, fu
			continue
		}
		if u < x {
			a = u
		} else {
			b = u
		}
		switch {
		case fu <= fw || w == x:
			v, fv, w, fw = w, fw, u, fu
		case fu <= fv || v == x || v == w:
			v, fv = u, fu
		}
	}
	return x, fx
}
