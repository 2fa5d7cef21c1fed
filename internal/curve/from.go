package curve

import (
	"fmt"
	"math"

	"springrib/internal/plane"
)

// FromPath returns the curve that runs along an open or closed path: lines and arcs as
// they are, cubics by arc length, cut where their curvature changes sign. Corners of
// the path are kinks of the curve. Segments without length are left out; a path
// without any is an *ErrPoints.
func FromPath(p plane.Path) (Curve, error) {
	var shapes []Shape
	var run []piece
	sign := 0
	flush := func() {
		if len(run) > 0 {
			shapes = append(shapes, newSmooth(run, sign))
		}
		run = nil
	}
	for _, s := range p.Segs {
		if s.Kind != plane.Cubic {
			flush()
			if a, ok := fromSegment(s); ok {
				shapes = append(shapes, a)
			}
			continue
		}
		for _, pc := range fromCubic(s) {
			sg := pc.sign()
			if len(run) > 0 && (sg != sign || kinked(run[len(run)-1], pc)) {
				flush()
			}
			sign = sg
			run = append(run, pc)
		}
	}
	flush()
	if len(shapes) == 0 {
		return Curve{}, &ErrPoints{-1, "this path has no length"}
	}
	return Join(shapes...), nil
}

func fromSegment(s plane.Segment) (arc, bool) {
	l := s.Length()
	if l < 1e-9 {
		return arc{}, false
	}
	kappa := s.Curvature(0)
	if math.Abs(kappa)*l < straight { // along its chord
		return newArc(State{P: s.A, Phi: heading(s.B.Sub(s.A)), Kappa: 0}, s.A.Dist(s.B)), true
	}
	return newArc(State{P: s.A, Phi: heading(s.Tangent(0)), Kappa: kappa}, l), true
}

// fromCubic returns the pieces of a Bézier segment between its inflections, in powers
// of t. Ends where a control point falls on its end point start a hair inside, where
// the direction is defined.
func fromCubic(s plane.Segment) []piece {
	c := cubic{
		c0: s.A,
		c1: s.C.Sub(s.A).Mul(3),
		c2: s.A.Sub(s.C.Mul(2)).Add(s.D).Mul(3),
		c3: s.B.Sub(s.A).Add(s.C.Mul(3)).Sub(s.D.Mul(3)),
		w:  1,
	}
	var out []piece
	for _, x := range c.monotone() {
		if c.d1(x[0]).Len() == 0 {
			x[0] += 1e-9
		}
		if c.d1(x[1]).Len() == 0 {
			x[1] -= 1e-9
		}
		out = append(out, piece{c, x[0], x[1]})
	}
	return out
}

// straight is the turn, rad, of a piece that counts as straight: its radius is more than ten
// million times its size.
const straight = 1e-7

// sign returns which way the piece turns, 0 where it is straight.
func (p piece) sign() int {
	mid := p.c.kappa((p.x0 + p.x1) / 2)
	if math.Abs(mid)*p.c.at(p.x1).Dist(p.c.at(p.x0)) < straight {
		return 0
	}
	return int(math.Copysign(1, mid))
}

// kinked tells whether the heading steps from the end of a to the start of b.
func kinked(a, b piece) bool {
	u, v := a.c.d1(a.x1), b.c.d1(b.x0)
	return math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) > 1e-6
}

// Ellipse returns the closed ellipse of semi-axes a and b about the origin, from the
// lowest point round to the left or to the right. It is laid of 64 cubics, within
// 2e-11 of the larger axis of the exact one.
func Ellipse(a, b float64, left bool) Curve {
	if !(a > 0) || !(b > 0) {
		panic(fmt.Sprintf("curve: ellipse of semi-axes %v and %v", a, b))
	}
	const n = 64
	way := 1.0
	if !left {
		way = -1
	}
	at := func(i int) (p, d plane.Point) {
		t := way*2*math.Pi*float64(i)/n - math.Pi/2
		cos, sin := math.Cos(t), math.Sin(t)
		return plane.Pt(a*cos, b*sin), plane.Pt(-a*sin, b*cos).Mul(way)
	}
	h := 4.0 / 3 * math.Tan(math.Pi/2/n)
	var path plane.Path
	for i := range n {
		p, d := at(i)
		q, e := at(i + 1)
		path.Segs = append(path.Segs, plane.CubicSeg(p, p.Add(d.Mul(h)), q.Sub(e.Mul(h)), q))
	}
	c, err := FromPath(path)
	if err != nil {
		panic(err)
	}
	return c
}

// Closed tells whether the curve ends where it begins, heading as it began.
func (c Curve) Closed() bool {
	if c.length == 0 {
		return false
	}
	a, b := c.At(0), c.At(c.length)
	return a.P.Dist(b.P) < 1e-6 && math.Abs(math.Remainder(b.Phi-a.Phi, 2*math.Pi)) < 1e-6
}

// RoundedBox returns the closed outline of a box of the given width and height with
// corner radius r, at most half the shorter side, as pieces from the middle of the
// bottom side, turning right all the way or, with left, left. A radius of half the
// shorter side makes an oval of two half circles and two straights.
func RoundedBox(width, height, r float64, left bool) []Piece {
	r = math.Min(r, math.Min(width, height)/2)
	k := 1 / r
	if !left {
		k = -k
	}
	quarter := Piece{math.Pi / 2 * r, k}
	w, h := width-2*r, height-2*r
	return []Piece{{w / 2, 0}, quarter, {h, 0}, quarter, {w, 0}, quarter, {h, 0}, quarter, {w / 2, 0}}
}
