package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/plan"
)

// Lines too short for the speed are counted once, however often and as how many layers
// they are run. At 120 mm/s and 1500 mm/s² a line needs 9.6 mm: uniform acceleration.
func TestShortLinesAreToldOnce(t *testing.T) {
	d := design.Empty()
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width, d.Panel.Overrun = "110", "60", "6", "1"
	d.Panel.Quantity, d.Cut.RepeatLayers, d.Panel.Passes = "3", true, "2"
	d.Rib.Thickness = "4"
	v, _ := design.Read(d)
	p := plan.Make(v)
	require.True(t, p.Drawn, "%+v", p.Findings)
	found := hotLines(&p)
	require.Len(t, found, 1)
	assert.Equal(t, float64(p.ScoresCut()), found[0].Numbers["lines"])
	assert.InDelta(t, 8, found[0].Numbers["shortest"], 1e-9)
	d.Panel.Width = "40"
	v, _ = design.Read(d)
	p = plan.Make(v)
	require.Len(t, hotLines(&p), 1)
	assert.NotContains(t, hotLines(&p)[0].Numbers, "lines")
	d.Panel.Overrun = "auto"
	v, _ = design.Read(d)
	p = plan.Make(v)
	assert.Empty(t, hotLines(&p))
}
