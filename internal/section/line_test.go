package section

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/unit"
)

// The line is made of its figures alone. An arc of span c and rise h has the radius
// (c^2/4 + h^2)/(2h) (any table of circular segments), straights at its ends lengthen it, a
// line through points runs through them, and one that crosses itself is told.
func TestLineFromFigures(t *testing.T) {
	c := &design.CurveValues{Kind: design.SpanRise, Span: 100, Rise: 20, Foot: 10, Tip: 5}
	got, said, ok := Line(c, unit.MM)
	require.True(t, ok, "%+v", said)
	r := (100.0*100/4 + 20*20) / (2 * 20)
	k, _ := got.Tightest()
	assert.InDelta(t, r, 1/k, 1e-9)
	assert.InDelta(t, 2*math.Asin(50/r)*r+15, got.Length(), 1e-9)

	c = &design.CurveValues{Kind: design.Points, Points: [][2]float64{{0, 0}, {60, 30}, {120, 0}}, PointRows: []int{0, 1, 2}}
	got, said, ok = Line(c, unit.MM)
	require.True(t, ok, "%+v", said)
	near := math.Inf(1)
	for i := range 1001 {
		p := got.At(got.Length() * float64(i) / 1000).P
		near = math.Min(near, math.Hypot(p.X-60, p.Y-30))
	}
	assert.Less(t, near, 0.1)

	c = &design.CurveValues{Kind: design.LengthRadius, Radius: 20, Length: 20 * 7} // more than once round
	_, said, ok = Line(c, unit.Inch)
	require.False(t, ok)
	require.Len(t, said, 1)
	assert.Equal(t, "curve-crosses", said[0].ID)
	assert.Equal(t, "curve.radius", said[0].Place.Field)

	_, said, ok = Line(&design.CurveValues{Kind: design.Chain}, unit.MM)
	require.False(t, ok)
	assert.Equal(t, "curve-empty", said[0].ID)
}
