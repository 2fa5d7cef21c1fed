package fit

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"springrib/internal/plane"
	"springrib/internal/shapes"
	"springrib/internal/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// humpCubic is the test curve of many offset studies in this project: its tightest
// radius is 16.9 mm.
func humpCubic() plane.Path { return plane.MustParse("M 0 0 C 10 20 30 20 40 0") }

// aroundHump is the outline at 6.35 mm about humpCubic with round ends.
func aroundHump() plane.Source {
	const d = 6.35
	c := humpCubic()
	cap := func(at, dir plane.Point) plane.Path {
		n := dir.Left().Mul(d)
		return plane.Chain(false, plane.BulgeSeg(at.Sub(n), at.Add(n), 1))
	}
	s := c.Segs[0]
	return plane.Join(true,
		plane.Parallel(c, -d, -d), cap(s.B, s.Tangent(1)),
		plane.Reversed(plane.Parallel(c, d, d)), cap(s.A, s.Tangent(0).Mul(-1)))
}

// trueEllipse is the ellipse itself, not cubics.
func trueEllipse(a, b float64) plane.Source {
	return plane.Func(true, func(t float64) (p, d plane.Point) {
		return plane.Pt(a*math.Cos(t), b*math.Sin(t)), plane.Pt(-a*math.Sin(t), b*math.Cos(t))
	}, 0, math.Pi/2, math.Pi, 1.5*math.Pi, 2*math.Pi)
}

// clothoidAt returns the point at arc length s of the clothoid with curvature
// s/(a a), and its direction, by quadrature.
func clothoidAt(a, s float64) (p, dir plane.Point) {
	w := func(x float64) float64 { return x * x / (2 * a * a) }
	p = plane.Pt(solve.Integrate(func(x float64) float64 { return math.Cos(w(x)) }, 0, s, 1e-13),
		solve.Integrate(func(x float64) float64 { return math.Sin(w(x)) }, 0, s, 1e-13))
	return p, plane.Dir(w(s))
}

// clothoidPoints are n points of the clothoid from curvature 0 to 1/20 over 100 mm.
func clothoidPoints(n int) []plane.Point {
	pts := make([]plane.Point, n)
	for i := range pts {
		pts[i], _ = clothoidAt(math.Sqrt(2000), 100*float64(i)/float64(n-1))
	}
	return pts
}

func spiralBack(r, d0, d1 float64) plane.Source {
	return plane.Parallel(plane.Chain(false, plane.ArcSeg(plane.Pt(0, 0), r, 0, math.Pi/2)), d0, d1)
}

// fitCase states how many pieces a curve may take at 0.01 mm. Bounds are what is
// reached; loosen one only with a reason.
type fitCase struct {
	name              string
	src               plane.Source
	any, arcs, cubics int
}

func fitCases() []fitCase {
	roundRect := plane.MustParse("M 5 0 L 35 0 A 5 0 1 40 5 L 40 25 A 5 0 1 35 30 L 5 30 A 5 0 1 0 25 L 0 5 A 5 0 1 5 0 Z")
	return []fitCase{
		{"hump", humpCubic(), 1, 5, 1},
		{"hump's outer parallel", plane.Parallel(humpCubic(), 6.35, 6.35), 1, 5, 1},
		{"hump's inner parallel", plane.Parallel(humpCubic(), -6.35, -6.35), 1, 5, 1},
		{"outline about the hump", aroundHump(), 5, 16, 7},
		{"ellipse 60 x 30", trueEllipse(30, 15), 4, 17, 4},
		{"ellipse of four cubics", shapes.FourCubics(plane.Pt(0, 0), 30, 15), 4, 17, 4},
		{"400-gon of the ellipse", Points(shapes.EllipsePoints(30, 15, 400), true), 4, 17, 4},
		{"clothoid of 1000 points", Points(clothoidPoints(1000), false), 2, 8, 2},
		{"spiral R 60", spiralBack(60, 20, 8), 1, 3, 1},
		{"spiral R 100", spiralBack(100, 20, 8), 1, 3, 1},
		{"spiral R 150", spiralBack(150, 20, 8), 2, 3, 2},
		{"spiral R 60 outside", spiralBack(60, -20, -8), 1, 3, 1},
		{"spiral R 100 outside", spiralBack(100, -20, -8), 2, 3, 2},
		{"spiral R 150 outside", spiralBack(150, -20, -8), 2, 3, 2},
		{"circle", plane.CirclePath(plane.Pt(1, 2), 30), 2, 2, 4},
		{"circle of 300 points", Points(shapes.EllipsePoints(20, 20, 300), true), 2, 2, 4},
		{"round rectangle", roundRect, 8, 8, 8},
		{"round rectangle flattened", Points(roundRect.Flatten(1e-4), true), 8, 8, 8},
		{"square", plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(9, 9))), 4, 4, 4},
		{"square with points along its sides", Points(dense(plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(9, 9))), 0.1), true), 4, 4, 4},
		{"350 degree arc", plane.Chain(false, plane.ArcSeg(plane.Pt(0, 0), 10, 0, 350*math.Pi/180)), 1, 1, 3},
		{"rib on an arc", spiralRib(100), 4, 6, 4},
		{"rib on a free curve", freeRib(), 10, 38, 10},
	}
}

