package view

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/unit"
)

// coneSide draws a cone cut through its axis: the walls of the panel and the rings in true
// thickness, the scores along its far half, the inside of its rims and its height as figures.
func (w *worked) coneSide() *sketch {
	p := &w.plan
	k, side := p.Section.Cone, p.Side()
	s := newSketch("bent", "Bent, cut through its axis")
	w.scoreLines(s, func(i int) []plane.Path { return []plane.Path{side.Scores[i]} })
	for i, ring := range side.Rings {
		s.path("rib", p.Ribs.Kinds[p.Supports.All[i].Kind].ID, ring)
	}
	s.path("panel", "panel", side.Walls[:]...)
	for i, line := range side.Glued { // two of each ring
		s.path("glue", p.Ribs.Kinds[p.Supports.All[i/2].Kind].ID, line)
	}
	mm := func(v float64) string { return unit.Length(v, p.V.Units) }
	s.dimension(plane.Pt(-k.Wide, 0), plane.Pt(k.Wide, 0), -math.Max(8, 0.16*k.Wide), mm(2*k.Wide)+" inside")
	s.dimension(plane.Pt(-k.Narrow, k.Height), plane.Pt(k.Narrow, k.Height), math.Max(8, 0.16*k.Wide)+p.V.Sheet.T, mm(2*k.Narrow)+" inside")
	left := -k.Wide - p.V.Sheet.T
	s.dimension(plane.Pt(left, 0), plane.Pt(left, k.Height), 8, mm(k.Height))
	return s
}
