package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/hinge"
	"springrib/internal/state"
)

// The bad ends found at a spacing off by half a step of the ladder are as bad as those
// found at the spacing itself.
func TestEndsAtARungAreAsBad(t *testing.T) {
	for _, e := range design.Examples() {
		in, fs := design.Read(e.Design)
		require.Empty(t, fs, e.ID)
		p := Make(in)
		for _, pitch := range []float64{2, 4, 9} {
			crack := func(l hinge.Law, rupture float64) float64 { return l.Strain(pitch, 1) / rupture }
			pinch := func(l hinge.Law, _ float64) float64 { return l.MouthLever(pitch) / l.Score().Width }
			off := pitch * math.Sqrt(1.03)
			at := p.scoring().Swings(1, crack, pinch)
			near := p.scoring().Swings(1,
				func(l hinge.Law, rupture float64) float64 { return l.Strain(off, 1) / rupture },
				func(l hinge.Law, _ float64) float64 { return l.MouthLever(off) / l.Score().Width })
			for i, f := range []state.Figure{crack, pinch} {
				want := f(p.scoring().At(1, at[i].Up))
				got := f(p.scoring().At(1, near[i].Up))
				assert.InEpsilon(t, want, got, 3e-4, "%s, spacing %g, figure %d", e.ID, pitch, i)
			}
		}
	}
}

func TestRungIsWithinHalfAStep(t *testing.T) {
	for _, x := range []float64{0.05, 0.8, 1, 1.02, 3.3, 47} {
		r := rung(x)
		assert.LessOrEqual(t, math.Abs(math.Log(r/x)), math.Log(1.03)/2+1e-12)
		n := math.Log(r) / math.Log(1.03)
		assert.InDelta(t, math.Round(n), n, 1e-9)
	}
}
