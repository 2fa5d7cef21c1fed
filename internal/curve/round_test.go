package curve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/curve"
	"springrib/internal/plane"
)

// A curve all round is a circle of its own radius, wherever rounding leaves its two ends: its area is
// pi r^2 and its box 2 r wide and high.
func TestACurveAllRoundIsACircle(t *testing.T) {
	for i := range 2000 {
		r := 5 + 0.371*float64(i)
		c := curve.Chain(plane.Pt(0, -r), math.Pi, curve.Piece{Length: 2 * math.Pi * r, Kappa: -1 / r})
		segs, ok := c.Segments(0, c.Length())
		require.True(t, ok)
		p := plane.Path{Segs: segs, Closed: true}
		assert.InEpsilon(t, math.Pi*r*r, math.Abs(p.Area()), 1e-9, "radius %v", r)
		assert.InEpsilon(t, 2*r, p.Box().W(), 1e-9, "radius %v", r)
		assert.InEpsilon(t, 2*r, p.Box().H(), 1e-9, "radius %v", r)
	}
}
