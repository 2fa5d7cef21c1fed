package check

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/plan"
)

// Where fewer scores are asked for than a curve of several bends can take, the number that
// is told is the fewest: taken, nothing is said any more, and one less brings it back.
func TestCountMissedTellsTheFewest(t *testing.T) {
	d := sound()
	d.Panel.Spacing = design.FixedCount
	for name, edit := range map[string]func(d *design.Document){
		"one bend": func(d *design.Document) { d.Curve.Angle = "200"; d.Curve.Radius = "40" },
		"an S": func(d *design.Document) {
			d.Curve.Kind = design.Chain
			d.Curve.Pieces = []design.Piece{{Turn: "over", Length: "60", Radius: "60"}, {Turn: "back", Length: "60", Radius: "60"}}
		},
		"an uneven S": func(d *design.Document) { // the short sharp bend needs more than its share
			d.Curve.Kind, d.Rib.FootDepth, d.Rib.TipDepth = design.Chain, "5", "5"
			d.Curve.Pieces = []design.Piece{{Turn: "over", Length: "300", Radius: "400"}, {Turn: "back", Length: "36", Radius: "12"}}
		},
	} {
		t.Run(name, func(t *testing.T) {
			d := d
			edit(&d)
			d.Panel.Count = "1"
			f := pick(findings(t, d), "count-missed")
			require.NotNil(t, f)
			fewest := int(f.Numbers["laid"])
			require.Greater(t, fewest, 1)
			require.Len(t, f.Remedies[:1], 1)
			assert.Equal(t, map[string]string{"panel.count": strconv.Itoa(fewest)}, f.Remedies[0].Set)
			for _, n := range []int{fewest, fewest + 1, fewest + 2, 4 * fewest} {
				d.Panel.Count = strconv.Itoa(n)
				v, _ := design.Read(d)
				p := plan.Make(v)
				assert.Len(t, p.Scores.Layout.Folds, n)
				assert.Empty(t, countMissed(&p))
			}
			d.Panel.Count = strconv.Itoa(fewest - 1)
			f = pick(findings(t, d), "count-missed")
			require.NotNil(t, f)
			assert.Equal(t, float64(fewest), f.Numbers["laid"])
		})
	}
}
