package plane

import "math"

// Affine maps x' = a x + c y + e, y' = b x + d y + f for the array [a b c d e f],
// the order of the matrix() of SVG 1.1.
type Affine [6]float64

// Identity returns the map that leaves everything where it is.
func Identity() Affine { return Affine{1, 0, 0, 1, 0, 0} }

// Translate returns the shift by (dx, dy).
func Translate(dx, dy float64) Affine { return Affine{1, 0, 0, 1, dx, dy} }

// Rotate returns the turn about the origin by angle radians, counter-clockwise.
func Rotate(angle float64) Affine {
	s, c := math.Sin(angle), math.Cos(angle)
	return Affine{c, s, -s, c, 0, 0}
}

// Turned mirrors left to right if so asked, and then rotates about the origin.
func Turned(angle float64, mirror bool) Affine {
	m := Rotate(angle)
	if mirror {
		m = m.Mul(Scale(-1, 1))
	}
	return m
}

// RotateAbout returns the turn about p by angle radians, counter-clockwise.
func RotateAbout(p Point, angle float64) Affine {
	return Translate(p.X, p.Y).Mul(Rotate(angle)).Mul(Translate(-p.X, -p.Y))
}

// Scale returns the scaling about the origin by sx and sy.
func Scale(sx, sy float64) Affine { return Affine{sx, 0, 0, sy, 0, 0} }

// Mul returns the map that first does n, then m.
func (m Affine) Mul(n Affine) Affine {
	return Affine{
		m[0]*n[0] + m[2]*n[1], m[1]*n[0] + m[3]*n[1],
		m[0]*n[2] + m[2]*n[3], m[1]*n[2] + m[3]*n[3],
		m[0]*n[4] + m[2]*n[5] + m[4], m[1]*n[4] + m[3]*n[5] + m[5],
	}
}

// Apply returns the image of p.
func (m Affine) Apply(p Point) Point {
	return Point{m[0]*p.X + m[2]*p.Y + m[4], m[1]*p.X + m[3]*p.Y + m[5]}
}

// ApplyVector returns the image of p taken as a direction: no translation.
func (m Affine) ApplyVector(p Point) Point {
	return Point{m[0]*p.X + m[2]*p.Y, m[1]*p.X + m[3]*p.Y}
}

// Det returns the factor by which m scales areas; it is negative when m mirrors.
func (m Affine) Det() float64 { return m[0]*m[3] - m[1]*m[2] }

// Inverse returns the map that undoes m; ok is false when m flattens the plane.
func (m Affine) Inverse() (inv Affine, ok bool) {
	d := m.Det()
	if d == 0 || math.IsNaN(d) || math.IsInf(d, 0) {
		return Identity(), false
	}
	inv = Affine{m[3] / d, -m[1] / d, -m[2] / d, m[0] / d, 0, 0}
	p := inv.Apply(Point{m[4], m[5]})
	inv[4], inv[5] = -p.X, -p.Y
	return inv, true
}

// similar reports whether m keeps shapes (angles up to sign): its two columns have
// equal length and are square to each other within 1e-12 of that length.
func (m Affine) similar() bool {
	p, q := Point{m[0], m[1]}, Point{m[2], m[3]}
	l := p.Dot(p)
	return math.Abs(q.Dot(q)-l) <= 1e-12*l && math.Abs(p.Dot(q)) <= 1e-12*l
}
