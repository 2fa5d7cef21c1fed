package view

import (
	"springrib/internal/plane"
)

// pairSide draws both sections over each other, as one looks along the ribs: the ribs, the outer face
// of the panel at either, and the scores between them.
func (w *worked) pairSide() *sketch {
	p := &w.plan
	s := newSketch("bent", "Both ribs, seen from the near one")
	for i := len(p.Supports.All) - 1; i >= 0; i-- {
		r := &p.Ribs.Kinds[p.Supports.All[i].Kind]
		s.path("rib", r.ID, r.Outline.Paths()...)
		s.path("glue", r.ID, r.Contact)
	}
	lines := p.Panel.Bent.Rulings
	w.scoreLines(s, func(i int) []plane.Path {
		r := lines[i]
		return []plane.Path{plane.Open(plane.Pt(r.Bent[0].X, r.Bent[0].Y), plane.Pt(r.Bent[1].X, r.Bent[1].Y))}
	})
	return s
}
