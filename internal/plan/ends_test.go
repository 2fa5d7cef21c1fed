package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/form"
)

// Past its ribs the panel lies straight along the tangent where they end, at foot and tip,
// wrapped and in a cradle; between them it lies as it is folded.
func TestThePanelLiesStraightPastItsRibs(t *testing.T) {
	for _, side := range []string{design.Hollow, design.Round} {
		for _, kind := range []string{"arc", "back", "points"} {
			d := shaped("ellipse", func(p *design.Panel) { p.Width = "110" })
			d.Rib.Side, d.Rib.FootDepth, d.Rib.TipDepth = side, "20", "12"
			d.Curve.Foot, d.Curve.Tip = "5", "5"
			switch kind {
			case "back":
				d.Curve.Kind = design.Chain
				d.Curve.Pieces = []design.Piece{{Turn: "over", Length: "120", Radius: "150"}, {Turn: "back", Length: "120", Radius: "200"}}
			case "points":
				d.Curve.Kind = design.Points
				d.Curve.Points = []design.Point{{X: "0", Y: "0"}, {X: "90", Y: "40"}, {X: "190", Y: "45"}, {X: "300", Y: "20"}}
			}
			d.Rib.Places = []design.RibPlace{{Across: "-35"}, {Across: "35"}}
			p := must(t, d)
			require.True(t, p.Drawn, "%s %s %+v", side, kind, p.Findings)
			require.Greater(t, p.Supports.FootEnd.Bent, 5.0)
			require.Greater(t, p.Supports.TipEnd.Bent, 5.0)
			face := p.Face(0)
			assert.InDelta(t, 0, face[0].Dist(p.Straight(p.Supports.FootEnd, p.Supports.FootEnd.To)), 0.1, "%s %s", side, kind)
			assert.InDelta(t, 0, face[len(face)-1].Dist(p.Straight(p.Supports.TipEnd, p.Supports.TipEnd.To)), 0.1, "%s %s", side, kind)
			folded, turned := form.Fold(p.Panel.Strip), 0
			for i, f := range p.Scores.Layout.Folds {
				if f.S > p.Supports.FootEnd.From+20 && f.S < p.Supports.TipEnd.From-20 {
					turned++
					assert.InDelta(t, 0, folded[i].Origin.Sub(p.Panel.frames[i].Origin).Len(), 1e-9)
					assert.Equal(t, p.Panel.Strip.Rulings[i].Turn, p.Panel.Bent.Rulings[i].Turn)
				}
				if f.S < p.Supports.FootEnd.From-20 || f.S > p.Supports.TipEnd.From+20 {
					assert.Zero(t, p.Panel.Bent.Rulings[i].Turn)
				}
			}
			assert.Greater(t, turned, 5)
		}
	}
}

// Span and rise by hand: an arc of the outer face of radius R + t, with a free end that goes
// straight on from the angle at which the rib ends.
func TestSpanAndRiseAreThoseOfThePanelThatIsThere(t *testing.T) {
	d := design.Empty()
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width, d.Rib.Short = "150", "60", "80", "60"
	d.Curve.Foot, d.Curve.Tip, d.Panel.StandOff, d.Panel.Finish = "0", "0", "0.02", "gloss"
	p := must(t, d)
	require.True(t, p.Drawn)
	r, a := 150+p.V.Sheet.T, math.Pi/3-60.0/150
	free := p.Scores.Layout.Length - p.Place(p.Supports.TipEnd.From) // of the flat panel
	x, y := r*math.Sin(a)+free*math.Cos(a), r*(1-math.Cos(a))+free*math.Sin(a)
	span, rise := p.Measure()
	assert.InDelta(t, math.Hypot(x, y), span, 0.1)
	// Over a chord at angle c to the foot's tangent the arc is highest where it is parallel to it.
	c := math.Atan2(y, x)
	assert.InDelta(t, r*(1-math.Cos(c)), rise, 0.1)
}

// A rib left to the program never ends so that the panel stands off more than is accepted
// past it, where it could have gone further; the curvature of a smooth curve grows there.
func TestARibEndsWithinTheAcceptedGap(t *testing.T) {
	for _, tip := range []string{"0", "1", "4", "8"} {
		for _, gap := range []string{"0.1", "0.3", "1"} {
			d := archDesign()
			d.Curve.Tip, d.Rib.EndGap = tip, gap
			p := must(t, d)
			require.True(t, p.Drawn)
			assert.LessOrEqual(t, p.Supports.TipEnd.Gap, p.V.Rib.EndGap*(1+1e-6), "%s %s", tip, gap)
			d.Curve.Kind = design.Points
			d.Curve.Points = []design.Point{{X: "0", Y: "0"}, {X: "90", Y: "40"}, {X: "190", Y: "45"}, {X: "300", Y: "20"}}
			p = must(t, d)
			require.True(t, p.Drawn)
			assert.LessOrEqual(t, p.Supports.TipEnd.Gap, p.V.Rib.EndGap*(1+1e-6), "%s %s", tip, gap)
		}
	}
}
