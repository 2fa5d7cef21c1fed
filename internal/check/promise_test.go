package check

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

// narrowSlots is a router whose cutter is wider than the slots of its base.
func narrowSlots() design.Document {
	d := sound()
	d.Machine.Tool, d.Machine.Kerf, d.Machine.ScoreWidth = "router", "3.175", "1"
	d.Machine.Depths, d.Sheet.Readings = []string{"1.9"}, []string{"2.9", "2.9", "2.9"}
	d.Curve.Radius, d.Curve.Angle, d.Rib.Foot, d.Base.Kind, d.Panel.Quantity = "400", "30", "tenon", "row", "2"
	return d
}

func ofID(fs []finding.Finding, id string) []finding.Finding {
	var out []finding.Finding
	for _, f := range fs {
		if f.ID == id {
			out = append(out, f)
		}
	}
	return out
}

// What the file lacks is a stop, at its part, and each change offered for it mends it:
// pressed, and pressed again.
func TestWhatTheFileLacksIsAStop(t *testing.T) {
	for _, c := range []struct {
		name, id, part string
		lost           int      // numbered
		set            []string // fields that remedies change, one of each
		edit           func(d *design.Document)
	}{
		{"slots under the cutter", "kerf-hole-lost", "base", 2, []string{"machine.kerf", "rib.fit", "rib.stock"}, func(d *design.Document) { *d = narrowSlots() }},
		{"the same in inches", "kerf-hole-lost", "base", 2, []string{"machine.kerf", "rib.fit", "rib.stock"}, func(d *design.Document) {
			*d = narrowSlots()
			d.Units, d.Machine.Kerf, d.Machine.ScoreWidth, d.Machine.Depths = "in", "1/8", "1 mm", []string{"1.9 mm"}
			d.Sheet.Readings, d.Curve.Radius, d.Curve.Foot, d.Curve.Tip = []string{"2.9 mm"}, "400 mm", "16 mm", "16 mm"
			d.Panel.Width, d.Rib.FootDepth, d.Rib.TipDepth = "80 mm", "30 mm", "20 mm"
		}},
		{"holes under the kerf", "kerf-hole-lost", "panel", 2, []string{"machine.kerf", "panel.holes.0.width", "panel.holes.0.along"}, func(d *design.Document) {
			d.Machine.Kerf = "1.2"
			d.Panel.Holes = []design.Hole{{Kind: "round", Along: "40", Across: "20", Width: "1"}, {Kind: "slot", Along: "40", Across: "-20", Width: "1.2", Length: "9"}}
		}},
		{"a tenon that the cutter can't get beside", "corner-round", "rib1", 0, []string{"machine.kerf", "rib.stubWidth"}, func(d *design.Document) {
			*d = narrowSlots()
			d.Rib.Fit, d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.StubWidth = "1", "12", "8", "10.8"
		}},
	} {
		d := sound()
		c.edit(&d)
		before := tell(d)
		require.True(t, before.drawn, "%s %+v", c.name, before.findings)
		fs := ofID(before.findings, c.id)
		require.Len(t, fs, 1, "%s %+v", c.name, before.findings)
		f := fs[0]
		assert.Equal(t, finding.Stop, f.Severity, c.name)
		assert.Equal(t, c.part, f.Place.Part, c.name)
		assert.Equal(t, float64(c.lost), f.Numbers["lost"], "%s %v", c.name, f.Numbers)
		for _, field := range c.set {
			found := false
			for _, r := range f.Remedies {
				if _, ok := r.Set[field]; !ok {
					continue
				}
				found = true
				after := apply(t, d, r)
				assert.Empty(t, ofID(tell(after).findings, c.id), "%s: %s %v", c.name, r.Text, r.Set)
				assert.Empty(t, ofID(tell(apply(t, after, r)).findings, c.id), "%s twice", r.Text)
			}
			assert.True(t, found, "%s: %s of %+v", c.name, field, f.Remedies)
		}
	}
}

// A corner that the person leaves round by choice is a warning, with the way back.
func TestRoundCornersByChoice(t *testing.T) {
	d := narrowSlots()
	d.Rib.Fit, d.Cut.Relief = "1", "none"
	fs := ofID(tell(d).findings, "corner-round")
	require.Len(t, fs, 2, "the base and the rib")
	for _, f := range fs {
		assert.Equal(t, finding.Warn, f.Severity)
		assert.Equal(t, map[string]string{"cut.relief": "auto"}, f.Remedies[0].Set)
	}
	d.Cut.Relief = "auto"
	assert.Empty(t, ofID(tell(d).findings, "corner-round"))
}

// Bridges that find no place are told, by part and number; narrower ones that do are
// offered, and take.
func TestBridgesWithoutAPlace(t *testing.T) {
	d := sound()
	d.Cut.Bridges, d.Cut.BridgeWidth, d.Machine.Kerf = "all", "22", "0.2"
	d.Panel.Width, d.Curve.Radius = "60", "60"
	told := tell(d)
	var panel []finding.Finding
	for _, f := range ofID(told.findings, "bridges-few") {
		if f.Place.Part == "panel" {
			panel = append(panel, f)
		}
	}
	require.Len(t, panel, 1, "%+v", told.findings)
	f := panel[0]
	require.NotEmpty(t, f.Remedies)
	assert.Equal(t, f.Numbers["bridges"] == 0, f.Severity == finding.Warn)
	for _, g := range ofID(tell(apply(t, d, f.Remedies[0])).findings, "bridges-few") {
		assert.NotEqual(t, "panel", g.Place.Part)
	}
	d.Cut.Bridges = "none"
	assert.Empty(t, ofID(tell(d).findings, "bridges-few"))
}

// The marks of ribs on the unscored face are in no file, and the bench sheet has them ruled.
func TestTurnedMarksAreRuled(t *testing.T) {
	d := sound()
	d.Rib.Side = "round"
	v, _ := design.Read(d)
	p := plan.Make(v)
	require.True(t, p.Supports.Mark.Turned)
	ok, problems := promised(t, d)
	require.True(t, ok)
	assert.Empty(t, problems)
	said := ""
	for _, f := range Run(&p) {
		if f.ID == "mark-turned" {
			said = f.Text
		}
	}
	assert.True(t, strings.Contains(said, "by hand"), said)
}
