package view

import (
	"encoding/base64"
	"strconv"
	"strings"

	"springrib/internal/bench"
	"springrib/internal/bridge"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/machine"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// file is one finished file, written when asked for.
type file struct {
	name, media  string
	label, about string
	body         func() []byte
}

// whole writes the file. Text goes as text, everything else as base64.
func (f file) whole() bridge.FileBody {
	out := bridge.FileBody{Name: f.name, Type: f.media}
	body := f.body()
	if strings.HasPrefix(f.media, "text/") || strings.HasPrefix(f.media, "image/svg") || f.media == "application/json" || f.media == "image/vnd.dxf" {
		out.Text = string(body)
	} else {
		out.Base64 = base64.StdEncoding.EncodeToString(body)
	}
	return out
}

func fileName(doc design.Document, what, ext string) string {
	return export.FileName(export.Name{Design: doc.Name, Revision: doc.Revision, What: what, Ext: ext})
}

func (w *worked) paper() export.Paper {
	if w.plan.V.Units == unit.Inch {
		return export.Letter()
	}
	return export.A4()
}

// cutting lists the files of one sheet; the first of them is what goes to the machine.
func (w *worked) cutting(j cut.Job) []file {
	name := func(what, ext string) string {
		return export.FileName(export.Name{Design: w.doc.Name, Revision: w.doc.Revision, Sheet: j.Sheet, Sheets: j.Sheets, What: what, Ext: ext})
	}
	of := "" // one sheet needs no number
	if j.Sheets > 1 {
		of = ", sheet " + strconv.Itoa(j.Sheet) + " of " + strconv.Itoa(j.Sheets)
	}
	paper := w.paper()
	data := func(b []byte, _ any) []byte { return b }
	out := []file{
		{name("", "svg"), "image/svg+xml", "Cut file" + of, "SVG in true size, one group an operation, in cutting order",
			func() []byte { return export.SVG(j, export.SVGOptions{}) }},
		{name("", "dxf"), "image/vnd.dxf", "DXF" + of, "R2000 in millimetres, one layer an operation, arcs as arcs",
			func() []byte { return data(export.DXF(j, export.DXFOptions{})) }},
		{name("R12", "dxf"), "image/vnd.dxf", "DXF for old readers" + of, "R12 in millimetres; free curves as arcs",
			func() []byte { return data(export.DXF(j, export.DXFOptions{R12: true})) }},
		{name("template", "pdf"), "application/pdf", "Template" + of, "PDF at 1:1 on one page as large as the sheet, with a check bar",
			func() []byte { return data(export.PDF(j, export.PDFOptions{})) }},
		{name("template "+paper.Name, "pdf"), "application/pdf", "Template on " + paper.Name + of, "PDF at 1:1 in tiles to tape together, with overlap marks and a check bar",
			func() []byte { return data(export.PDF(j, export.PDFOptions{Paper: paper})) }},
		{name("picture", "png"), "image/png", "Picture" + of, "PNG to show, not to cut",
			func() []byte { return export.PNG(j, export.PNGOptions{}) }},
	}
	if w.plan.V.Machine.Tool == machine.Saw || w.plan.V.Machine.Tool == machine.Knife {
		return out[3:] // nothing reads a cut file there; the template goes to the bench
	}
	return out
}

// all lists every file of the plan. A design that must not be cut has none.
func (w *worked) all() []file {
	if !w.plan.Drawn || w.refused() {
		return nil
	}
	var out []file
	for _, j := range w.plan.Jobs {
		out = append(out, w.cutting(j)...)
	}
	out = append(out, w.stripFiles()...)
	out = append(out,
		file{fileName(w.doc, "bench sheet", "pdf"), "application/pdf", "Bench sheet", "Order of work, settings, figures and cautions, for print",
			func() []byte { return benchPDF(w.bench(), w.paper()) }},
		file{fileName(w.doc, "score positions", "csv"), "text/csv", "Score positions", "Every score from the foot edge, for a fence or a ruler",
			func() []byte { return export.CSV([]export.Table{w.positions()}) }},
	)
	if !bench.InTrueSize(&w.plan) {
		paper := w.paper()
		out = append(out, file{fileName(w.doc, "profile", "pdf"), "application/pdf", bench.ProfileFile, "PDF at 1:1 in tiles to tape together: the bent outer face, to hold the piece against",
			func() []byte { b, _ := export.PDF(w.profile(), export.PDFOptions{Paper: paper}); return b }})
	}
	out = append(out, file{fileName(w.doc, "machine settings", "json"), "application/json", "Machine settings", "The machine and its operations, to open into another design",
		func() []byte { return design.SaveMachine(w.doc) }})
	out = append(out, file{fileName(w.doc, "sheet", "json"), "application/json", "Sheet and its readings", "What is known of this sheet, to open into another design",
		func() []byte { return design.SaveStock(w.doc) }})
	parts := append([]file{}, out...)
	return append(out, file{fileName(w.doc, "", "zip"), "application/zip", "Everything in one file", "All of the above and the design itself",
		func() []byte { return w.zip(parts) }})
}

func (w *worked) zip(parts []file) []byte {
	files := []export.File{{Name: fileName(w.doc, "", "json"), Data: design.Save(w.doc)}}
	for _, f := range parts {
		files = append(files, export.File{Name: f.name, Data: f.body()})
	}
	return export.Zip(files)
}

// profile is the outer face of the bent panel as a job to print, with its span below it.
func (w *worked) profile() cut.Job {
	pts, span, _ := bench.Profile(&w.plan)
	line := plane.Open(bench.Level(pts)...)
	box := line.Box()
	const edge = 10.0
	line = line.Apply(plane.Translate(edge-box.Min.X, edge-box.Min.Y))
	title := "Profile of " + w.plan.V.Name + ", outer face"
	if !w.plan.Closed {
		title += ", " + w.mm(span) + " from end to end"
	}
	return cut.Job{Title: title, Sheet: 1, Sheets: 1, Width: box.W() + 2*edge, Height: box.H() + 2*edge,
		Operations: []cut.Operation{{Kind: cut.Outer, Name: "profile", Colour: "#000000", Passes: 1, Strokes: []cut.Stroke{{Part: "panel", Path: line}}}}}
}

// positions is the cumulative table of the scores.
func (w *worked) positions() export.Table {
	p := &w.plan
	var rows []export.Position
	last := p.From
	for i, f := range p.Layout.Folds {
		rows = append(rows, export.Position{
			Score: i + 1,
			From:  unit.LengthFine(f.U-p.From, p.V.Units), Step: unit.LengthFine(f.U-last, p.V.Units),
			Skin: w.mm(p.Try().Skin),
		})
		last = f.U
	}
	return export.Positions("panel", p.V.Units.String(), "skin left", rows)
}

// refused tells whether some finding forbids a file for this machine.
func (w *worked) refused() bool {
	for _, f := range w.findings {
		if f.ID == "must-not-laser" {
			return true
		}
	}
	return false
}

func (w *worked) files() []bridge.FileView {
	var out []bridge.FileView
	for _, f := range w.all() {
		out = append(out, bridge.FileView{Name: f.name, Label: f.label, About: f.about})
	}
	return out
}
