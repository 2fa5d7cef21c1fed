package plane

import (
	"math"
	"math/rand"
	"testing"

	"springrib/internal/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// checkStretches checks that the parts of a source join, that the derivatives are
// those of the points, and returns the length.
func checkStretches(t *testing.T, name string, src Source) float64 {
	t.Helper()
	length := 0.0
	ss := src.Stretches()
	for i, s := range ss {
		if i > 0 {
			a, _ := ss[i-1].At(1)
			b, _ := s.At(0)
			assert.InDelta(t, 0, a.Dist(b), 1e-6, "%s: gap before part %d", name, i)
		}
		length += s.length()
		for _, u := range []float64{0.1337, 0.5123, 0.7741} {
			const h = 1e-5
			p0, d0 := s.At(u - h)
			p1, d1 := s.At(u + h)
			_, d := s.At(u)
			dd := s.Bend(u)
			size := 1 + d.Len() + dd.Len()
			assert.InDelta(t, 0, p1.Sub(p0).Mul(1/(2*h)).Dist(d), 1e-5*size, "%s part %d", name, i)
			assert.InDelta(t, 0, d1.Sub(d0).Mul(1/(2*h)).Dist(dd), 1e-3*size, "%s part %d", name, i)
		}
	}
	return length
}

func TestParallelOfKnownCurves(t *testing.T) {
	circle := Chain(false, ArcSeg(Pt(1, 2), 30, 0, 2))
	for _, d := range []float64{-10, 3, 29, 31} { // past the centre the arc is run beyond it
		l := checkStretches(t, "arc", Parallel(circle, d, d))
		assert.InDelta(t, 2*math.Abs(30-d), l, 1e-9)
	}
	line := Open(Pt(0, 0), Pt(30, 40))
	p, _ := Parallel(line, 5, 10).Stretches()[0].At(0)
	assert.InDelta(t, 0, p.Dist(Pt(-4, 3)), 1e-12)
	p, _ = Parallel(line, 5, 10).Stretches()[0].At(1)
	assert.InDelta(t, 0, p.Dist(Pt(22, 46)), 1e-12)
	// The arc of radius R with a distance from d0 to d1 over angle w is the Archimedean
	// spiral r = R - d; its length is the integral of sqrt(r^2 + (dr/dw)^2).
	const r, d0, d1 = 60, 20, 8
	k := (d0 - d1) / (math.Pi / 2)
	want := solve.Integrate(func(w float64) float64 { return math.Hypot(r-d0+k*w, k) }, 0, math.Pi/2, 1e-12)
	spiral := Parallel(Chain(false, ArcSeg(Pt(0, 0), r, 0, math.Pi/2)), d0, d1)
	assert.InDelta(t, want, checkStretches(t, "spiral", spiral), 1e-8)
}

// TestParallelLength: the parallel of a smooth curve at d on the left is shorter by d
// times the turning to the left (Steiner, for open curves).
func TestParallelLength(t *testing.T) {
	s := humpCubic().Segs[0]
	w := math.Atan2(s.Tangent(0).Cross(s.Tangent(1)), s.Tangent(0).Dot(s.Tangent(1)))
	for _, d := range []float64{6.35, -6.35, 16} {
		l := checkStretches(t, "hump", Parallel(humpCubic(), d, d))
		assert.InDelta(t, humpCubic().Length()-d*w, l, 1e-6, "%g", d)
	}
	// A changing distance: points lie square to the curve at the distance of their
	// arc length.
	src := Parallel(humpCubic(), 3, 9)
	checkStretches(t, "hump 3 to 9", src)
	st := src.Stretches()[0]
	for i := range 11 {
		u := float64(i) / 10
		p, _ := st.At(u)
		q := s.Point(u)
		h := 3 + 6*s.Split(0, u).Length()/s.Length()
		assert.InDelta(t, h, p.Dist(q), 1e-8)
		assert.InDelta(t, 0, p.Sub(q).Dot(s.Tangent(u)), 1e-8)
	}
}

// TestParallelBeyondTheEvolute: at a distance over the radius the parallel turns back
// twice; the parts join, and its length is the integral of |1 - kappa d| ds.
func TestParallelBeyondTheEvolute(t *testing.T) {
	s := humpCubic().Segs[0]
	const d = -25.0 // the hump turns right, tightest radius 16.9
	src := Parallel(humpCubic(), d, d)
	assert.Len(t, src.Stretches(), 3)
	want := solve.Integrate(func(u float64) float64 { return math.Abs(1-s.Curvature(u)*d) * s.Deriv(u).Len() }, 0, 1, 1e-9)
	assert.InDelta(t, want, checkStretches(t, "hump", src), 1e-5)
	f := Fit(src, Options{})
	lo, hi := Deviation(src, f.Path, 1e-3)
	assert.LessOrEqual(t, lo, 0.01)
	assert.LessOrEqual(t, hi, 0.011)
	assert.LessOrEqual(t, len(f.Path.Segs), 8)
}

func TestParallelAtCorners(t *testing.T) {
	l := MustParse("M 0 0 L 20 0 L 20 20")
	for _, d := range []float64{4, -4} {
		n := checkStretches(t, "corner", Parallel(l, d, d))
		assert.InDelta(t, 40+2*math.Pi, n, 1e-9)
	}
	sq := RectPath(Box{Pt(0, 0), Pt(10, 10)})
	out := Parallel(sq, -3, -3)
	assert.InDelta(t, 40+6*math.Pi, checkStretches(t, "square", out), 1e-9)
	f := Fit(out, Options{})
	assert.Equal(t, "lalalala", kindsOf(f.Path))
	assert.InDelta(t, 100+120+9*math.Pi, f.Path.Area(), 1e-6)
}

func TestSources(t *testing.T) {
	for name, src := range map[string]Source{
		"zoo":       Path{Segs: segmentZoo()[:1]},
		"ellipse":   trueEllipse(30, 15),
		"reversed":  Reversed(trueEllipse(30, 15)),
		"points":    Points(ellipsePoints(30, 15, 200), true),
		"joined":    Join(false, humpCubic(), Open(Pt(40, 0), Pt(50, 0)), Chain(false, ArcSeg(Pt(50, 10), 10, -math.Pi/2, 1))),
		"rib":       spiralRib(80),
		"free rib":  freeRib(),
		"both ways": Reversed(Reversed(freeRib())),
	} {
		l := checkStretches(t, name, src)
		back := checkStretches(t, name+" reversed", Reversed(src))
		assert.InDelta(t, l, back, 1e-6*l, name)
	}
	assert.InDelta(t, solve.Integrate(func(w float64) float64 {
		return math.Hypot(30*math.Sin(w), 15*math.Cos(w))
	}, 0, 2*math.Pi, 1e-10), checkStretches(t, "ellipse", trueEllipse(30, 15)), 1e-7)
	assert.Panics(t, func() { Func(false, nil, 1) })
	assert.Panics(t, func() { Func(false, nil, 1, 0) })
}

// TestPathStretchesAtCusps: a cubic with a cusp gives two parts whose tangents turn
// back.
func TestPathStretchesAtCusps(t *testing.T) {
	cusp := Path{Segs: []Segment{CubicSeg(Pt(0, 0), Pt(30, 20), Pt(0, 20), Pt(30, 0))}}
	ss := cusp.Stretches()
	require.Len(t, ss, 2)
	_, a := ss[0].end(1)
	_, b := ss[1].end(0)
	assert.InDelta(t, 0, a.Dist(Pt(0, 1)), 1e-3)
	assert.InDelta(t, 0, b.Dist(Pt(0, -1)), 1e-3)
	assert.Empty(t, Path{Segs: []Segment{LineSeg(Pt(1, 1), Pt(1, 1))}}.Stretches())
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
	f := Fit(Func(false, func(s float64) (p, d Point) { return clothoidAt(a, s) }, 0, 2*k), Options{Tolerance: 1e-4, Mode: Cubics})
	assert.InDelta(t, 2*k, f.Path.Length(), 1e-3)
	assert.LessOrEqual(t, len(f.Path.Segs), 16)
}

// TestFitKeepsKnownLengths: a path within tolerance of a smooth curve has nearly its
// length; the closed forms are those of TestQuadLengths, from curves this time.
func TestFitKeepsKnownLengths(t *testing.T) {
	for _, c := range []struct {
		name   string
		src    Source
		length float64
	}{
		{"ellipse 100x50", trueEllipse(100, 50), 484.4224110273838},
		{"ellipse 300x100", trueEllipse(300, 100), 1336.489322055526},
		{"sine 10 over 100", Func(false, func(x float64) (p, d Point) {
			w := 2 * math.Pi / 100
			return Pt(x, 10*math.Sin(w*x)), Pt(1, 10*w*math.Cos(w*x))
		}, 0, 100), 109.238354733118},
		{"cycloid r 10", Func(false, func(w float64) (p, d Point) {
			return Pt(10*(w-math.Sin(w)), 10*(1-math.Cos(w))), Pt(10*(1-math.Cos(w)), 10*math.Sin(w))
		}, 0, 2*math.Pi), 80},
		{"Archimedean spiral", Func(false, func(w float64) (p, d Point) {
			return Dir(w).Mul(w), Dir(w).Add(Dir(w).Left().Mul(w))
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
		s := CubicSeg(Pt(0, 0), Pt(20+20*rng.Float64(), 40*rng.Float64()), Pt(60+20*rng.Float64(), 40*rng.Float64()-20), Pt(100, 0))
		p := Path{Segs: []Segment{s}}
		d := rng.Float64()*20 - 10
		src := Parallel(p, d, d)
		f := Fit(src, Options{})
		lo, hi := Deviation(src, f.Path, 1e-3)
		assert.LessOrEqual(t, lo, 0.01)
		assert.LessOrEqual(t, hi, 0.011)
		assert.LessOrEqual(t, len(f.Path.Segs), 6, "%v by %g", s, d)
	}
}
