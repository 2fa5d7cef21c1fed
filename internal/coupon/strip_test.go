package coupon

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/offset"
	"springrib/internal/plane"
	"springrib/internal/stock"
)

func plyOrder() Order {
	law := ply().Law(3)
	return Order{
		From: stock.Sheet{Stock: &stock.Stock{ID: "birch-4"}, Thickness: 3.9}, Kerf: 0.2, Width: 0.18, Passes: 3, Chosen: 3, Spacing: 2.4, Overrun: 4.8,
		Length: 80, Tongue: 12, Closing: law.ClosingAngle(2.4), Cracking: 60,
	}
}

func all(o Order) []Strip {
	out := append(o.Depth(), o.Close()...)
	return append(append(out, o.Bend()...), o.Fit()...)
}

// One plain tongue, and for each number of passes a dense one and one at the spacing of
// the design, with the scores between the table's edge and the hole.
func TestDepthStrip(t *testing.T) {
	o := plyOrder()
	got := o.Depth()
	require.Len(t, got, 7)
	assert.Zero(t, got[0].Passes)
	assert.Zero(t, got[0].Count)
	for i, s := range got[1:] {
		assert.Equal(t, 1+i/2, s.Passes)
		assert.InDelta(t, []float64{1.17, 2.4}[i%2], s.Spacing, 1e-9, "0.3 of the thickness, and the design's")
		var xs []float64
		for _, w := range s.Work {
			if w.Kind == cut.Score {
				a, b := w.Path.Start(), w.Path.End()
				assert.Equal(t, a.X, b.X)
				assert.InDelta(t, -4.8, a.Y, 1e-12)
				assert.InDelta(t, 16.8, b.Y, 1e-12)
				xs = append(xs, a.X)
			}
		}
		require.Len(t, xs, s.Count)
		for j := 1; j < len(xs); j++ {
			assert.InDelta(t, s.Spacing, xs[j]-xs[j-1], 1e-9)
		}
		// As much of the free length lies before the first score as after the last, and
		// less than a spacing: the tongue bends as an even panel does.
		assert.InDelta(t, xs[0]-40, 120-xs[len(xs)-1], 1e-9)
		assert.Less(t, xs[0]-40, s.Spacing)
	}
	o.Spacing = 1.2
	assert.Len(t, o.Depth(), 4, "a design as dense as the dense tongue needs no other")
}

// Every piece is sound: outlines that don't cross, marks inside, no score in another's
// way, names that differ.
func TestStripsAreSoundParts(t *testing.T) {
	saw := plyOrder()
	saw.From.Thickness, saw.Kerf, saw.Width, saw.Passes, saw.Chosen, saw.Spacing = 19, 2.4, 2.4, 1, 1, 12
	router := plyOrder()
	router.From.Thickness, router.Kerf, router.Width = 6, 3.175, 1.6
	thin := plyOrder()
	thin.From.Thickness, thin.Kerf, thin.Width, thin.Cracking = 0.8, 0.1, 0.1, 2
	none := plyOrder()
	none.Spacing, none.Cracking, none.Closing = 0, 0, math.Inf(1)
	for name, o := range map[string]Order{"ply": plyOrder(), "saw": saw, "router": router, "thin": thin, "no scores": none} {
		ids := map[string]bool{}
		for _, s := range all(o) {
			assert.False(t, ids[s.ID], "%s twice", s.ID)
			ids[s.ID] = true
			require.Empty(t, offset.Crossings(s.Outline.Paths()...), "%s %s", name, s.ID)
			assert.Positive(t, s.Outline.Area())
			assert.Positive(t, s.Quantity)
			outer := 0
			for _, w := range s.Work {
				switch w.Kind {
				case cut.Outer:
					outer++
					assert.True(t, w.Path.Closed)
				case cut.Inner:
					assert.True(t, w.Path.Closed, "%s: an open cut frees nothing", s.ID)
					in(t, s, w.Path, name)
				case cut.Mark:
					in(t, s, w.Path, name)
				}
			}
			assert.Equal(t, 1, outer, s.ID)
			assert.Equal(t, s.Count > 0, s.Passes > 0)
			if s.Passes > 0 {
				assert.GreaterOrEqual(t, s.Spacing, 1.5*o.Width-0.005, "%s: sound land is left", s.ID)
			}
		}
	}
}

