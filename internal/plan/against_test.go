package plan

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// One pass is quickest, and leaves a panel that pulls its glue off; the number of passes is
// chosen by the whole plan, and each row says what is against it.
func TestPassesAreChosenByTheWholePlan(t *testing.T) {
	d := threePasses()
	d.Curve.Radius, d.Curve.Foot, d.Curve.Tip, d.Rib.Short = "500", "20", "20", "0"
	d.Rib.FootDepth, d.Rib.TipDepth = "60", "60"
	p := must(t, d)
	require.Greater(t, len(p.Scores.Tries), 1)
	quickest := -1
	for i, x := range p.Scores.Tries {
		if x.Sound() && (quickest < 0 || x.work() < p.Scores.Tries[quickest].work()) {
			quickest = i
		}
	}
	assert.NotEqual(t, quickest, p.Scores.Chosen)
	assert.NotEqual(t, Sound, p.Scores.Tries[quickest].Against)
	assert.Equal(t, Sound, p.Try().Against)
	for i, x := range p.Scores.Tries {
		if x.Sound() && x.Chance.Fail <= p.Few() && x.Against == Sound {
			assert.LessOrEqual(t, p.Try().work(), x.work()+1e-9, i)
		}
	}
	// What was chosen is worked out as if the person had chosen it.
	d.Panel.Passes = strconv.Itoa(p.Try().Passes)
	q := must(t, d)
	assert.Equal(t, q.Strength, p.Strength)
	assert.Equal(t, q.Panel.Flat, p.Panel.Flat)
	assert.Equal(t, q.Findings, p.Findings)
}
