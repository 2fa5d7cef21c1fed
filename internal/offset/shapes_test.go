package offset

import (
	"math"
	"math/rand"
	"strings"
	"testing"

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

// kindsOf writes a path's kinds as letters: line, arc, cubic.
func kindsOf(p plane.Path) string {
	s := ""
	for _, x := range p.Segs {
		s += "lac"[x.Kind : x.Kind+1]
	}
	return s
}

func ellipsePoints(a, b float64, n int) []plane.Point {
	pts := make([]plane.Point, n)
	for i := range pts {
		w := 2 * math.Pi * float64(i) / float64(n)
		pts[i] = plane.Pt(a*math.Cos(w), b*math.Sin(w))
	}
	return pts
}

func checkFinite(t *testing.T, p plane.Path) {
	t.Helper()
	for _, s := range p.Segs {
		for _, v := range []float64{s.A.X, s.A.Y, s.B.X, s.B.Y, s.C.X, s.C.Y, s.D.X, s.D.Y, s.Bulge} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%v in %v", v, p)
			}
		}
	}
}

// mustRegion reads an outline and then its holes.
func mustRegion(text string) plane.Region {
	r := plane.Region{}
	for i, one := range strings.Split(strings.TrimPrefix(text, "M "), " M ") {
		if p := plane.MustParse("M " + one); i == 0 {
			r.Outer = p
		} else {
			r.Holes = append(r.Holes, p)
		}
	}
	return r.Normal()
}