// dense returns points along p at most step apart.
func dense(p plane.Path, step float64) []plane.Point {
	var pts []plane.Point
	for _, s := range p.Segs {
		n := math.Ceil(s.Length() / step)
		for i := range int(n) {
			pts = append(pts, s.Point(float64(i)/n))
		}
	}
	if !p.Closed {
		pts = append(pts, p.End())
	}
	return pts
}

func TestFitPieces(t *testing.T) {
	for _, c := range fitCases() {
		for m, most := range []int{c.any, c.arcs, c.cubics} {
			f := checkFit(t, c.name, c.src, Options{Mode: Mode(m)})
			n := len(f.Path.Segs)
			assert.LessOrEqual(t, n, most, "%s, mode %d: %s", c.name, m, shapes.Kinds(f.Path))
			if n < most {
				t.Logf("%s, mode %d: %d pieces, bound %d could be tightened", c.name, m, n, most)
			}
		}
	}
}

// Quick holds all the same with at most about three times the pieces.
func TestFitQuick(t *testing.T) {
	for _, c := range fitCases() {
		for m, most := range []int{c.any, c.arcs, c.cubics} {
			f := checkFit(t, c.name, c.src, Options{Mode: Mode(m), Quick: true})
			assert.LessOrEqual(t, len(f.Path.Segs), 3*most+2, "%s, mode %d", c.name, m)
		}
	}
}

// checkFit fits src and checks all that Fit promises but the number of pieces.
func checkFit(t *testing.T, name string, src plane.Source, o Options) Fitted {
	t.Helper()
	f := Fit(src, o)
	o = o.withDefaults()
	require.NotEmpty(t, f.Path.Segs, name)
	require.NotPanics(t, func() { plane.Chain(f.Path.Closed, f.Path.Segs...) }, name)
	assert.Equal(t, src.Loop(), f.Path.Closed, name)
	lo, hi := Deviation(src, f.Path, o.Tolerance/20)
	assert.LessOrEqual(t, f.Deviation, o.Tolerance, name)
	assert.LessOrEqual(t, lo, f.Deviation, "%s, mode %d: stated deviation is no bound", name, o.Mode)
	assert.LessOrEqual(t, hi, o.Tolerance*1.05, "%s, mode %d", name, o.Mode)
	assert.LessOrEqual(t, f.Kink, o.Kink*(1+1e-9), "%s, mode %d", name, o.Mode)
	for _, s := range f.Path.Segs {
		switch o.Mode {
		case Arcs:
			assert.NotEqual(t, plane.Cubic, s.Kind, name)
		case Cubics:
			assert.NotEqual(t, plane.Arc, s.Kind, name)
		}
	}
	return f
}

// TestFitMustHold states the bounds that the project promises, looser than what is
// reached above.
func TestFitMustHold(t *testing.T) {
	n := func(src plane.Source, m Mode) int { return len(Fit(src, Options{Mode: m}).Path.Segs) }
	assert.LessOrEqual(t, n(aroundHump(), Any), 10)
	assert.LessOrEqual(t, n(trueEllipse(30, 15), Cubics), 8)
	assert.LessOrEqual(t, n(Points(shapes.EllipsePoints(30, 15, 400), true), Cubics), 8)
	assert.LessOrEqual(t, n(Points(clothoidPoints(1000), false), Any), 12)
	assert.LessOrEqual(t, n(Points(clothoidPoints(1000), false), Arcs), 12)
	for r := 60.0; r <= 150; r += 10 {
		assert.LessOrEqual(t, n(spiralBack(r, 20, 8), Arcs), 4)
		assert.LessOrEqual(t, n(spiralBack(r, -20, -8), Arcs), 4)
		assert.LessOrEqual(t, n(spiralRib(r), Arcs), 12)
	}
	assert.LessOrEqual(t, n(freeRib(), Any), 24)
}

