package view

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// leastSlope is how much wider the wide rim stays than the narrow one for a height, as a
// share, while a hand moves one of them: a little more than the least that is planned.
// leastRim is the least diameter of the narrow one, mm.
const (
	leastSlope = 0.01
	leastRim   = 10
)

// coneGrips are the right ends of both rims of a cone, and its top, in the side view; of part of
// one its end in the flat panel too.
func coneGrips(p *plan.Plan) []grip {
	out := heightGrips(p)
	if p.V.Curve.Rims == design.BySlant {
		out = slantGrips(p)
	}
	if p.V.Curve.Kind == design.ConePart {
		out = append(out, sweepGrip(p))
	}
	return out
}

// rimGrip is the right end of a rim.
func rimGrip(id, path string, at plane.Point, across float64) grip {
	// Its diameter may be of another face than the one that is drawn.
	return straightGrip(id, labelOf(path), "bent", "x", at, path, plane.Pt(at.X-across/2, at.Y), plane.Pt(1, 0), 2)
}

// heightGrips are those of a cone that is given by two diameters and its height.
func heightGrips(p *plan.Plan) []grip {
	k, c := p.Section.Cone, p.V.Curve
	wide, narrow := rimGrip("rim-wide", "curve.large", plane.Pt(k.Wide, 0), c.Large), rimGrip("rim-narrow", "curve.small", plane.Pt(k.Narrow, k.Height), c.Small)
	height := straightGrip("rim-height", labelOf("curve.rimHeight"), "bent", "y", plane.Pt(0, k.Height), "curve.rimHeight", plane.Pt(0, k.Height-c.RimHeight), plane.Pt(0, 1), 1)
	apart := 2 * leastSlope * c.RimHeight
	wide.knobs[0].low = math.Max(wide.knobs[0].low, c.Small+apart)
	narrow.knobs[0].high = math.Min(narrow.knobs[0].high, c.Large-apart)
	height.knobs[0].high = math.Min(height.knobs[0].high, (c.Large-c.Small)/(2*leastSlope))
	return []grip{wide, narrow, height}
}

// slantGrips are those of a cone that is given by its large diameter, slant and lean: the right end
// of the wide rim, that of the narrow one along the wall, and the middle of the wall about its foot.
func slantGrips(p *plan.Plan) []grip {
	k, c := p.Section.Cone, p.V.Curve
	foot, up := plane.Pt(k.Wide, 0), plane.Pt(-math.Sin(c.Lean), math.Cos(c.Lean))
	room := (c.Large - leastRim) / 2 // of the slant, across
	wide := rimGrip("rim-wide", "curve.large", foot, c.Large)
	wide.knobs[0].low = math.Max(wide.knobs[0].low, leastRim+2*c.Slant*math.Sin(c.Lean))
	slant := straightGrip("slant", labelOf("curve.slant"), "bent", "track", foot.Add(up.Mul(c.Slant)), "curve.slant", foot, up, 1)
	slant.knobs[0].high = math.Min(slant.knobs[0].high, room/math.Sin(c.Lean))
	low, high := boundsOf("curve.lean")
	lean := grip{
		id: "lean", label: labelOf("curve.lean"), drawing: "bent", ways: "track", at: foot.Add(up.Mul(c.Slant / 2)),
		knobs: []knob{{path: "curve.lean", kind: design.Angle, value: c.Lean, low: low, high: math.Min(high, math.Asin(math.Min(1, room/c.Slant)))}},
		pull: func(to plane.Point) ([]float64, float64) {
			return []float64{math.Atan2(foot.X-to.X, to.Y-foot.Y)}, c.Slant / 2
		},
	}
	return []grip{wide, slant, lean}
}

// sweepGrip is the end of the bend of part of a cone, in the flat panel.
func sweepGrip(p *plan.Plan) grip {
	c, f := p.V.Curve, p.Panel.Fan
	apex, at := f.Apex, p.InFlat(f.Foot+f.Bend, 0)
	hand := 1.0
	if p.Panel.Mirror {
		hand = -1
	}
	low, high := boundsOf("curve.sweep")
	round := func(q plane.Point) float64 { // from the middle of the fan, which stands upright
		return math.Atan2(q.X-apex.X, hand*q.Y-apex.Y)
	}
	each := f.Angle / c.Sweep / 2 // turn of the end for a turn about the axis
	return grip{
		id: "sweep", label: labelOf("curve.sweep"), drawing: "flat", ways: "track", at: plane.Pt(at.X, hand*at.Y),
		knobs: []knob{{path: "curve.sweep", kind: design.Angle, value: c.Sweep, low: low, high: high}},
		pull: func(to plane.Point) ([]float64, float64) {
			return []float64{round(to) / each}, each * at.Dist(apex)
		},
	}
}
