package view

import (
	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/plane"
	"springrib/internal/section"
)

// farGrips are the handles of the section at the far rib, in the side view: its size, and its place.
func farGrips(v *design.Values) []grip {
	far, ok := section.WantedFar(*v)
	if !ok {
		return nil
	}
	c := v.Curve
	var out []grip
	switch c.Far {
	case design.FarArc:
		out = append(out, farCrown(v, "curve.farRadius", design.Length, c.FarRadius, func(v *design.Values, x float64) { v.Curve.FarRadius = x }))
	case design.Scaled:
		out = append(out, farCrown(v, "curve.farScale", design.Percent, c.FarScale, func(v *design.Values, x float64) { v.Curve.FarScale = x }))
	case design.Box, design.Oval:
		at := middleOf(far)
		out = append(out,
			straightGrip("far-width", labelOf("curve.farWidth"), "bent", "x", at.Add(plane.Pt(c.FarWidth/2, 0)), "curve.farWidth", at, plane.Pt(1, 0), 2),
			straightGrip("far-height", labelOf("curve.farHeight"), "bent", "y", at.Add(plane.Pt(0, c.FarHeight/2)), "curve.farHeight", at, plane.Pt(0, 1), 2))
	}
	if far.Closed() { // elsewhere the figures of the radii stand where it would be held
		out = append(out, farMove(v, middleOf(far)))
	}
	return out
}

// middleOf is the centre of a far section that goes all round.
func middleOf(far curve.Curve) plane.Point { return far.At(0).P.Lerp(far.At(far.Length()/2).P, 0.5) }

// farCrown is the middle of the far section, which follows up and down as its size changes.
func farCrown(v *design.Values, path string, kind design.Kind, value float64, put func(*design.Values, float64)) grip {
	k := lengthKnob(v, path, kind, value, put)
	crown := func(v *design.Values) (plane.Point, bool) {
		far, ok := section.WantedFar(*v)
		if !ok {
			return plane.Point{}, false
		}
		return far.At(far.Length() / 2).P, true
	}
	at, _ := crown(v)
	up := along(v, k, func(v *design.Values) (plane.Point, bool) {
		at, ok := crown(v)
		return plane.Pt(0, at.Y), ok
	})
	return grip{id: "far-crown", label: labelOf(path), drawing: "bent", ways: "y", knobs: []knob{k}, at: at,
		pull: func(to plane.Point) ([]float64, float64) { return up(plane.Pt(0, to.Y)) }}
}

// farMove is the centre of a far section that goes all round, which moves it.
func farMove(v *design.Values, at plane.Point) grip {
	c := v.Curve
	return freeGrip("far-move", labelOf("curve.farRight")+", "+labelOf("curve.farUp"), "bent", at, "curve.farRight", "curve.farUp", at.Sub(plane.Pt(c.FarRight, c.FarUp)), plane.Pt(1, 1))
}