func in(t *testing.T, s Strip, p plane.Path, name string) {
	t.Helper()
	a, b := p.Box(), s.Outline.Box().Grow(0.01)
	assert.True(t, a.Min.X >= b.Min.X && a.Max.X <= b.Max.X && a.Min.Y >= b.Min.Y && a.Max.Y <= b.Max.Y,
		"%s %s: %v outside %v", name, s.ID, a, b)
}

// Folded until it shuts the width strip has turned by about a right angle: enough to
// read to 2 degrees in 4 %.
func TestWidthStripTurnsFarEnough(t *testing.T) {
	o := plyOrder()
	s := o.Close()
	require.Len(t, s, 1)
	turn := float64(s[0].Count) * o.Closing
	assert.GreaterOrEqual(t, turn, math.Pi/2)
	assert.Less(t, turn, math.Pi/2+o.Closing)
	// Its reading gives the width back.
	b := ply()
	got := Learn(b, []Reading{{Kind: KindClosing, Passes: 3, Spacing: s[0].Spacing, Count: s[0].Count, Value: turn}}, Owner{})
	assert.InDelta(t, b.Width.Value, got.Width.Value, 1e-6)
	o.Closing = math.Inf(1)
	assert.Empty(t, o.Close())
}

// The gauges step evenly through the radius at which the skin may crack, and each is as
// round as its figures say.
func TestGauges(t *testing.T) {
	o := plyOrder()
	radii := o.Gauges()
	assert.Equal(t, []float64{120, 96, 77, 61, 49, 39, 31}, radii)
	for _, s := range o.Bend() {
		if s.Passes > 0 {
			long := float64(s.Count-1) * s.Spacing
			assert.GreaterOrEqual(t, long, gaugeSweep*(radii[0]+o.From.Thickness)-2*s.Spacing, "it lies round the largest gauge")
			continue
		}
		arc := s.Outline.Outer.Segs
		most := 0.0
		for _, seg := range arc {
			if seg.Kind == plane.Arc {
				_, r, _, _ := seg.ArcGeometry()
				most = math.Max(most, r)
			}
		}
		assert.Equal(t, fmt.Sprintf("gauge R %g", math.Round(most*10)/10), s.Name)
	}
}

// A slot of the fit strip is wider than the sheet by what its figures say, after the cut
// has taken its kerf.
func TestFitStripSlots(t *testing.T) {
	o := plyOrder()
	got := o.Fit()
	require.Len(t, got, 2)
	var widths []float64
	for _, w := range got[1].Work {
		if w.Kind == cut.Inner {
			widths = append(widths, w.Path.Box().W()+o.Kerf-o.From.Thickness)
		}
	}
	require.Len(t, widths, 7)
	for i, c := range []float64{-.2, -.1, 0, .1, .2, .3, .4} {
		assert.InDelta(t, c, widths[i], 1e-9)
	}
	// The window and the block that falls out of it differ by two kerfs.
	for _, w := range got[0].Work {
		if w.Kind == cut.Inner {
			assert.InDelta(t, 20, w.Path.Box().W(), 1e-12)
		}
	}
}

// Figures are few strokes, stand on their line, and no two digits look the same.
func TestFigures(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range "0123456789-." {
		paths := Figures(string(r), plane.Pt(3, 2), 4)
		assert.LessOrEqual(t, len(paths), 2)
		text := ""
		for _, p := range paths {
			text += p.String()
			b := p.Box()
			assert.True(t, b.Min.X >= 3-1e-9 && b.Min.Y >= 2-1e-9 && b.Max.Y <= 6+1e-9 && b.Max.X <= 3+FiguresWidth(string(r), 4))
		}
		assert.False(t, seen[text], "%c", r)
		seen[text] = true
	}
	assert.Empty(t, Figures("x", plane.Pt(0, 0), 4))
	assert.InDelta(t, 2*FiguresWidth("8", 4), FiguresWidth("88", 4), 1e-12)
}
