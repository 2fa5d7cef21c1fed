package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// side is four plain panels, one beside the other on a sheet.
func side() design.Document {
	d := sound()
	d.Panel.Quantity, d.Panel.Overrun = "4", "0"
	return d
}

func sharedOf(t *testing.T, d design.Document) *finding.Finding {
	t.Helper()
	v, found := design.Read(d)
	require.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
	p := plan.Make(v)
	require.True(t, p.Drawn, "%+v", p.Findings)
	for _, f := range Tried(d, &p) {
		if f.ID == "cuts-shared" {
			return &f
		}
	}
	return nil
}

func TestTwoPartsThatShareACut(t *testing.T) {
	for name, c := range map[string]struct {
		edit   func(d *design.Document)
		speaks bool
		apart  float64
	}{
		"as a new design":     {func(*design.Document) {}, false, 0},
		"no gap":              {func(d *design.Document) { d.Cut.Gap = "0" }, true, 0},
		"half a kerf":         {func(d *design.Document) { d.Cut.Gap = "0.1" }, true, 0.1},
		"a kerf":              {func(d *design.Document) { d.Cut.Gap = "0.2" }, false, 0},
		"a wider kerf":        {func(d *design.Document) { d.Cut.Gap, d.Machine.Kerf = "0.2", "0.35" }, true, 0.2},
		"in inches":           {func(d *design.Document) { d.Units = "in"; *d = inInches(*d); d.Cut.Gap = "0" }, true, 0},
		"in inches, a kerf":   {func(d *design.Document) { *d = inInches(*d); d.Cut.Gap, d.Machine.Kerf = ".01", ".01" }, false, 0},
		"a router":            {func(d *design.Document) { routed(d); d.Cut.Gap, d.Rib.MarkStart = "0", "0" }, true, 0}, // a mark outside the edge keeps parts off
		"a router, a kerf":    {func(d *design.Document) { routed(d); d.Cut.Gap = "3.175" }, false, 0},
		"a knife, one cut":    {func(d *design.Document) { d.Machine.Tool, d.Cut.Gap = "knife", "0" }, false, 0},
		"pins that touch":     {func(d *design.Document) { pinned(d, 80.2); d.Cut.Gap = "0" }, true, 0},
		"pins, gap elsewhere": {func(d *design.Document) { pinned(d, 80.2) }, true, 0},
		"pins a kerf apart":   {func(d *design.Document) { pinned(d, 80.4); d.Cut.Gap = "0.2" }, false, 0},
		"a layer for a pass":  {func(d *design.Document) { d.Cut.Gap, d.Cut.RepeatLayers = "0", true }, true, 0},
		"held by bridges":     {func(d *design.Document) { d.Cut.Gap, d.Cut.Bridges = "0", "all" }, true, 0},
	} {
		t.Run(name, func(t *testing.T) {
			d := side()
			c.edit(&d)
			f := sharedOf(t, d)
			if !c.speaks {
				assert.Nil(t, f)
				return
			}
			require.NotNil(t, f)
			assert.Equal(t, finding.Warn, f.Severity)
			assert.InDelta(t, c.apart, f.Numbers["apart"], 0.002)
			assert.Greater(t, f.Numbers["length"], 50.0)
			require.NotEmpty(t, f.Remedies, f.Text)
			for _, r := range f.Remedies {
				after := apply(t, d, r)
				assert.Nil(t, sharedOf(t, after), r.Text)
			}
		})
	}
}

// inInches is the sound panel with its figures as somebody types them in inches.
func inInches(d design.Document) design.Document {
	d.Units = "in"
	d.Sheet.Readings, d.Machine.Depths = nil, nil
	d.Machine.DepthSpread, d.Machine.ScoreWidth = "", ""
	d.Curve.Radius, d.Curve.Foot, d.Curve.Tip, d.Panel.Width, d.Rib.FootDepth, d.Rib.TipDepth = "5", "1", "1", "3", "1.2", ".8"
	return d
}

func routed(d *design.Document) {
	d.Machine.Tool, d.Machine.Depths, d.Machine.DepthSpread, d.Machine.ScoreWidth = "router", nil, "", ""
}

// pinned puts two panels one over the other, so far from edge to edge.
func pinned(d *design.Document, pitch float64) {
	d.Cut.Pins = []design.Pin{{Part: "panel", X: "50", Y: "50"}, {Part: "panel", X: "50", Y: fixed(50 + pitch)}}
}

// What is shared is measured right: two squares side by side, one in a cut-out of another,
// corners that only touch, cuts that cross, and circles.
func TestSharedLengths(t *testing.T) {
	square := func(part string, x, y, s float64) through {
		return throughCut(part, plane.RectPath(plane.Box{Min: plane.Pt(x, y), Max: plane.Pt(x+s, y+s)}))
	}
	round := func(part string, x, y, r float64) through {
		a, b := plane.Pt(x+r, y), plane.Pt(x-r, y)
		return throughCut(part, plane.Chain(true, plane.BulgeSeg(a, b, 1), plane.BulgeSeg(b, a, 1)))
	}
	for name, c := range map[string]struct {
		cuts []through
		want float64
	}{
		"side by side":      {[]through{square("a", 0, 0, 40), square("b", 40, 10, 40)}, 30},
		"a kerf apart":      {[]through{square("a", 0, 0, 40), square("b", 40.2, 10, 40)}, 0},
		"in its cut-out":    {[]through{square("a", 0, 0, 40), square("b", 0, 0, 40)}, 160},
		"corner to corner":  {[]through{square("a", 0, 0, 40), square("b", 40, 40, 40)}, 0},
		"crossed":           {[]through{square("a", 0, 0, 40), square("b", 20, 20, 40)}, 0},
		"of one part":       {[]through{square("a", 0, 0, 40), square("a", 40, 10, 40)}, 0},
		"a disc in a hole":  {[]through{round("a", 0, 0, 20), round("b", 0, 0, 20)}, 2 * math.Pi * 20},
		"a disc less large": {[]through{round("a", 0, 0, 20), round("b", 0, 0, 19.7)}, 0},
	} {
		got := shared(c.cuts, 0.199)
		if c.want == 0 {
			assert.Empty(t, got, name)
			continue
		}
		require.Len(t, got, 1, name)
		assert.InDelta(t, c.want, got[0].length, 0.01*c.want, name)
	}
}
