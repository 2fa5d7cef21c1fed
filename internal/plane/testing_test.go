package plane

import "math"

// What tests of this package draw with.

// fourCubics returns the ellipse about c with semi-axes rx along X and ry along Y as
// four cubics, counter-clockwise from its rightmost point. They pass outside the
// ellipse by up to 2.7253e-4 of the semi-axis.
func fourCubics(c Point, rx, ry float64) Path {
	const k = 0.552284749830793 // 4/3 tan(pi/8): the cubic meets the circle at its middle
	m := Affine{rx, 0, 0, ry, c.X, c.Y}
	u := [5]Point{{1, 0}, {0, 1}, {-1, 0}, {0, -1}, {1, 0}}
	p := Path{Closed: true}
	for i, a := range u[:4] {
		b := u[i+1]
		p.Segs = append(p.Segs, CubicSeg(m.Apply(a), m.Apply(a.Add(b.Mul(k))), m.Apply(b.Add(a.Mul(k))), m.Apply(b)))
	}
	return p
}

// humpCubic is the test curve of many offset studies in this project: its tightest
// radius is 16.9 mm.
func humpCubic() Path { return MustParse("M 0 0 C 10 20 30 20 40 0") }

// trueEllipse is the ellipse itself, not cubics.
func trueEllipse(a, b float64) Source {
	return Func(true, func(t float64) (p, d Point) {
		return Pt(a*math.Cos(t), b*math.Sin(t)), Pt(-a*math.Sin(t), b*math.Cos(t))
	}, 0, math.Pi/2, math.Pi, 1.5*math.Pi, 2*math.Pi)
}

// mirror returns the reflection in the line through a and b.
func mirror(a, b Point) Affine {
	u := b.Sub(a).Unit()
	m := Affine{u.X*u.X - u.Y*u.Y, 2 * u.X * u.Y, 2 * u.X * u.Y, u.Y*u.Y - u.X*u.X, 0, 0}
	p := m.Apply(a)
	m[4], m[5] = a.X-p.X, a.Y-p.Y
	return m
}

// mustRegion reads an outline and then its holes.
func mustRegion(text string) Region {
	ps, err := parsePaths(text)
	if err != nil {
		panic(err)
	}
	return Region{Outer: ps[0], Holes: ps[1:]}.Normal()
}
