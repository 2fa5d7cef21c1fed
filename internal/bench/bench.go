// Package bench makes the bench sheet: what lies beside the machine and the vice while
// the work is done. It is data - sentences, tables, figures - that the page and the
// printed sheet draw alike. What may go wrong and the cautions stand first, then the
// order of work, then figures and numbers, and the test strips on a page of their own.
package bench

import (
	"springrib/internal/finding"
	"springrib/internal/plan"
)

// Sheet is a bench sheet.
type Sheet struct {
	// Warning stands above everything: what is wrong with a design whose files were let go
	// all the same. Empty for none.
	Warning  string
	Title    string
	Lead     string // one sentence: what this is
	Sections []Section
}

// Section is a part of the sheet. Its members are drawn in the order they stand here.
type Section struct {
	ID, Title string
	NewPage   bool // begins a page on paper
	Lines     []string
	Steps     []Step
	Loose     bool // Steps are in no order and have no numbers
	Table     *Table
	Figures   []Figure
}

// Table is rows of text under a head.
type Table struct {
	Head  []string
	Rows  [][]string
	Ruled bool // to be written in: empty cells, lines between them
}

// Step is one thing to do, in order.
type Step struct {
	ID   string // stable: "mask", "run", "brush", ...
	What string // the verb phrase in front, "Mask and raise the show face"
	How  string // with this design's numbers
}

// Make writes the bench sheet of a plan that is drawn, with what was found about it,
// graver findings first.
func Make(p *plan.Plan, found []finding.Finding) Sheet {
	w := writer{Plan: p, strips: p.TestStrips()}
	title := p.V.Name
	if p.V.Revision != "" {
		title += ", revision " + p.V.Revision
	}
	s := Sheet{Title: title, Lead: w.lead()}
	s.add(w.watch(found), Section{ID: "cautions", Title: "Before you cut, and while you glue", Lines: Cautions(p)}, w.steps())
	s.add(w.lines()...)
	s.add(w.parts(), w.machine())
	s.add(w.positions()...)
	s.add(w.basis(), w.trouble(), w.finish(), w.proof())
	s.add(w.testStrips()...)
	return s
}

func (s *Sheet) add(more ...Section) { s.Sections = append(s.Sections, more...) }
