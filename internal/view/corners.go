package view

import (
	"springrib/internal/design"
	"springrib/internal/plane"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// mostCorners is how many corners a hand can still move one by one (our judgement).
const mostCorners = 16

// corners is the outline of another shape by its corners, for somebody who goes on from it:
// rounds of a rectangle are kept, other rounds become corners that stand off by as little as
// mostCorners of them can.
func (w *worked) corners() []wire.Corner {
	v := w.plan.V.Panel
	if v.Shape == design.Polygon || w.plan.Ruled() {
		return nil
	}
	outer, radius := w.plan.Outline.Given.Outer, 0.0
	if v.Shape == design.Rectangle {
		outer, radius = plane.RectPath(outer.Box()), v.CornerRadius
	}
	var pts []plane.Point
	for tolerance := 0.1; ; tolerance *= 2 {
		pts = outer.Flatten(tolerance)
		if n := len(pts); n > 1 && pts[0].Dist(pts[n-1]) < 0.01 {
			pts = pts[1:]
		}
		if len(pts) <= mostCorners || tolerance > 100 {
			break
		}
	}
	one, decimals := 1.0, 1
	if w.plan.V.Units == unit.Inch {
		one, decimals = unit.MMPerInch, 3
	}
	out := make([]wire.Corner, len(pts))
	for i, p := range pts {
		out[i] = wire.Corner{Along: unit.Decimal((p.X-v.Along)/one, decimals), Across: unit.Decimal((p.Y-v.Across)/one, decimals)}
		if radius > 0 {
			out[i].Radius = unit.Decimal(radius/one, decimals)
		}
	}
	return out
}
