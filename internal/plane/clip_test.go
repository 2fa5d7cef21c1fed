package plane

import (
	"math"
	"math/rand"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// proper returns the spans that pass through the region.
func proper(ss []Span) []Span {
	var out []Span
	for _, s := range ss {
		if !s.Graze {
			out = append(out, s)
		}
	}
	return out
}

func TestClipLine(t *testing.T) {
	ring := mustRegion("M 10 0 A 10 0 1 -10 0 A 10 0 1 10 0 Z M 6 0 A 6 0 1 -6 0 A 6 0 1 6 0 Z")
	square := mustRegion("M 0 0 L 10 0 L 10 10 L 0 10 Z")
	ell := mustRegion("M 0 0 L 10 0 L 10 5 L 5 5 L 5 10 L 0 10 Z")
	diamond := mustRegion("M 0 -5 L 5 0 L 0 5 L -5 0 Z")
	holed := mustRegion("M -20 -20 L 20 -20 L 20 20 L -20 20 Z M 0 -5 L 5 0 L 0 5 L -5 0 Z")
	hump := mustRegion("M 0 0 L 40 0 C 30 20 10 20 0 0 Z") // top at y 15
	for _, c := range []struct {
		name string
		r    Region
		a, b Point
		want []Span // sines left out
	}{
		{"ring, middle", ring, Pt(-20, 0), Pt(0, 0), []Span{{From: 10, To: 14}, {From: 26, To: 30}}},
		{"ring, touching the hole", ring, Pt(-20, 6), Pt(0, 6), []Span{{From: 12, To: 28}, {From: 20, To: 20, Graze: true}}},
		{"ring, touching the outside", ring, Pt(-20, -10), Pt(0, -10), []Span{{From: 20, To: 20, Graze: true}}},
		{"ring, past it", ring, Pt(-20, 10.001), Pt(0, 10.001), nil},
		{"square, along its bottom", square, Pt(-5, 0), Pt(0, 0), []Span{{From: 5, To: 15, Graze: true}}},
		{"square, along its top", square, Pt(-5, 10), Pt(0, 10), []Span{{From: 5, To: 15, Graze: true}}},
		{"square, along its side, downwards", square, Pt(10, 20), Pt(10, 0), []Span{{From: 10, To: 20, Graze: true}}},
		{"square, diagonal", square, Pt(0, 0), Pt(1, 1), []Span{{From: 0, To: 10 * math.Sqrt2}}},
		{"square, touching a corner", square, Pt(-10, 10), Pt(0, 20), nil},
		{"square, at a corner", square, Pt(-10, 0), Pt(0, 10), []Span{{From: 10 * math.Sqrt2, To: 10 * math.Sqrt2, Graze: true}}},
		{"ell, edge then inside", ell, Pt(-5, 5), Pt(0, 5), []Span{{From: 5, To: 10}, {From: 10, To: 15, Graze: true}}},
		{"ell, the same backwards", ell, Pt(15, 5), Pt(0, 5), []Span{{From: 5, To: 10, Graze: true}, {From: 10, To: 15}}},
		{"diamond, through two vertices", diamond, Pt(-10, 0), Pt(0, 0), []Span{{From: 5, To: 15}}},
		{"diamond, touching the top", diamond, Pt(-10, 5), Pt(0, 5), []Span{{From: 10, To: 10, Graze: true}}},
		{"hole's vertex from above", holed, Pt(-30, 5), Pt(0, 5), []Span{{From: 10, To: 50}, {From: 30, To: 30, Graze: true}}},
		{"hole's vertex from below", holed, Pt(-30, -5), Pt(0, -5), []Span{{From: 10, To: 50}, {From: 30, To: 30, Graze: true}}},
		{"hump, its top", hump, Pt(0, 15), Pt(1, 15), []Span{{From: 20, To: 20, Graze: true}}},
	} {
		// The answer may not depend on where the drawing lies or how it is turned.
		for _, m := range []Affine{Identity(), Rotate(0.3), Translate(1000, -777).Mul(Rotate(2)), mirror(Pt(1, 0), Pt(2, 5))} {
			got := c.r.Apply(m).ClipLine(m.Apply(c.a), m.Apply(c.b))
			require.Len(t, got, len(c.want), "%s: %v", c.name, got)
			for i, w := range c.want {
				tol := 1e-9
				if w.Graze && w.From == w.To {
					tol = 1e-3 // a point of contact is as wide as the root of the tolerance
				}
				assert.InDelta(t, w.From, got[i].From, tol, c.name)
				assert.InDelta(t, w.To, got[i].To, tol, c.name)
				assert.Equal(t, w.Graze, got[i].Graze, c.name)
			}
		}
	}
}

func TestClipSines(t *testing.T) {
	r := mustRegion("M 0 0 L 10 0 L 0 10 Z")
	s := r.ClipLine(Pt(-1, 2), Pt(0, 2))
	require.Len(t, s, 1)
	assert.InDelta(t, 1, s[0].FromSine, 1e-12)
	assert.InDelta(t, math.Sqrt(0.5), s[0].ToSine, 1e-12)
	// sine = sqrt(1 - (d/r)^2) at distance d from the middle of a circle
	c := Region{Outer: CirclePath(Pt(0, 0), 10)}
	s = c.ClipLine(Pt(-20, 9.9), Pt(20, 9.9))
	assert.InDelta(t, math.Sqrt(1-0.99*0.99), s[0].ToSine, 1e-9)
	assert.InDelta(t, 20-math.Sqrt(100-9.9*9.9), s[0].From, 1e-9)
}

func TestClipSegment(t *testing.T) {
	r := mustRegion("M 0 0 L 10 0 L 10 10 L 0 10 Z")
	s := r.ClipSegment(Pt(5, 5), Pt(20, 5))
	require.Len(t, s, 1)
	assert.Equal(t, Span{From: 0, To: 5, ToSine: 1}, s[0])
	assert.Empty(t, r.ClipSegment(Pt(11, 5), Pt(20, 5)))
	assert.Empty(t, r.ClipSegment(Pt(10, 5), Pt(20, 5)))
	assert.Len(t, r.ClipSegment(Pt(2, 5), Pt(3, 5)), 1)
}

// TestClipAgainstContains walks along random lines and asks Contains, which works by
// another axis, at points between the ends found.
func TestClipAgainstContains(t *testing.T) {
	rng := rand.New(rand.NewSource(4))
	for range 200 {
		r := Region{Outer: starPath(rng, Pt(0, 0), 100, 6+rng.Intn(40)),
			Holes: []Path{starPath(rng, Pt(10, 5), 30, 9).Reverse(), CirclePath(Pt(-30, -20), 7).Reverse()}}
		a, u := Pt(rng.Float64()*80-40, rng.Float64()*80-40), Dir(rng.Float64()*7)
		ss := proper(r.ClipLine(a, a.Add(u.Mul(3))))
		cuts := []float64{-300, 300}
		for _, s := range ss {
			cuts = append(cuts, s.From, s.To)
		}
		sort.Float64s(cuts)
		for i := 1; i < len(cuts); i++ {
			if cuts[i]-cuts[i-1] < 1e-6 {
				continue
			}
			for _, f := range []float64{1e-6, 0.5, 1 - 1e-6} {
				q := a.Add(u.Mul(cuts[i-1] + f*(cuts[i]-cuts[i-1])))
				assert.Equal(t, i%2 == 0, r.Contains(q))
			}
		}
	}
}

// TestClipLinesByArea: the integral of the inside length over the offsets is the area.
func TestClipLinesByArea(t *testing.T) {
	rng := rand.New(rand.NewSource(5))
	r := Region{Outer: starPath(rng, Pt(0, 0), 100, 60), Holes: []Path{CirclePath(Pt(3, 4), 20).Reverse()}}
	const n = 4000
	offsets := make([]float64, n)
	for i := range offsets {
		offsets[i] = 110 - 220*(float64(i)+0.5)/n // falling: order must not matter
	}
	sum := 0.0
	all := r.ClipLines(Pt(0, 0), Pt(1, 2), offsets)
	for i, ss := range all {
		for _, s := range proper(ss) {
			sum += s.Len() * 220 / n
		}
		if i%97 == 0 {
			u := Pt(1, 2).Unit()
			o := u.Left().Mul(offsets[i])
			one := r.ClipLine(o, o.Add(u))
			require.Len(t, ss, len(one))
			for k := range one {
				assert.InDelta(t, one[k].From, ss[k].From, 1e-8)
				assert.InDelta(t, one[k].To, ss[k].To, 1e-8)
			}
		}
	}
	assert.InEpsilon(t, r.Area(), sum, 1e-4)
	assert.Panics(t, func() { r.ClipLine(Pt(1, 1), Pt(1, 1)) })
}

func benchmarkClip(b *testing.B, lines, segments int) {
	rng := rand.New(rand.NewSource(6))
	pts := make([]Point, segments)
	for i := range pts {
		a := 2 * math.Pi * float64(i) / float64(segments)
		pts[i] = Dir(a).Mul(250 + 40*math.Sin(5*a) + 0.01*rng.Float64())
	}
	r := Region{Outer: Poly(pts...)}
	offsets := make([]float64, lines)
	for i := range offsets {
		offsets[i] = -300 + 600*float64(i)/float64(lines)
	}
	for b.Loop() {
		r.ClipLines(Pt(0, 0), Pt(0, 1), offsets)
	}
}

func BenchmarkClip500Lines300Segments(b *testing.B)   { benchmarkClip(b, 500, 300) }
func BenchmarkClip500Lines20000Segments(b *testing.B) { benchmarkClip(b, 500, 20000) }
func BenchmarkClip1Line300Segments(b *testing.B)      { benchmarkClip(b, 1, 300) }

// Where a line meets arcs it is told from their circles; the root on the arc's own
// parameter says the same, for arcs from hardly bent to nearly whole.
func TestCrossingsOfArcsAreOnTheirPoints(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	crossings := 0
	for range 400 {
		a, b := Pt(100*rng.Float64(), 100*rng.Float64()), Pt(100*rng.Float64(), 100*rng.Float64())
		arc := Segment{Kind: Arc, A: a, B: b, Bulge: math.Exp(12*rng.Float64()-9) * float64(1-2*rng.Intn(2))}
		region := Region{Outer: Path{Segs: []Segment{arc, LineSeg(b, a)}, Closed: true}}
		from, dir := arc.Point(rng.Float64()), Dir(2*math.Pi*rng.Float64())
		for _, s := range region.ClipLine(from, from.Add(dir)) {
			for _, at := range []float64{s.From, s.To} {
				p := from.Add(dir.Mul(at))
				near := math.Inf(1)
				for _, seg := range region.Outer.Segs {
					near = math.Min(near, seg.Distance(p))
				}
				assert.Less(t, near, 1e-8, "%v %v", arc, s)
				crossings++
			}
		}
	}
	assert.Greater(t, crossings, 600)
}
