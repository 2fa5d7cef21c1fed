package view

import (
	"math"
	"strconv"

	"springrib/internal/bench"
	"springrib/internal/export"
	"springrib/internal/plane"
)

// The printed bench sheet: margins and sizes in mm, types in points.
const (
	pageMargin  = 16.0
	stepIndent  = 7.0
	figureRoom  = 46.0 // height of a small figure
	columnSpace = 3.0
)

// benchPDF prints the bench sheet.
func (w *worked) benchPDF() *export.Document {
	s := bench.Make(&w.plan)
	p := printer{doc: export.NewDocument(s.Title), paper: w.paper()}
	p.page()
	if warning := w.release().warning(); warning != "" {
		p.paragraph(warning, export.Type{Size: 12, Bold: true}, 2)
	}
	p.paragraph(s.Title, export.Type{Size: 18, Bold: true}, 2)
	p.paragraph(s.Lead, export.Type{Size: 10.5}, 3)
	for _, sec := range s.Sections {
		p.section(sec)
	}
	return p.doc
}

// printer writes down a page from the top, starting new ones as they fill.
type printer struct {
	doc   *export.Document
	paper export.Paper
	now   *export.Page
	y     float64 // next baseline's room starts here
}

func (p *printer) page() {
	p.now = p.doc.Add(p.paper.Width, p.paper.Height)
	p.now.Text(plane.Pt(p.paper.Width-pageMargin, pageMargin-7), "page "+strconv.Itoa(p.doc.Pages()), export.Type{Size: 8, Colour: export.Grey(110), Align: export.Right})
	p.y = p.paper.Height - pageMargin
}

func (p *printer) width() float64 { return p.paper.Width - 2*pageMargin }

// room starts a new page unless h mm are left on this one.
func (p *printer) room(h float64) {
	if p.y-h < pageMargin {
		p.page()
	}
}

func (p *printer) paragraph(text string, t export.Type, after float64) {
	p.indented(text, t, 0, after)
}

// indented writes lines one by one, so that a paragraph may run over a page's end.
func (p *printer) indented(text string, t export.Type, indent, after float64) {
	for _, line := range export.Wrap(text, p.width()-indent, t) {
		p.room(t.Leading())
		p.y -= t.Leading()
		p.now.Text(plane.Pt(pageMargin+indent, p.y), line, t)
	}
	p.y -= after
}

func (p *printer) section(s bench.Section) {
	p.room(24)
	p.y -= 3
	p.now.Line(plane.Pt(pageMargin, p.y), plane.Pt(pageMargin+p.width(), p.y), export.Pen{Colour: export.Grey(150), Width: 0.2})
	p.y -= 1
	p.paragraph(s.Title, export.Type{Size: 12.5, Bold: true}, 1.2)
	body := export.Type{Size: 9.5}
	for _, l := range s.Lines {
		p.indented(l, body, 0, 0.8)
	}
	if s.Table != nil {
		p.table(*s.Table)
	}
	for i, st := range s.Steps {
		p.room(10)
		y := p.y
		p.indented(st.What, export.Type{Size: 10, Bold: true}, stepIndent, 0)
		if p.y < y {
			p.now.Text(plane.Pt(pageMargin, p.y), strconv.Itoa(i+1), export.Type{Size: 10, Bold: true})
		}
		p.indented(st.How, body, stepIndent, 1.4)
	}
	p.figures(s.Figures)
}

// table writes rows in columns as wide as their longest text, the head in bold.
func (p *printer) table(t bench.Table) {
	bold, plain := export.Type{Size: 9.5, Bold: true}, export.Type{Size: 9.5}
	wide := make([]float64, len(t.Head))
	for i, h := range t.Head {
		wide[i] = export.TextWidth(h, bold)
		for _, r := range t.Rows {
			wide[i] = math.Max(wide[i], export.TextWidth(r[i], plain))
		}
	}
	p.y -= 1
	row := func(cells []string, ty export.Type) {
		p.room(ty.Leading() + 1)
		p.y -= ty.Leading() + 0.6
		x := pageMargin
		for i, c := range cells {
			p.now.Text(plane.Pt(x, p.y), c, ty)
			x += wide[i] + columnSpace
		}
	}
	row(t.Head, bold)
	for _, r := range t.Rows {
		row(r, plain)
	}
	p.y -= 1.5
}

// figures draws small figures side by side and exact ones alone.
func (p *printer) figures(fs []bench.Figure) {
	x := 0.0
	for _, f := range fs {
		if f.Exact {
			p.exact(f)
			continue
		}
		w := (p.width() - 6) / 2
		if x == 0 {
			p.room(figureRoom + 8)
			p.y -= figureRoom + 8
		}
		p.draw(f, plane.Box{Min: plane.Pt(pageMargin+x, p.y+6), Max: plane.Pt(pageMargin+x+w, p.y+6+figureRoom)}, 0)
		p.now.Text(plane.Pt(pageMargin+x, p.y+2), f.Caption, export.Type{Size: 8.5})
		if x += w + 6; x > p.width()-w {
			x = 0
		}
	}
}

// exact draws a figure at 1:1 where it fits the paper, else at the first of 1:2, 1:5 and
// 1:10 that does, and says which.
func (p *printer) exact(f bench.Figure) {
	box := plane.EmptyBox()
	for _, s := range f.Strokes {
		box = box.Union(s.Path.Box())
	}
	for _, n := range []float64{1, 2, 5, 10, 20, 50, 100} {
		if box.W()/n > p.width() || box.H()/n > p.paper.Height-2*pageMargin-14 {
			continue
		}
		h := box.H()/n + 2
		p.room(h + 12)
		p.y -= h + 10
		p.draw(f, plane.Box{Min: plane.Pt(pageMargin, p.y+8), Max: plane.Pt(pageMargin+p.width(), p.y+8+h)}, 1/n)
		p.now.Text(plane.Pt(pageMargin, p.y+3), f.Caption+", at 1:"+strconv.Itoa(int(n)), export.Type{Size: 8.5})
		return
	}
}

// draw fits a figure into a box, or draws it there at the given scale.
func (p *printer) draw(f bench.Figure, into plane.Box, scale float64) {
	box := plane.EmptyBox()
	for _, s := range f.Strokes {
		box = box.Union(s.Path.Box())
	}
	if box.Empty() {
		return
	}
	if scale == 0 {
		scale = math.Min(into.W()/math.Max(box.W(), 1e-6), into.H()/math.Max(box.H(), 1e-6))
	}
	at := into.Centre()
	m := plane.Translate(at.X, at.Y).Mul(plane.Scale(scale, scale)).Mul(plane.Translate(-box.Centre().X, -box.Centre().Y))
	for _, s := range f.Strokes {
		p.now.Stroke(s.Path.Apply(m), pens(s.Role))
	}
}

func pens(role string) export.Pen {
	switch role {
	case "score":
		return export.Pen{Colour: export.Grey(150), Width: 0.1}
	case "profile":
		return export.Pen{Width: 0.3}
	}
	return export.Pen{Width: 0.2}
}
