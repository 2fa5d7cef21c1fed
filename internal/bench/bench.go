// Package bench makes the bench sheet: what lies beside the machine and the vice while
// the work is done. It is data - sentences, tables, figures - that the page and the
// printed sheet draw alike.
package bench

import (
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// Sheet is a bench sheet.
type Sheet struct {
	Title    string
	Lead     string // one sentence: what this is
	Sections []Section
}

// Section is a part of the sheet. Its members are drawn in the order they stand here.
type Section struct {
	ID, Title string
	Lines     []string
	Table     *Table
	Steps     []Step
	Figures   []Figure
}

// Table is rows of text under a head.
type Table struct {
	Head []string
	Rows [][]string
}

// Step is one thing to do, in order.
type Step struct {
	ID   string // stable: "mask", "run", "brush", ...
	What string // the verb phrase in front, "Mask and raise the show face"
	How  string // with this design's numbers
}

// Figure is a drawing in mm, Y up, to be printed at the stated scale.
type Figure struct {
	ID, Caption string
	Strokes     []Stroke
	Exact       bool // printed at 1:1 where it fits, else at a stated scale; else as small as is legible
}

// Stroke is a path of a figure and what it stands for: "panel", "rib", "score", "mark",
// "profile", "cut".
type Stroke struct {
	Role string
	Path plane.Path
}

// Make writes the bench sheet of a plan that is drawn.
func Make(p *plan.Plan) Sheet {
	w := writer{p}
	title := p.V.Name
	if p.V.Revision != "" {
		title += ", revision " + p.V.Revision
	}
	return Sheet{
		Title: title,
		Lead:  w.lead(),
		Sections: []Section{
			w.parts(), w.machine(), w.strips(), w.steps(), w.proof(), w.trouble(), w.finish(),
			{ID: "cautions", Title: "Before you cut, and while you glue", Lines: Cautions(p)},
		},
	}
}
