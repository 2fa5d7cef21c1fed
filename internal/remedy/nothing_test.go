package remedy

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/plan"
)

// A search ends by the count of scores that it laid, at most one trial past its end.
func TestTheSearchEndsByCount(t *testing.T) {
	d := design.Empty()
	d.Sheet.Readings, d.Machine.Depths = []string{"3"}, []string{"1.2"}
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width, d.Panel.MinLand = "75", "3000", "50", "1"
	d.Curve.Kind = design.Chain
	d.Curve.Pieces = nil
	for i := range 40 {
		d.Curve.Pieces = append(d.Curve.Pieces, design.Piece{Turn: []string{"over", "back"}[i%2], Length: "200", Radius: "75"})
	}
	v, _ := design.Read(d)
	p := plan.Make(v)
	folds := len(p.Scores.Layout.Folds)
	require.Greater(t, folds, 1000)
	m := mender{doc: d, p: &p, near: p.Nearest(), left: 1000}
	for range 100 {
		m.sound(map[string]string{"panel.minLand": "0.9"})
	}
	assert.True(t, m.short)
	assert.Greater(t, m.left, -20*folds, "one trial past the end at most")
}
