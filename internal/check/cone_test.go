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

// coned is a cone of the usual sheet, in mm.
func coned(small, large, high string) design.Document {
	for _, e := range design.Examples() {
		if e.ID == "desk-shade" {
			d := design.Clone(e.Design)
			d.Curve.Small, d.Curve.Large, d.Curve.RimHeight = small, large, high
			d.Machine.BedWidth, d.Machine.BedHeight = "2000", "2000"
			return d
		}
	}
	panic("no example of a cone")
}

func triedCone(t *testing.T, d design.Document) map[string]finding.Finding {
	t.Helper()
	v, found := design.Read(d)
	require.Empty(t, found)
	p := plan.Make(v)
	require.True(t, p.Drawn, "%v", p.Findings)
	out := map[string]finding.Finding{}
	for _, f := range Tried(d, &p) {
		if _, ok := out[f.ID]; !ok {
			out[f.ID] = f
		}
	}
	return out
}

// A seam that pulls off its rings is mended by a lap, and what is offered writes only fields that a
// cone has.
func TestRemediesOfACone(t *testing.T) {
	d := coned("150", "200", "170")
	d.Curve.Seam, d.Curve.Lap = design.Butt, ""
	peels := triedCone(t, d)["glue-peels"]
	require.Equal(t, "curve.seam", peels.Place.Field)
	require.NotEmpty(t, peels.Remedies)
	d.Curve.Seam, d.Curve.Lap = peels.Remedies[0].Set["curve.seam"], peels.Remedies[0].Set["curve.lap"]
	assert.NotContains(t, triedCone(t, d), "glue-peels")

	tight := coned("70", "110", "120")
	tight.Strips.Readings = nil
	offered := 0
	for _, f := range triedCone(t, tight) {
		for _, r := range f.Remedies {
			for path := range r.Set {
				if !strings.HasPrefix(path, "curve.") {
					continue
				}
				offered++
				assert.Contains(t, []string{"curve.small", "curve.large", "curve.seam", "curve.lap", "curve.trim"}, path, r.Text)
			}
		}
	}
	assert.Positive(t, offered, "a cone that is too tight may be made larger")
}

// Rings and panel are warned of where the panel leans too much for a square edge, and not below.
func TestWhereAWedgeIsTold(t *testing.T) {
	assert.NotContains(t, triedCone(t, coned("150", "190", "125")), "ring-wedge")
	wide := triedCone(t, coned("150", "240", "125"))["ring-wedge"]
	assert.Greater(t, wide.Numbers["wedge"], mostWedge)
	d := coned("150", "240", "125")
	d.Rib.Thickness = "1.2"
	assert.NotContains(t, triedCone(t, d), "ring-wedge", "a thinner ring leaves less")
}

// A panel larger than the bed is offered in parts that lie on it.
func TestAConeInPartsLiesOnTheBed(t *testing.T) {
	d := coned("200", "260", "150")
	d.Machine.BedWidth, d.Machine.BedHeight = "600", "400"
	off := triedCone(t, d)["off-bed"]
	require.Equal(t, "panel", off.Place.Part)
	parts := ""
	for _, r := range off.Remedies {
		parts += r.Set["curve.gores"]
	}
	require.NotEmpty(t, parts, "%v", off.Remedies)
	d.Curve.Gores = parts
	assert.NotContains(t, triedCone(t, d), "off-bed")
}
