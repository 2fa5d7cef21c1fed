// Package surface holds bent panels in the one form they all share: a strip of
// rulings. A ruling is a line that stays straight; it lies in the flat panel and in
// the bent one, and the panel turns about it. A score is a ruling that takes a
// finite fold. A cylinder has parallel rulings; other developable surfaces differ
// only in how their rulings lie, and what follows works on rulings alone.
package surface

import (
	"math"

	"springrib/internal/plane"
)

// Vec is a place in space, mm. X and Y span the section as drawn, Z runs along the
// scores of a cylinder.
type Vec struct{ X, Y, Z float64 }

// Add returns a+b.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub returns a-b.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Mul returns a scaled by k.
func (a Vec) Mul(k float64) Vec { return Vec{a.X * k, a.Y * k, a.Z * k} }

// Dot returns the scalar product.
func (a Vec) Dot(b Vec) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Cross returns the vector product.
func (a Vec) Cross(b Vec) Vec {
	return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Len returns the length.
func (a Vec) Len() float64 { return math.Sqrt(a.Dot(a)) }

// Unit returns a scaled to length 1.
func (a Vec) Unit() Vec { return a.Mul(1 / a.Len()) }

// Ruling is one line of a strip about which it folds.
type Ruling struct {
	// Flat holds two points of the line in the flat panel, mm: X = u along the bend
	// from the foot edge, Y = v along the scores.
	Flat [2]plane.Point
	// Bent holds the same two points in space, on the fibre that the fold pivots
	// about.
	Bent [2]Vec
	// Turn is the fold in radians, positive away from the panel's upper side, the
	// side on which Height is measured.
	Turn float64
	// Height is how far above the contact face the fold pivots at each of the two
	// points, mm; between them the pivot runs straight. What keeps its length lies
	// elsewhere where scores are close than where they are wide apart.
	Height [2]float64
}

// Corner returns two places of the flat panel, one beside each point of the ruling, on the
// line in which the faces at height h over the contact face meet once they are folded: of
// the flat before the ruling, or of the one after it. They meet in the plane that halves the
// fold, by (height - h) tan(turn/2) to either side of it.
func (r Ruling) Corner(h float64, after bool) [2]plane.Point {
	k := math.Tan(r.Turn / 2)
	if !after {
		k = -k
	}
	on := r.Flat[1].Sub(r.Flat[0]).Unit().Left().Mul(-k)
	return [2]plane.Point{r.Flat[0].Add(on.Mul(r.Height[0] - h)), r.Flat[1].Add(on.Mul(r.Height[1] - h))}
}

// Frame places a flat of the panel in space: Origin is where the flat's point (0, 0)
// on the contact face comes to lie, U and V are its directions there, N = U x V or
// its opposite points from the contact face into the panel.
type Frame struct{ Origin, U, V, N Vec }

// At returns the place of the flat's point (u, v) at height h over the contact face.
func (f Frame) At(u, v, h float64) Vec {
	return f.Origin.Add(f.U.Mul(u)).Add(f.V.Mul(v)).Add(f.N.Mul(h))
}

// Strip is a bent panel: rulings in order from the foot, and the frame of the first
// flat, the one before the first ruling.
type Strip struct {
	Start   Frame
	Rulings []Ruling
}

// Crease is a ruling of a cylinder as its section shows it.
type Crease struct {
	U, Turn, Height float64
	Pivot           plane.Point
}

// Cylinder returns the strip of a cylinder whose section is given by its creases,
// from v = lo to v = hi. The section lies in the X-Y plane; origin and dir are where
// the foot edge of the contact face is and how the panel leaves it; left says that
// the panel lies to the left of its contact face.
func Cylinder(origin plane.Point, dir float64, left bool, creases []Crease, lo, hi float64) Strip {
	d := plane.Dir(dir)
	n := d.Left()
	if !left {
		n = n.Mul(-1)
	}
	s := Strip{Start: Frame{
		Origin: Vec{origin.X, origin.Y, 0},
		U:      Vec{d.X, d.Y, 0}, V: Vec{0, 0, 1}, N: Vec{n.X, n.Y, 0},
	}}
	for _, c := range creases {
		s.Rulings = append(s.Rulings, Ruling{
			Flat: [2]plane.Point{{X: c.U, Y: lo}, {X: c.U, Y: hi}},
			Bent: [2]Vec{{c.Pivot.X, c.Pivot.Y, lo}, {c.Pivot.X, c.Pivot.Y, hi}},
			Turn: c.Turn, Height: [2]float64{c.Height, c.Height},
		})
	}
	return s
}
