package view

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/plane"
	"springrib/internal/wire"
)

// away is how far a place is from the nearest of some outlines, each taken as chords that
// stray by a thousandth of a millimetre at most.
func away(q plane.Point, outlines []plane.Path) float64 {
	best := math.Inf(1)
	for _, path := range outlines {
		pts := path.Flatten(0.001)
		for i, a := range pts {
			d := pts[(i+1)%len(pts)].Sub(a)
			t := 0.0
			if l := d.Dot(d); l > 0 {
				t = math.Max(0, math.Min(1, q.Sub(a).Dot(d)/l))
			}
			best = math.Min(best, q.Dist(a.Add(d.Mul(t))))
		}
	}
	return best
}

// What tells a size of the outline or of a hole lies on its line as it is drawn flat,
// whether the sizes are given flat or as seen when bent; a hole's middle lies in the hole.
func TestHandlesOfAnOutlineLieOnIt(t *testing.T) {
	tried := map[string]bool{}
	for name, d := range bends() {
		doc, err := document(raw(t, d))
		require.NoError(t, err)
		w := planned(doc)
		drawn := w.plan.Panel.Flat.Outline
		for id, h := range allHandles(t, d) {
			at := plane.Pt(h.X, -h.Y)
			kind := strings.TrimRight(id, " 0123456789")
			switch kind {
			case "panel-width", "foot-width", "widest", "tip-width", "inner-radius", "panel-length", "sector-angle", "panel-corner", "corner-radius", "hole-width", "hole-length", "hole-turn":
				if d.Panel.TipRound && kind != "foot-width" {
					continue // its widths are those of the sides that the round tip cuts short
				}
				// An outline laid from how it is seen is fitted within 0.01 mm.
				assert.Less(t, away(at, drawn.Paths()), 0.02, "%s %s", name, id)
			case "hole":
				in := false
				for _, hole := range drawn.Holes {
					in = in || hole.Contains(at) || hole.Reverse().Contains(at)
				}
				assert.True(t, in, "%s %s", name, id)
			default:
				continue
			}
			tried[kind] = true
		}
	}
	assert.Len(t, tried, 11)
}

// A rounding pulled past what there is room for stays at the room: the panel is still drawn.
func TestRoundingsStopWhereThereIsNoMoreRoom(t *testing.T) {
	for name, id := range map[string]string{"polygon given as seen": "corner-radius 3", "rounded, given as seen": "panel-corner"} {
		d := bends()[name]
		d.Panel.Holes = nil
		h := allHandles(t, d)[id]
		for _, far := range []float64{200, 1000} {
			after, _ := move(t, d, wire.Drag{Handle: id, X: h.X - far, Y: h.Y + far/2})
			again := allHandles(t, after)
			assert.InDelta(t, again[id].High, again[id].Value, 0.1, name)
			assert.Greater(t, again[id].Value, h.Value)
		}
	}
}

// The room of a corner is what the outline itself finds.
func TestRoomOfACorner(t *testing.T) {
	square := []design.CornerValues{{Along: 0, Across: 0}, {Along: 40, Across: 0, Radius: 10}, {Along: 40, Across: 40}, {Along: 0, Across: 40}}
	assert.InDelta(t, 30, cornerRoom(square, 0), 1e-9, "the side less what its neighbour takes")
	assert.InDelta(t, 40, cornerRoom(square, 3), 1e-9)
	assert.InDelta(t, 40, cornerRoom(square, 1), 1e-9)
}

// A slot turned by its end goes on turning the way the hand does, and stops at half a turn.
func TestASlotIsTurnedByItsEnd(t *testing.T) {
	d := bends()["polygon with holes, two ribs"]
	all := allHandles(t, d)
	middle, end := all["hole 2"], all["hole-turn 2"]
	assert.InDelta(t, 15, math.Hypot(end.X-middle.X, end.Y-middle.Y), 1e-6, "half of 30")
	for _, degrees := range []float64{20, 90, 170} {
		a := degrees * math.Pi / 180
		// The drawing shows the scored face: which way round depends on the face.
		from := plane.Pt(end.X-middle.X, end.Y-middle.Y)
		to := plane.Pt(from.X*math.Cos(a)-from.Y*math.Sin(a), from.X*math.Sin(a)+from.Y*math.Cos(a))
		after, set := move(t, d, wire.Drag{Handle: "hole-turn 2", X: middle.X + to.X, Y: middle.Y + to.Y})
		require.Contains(t, set, "panel.holes.1.turn")
		v, _, _ := design.ReadStates(after)
		assert.InDelta(t, degrees, math.Abs(v.Panel.Holes[1].Turn)*180/math.Pi, 1)
	}
}
