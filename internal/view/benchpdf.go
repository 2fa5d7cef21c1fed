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
	s := w.bench()
	p := printer{doc: export.NewDocument(s.Title, w.faces), paper: w.paper(), title: s.Title}
	p.page()
	if s.Warning != "" {
		p.boxed(s.Warning)
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
	title string
	paper export.Paper
	now   *export.Page
	y     float64 // next baseline's room starts here
}

func (p *printer) page() {
	p.now = p.doc.Add(p.paper.Width, p.paper.Height)
	p.now.Text(plane.Pt(p.paper.Width-pageMargin, pageMargin-7), p.title+", page "+strconv.Itoa(p.doc.Pages()), export.Type{Size: 8, Colour: export.Grey(110), Align: export.Right})
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
	for _, line := range p.doc.Wrap(text, p.width()-indent, t) {
		p.room(t.Leading())
		p.y -= t.Leading()
		p.now.Text(plane.Pt(pageMargin+indent, p.y), line, t)
	}
	p.y -= after
}

// boxed writes a warning that nobody should miss.
func (p *printer) boxed(text string) {
	t := export.Type{Size: 11, Bold: true}
	top := p.y
	p.y -= 2
	p.indented(text, t, 3, 3)
	p.now.Stroke(plane.RectPath(plane.Box{Min: plane.Pt(pageMargin, p.y), Max: plane.Pt(pageMargin+p.width(), top)}), export.Pen{Width: 0.6})
	p.y -= 4
}

func (p *printer) section(s bench.Section) {
	if s.NewPage {
		p.page()
	}
	p.room(p.opening(s))
	p.y -= 3
	p.now.Line(plane.Pt(pageMargin, p.y), plane.Pt(pageMargin+p.width(), p.y), export.Pen{Colour: export.Grey(150), Width: 0.2})
	p.y -= 1
	p.paragraph(s.Title, export.Type{Size: 12.5, Bold: true}, 1.2)
	body := export.Type{Size: 9.5}
	for _, l := range s.Lines {
		p.indented(l, body, 0, 1.2)
	}
	for i, st := range s.Steps {
		p.room(10)
		bold := export.Type{Size: 10, Bold: true}
		y := p.y
		p.indented(st.What, bold, stepIndent, 0)
		mark := strconv.Itoa(i + 1)
		if s.Loose {
			mark = "-"
		}
		if p.y < y {
			p.now.Text(plane.Pt(pageMargin, p.y), mark, bold)
		}
		p.indented(st.How, body, stepIndent, 1.4)
	}
	if s.Table != nil {
		p.table(*s.Table)
	}
	p.figures(s.Figures)
}

// opening is the room that a section's title wants with it: a figure that stands alone
// under few words stays with them.
func (p *printer) opening(s bench.Section) float64 {
	if len(s.Steps) == 0 && len(s.Figures) == 1 && s.Figures[0].Scale > 0 {
		f := s.Figures[0]
		return math.Min(24+5*float64(len(s.Lines))+f.Box(figureLetters*f.Scale).H()/f.Scale+12, p.paper.Height-2*pageMargin)
	}
	return 24
}

// table writes rows in columns as wide as their longest text, the head in bold. Where that
// is wider than the page, the widest columns give way and their text is broken.
func (p *printer) table(t bench.Table) {
	bold, plain := export.Type{Size: 9.5, Bold: true}, export.Type{Size: 9.5}
	wide := p.columns(t, bold, plain)
	p.y -= 1
	if t.Ruled || len(t.Rows) <= shortTable { // what is written in stays together, and what is short
		between := 0.6
		if t.Ruled {
			between = 3
		}
		p.room(math.Min(float64(len(t.Rows)+1)*(plain.Leading()+between), p.paper.Height-2*pageMargin))
	}
	thin := export.Pen{Colour: export.Grey(150), Width: 0.15}
	row := func(cells []string, ty export.Type) {
		lines, most := make([][]string, len(cells)), 1
		for i, c := range cells {
			lines[i] = p.doc.Wrap(c, wide[i]+0.01, ty)
			most = max(most, len(lines[i]))
		}
		h := float64(most)*ty.Leading() + 0.6
		if t.Ruled {
			h += 1.6
		}
		p.room(h)
		x := pageMargin
		for i := range cells {
			y := p.y
			for _, l := range lines[i] {
				y -= ty.Leading()
				p.now.Text(plane.Pt(x, y), l, ty)
			}
			x += wide[i] + columnSpace
		}
		p.y -= h
		if t.Ruled {
			p.now.Line(plane.Pt(pageMargin, p.y), plane.Pt(x-columnSpace, p.y), thin)
			p.y -= 0.8
		}
	}
	row(t.Head, bold)
	for _, r := range t.Rows {
		row(r, plain)
	}
	p.y -= 1.5
}

// shortTable is how many rows no page's end comes between.
const shortTable = 8

// writingRoom is the least width of a column that is written in, mm.
const writingRoom = 26

