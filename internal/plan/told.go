package plan

import (
	"springrib/internal/finding"
	"springrib/internal/unit"
)

// told collects what a stage has to say, with lengths in the design's unit.
type told struct {
	units    unit.System
	findings []finding.Finding
}

func (t *told) len(mm float64) string { return unit.Length(mm, t.units) }

func (t *told) note(id string, sev finding.Severity, field, text string, numbers map[string]float64) {
	t.findings = append(t.findings, finding.Finding{ID: id, Severity: sev, Place: finding.Place{Field: field}, Text: text, Numbers: numbers})
}

// stop adds a finding that ends the plan, and returns false for the stage to return.
func (t *told) stop(id, field, text string, numbers map[string]float64) bool {
	t.note(id, finding.Stop, field, text, numbers)
	return false
}

// unreadable says that a drawing's paths can't be read, which a design that was saved
// here never comes to.
func (t *told) unreadable(field string) bool {
	return t.stop("drawn-unreadable", field, "What this design keeps of the drawing can't be read. Open the drawing again.", nil)
}

// told returns a place for what a stage has to say; take takes it over.
func (p *Plan) told() told { return told{units: p.V.Units} }

func (p *Plan) take(t told) { p.Findings = append(p.Findings, t.findings...) }

// stop adds a finding that ends the plan, and returns false for the stage to return.
func (p *Plan) stop(id, field, text string, numbers map[string]float64) bool {
	p.note(id, finding.Stop, field, text, numbers)
	return false
}
