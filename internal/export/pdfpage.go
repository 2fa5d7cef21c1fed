package export

import (
	"fmt"

	"springrib/internal/plane"
)

// Page is one page of a Document: a sheet of paper to draw on, in mm.
type Page struct {
	Width, Height float64
	doc           *Document
	b             []byte
}

// Pen says how a line is drawn. A Width of 0 is the thinnest line a printer can do.
type Pen struct {
	Colour RGB
	Width  float64   // mm
	Dash   []float64 // lengths on and off in turn, mm; none for a solid line
}

func (p *Page) printf(format string, args ...any) { p.b = fmt.Appendf(p.b, format, args...) }

// Line draws a straight line.
func (p *Page) Line(a, b plane.Point, pen Pen) {
	p.Stroke(plane.Path{Segs: []plane.Segment{plane.LineSeg(a, b)}}, pen)
}

// Stroke draws along a path. Arcs are drawn as cubics that stay within 5e-6 of
// their radius.
func (p *Page) Stroke(path plane.Path, pen Pen) {
	if len(path.Segs) == 0 {
		return
	}
	p.colour(pen.Colour, "RG")
	p.number(pen.Width)
	p.b = append(p.b, "w ["...)
	for _, l := range pen.Dash {
		p.number(l)
	}
	p.b = append(p.b, "] 0 d\n"...)
	p.path(path)
	p.b = append(p.b, "S\n"...)
}

// Fill fills the inside of paths; inside is where they wind round, so that holes
// that run the other way stay open.
func (p *Page) Fill(paths []plane.Path, c RGB) {
	p.colour(c, "rg")
	for _, path := range paths {
		p.path(path)
	}
	p.b = append(p.b, "f\n"...)
}

// Clip runs draw with everything outside box left blank.
func (p *Page) Clip(box plane.Box, draw func()) {
	p.b = append(p.b, "q "...)
	p.point(box.Min)
	p.number(box.W())
	p.number(box.H())
	p.b = append(p.b, "re W n\n"...)
	draw()
	p.b = append(p.b, "Q\n"...)
}

// path appends the construction of a path.
func (p *Page) path(path plane.Path) {
	for i, s := range path.Segs {
		if i == 0 {
			p.point(s.A)
			p.b = append(p.b, "m "...)
		}
		if s.Kind == plane.Line {
			p.point(s.B)
			p.b = append(p.b, "l "...)
			continue
		}
		for _, c := range s.Cubics() {
			p.point(c.C)
			p.point(c.D)
			p.point(c.B)
			p.b = append(p.b, "c "...)
		}
	}
	if path.Closed {
		p.b = append(p.b, "h "...)
	}
}

// colour sets the colour that operator op stands for.
func (p *Page) colour(c RGB, op string) {
	for _, v := range []uint8{c.R, c.G, c.B} {
		p.number(float64(v) / 255)
	}
	p.b = append(p.b, op...)
	p.b = append(p.b, ' ')
}

func (p *Page) point(q plane.Point) {
	p.number(q.X)
	p.number(q.Y)
}

func (p *Page) number(v float64) {
	p.b = appendLength(p.b, v)
	p.b = append(p.b, ' ')
}

// Align says which part of a text lies at the place given for it.
type Align uint8

// The alignments.
const (
	Left Align = iota
	Centre
	Right
)

// Type is how a text looks. The zero Type is 10 point in black; the page's typeface is
// set a little larger than that.
type Type struct {
	Size   float64 // points; 0 is 10
	Bold   bool
	Colour RGB
	Align  Align
	Angle  float64 // radians from +X
}

// mm returns the size in mm.
func (t Type) mm() float64 {
	if t.Size == 0 {
		t.Size = 10
	}
	return t.Size / ptPerMM
}

// Leading returns the distance between lines of a paragraph, mm: 1.25 of the size.
func (t Type) Leading() float64 { return 1.25 * t.mm() }

// Text writes s on one line from the baseline point at. Characters the fonts lack
// come out as "?" and are reported by Lacking.
func (p *Page) Text(at plane.Point, s string, t Type) {
	runs := p.doc.runs(s, t.Bold)
	if len(runs) == 0 {
		return
	}
	u := plane.Dir(t.Angle)
	if back := p.doc.width(runs, t); t.Align == Centre {
		at = at.Sub(u.Mul(back / 2))
	} else if t.Align == Right {
		at = at.Sub(u.Mul(back))
	}
	p.colour(t.Colour, "rg")
	size := ratio(p.doc.size(t))
	p.printf("BT ")
	for i, r := range runs {
		p.printf("/%s %s Tf ", r.font, size)
		if i == 0 {
			p.printf("%s %s %s %s ", ratio(u.X), ratio(u.Y), ratio(-u.Y), ratio(u.X))
			p.point(at)
			p.printf("Tm ")
		}
		if r.lost == "" {
			p.printf("%s Tj ", r.text)
		} else {
			p.printf("/Span << /ActualText %s >> BDC %s Tj EMC ", pdfUnicode(r.lost), r.text)
		}
	}
	p.printf("ET\n")
}

// Paragraph writes s in lines of at most width mm, the first baseline at at, and
// returns the baseline that a next line would have. A line break in s starts a line.
func (p *Page) Paragraph(at plane.Point, width float64, s string, t Type) plane.Point {
	for _, l := range p.doc.Wrap(s, width, t) {
		p.Text(at, l, t)
		at.Y -= t.Leading()
	}
	return at
}

// TextWidth returns how wide s is on one line, mm.
func (d *Document) TextWidth(s string, t Type) float64 { return d.width(d.runs(s, t.Bold), t) }

func (d *Document) width(runs []setRun, t Type) float64 {
	n := 0
	for _, r := range runs {
		n += r.width
	}
	return float64(n) * d.size(t) / 1000
}

// size is the size of a text in the fonts of the document, mm.
func (d *Document) size(t Type) float64 {
	if d.faces == nil {
		return t.mm()
	}
	return facesLarger * t.mm()
}

// pdfText returns s in the encoding of the fonts. Signs with a plain stand-in get
// it; what else is lacking becomes "?".
func pdfText(s string) (text []byte, lacking []rune) {
	text, missing := winAnsiText(cleanLine(s), func(r rune) string {
		if alt := standIn(r); alt != "" {
			return alt
		}
		return "?"
	})
	for _, r := range missing {
		if standIn(r) == "" {
			lacking = append(lacking, r)
		}
	}
	return text, lacking
}

// standIn returns what can stand for a sign the fonts lack without loss.
func standIn(r rune) string {
	switch r {
	case '−', '‐', '‑', '‒':
		return "-"
	case '≤':
		return "<="
	case '≥':
		return ">="
	case '≈', '∼':
		return "~"
	case '′':
		return "'"
	case '″':
		return `"`
	case '⌀':
		return "Ø"
	case 'μ': // Greek, for the micro sign
		return "\xb5"
	case '→':
		return "->"
	case '⁄':
		return "/"
	}
	return ""
}

// fit returns s, shortened with "…" until it is at most width mm wide.
func (d *Document) fit(s string, width float64, t Type) string {
	s = cleanLine(s)
	if d.TextWidth(s, t) <= width {
		return s
	}
	rs := []rune(s)
	for len(rs) > 0 && d.TextWidth(string(rs)+"…", t) > width {
		rs = rs[:len(rs)-1]
	}
	return string(rs) + "…"
}
