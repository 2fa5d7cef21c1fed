package export

import (
	"fmt"
	"math"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

// Paper is a size of paper, mm, upright.
type Paper struct {
	Name          string
	Width, Height float64
}

// A4 is the paper of ISO 216.
func A4() Paper { return Paper{"A4", 210, 297} }

// Letter is the paper of ANSI/ASME Y14.1, size A: 8.5 by 11 inches.
func Letter() Paper { return Paper{"Letter", 215.9, 279.4} }

// PDFOptions are the choices of a template.
type PDFOptions struct {
	// Paper is what to print on; the zero Paper is one page as large as the sheet.
	Paper Paper
	// Overlap is how much two neighbouring pages share, mm; 0 takes 15.
	Overlap float64
	// Plain leaves pages uncompressed.
	Plain bool
	// Faces is the typeface; nil is the standard faces of the format.
	Faces *Faces
}

const (
	// pageMargin is kept free round a tile: more than the 6.4 mm that office
	// printers cannot reach at worst (common practice, no source), with room for a
	// line of text outside that.
	pageMargin     = 13.0
	defaultOverlap = 15.0
	checkLength    = 100.0
	barDown        = 4.5 // from the frame of a tile to what stands in its lower margin
)

// PDF returns job as a paper template at 1:1: one page of the sheet's size, or a key
// and tiles to be glued together over the paper asked for. Every page carries a bar
// to measure, and the file asks viewers not to scale.
//
// A sheet longer than MaxPage has no page of its own size: to ask for one panics.
func PDF(job cut.Job, o PDFOptions) []byte {
	checkFinite(job.Width)
	checkFinite(job.Height)
	d := NewDocument(jobTitle(job), o.Faces)
	d.Plain = o.Plain
	if o.Paper == (Paper{}) {
		if side := max(job.Width, job.Height); side > MaxPage {
			panic(fmt.Sprintf("export: no PDF page is %v mm long", side))
		}
		wholePage(d, job)
	} else {
		tilePages(d, job, o)
	}
	return d.Bytes()
}

// wholePage draws everything on one page. Its bar and title lie along the lower
// edge, in grey, and give way to nothing: paper is not cut along colours.
func wholePage(d *Document, job cut.Job) {
	p := d.Add(job.Width, job.Height)
	drawJob(p, job, plane.Identity(), 1)
	bar := barLength(job.Width - 20)
	if bar == 0 || job.Height < 20 {
		return
	}
	checkBar(p, plane.Pt(10, 6), bar)
	t := Type{Size: 8, Colour: Grey(60)}
	note := fmt.Sprintf(" At true size the bar is %s mm.", length(bar))
	title := p.doc.fit(ofItself(job), job.Width-20-p.doc.TextWidth(note, t), t)
	p.Text(plane.Pt(10, 2), title+note, t)
	if s := fault(job); s != "" { // above the bar
		b := Type{Size: 12, Bold: true}
		p.Text(plane.Pt(10, 10), p.doc.fit(s, job.Width-20, b), b)
	}
}

// drawJob draws the strokes of job as m places them, cuts heavier than scores; the
// width of lines is scaled by weight.
func drawJob(p *Page, job cut.Job, m plane.Affine, weight float64) {
	for _, op := range job.Operations {
		pen := Pen{Colour: operationColour(op), Width: 0.2 * weight}
		if op.Kind == cut.Inner || op.Kind == cut.Outer {
			pen.Width = 0.35 * weight
		}
		for _, s := range op.Strokes {
			p.Stroke(s.Path.Apply(m), pen)
		}
	}
}

// barLength returns the length of the bar to measure: 100 mm, less where there is
// no room, 0 where not even 10 mm fit.
func barLength(room float64) float64 {
	for _, l := range []float64{checkLength, 50, 20, 10} {
		if l <= room {
			return l
		}
	}
	return 0
}

// checkBar draws a bar of length l from at to the right, with a tick every 10 mm.
func checkBar(p *Page, at plane.Point, l float64) {
	pen := Pen{Width: 0.2, Colour: Grey(60)}
	p.Line(at, at.Add(plane.Pt(l, 0)), pen)
	for x := 0.0; x <= l; x += 10 {
		h := 1.2
		if x == 0 || x == l {
			h = 2.5
		}
		p.Line(at.Add(plane.Pt(x, 0)), at.Add(plane.Pt(x, h)), pen)
	}
}

// marginBar draws the bar to measure in the lower margin of a page of paper.
func marginBar(p *Page) {
	at := plane.Pt(p.Width-pageMargin-checkLength-14, pageMargin-barDown)
	checkBar(p, at, checkLength)
	p.Text(at.Add(plane.Pt(checkLength+2, 0)), fmt.Sprintf("%s mm", length(checkLength)), Type{Size: 8, Colour: Grey(60)})
}

// tiling is how the drawn part of a sheet falls on pages: tile (row, column) shows
// the sheet from start + (column*stepX, row*stepY) on, row 0 at the bottom.
type tiling struct {
	start         plane.Point
	page          plane.Point // size of the paper as turned
	show          plane.Point // size of the part of a page that shows the sheet
	step          plane.Point // show less the overlap
	overlap       float64
	rows, columns int
}

// tile chooses upright or turned paper, whichever takes fewer pages.
func tile(drawn plane.Box, paper Paper, overlap float64) tiling {
	upright := tileOn(drawn, plane.Pt(paper.Width, paper.Height), overlap)
	turned := tileOn(drawn, plane.Pt(paper.Height, paper.Width), overlap)
	if turned.rows*turned.columns < upright.rows*upright.columns {
		return turned
	}
	return upright
}

func tileOn(drawn plane.Box, page plane.Point, overlap float64) tiling {
	show := page.Sub(plane.Pt(2*pageMargin, 2*pageMargin))
	t := tiling{page: page, show: show, step: show.Sub(plane.Pt(overlap, overlap)), overlap: overlap}
	count := func(size, step float64) int { return max(1, int(math.Ceil((size-overlap)/step-1e-9))) }
	t.columns, t.rows = count(drawn.W(), t.step.X), count(drawn.H(), t.step.Y)
	// What the last tiles have over is shared out.
	all := plane.Pt(float64(t.columns)*t.step.X+overlap, float64(t.rows)*t.step.Y+overlap)
	t.start = drawn.Centre().Sub(all.Mul(0.5))
	return t
}

// origin returns the place of the sheet at the lower left corner of a tile.
func (t tiling) origin(row, column int) plane.Point {
	return t.start.Add(plane.Pt(float64(column)*t.step.X, float64(row)*t.step.Y))
}

// box returns the part of the sheet that a tile shows.
func (t tiling) box(row, column int) plane.Box {
	o := t.origin(row, column)
	return plane.Box{Min: o, Max: o.Add(t.show)}
}

// name returns "B3" for the third tile of the second row from the top, as one reads.
func (t tiling) name(row, column int) string {
	return rowName(t.rows-1-row) + fmt.Sprint(column+1)
}

// rowName returns A to Z, then AA, AB...
func rowName(i int) string {
	s := ""
	for ; i >= 0; i = i/26 - 1 {
		s = string(rune('A'+i%26)) + s
	}
	return s
}

// tilePages draws the key and every tile that has something on it, row by row from
// the top.
func tilePages(d *Document, job cut.Job, o PDFOptions) {
	overlap := o.Overlap
	if overlap <= 0 {
		overlap = defaultOverlap
	}
	small := min(o.Paper.Width, o.Paper.Height) - 2*pageMargin
	if !(small > 3*overlap) {
		panic(fmt.Sprintf("export: paper %v is too small to tile with an overlap of %v mm", o.Paper, overlap))
	}
	boxes := strokeBoxes(job)
	t := tile(drawnBox(job, boxes), o.Paper, overlap)
	used := t.used(boxes)
	keyPage(d, job, t, used, o.Paper)
	for row := t.rows - 1; row >= 0; row-- {
		for column := range t.columns {
			if used[row][column] {
				tilePage(d, job, boxes, t, row, column)
			}
		}
	}
}

// strokeBoxes returns the box of every stroke with a little air for its width, by
// operation. A sheet falls on many tiles, so they are worked out once.
func strokeBoxes(job cut.Job) [][]plane.Box {
	out := make([][]plane.Box, len(job.Operations))
	for i, op := range job.Operations {
		out[i] = make([]plane.Box, len(op.Strokes))
		for k, s := range op.Strokes {
			out[i][k] = s.Path.Box().Grow(0.5)
		}
	}
	return out
}

// drawnBox returns the box of all strokes with more air, or the sheet's where there
// are none.
func drawnBox(job cut.Job, boxes [][]plane.Box) plane.Box {
	b := plane.EmptyBox()
	for _, op := range boxes {
		for _, s := range op {
			b = b.Union(s)
		}
	}
	if b.Empty() {
		return plane.Box{Max: plane.Pt(job.Width, job.Height)}
	}
	return b.Grow(1.5)
}

// used reports which tiles any stroke reaches.
func (t tiling) used(boxes [][]plane.Box) [][]bool {
	used := make([][]bool, t.rows)
	for r := range used {
		used[r] = make([]bool, t.columns)
	}
	for _, op := range boxes {
		for _, b := range op {
			for r := range used {
				for c := range used[r] {
					used[r][c] = used[r][c] || b.Overlaps(t.box(r, c))
				}
			}
		}
	}
	return used
}

// tilePage draws one tile: its part of the sheet, the frame along which it is
// trimmed or laid over its neighbour, crosses that fall on those of its neighbours.
func tilePage(d *Document, job cut.Job, boxes [][]plane.Box, t tiling, row, column int) {
	p := d.Add(t.page.X, t.page.Y)
	corner := plane.Pt(pageMargin, pageMargin)
	shift := corner.Sub(t.origin(row, column))
	frame := plane.Box{Min: corner, Max: corner.Add(t.show)}
	p.Clip(frame, func() {
		m := plane.Translate(shift.X, shift.Y)
		p.Stroke(sheetEdge(job).Apply(m), Pen{Width: 0.15, Colour: Grey(150), Dash: []float64{4, 2}})
		drawJob(p, within(job, boxes, t.box(row, column)), m, 1)
	})
	thin := Pen{Width: 0.1, Colour: Grey(140)}
	p.Stroke(plane.RectPath(frame), thin)
	for _, q := range t.crosses(row, column) {
		cross(p, q.Add(shift))
	}
	small := Type{Size: 8, Colour: Grey(60)}
	right := small
	right.Align = Right
	name := t.name(row, column)
	p.Text(plane.Pt(pageMargin, pageMargin-barDown), name, Type{Size: 12, Bold: true})
	p.Text(plane.Pt(pageMargin+14, pageMargin-barDown), fmt.Sprintf("row %s of %d, column %d of %d", rowName(t.rows-1-row), t.rows, column+1, t.columns), small)
	top := t.page.Y - pageMargin + 2
	note := "Print at 100 %. The bar below must measure 100 mm."
	p.Text(plane.Pt(t.page.X-pageMargin, top), note, right)
	p.Text(plane.Pt(pageMargin, top), p.doc.fit(fault(job)+" "+jobTitle(job), t.show.X-p.doc.TextWidth(note, right)-6, small), small)
	marginBar(p)
	for _, n := range t.neighbours(row, column) {
		p.Text(n.at.Add(corner), n.name, Type{Size: 8, Colour: Grey(120), Align: Centre, Angle: n.angle})
	}
}

// sheetEdge returns the edge of the sheet.
func sheetEdge(job cut.Job) plane.Path {
	return plane.RectPath(plane.Box{Max: plane.Pt(job.Width, job.Height)})
}

// within returns job with the strokes that reach box.
func within(job cut.Job, boxes [][]plane.Box, box plane.Box) cut.Job {
	out := job
	out.Operations = nil
	for i, op := range job.Operations {
		some := op
		some.Strokes = nil
		for k, s := range op.Strokes {
			if boxes[i][k].Overlaps(box) {
				some.Strokes = append(some.Strokes, s)
			}
		}
		out.Operations = append(out.Operations, some)
	}
	return out
}

// crosses returns the marks that a tile shares with its neighbours, in the middle
// of each overlap at a quarter and three quarters of its length; sheet coordinates.
func (t tiling) crosses(row, column int) []plane.Point {
	var out []plane.Point
	o, half := t.origin(row, column), t.overlap/2
	for _, f := range []float64{0.25, 0.75} {
		if column > 0 {
			out = append(out, o.Add(plane.Pt(half, f*t.show.Y)))
		}
		if column+1 < t.columns {
			out = append(out, o.Add(plane.Pt(t.step.X+half, f*t.show.Y)))
		}
		if row > 0 {
			out = append(out, o.Add(plane.Pt(f*t.show.X, half)))
		}
		if row+1 < t.rows {
			out = append(out, o.Add(plane.Pt(f*t.show.X, t.step.Y+half)))
		}
	}
	return out
}

func cross(p *Page, at plane.Point) {
	pen := Pen{Width: 0.15}
	p.Line(at.Sub(plane.Pt(4, 0)), at.Add(plane.Pt(4, 0)), pen)
	p.Line(at.Sub(plane.Pt(0, 4)), at.Add(plane.Pt(0, 4)), pen)
	p.Stroke(plane.CirclePath(at, 2), pen)
}

// neighbour names the tile that continues this one over an edge.
type neighbour struct {
	at    plane.Point // from the corner of the frame
	angle float64
	name  string
}

func (t tiling) neighbours(row, column int) []neighbour {
	var out []neighbour
	const off = 1.5 // from the frame, mm
	if column > 0 {
		out = append(out, neighbour{plane.Pt(-off, t.show.Y/2), math.Pi / 2, t.name(row, column-1)})
	}
	if column+1 < t.columns {
		out = append(out, neighbour{plane.Pt(t.show.X+off, t.show.Y/2), -math.Pi / 2, t.name(row, column+1)})
	}
	if row > 0 {
		out = append(out, neighbour{plane.Pt(t.show.X/3, -off-2), 0, t.name(row-1, column)})
	}
	if row+1 < t.rows {
		out = append(out, neighbour{plane.Pt(t.show.X/2, t.show.Y+off), 0, t.name(row+1, column)})
	}
	return out
}
