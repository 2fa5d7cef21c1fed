package solve

import (
	"math"
	"math/big"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const prec = 240 // bits of the reference arithmetic

func bigF(x float64) *big.Float { return new(big.Float).SetPrec(prec).SetFloat64(x) }

// bigExp is e^x by halving and the Taylor series, to about 200 bits: slow, plain, and
// independent of the code under test.
func bigExp(x *big.Float) *big.Float {
	const halvings = 40
	r := new(big.Float).SetPrec(prec).SetMantExp(x, -halvings)
	sum, term := bigF(1), bigF(1)
	for n := 1; n < 12; n++ {
		term.Mul(term, r)
		term.Quo(term, bigF(float64(n)))
		sum.Add(sum, term)
	}
	for range halvings {
		sum.Mul(sum, sum)
	}
	return sum
}

// bigLog is ln x by three Newton steps on bigExp.
func bigLog(x float64) *big.Float {
	y := bigF(math.Log(x))
	for range 3 {
		e := bigExp(new(big.Float).SetPrec(prec).Neg(y))
		e.Mul(e, bigF(x))
		e.Sub(e, bigF(1)) // x e^-y - 1 = ln x - y to first order
		y.Add(y, e)
	}
	return y
}

// ulps is |got - want| in units in the last place of the rounded want.
func ulps(got float64, want *big.Float) float64 {
	w, _ := want.Float64()
	ulp := math.Nextafter(math.Abs(w), math.Inf(1)) - math.Abs(w)
	d := new(big.Float).SetPrec(prec).Sub(bigF(got), want)
	d.Quo(d, bigF(ulp))
	f, _ := d.Float64()
	return math.Abs(f)
}

// Each bound is the promise of the package comment; the reference is 240-bit
// arithmetic of math/big. The note shows how much of it is used.
func TestElementaryAccuracy(t *testing.T) {
	cases := []struct {
		name  string
		f     func(float64) float64
		want  func(e *big.Float) *big.Float // from e^x
		span  float64
		bound float64
	}{
		{"Exp", Exp, func(e *big.Float) *big.Float { return e }, 700, 1},
		{"Exp near 0", Exp, func(e *big.Float) *big.Float { return e }, 2, 1},
	}
	rnd := rand.New(rand.NewSource(1))
	for _, c := range cases {
		worst, at := 0.0, 0.0
		for range 1500 {
			x := c.span * (2*rnd.Float64() - 1)
			if rnd.Intn(4) == 0 {
				x *= 1e-3
			}
			if u := ulps(c.f(x), c.want(bigExp(bigF(x)))); u > worst {
				worst, at = u, x
			}
		}
		t.Logf("%-12s worst %.3f ulp of %g at %v", c.name, worst, c.bound, at)
		assert.LessOrEqualf(t, worst, c.bound, "%s at %v", c.name, at)
	}
}

func TestPowAccuracy(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	worst, wx, wy := 0.0, 0.0, 0.0
	for range 2500 {
		x := Exp(6 * (2*rnd.Float64() - 1))
		y := 60 * (2*rnd.Float64() - 1)
		switch rnd.Intn(3) {
		case 0:
			x = 1 + 0.2*(2*rnd.Float64()-1)
			y *= 10
		case 1:
			y = 3 * rnd.Float64()
		}
		z := bigLog(x)
		if u := ulps(Pow(x, y), bigExp(z.Mul(z, bigF(y)))); u > worst {
			worst, wx, wy = u, x, y
		}
	}
	t.Logf("Pow worst %.3f ulp at %v^%v", worst, wx, wy)
	assert.LessOrEqualf(t, worst, 1.0, "at %v^%v", wx, wy)
}

// The library's own functions are good to about an ulp, so the two may part by two.
func TestElementaryAgainstMath(t *testing.T) {
	rnd := rand.New(rand.NewSource(3))
	apart := func(a, b float64) float64 {
		return math.Abs(a-b) / (math.Nextafter(math.Abs(b), math.Inf(1)) - math.Abs(b))
	}
	var exp, pow float64
	for range 200000 {
		x := 700 * (2*rnd.Float64() - 1)
		small := 4 * (2*rnd.Float64() - 1)
		base, y := 10*rnd.Float64(), 30*(2*rnd.Float64()-1)
		exp = max(exp, apart(Exp(x), math.Exp(x)), apart(Exp(small), math.Exp(small)))
		pow = max(pow, apart(Pow(base, y), math.Pow(base, y)))
	}
	t.Logf("apart, ulp: exp %g pow %g", exp, pow)
	assert.LessOrEqual(t, exp, 2.0)
	assert.LessOrEqual(t, pow, 40.0, "math.Pow multiplies its errors for large |y|; TestPowAccuracy says which of the two is right")
}

// Abramowitz & Stegun, Handbook of Mathematical Functions (1964), tables 1.1 and 4.4,
// to within one unit in the last place.
func TestKnownValues(t *testing.T) {
	near := func(want, got float64, what ...any) {
		t.Helper()
		assert.InDelta(t, want, got, 1.01*(math.Nextafter(want, math.Inf(1))-want), what...)
	}
	assert.Equal(t, math.E, Exp(1))
	near(1.0, Exp(0))
	near(22026.465794806716517, Exp(10))
	near(4.5399929762484851536e-5, Exp(-10))
	near(23.140692632779269006, Exp(math.Pi), "Gelfond's constant")
	near(1.6487212707001281468, Exp(0.5))
	for n := -20; n <= 20; n++ {
		assert.Equal(t, math.Ldexp(1, n), Pow(2, float64(n)), "exact powers stay exact")
	}
	assert.Equal(t, 1e15, Pow(10, 15))
	assert.Equal(t, 1e22, Pow(10, 22))
	assert.Equal(t, 343.0, Pow(7, 3))
	assert.Equal(t, 8.0, Pow(4, 1.5))
}

// Power keeps what it promises against Pow, which TestPowAccuracy holds to the last bit.
func TestPowerAccuracy(t *testing.T) {
	rnd := rand.New(rand.NewSource(9))
	for range 200000 {
		x, y := math.Exp(60*rnd.Float64()-30), 40*rnd.Float64()-20
		want, got := Pow(x, y), Power(x, y)
		if want == 0 || math.IsInf(want, 0) {
			require.Equal(t, want, got, "%v^%v", x, y)
			continue
		}
		require.InEpsilon(t, want, got, 0x1p-51*(1+math.Abs(y*math.Log(x))), "%v^%v", x, y)
	}
	assert.Equal(t, 1.0, Power(1, 17.3))
	assert.Equal(t, 1.0, Power(3.7, 0))
	assert.InEpsilon(t, 2e-310, Power(2e-310, 1), 1e-12, "among the subnormals")
	assert.Zero(t, Power(1e-300, 5))
	assert.True(t, math.IsInf(Power(1e300, 5), 1))
}

// Where the answer is special (zero, infinite, not a number, a sign) it is that of the
// library, and elsewhere as near as TestElementaryAgainstMath asks.
func TestEdges(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	same := func(want, got float64, what ...any) {
		t.Helper()
		if want != want || want == 0 || math.IsInf(want, 0) {
			assert.Equal(t, want != want, got != got, what...)
			if want == want {
				assert.Equal(t, math.Float64bits(want), math.Float64bits(got), what...)
			}
			return
		}
		assert.InEpsilon(t, want, got, 1e-15, what...)
	}
	for _, x := range []float64{nan, inf, -inf, 0, math.Copysign(0, -1), 1, -1, 712, -712, -746, 1e300, -1e300, 5e-324, -5e-324} {
		same(math.Exp(x), Exp(x), "exp", x)
	}
	xs := []float64{nan, inf, -inf, 0, math.Copysign(0, -1), 1, -1, 2, -2, 0.5, -0.5, 1e-310, 1e300, -1e300}
	ys := []float64{nan, inf, -inf, 0, 1, -1, 2, -2, 3, -3, 0.5, -0.5, 1.5, 1e17, -1e17, 1e300, -1e300}
	for _, x := range xs {
		for _, y := range ys {
			same(math.Pow(x, y), Pow(x, y), "pow", x, y)
		}
	}
	assert.InDelta(t, 1, Exp(-740)/math.Exp(-740), 1e-2, "few bits are left among the subnormals")
	assert.False(t, math.IsInf(Exp(709.78), 1))
	assert.True(t, math.IsInf(Exp(709.79), 1))
}

// The bits themselves, so that a run under wasm or on a machine that fuses
// multiply-add proves that it agrees with the machine these were written on.
func TestBitsAreTheSameEverywhere(t *testing.T) {
	rnd := rand.New(rand.NewSource(4))
	var acc [3]uint64
	for range 20000 {
		x := 30 * (2*rnd.Float64() - 1)
		b := 5 * rnd.Float64()
		for i, v := range []float64{Exp(x), Pow(b, x), Power(b, x)} {
			acc[i] = acc[i]*1099511628211 + math.Float64bits(v)
		}
	}
	names := []string{"Exp", "Pow", "Power"}
	for i, want := range wantBits() {
		assert.Equalf(t, want, acc[i], "%s: 20000 results folded together", names[i])
	}
}

func wantBits() [3]uint64 {
	return [3]uint64{0xb5b7265591192d7a, 0x6bc0993eba5536dd, 0x6538d3425899fe0e}
}

func BenchmarkExp(b *testing.B) {
	s := 0.0
	for i := range b.N {
		s += Exp(float64(i&1023)*0.01 - 5)
	}
	sink(b, s)
}

func BenchmarkMathExp(b *testing.B) {
	s := 0.0
	for i := range b.N {
		s += math.Exp(float64(i&1023)*0.01 - 5)
	}
	sink(b, s)
}

// Log against the standard one, over the whole range and next to 1, where it counts.
func TestLog(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	for range 20_000 {
		x := math.Exp(1400*r.Float64() - 700)
		assert.InDelta(t, math.Log(x), Log(x), 0x1p-51*(1+math.Abs(math.Log(x))), x)
		x = 1 + (r.Float64()-0.5)*1e-3
		assert.InEpsilon(t, math.Log1p(x-1), Log(x), 1e-14, x)
	}
	for _, x := range []float64{0, -1, math.Inf(1), math.MaxFloat64, 1} {
		if want := math.Log(x); math.IsNaN(want) {
			assert.True(t, math.IsNaN(Log(x)), x)
		} else {
			assert.InDelta(t, want, Log(x), 1e-12, x)
		}
	}
	assert.InDelta(t, -1074*math.Ln2, Log(5e-324), 1e-12, "the least number, 2^-1074")
}

func BenchmarkLog(b *testing.B) {
	s := 0.0
	for i := range b.N {
		s += Log(float64(i&1023)*0.01 + 0.1)
	}
	sink(b, s)
}

func BenchmarkPow(b *testing.B) {
	s := 0.0
	for i := range b.N {
		s += Pow(float64(i&1023)*0.01+0.1, 1.38)
	}
	sink(b, s)
}

func BenchmarkPower(b *testing.B) {
	s := 0.0
	for i := range b.N {
		s += Power(float64(i&1023)*0.01+0.1, 1.38)
	}
	sink(b, s)
}

func BenchmarkMathPow(b *testing.B) {
	s := 0.0
	for i := range b.N {
		s += math.Pow(float64(i&1023)*0.01+0.1, 1.38)
	}
	sink(b, s)
}

func sink(b *testing.B, s float64) {
	if s == 12345 {
		b.Log(s)
	}
}
