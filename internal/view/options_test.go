package view

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
)

// Each row has a cell for each head, the chosen one is marked, those that are out say
// why and stand last, and taking a row gives a plan with it.
func TestOptions(t *testing.T) {
	for _, e := range design.Examples() {
		w := work(e.Design)
		o := w.options()
		require.Len(t, o.Rows, len(w.plan.V.Machine.Depths), e.ID)
		chosen, sound := 0, true
		for _, r := range o.Rows {
			assert.Len(t, r.Cells, len(o.Heads))
			assert.Equal(t, r.Sound, r.Out == "")
			assert.False(t, r.Sound && !sound)
			sound = r.Sound
			if r.Chosen {
				chosen++
			}
			doc, ok := design.Set(e.Design, "panel.passes", r.Set["panel.passes"])
			require.True(t, ok)
			for _, again := range work(doc).options().Rows {
				assert.Equal(t, again.Chosen, again.Cells[0] == r.Cells[0])
			}
		}
		assert.Equal(t, 1, chosen)
	}
}
