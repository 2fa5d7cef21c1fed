package bench

import (
	"math"
	"unicode/utf8"

	"springrib/internal/cut"
	"springrib/internal/part"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// Figure is a drawing in mm, Y up.
type Figure struct {
	ID, Caption string
	Strokes     []Stroke
	Labels      []Label
	Scale       float64 // printed at one to Scale of its size, which is said; 0: as fits
	Wide        bool    // over the whole width of the page
}

// Stroke is a path of a figure and what it stands for: "cut", "panel", "rib", "score",
// "mark", "behind" (on the other face), "glue", "profile", "dimension".
type Stroke struct {
	Role string
	Path plane.Path
}

// Label is a word in a figure: beside At, off it in the direction Away, a unit vector.
type Label struct {
	At, Away plane.Point
	Text     string
}

// letterWidth is the width of a letter over the height of the text, on average.
const letterWidth = 0.49

// Place returns where a label stands with text h high: its box.
func (l Label) Place(h float64) plane.Box {
	half := plane.Pt(letterWidth*h*float64(utf8.RuneCountInString(l.Text))/2, h/2)
	off := plane.Pt(l.Away.X*(half.X+0.6*h), l.Away.Y*(half.Y+0.6*h))
	at := l.At.Add(off)
	return plane.Box{Min: at.Sub(half), Max: at.Add(half)}
}

// Box returns what a figure takes with text h high.
func (f Figure) Box(h float64) plane.Box {
	b := plane.EmptyBox()
	for _, s := range f.Strokes {
		b = b.Union(s.Path.Box())
	}
	for _, l := range f.Labels {
		b = b.Union(l.Place(h))
	}
	return b
}

// Fitted returns how large a figure is drawn in a room of w by h and how high its text is
// in its own mm, so that letters come out as high as asked.
func (f Figure) Fitted(w, h, letters float64) (scale, text float64) {
	b := f.Box(0)
	scale = math.Min(w/math.Max(b.W(), 1e-6), h/math.Max(b.H(), 1e-6))
	for range 8 { // text takes room, which makes the figure smaller and its text larger
		b = f.Box(letters / scale)
		scale = math.Min(w/math.Max(b.W(), 1e-6), h/math.Max(b.H(), 1e-6))
	}
	return scale, letters / scale
}

func (f *Figure) add(role string, paths ...plane.Path) {
	for _, p := range paths {
		if len(p.Segs) > 0 {
			f.Strokes = append(f.Strokes, Stroke{role, p})
		}
	}
}

func (f *Figure) say(at, away plane.Point, text string) {
	f.Labels = append(f.Labels, Label{at, away, text})
}

// measure draws a dimension below a and b.
func (f *Figure) measure(a, b plane.Point, text string) {
	d := b.Sub(a).Unit()
	off := d.Left().Mul(-0.03 * a.Dist(b))
	p, q := a.Add(off), b.Add(off)
	tick := d.Left().Mul(0.012 * a.Dist(b))
	f.add("dimension", plane.Open(p, q), plane.Open(p.Sub(tick), p.Add(tick)), plane.Open(q.Sub(tick), q.Add(tick)))
	f.say(p.Lerp(q, 0.5), d.Left().Mul(-1), text)
}

// ends are the words for the two ends of the panel.
func (w *writer) ends() (start, end string) {
	if w.p.Section.Closed {
		return "start edge", "end"
	}
	return "foot edge", "tip"
}

// partFigure draws a part as it lies under the tool, in its finished size, with the names
// that the steps use.
func (w *writer) partFigure(pt *part.Part) Figure {
	f := Figure{ID: "part-" + pt.ID, Caption: pt.Name}
	for _, wk := range pt.Work {
		if wk.Score > 0 {
			f.add("score", wk.Path)
		}
	}
	f.add("cut", pt.Outline.Paths()...)
	for i := range w.p.Ribs.Kinds {
		if w.p.Ribs.Kinds[i].ID == pt.ID {
			w.nameRib(&f, i)
		}
	}
	switch {
	case pt.ID == w.p.Panel.Flat.ID:
		w.namePanel(&f)
	case w.p.Base != nil && pt.ID == w.p.Base.ID:
		s := w.p.Base.Slots[0]
		f.say(s.At, plane.Pt(1, 0), "slot")
	case w.p.Caul != nil && pt.ID == w.p.Caul.ID:
		f.add("glue", w.p.Caul.Contact)
		f.say(middle(w.p.Caul.Contact), plane.Pt(0, 1), "pressed on the panel")
	}
	return f
}

// namePanel names the ends, the scored face and the rib lines of the flat panel.
func (w *writer) namePanel(f *Figure) {
	f.Caption = "panel, the scored face up"
	if w.is("saw") {
		f.Caption = "panel, the scored face toward you"
	}
	b := w.p.Panel.Flat.Outline.Box()
	start, end := w.ends()
	at, to := plane.Pt(b.Min.X, b.Centre().Y), plane.Pt(b.Max.X, b.Centre().Y)
	if w.is("ruled") { // the middles of its two ends
		at, to = w.p.InFlat(w.p.Outline.From, 0), w.p.InFlat(w.p.Outline.To, 0)
		if w.p.Panel.Mirror {
			at.Y, to.Y = -at.Y, -to.Y
		}
	}
	f.say(at, plane.Pt(-1, 0), start)
	f.say(to, plane.Pt(1, 0), end)
	if len(w.p.Scores.Layout.Folds) > 0 {
		f.say(plane.Pt(b.Centre().X, b.Min.Y), plane.Pt(0, -1), "scores")
	}
	marked := -len(w.p.Outline.Marks) // those of a drawing come after those of the ribs
	for _, wk := range w.p.Panel.Flat.Work {
		if wk.Kind == cut.Mark {
			f.add("mark", wk.Path)
			marked++
		}
	}
	if w.is("ruled") {
		return // its arcs are told by the table of ring lines
	}
	for i := range w.p.Supports.All {
		s := &w.p.Supports.All[i]
		y := s.Across
		if w.p.Panel.Mirror {
			y = -y
		}
		line, name := plane.Open(plane.Pt(s.Mark.From, y), plane.Pt(s.Mark.To, y)), w.p.Ribs.Kinds[s.Kind].Name+" line"
		if i >= marked { // it lies on the other face
			f.add("behind", line)
			name += ", other face"
		}
		f.say(plane.Pt(s.Mark.From+0.1*(s.Mark.To-s.Mark.From), y), plane.Pt(0, 1), name)
	}
}

// nameRib names the ends of a rib and the edge that is glued.
func (w *writer) nameRib(f *Figure, i int) {
	r := &w.p.Ribs.Kinds[i]
	f.add("glue", r.Contact)
	first, last := r.Contact.Segs[0], r.Contact.Segs[len(r.Contact.Segs)-1]
	if w.p.Section.Closed {
		f.say(first.A, plane.Pt(0, -1), "seam")
		f.say(middle(r.Contact), plane.Pt(0, 1), "glue all round")
		return
	}
	f.say(first.A, first.Tangent(0).Mul(-1), "foot")
	f.say(last.B, last.Tangent(1), "tip")
	f.say(middle(r.Contact), w.outward(middleSeg(r.Contact)), "glue")
}

// outward is the way from the contact edge to the panel.
func (w *writer) outward(s plane.Segment) plane.Point {
	n := s.Tangent(0.5).Left()
	if !w.p.Section.PanelLeft {
		n = n.Mul(-1)
	}
	return n
}

// middleSeg is the segment that holds the middle of a path's length.
func middleSeg(p plane.Path) plane.Segment {
	half, done := p.Length()/2, 0.0
	for _, s := range p.Segs {
		if done += s.Length(); done >= half {
			return s
		}
	}
	return p.Segs[len(p.Segs)-1]
}

func middle(p plane.Path) plane.Point { return middleSeg(p).Point(0.5) }

// together is how panel and rib go together, seen from the side.
func (w *writer) together() Figure {
	if w.is("ruled") {
		return w.axis()
	}
	f := Figure{ID: "together", Caption: "How it goes together, seen from the side", Wide: true}
	for i := range w.p.Ribs.Kinds {
		f.add("rib", w.p.Ribs.Kinds[i].Outline.Paths()...)
	}
	t := w.v.Sheet.T
	near, far := w.p.Face(0), w.p.Face(t)
	out := append([]plane.Point{}, near...)
	for i := len(far) - 1; i >= 0; i-- {
		out = append(out, far[i])
	}
	f.add("panel", plane.Poly(out...))
	f.add("glue", w.p.Ribs.Rib.Contact)
	from, depth := t, w.p.Law().Score().Depth
	to := t - depth
	if w.p.Section.Towards {
		from, to = 0, depth
	}
	mouths, bottoms := w.p.Corners(from), w.p.Corners(to)
	for i := range w.p.Scores.Layout.Folds {
		if u := w.p.Scores.Layout.Folds[i].U; u > w.p.Outline.From && u < w.p.Outline.To {
			f.add("score", plane.Open(mouths[i], bottoms[i]))
		}
	}
	start, end := "foot", "tip"
	if w.p.Section.Closed {
		f.say(near[0], plane.Pt(0, -1), "seam")
	} else {
		f.say(near[0], near[0].Sub(near[1]).Unit(), start)
		n := len(near) - 1
		f.say(near[n], near[n].Sub(near[n-1]).Unit(), end)
	}
	w.nameFaces(&f, near, far)
	return f
}

// nameFaces names the scored face and the glue, each a third of the way along.
func (w *writer) nameFaces(f *Figure, near, far []plane.Point) {
	scored, glue := len(near)/3, 2*len(near)/3
	out := func(i int) plane.Point { return far[i].Sub(near[i]).Unit() }
	if w.p.Section.Towards {
		f.say(near[scored], out(scored).Mul(-1), "scored face")
	} else {
		f.say(far[scored], out(scored), "scored face")
	}
	f.say(near[glue], out(glue).Mul(-1), "rib, glued here")
}

// The largest figure that is printed in true size, mm: what A4 and Letter both have room
// for inside the margins of a browser, over its caption.
const trueWidth, trueHeight = 170, 215

// outerFace draws the bent panel's outer face, its ends level, in true size where paper
// has room for it.
func (w *writer) outerFace(pts []plane.Point) Figure {
	f := Figure{ID: "profile", Caption: "Outer face, bent"}
	level := Level(pts)
	box := plane.BoxOf(level...)
	if box.W() > trueWidth && box.W() <= trueHeight && box.H() <= trueWidth && !w.p.Section.Closed {
		for i, q := range level { // there is more room along the paper than across
			level[i] = q.Left()
		}
	}
	line := plane.Open(level...)
	box = line.Box()
	for _, n := range [...]float64{1, 2, 5, 10, 20, 50, 100, 200, 500} {
		if f.Scale = n; box.W()/n <= trueWidth && box.H()/n <= trueHeight {
			break
		}
	}
	f.add("profile", line)
	first, last := level[0], level[len(level)-1]
	if w.p.Section.Closed {
		f.say(first, plane.Pt(0, -1), "seam")
		first, last = box.Min, plane.Pt(box.Max.X, box.Min.Y)
	} else {
		out := last.Sub(first).Unit()
		f.say(first, out.Mul(-1), "foot")
		f.say(last, out, "tip")
	}
	f.measure(first, last, w.mm(first.Dist(last)))
	return f
}

// Level turns a face so that its ends lie level, the foot to the left. A face that goes
// all round is left as it is.
func Level(pts []plane.Point) []plane.Point {
	a, b := pts[0], pts[len(pts)-1]
	d := b.Sub(a)
	box := plane.BoxOf(pts...)
	if d.Len() < 0.2*math.Max(box.W(), box.H()) {
		return pts
	}
	m := plane.Rotate(-math.Atan2(d.Y, d.X)).Mul(plane.Translate(-a.X, -a.Y))
	out := make([]plane.Point, len(pts))
	for i, p := range pts {
		out[i] = m.Apply(p)
	}
	return out
}

// ProfileFile is the label of the file that holds the profile in true size.
const ProfileFile = "Profile in true size"

// InTrueSize tells whether the bench sheet shows the profile in true size.
func InTrueSize(p *plan.Plan) bool {
	pts, _, _ := Profile(p)
	return newWriter(p).outerFace(pts).Scale == 1
}

// Profile returns the face away from the rib of the panel as it lies, corner by corner from
// the foot, the distance between its ends and its greatest height over the line through
// them, mm.
func Profile(p *plan.Plan) (pts []plane.Point, span, rise float64) {
	span, rise = p.Measure()
	return p.Face(p.V.Sheet.T), span, rise
}
