package fit

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/plane"
	"springrib/internal/shapes"
)

// TestFitPastTheEvolute: see the test of the parallel in plane.
func TestFitPastTheEvolute(t *testing.T) {
	src := plane.Parallel(humpCubic(), -25, -25)
	f := Fit(src, Options{})
	lo, hi := Deviation(src, f.Path, 1e-3)
	assert.LessOrEqual(t, lo, 0.01)
	assert.LessOrEqual(t, hi, 0.011)
	assert.LessOrEqual(t, len(f.Path.Segs), 8)
}

func TestFitRoundsCorners(t *testing.T) {
	out := plane.Parallel(plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(10, 10))), -3, -3)
	f := Fit(out, Options{})
	assert.Equal(t, "lalalala", shapes.Kinds(f.Path))
	assert.InDelta(t, 100+120+9*math.Pi, f.Path.Area(), 1e-6)
}

// TestClothoidMatchesFresnel ties the clothoid used in these tests to Abramowitz &
// Stegun, Handbook of Mathematical Functions (1964), Table 7.7: with curvature
// s/a^2, x = a sqrt(pi) C(s/(a sqrt(pi))). Digits by mpmath.
func TestClothoidMatchesFresnel(t *testing.T) {
	const a = 10.0
	k := a * math.Sqrt(math.Pi)
	for _, c := range [][3]float64{
		{0.1, .0999975326271, .000523589547612}, {0.2, .199921057594, .00418760916166},
		{0.5, .492344225871, .06473243286}, {0.8, .722844171896, .249341393054},
		{1.0, .779893400377, .43825914739}, {1.5, .44526117604, .697504960082},
		{2.0, .488253406075, .343415678364}, {3.0, .605720789298, .496312998967},
		{5.0, .563631188704, .499191381917},
	} {
		p, _ := clothoidAt(a, c[0]*k)
		assert.InDelta(t, c[1]*k, p.X, 1e-9*k, "C(%g)", c[0])
		assert.InDelta(t, c[2]*k, p.Y, 1e-9*k, "S(%g)", c[0])
	}
	// A path fitted to it keeps the length, a closed form as well.
	f := Fit(plane.Func(false, func(s float64) (p, d plane.Point) { return clothoidAt(a, s) }, 0, 2*k), Options{Tolerance: 1e-4, Mode: Cubics})
	assert.InDelta(t, 2*k, f.Path.Length(), 1e-3)
	assert.LessOrEqual(t, len(f.Path.Segs), 16)
}

// TestFitKeepsKnownLengths: a path within tolerance of a smooth curve has nearly its
// length; the closed forms are those of TestQuadLengths, from curves this time.
func TestFitKeepsKnownLengths(t *testing.T) {
	for _, c := range []struct {
		name   string
		src    plane.Source
		length float64
	}{
		{"ellipse 100x50", trueEllipse(100, 50), 484.4224110273838},
		{"ellipse 300x100", trueEllipse(300, 100), 1336.489322055526},
		{"sine 10 over 100", plane.Func(false, func(x float64) (p, d plane.Point) {
			w := 2 * math.Pi / 100
			return plane.Pt(x, 10*math.Sin(w*x)), plane.Pt(1, 10*w*math.Cos(w*x))
		}, 0, 100), 109.238354733118},
		{"cycloid r 10", plane.Func(false, func(w float64) (p, d plane.Point) {
			return plane.Pt(10*(w-math.Sin(w)), 10*(1-math.Cos(w))), plane.Pt(10*(1-math.Cos(w)), 10*math.Sin(w))
		}, 0, 2*math.Pi), 80},
		{"Archimedean spiral", plane.Func(false, func(w float64) (p, d plane.Point) {
			return plane.Dir(w).Mul(w), plane.Dir(w).Add(plane.Dir(w).Left().Mul(w))
		}, 0, 2*math.Pi), 21.256294148209099},
	} {
		for m := Any; m <= Cubics; m++ {
			f := Fit(c.src, Options{Mode: m, Tolerance: 1e-3})
			assert.LessOrEqual(t, f.Deviation, 1e-3)
			assert.InEpsilon(t, c.length, f.Path.Length(), 1e-4, "%s, mode %d", c.name, m)
		}
	}
}

func TestRandomParallels(t *testing.T) {
	rng := rand.New(rand.NewSource(21))
	for range 20 {
		s := plane.CubicSeg(plane.Pt(0, 0), plane.Pt(20+20*rng.Float64(), 40*rng.Float64()), plane.Pt(60+20*rng.Float64(), 40*rng.Float64()-20), plane.Pt(100, 0))
		p := plane.Path{Segs: []plane.Segment{s}}
		d := rng.Float64()*20 - 10
		src := plane.Parallel(p, d, d)
		f := Fit(src, Options{})
		lo, hi := Deviation(src, f.Path, 1e-3)
		assert.LessOrEqual(t, lo, 0.01)
		assert.LessOrEqual(t, hi, 0.011)
		assert.LessOrEqual(t, len(f.Path.Segs), 6, "%v by %g", s, d)
	}
}
