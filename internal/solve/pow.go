package solve

import "math"

// split cuts a into two halves of at most 26 bits, hi + lo = a exactly (Veltkamp;
// T. J. Dekker, A floating-point technique for extending the available precision,
// Numerische Mathematik 18 (1971)). |a| must stay below 2^996.
func split(a float64) (hi, lo float64) {
	c := float64(134217729 * a) // 2^27 + 1
	hi = c - (c - a)
	return hi, a - hi
}

// twoProd returns a*b = p + e exactly (Dekker 1971).
func twoProd(a, b float64) (p, e float64) {
	p = float64(a * b)
	ah, al := split(a)
	bh, bl := split(b)
	e = float64(al*bl) - (((p - float64(ah*bh)) - float64(al*bh)) - float64(ah*bl))
	return p, e
}

// fastSum returns a+b = s + e exactly for |a| >= |b| or a = 0 (Dekker 1971).
func fastSum(a, b float64) (s, e float64) {
	s = a + b
	return s, b - (s - a)
}

// logParts returns ln x = hi + lo to about 2^-64 of its size, for finite x > 0.
//
// x = 2^k m with m in [sqrt 1/2, sqrt 2), ln m = 2 artanh s, s = (m-1)/(m+1),
// |s| < 0.172; the series in s^2 goes to s^26 with s and s^3 kept in two parts.
func logParts(x float64) (hi, lo float64) {
	m, k := mantissa(x)
	f := m - 1 // exact
	d, de := fastSum(2, f)
	s := f / d
	p, pe := twoProd(s, d)
	sl := (((f - p) - pe) - float64(s*de)) / d // s + sl = f/(2+f)

	z, ze := twoProd(s, s)
	ze += float64(2 * s * sl)
	// t = s^2/3 in two parts; u = the rest of the series, small enough for one.
	t := z / 3
	q, qe := twoProd(t, 3)
	tl := (((z - q) - qe) + ze) / 3
	u := 1.0/25 + float64(z*(1.0/27))
	u = 1.0/23 + float64(u*z)
	u = 1.0/21 + float64(u*z)
	u = 1.0/19 + float64(u*z)
	u = 1.0/17 + float64(u*z)
	u = 1.0/15 + float64(u*z)
	u = 1.0/13 + float64(u*z)
	u = 1.0/11 + float64(u*z)
	u = 1.0/9 + float64(u*z)
	u = 1.0/7 + float64(u*z)
	u = 1.0/5 + float64(u*z)
	u = float64(float64(u*z) * z)

	v, ve := fastSum(t, u)
	ve += tl
	w, we := twoProd(s, v) // s * (t + u)
	we += float64(s*ve) + float64(sl*v)
	a, ae := fastSum(s, w)
	ae += we + sl
	a, ae = 2*a, 2*ae
	if k == 0 {
		return fastSum(a, ae)
	}
	hi, lo = fastSum(float64(float64(k)*ln2Hi), a)
	lo += ae + float64(float64(k)*ln2Lo)
	return fastSum(hi, lo)
}

// mantissa splits a finite x > 0 into 2^k m with m in [sqrt 1/2, sqrt 2).
func mantissa(x float64) (m float64, k int) {
	b := math.Float64bits(x)
	if b>>52 == 0 { // subnormal
		m, k = math.Frexp(x)
	} else {
		m, k = math.Float64frombits(b&^(0x7ff<<52)|0x3fe<<52), int(b>>52)-0x3fe
	}
	if m < math.Sqrt2/2 {
		m, k = m*2, k-1
	}
	return m, k
}

// Power returns x^y = e^(y ln x) for a finite x > 0 and a finite y, to about
// 2^-51 (1 + |y ln x|) of itself: for formulas of which no digit beyond that means
// anything, in half the time of Pow. It is 0 or +Inf where that is out of range.
func Power(x, y float64) float64 { return Exp(float64(y * ln(x))) }

// Log returns ln x to about 2^-51 (1 + |ln x|), in half the time of the standard one as wasm;
// of 0, of less and of what is not finite what the standard one returns.
func Log(x float64) float64 {
	if !(x > 0 && x <= math.MaxFloat64) {
		return math.Log(x)
	}
	return ln(x)
}

// ln is the series of logParts in one part, for finite x > 0. The mantissa is taken here as
// mantissa takes it: as wasm a call costs as much as a few steps.
func ln(x float64) float64 {
	bits := math.Float64bits(x)
	m, k := math.Float64frombits(bits&^(0x7ff<<52)|0x3fe<<52), int(bits>>52)-0x3fe
	if m < math.Sqrt2/2 {
		m, k = m*2, k-1
	}
	if bits>>52 == 0 {
		m, k = mantissa(x)
	}
	f := m - 1
	s := f / (2 + f)
	z := float64(s * s)
	w := float64(z * z)
	// Odd and even terms apart, for speed.
	a := 2.0/21 + float64(w*(2.0/25))
	a = 2.0/17 + float64(w*a)
	a = 2.0/13 + float64(w*a)
	a = 2.0/9 + float64(w*a)
	a = 2.0/5 + float64(w*a)
	b := 2.0/19 + float64(w*(2.0/23))
	b = 2.0/15 + float64(w*b)
	b = 2.0/11 + float64(w*b)
	b = 2.0/7 + float64(w*b)
	b = 2.0/3 + float64(w*b)
	return float64(float64(k)*ln2Hi) + (2*s + float64(s*float64(z*(b+float64(z*a)))) + float64(float64(k)*ln2Lo))
}

// Pow returns x^y. Exact cases follow the IEEE 754 and Go rules: x^0 = 1^y = 1, a
// negative x needs a whole y and is NaN otherwise, zeros and infinities as limits.
func Pow(x, y float64) float64 {
	switch {
	case y == 0 || x == 1:
		return 1
	case y == 1:
		return x
	case x != x || y != y:
		return math.NaN()
	case x < 0 || x == 0 && math.Signbit(x):
		return powNegative(x, y)
	case x == 0 || math.IsInf(x, 1):
		if (x == 0) == (y < 0) {
			return math.Inf(1)
		}
		return 0
	case y == 0.5:
		return math.Sqrt(x)
	case math.Abs(y) > 0x1p64: // |ln x| > 2^-53: far out of range either way
		if (x > 1) == (y > 0) {
			return math.Inf(1)
		}
		return 0
	}
	lh, ll := logParts(x)
	p, e := twoProd(lh, y)
	e += float64(ll * y)
	switch {
	case p > expMax+1:
		return math.Inf(1)
	case p < expMin-1:
		return 0
	}
	return expParts(p, e)
}

// powNegative is Pow for x < 0 and x = -0.
func powNegative(x, y float64) float64 {
	if math.IsInf(y, 0) {
		if x == -1 {
			return 1
		}
		return Pow(-x, y)
	}
	whole := y == math.Trunc(y)
	odd := whole && math.Abs(y) < 0x1p53 && math.Mod(y, 2) != 0
	switch {
	case !whole && x != 0 && !math.IsInf(x, -1):
		return math.NaN()
	case odd:
		return -Pow(-x, y)
	}
	return Pow(-x, y)
}
