package offset

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
	"springrib/internal/shapes"
)

// checkOffset offsets r and checks what holds for any offset: nothing crosses, senses
// of travel are right, and points of the new edge lie at the distance.
func checkOffset(t *testing.T, r plane.Region, d, tol float64) []plane.Region {
	t.Helper()
	out, err := Region(r, d, tol)
	require.NoError(t, err, "%v by %g", r, d)
	var edge [][]plane.Point
	for _, p := range r.Paths() {
		edge = append(edge, p.Flatten(1e-4))
	}
	for _, o := range out {
		assert.True(t, o.Outer.IsCCW())
		assert.Empty(t, Crossings(o.Paths()...), "%v by %g gives %v", r, d, o)
		for _, p := range o.Paths() {
			require.True(t, p.Closed)
			require.NotPanics(t, func() { plane.Chain(true, p.Segs...) })
			for _, s := range p.Segs {
				q := s.Point(0.37)
				near := math.Inf(1)
				for _, e := range edge {
					near = min(near, shapes.DistToPolyline(q, e))
				}
				assert.InDelta(t, math.Abs(d), near, tol+3e-4, "%v by %g", r, d)
				if math.Abs(d) > 2*tol {
					assert.Equal(t, d < 0, r.Contains(q))
				}
			}
		}
		for _, h := range o.Holes {
			assert.False(t, h.IsCCW())
		}
	}
	return out
}

// TestOffsetSteiner: for a convex outline of perimeter P and area A, the parallel at d
// has area A + P d + pi d^2 and perimeter P + 2 pi d (Steiner's formula).
func TestOffsetSteiner(t *testing.T) {
	const tol = 0.003
	for name, p := range map[string]plane.Path{
		"square":  plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(40, 40))),
		"circle":  plane.CirclePath(plane.Pt(3, 4), 25),
		"ellipse": shapes.FourCubics(plane.Pt(0, 0), 30, 15),
		"lens":    plane.Chain(true, plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(60, 0), 0.4), plane.BulgeSeg(plane.Pt(60, 0), plane.Pt(0, 0), 0.3)),
		"polygon": plane.Poly(plane.Pt(0, 0), plane.Pt(50, -10), plane.Pt(70, 20), plane.Pt(40, 50), plane.Pt(-5, 30)),
	} {
		for _, d := range []float64{0.05, 1, 6.35, 100} {
			out := checkOffset(t, plane.Region{Outer: p}, d, tol)
			require.Len(t, out, 1, name)
			assert.Empty(t, out[0].Holes)
			l := p.Length()
			assert.InDelta(t, p.Area()+l*d+math.Pi*d*d, out[0].Area(), tol*(l+7*d), "%s by %g", name, d)
			assert.InDelta(t, l+2*math.Pi*d, out[0].Outer.Length(), 0.05, "%s by %g", name, d)
		}
	}
}

func TestOffsetKeepsLinesAndArcs(t *testing.T) {
	r := mustRegion("M 0 0 L 40 0 L 40 20 L 0 20 Z M 10 10 A 5 0 0 20 10 A 5 0 0 10 10 Z")
	out := checkOffset(t, r, 2, 0.01)
	require.Len(t, out, 1)
	assert.Equal(t, "lalalala", shapes.Kinds(out[0].Outer))
	assert.Equal(t, "aa", shapes.Kinds(out[0].Holes[0]))
	assert.InDelta(t, 40*20+120*2+math.Pi*4-math.Pi*9, out[0].Area(), 1e-9)
	in := checkOffset(t, r, -2, 0.01)
	require.Len(t, in, 1)
	assert.Equal(t, "llll", shapes.Kinds(in[0].Outer))
	assert.InDelta(t, 36*16-math.Pi*49, in[0].Area(), 1e-9)
	same, err := Region(r, 0, 0.01)
	require.NoError(t, err)
	assert.InDelta(t, r.Area(), same[0].Area(), 1e-12)
}

func TestOffsetTopology(t *testing.T) {
	dumbbell := mustRegion("M 0 0 L 20 0 L 20 8 L 40 8 L 40 0 L 60 0 L 60 20 L 40 20 L 40 12 L 20 12 L 20 20 L 0 20 Z")
	ring := plane.Region{Outer: plane.CirclePath(plane.Pt(0, 0), 20), Holes: []plane.Path{plane.CirclePath(plane.Pt(0, 0), 5).Reverse()}}
	horseshoe := mustRegion("M 0 0 L 40 0 L 40 30 L 22 30 L 22 29 L 39 29 L 39 1 L 1 1 L 1 29 L 18 29 L 18 30 L 0 30 Z")
	for _, c := range []struct {
		name   string
		r      plane.Region
		d      float64
		pieces int
		holes  int
	}{
		{"a neck stays", dumbbell, -1.9, 1, 0},
		{"a neck closes", dumbbell, -2.1, 2, 0},
		{"a neck closes just so", dumbbell, -2, 2, 0},
		{"all gone", dumbbell, -11, 0, 0},
		{"a ring", ring, 1, 1, 1},
		{"its hole closes", ring, 5.5, 1, 0},
		{"its hole closes just so", ring, 5, 1, 0},
		{"its hole grows", ring, -3, 1, 1},
		{"it is gone", ring, -8, 0, 0},
		{"a mouth closes to a hole", horseshoe, 2.5, 1, 1},
		{"and the hole fills", horseshoe, 14.5, 1, 0},
	} {
		for _, m := range []plane.Affine{plane.Identity(), plane.Rotate(0.7), shapes.Mirror(plane.Pt(0, 0), plane.Pt(2, 1))} {
			out := checkOffset(t, c.r.Apply(m), c.d, 0.01)
			require.Len(t, out, c.pieces, c.name)
			holes := 0
			for _, o := range out {
				holes += len(o.Holes)
			}
			assert.Equal(t, c.holes, holes, c.name)
		}
	}
}

