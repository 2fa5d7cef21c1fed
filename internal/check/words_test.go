package check

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

// What is nothing, or less than nothing, is said in words that fit.
func TestNothingIsSaidInWords(t *testing.T) {
	round := func(d *design.Document) {
		d.Curve.Kind, d.Curve.BoxWidth, d.Curve.BoxHeight, d.Curve.Corner, d.Curve.Trim = "box", "150", "110", "45", "2"
	}
	for _, c := range []struct {
		id, says, not string
		edit          func(d *design.Document)
	}{
		{"seam", "mm shorter: its ends don't meet.", "longer", func(d *design.Document) { round(d); d.Panel.Length = "200" }},
		{"seam", "no longer: its ends may not meet.", "only", func(d *design.Document) { round(d); d.Curve.Trim = "0" }},
		{"end-gap", "", "", func(d *design.Document) { round(d); d.Panel.Length = "200"; d.Panel.Along = "20" }},
		{"end-gap", "", "", func(d *design.Document) { d.Curve.Tip, d.Rib.Short = "0", "0.4" }},
		{"short-hot-line", "end at the panel's edge", "only 0", func(d *design.Document) { d.Panel.Overrun = "0" }},
		{"land-narrow", "Scores 0.18 mm apart and 0.2 mm wide leave nothing between them", "-0.0", func(d *design.Document) { d.Panel.Spacing, d.Panel.Pitch = "pitch", "0.18" }},
		{"glue-peels", "it has none", "it has 0", func(d *design.Document) { d.Curve.Foot, d.Curve.Radius = "0", "60" }},
		{"cuts-through", "1 pass leaves", "1 passes", func(d *design.Document) { d.Machine.Depths, d.Machine.DepthSpread = []string{"2.9"}, "0.15" }},
		{"nothing-works", "One pass does not work: it strains", "pass counts", func(d *design.Document) { d.Machine.Depths, d.Curve.Radius = []string{"1.2"}, "60" }},
		{"kerf-hole-lost", "2 holes are no wider than the kerf", "", func(d *design.Document) {
			d.Machine.Kerf = "1.2"
			d.Panel.Holes = []design.Hole{{Kind: "round", Along: "40", Across: "20", Width: "1"}, {Kind: "round", Along: "40", Across: "-20", Width: "1"}}
		}},
	} {
		d := sound()
		c.edit(&d)
		v, _ := design.Read(d)
		p := plan.Make(v)
		said := ""
		for _, f := range append(NothingWorks(d, &p), Run(&p)...) {
			if f.ID == c.id {
				said += f.Text
			}
		}
		if c.says == "" {
			assert.Empty(t, said, c.id)
			continue
		}
		assert.Contains(t, said, c.says, c.id)
		if c.not != "" {
			assert.NotContains(t, said, c.not, c.id)
		}
	}
}

// A panel part of the way round a former is marked as far as it goes.
func TestMarkOfAPanelPartOfTheWayRound(t *testing.T) {
	d := sound()
	d.Curve.Kind, d.Curve.BoxWidth, d.Curve.BoxHeight, d.Curve.Corner = "box", "150", "110", "45"
	d.Panel.Length, d.Panel.Along = "200", "20"
	v, found := design.Read(d)
	assert.NotEqual(t, finding.Stop, finding.Worst(found))
	p := plan.Make(v)
	assert.InDelta(t, 220, p.Supports.Mark.To, 1e-6)
}
