package fit

import (
	"math"
	"math/rand"

	"springrib/internal/plane"
	"springrib/internal/solve"
)

// What tests of this package draw with.

// mirror returns the reflection in the line through a and b.
func mirror(a, b plane.Point) plane.Affine {
	u := b.Sub(a).Unit()
	m := plane.Affine{u.X*u.X - u.Y*u.Y, 2 * u.X * u.Y, 2 * u.X * u.Y, u.Y*u.Y - u.X*u.X, 0, 0}
	p := m.Apply(a)
	m[4], m[5] = a.X-p.X, a.Y-p.Y
	return m
}

// fourCubics returns the ellipse about c with semi-axes rx along X and ry along Y as
// four cubics, counter-clockwise from its rightmost point. They pass outside the
// ellipse by up to 2.7253e-4 of the semi-axis.
func fourCubics(c plane.Point, rx, ry float64) plane.Path {
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

// starPath is a random outline that doesn't cross itself: seen from its middle, the
// angle only grows. Sides are lines, flat arcs and cubics in turn.
func starPath(rng *rand.Rand, c plane.Point, r float64, n int) plane.Path {
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

// segmentZoo returns segments of every kind, ordinary and awkward.
func segmentZoo() []plane.Segment {
	zoo := []plane.Segment{
		plane.LineSeg(plane.Pt(0, 0), plane.Pt(3, 4)),
		plane.LineSeg(plane.Pt(1, 1), plane.Pt(1, -5)),
		plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(10, 0), 1e-6),
		plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(10, 0), -0.3),
		plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(10, 2), 1),
		plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(1, 2), -3),
		plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(1, 2), 20),
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(10, 20), plane.Pt(30, 20), plane.Pt(40, 0)),
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(40, 20), plane.Pt(-10, 20), plane.Pt(30, 0)), // a loop
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(30, 20), plane.Pt(0, 20), plane.Pt(30, 0)),   // a cusp or nearly
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(0, 0), plane.Pt(5, 5), plane.Pt(10, 0)),      // no first handle
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(5, 5), plane.Pt(10, 0), plane.Pt(10, 0)),     // no last handle
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(20, 0), plane.Pt(30, 0)),    // straight
	}
	rng := rand.New(rand.NewSource(1))
	pt := func() plane.Point { return plane.Pt(rng.Float64()*100-50, rng.Float64()*100-50) }
	for range 20 {
		zoo = append(zoo, plane.BulgeSeg(pt(), pt(), math.Tan(rng.Float64()*3-1.5)), plane.CubicSeg(pt(), pt(), pt(), pt()))
	}
	return zoo
}

func distToPolyline(p plane.Point, pts []plane.Point) float64 {
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
