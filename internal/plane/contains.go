package plane

import (
	"math"

	"springrib/internal/solve"
)

// Contains reports whether the closed path p runs round q, by its winding number.
// Points on the path itself may fall either way; an open path contains nothing.
func (p Path) Contains(q Point) bool { return p.Closed && p.Winding(q) != 0 }

// Winding returns how often p runs counter-clockwise round q, by the signed
// crossings of the ray from q along +X. A piece that is monotone in Y counts when q
// lies in its half-open range of Y, so that each vertex is counted once.
func (p Path) Winding(q Point) int {
	w := 0
	for _, s := range p.Segs {
		w += s.crossings(q)
	}
	return w
}

func (s Segment) crossings(q Point) int {
	if s.Kind == Line {
		return s.crossing(0, 1, s.A.Y, s.B.Y, q)
	}
	w, t0, y0 := 0, 0.0, s.A.Y
	for _, t := range s.extrema(Point{0, 1}) {
		y := s.Point(t).Y
		w += s.crossing(t0, t, y0, y, q)
		t0, y0 = t, y
	}
	return w + s.crossing(t0, 1, y0, s.B.Y, q)
}

// crossing is the part of crossings over the monotone stretch [t0, t1].
func (s Segment) crossing(t0, t1, y0, y1 float64, q Point) int {
	if (y0 <= q.Y) == (y1 <= q.Y) {
		return 0
	}
	t := s.solve(t0, t1, Point{0, 1}, q.Y)
	if s.Point(t).X <= q.X {
		return 0
	}
	if y1 > y0 {
		return 1
	}
	return -1
}

// solve returns the parameter in [t0, t1], over which s is monotone along n, where
// s reaches level along n. The level must lie between the levels of the ends.
func (s Segment) solve(t0, t1 float64, n Point, level float64) float64 {
	f0, f1 := s.Point(t0).Dot(n)-level, s.Point(t1).Dot(n)-level
	if f0 == f1 {
		return t0
	}
	if s.Kind == Line {
		return solve.Clamp(t0+(t1-t0)*f0/(f0-f1), t0, t1)
	}
	rising := f1 > f0
	t := solve.Clamp(t0+(t1-t0)*f0/(f0-f1), t0, t1)
	for range 80 {
		f := s.Point(t).Dot(n) - level
		if f == 0 || t1-t0 <= 1e-15 {
			break
		}
		if (f < 0) == rising {
			t0 = t
		} else {
			t1 = t
		}
		next := t - f/s.Deriv(t).Dot(n)
		if !(next > t0 && next < t1) {
			next = (t0 + t1) / 2
		}
		if math.Abs(next-t) <= 1e-15 {
			return next
		}
		t = next
	}
	return t
}
