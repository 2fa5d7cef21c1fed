// Package bench makes the bench sheet: what lies beside the machine and the vice while
// the work is done. It is data - sentences, tables, figures - that the page and the
// printed sheet draw alike. What may go wrong and the cautions stand first, then the
// order of work, then figures and numbers, and the test strips on a page of their own.
//
// The sentences stand in sheet.txt with the facts that each holds for; facts.go finds
// facts and figures.
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
	w := newWriter(p)
	w.read()
	s := Sheet{Title: p.V.Name, Lead: w.lead()}
	if p.V.Revision != "" {
		s.Title += ", revision " + p.V.Revision
	}
	s.Sections = append(s.Sections, w.watch(found))
	for _, sec := range w.sections("") {
		if w.finish(&sec) {
			s.Sections = append(s.Sections, sec)
		}
	}
	return s
}

// Cautions returns what belongs beside a cut file: what sheet.txt has of the tool and of
// what the sheets are, and what is known of each stock that parts are cut from. Sources:
// HSE, "MDF" questions and answers (wood dust, COSHH); university laser-cutter guidance
// (never unattended, extract outdoors, clean bed, extinguisher); first-aid sheets for
// cyanoacrylate. Lines on saws, routers, knives and plastic are common practice, no source.
func Cautions(p *plan.Plan) []string {
	w := newWriter(p)
	w.ofTool()
	sec := w.sections("cautions")[0]
	w.notes(&sec)
	return sec.Lines
}

// finish gives a section its tables and figures; false for one that has no place on this
// sheet.
func (w *writer) finish(s *Section) bool {
	switch s.ID {
	case "cautions":
		w.notes(s)
	case "steps":
		s.Figures = []Figure{w.together()}
	case "lines":
		return w.is("lines") && w.lines(s)
	case "parts":
		w.parts(s)
	case "machine":
		w.operations(s)
	case "positions":
		return w.is("hand") && w.is("scored") && !w.is("ruled") && w.positions(s)
	case "trouble":
		s.Loose = true
	case "proof":
		if !w.is("ruled") {
			s.Figures = []Figure{w.profile}
		}
	case "strips":
		s.NewPage = true
		return w.is("strips")
	default:
		return w.strip(s)
	}
	return true
}
