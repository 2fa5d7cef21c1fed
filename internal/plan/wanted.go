package plan

import (
	"math"
	"springrib/internal/support"
)

// Reach returns the arc length up to which the panel is there for a rib to be glued to.
func (p *Plan) Reach(s support.Support) float64 {
	if p.Section.Closed {
		return p.Section.Edge.Length()
	}
	_, u1, ok := p.Covers(s.Across, s.Thickness)
	if !ok {
		_, u1, _ = p.Covers(s.Across, 0)
	}
	return math.Min(p.Section.Edge.Length(), p.Scores.places.S(u1))
}

// Under returns the arc length of the edge under a place of the flat panel.
func (p *Plan) Under(u float64) float64 { return p.Scores.places.S(u) }
