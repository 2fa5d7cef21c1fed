package view

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/wire"
)

// An example is sound as it stands, but for the one that shows what a warning says.
func TestExamplesAreSound(t *testing.T) {
	for _, e := range design.Examples() {
		want := "Sound"
		if e.ID == "chart-rest" {
			want = "Look again"
		}
		assert.Equal(t, want, work(e.Design).verdict().Word, e.ID)
	}
}

// While a hand moves nothing is tried: what mended a finding before stands beside it still.
func TestRemediesStayWhileAHandMoves(t *testing.T) {
	d := design.Examples()[0].Design
	d.Curve.Foot, d.Curve.Tip = "2", "2" // too short for the glue
	core := New()
	whole, _, err := core.Plan(raw(t, d), wire.Show{})
	require.NoError(t, err)
	d.Curve.Radius = "111"
	held, _, err := core.Plan(raw(t, d), wire.Show{Brief: true, Held: true})
	require.NoError(t, err)
	fresh, _, err := Core{}.Plan(raw(t, d), wire.Show{Brief: true, Held: true})
	require.NoError(t, err)
	seen := 0
	for i, f := range held.Findings {
		assert.Empty(t, fresh.Findings[i].Remedies, "nothing is tried")
		for _, w := range whole.Findings {
			if w.ID == f.ID && w.Place.Field == f.Place.Field && len(w.Remedies) > 0 {
				assert.Equal(t, w.Remedies, f.Remedies, f.ID)
				seen++
			}
		}
	}
	assert.NotZero(t, seen)
}
