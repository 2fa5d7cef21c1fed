package bench

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/unit"
)

// ofCone finds what there is to say of a cone: how its rings meet it, its lap at both rims, and
// what its outer face measures.
func (w *writer) ofCone(over float64) {
	lean, wedge := 0.0, 0.0
	if k := w.p.Section.Cone; k != nil {
		lean = k.Lean()
		out := w.v.Sheet.T * math.Cos(lean)
		w.putMM("narrow", 2*(k.Narrow+out))
		w.putMM("wide", 2*(k.Wide+out))
		w.putMM("high", k.Height)
		for _, s := range w.p.Supports.All {
			wedge = math.Max(wedge, s.Wedge)
		}
	}
	if pair := w.p.Section.Pair; pair != nil {
		closes, opens := pair.Leans()
		lean = math.Asin(math.Max(closes, opens))
		for _, s := range w.p.Supports.All {
			wedge = math.Max(wedge, s.Wedge)
		}
		n := w.p.Panel.Net
		lap := func(past float64) float64 { return n.Place(n.End()+over, past).Dist(n.Place(n.End(), past)) }
		w.putMM("lapnear", lap(0))
		w.putMM("lapfar", lap(n.Width))
	}
	w.put("lean", unit.Angle(lean))
	w.put("wedge", w.fit(wedge))
	w.putMM("lapwide", over*w.p.Section.Wider())
}

// arcs is the table of ring lines, which lie as arcs at one distance from the wide edge.
func (w *writer) arcs(s *Section) bool {
	if w.is("skin") {
		return w.shares(s)
	}
	across, size := 2.0, "Diameter of the ring"
	s.Title = "Ring lines"
	if !w.is("ring") {
		s.Title, across, size = "Rib lines", 1, "Radius of the rib"
	}
	s.head(false, "Part", "From the wide edge, along the scores", size)
	for i := range w.p.Supports.All {
		sup := &w.p.Supports.All[i]
		s.row(w.p.Ribs.Kinds[sup.Kind].Name, w.mm(w.p.Width()/2-sup.Mark.Across), w.fit(across*w.p.Section.Cone.Radius(sup.Height)))
	}
	return true
}

// shares is the table of rib lines between two sections: each divides all scores alike.
func (w *writer) shares(s *Section) bool {
	s.head(false, "Part", "Of each score, from the near rib", "From the near rib, square to it")
	for i := range w.p.Supports.All {
		sup := &w.p.Supports.All[i]
		s.row(w.p.Ribs.Kinds[sup.Kind].Name, unit.Percent(sup.Line/w.p.Section.Tall()), w.mm(sup.Line))
	}
	return true
}

// axis is how panel and rings go together, cut through the axis.
func (w *writer) axis() Figure {
	if w.is("skin") {
		return w.overlaid()
	}
	f := Figure{ID: "together", Caption: "How it goes together, cut through its axis", Wide: true}
	if !w.is("ring") {
		f.Caption = "How it goes together, cut through its middle"
	}
	side, k := w.p.Side(), w.p.Section.Cone
	for _, line := range side.Scores {
		f.add("score", line)
	}
	for i, ring := range side.Rings {
		f.add("rib", ring)
		name := w.p.Ribs.Kinds[w.p.Supports.All[i].Kind].Name
		f.say(ring.Box().Centre(), plane.Pt(0, 1), name)
	}
	f.add("panel", side.Walls...)
	f.add("glue", side.Glued...)
	if w.is("ring") {
		f.measure(plane.Pt(-k.Wide, 0), plane.Pt(k.Wide, 0), w.mm(2*k.Wide)+" inside")
	} else {
		f.measure(plane.Pt(0, 0), plane.Pt(k.Wide, 0), w.mm(k.Wide)+" from the axis")
	}
	return f
}

// overlaid is how panel and ribs go together between two sections, seen along the ribs: the edges of
// all ribs over each other, and the scores between them.
func (w *writer) overlaid() Figure {
	f := Figure{ID: "together", Caption: "The ribs over each other, seen from the near one", Wide: true}
	for _, line := range w.p.Rulings() {
		f.add("score", line)
	}
	for i := range w.p.Supports.All {
		sup := &w.p.Supports.All[i]
		k := &w.p.Ribs.Kinds[sup.Kind]
		f.add("rib", k.Outline.Paths()...)
		f.add("glue", k.Contact)
	}
	return f
}
