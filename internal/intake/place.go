package intake

import (
	"math"

	"springrib/internal/plane"
)

// Placement says how a drawing is laid on the panel: mirrored, scaled and turned
// about the centre of its box, then moved. The zero Placement leaves it in place.
type Placement struct {
	Mirror bool        // left becomes right
	Scale  float64     // 0 stands for 1
	Turn   float64     // radians, counter-clockwise
	Move   plane.Point // mm
}

// Affine returns the map that p stands for, for a drawing that fills box.
func (p Placement) Affine(box plane.Box) plane.Affine {
	if box.Empty() {
		return plane.Translate(p.Move.X, p.Move.Y)
	}
	k := p.Scale
	if k == 0 {
		k = 1
	}
	if !(k > 0) || math.IsInf(k, 0) {
		panic("intake: Placement.Scale must be positive")
	}
	kx := k
	if p.Mirror {
		kx = -k
	}
	c := box.Centre()
	to := c.Add(p.Move)
	return plane.Translate(to.X, to.Y).Mul(plane.Rotate(p.Turn)).Mul(plane.Scale(kx, k)).Mul(plane.Translate(-c.X, -c.Y))
}

// ScaleTo returns the factor that makes something of the given length as long as
// wanted. Both must be positive.
func ScaleTo(measured, wanted float64) float64 {
	if !(measured > 0) || !(wanted > 0) || math.IsInf(wanted/measured, 0) || wanted/measured == 0 {
		panic("intake: ScaleTo needs positive lengths")
	}
	return wanted / measured
}

// Place returns the items under m. Closed paths keep their sense of travel, also
// when m mirrors.
func Place(items []Item, m plane.Affine) []Item {
	out := make([]Item, len(items))
	for i, it := range items {
		it.Path = it.Path.Apply(m)
		if m.Det() < 0 && it.Path.Closed {
			it.Path = it.Path.Reverse()
		}
		it.box, it.length = plane.Box{}, 0
		out[i] = it
	}
	return out
}
