package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
)

// mended takes the first remedy of the finding of an id and plans again.
func mended(t *testing.T, d design.Document, p Plan, id string) Plan {
	t.Helper()
	for _, f := range p.Findings {
		if f.ID != id {
			continue
		}
		require.NotEmpty(t, f.Remedies, f.Text)
		for _, path := range design.Paths(f.Remedies[0].Set) {
			var ok bool
			d, ok = design.Set(d, path, f.Remedies[0].Set[path])
			require.True(t, ok, path)
		}
		q, _ := planned(d)
		return q
	}
	require.Fail(t, "not found", "%s in %+v", id, p.Findings)
	return Plan{}
}

// A rib that the panel covers only past the curve's end has nothing to stand on: that is
// told, and it is offered a place where it has.
func TestARibPastTheCurve(t *testing.T) {
	d := shaped("polygon", func(p *design.Panel) { // a lug at its far end, past the tip
		p.Corners = cornerRows([3]string{"0", "-20", ""}, [3]string{"300", "-20", ""}, [3]string{"300", "60", ""}, [3]string{"270", "60", ""}, [3]string{"270", "20", ""}, [3]string{"0", "20", ""})
	})
	d.Curve.Kind, d.Curve.Length, d.Curve.Radius, d.Curve.Foot, d.Curve.Tip = "length-radius", "150", "200", "20", "20"
	d.Rib.Places = []design.RibPlace{{Across: "0"}, {Across: "50"}}
	p := must(t, d)
	assert.False(t, p.Drawn)
	q := mended(t, d, p, "rib-off-panel")
	assert.True(t, q.Drawn, "%+v", q.Findings)
}

// Stops that a click mends, each once.
func TestStopsThatAClickMends(t *testing.T) {
	for id, edit := range map[string]func(d *design.Document){
		"rib-too-deep": func(d *design.Document) { d.Curve.Radius, d.Rib.FootDepth, d.Rib.TipDepth = "30", "40", "40" },
		"hole-at-edge": func(d *design.Document) {
			d.Panel.Holes = []design.Hole{{Along: "60", Across: "25", Width: "40"}}
		},
		"hole-outside": func(d *design.Document) {
			d.Panel.Holes = []design.Hole{{Along: "60", Across: "200", Width: "4"}}
		},
		"outline-crosses": func(d *design.Document) {
			d.Panel.Shape = "polygon"
			d.Panel.Corners = cornerRows([3]string{"0", "-30", ""}, [3]string{"100", "30", ""}, [3]string{"100", "-30", ""}, [3]string{"0", "30", ""})
		},
		"off-bed": func(d *design.Document) {
			d.Machine.BedWidth, d.Machine.BedHeight, d.Cut.Turns = "110", "600", "none"
		},
	} {
		d := archDesign()
		d.Panel.Width = "80"
		edit(&d)
		p := must(t, d)
		q := mended(t, d, p, id)
		for _, f := range q.Findings {
			assert.NotEqual(t, id, f.ID, f.Text)
		}
	}
}
