package export

import (
	"math"

	"springrib/internal/plane"
)

// arcsOf returns arcs and lines within tol mm of the cubic s, tangent to it at
// every joint: a biarc where one is close enough, else each half in turn.
//
// A biarc is two arcs that meet smoothly and have the end points and end tangents
// of the curve; here the one with tangent lengths of equal size. Bolton, "Biarc
// curves", Computer-Aided Design 7 (1975), from memory. plane.Fit finds fewer arcs,
// but takes some 15 ms for a hard cubic where this takes 0.4, and a sheet may have
// thousands.
func arcsOf(s plane.Segment, tol float64) []plane.Segment {
	return appendArcs(nil, s, tol)
}

func appendArcs(out []plane.Segment, s plane.Segment, tol float64) []plane.Segment {
	// A piece no longer than the tolerance is a line; it also ends the halving at a
	// cusp, where no arc has the tangents.
	if s.A.Dist(s.C)+s.C.Dist(s.D)+s.D.Dist(s.B) <= tol {
		return append(out, plane.LineSeg(s.A, s.B))
	}
	if arcs, ok := biarc(s); ok && near(arcs, s, tol) {
		return append(out, arcs[0], arcs[1])
	}
	return appendArcs(appendArcs(out, s.Split(0, 0.5), tol), s.Split(0.5, 1), tol)
}

// biarc returns the two arcs for s; ok is false where none of moderate turn exists.
func biarc(s plane.Segment) (arcs [2]plane.Segment, ok bool) {
	u, v, w := s.Tangent(0), s.Tangent(1), s.B.Sub(s.A)
	// With control points A + d u and B - d v a distance 2 d apart:
	// d^2 (2 - 2 u·v) + 2 d w·(u+v) - w·w = 0.
	a, b, c := 2-2*u.Dot(v), 2*w.Dot(u.Add(v)), w.Dot(w)
	var d float64
	switch {
	case a > 1e-9:
		d = 2 * c / (b + math.Sqrt(b*b+4*a*c)) // the positive root, without cancelling
	case b > 1e-9:
		d = c / b
	default:
		return arcs, false
	}
	if d > 4*s.A.Dist(s.B) { // more than about a half turn
		return arcs, false
	}
	p, q := s.A.Add(u.Mul(d)), s.B.Sub(v.Mul(d))
	m := p.Lerp(q, 0.5)
	return [2]plane.Segment{tangentArc(s.A, u, m), tangentArc(m, q.Sub(p), s.B)}, true
}

// tangentArc returns the arc from a to b that leaves a along t.
func tangentArc(a, t, b plane.Point) plane.Segment {
	chord := b.Sub(a)
	half := math.Atan2(t.Cross(chord), t.Dot(chord)) // half the turn
	return plane.Segment{Kind: plane.Arc, A: a, B: b, Bulge: math.Tan(half / 2)}
}

// near reports whether s and arcs stay within tol of each other, looked at from 32
// places of s and 8 of each arc. Smooth pieces with common tangents at both ends
// have no room to stray in between.
func near(arcs [2]plane.Segment, s plane.Segment, tol float64) bool {
	const n = 32
	var at [n + 1]plane.Point
	for i := range at {
		at[i] = s.Point(float64(i) / n)
		if min(awayFromArc(arcs[0], at[i]), awayFromArc(arcs[1], at[i])) > tol {
			return false
		}
	}
	for _, a := range arcs {
		for i := 1; i < 9; i++ {
			if p := a.Point(float64(i) / 9); awayFromCubic(s, at[:], p) > tol {
				return false
			}
		}
	}
	return true
}

// awayFromArc returns how far p is from the arc (or line) s.
func awayFromArc(s plane.Segment, p plane.Point) float64 {
	ends := min(p.Dist(s.A), p.Dist(s.B))
	if math.Abs(s.Bulge) < 1e-9 {
		u, v := s.B.Sub(s.A), p.Sub(s.A)
		if f := u.Dot(v); f <= 0 || f >= u.Dot(u) {
			return ends
		}
		return math.Abs(u.Unit().Cross(v))
	}
	// p is beside the arc if the arc turns past its direction from the centre.
	c, r := s.Centre()
	a, v := s.A.Sub(c), p.Sub(c)
	turn := math.Atan2(a.Cross(v), a.Dot(v))
	if s.Bulge < 0 {
		turn = -turn
	}
	if turn < 0 {
		turn += 2 * math.Pi
	}
	if turn > math.Abs(s.Sweep()) {
		return ends
	}
	return math.Abs(v.Len() - r)
}

// awayFromCubic returns how far p is from s, of which places at equal steps are at:
// from the nearest of them, closing in by thirds.
func awayFromCubic(s plane.Segment, at []plane.Point, p plane.Point) float64 {
	best := 0
	for i := range at {
		if p.Dist(at[i]) < p.Dist(at[best]) {
			best = i
		}
	}
	n := float64(len(at) - 1)
	lo, hi := math.Max(0, float64(best)-1)/n, math.Min(n, float64(best)+1)/n
	for range 24 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if p.Dist(s.Point(a)) < p.Dist(s.Point(b)) {
			hi = b
		} else {
			lo = a
		}
	}
	return p.Dist(s.Point((lo + hi) / 2))
}
