package intake

import (
	"math"

	"springrib/internal/plane"
)

// shape is what an entity draws, in its own coordinates (object coordinates seen
// from above, where an entity has them).
type shape interface {
	draw(p *pen)
	// cost is how much work drawing is, in the unit of maxWork.
	cost() int
}

type lineShape struct{ a, b plane.Point }

func (s lineShape) cost() int { return 1 }

func (s lineShape) draw(p *pen) {
	p.moveTo(s.a)
	p.lineTo(s.b)
}

// arcShape is part of an ellipse, or all of one when sweep is a whole turn.
type arcShape struct {
	ellipse
	from, sweep float64 // radians
}

func (s arcShape) cost() int { return 4 }

func (s arcShape) draw(p *pen) {
	if s.sweep >= 2*math.Pi-1e-9 {
		if s.from != 0 { // starts at its own parameter, so that a break in it stays put
			s.u, s.v = s.point(s.from).Sub(s.centre), s.deriv(s.from)
		}
		p.wholeEllipse(s.ellipse)
		return
	}
	p.moveTo(s.point(s.from))
	p.ellipseTo(s.ellipse, s.from, s.sweep, s.point(s.from+s.sweep))
}

// newArc returns the circular arc from one angle on counter-clockwise to another,
// both in degrees; equal angles make a circle.
func newArc(c plane.Point, r, from, to float64) shape {
	sweep := math.Mod(to-from, 360)
	if sweep <= 0 {
		sweep += 360
	}
	return arcShape{ellipse{c, plane.Pt(r, 0), plane.Pt(0, r)}, math.Mod(from, 360) * math.Pi / 180, sweep * math.Pi / 180}
}

// newEllipse returns the ellipse (or part between two parameters in radians) with
// the given major axis and ratio of the axes, in a plane of normal n.
func newEllipse(c, major, n vec3, ratio, from, to float64) shape {
	minor := n.cross(major)
	sweep := math.Mod(to-from, 2*math.Pi)
	if sweep <= 1e-9 {
		sweep += 2 * math.Pi
	}
	return arcShape{ellipse{c.flat(), major.flat(), minor.flat().Mul(ratio)}, math.Mod(from, 2*math.Pi), sweep}
}

// vertex is a corner of a polyline with the bulge of the piece that starts there.
type vertex struct {
	at    plane.Point
	bulge float64
}

type polyShape struct {
	pts    []vertex
	closed bool
}

func (s polyShape) cost() int { return len(s.pts) }

func (s polyShape) draw(p *pen) {
	if len(s.pts) == 0 {
		return
	}
	p.moveTo(s.pts[0].at)
	p.segs = make([]plane.Segment, 0, min(len(s.pts)+1, max(0, p.room)))
	for i := 1; i < len(s.pts); i++ {
		p.bulgeTo(s.pts[i].at, s.pts[i-1].bulge)
	}
	if s.closed {
		if last := s.pts[len(s.pts)-1]; last.bulge != 0 && last.at != s.pts[0].at {
			p.bulgeTo(s.pts[0].at, last.bulge)
		}
		p.close()
	}
}
