package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
)

// A straight is the same whether it is typed as the straight tip or as the last piece of
// a row, and so at the foot: the pull comes from the scored bend before it.
func TestStraightsOfARowHoldLikeTheEnds(t *testing.T) {
	d := design.Empty()
	d.Panel.Width, d.Rib.Short = "80", "0"
	d.Curve.Kind = design.Chain
	bend := design.Piece{Turn: design.Over, Length: "170", Radius: "120"}
	d.Curve.Pieces = []design.Piece{bend}
	d.Curve.Foot, d.Curve.Tip = "36", "40"
	ends := must(t, d)
	d.Curve.Pieces = []design.Piece{{Turn: design.Straight, Length: "30"}, bend, {Turn: design.Straight, Length: "15"}, {Turn: design.Straight, Length: "17"}}
	d.Curve.Foot, d.Curve.Tip = "6", "8"
	row := must(t, d)
	require.True(t, ends.Drawn && row.Drawn)
	assert.InEpsilon(t, ends.Strength.Hold.EndForce, row.Strength.Hold.EndForce, 1e-9)
	assert.InEpsilon(t, ends.Proof.Ranges.Force.High, row.Proof.Ranges.Force.High, 1e-9)
	assert.InEpsilon(t, ends.Strength.Hold.TipPeel.Stress, row.Strength.Hold.TipPeel.Stress, 1e-9)
	assert.InEpsilon(t, ends.Strength.Hold.FootPeel.Stress, row.Strength.Hold.FootPeel.Stress, 1e-9)
	assert.InDelta(t, 40, row.Strength.Hold.TipStraight, 1e-9)
	assert.InDelta(t, 36, row.Strength.Hold.FootStraight, 1e-9)
}

// By hand, for every example: the force at the free end is curvature times stiffness of
// the scored sheet times the width, over the straight; the stiffness of the sheet
// without scores, twenty or more times as much, must not slip in at the end of the bend.
func TestEndForceByHand(t *testing.T) {
	for _, e := range design.Examples() {
		p := must(t, e.Design)
		if p.supporting().PanelEnd() < p.Section.LastBend() || p.Section.Tip() == 0 || e.Design.Curve.Kind == design.Points { // ends within the bend, has no straight, or runs out straight: the next test
			continue
		}
		at := p.Section.LastBend()
		k := p.Section.CurvatureBefore(at)
		require.Positive(t, k, e.ID)
		law := p.Law()
		scored := law.PlainStiffness() / law.Softening(p.Scores.Layout.Runs[len(p.Scores.Layout.Runs)-1].Pitch)
		width := 0.0
		for _, s := range p.Outline.Region.ClipLine(pt(p.Place(at), 0), pt(p.Place(at), 1)) {
			width += s.Len()
		}
		hand := k * scored * width / (p.supporting().PanelEnd() - at)
		// Plies move the stiffness of what is left in the skin by some percent.
		assert.InEpsilon(t, hand, p.Strength.Hold.EndForce, 0.15, e.ID)
		assert.Greater(t, k*law.PlainStiffness()*width/(p.supporting().PanelEnd()-at), 15*p.Strength.Hold.EndForce, e.ID)
	}
}

// A curve through points has no curvature at its very end, yet its bend pulls: by hand,
// the greatest of moment over lever along the last bend.
func TestEndForceOfACurveThatRunsOutStraight(t *testing.T) {
	d := design.Examples()[0].Design
	d.Curve = design.Curve{Kind: design.Points, Line: design.Contact, Foot: "20", Tip: "20",
		Points: []design.Point{{X: "0", Y: "0"}, {X: "60", Y: "14"}, {X: "120", Y: "52"}, {X: "180", Y: "90"}, {X: "240", Y: "104"}}}
	d.Panel.Width = "120"
	p := must(t, d)
	require.True(t, p.Drawn)
	last, stiff, most := p.Section.LastBend(), p.stiffness(), 0.0
	for _, f := range p.Scores.Layout.Folds {
		if k := p.Section.Edge.At(f.S).Kappa; k*p.Section.Edge.At(last-10).Kappa > 0 {
			most = math.Max(most, math.Abs(k)*stiff(f.S)*120/(p.supporting().PanelEnd()-f.S))
		}
	}
	require.Greater(t, most, 1.0)
	assert.InEpsilon(t, most, p.Strength.Hold.EndForce, 1e-6)
}

// The stiffness at the very ends of a bend is that of the bend, a hair past them too:
// places there are sums of lengths.
func TestStiffnessAtTheEndsOfABend(t *testing.T) {
	p := must(t, design.Examples()[1].Design)
	r := p.Scores.Layout.Runs[0]
	in := p.stiffness()((r.Start + r.End) / 2)
	for _, s := range []float64{r.Start - 1e-9, r.Start, r.End, r.End + 1e-9} {
		assert.InEpsilon(t, in, p.stiffness()(s), 0.2)
	}
	assert.Greater(t, p.stiffness()(r.End+1), 10*in)
}
