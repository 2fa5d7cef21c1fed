package form

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// A plate of 10 x 6 with a hole of 4 x 2, cut once more at 5: its slabs by hand.
func TestSlabsOfAPlateWithAHole(t *testing.T) {
	box := func(x0, y0, x1, y1 float64) plane.Path {
		return plane.RectPath(plane.BoxOf(plane.Pt(x0, y0), plane.Pt(x1, y1)))
	}
	r := plane.Region{Outer: box(0, 0, 10, 6), Holes: []plane.Path{box(3, 2, 7, 4)}}
	level := func(u0, u1, lo, hi float64) slab { return slab{u0, u1, lo, lo, hi, hi} }
	want := []slab{
		level(0, 3, 0, 6),
		level(3, 5, 0, 2), level(3, 5, 4, 6),
		level(5, 7, 0, 2), level(5, 7, 4, 6),
		level(7, 10, 0, 6),
	}
	out := Outlines(r)
	require.Len(t, out, 2)
	assert.Len(t, out[0], 4, "a corner is not told twice")
	assert.Equal(t, want, slabs(out, []float64{5}))
	assert.Equal(t, want, slabs(out, []float64{5, 5}), "a cut twice is one")
	// A corner as near to a cut as rounding is on it: no sliver between.
	near := slabs(out, []float64{3 + 5e-10, 5})
	require.Len(t, near, 6)
	assert.Equal(t, 3+5e-10, near[1].u0, "the corner moves, the cut stays")
	assert.Len(t, slabs(out, []float64{3 + 1e-6, 5}), 8, "further off it is a cut of its own")
	assert.Equal(t, 3.0, snapper([]float64{3, 4})(3-5e-10), "from below too")
	assert.Equal(t, 3.1, snapper([]float64{3, 4})(3.1))
}

// Points of a flattened outline lie on it or within flatness, and what encloses nothing is
// left out.
func TestOutlinesAreFlat(t *testing.T) {
	for _, pts := range Outlines(plane.Region{Outer: plane.CirclePath(plane.Pt(0, 0), 40)}) {
		for i, p := range pts {
			assert.InDelta(t, 40, p.Len(), 1e-9)
			assert.InDelta(t, 40, p.Lerp(pts[(i+1)%len(pts)], 0.5).Len(), flatness)
		}
		assert.Less(t, len(pts), 200, "141 chords of 0.0447 rad stand off by 0.01 mm")
	}
	there := plane.Chain(true, plane.LineSeg(plane.Pt(0, 0), plane.Pt(5, 0)), plane.LineSeg(plane.Pt(5, 0), plane.Pt(0, 0)))
	assert.Empty(t, loops(plane.Region{Outer: there}))
}

// Ends square to the bend and sharp corners come in order along it; a round outline has
// neither.
func TestEndsAndCorners(t *testing.T) {
	flag := plane.Region{Outer: plane.Poly(plane.Pt(0, 0), plane.Pt(30, 0), plane.Pt(20, 5), plane.Pt(20, 10), plane.Pt(0, 10))}
	pts := Outlines(flag)
	assert.Equal(t, []square{{0, 10, 0}, {20, 5, 10}}, endsOf(pts))
	var us []float64
	for _, c := range cornersOf(pts) {
		us = append(us, c.X)
	}
	assert.Equal(t, []float64{0, 0, 20, 20, 30}, us)
	round := Outlines(shapes()["ellipse"])
	assert.Empty(t, cornersOf(round))
	// 19 degrees are no edge, 21 are.
	for degrees, want := range map[float64]int{19: 3, 21: 4} {
		bent := plane.Dir(degrees * math.Pi / 180).Mul(20)
		wedge := plane.Poly(plane.Pt(0, 0), plane.Pt(20, 0), plane.Pt(20, 0).Add(bent), plane.Pt(10, 60))
		assert.Len(t, cornersOf(Outlines(plane.Region{Outer: wedge})), want, "%g degrees", degrees)
	}
}

// The edges of a prism are its outline at either height and an upright at each corner.
func TestEdgesOfAPrism(t *testing.T) {
	for name, outline := range shapes() {
		p := NewPrism(outline, Section(), -2, 4)
		e, around, upright, want := p.Edges, 0.0, 0, 0
		for i := 0; i+5 < len(e); i += 6 {
			if e[i+2] != e[i+5] {
				assert.Equal(t, [2]float32{e[i], e[i+1]}, [2]float32{e[i+3], e[i+4]}, name)
				upright++
				continue
			}
			around += math.Hypot(float64(e[i+3]-e[i]), float64(e[i+4]-e[i+1]))
		}
		length := 0.0
		for _, q := range outline.Paths() {
			length += q.Length()
		}
		for _, pts := range Outlines(outline) {
			if len(pts) < 20 { // a polygon
				want += len(pts)
			}
		}
		assert.InDelta(t, 2*length, around, 0.004*length, name)
		assert.Equal(t, want, upright, name)
	}
}

// Everything drawn of a flat lies on it: between its rulings, and no higher or lower than the
// sheet. At a ruling it lies in the plane that halves the fold, which the flat after says as
// well as the one before.
func TestEachPlaceBelongsToItsFlat(t *testing.T) {
	for name, outline := range shapes() {
		for _, contact := range []bool{false, true} {
			s := scored(outline, contact)
			s.Root = wide / 4
			m := NewMesh(s)
			frames, rs := Fold(s.Strip), s.Strip.Rulings
			for part, p := range map[string]*Points{"body": &m.Body, "slots": &m.Slots, "edges": &m.Edges, "scores": &m.Scores} {
				require.Len(t, p.Ends, len(frames))
				require.Equal(t, len(p.Flat)/3, p.Ends[len(p.Ends)-1])
				at := 0
				for flat, end := range p.Ends {
					for ; at < end; at++ {
						u, v, h := float64(p.Flat[3*at]), float64(p.Flat[3*at+1]), float64(p.Flat[3*at+2])
						const eps = 1e-4
						if flat > 0 {
							require.GreaterOrEqual(t, u, rs[flat-1].Flat[0].X-eps, "%s of %s", part, name)
						}
						if flat < len(rs) {
							require.LessOrEqual(t, u, rs[flat].Flat[0].X+eps, "%s of %s", part, name)
						}
						require.GreaterOrEqual(t, h, -eps, "%s of %s", part, name)
						require.LessOrEqual(t, h, thick+eps, "%s of %s", part, name)
						if flat < len(rs) && math.Abs(u-rs[flat].Flat[0].X) < 1e-5 {
							r := rs[flat]
							want := frames[flat+1].At(u+(r.Height[0]-h)*math.Tan(r.Turn/2), v, h)
							got := p.Bent[3*at : 3*at+3]
							require.InDelta(t, want.X, got[0], 2e-4, "%s of %s", part, name)
							require.InDelta(t, want.Y, got[1], 2e-4, "%s of %s", part, name)
						}
					}
				}
			}
		}
	}
}
