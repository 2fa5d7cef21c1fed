package design

import "math"

// Coned tells whether the panel goes round a cone, or part of one.
func (c *CurveValues) Coned() bool { return c.Kind == Cone || c.Kind == ConePart }

// Skinned tells whether the panel goes over from one section to another.
func (c *CurveValues) Skinned() bool { return c.Far != "" && c.Far != Same }

// Ruled tells whether the scores of the panel need not run parallel.
func (c *CurveValues) Ruled() bool { return c.Coned() || c.Skinned() }

// coneRims finds small diameter and height of a cone that is given by its slant and lean. The
// diameters of rings are those at which they touch, the wide one its thickness below the rim, see
// RingCut. The small diameter is below 0 where the slant would run past the point of the cone.
func (v *Values) coneRims() {
	c := &v.Curve
	if !c.Coned() || c.Rims != BySlant {
		return
	}
	c.RimHeight = c.Slant * math.Cos(c.Lean)
	c.Small = c.Large - 2*c.Slant*math.Sin(c.Lean)
	if c.Sizes == RingCut {
		c.Small += 2 * v.Rib.Thickness * math.Tan(c.Lean)
	}
}
