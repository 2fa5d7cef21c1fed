package view

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/wire"
)

// Whoever goes on by corners goes on with the outline that was there: drawn again from its
// corners it covers the same area, but for what the corners of a round edge cut off.
func TestCornersStartFromTheShapeBefore(t *testing.T) {
	for _, e := range design.Examples()[:4] {
		for _, units := range []string{"mm", "in"} {
			d := design.Convert(e.Design, units)
			before := workOut(d, wire.Show{}, Core{}.remembered())
			v, _, err := Core{}.Plan(raw(t, d), wire.Show{Untried: true})
			require.NoError(t, err)
			require.NotEmpty(t, v.Corners, e.ID)
			assert.LessOrEqual(t, len(v.Corners), mostCorners)
			d.Panel.Shape = design.Polygon
			for _, c := range v.Corners {
				d.Panel.Corners = append(d.Panel.Corners, design.Corner(c))
			}
			after := workOut(d, wire.Show{}, Core{}.remembered())
			require.True(t, after.plan.Drawn, "%s in %s: %v", e.ID, units, after.findings)
			a, b := before.plan.Outline.Given.Outer, after.plan.Outline.Given.Outer
			assert.InEpsilon(t, a.Area(), b.Area(), 0.06, "%s in %s", e.ID, units)
			assert.InDelta(t, a.Box().W(), b.Box().W(), 0.2, e.ID)
			assert.Empty(t, after.corners(), "they are there already")
		}
	}
	assert.Empty(t, workOut(design.Examples()[5].Design, wire.Show{}, Core{}.remembered()).corners(), "a cone has none")
}
