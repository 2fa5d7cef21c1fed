package view

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/unit"
)

// coneSide draws a cone cut through its axis: the walls of the panel and the rings in true
// thickness, the scores along its far half, the inside of its rims and its height as figures. Part
// of a cone is cut through its middle.
func (w *worked) coneSide() *sketch {
	p := &w.plan
	k, side := p.Section.Cone, p.Side()
	title := "Bent, cut through its axis"
	if !p.Section.Closed {
		title = "Bent, cut through its middle"
	}
	s := newSketch("bent", title)
	w.scoreLines(s, func(i int) []plane.Path { return []plane.Path{side.Scores[i]} })
	for i, ring := range side.Rings {
		s.path("rib", p.Ribs.Kinds[p.Supports.All[i].Kind].ID, ring)
	}
	s.path("panel", "panel", side.Walls[:]...)
	each := len(side.Glued) / len(side.Rings)
	for i, line := range side.Glued {
		s.path("glue", p.Ribs.Kinds[p.Supports.All[i/each].Kind].ID, line)
	}
	mm := func(v float64) string { return unit.Length(v, p.V.Units) }
	off := math.Max(8, 0.16*k.Wide) // a figure stands clear of a large cone drawn small too
	left := -k.Wide - p.V.Sheet.T
	if p.Section.Closed {
		s.dimension(plane.Pt(-k.Wide, 0), plane.Pt(k.Wide, 0), -off, mm(2*k.Wide)+" inside")
		s.dimension(plane.Pt(-k.Narrow, k.Height), plane.Pt(k.Narrow, k.Height), off+p.V.Sheet.T, mm(2*k.Narrow)+" inside")
	} else {
		s.dimension(plane.Pt(0, 0), plane.Pt(k.Wide, 0), -off, mm(k.Wide)+" inside, from the axis")
		s.dimension(plane.Pt(0, k.Height), plane.Pt(k.Narrow, k.Height), off+p.V.Sheet.T, mm(k.Narrow)+" inside")
		left = k.Wide * math.Min(0, math.Cos(p.Section.Sweep/2))
	}
	s.dimension(plane.Pt(left, 0), plane.Pt(left, k.Height), 8, mm(k.Height))
	return s
}
