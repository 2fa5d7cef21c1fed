package plan

import (
	"springrib/internal/brace"
	"springrib/internal/design"
)

// Peeling is a rib's glue line that the panel's pull peels open at one end.
type Peeling struct {
	brace.Peel
	Straight float64 // glued there, mm
	Before   float64 // from the end of the curve to that end of the glue, mm
	Support  int
}

// Lack is how much longer the glued straight would have to be, mm.
func (p Peeling) Lack() float64 { return p.Length - p.Straight }

// Peels returns the worst of the glue lines that peel at their tip, or at their foot; ok
// is false where none does.
func (p *Plan) Peels(tip bool) (worst Peeling, ok bool) {
	for i, s := range p.Supports.All {
		at := Peeling{s.Hold.FootPeel, s.Hold.FootStraight, s.Task.Start, i}
		if tip {
			at = Peeling{s.Hold.TipPeel, s.Hold.TipStraight, 0, i}
			if p.V.Panel.Shape != design.Rectangle && p.V.Panel.Shape != design.Taper {
				at.Before = p.Section.Edge.Length() - s.Task.End
			}
		}
		if at.Use > 1 && at.Lack() > 1e-9 && (!ok || at.Lack() > worst.Lack()) {
			worst, ok = at, true
		}
	}
	return worst, ok
}
