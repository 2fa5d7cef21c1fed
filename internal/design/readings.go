package design

import (
	"strings"

	"springrib/internal/finding"
)

// Sizes of the printed tongues, mm: package plan cuts them so, and a reading that says
// nothing else was taken on one.
const (
	tongueLength = 80
	tongueWidth  = 12
)

// TongueLength and TongueWidth return the printed size of the tongues of a depth strip:
// from the line for the table's edge to the hole for the weight, and across.
func TongueLength() float64 { return tongueLength }

// TongueWidth is described at TongueLength.
func TongueWidth() float64 { return tongueWidth }

// readingsWarn turns what would stop a design into warnings: a reading that can't be
// read is put aside, and the design is as it was without it.
func (r *reader) readingsWarn(*State) {
	for i := range r.found {
		f := &r.found[i]
		if f.Place.Field == "strips.readings" { // too many of them
			f.Severity = finding.Warn
		}
		rest, ok := strings.CutPrefix(f.Place.Field, "strips.readings.")
		if !ok || f.Severity != finding.Stop {
			continue
		}
		f.Severity, f.ID = finding.Warn, "reading-unreadable"
		f.Text += " This reading is not used."
		for k := range r.v.Strips.Readings {
			x := &r.v.Strips.Readings[k]
			if strings.HasPrefix(rest, strings.TrimPrefix(index("", x.Row), ".")+".") {
				x.Bad = true
			}
		}
	}
}
