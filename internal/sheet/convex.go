package sheet

import (
	"slices"

	"springrib/internal/plane"
)

// convex is a convex polygon, counter-clockwise from its lowest point (the leftmost
// of these). It may be a single point or a stretch of two.
type convex []plane.Point

// hull returns the convex hull of the points by Andrew's monotone chain (Andrew,
// "Another efficient algorithm for convex hulls in two dimensions", Information
// Processing Letters 9(5), 1979).
func hull(pts []plane.Point) convex {
	p := slices.Clone(pts)
	slices.SortFunc(p, lower)
	p = slices.Compact(p)
	if len(p) < 3 {
		return p
	}
	turnLeft := func(h convex, base int, q plane.Point) convex {
		for len(h) >= base+2 && h[len(h)-1].Sub(h[len(h)-2]).Cross(q.Sub(h[len(h)-1])) <= 0 {
			h = h[:len(h)-1]
		}
		return append(h, q)
	}
	var h convex
	for _, q := range p {
		h = turnLeft(h, 0, q)
	}
	top := len(h) - 1
	for i := len(p) - 2; i >= 0; i-- {
		h = turnLeft(h, top, p[i])
	}
	return h[:len(h)-1]
}

// tidy leaves out vertices that stand off what remains by no more than rounding, so
// that every edge left has a direction worth the name: sum goes by these.
func (c convex) tidy() convex {
	b := plane.BoxOf(c...)
	slight := 1e-10 * (b.W() + b.H())
	out := slices.Clone(c)
	for i := 0; i < len(out) && len(out) > 1; {
		n := len(out)
		prev, next := out[(i+n-1)%n], out[(i+1)%n]
		e := edge{prev, next}
		if out[i].Dist(prev) > slight && (n == 2 || e.a == e.b || e.dist(out[i]) > slight) {
			i++
			continue
		}
		out = slices.Delete(out, i, i+1)
		i = max(0, i-1)
	}
	return out.apply(plane.Identity())
}

// lower orders points from the bottom up, then from the left.
func lower(a, b plane.Point) int {
	switch {
	case a.Y != b.Y:
		return sign(a.Y - b.Y)
	default:
		return sign(a.X - b.X)
	}
}

func sign(x float64) int {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}

// area returns the area of c.
func (c convex) area() float64 {
	a := 0.0
	for i := 2; i < len(c); i++ {
		a += c[i-1].Sub(c[0]).Cross(c[i].Sub(c[0]))
	}
	return a / 2
}

// apply returns the image of c under a map that does not mirror.
func (c convex) apply(m plane.Affine) convex {
	out := make(convex, len(c))
	low := 0
	for i, p := range c {
		out[i] = m.Apply(p)
		if lower(out[i], out[low]) < 0 {
			low = i
		}
	}
	return slices.Concat(out[low:], out[:low])
}

// sum returns the Minkowski sum of a and b, by merging their edges in order of
// direction (de Berg et al., Computational Geometry, 3rd ed., theorem 13.5).
func sum(a, b convex) convex {
	out := make(convex, 0, len(a)+len(b))
	edge := func(c convex, i int) plane.Point { return c[(i+1)%len(c)].Sub(c[i%len(c)]) }
	i, j := 0, 0
	for i < len(a) || j < len(b) {
		out = append(out, a[i%len(a)].Add(b[j%len(b)]))
		turn := edge(a, i).Cross(edge(b, j))
		switch {
		case j == len(b) || len(b) == 1:
			i, j = i+1, len(b)
		case i == len(a) || len(a) == 1:
			i, j = len(a), j+1
		default:
			// Both run from direction 0 to 2 pi: once one is in its upper turn and the
			// other is not, the cross product alone misleads.
			if ha, hb := half(edge(a, i)), half(edge(b, j)); ha != hb {
				turn = float64(hb - ha)
			}
			if turn >= 0 {
				i++
			}
			if turn <= 0 {
				j++
			}
		}
	}
	return out
}

// half tells whether the direction lies in [0, pi), 0, or in [pi, 2 pi), 1.
func half(d plane.Point) int {
	if d.Y > 0 || d.Y == 0 && d.X > 0 {
		return 0
	}
	return 1
}
