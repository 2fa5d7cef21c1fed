package check

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

// sound is a design that no rule has anything to say of.
func sound() design.Document {
	d := design.Empty()
	d.Name = "Sound"
	d.Sheet.Readings = []string{"3.01", "3.02", "3.00", "3.01", "2.99"}
	d.Machine.Depths = []string{"1.2", "2.1", "2.5"}
	d.Machine.DepthSpread, d.Machine.ScoreWidth = "0.05", "0.2"
	d.Machine.Tested = true
	d.Curve.Radius, d.Curve.Angle = "120", "60"
	d.Curve.Foot, d.Curve.Tip = "20", "20"
	d.Panel.Width = "80"
	d.Rib.FootDepth, d.Rib.TipDepth = "30", "20"
	return d
}

func findings(t *testing.T, d design.Document) []finding.Finding {
	t.Helper()
	v, found := design.Read(d)
	require.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
	p := plan.Make(v)
	require.True(t, p.Drawn, "%+v", p.Findings)
	return Run(&p)
}

func TestASoundDesignHasNothingSaidOfIt(t *testing.T) {
	assert.Empty(t, findings(t, sound()))
}

// Every rule can speak, says numbers a person can check, and speaks of a place.
func TestEveryRuleSpeaks(t *testing.T) {
	for _, c := range []struct {
		id    string
		sev   finding.Severity
		edit  func(d *design.Document)
		field string // "" when the place is a score
	}{
		{"must-not-laser", finding.Stop, func(d *design.Document) { d.Sheet.Stock = "pvc-3"; d.Rib.Stock = "mdf-3" }, "sheet.stock"},
		{"must-not-laser", finding.Stop, func(d *design.Document) { d.Rib.Stock = "pvc-3" }, "rib.stock"},
		{"must-not-laser", finding.Stop, func(d *design.Document) {
			d.Rib.Places = []design.RibPlace{{Across: "-20"}, {Across: "20", Stock: "pvc-3"}}
		}, "rib.places.1.stock"},
		{"must-not-laser", finding.Stop, func(d *design.Document) { d.Rib.Foot, d.Base.Kind, d.Base.Stock = "tenon", "row", "pvc-3" }, "base.stock"},
		{"sheet-beside", finding.Note, func(d *design.Document) { d.Rib.Thickness = "6" }, "rib.thickness"},
		{"sheet-beside", finding.Note, func(d *design.Document) {
			d.Rib.Places = []design.RibPlace{{Across: "-20"}, {Across: "20", Thickness: "6"}}
		}, "rib.places.1.thickness"},
		{"sheet-beside", finding.Note, func(d *design.Document) { d.Rib.Foot, d.Base.Kind, d.Base.Thickness = "tenon", "row", "9" }, "base.thickness"},
		{"sheet-beside", finding.Note, func(d *design.Document) {
			d.Rib.Stock, d.Rib.Foot, d.Base.Kind, d.Base.Stock, d.Base.Thickness = "birch-6", "tenon", "row", "same", "6"
		}, "base.thickness"},
		{"sheet-beside", finding.Note, func(d *design.Document) {
			d.Rib.Stock = "birch-6"
			d.Rib.Places = []design.RibPlace{{Across: "-20"}, {Across: "20", Stock: "same", Thickness: "6"}}
		}, "rib.places.1.thickness"},
		{"cuts-shared", finding.Warn, func(d *design.Document) { d.Panel.Quantity, d.Cut.Gap = "3", "0" }, "cut.gap"},
		{"ring-wedge", finding.Warn, func(d *design.Document) {
			d.Curve.Kind, d.Curve.Small, d.Curve.Large, d.Curve.RimHeight = design.Cone, "140", "220", "90"
		}, "rib.thickness"},
		{"rim-too-narrow", finding.Warn, func(d *design.Document) {
			d.Curve.Kind, d.Curve.Small, d.Curve.Large, d.Curve.RimHeight, d.Panel.Finish = design.Cone, "24", "60", "100", "any"
		}, "curve.small"},
		{"cone-by-saw", finding.Stop, func(d *design.Document) {
			d.Machine.Tool, d.Machine.Reference, d.Machine.Depths = "saw", "table", []string{"0.8"}
			d.Curve.Kind, d.Curve.Small, d.Curve.Large, d.Curve.RimHeight = design.Cone, "140", "180", "120"
		}, "machine.tool"},
		{"cuts-through", finding.Stop, func(d *design.Document) {
			d.Machine.Depths, d.Machine.DepthSpread = []string{"1.2", "2.1", "2.9"}, "0.15"
			d.Panel.Passes = "3"
		}, "panel.passes"},
		{"kerf-pinches", finding.Stop, func(d *design.Document) { d.Panel.Spacing, d.Panel.Count = "count", "8" }, ""},
		{"strain-over", finding.Warn, func(d *design.Document) { d.Panel.Spacing, d.Panel.Count = "count", "14" }, ""},
		{"strain-over", finding.Stop, func(d *design.Document) {
			d.Panel.Spacing, d.Panel.Count = "count", "14"
			d.Sheet.StrainLimit, d.Sheet.StrainTested = "0.8", true
		}, ""},
		{"round-side-bottom", finding.Warn, func(d *design.Document) { d.Panel.ScoredFace = "round"; d.Panel.ShowFace = "hollow" }, ""},
		{"skin-thin", finding.Warn, func(d *design.Document) {
			d.Machine.Depths = []string{"1.2", "2.1", "2.75"}
			d.Panel.Passes = "3"
		}, "panel.passes"},
		{"land-narrow", finding.Warn, func(d *design.Document) { d.Panel.Spacing, d.Panel.Pitch, d.Panel.MinLand = "pitch", "1", "1" }, "panel.minLand"},
		{"flats-visible", finding.Warn, func(d *design.Document) {
			d.Panel.Spacing, d.Panel.Count, d.Panel.StandOff = "count", "34", "0.01"
		}, ""},
		{"folds-visible", finding.Warn, func(d *design.Document) {
			d.Panel.Spacing, d.Panel.Count, d.Panel.Finish = "count", "30", "gloss"
		}, ""},
		{"panel-longer", finding.Warn, func(d *design.Document) { d.Panel.Length = "200" }, "panel.length"},
		{"panel-shorter", finding.Warn, func(d *design.Document) { d.Panel.Length = "120" }, "panel.length"},
		{"panel-shorter", finding.Note, func(d *design.Document) { d.Panel.Length = "160" }, "panel.length"},
		{"panel-shorter", finding.Warn, func(d *design.Document) { d.Panel.Along = "40" }, "panel.along"},
		{"panel-shorter", finding.Warn, func(d *design.Document) {
			d.Panel.Shape = "polygon"
			d.Panel.Corners = []design.Corner{{Along: "0", Across: "-40"}, {Along: "120", Across: "-40"}, {Along: "120", Across: "40"}, {Along: "0", Across: "40"}}
		}, "panel.corners"},
		{"short-hot-line", finding.Warn, func(d *design.Document) {
			d.Panel.Overrun, d.Machine.Speed, d.Machine.Acceleration = "1", "120", "1500"
		}, "panel.overrun"},
		{"rib-wide", finding.Stop, func(d *design.Document) { d.Panel.Width = "5"; d.Rib.Stock = "mdf-6" }, "panel.width"},
		{"rib-wide", finding.Stop, func(d *design.Document) {
			d.Rib.Places = []design.RibPlace{{Across: "-39"}, {Across: "10"}}
		}, "rib.places.0.thickness"},
		{"panel-longer", finding.Warn, func(d *design.Document) { d.Panel.Along = "-10" }, "panel.along"},
		{"panel-longer", finding.Warn, func(d *design.Document) {
			d.Panel.Shape = "polygon"
			d.Panel.Corners = []design.Corner{{Along: "0", Across: "-40"}, {Along: "220", Across: "-40"}, {Along: "220", Across: "40"}, {Along: "0", Across: "40"}}
		}, "panel.corners"},
		{"hole-over-rib", finding.Warn, func(d *design.Document) { d.Panel.Holes = []design.Hole{{Along: "80", Across: "8", Width: "20"}} }, "panel.holes.0.across"},
		{"hole-near", finding.Warn, func(d *design.Document) { d.Panel.Holes = []design.Hole{{Along: "80", Across: "29", Width: "20"}} }, "panel.holes.0.along"},
		{"end-gap", finding.Warn, func(d *design.Document) {
			d.Panel.Shape, d.Panel.Width, d.Panel.Along, d.Panel.Length = "ellipse", "100", "30", "100"
			d.Rib.Places = []design.RibPlace{{Across: "-30"}, {Across: "30"}}
		}, "rib.places"},
		{"glue-peels", finding.Warn, func(d *design.Document) { d.Panel.Shape, d.Panel.Along, d.Panel.Width = "rectangle", "25", "80" }, "curve.foot"},
		{"rib-weak", finding.Warn, func(d *design.Document) { d.Rib.FootDepth, d.Rib.TipDepth = "2.5", "2.5"; d.Rib.TipRound = "1" }, "rib.footDepth"},
		{"rib-soft", finding.Warn, func(d *design.Document) { d.Rib.FootDepth, d.Rib.TipDepth = "8", "4"; d.Rib.TipRound = "1" }, "rib.footDepth"},
		{"glue-peels", finding.Warn, func(d *design.Document) { d.Curve.Foot = "3" }, "curve.foot"},
		{"glue-peels", finding.Warn, func(d *design.Document) { d.Curve.Tip = "3" }, "curve.tip"},
		{"end-gap", finding.Warn, func(d *design.Document) { d.Rib.Short = "25" }, "rib.short"},
		{"end-gap", finding.Note, func(d *design.Document) { d.Rib.Short = "21" }, "rib.short"},
		{"held-strain", finding.Warn, func(d *design.Document) { d.Sheet.Stock, d.Machine.Tool = "pvc-3", "knife" }, ""},
		{"held-strain", finding.Warn, func(d *design.Document) { d.Sheet.Stock, d.Curve.Radius = "acrylic-3", "60" }, ""},
		{"wrong-face", finding.Warn, func(d *design.Document) { d.Panel.ShowFace = "hollow" }, "panel.scoredFace"},
		{"mark-turned", finding.Note, func(d *design.Document) { d.Rib.Side = "round" }, "rib.side"},
		{"along-grain", finding.Warn, func(d *design.Document) {
			d.Sheet.Stock, d.Sheet.Grain, d.Sheet.Readings = "birch-3", "along", []string{"3.0", "3.0", "3.0"}
		}, "sheet.grain"},
		{"glue-line", finding.Note, func(d *design.Document) {
			d.Sheet.Stock, d.Sheet.Grain, d.Sheet.Readings = "birch-3", "across", []string{"3.0", "3.0", "3.0"}
			d.Machine.Depths, d.Panel.Passes = []string{"2.0"}, "1"
		}, "panel.passes"},
		{"not-measured", finding.Note, func(d *design.Document) { d.Sheet.Readings = nil }, "sheet.readings"},
		{"not-measured", finding.Note, func(d *design.Document) { d.Machine.Tested = false }, "machine.depths"},
		{"outside-law", finding.Note, func(d *design.Document) { d.Machine.ScoreWidth = "1.6" }, "none"},
		{"passes-missing", finding.Warn, func(d *design.Document) { d.Panel.Passes = "7" }, "panel.passes"},
	} {
		t.Run(c.id+" "+c.field, func(t *testing.T) {
			d := sound()
			c.edit(&d)
			var got *finding.Finding
			all := findings(t, d)
			for i := range all {
				if all[i].ID == c.id && (c.field == "" || c.field == "none" || all[i].Place.Field == c.field) {
					got = &all[i]
				}
			}
			require.NotNil(t, got, "%+v", all)
			assert.Equal(t, c.sev, got.Severity)
			assert.True(t, strings.HasSuffix(got.Text, ".") || strings.HasSuffix(got.Text, ")"), got.Text)
			if c.field == "" {
				assert.Greater(t, got.Place.Score, 0)
				assert.NotNil(t, got.Place.At)
			}
		})
	}
}

