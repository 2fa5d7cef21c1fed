package part

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

func leastOf(p plane.Path) float64 {
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
		var pts []plane.Point
		for i := range n {
			c := plane.Dir(2 * math.Pi * (float64(i) + 0.4*rng.Float64()) / float64(n)).Mul(20 + 20*rng.Float64())
			pts = append(pts, c)
			if rng.IntN(2) == 0 { // a short piece, of a micrometre to more than is taken out
				pts = append(pts, c.Add(plane.Dir(2*math.Pi*rng.Float64()).Mul(0.001*math.Pow(15, rng.Float64()))))
			}
		}
		p := plane.Path{Closed: true}
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			switch kind := rng.IntN(3); {
			case kind == 0 || a.Dist(b) < 1:
				p.Segs = append(p.Segs, plane.LineSeg(a, b))
			case kind == 1:
				p.Segs = append(p.Segs, plane.BulgeSeg(a, b, rng.Float64()-0.5))
			default:
				p.Segs = append(p.Segs, plane.CubicSeg(a, a.Lerp(b, 0.3).Add(plane.Dir(rng.Float64()).Mul(2)), a.Lerp(b, 0.7), b))
			}
		}
		q := plane.Tidy(p)
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
func strayed(p, q plane.Path) float64 {
	most := 0.0
	pts := q.Flatten(2e-4)
	for _, s := range p.Segs {
		for _, u := range []float64{0, 0.25, 0.5, 0.75} {
			most = math.Max(most, toChords(pts, s.Point(u)))
		}
	}
	return most
}

func TestTidyLeavesAlone(t *testing.T) {
	for _, p := range []plane.Path{plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(3, 2))), plane.CirclePath(plane.Pt(0, 0), 0.001), plane.Open(plane.Pt(0, 0), plane.Pt(0.001, 0)), {}} {
		assert.Equal(t, p, plane.Tidy(p))
	}
	open := plane.Tidy(plane.Open(plane.Pt(0, 0), plane.Pt(0.004, 0), plane.Pt(5, 0), plane.Pt(5, 5), plane.Pt(5, 5.003)))
	assert.Equal(t, plane.Open(plane.Pt(0.004, 0), plane.Pt(5, 0), plane.Pt(5, 5)), open, "its short ends are drawn in")
}
