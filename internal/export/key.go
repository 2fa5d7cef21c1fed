package export

import (
	"fmt"

	"springrib/internal/cut"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// keyPage draws the first page of a tiled template: the whole sheet small, with the
// tiles and their names, the operations and their colours, and how to put the
// pages together.
func keyPage(d *Document, job cut.Job, t tiling, used [][]bool, paper Paper) {
	p := d.Add(t.page.X, t.page.Y)
	width := t.show.X
	at := plane.Pt(pageMargin, t.page.Y-pageMargin-6)
	if s := fault(job); s != "" {
		at = p.Paragraph(at, width, s, Type{Size: 14, Bold: true})
	}
	at = p.Paragraph(at, width, jobTitle(job), Type{Size: 14, Bold: true})
	if job.Note != "" {
		at = p.Paragraph(at, width, job.Note, Type{})
	}
	pages := 0
	for _, row := range used {
		for _, u := range row {
			pages += bit(u)
		}
	}
	at = p.Paragraph(at, width, fmt.Sprintf("Paper template at true size: %s of %s after this one, in %s and %s. Tiles without a line on them are left out.",
		unit.Plural(pages, "page"), paper.Name, unit.Plural(t.rows, "row"), unit.Plural(t.columns, "column")), Type{})
	at = p.Paragraph(at, width, fmt.Sprintf("Print at 100 %%, not fitted to the page, and measure the bar on every page before use. "+
		"Trim each page along its frame on the right and at the top, lay it over its neighbour there by %s mm, cross on cross, and tape. The dashed line is the edge of the sheet.",
		length(t.overlap)), Type{})
	at = legend(p, at.Sub(plane.Pt(0, 2)), width, job)
	drawKey(p, job, t, used, plane.Box{Min: plane.Pt(pageMargin, pageMargin+6), Max: plane.Pt(t.page.X-pageMargin, at.Y)})
	marginBar(p)
}

// legend lists the operations with a stroke of their colour, and returns where the
// page is free again.
func legend(p *Page, at plane.Point, width float64, job cut.Job) plane.Point {
	t := Type{Size: 9}
	for _, op := range job.Operations {
		if len(op.Strokes) == 0 {
			continue
		}
		p.Line(at.Add(plane.Pt(0, 1)), at.Add(plane.Pt(10, 1)), Pen{Colour: operationColour(op), Width: 0.7})
		p.Text(at.Add(plane.Pt(13, 0)), p.doc.fit(fmt.Sprintf("%s: %s", op.Name, unit.Plural(len(op.Strokes), "line")), width-13, t), t)
		at.Y -= t.Leading()
	}
	return at
}

// drawKey draws the sheet and its tiles as large as fits in room.
func drawKey(p *Page, job cut.Job, t tiling, used [][]bool, room plane.Box) {
	sheet := sheetEdge(job)
	all := sheet.Box().Union(t.box(0, 0)).Union(t.box(t.rows-1, t.columns-1))
	k := min(room.W()/all.W(), room.H()/all.H())
	if k <= 0 {
		return
	}
	m := plane.Translate(room.Min.X+(room.W()-k*all.W())/2, room.Max.Y-k*all.H()).Mul(plane.Scale(k, k)).Mul(plane.Translate(-all.Min.X, -all.Min.Y))
	p.Stroke(sheet.Apply(m), Pen{Width: 0.2, Colour: Grey(90), Dash: []float64{2, 1}})
	drawJob(p, job, m, 0.4)
	for row := range used {
		for column, u := range used[row] {
			if !u {
				continue
			}
			b := t.box(row, column)
			p.Stroke(plane.RectPath(b).Apply(m), Pen{Width: 0.1, Colour: Grey(120), Dash: []float64{0.5, 0.5}})
			size := Type{Size: 12, Bold: true, Align: Centre, Colour: Grey(70)}
			p.Text(m.Apply(b.Centre()).Sub(plane.Pt(0, size.mm()/3)), t.name(row, column), size)
		}
	}
}
