package plane

import (
	"math"
	"math/rand"
	"testing"

	"springrib/internal/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAreaOfKnownShapes(t *testing.T) {
	assert.InDelta(t, 12, RectPath(Box{Pt(1, 1), Pt(5, 4)}).Area(), 1e-12)
	assert.InDelta(t, 49*math.Pi, CirclePath(Pt(1e4, -2e4), 7).Area(), 1e-8)
	assert.InDelta(t, -49*math.Pi, CirclePath(Pt(1, 2), 7).Reverse().Area(), 1e-11)
	// Under the parabola y = x^2 over 0..1: a third.
	p := MustParse("M 0 0 L 1 0 L 1 1 C 0.6666666666666666 0.3333333333333333 0.3333333333333333 0 0 0 Z")
	assert.InDelta(t, 1./3, p.Area(), 1e-12)
	// Segment of a circle: r^2 (w - sin w)/2, also where it is thin.
	for _, w := range []float64{1e-5, 1e-3, 0.2499, 0.2501, 2, 5} {
		s := ArcSeg(Pt(0, 0), 100, 0, w)
		want := 1e4 / 2 * (w - math.Sin(w))
		if w < 0.01 {
			want = 1e4 / 12 * w * w * w * (1 - w*w/20)
		}
		assert.InEpsilon(t, want, Path{Segs: []Segment{s}}.Area(), 1e-9, "w %g", w)
	}
}

func TestAreaAgainstFlattening(t *testing.T) {
	for _, s := range segmentZoo() {
		p := Path{Segs: []Segment{s}}
		f := Poly(p.Flatten(1e-5)...)
		assert.InDelta(t, f.Area(), p.Area(), 1e-4*(1+p.Length()), "%v", s)
		assert.InDelta(t, f.Area(), -p.Reverse().Area(), 1e-4*(1+p.Length()), "%v", s)
	}
}

func TestFlattenStaysWithinTolerance(t *testing.T) {
	for _, s := range segmentZoo() {
		for _, tol := range []float64{1, 0.1, 1e-3} {
			pts := Path{Segs: []Segment{s}}.Flatten(tol)
			for i := range 501 {
				d := distToPolyline(s.Point(float64(i)/500), pts)
				assert.LessOrEqual(t, d, tol*(1+1e-9)+1e-12, "%v at %g", s, tol)
			}
		}
	}
}

func distToPolyline(p Point, pts []Point) float64 {
	d := math.Inf(1)
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		v := b.Sub(a)
		f := solve.Clamp(p.Sub(a).Dot(v)/v.Dot(v), 0, 1)
		if v == (Point{}) {
			f = 0
		}
		d = math.Min(d, p.Dist(a.Lerp(b, f)))
	}
	return d
}

// starPath is a random outline that doesn't cross itself: seen from its middle, the
// angle only grows. Sides are lines, flat arcs and cubics in turn.
func starPath(rng *rand.Rand, c Point, r float64, n int) Path {
	pts := make([]Point, n)
	for i := range pts {
		a := 2 * math.Pi * (float64(i) + 0.3*rng.Float64()) / float64(n)
		pts[i] = c.Add(Dir(a).Mul(r * (0.6 + 0.4*rng.Float64())))
	}
	p := Path{Closed: true}
	for i, a := range pts {
		b := pts[(i+1)%n]
		switch i % 3 {
		case 0:
			p.Segs = append(p.Segs, LineSeg(a, b))
		case 1:
			p.Segs = append(p.Segs, BulgeSeg(a, b, 0.2*rng.Float64()-0.1))
		default:
			q := b.Sub(a)
			h := q.Left().Mul(0.1 * (rng.Float64() - 0.5))
			p.Segs = append(p.Segs, CubicSeg(a, a.Lerp(b, .3).Add(h), a.Lerp(b, .7).Sub(h), b))
		}
	}
	return p
}

