package view

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/wire"
)

// What stands on the shelf is sound with everything asked that can be, in either unit, and
// its files leave without a word against them.
func TestWhatStandsOnTheShelfIsSound(t *testing.T) {
	seen := map[string]bool{}
	for _, thing := range design.Things() {
		assert.False(t, seen[thing.ID], thing.ID)
		seen[thing.ID] = true
		for _, units := range []string{"mm", "in"} {
			raw, err := json.Marshal(design.Convert(thing.Design, units))
			require.NoError(t, err)
			v, _, err := Core{}.Plan(raw, wire.Show{})
			require.NoError(t, err)
			assert.Equal(t, "sound", v.Verdict.Severity, "%s in %s: %s", thing.ID, units, v.Verdict.Sentence)
			assert.Regexp(t, "1 panel in|No panel", v.Verdict.Sentence, thing.ID)
			assert.NotEmpty(t, v.Files, thing.ID)
			assert.Empty(t, v.Withheld, thing.ID)
			for _, f := range v.Findings {
				assert.Equal(t, finding.Note, f.Severity, "%s in %s: %s", thing.ID, units, f.Text)
			}
			for _, f := range thing.Fields {
				_, ok := v.Fields[f.Path]
				assert.True(t, ok, "%s has no field %s", thing.ID, f.Path)
			}
		}
	}
}

func TestSummariesSayNothingThatIsNotKnown(t *testing.T) {
	raw, err := json.Marshal(design.Empty())
	require.NoError(t, err)
	v, _, err := Core{}.Plan(raw, wire.Show{})
	require.NoError(t, err)
	for _, card := range []string{"curve", "panel"} {
		assert.Equal(t, "Not all of its figures are known yet", v.Cards[card])
	}
	assert.Contains(t, v.Cards["sheet"], "MDF 3 mm", "what is chosen is said")
}
