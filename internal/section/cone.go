package section

import (
	"math"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/surface"
	"springrib/internal/unit"
)

// Wider is how many times as far apart the scores lie at the wide rim as at the narrow one, 1
// where they run parallel.
func (c *Section) Wider() float64 {
	if c.Cone == nil {
		return 1
	}
	return c.Cone.Wide / c.Cone.Narrow
}

// leastLean is the least lean of a cone, rad: the fan of one that leans less has its apex so far
// off that the thickness of the sheet decides it. Common practice, no source.
const leastLean = 0.5 * math.Pi / 180

// coneOf returns the cone of the panel's inner face at its rims, which is the contact face; ok is
// false where there is none. ring is how thick its rings are.
func coneOf(c *design.CurveValues, t, ring float64) (k surface.Cone, ok bool) {
	k = surface.Cone{Narrow: c.Small / 2, Wide: c.Large / 2, Height: c.RimHeight}
	switch c.Sizes {
	case design.Outside:
		in := t * math.Cos(k.Lean())
		k.Narrow, k.Wide = k.Narrow-in, k.Wide-in
	case design.RingCut:
		// The wide ring touches at its narrow face, its thickness below the rim.
		if ring >= c.RimHeight {
			return k, false
		}
		k.Wide += ring * (k.Wide - k.Narrow) / (c.RimHeight - ring)
	}
	return k, k.Narrow > 0 && k.Lean() >= leastLean
}

// sweep returns how far round a cone goes, rad.
func sweep(c *design.CurveValues) float64 {
	if c.Kind == design.ConePart {
		return c.Sweep
	}
	return 2 * math.Pi
}

// narrowEdge returns the edge at the narrow rim of a cone as it bends square to its scores, the
// straights before and after it included.
func narrowEdge(k surface.Cone, c *design.CurveValues) curve.Curve {
	kappa, p := math.Cos(k.Lean())/k.Narrow, plane.Pt(0, -k.Narrow)
	bend := curve.Piece{Length: sweep(c) * k.Narrow, Kappa: -kappa}
	if c.Kind == design.Cone {
		return curve.Chain(p, math.Pi, bend)
	}
	return curve.Chain(p, math.Pi, curve.Piece{Length: c.Foot}, bend, curve.Piece{Length: c.Tip})
}

// Round returns the edge of a ring about the axis, as the section of a cylinder has it: over the
// span of the cone to the left and round, turning right, and straight on before and after it. A
// whole one begins at the lowest point.
func (c *Section) Round(r float64) curve.Curve {
	if c.Closed {
		return curve.Chain(plane.Pt(0, -r), math.Pi, curve.Piece{Length: c.Sweep * r, Kappa: -1 / r})
	}
	return c.arc(r, c.Foot(), c.Tip())
}

// arc is round of part of a cone, between straights that are so long.
func (c *Section) arc(r, foot, tip float64) curve.Curve {
	a := surface.Angle(c.Sweep, 0)
	heading := math.Pi - a
	at := plane.Pt(-math.Sin(a), -math.Cos(a)).Mul(r).Sub(plane.Dir(heading).Mul(foot))
	return curve.Chain(at, heading, curve.Piece{Length: foot}, curve.Piece{Length: c.Sweep * r, Kappa: -1 / r}, curve.Piece{Length: tip})
}

// cone returns the narrow edge of the cone that is asked for, or says why there is none.
func (l *lining) cone() (out curve.Curve, ok bool) {
	c := l.c
	k := surface.Cone{Narrow: c.Small / 2, Wide: c.Large / 2, Height: c.RimHeight}
	if c.Rims == design.BySlant && c.Small <= 0 {
		most := c.Large / 2 / math.Sin(c.Lean)
		return out, l.Stop("cone-past-point", "curve.slant", "With this lean the panel comes to a point "+l.Len(most)+" along its slant, and it is "+l.Len(c.Slant)+
			" long. Make the slant shorter, the lean less, or the large diameter larger.", map[string]float64{"slant": c.Slant, "most": most})
	}
	if c.Large <= c.Small {
		return out, l.Stop("cone-turned", "curve.large", "The large diameter is "+l.Len(c.Large)+" and the small one "+l.Len(c.Small)+
			". Make the large one larger, or choose an oval of one width and height for a straight tube.",
			map[string]float64{"small": c.Small, "large": c.Large})
	}
	if k.Lean() < leastLean {
		return out, l.Stop("cone-straight", "curve.large", "This cone leans by only "+unit.Angle(k.Lean())+", which the thickness of the sheet would swallow. "+
			"Make the diameters differ by more than "+l.Len(2*c.RimHeight*math.Tan(leastLean))+", or choose an oval of one width and height.",
			map[string]float64{"degrees": k.Lean() * 180 / math.Pi})
	}
	return narrowEdge(k, c), true
}

// cone makes the section of a cone.
func (t *Task) cone(out *Section, say *finding.Notes) bool {
	k, ok := coneOf(t.Curve, t.Sheet.T, t.Ring)
	if t.Curve.Sizes == design.RingCut && t.Ring >= t.Curve.RimHeight {
		return say.Stop("cone-no-room", "curve.rimHeight", "The rings are "+say.Len(t.Ring)+" thick and the cone is only "+say.Len(t.Curve.RimHeight)+" high. Make it higher, or its rings thinner.",
			map[string]float64{"thickness": t.Ring, "height": t.Curve.RimHeight})
	}
	if !ok {
		return say.Stop("cone-no-room", "curve.sizes", "With these sizes the inside of the panel has no room: its narrow rim would have a radius of "+say.Len(k.Narrow)+
			". Make the cone larger or higher, or its sheet thinner.", map[string]float64{"radius": k.Narrow})
	}
	out.Cone, out.Sweep, out.Closed = &k, sweep(t.Curve), t.Curve.Kind == design.Cone
	out.PanelLeft, out.Edge = true, narrowEdge(k, t.Curve)
	if out.Closed {
		return true
	}
	// The sheet is as thick as its ends must keep apart.
	if c, crosses := out.arc(k.Narrow, out.Foot()+t.Sheet.T, out.Tip()+t.Sheet.T).Crossing(); crosses {
		return say.Stop("curve-crosses", "curve.sweep", "The straight ends of this part would run into each other. Go less far round, or make the straight foot and tip shorter.",
			map[string]float64{"first": c.S1, "second": c.S2})
	}
	return true
}
