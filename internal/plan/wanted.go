package plan

import (
	"math"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
)

// Wanted returns the line that the person asks for, its straight ends included, where
// the side view has it; ok is false where there is none.
func Wanted(v design.Values) (line curve.Curve, ok bool) {
	l := lining{finding.Notes{Units: v.Units}, &v.Curve}
	return l.wanted()
}

// Reach returns the arc length up to which the panel is there for a rib to be glued to.
func (p *Plan) Reach(s Support) float64 {
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

// ArcLength returns how long the curve is without its straight ends, for one that is an
// arc or a row of pieces.
func ArcLength(c design.CurveValues) float64 {
	long := 0.0
	for _, p := range pieces(&c) {
		long += p.Length
	}
	return long
}
