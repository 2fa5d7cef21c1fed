package view

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
)

// A panel on the straight foot alone is drawn, and said to stay flat.
func TestAFlatPanelIsSaidToBeFlat(t *testing.T) {
	d := design.Empty()
	d.Curve.Radius, d.Curve.Angle, d.Curve.Foot = "200", "60", "120"
	d.Panel.Shape = design.Polygon
	d.Panel.Corners = []design.Corner{{Along: "0", Across: "-40"}, {Along: "80", Across: "-40"}, {Along: "80", Across: "40"}, {Along: "0", Across: "40"}}
	w := work(d)
	require.True(t, w.plan.Drawn, "%+v", w.findings)
	assert.Empty(t, w.scores())
	assert.Empty(t, w.options().Rows)
	assert.Contains(t, w.summary(), "stays flat")
	assert.NotEmpty(t, w.numbers())
	assert.NotEmpty(t, w.sketches())
	assert.NotEmpty(t, w.files())
}
