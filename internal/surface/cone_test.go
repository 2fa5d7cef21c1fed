package surface

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// Frusta whose nets are published, in the units of their source.
func TestNetsOfPublishedFrusta(t *testing.T) {
	for _, c := range []struct {
		source              string
		small, large, high  float64 // diameters, height
		inner, outer, angle float64 // 0: not given
		slant, within       float64
	}{
		// A school geometry page, "The Net of a Frustum": 5 and 8 in across, 4 in high.
		{"school geometry page", 5, 8, 4, 7.12, 11.39, 126.4, 0, 0.005},
		// Sheet Metal Drafting, a school text in the public domain, problem 30B: 6 and 3 in across,
		// 3 in high; the slant is the root of 1.5^2 + 3^2.
		{"school text", 3, 6, 3, 0, 0, 0, 3.354, 0.0005},
		// A page of mathematics help answers for a shade of 8 and 40 across, 21 high, with the outer
		// radius 33.00 and a missing wedge of 142 degrees, which are right, and an inner radius of
		// 6.75, which takes the height for the slant: 33.00 - 26.40 = 6.600.
		{"mathematics help page", 8, 40, 21, 6.600, 33.00, 360 - 141.824, 0, 0.005},
		// A cone of 90 degrees at its point, all but its tip: 360 sin(45).
		{"smiths' page", 1e-6, 200, 100, 0, 0, 254.6, 0, 0.05},
	} {
		k := Cone{c.small / 2, c.large / 2, c.high}
		inner, outer, angle := k.Net()
		if c.inner > 0 {
			assert.InDelta(t, c.inner, inner, c.within, c.source)
			assert.InDelta(t, c.outer, outer, c.within, c.source)
		}
		if c.angle > 0 {
			assert.InDelta(t, c.angle, angle*180/math.Pi, 0.05, c.source)
		}
		if c.slant > 0 {
			assert.InDelta(t, c.slant, k.Slant(), c.within, c.source)
			area := math.Pi * (k.Narrow + k.Wide) * k.Slant() // the text: half the girths' sum times the slant
			assert.InDelta(t, 47.4, area, 0.05, c.source)
			assert.InDelta(t, area, angle/2*(outer*outer-inner*inner), 1e-9, c.source)
		}
	}
	inner, _, _ := Cone{4, 20, 21}.Net()
	assert.Greater(t, math.Abs(inner-6.75), 0.1, "height is not slant")
}

// random is a frustum of any lean between 2 and 75 degrees.
func random(r *rand.Rand) Cone {
	narrow := 5 + 200*r.Float64()
	lean := (2 + 73*r.Float64()) * math.Pi / 180
	slant := 20 + 400*r.Float64()
	return Cone{narrow, narrow + slant*math.Sin(lean), slant * math.Cos(lean)}
}

// The flat of a scored cone is the net of its own neutral cone: the apex moves by D/sin(lean)
// along the axis, so that the edge lies D cot(lean) further from it, and every touch lies on the
// fan. The fold of every score is 2 asin(cos(lean) sin(pi/n)), the turn in the flat
// 2 atan(sin(lean) tan(pi/n)).
func TestAConeLiesAsAFan(t *testing.T) {
	r := rand.New(rand.NewPCG(111, 112))
	for range 200 {
		c := random(r)
		n := 12 + r.IntN(200)
		up := 1.0
		if r.IntN(2) == 0 {
			up = -1
		}
		d := 3 * r.Float64()
		raw, lain := Chain(c.Touches(n, up, 2*math.Pi), func(int) [2]float64 { return [2]float64{d, d} })
		f, s := FanOf(raw, lain, 1)
		require.Len(t, s.Rulings, n)
		sin, cot := math.Sin(c.Lean()), 1/math.Tan(c.Lean())
		inner, _, _ := c.Net()
		assert.InDelta(t, inner+d*cot, f.Inner, 1e-6*f.Inner)
		step := 2 * math.Atan(sin*math.Tan(math.Pi/float64(n)))
		assert.InDelta(t, step*float64(n), f.Angle, 1e-9)
		for i, ru := range s.Rulings {
			assert.InDelta(t, 2*math.Asin(math.Cos(c.Lean())*math.Sin(math.Pi/float64(n))), ru.Turn, 1e-9, "away from the panel all round")
			// A fold runs half way between two touches, through the apex.
			at := f.At(step*(float64(i)+0.5), 0).Sub(f.Apex).Unit()
			for _, p := range ru.Flat {
				assert.InDelta(t, 0, p.Sub(f.Apex).Cross(at), 1e-6)
			}
		}
		show := s.Start.U.Cross(s.Start.V).Dot(s.Start.N)
		assert.InDelta(t, -up, show, 1e-12, "which way up says which face the flat is seen from")
	}
}

// The outline of a fan is its area, its arcs are exact, and it runs counter-clockwise or not at
// all.
func TestFanOutline(t *testing.T) {
	r := rand.New(rand.NewPCG(113, 114))
	for range 50 {
		f := Fan{Apex: plane.Pt(3, -200), Inner: 20 + 100*r.Float64(), Start: 3 * r.Float64(), Angle: 6 * r.Float64()}
		f.Bend = f.Angle * f.Inner
		slant := 100 * r.Float64()
		o := f.Outline(0, f.Bend, slant)
		outer := f.Inner + slant
		assert.InDelta(t, f.Angle/2*(outer*outer-f.Inner*f.Inner), math.Abs(o.Area()), 1e-6*outer*outer)
		assert.InDelta(t, f.Angle*(outer+f.Inner)+2*slant, o.Length(), 1e-7*outer)
	}
}
