package machine

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSkinFromTheTop(t *testing.T) {
	s := Setup{Reference: Top, Depths: []float64{1.3, 2.2, 2.6}, DepthSpread: 0.08}
	skin := s.Skin(2, 3, 0.06)
	assert.InDelta(t, 0.8, skin.Value, 1e-12)
	assert.InDelta(t, 0.7, skin.Low, 1e-12, "0.08 and 0.06 in quadrature are 0.10")
	assert.InDelta(t, 0.9, skin.High, 1e-12)
	assert.InDelta(t, 2.2, s.Depth(2, 3), 1e-12)
	assert.Zero(t, s.Skin(3, 2.65, 0.2).Low)
}

func TestSkinFromTheTableIgnoresThickness(t *testing.T) {
	s := Setup{Reference: Table, Depths: []float64{1.6, 0.8}, DepthSpread: 0.1}
	assert.Equal(t, s.Skin(2, 3, 0), s.Skin(2, 3.4, 0.3))
	assert.InDelta(t, 2.6, s.Depth(2, 3.4), 1e-12)
	assert.Panics(t, func() { s.Skin(0, 3, 0) })
	assert.Panics(t, func() { s.Skin(3, 3, 0) })
}

// 120 mm/s and 1500 mm/s² need 4.8 mm: uniform acceleration.
func TestOverrun(t *testing.T) {
	assert.InDelta(t, 4.8, LeastOverrun(120, 1500), 1e-12)
	assert.Zero(t, LeastOverrun(120, 0))
}

func TestStrokeTime(t *testing.T) {
	assert.InDelta(t, 1.08, StrokeTime(120, 1500, 120), 1e-12)
	assert.InDelta(t, 0.04, StrokeTime(120, 1500, 0.6), 1e-12)
	assert.InDelta(t, 1, StrokeTime(120, 0, 120), 1e-12)
	// The two forms meet where the head just reaches speed.
	assert.InDelta(t, StrokeTime(120, 1500, 9.6-1e-9), StrokeTime(120, 1500, 9.6+1e-9), 1e-9)
	assert.Panics(t, func() { StrokeTime(0, 1, 1) })
	// Against the distance covered, integrated in small steps.
	v, a, length := 100.0, 900.0, 31.0
	x, clock, dt := 0.0, 0.0, 1e-5
	for x < length {
		x += dt * math.Min(v, math.Sqrt(2*a*math.Max(1e-9, math.Min(x+dt, length-x))))
		clock += dt
	}
	assert.InDelta(t, clock, StrokeTime(v, a, length), 0.01)
}

func TestDefaultsAreSensible(t *testing.T) {
	for _, tool := range []Tool{Laser, Router, Saw, Knife} {
		for _, thick := range []float64{1.5, 2, 3, 4, 6, 18} {
			s := Defaults(tool, thick)
			assert.Equal(t, tool, s.Tool)
			assert.True(t, s.Growing(), "%v at %v", tool, thick)
			for n := range s.Depths {
				skin := s.Skin(n+1, thick, 0)
				assert.Greater(t, skin.Value, 0.1, "%v at %v after %d", tool, thick, n+1)
				assert.Less(t, skin.Value, thick)
			}
		}
	}
	// Two passes leave 25-30 % of the sheet, as built from 1/8 in MDF (common practice, no source).
	skin := Defaults(Laser, 3.175).Skin(2, 3.175, 0).Value
	assert.InDelta(t, 0.275, skin/3.175, 0.025)
	assert.False(t, Setup{Depths: []float64{2, 2}}.Growing())
	assert.False(t, Setup{Reference: Table, Depths: []float64{1, 2}}.Growing())
}
