package sheet

import (
	"math"
	"slices"
	"sort"

	"springrib/internal/plane"
)

// decompose covers what the closed rings enclose (even-odd rule) with convex
// pieces, exactly where the rings don't cross. It cuts the area into trapezoids
// between neighbouring vertices along each of a few directions, joins pieces whose
// union is convex, and keeps the direction that leaves the fewest; then it joins
// those that cost least area until there are at most limit.
func decompose(rings [][]plane.Point, limit int) []convex {
	var best []convex
	for _, angle := range []float64{0, math.Pi / 2, math.Pi / 4, 2.5} {
		turn, back := plane.Rotate(angle), plane.Rotate(-angle)
		parts := join(trapezoids(rings, turn), math.MaxInt)
		if best != nil && len(parts) >= len(best) {
			continue
		}
		best = parts
		for i, c := range parts {
			best[i] = c.apply(back)
		}
		if len(best) == 1 {
			break
		}
	}
	return join(best, limit)
}

// trapezoids cuts the area inside the rings, turned by m, at the x of each vertex.
// Where edges cross, the pieces cover more than the area, never less.
func trapezoids(rings [][]plane.Point, m plane.Affine) []convex {
	var edges []edge
	var xs []float64
	for _, r := range rings {
		for i, p := range r {
			e := edge{m.Apply(p), m.Apply(r[(i+1)%len(r)])}
			xs = append(xs, e.a.X)
			if e.a.X > e.b.X {
				e.a, e.b = e.b, e.a
			}
			if e.a.X < e.b.X {
				edges = append(edges, e)
			}
		}
	}
	slices.Sort(xs)
	xs = slices.Compact(xs)
	var out []convex
	for i := 1; i < len(xs); i++ {
		out = append(out, slab(edges, xs[i-1], xs[i])...)
	}
	return out
}

// slab returns the pieces between x0 and x1, where no vertex lies.
func slab(edges []edge, x0, x1 float64) []convex {
	at := func(e edge, x float64) plane.Point {
		switch x {
		case e.a.X:
			return e.a
		case e.b.X:
			return e.b
		}
		return plane.Pt(x, e.a.Y+(x-e.a.X)/(e.b.X-e.a.X)*(e.b.Y-e.a.Y))
	}
	var in []edge
	for _, e := range edges {
		if e.a.X <= x0 && e.b.X >= x1 {
			in = append(in, edge{at(e, x0), at(e, x1)})
		}
	}
	sort.SliceStable(in, func(i, j int) bool { return in[i].a.Y+in[i].b.Y-in[j].a.Y-in[j].b.Y < 0 })
	var out []convex
	for i := 1; i < len(in); i += 2 {
		out = append(out, hull([]plane.Point{in[i-1].a, in[i-1].b, in[i].a, in[i].b}))
	}
	return out
}

// join merges pieces as long as the hull of two is no larger than the two together,
// and then, while there are more than limit, whatever adds least area. Among equals
// the largest hull comes first, then the order of the pieces.
func join(parts []convex, limit int) []convex {
	j := newJoiner(parts)
	for {
		a, b := j.pick(j.left > limit)
		if a < 0 {
			break
		}
		j.merge(a, b)
	}
	var out []convex
	for i, c := range j.parts {
		if j.alive[i] {
			out = append(out, c.tidy())
		}
	}
	return out
}

// joiner keeps the hull area of every two pieces, so that a merger costs one row.
type joiner struct {
	parts  []convex
	areas  []float64
	boxes  []plane.Box
	alive  []bool
	hulls  []float64 // area of the hull of i and j < i at i*n+j; negative before it is asked for
	left   int
	slight float64 // an area that is nothing but rounding
}

func newJoiner(parts []convex) *joiner {
	n := len(parts)
	j := &joiner{parts: slices.Clone(parts), left: n, alive: make([]bool, n), hulls: make([]float64, n*n)}
	total := 0.0
	for i, c := range parts {
		j.areas = append(j.areas, c.area())
		j.boxes = append(j.boxes, plane.BoxOf(c...))
		j.alive[i] = true
		total += j.areas[i]
	}
	for i := range j.hulls {
		j.hulls[i] = -1
	}
	j.slight = 1e-11 * total
	return j
}

// pick returns the best two to merge, a > b, or -1. Unless any two will do
// (either), the merger must cost nothing.
func (j *joiner) pick(either bool) (a, b int) {
	a, b = -1, -1
	least, size := math.Inf(1), 0.0
	reach := 1e-6 * math.Sqrt(math.Abs(j.slight))
	for i := range j.parts {
		for k := 0; k < i && j.alive[i]; k++ {
			if !j.alive[k] || !either && !j.boxes[i].Grow(reach).Overlaps(j.boxes[k]) {
				continue
			}
			h := j.hull(i, k)
			add := math.Max(h-j.areas[i]-j.areas[k], j.slight)
			if !either && add > j.slight {
				continue
			}
			if add < least || add == least && h > size {
				a, b, least, size = i, k, add, h
			}
		}
	}
	return a, b
}

func (j *joiner) hull(a, b int) float64 {
	h := &j.hulls[a*len(j.parts)+b]
	if *h < 0 {
		*h = hull(slices.Concat(j.parts[a], j.parts[b])).area()
	}
	return *h
}

// merge puts the hull of a and b in the place of b.
func (j *joiner) merge(a, b int) {
	j.parts[b] = hull(slices.Concat(j.parts[a], j.parts[b]))
	j.areas[b], j.boxes[b] = j.parts[b].area(), plane.BoxOf(j.parts[b]...)
	j.alive[a] = false
	j.left--
	n := len(j.parts)
	for k := range n {
		j.hulls[b*n+k], j.hulls[k*n+b] = -1, -1
	}
}
