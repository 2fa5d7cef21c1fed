package part

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/plane"
)

// The area of a trapezoid is half the sum of its parallel sides by their distance.
func TestATaperWithOneStraightEdge(t *testing.T) {
	r := Taper{Length: 200, FootWidth: 70, WidestWidth: 70, TipWidth: 30, OneEdge: true}.Outline()
	assert.Equal(t, plane.BoxOf(plane.Pt(0, -35), plane.Pt(200, 35)), r.Box())
	assert.InDelta(t, (70.0+30)/2*200, r.Outer.Area(), 1e-9)
	// The straight edge runs the whole length at one height; the tip stands on it.
	for _, s := range r.Outer.Segs {
		from, to := s.Point(0), s.Point(1)
		if from.Y == -35 && to.Y == -35 {
			assert.InDelta(t, 200, from.Dist(to), 1e-9)
		}
	}
	wider := Taper{Length: 200, FootWidth: 30, WidestWidth: 70, WidestAt: 200, TipWidth: 70, OneEdge: true}.Outline()
	assert.Equal(t, plane.BoxOf(plane.Pt(0, -15), plane.Pt(200, 55)), wider.Box())
}
