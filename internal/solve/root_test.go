package solve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The functions of table 4.2 in G. E. Alefeld, F. A. Potra, Y. Shi, Algorithm 748,
// ACM Trans. Math. Softw. 21 (1995), those with closed or well-known zeros (values
// from memory of the functions; the zeros are recomputed by bisection).
func TestRootPublishedFunctions(t *testing.T) {
	cases := []struct {
		name string
		f    func(float64) float64
		a, b float64
	}{
		{"sin x - x/2", func(x float64) float64 { return math.Sin(x) - x/2 }, math.Pi / 2, math.Pi},
		{"x e^-x steep", func(x float64) float64 { return -40 * x * Exp(-x) }, -9, 31},
		{"x^12 - 0.2", func(x float64) float64 { return Pow(x, 12) - 0.2 }, 0, 5},
		{"sin x - 0.5", func(x float64) float64 { return math.Sin(x) - 0.5 }, 0, 1.5},
		{"2x e^-5 - 2 e^-5x + 1", func(x float64) float64 { return 2*x*Exp(-5) - 2*Exp(-5*x) + 1 }, 0, 1},
		{"x^2 - (1-x)^20", func(x float64) float64 { return x*x - Pow(1-x, 20) }, 0, 1},
		{"flat: (x-1/3)^9", func(x float64) float64 { return Pow(x-1.0/3, 9) }, -1, 3},
		{"pole: 1/x - 5", func(x float64) float64 { return 1/x - 5 }, 1e-3, 10},
		{"jump", func(x float64) float64 { return math.Copysign(1, x-math.Sqrt2) }, 0, 2},
	}
	for _, c := range cases {
		for _, xtol := range []float64{1e-2, 1e-5, 1e-9, 1e-13} {
			calls := 0
			x, ok := Root(func(x float64) float64 { calls++; return c.f(x) }, c.a, c.b, xtol)
			want := bisect(c.f, c.a, c.b)
			assert.True(t, ok, c.name)
			slack := xtol + 1e-15
			if c.name == "flat: (x-1/3)^9" {
				slack += 1e-9 // below 1e-81 the ninth power steers nothing
			}
			assert.InDelta(t, want, x, slack, "%s at %g", c.name, xtol)
			assert.Less(t, calls, 150, c.name)
		}
	}
}

func bisect(f func(float64) float64, a, b float64) float64 {
	fa := f(a)
	if fa == 0 {
		return a
	}
	for range 200 {
		m := (a + b) / 2
		if fm := f(m); fm == 0 {
			return m
		} else if (fm > 0) == (fa > 0) {
			a = m
		} else {
			b = m
		}
	}
	return (a + b) / 2
}

func TestRootEndsAndNoSignChange(t *testing.T) {
	x, ok := Root(func(x float64) float64 { return x }, 0, 1, 1e-9)
	assert.True(t, ok)
	assert.Equal(t, 0.0, x)
	x, ok = Root(func(x float64) float64 { return x - 1 }, 0, 1, 1e-9)
	assert.True(t, ok)
	assert.Equal(t, 1.0, x)
	x, ok = Root(func(x float64) float64 { return x*x + 1 }, -1, 2, 1e-9)
	assert.False(t, ok)
	assert.Equal(t, -1.0, x, "the end where |f| is smaller")
	_, ok = Root(func(x float64) float64 { return math.NaN() }, 0, 1, 1e-9)
	assert.False(t, ok)
	x, ok = Root(func(x float64) float64 { return x - 0.25 }, 1, 0, 1e-12)
	assert.True(t, ok, "ends may come in either order")
	assert.InDelta(t, 0.25, x, 1e-12)
}

func TestRootIsQuickOnSmoothFunctions(t *testing.T) {
	calls := 0
	x, ok := Root(func(x float64) float64 { calls++; return math.Cos(x) - x }, 0, 1, 1e-14)
	assert.True(t, ok)
	assert.InDelta(t, 0.73908513321516064, x, 1e-14, "the Dottie number, OEIS A003957")
	assert.LessOrEqual(t, calls, 12)
}