// wavy is an outline of arcs, lines and cubics with necks and bays, and holes.
func wavy(rng *rand.Rand) plane.Region {
	r := plane.Region{Outer: shapes.Star(rng, plane.Pt(0, 0), 60, 5+rng.Intn(16))}
	for _, at := range []plane.Point{plane.Pt(12, 9), plane.Pt(-14, 8), plane.Pt(3, -15)} {
		if rng.Intn(2) == 0 {
			r.Holes = append(r.Holes, shapes.Star(rng, at, 7, 3+rng.Intn(5)).Reverse())
		}
	}
	return r
}

func TestOffsetRandomOutlines(t *testing.T) {
	rng := rand.New(rand.NewSource(10))
	for i := range 200 {
		r := wavy(rng)
		d := (rng.Float64() - 0.5) * 16
		out := checkOffset(t, r, d, 0.02)
		area := 0.0
		for _, o := range out {
			area += o.Area()
		}
		if d > 0 {
			assert.Greater(t, area, r.Area(), "outline %d", i)
		} else {
			assert.Less(t, area, r.Area(), "outline %d", i)
		}
		// Counting points of a grid is another way to the area.
		if i%40 == 0 {
			assert.InDelta(t, gridArea(r, d), area, 0.02*area+3)
		}
	}
}

// gridArea estimates the area of the offset by asking distances on a grid.
func gridArea(r plane.Region, d float64) float64 {
	b, n := r.Box().Grow(math.Abs(d)), 0
	var edges [][]plane.Point
	for _, p := range r.Paths() {
		edges = append(edges, p.Flatten(0.05))
	}
	const step = 0.8
	for x := b.Min.X + 0.17; x < b.Max.X; x += step {
		for y := b.Min.Y + 0.29; y < b.Max.Y; y += step {
			near := math.Inf(1)
			for _, e := range edges {
				near = min(near, shapes.DistToPolyline(plane.Pt(x, y), e))
			}
			if in := r.Contains(plane.Pt(x, y)); d > 0 && (in || near < d) || d < 0 && in && near > -d {
				n++
			}
		}
	}
	return float64(n) * step * step
}

func TestCrossings(t *testing.T) {
	eight := plane.Poly(plane.Pt(0, 0), plane.Pt(10, 10), plane.Pt(10, 0), plane.Pt(0, 10))
	c := Crossings(eight)
	require.Len(t, c, 1)
	assert.InDelta(t, 0, c[0].Dist(plane.Pt(5, 5)), 1e-12)
	assert.Empty(t, Crossings(plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(5, 5)))))
	assert.Empty(t, Crossings(plane.CirclePath(plane.Pt(0, 0), 5)))
	loop := plane.MustParse("M 0 0 C 40 20 -10 20 30 0")
	assert.Len(t, Crossings(loop), 1)
	r := plane.Region{Outer: plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(10, 10))), Holes: []plane.Path{plane.CirclePath(plane.Pt(10, 5), 2).Reverse()}}
	assert.Len(t, Crossings(r.Paths()...), 2)
	assert.Len(t, Crossings(plane.CirclePath(plane.Pt(0, 0), 5), plane.CirclePath(plane.Pt(6, 0), 5)), 2)
	assert.Empty(t, Crossings(plane.CirclePath(plane.Pt(0, 0), 5), plane.CirclePath(plane.Pt(16, 0), 5)))
	touch := Crossings(plane.CirclePath(plane.Pt(0, 0), 5), plane.MustParse("M -9 5 L 9 5"))
	require.NotEmpty(t, touch)
	assert.InDelta(t, 0, touch[0].Dist(plane.Pt(0, 5)), 1e-4)
}

func BenchmarkOffsetRandom(b *testing.B) {
	r := wavy(rand.New(rand.NewSource(12)))
	for b.Loop() {
		if _, err := Region(r, 2, 0.01); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOffsetPolygon1000(b *testing.B) {
	r := plane.Region{Outer: plane.Poly(shapes.EllipsePoints(200, 150, 1000)...)}
	for b.Loop() {
		if _, err := Region(r, 2, 0.01); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOffsetPolygon20000(b *testing.B) {
	r := plane.Region{Outer: plane.Poly(shapes.EllipsePoints(200, 150, 20000)...)}
	for b.Loop() {
		if _, err := Region(r, 2, 0.01); err != nil {
			b.Fatal(err)
		}
	}
}
