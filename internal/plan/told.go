package plan

import "springrib/internal/finding"

// told returns a place for what a stage has to say; take takes it over.
func (p *Plan) told() finding.Notes { return finding.Notes{Units: p.V.Units} }

func (p *Plan) take(t finding.Notes) { p.Findings = append(p.Findings, t.All...) }

// stop adds a finding that ends the plan, and returns false for the stage to return.
func (p *Plan) stop(id, field, text string, numbers map[string]float64) bool {
	p.note(id, finding.Stop, field, text, numbers)
	return false
}
