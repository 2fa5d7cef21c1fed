package plane

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func leastOf(p Path) float64 {
	least := math.Inf(1)
	for _, s := range p.Segs {
		least = math.Min(least, s.Length())
	}
	return least
}

// Outlines with short pieces strewn in - between lines, beside arcs and cubics, in steps
// and at corners - come out without, closed, and where they were.
func TestTidy(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	merged := 0
	for range 2000 {
		n := 3 + rng.IntN(6)
		var pts []Point
		for i := range n {
			c := Dir(2 * math.Pi * (float64(i) + 0.4*rng.Float64()) / float64(n)).Mul(20 + 20*rng.Float64())
			pts = append(pts, c)
			if rng.IntN(2) == 0 { // a short piece, of a micrometre to more than is taken out
				pts = append(pts, c.Add(Dir(2*math.Pi*rng.Float64()).Mul(0.001*math.Pow(15, rng.Float64()))))
			}
		}
		p := Path{Closed: true}
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			switch kind := rng.IntN(3); {
			case kind == 0 || a.Dist(b) < 1:
				p.Segs = append(p.Segs, LineSeg(a, b))
			case kind == 1:
				p.Segs = append(p.Segs, BulgeSeg(a, b, rng.Float64()-0.5))
			default:
				p.Segs = append(p.Segs, CubicSeg(a, a.Lerp(b, 0.3).Add(Dir(rng.Float64()).Mul(2)), a.Lerp(b, 0.7), b))
			}
		}
		q := p.Tidy()
		merged += len(p.Segs) - len(q.Segs)
		require.True(t, q.Closed)
		require.GreaterOrEqual(t, leastOf(q), 0.0115-1e-5)
		for i, s := range q.Segs {
			require.Less(t, s.B.Dist(q.Segs[(i+1)%len(q.Segs)].A), 1e-9)
		}
		// 0.005 mm for a piece taken out, a little where two lie near each other.
		require.Less(t, strayed(p, q), 0.006, "%v", p)
		require.Less(t, strayed(q, p), 0.006, "%v", p)
	}
	assert.Greater(t, merged, 3000)
}

// strayed is how far the joints and middles of a path lie from another at most.
func strayed(p, q Path) float64 {
	most := 0.0
	tree := newSegTree(Open(q.Flatten(2e-4)...).Segs)
	for _, s := range p.Segs {
		for _, u := range []float64{0, 0.25, 0.5, 0.75} {
			at, lo, hi := s.Point(u), 0.0, 1.0
			for range 30 {
				if mid := (lo + hi) / 2; tree.nearer(at, mid) {
					hi = mid
				} else {
					lo = mid
				}
			}
			most = math.Max(most, hi)
		}
	}
	return most
}

func TestTidyLeavesAlone(t *testing.T) {
	for _, p := range []Path{RectPath(BoxOf(Pt(0, 0), Pt(3, 2))), CirclePath(Pt(0, 0), 0.001), Open(Pt(0, 0), Pt(0.001, 0)), {}} {
		assert.Equal(t, p, p.Tidy())
	}
	open := Open(Pt(0, 0), Pt(0.004, 0), Pt(5, 0), Pt(5, 5), Pt(5, 5.003)).Tidy()
	assert.Equal(t, Open(Pt(0.004, 0), Pt(5, 0), Pt(5, 5)), open, "its short ends are drawn in")
}
