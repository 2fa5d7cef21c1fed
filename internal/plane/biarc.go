package plane

import "math"

// Biarc returns two arcs from a to b that leave a along the unit vector t0, reach b along
// t1 and meet smoothly:
//
//	a ----- . d t0      The corners a + d t0 and b - d t1 are 2 d apart, and the arcs
//	         \           meet in the middle between them:
//	          m
//	           \             2 d^2 (1 - t0.t1) + 2 d v.(t0+t1) - v.v = 0,   v = b - a
//	     -d t1  . ---- b
//
// Of all such pairs it is the one whose tangents are equally long at both ends (Bolton,
// Biarc curves, CAD 7, 1975, from memory). ok is false where there is none.
func Biarc(a, t0, b, t1 Point) (first, second Segment, ok bool) {
	v := b.Sub(a)
	q, half, c := 2*(1-t0.Dot(t1)), v.Dot(t0.Add(t1)), v.Dot(v)
	den := half + math.Sqrt(half*half+q*c) // the positive root, without cancelling
	if !(den > 0) || c == 0 {
		return first, second, false
	}
	d := c / den
	m := a.Add(t0.Mul(d)).Lerp(b.Sub(t1.Mul(d)), 0.5)
	return ArcTangent(a, t0, m), ArcTangent(b, t1.Mul(-1), m).Reverse(), true
}
