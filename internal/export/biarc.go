package export

import (
	"math"

	"springrib/internal/plane"
)

// arcsOf returns arcs and lines within tol mm of the cubic s, tangent to it at
// every joint: a biarc where one is close enough, else each half in turn.
//
// fit.Fit finds fewer arcs, but takes some 15 ms for a hard cubic where this takes 0.4,
// and a sheet may have thousands.
func arcsOf(s plane.Segment, tol float64) []plane.Segment {
	return appendArcs(nil, s, tol)
}

func appendArcs(out []plane.Segment, s plane.Segment, tol float64) []plane.Segment {
	// A piece no longer than the tolerance is a line; it also ends the halving at a
	// cusp, where no arc has the tangents.
	if s.A.Dist(s.C)+s.C.Dist(s.D)+s.D.Dist(s.B) <= tol {
		return append(out, plane.LineSeg(s.A, s.B))
	}
	first, second, ok := plane.Biarc(s.A, s.Tangent(0), s.B, s.Tangent(1))
	if ok && near([2]plane.Segment{first, second}, s, tol) {
		return append(out, first, second)
	}
	return appendArcs(appendArcs(out, s.Split(0, 0.5), tol), s.Split(0.5, 1), tol)
}

// near reports whether s and arcs stay within tol of each other, looked at from 32
// places of s and 8 of each arc. Smooth pieces with common tangents at both ends
// have no room to stray in between.
func near(arcs [2]plane.Segment, s plane.Segment, tol float64) bool {
	const n = 32
	var at [n + 1]plane.Point
	for i := range at {
		at[i] = s.Point(float64(i) / n)
		if min(arcs[0].Distance(at[i]), arcs[1].Distance(at[i])) > tol {
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
