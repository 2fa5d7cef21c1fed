package remedy

import (
	"slices"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

// whole lists the findings whose remedies change so much that only the whole plan tells
// whether they mend.
var whole = []string{"must-not-laser", "cuts-shared", "sheet-beside", "kerf-hole-lost", "kerf-not-allowed", "kerf-no-reach", "corner-round"}

// Tried returns findings with the remedies that mend alone: with each the design is read,
// planned and judged anew. One that leaves the finding, or brings another stop, goes.
func Tried(doc design.Document, fs []finding.Finding, judge func(*plan.Plan) []finding.Finding) []finding.Finding {
	stops := map[string]bool{}
	for _, f := range fs {
		if f.Severity == finding.Stop {
			stops[f.ID+" "+f.Place.Field] = true
		}
	}
	for i, f := range fs {
		if !slices.Contains(whole, f.ID) {
			continue
		}
		fs[i].Remedies = nil
		for _, r := range f.Remedies {
			if mends(doc, f, r, stops, judge) {
				fs[i].Remedies = append(fs[i].Remedies, r)
			}
		}
	}
	return fs
}

// applied reads a design with a change made; ok is false where a field refuses it or stops.
func applied(doc design.Document, set map[string]string) (v design.Values, ok bool) {
	for _, path := range design.Paths(set) {
		if doc, ok = design.Set(doc, path, set[path]); !ok {
			return v, false
		}
	}
	v, found := design.Read(doc)
	return v, finding.Worst(found) != finding.Stop
}

// mends tells whether a remedy mends a finding of a design that has these stops.
func mends(doc design.Document, f finding.Finding, r finding.Remedy, stops map[string]bool, judge func(*plan.Plan) []finding.Finding) bool {
	v, ok := applied(doc, r.Set)
	if !ok {
		return false
	}
	p := plan.Make(v)
	if !p.Drawn {
		return false
	}
	for _, g := range judge(&p) {
		same := g.ID == f.ID && g.Place.Field == f.Place.Field && (g.Place.Part == f.Place.Part || f.Place.Field != "machine.kerf") // which all parts share
		if same || g.Severity == finding.Stop && !stops[g.ID+" "+g.Place.Field] {
			return false
		}
	}
	return true
}
