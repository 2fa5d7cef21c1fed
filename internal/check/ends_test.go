package check

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

func typedCorners(rows ...[2]float64) []design.Corner {
	var out []design.Corner
	for _, r := range rows {
		out = append(out, design.Corner{Along: fixed(r[0]), Across: fixed(r[1])})
	}
	return out
}

func made(t *testing.T, d design.Document) plan.Plan {
	t.Helper()
	v, found := design.Read(d)
	require.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
	p := plan.Make(v)
	require.True(t, p.Drawn, "%+v", p.Findings)
	return p
}

// tapered is sound but for its outline: a panel with one straight edge, whose other edge
// runs from full width at the foot to a point at the tip. One rib stands across 0.
func tapered(t *testing.T) design.Document {
	d := sound()
	long := made(t, d).Layout.Length
	d.Panel.Shape, d.Panel.Width = design.Polygon, ""
	d.Panel.Corners = typedCorners([2]float64{0, -40}, [2]float64{long, -40}, [2]float64{long, -34}, [2]float64{0, 40})
	return d
}

// A rib across the middle ends where the taper crosses it, and the panel runs on straight:
// that is a warning, and what is offered for it mends it.
func TestAnEndThatMissesItsCurveIsNotSound(t *testing.T) {
	d := tapered(t)
	d.Rib.Places = []design.RibPlace{{Across: "0"}}
	all := findings(t, d)
	f := pick(all, "end-gap")
	require.NotNil(t, f)
	assert.Equal(t, finding.Warn, f.Severity)
	assert.Greater(t, f.Numbers["gap"], 10.0)
	// By hand: the rib's line leaves the outline 40/74 of the way to the tip; from there the
	// panel goes straight on while the curve turns away under it at R 120, then runs straight
	// for 20 mm.
	bent := f.Numbers["free"] - 20
	hand := math.Hypot(bent+20-120*math.Sin(bent/120)-20*math.Cos(bent/120), 120*(1-math.Cos(bent/120))+20*math.Sin(bent/120))
	assert.InDelta(t, hand, f.Numbers["gap"], 0.01)
	require.NotEmpty(t, f.Remedies)
	for _, r := range f.Remedies {
		assert.Nil(t, pick(findings(t, apply(t, d, r)), "end-gap"), r.Text)
	}
}

// Left to the program the rib stands where the panel is there for it.
func TestTheRibGoesWhereThePanelIs(t *testing.T) {
	all := findings(t, tapered(t))
	assert.Nil(t, pick(all, "end-gap"), "%+v", all)
	p := made(t, tapered(t))
	assert.Less(t, p.Supports[0].Across, -30.0)
	assert.Greater(t, p.Supports[0].Across, -40+p.Supports[0].Thickness/2-1e-9)
}

// A longer foot moves the corners of the panel with it, so that no part of the curve is
// left bare.
func TestALongerCurveTakesItsPanelAlong(t *testing.T) {
	d := sound()
	d.Curve.Foot, d.Curve.Tip = "3", "3"
	long := made(t, d).Layout.Length
	d.Panel.Shape, d.Panel.Width = design.Polygon, ""
	d.Panel.Corners = typedCorners([2]float64{0, -40}, [2]float64{long, -40}, [2]float64{long, 40}, [2]float64{0, 40})
	tried := 0
	for _, f := range findings(t, d) {
		for _, r := range f.Remedies {
			if len(r.Set) == 0 {
				continue
			}
			q := made(t, apply(t, d, r))
			assert.Nil(t, pick(Run(&q), "panel-shorter"), "%s: panel to %g under %g", r.Text, q.To, q.Layout.Length)
			if f.ID == "glue-peels" {
				tried++
			}
		}
	}
	assert.Equal(t, 2, tried, "foot and tip")
}