// columns finds the widths of a table's columns.
func (p *printer) columns(t bench.Table, bold, plain export.Type) []float64 {
	wide := make([]float64, len(t.Head))
	total := -columnSpace
	for i, h := range t.Head {
		wide[i] = p.doc.TextWidth(h, bold)
		for _, r := range t.Rows {
			wide[i] = math.Max(wide[i], p.doc.TextWidth(r[i], plain))
			if t.Ruled && r[i] == "" {
				wide[i] = math.Max(wide[i], writingRoom)
			}
		}
		total += wide[i] + columnSpace
	}
	for total > p.width() {
		most := 0
		for i := range wide {
			if wide[i] > wide[most] {
				most = i
			}
		}
		if wide[most] < 5 {
			break
		}
		wide[most]--
		total--
	}
	return wide
}

// The printed figures: height of letters and of a wide figure at most, mm.
const (
	figureLetters = 2.7
	wideRoom      = 76.0
)

// figures draws small figures side by side, wide and exact ones alone.
func (p *printer) figures(fs []bench.Figure) {
	x := 0.0
	for _, f := range fs {
		switch {
		case f.Scale > 0:
			p.exact(f)
			continue
		case f.Wide:
			p.wide(f)
			x = 0
			continue
		}
		w := (p.width() - 6) / 2
		if x == 0 {
			p.room(figureRoom + 8)
			p.y -= figureRoom + 8
		}
		p.draw(f, plane.Box{Min: plane.Pt(pageMargin+x, p.y+6), Max: plane.Pt(pageMargin+x+w, p.y+6+figureRoom)})
		p.caption(f.Caption, x)
		if x += w + 6; x > p.width()-w {
			x = 0
		}
	}
}

func (p *printer) caption(text string, x float64) {
	p.now.Text(plane.Pt(pageMargin+x, p.y+2), text, export.Type{Size: 8.5})
}

// wide draws a figure over the whole width, no larger than life.
func (p *printer) wide(f bench.Figure) {
	scale, text := f.Fitted(p.width(), wideRoom, figureLetters)
	if scale > 1 {
		scale, text = 1, figureLetters
	}
	h := f.Box(text).H() * scale
	p.room(h + 8)
	p.y -= h + 8
	p.at(f, plane.Pt(pageMargin+p.width()/2, p.y+6+h/2), scale, text)
	p.caption(f.Caption, 0)
}

// exact draws a figure at its scale and says which; true size has a bar to check it by.
func (p *printer) exact(f bench.Figure) {
	text := figureLetters * f.Scale
	h := f.Box(text).H() / f.Scale
	p.room(h + 12)
	p.y -= h + 10
	p.at(f, plane.Pt(pageMargin+p.width()/2, p.y+8+h/2), 1/f.Scale, text)
	p.caption(atScale(f), 0)
}

// atScale is the caption of a figure that is drawn at a stated scale.
func atScale(f bench.Figure) string { return f.Caption + ", at 1:" + strconv.Itoa(int(f.Scale)) }

// draw fits a figure into a box.
func (p *printer) draw(f bench.Figure, into plane.Box) {
	scale, text := f.Fitted(into.W(), into.H(), figureLetters)
	p.at(f, into.Centre(), scale, text)
}

// at draws a figure about a point of the page; text is how high its letters are in its own
// mm.
func (p *printer) at(f bench.Figure, about plane.Point, scale, text float64) {
	box := f.Box(text)
	if box.Empty() {
		return
	}
	m := plane.Translate(about.X, about.Y).Mul(plane.Scale(scale, scale)).Mul(plane.Translate(-box.Centre().X, -box.Centre().Y))
	for _, s := range f.Strokes {
		p.now.Stroke(s.Path.Apply(m), pens(s.Role))
	}
	for _, l := range f.Labels {
		b := l.Place(text)
		centre := m.Apply(b.Centre())
		// Capitals stand about 0.7 of the size over the baseline.
		half := b.Max.Sub(b.Min).Mul(scale / 2)
		p.now.Fill([]plane.Path{plane.RectPath(plane.BoxOf(centre.Sub(half), centre.Add(half)))}, export.Grey(255))
		p.now.Text(centre.Sub(plane.Pt(0, 0.33*text*scale)), l.Text, export.Type{Size: text * scale / mmPerPoint, Align: export.Centre, Colour: export.Grey(30)})
	}
}

const mmPerPoint = 25.4 / 72

func pens(role string) export.Pen {
	switch role {
	case "score":
		return export.Pen{Colour: export.Grey(130), Width: 0.1}
	case "profile":
		return export.Pen{Width: 0.3}
	case "glue":
		return export.Pen{Width: 0.7}
	case "rib":
		return export.Pen{Colour: export.Grey(110), Width: 0.2}
	case "mark":
		return export.Pen{Width: 0.25, Dash: []float64{2, 1}}
	case "behind":
		return export.Pen{Width: 0.25, Dash: []float64{0.5, 1}}
	case "dimension":
		return export.Pen{Width: 0.12}
	}
	return export.Pen{Width: 0.2}
}
