package finding

import "springrib/internal/unit"

// Notes collects what a stage has to say. Lengths are told in Units.
type Notes struct {
	Units unit.System
	All   []Finding
}

// Len writes a length.
func (n *Notes) Len(mm float64) string { return unit.Length(mm, n.Units) }

// Note adds a finding about a field.
func (n *Notes) Note(id string, sev Severity, field, text string, numbers map[string]float64) {
	n.All = append(n.All, Finding{ID: id, Severity: sev, Place: Place{Field: field}, Text: text, Numbers: numbers})
}

// Stop adds a finding that ends the plan, and returns false for the stage to return.
func (n *Notes) Stop(id, field, text string, numbers map[string]float64) bool {
	n.Note(id, Stop, field, text, numbers)
	return false
}
