package sheet

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

func TestHull(t *testing.T) {
	h := hull([]plane.Point{{X: 1, Y: 1}, {X: 0, Y: 0}, {X: 2, Y: 0}, {X: 1, Y: 0}, {X: 2, Y: 2}, {X: 0, Y: 2}, {X: 2, Y: 0}})
	assert.Equal(t, convex{{X: 0, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 2}, {X: 0, Y: 2}}, h)
	assert.Len(t, hull([]plane.Point{{X: 1, Y: 1}, {X: 1, Y: 1}}), 1)
	assert.Len(t, hull([]plane.Point{{X: 1, Y: 1}, {X: 2, Y: 2}, {X: 3, Y: 3}}), 2)
}

// The area of a sum is area + area + twice the mixed area; a polygon and a stretch
// sweep out the polygon and its width across times the length.
func TestSum(t *testing.T) {
	sq := hull([]plane.Point{{X: 0, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 2}, {X: 0, Y: 2}})
	tri := hull([]plane.Point{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 0, Y: 1}})
	assert.InDelta(t, 16, sum(sq, sq).area(), 1e-12)
	assert.InDelta(t, 4+.5+4, sum(sq, tri).area(), 1e-12)
	for k := range 12 {
		d := plane.Dir(float64(k) * math.Pi / 6).Mul(3)
		s := hull([]plane.Point{{X: 5, Y: 1}, plane.Pt(5, 1).Add(d)})
		width := math.Abs(2*d.X) + math.Abs(2*d.Y)
		assert.InDelta(t, 4+width, sum(sq, s).area(), 1e-9)
		assert.InDelta(t, 4+width, sum(s, sq).area(), 1e-9)
	}
	assert.InDelta(t, 4, sum(sq, convex{{X: 7, Y: 7}}).area(), 1e-12)
	assert.InDelta(t, 4, sum(convex{{X: 7, Y: 7}}, sq).area(), 1e-12)
}

func TestSumAgainstHull(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 500 {
		var a, b, all []plane.Point
		for range 1 + r.IntN(7) {
			a = append(a, plane.Pt(math.Round(between(r, 0, 6)), math.Round(between(r, 0, 6))))
			b = append(b, plane.Pt(between(r, 0, 6), between(r, 0, 6)))
		}
		for _, p := range a {
			for _, q := range b {
				all = append(all, p.Add(q))
			}
		}
		want := hull(all)
		got := sum(hull(a), hull(b))
		require.InDelta(t, want.area(), got.area(), 1e-9)
		require.InDelta(t, want.area(), hull(got).area(), 1e-9)
	}
}

func ringsOf(r plane.Region) [][]plane.Point {
	rings, _ := flatten(r.Paths(), 0.2)
	return rings
}

func TestDecompose(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	ell := poly(0, 0, 30, 0, 30, 10, 10, 10, 10, 40, 0, 40)
	assert.Len(t, decompose(ringsOf(rect(10, 5)), 9), 1)
	assert.Len(t, decompose(ringsOf(ell), 9), 2)
	assert.Len(t, decompose(ringsOf(ell.Apply(plane.Rotate(0.3))), 9), 2)
	assert.Len(t, decompose(ringsOf(ell), 1), 1)
	for range 200 {
		p := randomPiece(r)
		rings := ringsOf(p.Outline)
		parts := decompose(rings, 1000)
		area, want := 0., 0.
		for _, c := range parts {
			area += c.area()
		}
		for i, ring := range rings {
			a := plane.Poly(ring...).Area()
			if i > 0 {
				a = -math.Abs(a)
			}
			want += a
		}
		require.InEpsilon(t, want, area, 1e-8)
		few := decompose(rings, 6)
		require.LessOrEqual(t, len(few), 6)
		for _, c := range parts { // the few hold the many
			for _, q := range c {
				in := slices.ContainsFunc(few, func(d convex) bool { return inConvex(d, q, 1e-6) })
				require.True(t, in)
			}
		}
	}
}

func inConvex(c convex, p plane.Point, tol float64) bool {
	for i := range c {
		u := c[(i+1)%len(c)].Sub(c[i]).Unit()
		if u.Cross(p.Sub(c[i])) < -tol {
			return false
		}
	}
	return true
}

// depth returns how deep p lies in the zones that hold it, 0 when none does: the sum
// of the least ways out of each. A touch does not count.
func (f *nofit) depth(p plane.Point) float64 {
	if !f.box.holds(p) {
		return 0
	}
	total := 0.0
next:
	for i := range f.zones {
		z := &f.zones[i]
		if !z.box.holds(p) {
			continue
		}
		d := z.box.depth(p)
		for _, s := range f.sides[z.from:z.to] {
			if e := s.c - s.nx*p.X - s.ny*p.Y; e < d {
				if e <= touch {
					continue next
				}
				d = e
			}
		}
		total += d
	}
	return total
}

