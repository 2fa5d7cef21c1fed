package view

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/design"
)

// Designs at the edge of sense, each of which once brought the plan down: they are drawn
// or stopped with a finding, and every number drawn is one.
func TestAbsurdDesigns(t *testing.T) {
	from := func(change func(*design.Document)) design.Document {
		d := design.Empty()
		d.Sheet.Readings, d.Machine.Depths = []string{"3"}, []string{"1.2", "2.2", "2.5"}
		d.Curve.Radius, d.Curve.Angle, d.Panel.Width = "100", "90", "50"
		change(&d)
		return d
	}
	tinyS := func(d *design.Document) {
		d.Curve.Kind = design.Chain
		d.Curve.Pieces = []design.Piece{{Turn: "over", Length: "0.5", Radius: "2"}, {Turn: "back", Length: "0.5", Radius: "2"}}
	}
	for name, c := range map[string]struct {
		doc   design.Document
		finds string // id of a finding
		drawn bool
	}{
		"panel within its straight foot":               {from(func(d *design.Document) { d.Panel.Length = "5" }), "panel-shorter", true},
		"bends tighter than the neutral line lies off": {from(tinyS), "curve-tight", false},
		"points there and back": {from(func(d *design.Document) {
			d.Curve.Kind = design.Points
			d.Curve.Points = []design.Point{{X: "0", Y: "0"}, {X: "100", Y: "0"}, {X: "0", Y: "0"}}
		}), "curve-points", false},
		"half a turn at one score": {from(func(d *design.Document) {
			d.Curve.Angle, d.Panel.Spacing, d.Panel.Count = "180", design.FixedCount, "1"
		}), "count-missed", true},
		"half a turn within one spacing": {from(func(d *design.Document) {
			d.Curve.Angle, d.Panel.Spacing, d.Panel.Pitch = "180", design.FixedPitch, "1000"
		}), "kerf-pinches", true},
	} {
		v, arrays := show(t, c.doc)
		assert.Equal(t, c.drawn, v.Drawn, name)
		ids := map[string]bool{}
		for _, f := range v.Findings {
			ids[f.ID] = true
		}
		assert.True(t, ids[c.finds], "%s: %v", name, ids)
		for _, a := range arrays {
			for _, x := range a {
				if f := float64(x); math.IsNaN(f) || math.IsInf(f, 0) {
					t.Fatalf("%s draws %v", name, x)
				}
			}
		}
	}
	v, _ := show(t, from(func(d *design.Document) { d.Panel.Length = "5" }))
	assert.Contains(t, v.Verdict.Sentence, "of its bend are left out")
}

// A remedy is never one that the field refuses, nor what the design has already.
func TestRemediesChangeSomething(t *testing.T) {
	d := design.Empty()
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width = "6000", "300", "50"
	d.Panel.Spacing, d.Panel.Count = design.FixedCount, "3"
	for _, spacing := range []string{design.FixedCount, design.Follow} {
		d.Panel.Spacing = spacing
		v, _ := show(t, d)
		for _, f := range v.Findings {
			for _, r := range f.Remedies {
				for path, text := range r.Set {
					was, ok := design.Get(d, path)
					assert.True(t, ok, path)
					assert.NotEqual(t, was, text, "%s: %s", f.ID, r.Text)
					after, _ := design.Set(d, path, text)
					_, found := design.Read(after)
					for _, g := range found {
						assert.NotEqual(t, path, g.Place.Field, "%s offers %q: %s", f.ID, text, g.Text)
					}
				}
			}
		}
	}
}

// Where a panel ends before the curve does, a longer straight tip would be no part of it.
func TestNoStraightPastThePanel(t *testing.T) {
	offers := func(length string) (warned, offered bool) {
		d := design.Empty()
		d.Curve.Radius, d.Curve.Angle, d.Panel.Width, d.Panel.Length = "100", "90", "50", length
		v, _ := show(t, d)
		for _, f := range v.Findings {
			if f.ID == "glue-peels" && f.Place.Field == "curve.tip" {
				warned, offered = true, len(f.Remedies) > 0
			}
		}
		return warned, offered
	}
	warned, offered := offers("")
	assert.True(t, warned && offered, "a whole panel")
	warned, offered = offers("100")
	assert.True(t, warned, "a panel that ends within the bend")
	assert.False(t, offered)
}
