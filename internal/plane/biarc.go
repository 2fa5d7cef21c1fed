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

// biarc returns two arcs from sample i to j that have the source's tangents at their
// ends and one where they join, if they follow the samples within tol. The piece holds the first arc only; split adds the second.
func (r *run) biarc(i, j int, tol float64) (piece, bool) {
	for _, e := range r.exact {
		if e.i == i && e.j == j {
			return piece{i, j, e.seg, 0}, true
		}
	}
	// The joint falls between samples, where the deviation may be largest.
	near := r.between(i, j, 4)
	a, b := 0, len(near.p)-1
	first, second, k := near.biarcAt(a, b)
	if k < 0 {
		return piece{}, false
	}
	d0, ok0 := near.followsArc(first, a, k+1)
	d1, ok1 := near.followsArc(second, k, b)
	dev := math.Max(d0, d1)
	return piece{i, j, first, dev}, ok0 && ok1 && dev <= tol
}

// biarcAt returns the two arcs and the last sample before their joint, or -1.
func (r *run) biarcAt(i, j int) (first, second Segment, k int) {
	first, second, ok := Biarc(r.p[i], r.t[i], r.p[j], r.t[j])
	if !ok {
		return first, second, -1
	}
	m := first.B
	k = i
	for k+1 < j && r.p[k+1].Sub(m).Dot(r.t[k+1]) < 0 {
		k++
	}
	return first, second, k
}

// split returns the pieces with both arcs of each biarc.
func (r *run) split(pairs []piece) []piece {
	var out []piece
	for _, p := range pairs {
		if p.seg.B == r.p[p.j] {
			out = append(out, p)
			continue
		}
		first, second, k := r.biarcAt(p.i, p.j)
		out = append(out, piece{p.i, k, first, p.dev}, piece{k, p.j, second, p.dev})
	}
	return out
}
