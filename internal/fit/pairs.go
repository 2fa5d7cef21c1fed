package fit

import (
	"math"

	"springrib/internal/plane"
)

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
func (r *run) biarcAt(i, j int) (first, second plane.Segment, k int) {
	first, second, ok := plane.Biarc(r.p[i], r.t[i], r.p[j], r.t[j])
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
