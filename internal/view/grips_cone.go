package view

import (
	"math"

	"springrib/internal/plan"
	"springrib/internal/plane"
)

// leastSlope is how much wider the wide rim stays than the narrow one for a height, as a
// share, while a hand moves one of them: a little more than the least that is planned.
const leastSlope = 0.01

// coneGrips are the right ends of both rims of a cone, and its top, in the side view.
func coneGrips(p *plan.Plan) []grip {
	k, c := p.Section.Cone, p.V.Curve
	rim := func(id, path string, at plane.Point, across float64) grip {
		// Its diameter may be of another face than the one that is drawn.
		return straightGrip(id, labelOf(path), "bent", "x", at, path, plane.Pt(at.X-across/2, at.Y), plane.Pt(1, 0), 2)
	}
	wide, narrow := rim("rim-wide", "curve.large", plane.Pt(k.Wide, 0), c.Large), rim("rim-narrow", "curve.small", plane.Pt(k.Narrow, k.Height), c.Small)
	height := straightGrip("rim-height", labelOf("curve.rimHeight"), "bent", "y", plane.Pt(0, k.Height), "curve.rimHeight", plane.Pt(0, k.Height-c.RimHeight), plane.Pt(0, 1), 1)
	apart := 2 * leastSlope * c.RimHeight
	wide.knobs[0].low = math.Max(wide.knobs[0].low, c.Small+apart)
	narrow.knobs[0].high = math.Min(narrow.knobs[0].high, c.Large-apart)
	height.knobs[0].high = math.Min(height.knobs[0].high, (c.Large-c.Small)/(2*leastSlope))
	return []grip{wide, narrow, height}
}
