package view

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/plane"
)

// The line of the span lies clear of the panel and its ribs, also where the curve dips
// below its own chord.
func TestSpanLiesClearOfThePanel(t *testing.T) {
	tilted := 0
	for _, e := range design.Examples() {
		w := work(e.Design)
		for _, l := range w.bent().d.Labels {
			if !strings.HasPrefix(l.Text, "span ") {
				continue
			}
			sin, cos := math.Sincos(-l.Turn * math.Pi / 180)
			require.Greater(t, cos, 0.0)
			if math.Abs(sin) > 0.01 {
				tilted++
			}
			up, on := plane.Pt(-sin, cos), plane.Pt(l.X, -l.Y)
			all := append(w.plan.Face(0), w.plan.Face(w.plan.V.Sheet.T)...)
			for _, r := range w.plan.Ribs.Kinds {
				all = append(all, r.Outline.Outer.Flatten(0.01)...)
			}
			least := math.Inf(1)
			for _, q := range all {
				least = math.Min(least, q.Sub(on).Dot(up))
			}
			assert.InDelta(t, 8, least, 0.02, e.ID)
		}
	}
	assert.NotZero(t, tilted)
}
