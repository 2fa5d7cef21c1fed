package score

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Where scores run apart every limit holds at both ends of each, and one of them is met.
func TestSpacingHoldsAtBothEnds(t *testing.T) {
	r := rand.New(rand.NewPCG(101, 102))
	bound := map[Bound]int{}
	for range 300 {
		task := randomTask(r)
		lim := task.Limits
		law := lim.Cases[0].Law
		lim.Wider = 1 + 3*r.Float64()
		if r.IntN(2) == 0 {
			lim.StandOff = 0.01 + 0.1*r.Float64()
		}
		k := 1 / (law.Score().Thickness * (20 + 60*r.Float64()))
		sd := side{wraps: true, towards: r.IntN(2) == 0}
		sp := lim.at(k, sd)
		if !sp.Reached {
			continue
		}
		bound[sp.Bound]++
		// What a spacing comes to at one of the ends: the strain, the closing, the height of the
		// flats, each over its limit.
		uses := func(p, q float64) float64 {
			fold := p * k / (1 + k*StandIn(law, p, sd.towards))
			most := 0.0
			for _, c := range lim.Cases {
				if c.Strain > 0 {
					most = math.Max(most, c.Law.Strain(q*p, fold/(q*p))/c.Strain)
				}
				if c.Closing > 0 && sd.closes() {
					most = math.Max(most, fold*c.Law.MouthLever(q*p)*c.Closing/c.Law.Score().Width)
				}
			}
			if lim.StandOff > 0 {
				most = math.Max(most, (1/math.Cos(fold/2)-1)*q/k/lim.StandOff)
			}
			if lim.Fold > 0 {
				most = math.Max(most, fold/lim.Fold)
			}
			return most
		}
		narrow, wide := uses(sp.Pitch, 1), uses(sp.Pitch, lim.Wider)
		require.Less(t, math.Max(narrow, wide), 1+1e-6)
		if sp.Bound != ByLaw {
			more := 1.001 * sp.Pitch
			assert.Greater(t, math.Max(uses(more, 1), uses(more, lim.Wider)), 1.0, "%s", sp.Bound)
		}
	}
	assert.Greater(t, bound[ByStandOff], 20)
	assert.Greater(t, bound[ByStrain]+bound[ByClosing], 20)
}

// On a cone the skin is strained most where scores lie close, and the flats stand off most where
// they lie wide apart, by as much more as the scores lie further apart there.
func TestStrainIsAtTheNarrowEndAndFlatsAtTheWide(t *testing.T) {
	law := mdf()
	const k, q = 1.0 / 67, 160.0 / 60
	none := Limits{Cases: []Case{{Law: law}}, StandOff: 0.1, Land: 0.8}
	narrow := none.at(k, side{wraps: true}).Pitch
	none.Wider = q
	wide := none.at(k, side{wraps: true}).Pitch
	// theta^2 R/8 at the wide end: R is q times as large, theta q^(-1/2) times.
	assert.InDelta(t, narrow/math.Sqrt(q), wide, 0.01*narrow)
	fold := wide * k / (1 + k*law.Neutral(wide))
	assert.Greater(t, law.Strain(wide, fold/wide), law.Strain(q*wide, fold/(q*wide)))
}

// Scores that run parallel are a case of it.
func TestNoWiderIsParallel(t *testing.T) {
	lim := limits(mdf())
	want := lim.at(1.0/80, side{wraps: true})
	lim.Wider = 1
	assert.Equal(t, want, lim.at(1.0/80, side{wraps: true}))
}
