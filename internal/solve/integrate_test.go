package solve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// known is an integral with a known answer, shared by the tests of accuracy and cost.
type known struct {
	name string
	f    func(float64) float64
	a, b float64
	want float64
}

func knownIntegrals() []known {
	return []known{
		{"parabola arc length, sqrt5/2 + asinh(2)/4", func(x float64) float64 { return math.Hypot(1, 2*x) }, 0, 1, 1.4789428575445974},
		{"ellipse 100 x 50, quarter", func(u float64) float64 { return math.Hypot(100*math.Sin(u), 50*math.Cos(u)) }, 0, math.Pi / 2, 484.4224110273838 / 4},
		{"sine y = sin x, one period", func(x float64) float64 { return math.Hypot(1, math.Cos(x)) }, 0, 2 * math.Pi, 7.640395578055424},
		{"Archimedean spiral r = theta, one turn", func(x float64) float64 { return math.Hypot(1, x) }, 0, 2 * math.Pi, 21.256294148209099},
		{"Fresnel C(5), DLMF 7.2(iii)", func(x float64) float64 { return math.Cos(math.Pi * x * x / 2) }, 0, 5, 0.563631188704},
		{"Fresnel S(1), DLMF 7.2(iii)", func(x float64) float64 { return math.Sin(math.Pi * x * x / 2) }, 0, 1, 0.43825914739},
		{"sqrt at its branch point", math.Sqrt, 0, 1, 2.0 / 3},
		{"corner", func(x float64) float64 { return math.Abs(x - 1/math.E) }, 0, 1, (1/(math.E*math.E) + (1-1/math.E)*(1-1/math.E)) / 2},
		{"jump", func(x float64) float64 { return math.Floor(3*x + 0.1) }, 0, 1, 1.1},
		{"backwards", func(x float64) float64 { return x * x }, 3, 0, -9},
		{"empty", math.Exp2, 2, 2, 0},
		{"narrow peak", func(x float64) float64 { return 1e-3 / (x*x + 1e-6) }, -1, 1, 2 * math.Atan(1000)},
	}
}

// Accuracy is an argument, and the test walks it down.
func TestIntegrateKnown(t *testing.T) {
	for _, c := range knownIntegrals() {
		for _, tol := range []float64{1e-3, 1e-6, 1e-9, 1e-11} {
			got := Integrate(c.f, c.a, c.b, tol)
			slack := tol + 2e-12*math.Abs(c.want) // the printed digits of the Fresnel values
			assert.InDelta(t, c.want, got, slack, "%s at %g", c.name, tol)
		}
	}
}

// A rule of n points is exact to degree 2n-1; one wrong digit of a node or weight fails
// here.
func TestRulesAreExactForPolynomials(t *testing.T) {
	g := gauss16()
	for n := 0.0; n <= 31; n++ {
		f := func(x float64) float64 { return Pow(x, n) }
		want := 1 / (n + 1)
		assert.InDelta(t, want, quadPanel(&g, f, 0, 1), 2e-15, "16 points, degree %g", n)
		if n <= 9 {
			assert.InDelta(t, want, Gauss5(f, 0, 1), 3e-15, "5 points, degree %g", n)
		}
	}
}

func TestIntegrateIsAdditiveAndLinear(t *testing.T) {
	f := func(x float64) float64 { return Exp(-x) * math.Sin(7*x) }
	whole := Integrate(f, 0, 5, 1e-12)
	parts := Integrate(f, 0, 1.3, 1e-12) + Integrate(f, 1.3, 5, 1e-12)
	assert.InDelta(t, whole, parts, 1e-12)
	assert.InDelta(t, 7.0/50*(1-Exp(-5)*(math.Cos(35)+math.Sin(35)/7)), whole, 1e-12, "closed form")
	assert.InDelta(t, -whole, Integrate(f, 5, 0, 1e-12), 1e-12)
}

func TestIntegrateRoughFunctionStops(t *testing.T) {
	calls := 0
	v := Integrate(func(x float64) float64 {
		if calls++; calls > 1e6 {
			t.Fatal("does not stop")
		}
		return 1 / math.Sqrt(x)
	}, 0, 1, 1e-12)
	assert.InDelta(t, 2, v, 1e-5)
}

func BenchmarkIntegrateArcLength(b *testing.B) {
	for range b.N {
		Integrate(func(x float64) float64 { return math.Hypot(1, 2*x) }, 0, 1, 1e-9)
	}
}

func BenchmarkRoot(b *testing.B) {
	for range b.N {
		Root(func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 1e-12)
	}
}
