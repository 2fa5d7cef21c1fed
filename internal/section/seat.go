package section

import (
	"math"

	"springrib/internal/curve"
)

// Seat is where a rib stands in a panel whose scores run apart. Cut square it touches with the edge of
// the one face where the panel is narrower; to be bevelled it is cut to the other face, and touches
// with both.
type Seat struct {
	Low    float64     // height of its lower face over the narrow rim or the near rib, mm
	Height float64     // of the face that it is cut to
	Edge   curve.Curve // that it is cut to
	Line   float64     // where it touches: so far along the scores from the narrow rim or near rib
	Wedge  float64     // what its edge leaves open at the other face at most, square to the panel
	Poke   float64     // by how much its other face would stand into the panel where that leans the other way
	Past   float64     // by how much it would reach past the rims
	// Along is the place on Edge that lies at arc length s of the panel's edge; nil where the two are one.
	Along func(s float64) float64
}

// Ruled tells whether the scores of the panel need not run parallel.
func (c *Section) Ruled() bool { return c.Cone != nil || c.Pair != nil }

// Tall is how high the panel is, square to its ribs.
func (c *Section) Tall() float64 {
	if c.Pair != nil {
		return c.Pair.Apart
	}
	return c.Cone.Height
}

// Rim returns the edge of the contact face at a height.
func (c *Section) Rim(height float64) curve.Curve {
	if c.Pair != nil {
		return c.Pair.Edge(height)
	}
	return c.Round(c.Cone.Radius(height))
}

// Seat returns the seat of a rib of a thickness whose middle lies so far along the scores.
func (c *Section) Seat(along, thickness float64, bevel bool) Seat {
	if c.Pair != nil {
		return c.Pair.seat(along, thickness, bevel)
	}
	lean := c.Cone.Lean()
	s := Seat{Low: along*math.Cos(lean) - thickness/2, Wedge: thickness * math.Sin(lean)}
	s.Height = s.Low
	if bevel {
		s.Height, s.Wedge = s.Low+thickness, 0
	}
	s.Edge, s.Line = c.Rim(s.Height), s.Height/math.Cos(lean)
	s.Past = math.Max(-s.Low, s.Low+thickness-c.Cone.Height)
	if !c.Closed {
		wider, foot, bend := c.Cone.Radius(s.Height)/c.Cone.Narrow, c.Foot(), c.Bent()
		s.Along = func(arc float64) float64 { return arc + (wider-1)*math.Max(0, math.Min(arc-foot, bend)) }
	}
	return s
}

func (p *Pair) seat(along, thickness float64, bevel bool) Seat {
	s := Seat{Low: along - thickness/2}
	s.Past = math.Max(-s.Low, s.Low+thickness-p.Apart)
	closes, opens := p.Leans()
	s.Height = s.Low
	sin, other := opens, closes
	if closes > opens != bevel { // the panel is narrower at the face toward the far rib
		s.Height = s.Low + thickness
	}
	if closes > opens {
		sin, other = closes, opens
	}
	s.Wedge = thickness * sin
	s.Poke = thickness * other / math.Sqrt(1-other*other)
	if bevel { // what the other face stands in is planed off; where the panel leans the other way nothing can be put on
		s.Wedge, s.Poke = thickness*other, 0
	}
	s.Edge, s.Line = p.Edge(s.Height), s.Height
	height := s.Height
	s.Along = func(arc float64) float64 { return p.On(arc, height) }
	return s
}

// Leans returns the greatest sine by which the panel leans inward and outward on its way to the far
// rib.
func (p *Pair) Leans() (closes, opens float64) {
	for _, s := range p.spans {
		for _, n := range s.lean {
			closes, opens = math.Max(closes, n), math.Max(opens, -n)
		}
	}
	return closes, opens
}
