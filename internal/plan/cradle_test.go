package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
)

// In a cradle that starts with its bend the first flat is a chord, not the edge's tangent:
// folded up from there the panel meets the rib, however wide its flats are.
func TestACradleThatStartsWithItsBend(t *testing.T) {
	for _, count := range []string{"1", "2", "6", "40"} {
		for _, foot := range []string{"0", "0.2", "12"} {
			if count == "1" && foot != "0" {
				continue // a chord's two ends are two scores
			}
			d := design.Empty()
			d.Curve.Radius, d.Curve.Angle, d.Curve.Foot, d.Curve.Tip, d.Panel.Width = "105", "40", foot, "0", "100"
			d.Panel.Spacing, d.Panel.Count, d.Rib.Side = design.FixedCount, count, design.Round
			v, _ := design.Read(d)
			p := Make(v)
			require.True(t, p.Drawn, "%+v", p.Findings)
			assert.Equal(t, v.Panel.Count, len(p.Scores.Layout.Folds), "%s scores, foot %s", count, foot)
			assert.Less(t, p.Proof.Fit.EndMiss, 0.02, "%s scores, foot %s", count, foot)
			assert.InDelta(t, 0, p.Proof.Fit.LeastFlat, 0.02, "%s scores, foot %s", count, foot)
		}
	}
}
