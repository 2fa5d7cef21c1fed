package plane

import (
	"math"

	"springrib/internal/solve"
)

// Meeting is a common point of two segments, with its parameter on each.
type Meeting struct {
	At     Point
	TA, TB float64
}

// MeetSlack is how far beyond the end of a line or arc, in mm, a meeting still counts:
// well above the rounding of meetings of curves a few metres wide.
const MeetSlack = 1e-8

// Meetings returns the common points of two lines or arcs, at most two. Where they
// lie on each other over a length it returns none.
func Meetings(a, b Segment) []Meeting {
	var at []Point
	la, lb := a.Kind == Line || a.Bulge == 0, b.Kind == Line || b.Bulge == 0
	switch {
	case la && lb:
		at = meetLines(a, b)
	case la:
		at = meetLineArc(a, b)
	case lb:
		at = meetLineArc(b, a)
	default:
		at = meetArcs(a, b)
	}
	var out []Meeting
	for _, p := range at {
		ta, oka := a.paramOf(p)
		tb, okb := b.paramOf(p)
		if oka && okb {
			out = append(out, Meeting{p, ta, tb})
		}
	}
	return out
}

func meetLines(a, b Segment) []Point {
	u, v := a.B.Sub(a.A), b.B.Sub(b.A)
	den := u.Cross(v)
	if math.Abs(den) <= 1e-14*u.Len()*v.Len() {
		return nil
	}
	return []Point{a.A.Add(u.Mul(b.A.Sub(a.A).Cross(v) / den))}
}

func meetLineArc(l, arc Segment) []Point {
	c, r := arc.Centre()
	u := l.B.Sub(l.A).Unit()
	foot := l.A.Add(u.Mul(c.Sub(l.A).Dot(u)))
	h := c.Sub(l.A).Cross(u)
	d := (r - math.Abs(h)) * (r + math.Abs(h))
	if d < 0 {
		if d > -MeetSlack*r { // touching, to rounding
			return []Point{foot}
		}
		return nil
	}
	w := u.Mul(math.Sqrt(d))
	return []Point{foot.Sub(w), foot.Add(w)}
}

func meetArcs(a, b Segment) []Point {
	ca, ra := a.Centre()
	cb, rb := b.Centre()
	v := cb.Sub(ca)
	d := v.Len()
	if d < 1e-12*(ra+rb) {
		return nil
	}
	u := v.Mul(1 / d)
	x := (d + (ra-rb)*(ra+rb)/d) / 2 // from ca along u to the common chord
	q := (ra - x) * (ra + x)
	foot := ca.Add(u.Mul(x))
	if q < 0 {
		if q > -MeetSlack*ra {
			return []Point{foot}
		}
		return nil
	}
	w := u.Left().Mul(math.Sqrt(q))
	return []Point{foot.Sub(w), foot.Add(w)}
}

// paramOf returns the parameter of a point that lies on the carrier of a line or arc;
// ok is false beyond its ends.
func (s Segment) paramOf(p Point) (t float64, ok bool) {
	switch {
	case p.Dist(s.A) <= MeetSlack:
		return 0, true
	case p.Dist(s.B) <= MeetSlack:
		return 1, true
	case s.Kind == Line || s.Bulge == 0:
		u := s.B.Sub(s.A)
		t = p.Sub(s.A).Dot(u) / u.Dot(u)
	default:
		// The turn from A-p to p-B is half the sweep for p on the arc, and half the
		// sweep less pi beyond; the angle at the centre is twice that at A.
		u, v, ch := p.Sub(s.A), s.B.Sub(p), s.B.Sub(s.A)
		half := s.Sweep() / 2
		if math.Abs(math.Atan2(u.Cross(v), u.Dot(v))-half) > 1e-3+math.Pi/2 {
			return 0, false
		}
		if u.Dot(u) > v.Dot(v) { // from the farther end, where the angle is sharp
			t = 1 + math.Atan2(ch.Cross(u), ch.Dot(u))/half
		} else {
			t = math.Atan2(ch.Cross(v), ch.Dot(v)) / half
		}
	}
	return t, t > 0 && t < 1
}

// Distance returns the distance of p from s, a line or an arc; of a cubic, from its chord.
func (s Segment) Distance(p Point) float64 {
	if s.Kind != Arc || s.Bulge == 0 {
		return LineDistance(p, s.A, s.B)
	}
	c, r := s.Centre()
	v := p.Sub(c)
	l := v.Len()
	ends := min(p.Dist(s.A), p.Dist(s.B))
	if l == 0 {
		return r
	}
	if _, on := s.paramOf(c.Add(v.Mul(r / l))); on {
		return min(ends, math.Abs(l-r))
	}
	return ends
}

// LineDistance returns the distance of p from the straight piece from a to b.
func LineDistance(p, a, b Point) float64 {
	u, v := b.Sub(a), p.Sub(a)
	l := u.Dot(u)
	if l == 0 {
		return v.Len()
	}
	f := solve.Clamp(v.Dot(u)/l, 0, 1)
	w := v.Sub(u.Mul(f))
	return math.Sqrt(w.Dot(w))
}