func TestContains(t *testing.T) {
	rng := rand.New(rand.NewSource(2))
	for range 60 {
		p := starPath(rng, Pt(5, -3), 40, 5+rng.Intn(30))
		require.True(t, p.IsCCW())
		pts := p.Flatten(1e-4)
		flat := Poly(pts...)
		for range 60 {
			q := Pt(5+rng.Float64()*100-50, -3+rng.Float64()*100-50)
			if distToPolyline(q, pts) < 1e-3 {
				continue
			}
			assert.Equal(t, flat.Contains(q), p.Contains(q))
			assert.Equal(t, -p.Winding(q), p.Reverse().Winding(q))
			m := Rotate(1.1)
			assert.Equal(t, p.Contains(q), p.Apply(m).Contains(m.Apply(q)))
		}
	}
	// Rays through vertices and along edges.
	sq := RectPath(Box{Pt(0, 0), Pt(2, 2)})
	for _, y := range []float64{0, 1, 2} {
		assert.False(t, sq.Contains(Pt(-1, y)))
		assert.False(t, sq.Contains(Pt(3, y)))
	}
	assert.True(t, Poly(Pt(0, 0), Pt(2, 1), Pt(0, 2), Pt(-2, 1)).Contains(Pt(0, 1)))
	assert.False(t, Open(Pt(0, 0), Pt(1, 0), Pt(0, 1)).Contains(Pt(0.2, 0.2)))
}

func TestRegion(t *testing.T) {
	r := mustRegion("M 0 0 L 0 10 L 10 10 L 10 0 Z M 4 5 A 1 0 1 6 5 A 1 0 1 4 5 Z")
	assert.True(t, r.Outer.IsCCW())
	assert.False(t, r.Holes[0].IsCCW())
	assert.InDelta(t, 100-math.Pi, r.Area(), 1e-12)
	assert.True(t, r.Contains(Pt(1, 1)))
	assert.False(t, r.Contains(Pt(5, 5)))
	m := r.Apply(mirror(Pt(0, 0), Pt(1, 3)))
	assert.True(t, m.Outer.IsCCW())
	assert.False(t, m.Holes[0].IsCCW())
	assert.InDelta(t, r.Area(), m.Area(), 1e-9)
	assert.Len(t, Region{Outer: r.Outer, Holes: []Path{Open(Pt(0, 0), Pt(1, 1))}}.Normal().Holes, 0)
}

func TestBox(t *testing.T) {
	b := EmptyBox()
	assert.True(t, b.Empty())
	assert.Zero(t, b.W())
	assert.True(t, b.Union(b).Empty())
	b = b.Union(BoxOf(Pt(1, 2), Pt(4, 6)))
	assert.Equal(t, Box{Pt(1, 2), Pt(4, 6)}, b)
	assert.Equal(t, 3.0, b.W())
	assert.Equal(t, 4.0, b.H())
	assert.Equal(t, Pt(2.5, 4), b.Centre())
	assert.True(t, b.Overlaps(BoxOf(Pt(4, 6), Pt(9, 9))))
	assert.False(t, b.Overlaps(EmptyBox()))
	assert.True(t, b.Grow(-2).Empty())
	assert.True(t, b.ContainsBox(EmptyBox()))
	assert.False(t, b.ContainsBox(b.Grow(1)))
}

func TestCentroid(t *testing.T) {
	assert.InDelta(t, 0, CirclePath(Pt(3, 4), 2).Centroid().Dist(Pt(3, 4)), 1e-5)
	// Half disc: 4 r / (3 pi) above its straight side.
	half := MustParse("M 3 0 A 3 0 1 -3 0 Z")
	assert.InDelta(t, 4/math.Pi, half.Centroid().Y, 1e-5)
	assert.Panics(t, func() { Open(Pt(0, 0), Pt(1, 0)).Centroid() })
}

// An arc so flat that its radius is beyond all measure is a line, and costs no more.
func TestFlattenOfHardlyBentArcs(t *testing.T) {
	for _, bulge := range []float64{1e-17, -4e-17, 1e-9, 1e-300} {
		assert.Len(t, Path{Segs: []Segment{BulgeSeg(Pt(0, 0), Pt(50, 3), bulge)}}.Flatten(0.05), 2, "bulge %v", bulge)
	}
	// It stands off by 2.5e-7; chords stand off as the square of their number.
	pts := Path{Segs: []Segment{BulgeSeg(Pt(0, 0), Pt(1, 0), 5e-7)}}.Flatten(1e-9)
	assert.InDelta(t, 1+math.Sqrt(2.5e-7/1e-9), len(pts), 1)
}
