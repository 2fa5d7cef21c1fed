package part

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/curve"
	"springrib/internal/plane"
)

// A ring with a hub is one piece: its windows leave spokes and plate as wide as the ring, and
// their area is that of the sectors between, less the spokes.
func TestAHubOnSpokes(t *testing.T) {
	r := rand.New(rand.NewPCG(141, 142))
	windows := 0
	for range 300 {
		radius, depth := 30+200*r.Float64(), 5+20*r.Float64()
		hub := Hub{Hole: 4 + r.Float64()*2*math.Max(0, radius-depth-4), Spokes: 2 + r.IntN(9)}
		edge := curve.Chain(plane.Pt(0, -radius), math.Pi, curve.Piece{Length: 2 * math.Pi * radius, Kappa: -1 / radius})
		rib := NewFormer(RibTask{ID: "r", Edge: edge, PanelLeft: true, End: edge.Length(), FootDepth: depth, TipDepth: depth, Tolerance: 0.01, Hub: &hub})
		if hub.Hole/2+depth > radius {
			continue
		}
		out := rib.Outline
		assert.Contains(t, []int{1, 1 + hub.Spokes}, len(out.Holes))
		if len(out.Holes) == 1 {
			continue
		}
		windows++
		in := math.Max(hub.Hole/2+depth, (depth+leastWindow)/2/math.Sin(math.Pi/float64(hub.Spokes)))
		area := 0.0
		for _, h := range out.Holes {
			area += math.Abs(h.Area())
			if h.Box().W() == hub.Hole {
				continue
			}
			for _, seg := range h.Segs {
				for k := range 9 {
					q := seg.Point(float64(k) / 8)
					assert.Greater(t, q.Len(), in-1e-6, "the plate is left")
					assert.Less(t, q.Len(), radius-depth+1e-6, "the ring is left")
					for i := range hub.Spokes {
						along := plane.Dir(2 * math.Pi * float64(i) / float64(hub.Spokes))
						if q.Dot(along) > 0 {
							assert.Greater(t, math.Abs(q.Cross(along)), depth/2-1e-6, "the spokes are left")
						}
					}
				}
			}
		}
		// A spoke between two radii: the strip's sides start and end on the arcs.
		strip := func(r float64) float64 { return r*r*math.Asin(depth/2/r) + depth/2*math.Sqrt(r*r-depth*depth/4) }
		spoke := strip(radius-depth) - strip(in)
		ring := math.Pi * ((radius-depth)*(radius-depth) - in*in)
		assert.InDelta(t, math.Pi*hub.Hole*hub.Hole/4+ring-float64(hub.Spokes)*spoke, area, 1e-6*radius*radius)
	}
	assert.Greater(t, windows, 100)
}
