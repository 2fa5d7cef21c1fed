package solve

import "math"

// ln2Hi has its last 21 bits zero, so that k*ln2Hi is exact for |k| < 2^20;
// ln2Hi + ln2Lo is ln 2 to about 2^-86.
const (
	ln2Hi  = 0x1.62e42fee00000p-1
	ln2Lo  = 0x1.a39ef35793c76p-33
	invLn2 = 1.44269504088896340735992468100189214

	// expMax is the largest argument whose exponential is finite, expMin the
	// smallest whose exponential is not rounded to zero.
	expMax = 709.782712893383973096
	expMin = -745.133219101941108420
)

// reduce splits x = k ln 2 + (hi - lo) with |hi - lo| at most a little over ln 2 / 2.
// x must be finite and within the range of Exp.
func reduce(x float64) (hi, lo float64, k int) {
	switch kf := float64(x * invLn2); {
	case kf < 0:
		k = int(kf - 0.5)
	default:
		k = int(kf + 0.5)
	}
	hi = x - float64(float64(k)*ln2Hi)
	lo = float64(float64(k) * ln2Lo)
	return hi, lo, k
}

// tail returns e^r - 1 - r for |r| <= 0.35 by its Taylor series to r^13, whose first
// omitted term is below 5e-18. The terms are paired (Estrin) for speed.
func tail(r float64) float64 {
	r2 := float64(r * r)
	r4 := float64(r2 * r2)
	a := 1.0/2 + float64(r*(1.0/6))
	b := 1.0/24 + float64(r*(1.0/120))
	c := 1.0/720 + float64(r*(1.0/5040))
	d := 1.0/40320 + float64(r*(1.0/362880))
	e := 1.0/3628800 + float64(r*(1.0/39916800))
	f := 1.0/479001600 + float64(r*(1.0/6227020800))
	ab := a + float64(b*r2)
	cd := c + float64(d*r2)
	ef := e + float64(f*r2)
	return float64(r2 * (ab + float64(r4*(cd+float64(ef*r4)))))
}

// scale returns y * 2^k, fast where 2^k is a normal number.
func scale(y float64, k int) float64 {
	if k > -1022 && k < 1023 {
		return y * math.Float64frombits(uint64(k+1023)<<52)
	}
	return math.Ldexp(y, k)
}

// expParts returns e^(x+xlo), where xlo is a small correction of x.
func expParts(x, xlo float64) float64 {
	hi, lo, k := reduce(x)
	lo -= xlo
	r := hi - lo
	// hi - r recovers the rounding error of r exactly (Sterbenz does not apply for
	// all r, but |hi| >= |lo| does).
	rlo := (hi - r) - lo
	return scale(1+(r+(tail(r)+rlo+float64(rlo*r))), k)
}

// Exp returns e^x. It overflows to +Inf above 709.78 and underflows to 0 below
// -745.13. Argument reduction by Cody & Waite, Software Manual for the Elementary
// Functions (1980), chapter 6, then a Taylor series on |r| <= ln 2 / 2.
func Exp(x float64) float64 {
	if !(x > -708 && x < 708) {
		return expFar(x)
	}
	// What follows is expParts(x, 0) in one piece, with the same results: as wasm each call costs
	// as much as a few of its steps, and a plan asks for tens of thousands.
	kf := float64(x * invLn2)
	k := int(kf + 0.5)
	if kf < 0 {
		k = int(kf - 0.5)
	}
	hi := x - float64(float64(k)*ln2Hi)
	lo := float64(float64(k) * ln2Lo)
	r := hi - lo
	rlo := (hi - r) - lo
	r2 := float64(r * r)
	r4 := float64(r2 * r2)
	a := 1.0/2 + float64(r*(1.0/6))
	b := 1.0/24 + float64(r*(1.0/120))
	c := 1.0/720 + float64(r*(1.0/5040))
	d := 1.0/40320 + float64(r*(1.0/362880))
	e := 1.0/3628800 + float64(r*(1.0/39916800))
	f := 1.0/479001600 + float64(r*(1.0/6227020800))
	ab := a + float64(b*r2)
	cd := c + float64(d*r2)
	ef := e + float64(f*r2)
	t := float64(r2 * (ab + float64(r4*(cd+float64(ef*r4)))))
	return (1 + (r + (t + rlo + float64(rlo*r)))) * math.Float64frombits(uint64(k+1023)<<52)
}

// expFar is Exp where the result may not be a normal number.
func expFar(x float64) float64 {
	switch {
	case x != x || x > expMax && math.IsInf(x, 1):
		return x
	case x > expMax:
		return math.Inf(1)
	case x < expMin:
		return 0
	}
	return expParts(x, 0)
}
