package view

import (
	"math"
	"strconv"
	"strings"

	"springrib/internal/cut"
	"springrib/internal/plane"
	"springrib/internal/support"
	"springrib/internal/unit"
)

// sketches returns the drawings of a plan: bent, flat, then the sheets.
func (w *worked) sketches() []*sketch {
	return append(w.designSketches(), w.stripSketches()...)
}

// designSketches are the drawings without those of the test strips.
func (w *worked) designSketches() []*sketch {
	out := []*sketch{w.bent(), w.flat()}
	for i, j := range w.plan.Lay.Jobs {
		s := sheetSketch(i+1, j, w.plan.Lay.Beds[i])
		if len(w.plan.Lay.Sheets) > 1 {
			s.d.Title += ", " + w.plan.Lay.Froms[i].Stock.Name
		}
		out = append(out, s)
	}
	return out
}

func scoreRef(n int) string { return "score " + strconv.Itoa(n) }

// bent draws the side view: rib, panel in true thickness, scores as notches.
func (w *worked) bent() *sketch {
	p := &w.plan
	switch {
	case p.Section.Cone != nil:
		return w.coneSide()
	case p.Section.Pair != nil:
		return w.pairSide()
	}
	s := newSketch("bent", "Bent, seen from the side")
	for k, r := range p.Ribs.Kinds { // behind each other, the longest in front
		if k != p.Supports.All[p.Supports.Longest].Kind {
			s.path("rib", r.ID, r.Outline.Paths()...)
		}
	}
	s.path("rib", p.Ribs.Rib.ID, p.Ribs.Rib.Outline.Paths()...)
	t := p.V.Sheet.T
	near, far := p.Face(0), p.Face(t)
	for i, j := 0, len(far)-1; i < j; i, j = i+1, j-1 {
		far[i], far[j] = far[j], far[i]
	}
	section := plane.Poly(append(near, far...)...)
	s.path("panel", "panel", section)
	s.path("glue", p.Ribs.Rib.ID, p.Ribs.Rib.Contact)
	from, depth := t, p.Law().Score().Depth
	to := t - depth
	if p.Section.Towards {
		from, to = 0, depth
	}
	mouths, bottoms := p.Corners(from), p.Corners(to)
	w.scoreLines(s, func(i int) []plane.Path {
		if f := p.Scores.Layout.Folds[i]; f.U <= p.Outline.From || f.U >= p.Outline.To {
			return nil
		}
		return []plane.Path{plane.Open(mouths[i], bottoms[i])}
	})
	w.freeEnd(s, p.Supports.FootEnd)
	w.freeEnd(s, p.Supports.TipEnd)
	w.span(s, section)
	return s
}

// gapSeen is the least gap of a free end that a side view gives a figure of, mm; one that
// is more than accepted has its figure anyhow.
const gapSeen = 0.5

// freeEnd draws how far an end of the panel lies off its place, with the curve that it was
// to follow and, where it is a prong beside others, the line that it follows.
func (w *worked) freeEnd(s *sketch, e support.End) {
	p := &w.plan
	if !w.shownOff(e) {
		return
	}
	const parts = 24
	var wished []plane.Point
	for i := range parts + 1 {
		wished = append(wished, p.Section.Edge.At(e.From+(e.To-e.From)*float64(i)/parts).P)
	}
	place, lies := p.Off(e)
	s.path("dimension", "", plane.Open(wished...), plane.Open(wished[0], p.Straight(e, e.To)), plane.Open(lies, place))
	anchor := "end" // inward of the drawing
	if p.Section.Edge.At(e.From).P.X > place.X {
		anchor = "start"
	}
	s.label(place.Add(place.Sub(lies).Unit().Mul(5)), anchor, unit.Length(e.Gap, p.V.Units)+" off", 0)
}

// span draws the span of the panel's outer face as it lies, with its rise, below all that is
// drawn as seen from the line between its ends.
func (w *worked) span(s *sketch, section plane.Path) {
	p := &w.plan
	face := p.Face(p.V.Sheet.T)
	left, right := face[0], face[len(face)-1]
	if left.Dist(right) <= 1 || p.Section.Closed {
		return
	}
	if right.X < left.X {
		left, right = right, left
	}
	d := right.Sub(left)
	level := plane.Rotate(-math.Atan2(d.Y, d.X)).Mul(plane.Translate(-left.X, -left.Y))
	low := section.Apply(level).Box().Min.Y
	for _, r := range p.Ribs.Kinds {
		low = math.Min(low, r.Outline.Outer.Apply(level).Box().Min.Y)
	}
	for _, e := range []support.End{p.Supports.FootEnd, p.Supports.TipEnd} { // and the figure of its gap
		if w.shownOff(e) {
			low = math.Min(low, level.Apply(p.Section.Edge.At(e.At).P).Y-8)
		}
	}
	_, rise := p.Measure()
	s.dimension(right, left, 8-low, "span "+unit.Length(d.Len(), p.V.Units)+", rise "+unit.Length(rise, p.V.Units))
}

