package form

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/plane"
	"springrib/internal/surface"
)

// A cone is drawn in a map in which its rulings are lines u = const: its skin has the area of the
// fan, bent and flat alike, and its flats meet in one place at every ruling.
func TestMeshOfACone(t *testing.T) {
	c := surface.Cone{Narrow: 60, Wide: 90, Height: 100}
	const n = 60
	raw, lain := surface.Chain(c.Touches(n, -1, 2*math.Pi), func(int) [2]float64 { return [2]float64{2.3, 2.4} })
	fan, strip := surface.FanOf(raw, lain, 1)
	long, slant := fan.Angle*fan.Inner, c.Slant()
	s := Sheet{
		Outline: plane.Region{Outer: plane.RectPath(plane.Box{Min: plane.Pt(0, -slant/2), Max: plane.Pt(long, slant/2)})},
		Flat:    func(u, v float64) plane.Point { return fan.At(fan.Angle*u/long, v+slant/2) },
		Strip:   strip, Thickness: thick, Depth: deep, Mouth: wide, Root: wide, Contact: true,
	}
	for i := range n {
		s.Lines = append(s.Lines, long*(float64(i)+0.5)/n)
	}
	m := NewMesh(s)
	var flat, bent float64
	faces, folded := triangles(m.Body.Flat), triangles(m.Body.Bent)
	for i, tr := range faces {
		if tr.level(thick) { // the face away from the scores
			flat, bent = flat+tr.area(), bent+folded[i].area()
		}
	}
	outer := fan.Inner + slant
	assert.InDelta(t, fan.Angle/2*(outer*outer-fan.Inner*fan.Inner), flat, 0.001*flat, "flats of a polygon lie inside its arcs")
	// At thickness t the skin lies outside the fibre that keeps its length.
	assert.InDelta(t, math.Pi*(c.Narrow+c.Wide+2*thick*math.Cos(c.Lean()))*slant, bent, 0.003*bent)
	frames := Fold(strip)
	for i, ru := range strip.Rulings {
		for k, q := range ru.Corner(thick, false) {
			a, b := frames[i].At(q.X, q.Y, thick), frames[i+1].At(ru.Corner(thick, true)[k].X, ru.Corner(thick, true)[k].Y, thick)
			assert.Less(t, a.Sub(b).Len(), 1e-5)
		}
	}
}