// A curve that the panel does not reach is told of, wherever that comes from.
func TestABareCurveIsToldOf(t *testing.T) {
	for _, c := range []struct {
		name  string
		sev   finding.Severity
		field string
		edit  func(d *design.Document, long float64)
	}{
		{"corners", finding.Warn, "panel.corners", func(d *design.Document, long float64) {
			d.Panel.Shape = design.Polygon
			d.Panel.Corners = typedCorners([2]float64{0, -40}, [2]float64{long - 40, -40}, [2]float64{long - 40, 40}, [2]float64{0, 40})
		}},
		{"corners, a straight tip bare", finding.Note, "panel.corners", func(d *design.Document, long float64) {
			d.Panel.Shape = design.Polygon
			d.Panel.Corners = typedCorners([2]float64{0, -40}, [2]float64{long - 10, -40}, [2]float64{long - 10, 40}, [2]float64{0, 40})
		}},
		{"drawn", finding.Warn, "panel.drawnLength", func(d *design.Document, long float64) {
			d.Panel.Shape = design.Drawn
			l := fixed(long - 40)
			d.Panel.Drawn.Outline = "M0 -40L" + l + " -40L" + l + " 40L0 40Z"
		}},
		{"a typed length", finding.Warn, "panel.length", func(d *design.Document, long float64) { d.Panel.Length = "120" }},
		{"a length that ends on the tip", finding.Note, "panel.length", func(d *design.Document, long float64) { d.Panel.Length = fixed(long - 10) }},
		{"shifted along", finding.Warn, "panel.along", func(d *design.Document, long float64) { d.Panel.Along = "30" }},
		{"shifted along the foot", finding.Note, "panel.along", func(d *design.Document, long float64) { d.Panel.Along = "5" }},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := sound()
			c.edit(&d, made(t, d).Layout.Length)
			f := pick(findings(t, d), "panel-shorter")
			require.NotNil(t, f)
			assert.Equal(t, c.sev, f.Severity)
			assert.Equal(t, c.field, f.Place.Field)
			require.NotEmpty(t, f.Remedies)
			for _, r := range f.Remedies {
				all := findings(t, apply(t, d, r))
				assert.Nil(t, pick(all, "panel-shorter"), r.Text)
				assert.Nil(t, pick(all, "panel-longer"), r.Text)
			}
		})
	}
}

// The glue is judged at the low end of what the sheet's face holds: by hand
// sqrt(M/(bond b)) at .32 MPa, the low end of MDF (ANSI A208.2-2009, Table 2, grade 210).
func TestGlueIsJudgedAtTheBadEndOfItsBond(t *testing.T) {
	d := sound()
	d.Curve.Foot = "12"
	p := made(t, d)
	assert.Equal(t, 0.32, p.V.Rib.GlueBond.Low)
	need := math.Sqrt(p.Hold.Moment / (p.V.Rib.GlueBond.Low * p.V.Rib.Thickness))
	likely := math.Sqrt(p.Hold.Moment / (p.V.Rib.GlueBond.Value * p.V.Rib.Thickness))
	require.Less(t, likely, 12.0)
	require.Greater(t, need, 12.0)
	f := pick(Run(&p), "glue-peels")
	require.NotNil(t, f)
	assert.InEpsilon(t, need, f.Numbers["needed"], 1e-6)
	long, err := strconv.ParseFloat(f.Remedies[0].Set["curve.foot"], 64)
	require.NoError(t, err)
	assert.GreaterOrEqual(t, long, need)
}

// A rib that holds at its usual strength but not at its low end is told of.
func TestTheRibIsJudgedAtTheBadEndOfItsStrength(t *testing.T) {
	d := sound()
	d.Rib.TipRound = "1"
	for depth := 9.0; depth > 1.5; depth -= 0.1 {
		d.Rib.FootDepth, d.Rib.TipDepth = fixed(depth), fixed(depth)
		p := made(t, d)
		bad := p.Hold.Rib.Stress / p.V.Rib.MOR.Low
		f := pick(Run(&p), "rib-weak")
		if bad > 1 {
			require.NotNil(t, f, "%g", depth)
			return
		}
	}
	t.Fatal("no rib was weak")
}
