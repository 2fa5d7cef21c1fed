package part

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/curve"
	"springrib/internal/plane"
)

// A back edge at one depth is made of the parallels of the edge's lines and arcs, and one
// of changing depth along a straight is a line: neither is fitted.
func TestBackEdgeWithoutFitting(t *testing.T) {
	edge := curve.Chain(plane.Pt(0, 0), 0.4, curve.Piece{Length: 20}, curve.Piece{Length: 90, Kappa: 1.0 / 60}, curve.Piece{Length: 50, Kappa: -1.0 / 45}, curve.Piece{Length: 15})
	for _, left := range []bool{true, false} {
		task := RibTask{Edge: edge, PanelLeft: left, Start: 4, End: 170, FootDepth: 12, TipDepth: 12, Tolerance: 0.02}
		back, ok := task.parallel(task.End)
		require.True(t, ok)
		require.Len(t, back, 4)
		for k, seg := range back {
			if k > 0 {
				assert.Equal(t, back[k-1].B, seg.A)
			}
			mid := edge.At((math.Max(task.Start, edge.Stretches()[k].Start) + math.Min(task.End, edge.Stretches()[k].End)) / 2)
			want := mid.P.Add(task.inward(mid).Mul(12))
			assert.InDelta(t, 0, seg.Point(0.5).Dist(want), 1e-9, "piece %d", k)
		}
		assert.Equal(t, back, task.fitBack(task.End))

		task.TipDepth = 6
		_, ok = task.parallel(task.End)
		assert.False(t, ok, "a spiral over an arc is neither line nor arc")
		task.End = 18
		back, ok = task.parallel(task.End)
		require.True(t, ok)
		require.Len(t, back, 1)
		at, _ := task.back(11)
		assert.InDelta(t, 0, back[0].Point(0.5).Dist(at), 1e-9)
	}
}

// The hole of a former is the same as its outline, exactly.
func TestHoleOfAFormerIsExact(t *testing.T) {
	box := curve.Chain(plane.Pt(0, 0), 0, curve.RoundedBox(200, 140, 30, true)...)
	f := NewFormer(RibTask{ID: "former", Edge: box, End: box.Length(), FootDepth: 20, Tolerance: 0.02, Kerf: 0.2, Quantity: 1})
	require.Len(t, f.Outline.Holes, 1)
	// A rounded box of half the sizes: area by hand.
	area := func(w, h, r float64) float64 { return w*h - (4-math.Pi)*r*r }
	assert.InDelta(t, area(200, 140, 30)-area(160, 100, 10), f.Outline.Area(), 1e-9)
	for _, s := range f.Outline.Holes[0].Segs {
		assert.NotEqual(t, plane.Cubic, s.Kind)
	}
}
