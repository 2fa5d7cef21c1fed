// Package finding holds what a person should know about a design: a stable id, how
// grave it is, the place it speaks of, its numbers, and a way to mend it.
//
// The page and the tests match on ID and Place, never on prose.
package finding

import "sort"

// Severity orders findings by how grave they are.
type Severity string

// The severities. Stop means that the piece would fail or the file must not be cut.
const (
	Stop Severity = "stop"
	Warn Severity = "warn"
	Note Severity = "note"
)

func (s Severity) rank() int {
	switch s {
	case Stop:
		return 0
	case Warn:
		return 1
	}
	return 2
}

// Place says what a finding speaks of. Any part may be empty.
type Place struct {
	// Field is the dotted path of a field of the design, "curve.radius" or
	// "curve.pieces.2.length".
	Field string `json:"field,omitempty"`
	// Part is the id of a part: "panel", "rib1".
	Part string `json:"part,omitempty"`
	// Score is the number of a score line counted from the foot, from 1.
	Score int `json:"score,omitempty"`
	// At is a station along the flat panel, mm from the foot edge; nil if none.
	At *float64 `json:"at,omitempty"`
}

// Remedy is one way to mend a finding. Set holds the fields that a click changes
// and the text each is given, in the form the document stores. Then is what it brings with it,
// a sentence; empty for nothing.
type Remedy struct {
	Text string            `json:"text"`
	Set  map[string]string `json:"set,omitempty"`
	Then string            `json:"then,omitempty"`
}

// Finding is one thing a person should know.
type Finding struct {
	ID       string             `json:"id"`
	Severity Severity           `json:"severity"`
	Place    Place              `json:"place"`
	Text     string             `json:"text"`              // one or two plain sentences with numbers and units
	Numbers  map[string]float64 `json:"numbers,omitempty"` // mm, degrees, N, ratios; the name says which
	Remedies []Remedy           `json:"remedies,omitempty"`
}

// At returns a pointer to u for Place.At.
func At(u float64) *float64 { return &u }

// Sort orders findings: graver first, then as they were found.
func Sort(fs []Finding) {
	sort.SliceStable(fs, func(i, j int) bool { return fs[i].Severity.rank() < fs[j].Severity.rank() })
}

// Worst returns the gravest severity among fs, or "" when there are none.
func Worst(fs []Finding) Severity {
	w := Severity("")
	for _, f := range fs {
		if w == "" || f.Severity.rank() < w.rank() {
			w = f.Severity
		}
	}
	return w
}
