package view

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/wire"
)

// A core that keeps its last whole plan writes the files and the bench sheet of the design that is
// asked for, as one does that keeps nothing: after whatever was asked before, of that design or another.
func TestAKeptPlanAnswersTheSame(t *testing.T) {
	sound, marked := plainDesign(), plainDesign()
	marked.Panel.Spacing, marked.Panel.Count = "count", "8" // its scores pinch shut: much would mend it
	designs := [][]byte{raw(t, sound), raw(t, marked)}
	var names [2][]string
	for i, d := range designs {
		v, _, err := Core{}.Plan(d, wire.Show{Untried: true})
		require.NoError(t, err)
		for _, f := range v.Files {
			names[i] = append(names[i], f.Name)
		}
	}
	require.NotEqual(t, names[0], names[1], "what is marked says so in its names")
	core := New()
	for _, before := range []struct {
		of   int // the design that is asked of first, -1 for none
		show wire.Show
	}{{-1, wire.Show{}}, {0, wire.Show{}}, {1, wire.Show{}}, {1, wire.Show{Untried: true}}, {0, wire.Show{Brief: true, Held: true}}, {1, wire.Show{Kind: "space"}}} {
		if before.of >= 0 {
			_, _, err := core.Plan(designs[before.of], before.show)
			require.NoError(t, err)
		}
		for i, d := range designs {
			want, streams, err := Core{}.Bench(d)
			require.NoError(t, err)
			got, drawn, err := core.Bench(d)
			require.NoError(t, err)
			assert.Equal(t, want, got, "after %+v", before)
			assert.Equal(t, streams, drawn)
			for _, n := range names[i][:3] {
				want, err := Core{}.File(d, n, nil)
				require.NoError(t, err)
				got, err := core.File(d, n, nil)
				require.NoError(t, err)
				assert.Equal(t, want, got, "%s after %+v", n, before)
			}
			_, err = core.File(d, names[1-i][0], nil)
			assert.Error(t, err, "a file of the other design")
		}
	}
}