func TestFitToleranceWalksDown(t *testing.T) {
	before := 0
	for tol := 1.0; tol > 1e-4; tol /= 4 {
		f := checkFit(t, fmt.Sprint("ellipse at ", tol), trueEllipse(30, 15), Options{Tolerance: tol, Mode: Cubics})
		n := len(f.Path.Segs)
		assert.GreaterOrEqual(t, n, before)
		before = n
		checkFit(t, fmt.Sprint("hump in arcs at ", tol), humpCubic(), Options{Tolerance: tol, Mode: Arcs})
	}
	assert.LessOrEqual(t, before, 12) // the error of a cubic falls with the sixth power
}

// TestFitIsBlindToPlacing: the number of pieces is the same for the curve mirrored,
// turned, moved and run backwards, and scaled together with the tolerance.
func TestFitIsBlindToPlacing(t *testing.T) {
	paths := []plane.Path{humpCubic(), shapes.FourCubics(plane.Pt(0, 0), 30, 15), plane.MustParse("M 0 0 C 40 0 70 20 100 60 C 130 100 170 100 200 70 C 230 40 260 40 300 60")}
	for i, p := range paths {
		for m := Any; m <= Cubics; m++ {
			want := len(Fit(p, Options{Mode: m}).Path.Segs)
			for _, a := range []plane.Affine{shapes.Mirror(plane.Pt(0, 0), plane.Pt(1, 2)), plane.Rotate(1.234), plane.Translate(500, -300), shapes.Mirror(plane.Pt(0, 0), plane.Pt(0, 1))} {
				f := checkFit(t, "moved", p.Apply(a), Options{Mode: m})
				assert.Len(t, f.Path.Segs, want, "path %d, mode %d, %v", i, m, a)
			}
			f := checkFit(t, "reversed", plane.Reversed(p), Options{Mode: m})
			assert.Len(t, f.Path.Segs, want, "path %d, mode %d reversed", i, m)
			f = checkFit(t, "scaled", p.Apply(plane.Scale(3, 3)), Options{Mode: m, Tolerance: 0.03})
			assert.Len(t, f.Path.Segs, want, "path %d, mode %d scaled", i, m)
		}
	}
}

func TestFitKeepsCorners(t *testing.T) {
	tri := plane.Poly(plane.Pt(0, 0), plane.Pt(50, 0), plane.Pt(10, 30))
	for _, src := range []plane.Source{tri, Points(dense(tri, 0.5), true)} {
		f := checkFit(t, "triangle", src, Options{})
		require.Len(t, f.Path.Segs, 3)
		for _, c := range []plane.Point{plane.Pt(0, 0), plane.Pt(50, 0), plane.Pt(10, 30)} {
			near := math.Inf(1)
			for _, s := range f.Path.Segs {
				near = math.Min(near, s.A.Dist(c))
			}
			assert.Zero(t, near)
		}
	}
	// A star of arcs and cubics: each corner survives.
	star := shapes.Star(rand.New(rand.NewSource(7)), plane.Pt(0, 0), 100, 12)
	f := checkFit(t, "star", star, Options{})
	assert.Len(t, f.Path.Segs, 12)
}

// TestFitNoisyPoints: points scattered by up to 0.004 mm about a curve, as by
// rounding to a hundredth, take about as few pieces as exact ones.
func TestFitNoisyPoints(t *testing.T) {
	rng := rand.New(rand.NewSource(8))
	for _, n := range []int{300, 2000} {
		pts := shapes.EllipsePoints(30, 15, n)
		for i := range pts {
			pts[i] = pts[i].Add(plane.Pt(rng.Float64()-0.5, rng.Float64()-0.5).Mul(0.006))
		}
		f := checkFit(t, "noisy ellipse", Points(pts, true), Options{Tolerance: 0.012, Mode: Cubics})
		assert.LessOrEqual(t, len(f.Path.Segs), 8, "%d points", n)
		for i := range pts {
			pts[i] = plane.Pt(math.Round(pts[i].X*100)/100, math.Round(pts[i].Y*100)/100)
		}
		f = checkFit(t, "rounded ellipse", Points(pts, true), Options{Tolerance: 0.02, Mode: Cubics})
		assert.LessOrEqual(t, len(f.Path.Segs), 8, "%d points", n)
	}
}

