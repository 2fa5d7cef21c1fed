// Package shapes has the shapes that tests of geometry draw with. No program imports it.
package shapes

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/solve"
)

// Mirror returns the reflection in the line through a and b.
func Mirror(a, b plane.Point) plane.Affine {
	u := b.Sub(a).Unit()
	m := plane.Affine{u.X*u.X - u.Y*u.Y, 2 * u.X * u.Y, 2 * u.X * u.Y, u.Y*u.Y - u.X*u.X, 0, 0}
	p := m.Apply(a)
	m[4], m[5] = a.X-p.X, a.Y-p.Y
	return m
}

// FourCubics returns the ellipse about c with semi-axes rx along X and ry along Y as
// four cubics, counter-clockwise from its rightmost point. They pass outside the
// ellipse by up to 2.7253e-4 of the semi-axis.
func FourCubics(c plane.Point, rx, ry float64) plane.Path {
	const k = 0.552284749830793 // 4/3 tan(pi/8): the cubic meets the circle at its middle
	m := plane.Affine{rx, 0, 0, ry, c.X, c.Y}
	u := [5]plane.Point{plane.Pt(1, 0), plane.Pt(0, 1), plane.Pt(-1, 0), plane.Pt(0, -1), plane.Pt(1, 0)}
	p := plane.Path{Closed: true}
	for i, a := range u[:4] {
		b := u[i+1]
		p.Segs = append(p.Segs, plane.CubicSeg(m.Apply(a), m.Apply(a.Add(b.Mul(k))), m.Apply(b.Add(a.Mul(k))), m.Apply(b)))
	}
	return p
}

// Star is a random outline that doesn't cross itself: seen from its middle, the
// angle only grows. Sides are lines, flat arcs and cubics in turn.
func Star(rng interface{ Float64() float64 }, c plane.Point, r float64, n int) plane.Path {
	pts := make([]plane.Point, n)
	for i := range pts {
		a := 2 * math.Pi * (float64(i) + 0.3*rng.Float64()) / float64(n)
		pts[i] = c.Add(plane.Dir(a).Mul(r * (0.6 + 0.4*rng.Float64())))
	}
	p := plane.Path{Closed: true}
	for i, a := range pts {
		b := pts[(i+1)%n]
		switch i % 3 {
		case 0:
			p.Segs = append(p.Segs, plane.LineSeg(a, b))
		case 1:
			p.Segs = append(p.Segs, plane.BulgeSeg(a, b, 0.2*rng.Float64()-0.1))
		default:
			q := b.Sub(a)
			h := q.Left().Mul(0.1 * (rng.Float64() - 0.5))
			p.Segs = append(p.Segs, plane.CubicSeg(a, a.Lerp(b, .3).Add(h), a.Lerp(b, .7).Sub(h), b))
		}
	}
	return p
}

// DistToPolyline is the distance of a place to a polyline.
func DistToPolyline(p plane.Point, pts []plane.Point) float64 {
	d := math.Inf(1)
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		v := b.Sub(a)
		f := solve.Clamp(p.Sub(a).Dot(v)/v.Dot(v), 0, 1)
		if v == (plane.Point{}) {
			f = 0
		}
		d = math.Min(d, p.Dist(a.Lerp(b, f)))
	}
	return d
}

// Kinds writes a path's kinds as letters: line, arc, cubic.
func Kinds(p plane.Path) string {
	s := ""
	for _, x := range p.Segs {
		s += "lac"[x.Kind : x.Kind+1]
	}
	return s
}

// EllipsePoints are n points of an ellipse about the origin.
func EllipsePoints(a, b float64, n int) []plane.Point {
	pts := make([]plane.Point, n)
	for i := range pts {
		w := 2 * math.Pi * float64(i) / float64(n)
		pts[i] = plane.Pt(a*math.Cos(w), b*math.Sin(w))
	}
	return pts
}
