package view

import (
	"springrib/internal/cut"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// nameFindings tells which characters of the names typed a file can't show. It writes the
// names alone into the files that lack characters, with a line for each operation.
func nameFindings(p *plan.Plan) []finding.Finding {
	j := cut.Job{Title: p.V.Name + " " + p.V.Revision, Sheet: 1, Sheets: 1, Width: 100, Height: 100}
	plain := ascii(j.Title)
	for i, k := range cut.Kinds() {
		o := p.V.Cut.Operations[i]
		plain = plain && ascii(o.Name)
		j.Operations = append(j.Operations, cut.Operation{Kind: k, Name: o.Name, Colour: k.Colour(), Passes: 1,
			Strokes: []cut.Stroke{{Part: "panel", Path: plane.Open(plane.Pt(0, 0), plane.Pt(10, 0))}}})
	}
	if plain {
		return nil
	}
	_, found := export.PDF(j, export.PDFOptions{})
	_, more := export.DXF(j, export.DXFOptions{})
	return append(found, more...)
}

func ascii(s string) bool {
	for _, r := range s {
		if r < ' ' || r > '~' {
			return false
		}
	}
	return true
}