// TestFitHardOffsets: two inputs of the tests of the kurbo library (Linebender,
// offset.rs, Apache-2.0/MIT). The first is a cubic that runs back on its own line and
// once made an offset recurse for ever.
func TestFitHardOffsets(t *testing.T) {
	cusp := plane.MustParse("M 1096.2963 593.9024 C 1043.6214 593.9024 1030.4527 593.9024 1056.7901 593.9024")
	f := Fit(plane.Parallel(cusp, -0.5, -0.5), Options{Tolerance: 0.1})
	lo, hi := Deviation(plane.Parallel(cusp, -0.5, -0.5), f.Path, 0.01)
	assert.LessOrEqual(t, lo, 0.1)
	assert.LessOrEqual(t, hi, 0.11)
	assert.Equal(t, "lal", shapes.Kinds(f.Path), "there, round the turn, back")
	b := f.Path.Box()
	assert.InDelta(t, 1.0, b.H(), 1e-6)
	assert.InDelta(t, 1096.2963, b.Max.X, 1e-6)
	straight := plane.MustParse("M 0 0 C 10 0 20 0 30 0")
	f = Fit(plane.Parallel(straight, 5, 5), Options{Tolerance: 0.1})
	assert.Equal(t, "M 0 5 L 30 5", f.Path.String())
}

func TestFitRandomPaths(t *testing.T) {
	rng := rand.New(rand.NewSource(9))
	for i := range 15 {
		p := shapes.Star(rng, plane.Pt(0, 0), 20+200*rng.Float64(), 3+rng.Intn(20))
		for m := Any; m <= Cubics; m++ {
			checkFit(t, fmt.Sprint("star ", i), p, Options{Mode: m})
		}
		var smooth []plane.Point
		a, b := rng.Float64()*6, rng.Float64()*6
		for k := range 400 {
			w := 2 * math.Pi * float64(k) / 400
			smooth = append(smooth, plane.Dir(w).Mul(50+8*math.Sin(3*w+a)+3*math.Sin(5*w+b)))
		}
		checkFit(t, fmt.Sprint("blob ", i), Points(smooth, true), Options{Mode: Mode(i % 3)})
	}
}

func TestFitDegenerate(t *testing.T) {
	assert.Empty(t, Fit(plane.Path{}, Options{}).Path.Segs)
	dot := plane.Chain(false, plane.LineSeg(plane.Pt(1, 1), plane.Pt(1, 1)))
	assert.Empty(t, Fit(dot, Options{}).Path.Segs)
	tiny := plane.Chain(false, plane.CubicSeg(plane.Pt(0, 0), plane.Pt(1e-5, 1e-5), plane.Pt(2e-5, -1e-5), plane.Pt(3e-5, 0)))
	assert.Len(t, Fit(tiny, Options{}).Path.Segs, 1)
	for _, s := range segmentZoo() {
		for m := Any; m <= Cubics; m++ {
			f := Fit(plane.Path{Segs: []plane.Segment{s}}, Options{Mode: m})
			lo, _ := Deviation(plane.Path{Segs: []plane.Segment{s}}, f.Path, 1e-3)
			assert.LessOrEqual(t, lo, 0.011, "%v", s)
			assert.Less(t, len(f.Path.Segs), 40, "%v mode %d", s, m)
		}
	}
	assert.Panics(t, func() { Fit(dot, Options{Tolerance: -1}) })
	assert.Panics(t, func() { Fit(dot, Options{Tolerance: math.NaN()}) })
	assert.Panics(t, func() { Points([]plane.Point{plane.Pt(1, 1), plane.Pt(1, 1)}, false) })
	assert.Panics(t, func() { plane.Func(false, nil, 1, 1) })
	assert.Panics(t, func() { plane.Parallel(plane.CirclePath(plane.Pt(0, 0), 1), 1, 2) })
}
