package score

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Asked for one score a curve gets the fewest that it can take, and from that number on
// exactly as many as are asked for, however its bends share them.
func TestFewestScores(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	several := 0
	for range 200 {
		task := randomTask(r)
		task.Rule, task.Number = Count, 1
		first := Lay(task)
		fewest := len(first.Folds)
		require.GreaterOrEqual(t, fewest, 1)
		if len(first.Runs) > 1 {
			several++
		}
		for _, more := range []int{0, 1, 2, 3, 7} {
			task.Number = fewest + more
			l := Lay(task)
			assert.Len(t, l.Folds, task.Number)
			for _, f := range l.Folds {
				assert.Less(t, f.Theta*f.Theta, 2.3*2.3)
			}
		}
		if fewest > 1 {
			task.Number = fewest - 1
			assert.Len(t, Lay(task).Folds, fewest)
		}
	}
	assert.Greater(t, several, 20)
}

// Every score's state is that of its own neighbours, the last one's too, which has a land
// on one side only.
func TestStatesAreOfTheirOwnNeighbours(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 28))
	for range 100 {
		task := randomTask(r)
		law := task.Limits.Cases[0].Law
		for i, f := range Lay(task).Folds {
			want := law.Fold(math.Abs(f.Theta), f.Left, f.Right, false)
			require.InEpsilon(t, want.Strain, f.State.Strain, 1e-7, "score %d", i+1)
			require.InEpsilon(t, want.Lever, f.State.Lever, 1e-7, "score %d", i+1)
		}
	}
}
