package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/brace"
)

// Where a straight tip is long enough to hold the panel, rib and glue end 2 mm short of it:
// common practice, no source.
func TestTheGlueEndsJustShortOfALongTip(t *testing.T) {
	d := archDesign()
	d.Curve.Tip = "60"
	p := must(t, d)
	require.True(t, p.Drawn)
	for _, s := range p.Supports.All {
		assert.InDelta(t, 2, p.Section.Edge.Length()-s.Task.End, 1e-9)
		assert.InDelta(t, 2, p.Outline.Length-s.Mark.To, 1e-6)
	}
}

// Where a bend runs out into a straight that is glued too, the moment ends at once, and the
// glue line evens that out over three spans of its elastic bed (common practice, no source):
// the second difference of a step over h is the moment over h squared. Hetenyi, Beams on
// Elastic Foundation, 1946, has the span of an even bed; see brace.Bed.
func TestTheGlueSpreadsAStepOverThreeSpans(t *testing.T) {
	d := archDesign()
	d.Curve.Foot, d.Curve.Tip = "120", "120"
	p := must(t, d)
	require.True(t, p.Drawn)
	bond := p.Strength.Bond
	s := &p.Supports.All[bond.Support]
	u := p.supporting()
	ei := u.Stiff(bond.S) * s.Share(bond.S)
	bed := brace.Bed{EI: ei, T: p.V.Sheet.T, EZ: p.scoring().Softness(), Width: s.Thickness}
	h := 3 * bed.Span()
	require.Greater(t, bond.S-s.Task.Start, h, "the rib is there for it on either side")
	require.Greater(t, s.Task.End-bond.S, h)
	moment := ei * math.Abs(p.Section.Edge.Kappa(bond.S))
	assert.InEpsilon(t, moment/(h*h*s.Thickness), bond.Stress, 0.02)
}
