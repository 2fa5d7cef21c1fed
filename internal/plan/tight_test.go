package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
)

// A bend that is tighter than the parallel it needs, or, hollow to the panel, than its
// neutral line lies inside it, is told as just that; the radius that is offered mends it.
func TestBendsTooTight(t *testing.T) {
	cradle := func(d *design.Document) { d.Rib.Side, d.Panel.ScoredFace = "round", "round" } // scores meet the rib
	chain := func(d *design.Document) {
		d.Curve.Kind = design.Chain
		d.Curve.Pieces = []design.Piece{{Turn: "over", Length: "40", Radius: "60"}, {Turn: "back", Length: "4", Radius: "2.2"}}
	}
	for name, c := range map[string]struct {
		edit   func(d *design.Document)
		field  string
		offers bool
	}{
		"arc": {func(d *design.Document) { cradle(d) }, "curve.radius", true},
		"length and radius": {func(d *design.Document) {
			cradle(d)
			d.Curve.Kind, d.Curve.Length, d.Panel.Passes = "length-radius", "5", "3"
		}, "curve.radius", true},
		"a row":                {func(d *design.Document) { chain(d); d.Panel.ScoredFace = "hollow" }, "curve.pieces.1.radius", true},
		"a row, neutral line":  {func(d *design.Document) { chain(d); d.Curve.Line, d.Panel.ScoredFace = "neutral", "hollow" }, "", true},
		"outer face of an arc": {func(d *design.Document) { d.Curve.Line = "outer" }, "curve.radius", true},
		"a box": {func(d *design.Document) {
			d.Curve.Kind, d.Curve.BoxWidth, d.Curve.BoxHeight, d.Curve.Corner, d.Curve.Line = "box", "200", "100", "5", "outer"
			d.Sheet.Readings, d.Machine.Depths = []string{"6"}, []string{"3", "5.2"}
		}, "curve.corner", true},
		"span and rise": {func(d *design.Document) {
			d.Curve.Kind, d.Curve.Span, d.Curve.Rise, d.Curve.Line = "span-rise", "5", "2", "outer"
		}, "curve.rise", true},
	} {
		t.Run(name, func(t *testing.T) {
			d := design.Empty()
			d.Sheet.Readings, d.Machine.Depths = []string{"3"}, []string{"1.2", "2.2", "2.5"}
			d.Curve.Radius, d.Curve.Angle, d.Panel.Width = "2.2", "90", "50"
			c.edit(&d)
			v, found := design.Read(d)
			require.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
			p := Make(v)
			mend(&p)
			if c.field == "" { // the neutral line itself has room, the edge moves off it
				assert.True(t, p.Drawn, "%+v", p.Findings)
				return
			}
			require.False(t, p.Drawn)
			require.Len(t, p.Findings, 1)
			f := p.Findings[0]
			assert.Equal(t, "curve-tight", f.ID)
			assert.Equal(t, c.field, f.Place.Field)
			assert.LessOrEqual(t, f.Numbers["radius"], f.Numbers["distance"]+1e-6)
			require.Equal(t, c.offers, len(f.Remedies) > 0)
			for path, text := range f.Remedies[0].Set {
				var ok bool
				d, ok = design.Set(d, path, text)
				require.True(t, ok, path)
			}
			v, found = design.Read(d)
			require.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
			p = Make(v)
			for _, g := range p.Findings {
				assert.NotEqual(t, "curve-tight", g.ID, g.Text)
			}
		})
	}
}

// No layout that is drawn has scores that fall together.
func TestScoresKeepApartInACradle(t *testing.T) {
	for _, radius := range []string{"2.2", "2.6", "2.8", "3", "4", "8", "20"} {
		for _, spacing := range []string{design.Follow, design.Even, design.FixedCount, design.FixedPitch} {
			d := design.Empty()
			d.Sheet.Readings, d.Machine.Depths = []string{"3"}, []string{"1.2", "2.2", "2.5"}
			d.Curve.Radius, d.Curve.Angle, d.Panel.Width, d.Rib.Side, d.Panel.ScoredFace = radius, "90", "50", "round", "round"
			d.Panel.Spacing, d.Panel.Count, d.Panel.Pitch = spacing, "5", "1"
			v, _ := design.Read(d)
			p := Make(v)
			for i := 1; p.Drawn && i < len(p.Scores.Layout.Folds); i++ {
				assert.Greater(t, p.Scores.Layout.Folds[i].U, p.Scores.Layout.Folds[i-1].U, "R %s, %s", radius, spacing)
			}
		}
	}
}
