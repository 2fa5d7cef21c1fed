package view

import (
	"math"
	"strconv"

	"springrib/internal/bench"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/plane"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// file is one finished file, written when asked for.
type file struct {
	name, media  string
	label, about string
	body         func() []byte
}

func (w *worked) paper() export.Paper {
	if w.plan.V.Cut.Letter {
		return export.Letter()
	}
	return export.A4()
}

// readsFiles tells whether a program reads files for the tool; else a template goes to
// the bench.
func (w *worked) readsFiles() bool {
	t := w.plan.V.Machine.Tool
	return t != machine.Saw && t != machine.Knife
}

// cutting lists the files of one sheet; the first of them is what goes to the machine.
func (w *worked) cutting(j cut.Job) []file {
	j.Fault = w.release().marks
	name := func(what, ext string) string { return w.sheetName(j, what, ext) }
	of := "" // one sheet needs no number
	if j.Sheets > 1 {
		of = ", sheet " + strconv.Itoa(j.Sheet) + " of " + strconv.Itoa(j.Sheets)
	}
	cutFrom := "" // nor one stock a name
	if len(w.plan.Lay.Sheets) > 1 {
		cutFrom = w.plan.Lay.Froms[j.Sheet-1].Stock.Name + ": "
	}
	var out []file
	if w.readsFiles() {
		out = w.forMachines(j, name, of)
	}
	out = append(out, w.onPaper(j, name, of)...)
	out = append(out, file{name("picture", "png"), "image/png", "Picture" + of, "PNG to show, not to cut",
		func() []byte { return export.PNG(j, export.PNGOptions{}) }})
	for i := range out {
		out[i].about = cutFrom + out[i].about
	}
	return out
}

// forMachines lists the files of a sheet that programs read.
func (w *worked) forMachines(j cut.Job, name func(what, ext string) string, of string) []file {
	about := "R2000, millimetres, a layer for each operation, outlines closed"
	if w.plan.V.Cut.Splines {
		about = "R2000, millimetres, a layer for each operation, free curves as splines"
	}
	return []file{
		{name("", "svg"), "image/svg+xml", "Cut file" + of, "SVG in true size, in the order it is worked",
			func() []byte { return export.SVG(j, export.SVGOptions{}) }},
		{name("", "dxf"), "image/vnd.dxf", "DXF" + of, about,
			func() []byte { return export.DXF(j, export.DXFOptions{Splines: w.plan.V.Cut.Splines}) }},
		{name("R12", "dxf"), "image/vnd.dxf", "DXF for old readers" + of, "R12, millimetres, outlines closed",
			func() []byte { return export.DXF(j, export.DXFOptions{R12: true}) }},
	}
}

// onPaper lists the templates of a sheet: on one page, where a PDF page may be that long,
// and in tiles.
func (w *worked) onPaper(j cut.Job, name func(what, ext string) string, of string) []file {
	var out []file
	if math.Max(j.Width, j.Height) <= export.MaxPage {
		out = append(out, file{name("template", "pdf"), "application/pdf", "Template" + of, "PDF at 1:1 on one page as large as the sheet, with a check bar",
			func() []byte { return export.PDF(j, export.PDFOptions{Faces: w.faces}) }})
	}
	paper := w.paper()
	return append(out, file{name("template "+paper.Name, "pdf"), "application/pdf", "Template on " + paper.Name + of, "PDF at 1:1 in tiles to tape together, with overlap marks and a check bar",
		func() []byte { return export.PDF(j, export.PDFOptions{Paper: paper, Faces: w.faces}) }})
}

// all lists every file that may leave, by package finding: of parts none where a stop
// withholds them, of test strips none where the sheet must not meet the tool.
func (w *worked) all() []file {
	if !w.plan.Drawn {
		return nil
	}
	r := w.release()
	var out []file
	if r.effect < finding.Withheld {
		for _, j := range w.plan.Lay.Jobs {
			out = append(out, w.cutting(j)...)
		}
	}
	if r.effect < finding.Barred {
		out = append(out, w.stripFiles()...)
	}
	out = append(out, file{w.name("bench sheet", "pdf"), "application/pdf", "Bench sheet", "Order of work, settings, figures and cautions, for print",
		func() []byte { return w.benchPDF().Bytes() }})
	ruled := w.plan.Ruled() // its scores have no distances along a fence, and no profile
	if r.effect < finding.Withheld && !ruled {
		out = append(out, file{w.name("score positions", "csv"), "text/csv", "Score positions", "Every score from the foot edge, for a fence or a ruler",
			func() []byte { return export.CSV([]export.Table{w.positions()}) }})
	}
	if paper := w.paper(); r.effect < finding.Withheld && !ruled && !bench.InTrueSize(&w.plan) {
		out = append(out, file{w.name("profile", "pdf"), "application/pdf", bench.ProfileFile, "PDF at 1:1 in tiles to tape together: the bent outer face, to hold the piece against",
			func() []byte { return export.PDF(w.profile(), export.PDFOptions{Paper: paper, Faces: w.faces}) }})
	}
	out = append(out, file{plainName(w.doc, "machine settings", "json"), "application/json", "Machine settings", "The machine and its operations, to open into another design",
		func() []byte { return design.SaveMachine(w.doc) }})
	out = append(out, file{plainName(w.doc, "sheet", "json"), "application/json", "Sheet and its readings", "What is known of this sheet, to open into another design",
		func() []byte { return design.SaveStock(w.doc) }})
	parts := append([]file{}, out...)
	return append(out, file{w.name("", "zip"), "application/zip", "Everything in one file", "All of the above and the design itself",
		func() []byte { return w.zip(parts) }})
}

// zip packs what leaves, no more, and the design.
func (w *worked) zip(parts []file) []byte {
	files := []export.File{{Name: plainName(w.doc, "", "json"), Data: design.Save(w.doc)}}
	for _, f := range parts {
		files = append(files, export.File{Name: f.name, Data: f.body()})
	}
	return export.Zip(files)
}

// profile is the outer face of the bent panel as a job to print, with its span in its name.
func (w *worked) profile() cut.Job {
	pts, span, _ := bench.Profile(&w.plan)
	line := plane.Open(bench.Level(pts)...)
	box := line.Box()
	const edge = 10.0
	line = line.Apply(plane.Translate(edge-box.Min.X, edge-box.Min.Y))
	title := "Profile of " + w.plan.V.Name + ", outer face"
	if !w.plan.Section.Closed {
		title += ", " + w.mm(span) + " from end to end"
	}
	return cut.Job{Title: title, Revision: w.plan.V.Revision, Fault: w.release().marks, Sheet: 1, Sheets: 1, Width: box.W() + 2*edge, Height: box.H() + 2*edge,
		Operations: []cut.Operation{{Kind: cut.Outer, Name: "profile", Colour: "#000000", Passes: 1, Strokes: []cut.Stroke{{Part: "panel", Path: line}}}}}
}

// positions is the cumulative table of the scores.
func (w *worked) positions() export.Table {
	p := &w.plan
	one, decimals := 1.0, 3 // as fine as unit.LengthFine
	if p.V.Units == unit.Inch {
		one, decimals = unit.MMPerInch, 4
	}
	var rows []export.Position
	last := p.Outline.From
	for i, f := range p.Scores.Layout.Folds {
		if f.U <= p.Outline.From || f.U >= p.Outline.To {
			continue // the panel does not reach it
		}
		rows = append(rows, export.Position{Score: i + 1, From: (f.U - p.Outline.From) / one, Step: (f.U - last) / one, Skin: p.Try().Skin / one})
		last = f.U
	}
	title := "panel"
	if m := w.release().mark(); m != "" {
		title = m + "; " + title
	}
	return export.Positions(title, p.V.Units.String(), decimals, "skin left", rows)
}

func (w *worked) files() []wire.FileView {
	var out []wire.FileView
	for _, f := range w.all() {
		out = append(out, wire.FileView{Name: f.name, Label: f.label, About: f.about})
	}
	return out
}