// holds reports whether p lies inside b by more than a touch.
func (b *bounds) holds(p plane.Point) bool {
	return p.X-b.x0 > touch && b.x1-p.X > touch && p.Y-b.y0 > touch && b.y1-p.Y > touch
}

// depth returns the least way out of b for p inside it.
func (b *bounds) depth(p plane.Point) float64 {
	return min(p.X-b.x0, b.x1-p.X, p.Y-b.y0, b.y1-p.Y)
}

// deepest is depth for the deepest zone alone.
func deepest(f *nofit, p plane.Point) float64 {
	d := 0.0
	for _, z := range f.zones {
		d = max(d, (&nofit{box: z.box, zones: []zone{z}, sides: f.sides}).depth(p))
	}
	return d
}

// A part where the nofit says it may be is found sound by the exact tests; deep
// inside, it is not.
func TestNofitAgainstExact(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 3))
	free, taken := 0, 0
	for range 60 {
		a, b := randomPiece(r), randomPiece(r)
		a.Quantity, b.Quantity = 1, 1
		a.Turns, b.Turns = nil, []float64{between(r, 0, 6)}
		job := Job{Gap: between(r, 0, 6), CutOuts: true, Beds: bed(1e4, 1e4, 0), Pieces: []Piece{a, b}}
		least := 2 * job.Gap
		ka := newKind(&a, newSolid(&a, true, least), 0, 3)
		kb := newKind(&b, newSolid(&b, true, least), b.Turns[0], 3)
		f := newNofit(ka, kb, job.Gap)
		for range 20 {
			q := plane.Pt(between(r, f.box.x0, f.box.x1), between(r, f.box.y0, f.box.y1))
			l := Layout{Placed: []Placed{{0, 0, Place{X: 5000, Y: 5000}}, {1, 0, Place{X: 5000 + q.X, Y: 5000 + q.Y, Turn: b.Turns[0]}}}}
			faults := Verify(&job, &l)
			d := f.depth(q)
			if len(f.zones) > 1 {
				d = deepest(f, q)
			}
			loose := 2*(ka.slack+kb.slack) + 0.2*job.Gap
			switch {
			case d <= touch:
				free++
				require.Empty(t, faults)
			case d > loose+0.01 && len(ka.body) < partLimit && len(kb.body) < partLimit && len(ka.reach)+len(kb.reach) == 0:
				taken++
				require.NotEmpty(t, faults)
			}
		}
	}
	assert.Greater(t, free, 200)
	assert.Greater(t, taken, 80)
}

// Along a line, the spans are where the depth is not 0.
func TestLinesAgainstDepth(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 4))
	for range 60 {
		a, b := randomPiece(r), randomPiece(r)
		f := newNofit(newKind(&a, newSolid(&a, true, 5), 0, 3), newKind(&b, newSolid(&b, true, 5), 1, 3), 3)
		for range 20 {
			q := plane.Pt(between(r, f.box.x0, f.box.x1), between(r, f.box.y0, f.box.y1))
			in := func(spans []span, t float64) bool {
				return slices.ContainsFunc(spans, func(s span) bool { return s.lo < t && t < s.hi })
			}
			require.Equal(t, f.depth(q) > 1e-6, in(f.level(nil, q.Y), q.X) && f.depth(q) > 1e-6)
			require.Equal(t, f.depth(q) > 1e-6, in(f.upright(nil, q.X), q.Y) && f.depth(q) > 1e-6)
			x, ok := nearest(f.level(nil, q.Y), -1e4, 1e4, q.X)
			require.True(t, ok)
			require.LessOrEqual(t, f.depth(plane.Pt(x, q.Y)), touch)
		}
	}
}

func TestNearest(t *testing.T) {
	spans := []span{{5, 8}, {1, 3}, {2, 4}, {8, 9}}
	for _, c := range []struct{ lo, hi, want, at float64 }{
		{0, 10, 0, 0}, {0, 10, 2, 1}, {0, 10, 3.7, 4}, {0, 10, 6.4, 5}, {0, 10, 8, 8}, {0, 10, 8.7, 9}, {2, 10, 2, 4}, {2, 4.5, 9, 4.5},
	} {
		at, ok := nearest(slices.Clone(spans), c.lo, c.hi, c.want)
		assert.True(t, ok)
		assert.InDelta(t, c.at, at, 1e-12, "%v", c)
	}
	_, ok := nearest(slices.Clone(spans), 5.5, 7.5, 6)
	assert.False(t, ok)
	_, ok = nearest(slices.Clone(spans), 5.5, 8, 6) // the seam of two spans
	assert.True(t, ok)
}