// shownOff tells whether a side view shows how far an end lies off.
func (w *worked) shownOff(e support.End) bool {
	return e.Gap >= gapSeen || e.Gap > 1.001*w.plan.V.Rib.EndGap
}

// scoreLines draws the scores, each on its own so that it can be lit. While something is
// held nothing else is lit, and those that are near no limit are one drawing of many lines.
func (w *worked) scoreLines(s *sketch, lines func(i int) []plane.Path) {
	var plain []plane.Path
	for i := range w.plan.Scores.Layout.Folds {
		if _, _, near := w.limitOf(i); near || !w.held {
			s.path("score", scoreRef(i+1), lines(i)...)
		} else {
			plain = append(plain, lines(i)...)
		}
	}
	s.path("score", "", plain...)
}

// flat draws the flat panel as the machine sees it.
func (w *worked) flat() *sketch {
	p := &w.plan
	title := "Flat, the scored face up"
	s := newSketch("flat", title)
	s.path("panel", "panel", p.Panel.Flat.Outline.Paths()...)
	box := p.Panel.Flat.Outline.Box()
	runs, marked, marks := map[int][]plane.Path{}, 0, 0
	var lines []string // the ribs that have one
	for _, sup := range p.Supports.All {
		if m := sup.Mark; !m.Turned && m.To > m.From {
			lines = append(lines, p.Ribs.Kinds[sup.Kind].ID)
		}
	}
	for _, wk := range p.Panel.Flat.Work {
		if wk.Kind == cut.Mark {
			marks++
		}
	}
	for _, wk := range p.Panel.Flat.Work {
		switch wk.Kind {
		case cut.Score:
			runs[wk.Score] = append(runs[wk.Score], wk.Path)
		case cut.Mark:
			// The marks of a drawing come after those of the ribs.
			ref := "mark"
			if marked+len(p.Outline.Marks) < marks {
				ref = lines[marked]
			}
			s.path("mark", ref, wk.Path)
			marked++
		}
	}
	w.scoreLines(s, func(i int) []plane.Path { return runs[i+1] })
	for i := range p.Panel.Flat.Lapped {
		s.path("score", "", runs[len(p.Scores.Layout.Folds)+i+1]...)
	}
	long := p.Outline.Length
	if p.Ruled() {
		long = box.W()
	}
	over := math.Max(p.Panel.Overrun+5, 0.032*long) // a figure in it stands clear of a long panel drawn small too
	s.dimension(box.Min, plane.Pt(box.Max.X, box.Min.Y), -over, unit.Length(long, p.V.Units))
	s.dimension(box.Min, plane.Pt(box.Min.X, box.Max.Y), 8+p.V.Rib.MarkStart, unit.Length(box.H(), p.V.Units))
	return s
}

// sheetSketch draws one laid-out sheet on its bed, and the outline of a scrap.
func sheetSketch(n int, j cut.Job, scrap plane.Region) *sketch {
	s := newSketch("sheet"+strconv.Itoa(n), "Sheet "+strconv.Itoa(n)+" of "+strconv.Itoa(j.Sheets))
	s.path("bed", "", plane.RectPath(plane.Box{Max: plane.Pt(j.Width, j.Height)}))
	s.path("bed", "", scrap.Paths()...)
	roles := map[cut.Kind]string{cut.Score: "score", cut.Mark: "mark", cut.Inner: "inner", cut.Outer: "outer"}
	for _, o := range j.Operations {
		by := map[string][]plane.Path{}
		var order []string
		for _, st := range o.Strokes {
			if _, ok := by[st.Part]; !ok {
				order = append(order, st.Part)
			}
			by[st.Part] = append(by[st.Part], st.Path)
		}
		for _, part := range order {
			kind, _, _ := strings.Cut(part, " ") // "rib1 2" is the second copy of rib1
			s.path(roles[o.Kind], kind, by[part]...)
		}
	}
	return s
}
