package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/fit"
	"springrib/internal/outline"
)

// A draft is the same plan: what is worked out is the same, and the edges that are fitted
// anew lie within the tolerance of each.
func TestADraftIsTheSamePlan(t *testing.T) {
	memory := new(Memory) // one for all: it must not tell
	for _, e := range design.Examples() {
		v, found := design.Read(e.Design)
		require.Empty(t, found)
		whole, draft := Make(v), memory.Draft(v)
		require.True(t, draft.Drawn, e.ID)
		assert.True(t, assert.ObjectsAreEqual(whole.Scores.Layout, draft.Scores.Layout), e.ID)
		assert.Equal(t, whole.Strength.Hold, draft.Strength.Hold, e.ID)
		assert.Equal(t, whole.Strength.Settled, draft.Strength.Settled, e.ID)
		assert.Equal(t, whole.Proof.Ranges, draft.Proof.Ranges, e.ID)
		assert.Equal(t, whole.Findings, draft.Findings, e.ID)
		require.Len(t, draft.Ribs.Kinds, len(whole.Ribs.Kinds), e.ID)
		for i, r := range whole.Ribs.Kinds {
			a, b := r.Outline.Outer, draft.Ribs.Kinds[i].Outline.Outer
			lo, hi := fit.Deviation(a, b, outline.Tolerance/20)
			assert.LessOrEqual(t, hi, 2.1*outline.Tolerance, "%s: %v", e.ID, lo)
		}
		again := memory.Make(v)
		for what, same := range map[string]bool{
			"ribs": assert.ObjectsAreEqual(whole.Ribs.Kinds, again.Ribs.Kinds), "panel": assert.ObjectsAreEqual(whole.Panel.Flat, again.Panel.Flat),
			"jobs": assert.ObjectsAreEqual(whole.Lay.Jobs, again.Lay.Jobs), "tries": assert.ObjectsAreEqual(whole.Scores.Tries, again.Scores.Tries),
		} {
			assert.True(t, same, "%s: what is remembered changes the %s", e.ID, what)
		}
	}
}