// Each remedy, taken, mends what it was offered for.
func TestRemediesMend(t *testing.T) {
	tried := map[string]int{}
	for _, edit := range []func(d *design.Document){
		func(d *design.Document) { d.Panel.Spacing, d.Panel.Count = "count", "8" },
		func(d *design.Document) { d.Panel.Spacing, d.Panel.Count = "count", "14" },
		func(d *design.Document) { d.Panel.Spacing, d.Panel.Count, d.Panel.StandOff = "count", "34", "0.01" },
		func(d *design.Document) { d.Panel.Length = "200" },
		func(d *design.Document) { d.Panel.Along = "-10" },
		func(d *design.Document) { d.Panel.Along, d.Panel.Length = "80", "120" },
		func(d *design.Document) {
			d.Panel.Shape, d.Panel.Width, d.Curve.Foot, d.Curve.Tip = "ellipse", "90", "22", "22"
			d.Rib.Places = []design.RibPlace{{Across: "-30"}, {Across: "30"}}
		},
		func(d *design.Document) { d.Curve.Radius = "25"; d.Rib.FootDepth, d.Rib.TipDepth = "15", "10" },
		func(d *design.Document) { d.Panel.Spacing, d.Panel.Pitch = "pitch", "6" },
		func(d *design.Document) { d.Curve.Foot, d.Curve.Tip = "3", "3" },
		func(d *design.Document) { d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.TipRound = "8", "4", "1" },
		func(d *design.Document) { d.Panel.ShowFace = "hollow" },
		func(d *design.Document) { d.Panel.Passes = "7" },
		func(d *design.Document) { d.Panel.Overrun = "1" },
		func(d *design.Document) { d.Sheet.Stock = "pvc-3"; d.Rib.Stock = "mdf-3" },
		func(d *design.Document) {
			d.Rib.Places = []design.RibPlace{{Across: "-20"}, {Across: "20", Stock: "pvc-3"}}
		},
		func(d *design.Document) {
			d.Rib.Foot, d.Base.Kind, d.Base.Stock, d.Base.Thickness = "tenon", "row", "pvc-3", "4.5"
		},
		func(d *design.Document) { d.Rib.Thickness = "6" },
		func(d *design.Document) {
			d.Rib.Stock, d.Rib.Foot, d.Base.Kind, d.Base.Stock, d.Base.Thickness = "birch-6", "tenon", "row", "same", "6"
		},
	} {
		d := sound()
		edit(&d)
		for _, f := range tell(d).findings {
			for _, r := range f.Remedies {
				mended := d
				ok := true
				for path, text := range r.Set {
					var set bool
					mended, set = design.Set(mended, path, text)
					ok = ok && set
				}
				require.True(t, ok, "%s: %+v", f.ID, r)
				for _, g := range findings(t, mended) {
					if g.ID == f.ID && g.Place.Field == f.Place.Field {
						assert.Fail(t, "not mended", "%s by %q: %s", f.ID, r.Text, g.Text)
					}
				}
				tried[f.ID]++
			}
		}
	}
	for _, id := range []string{"kerf-pinches", "strain-over", "flats-visible", "panel-longer", "glue-peels", "rib-soft", "wrong-face", "passes-missing", "short-hot-line", "must-not-laser"} {
		assert.Greater(t, tried[id], 0, id)
	}
}

func TestRulesAreNamedOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules() {
		assert.False(t, seen[r.ID], r.ID)
		seen[r.ID] = true
		assert.NotEmpty(t, r.Why)
		assert.NotEmpty(t, r.Source)
	}
}

func TestGraverFirst(t *testing.T) {
	d := sound()
	d.Panel.Spacing, d.Panel.Count = "count", "8"
	d.Machine.Tested = false
	fs := findings(t, d)
	require.NotEmpty(t, fs)
	assert.Equal(t, finding.Stop, fs[0].Severity)
	assert.Equal(t, finding.Note, fs[len(fs)-1].Severity)
}

// Where a bend over meets one back the scores beside the joint lie half a spacing from it: too close is
// told there, though either bend has room enough, and what is offered makes room.
func TestTwoBendsMeetTooClose(t *testing.T) {
	d := design.Empty()
	d.Panel.Width, d.Curve.Kind = "80", "chain"
	d.Curve.Pieces = []design.Piece{{Turn: design.Over, Radius: "80", Length: "90"}, {Turn: design.Back, Radius: "80", Length: "90"}}
	d.Panel.Spacing, d.Panel.Pitch, d.Panel.MinLand, d.Machine.ScoreWidth = "pitch", "1.5", "0.3", "0.5"
	told := func() finding.Finding {
		all := findings(t, d)
		i := slices.IndexFunc(all, func(f finding.Finding) bool { return f.ID == "land-narrow" })
		require.GreaterOrEqual(t, i, 0, "%+v", all)
		return all[i]
	}
	f := told()
	assert.Equal(t, finding.Warn, f.Severity)
	assert.Contains(t, f.Text, "between scores ")
	assert.Positive(t, f.Place.Score)
	d.Machine.ScoreWidth = "0.9"
	assert.Equal(t, finding.Stop, told().Severity, "nothing is left")
}
