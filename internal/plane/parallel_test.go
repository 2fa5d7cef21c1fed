package plane

import (
	"math"
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
}

func TestSources(t *testing.T) {
	for name, src := range map[string]Source{
		"zoo":       Path{Segs: segmentZoo()[:1]},
		"ellipse":   trueEllipse(30, 15),
		"reversed":  Reversed(trueEllipse(30, 15)),
		"joined":    Join(false, humpCubic(), Open(Pt(40, 0), Pt(50, 0)), Chain(false, ArcSeg(Pt(50, 10), 10, -math.Pi/2, 1))),
		"spiral":    Parallel(Chain(false, ArcSeg(Pt(0, 0), 80, 0, math.Pi/2)), 20, 8),
		"both ways": Reversed(Reversed(Parallel(humpCubic(), 20, 8))),
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
	_, a := ss[0].End(1)
	_, b := ss[1].End(0)
	assert.InDelta(t, 0, a.Dist(Pt(0, 1)), 1e-3)
	assert.InDelta(t, 0, b.Dist(Pt(0, -1)), 1e-3)
	assert.Empty(t, Path{Segs: []Segment{LineSeg(Pt(1, 1), Pt(1, 1))}}.Stretches())
}
