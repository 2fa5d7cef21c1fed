package plane

import "math"

// Area returns the area of r in mm², holes taken off.
func (r Region) Area() float64 {
	a := math.Abs(r.Outer.Area())
	for _, h := range r.Holes {
		a -= math.Abs(h.Area())
	}
	return a
}

// Box returns the smallest box that holds r.
func (r Region) Box() Box { return r.Outer.Box() }

// Paths returns the outline and the holes in one list, outline first.
func (r Region) Paths() []Path {
	return append([]Path{r.Outer}, r.Holes...)
}

// Apply returns the image of r under m, with the outline counter-clockwise again
// when m mirrors.
func (r Region) Apply(m Affine) Region {
	out := Region{Outer: r.Outer.Apply(m)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, h.Apply(m))
	}
	return out.Normal()
}

// Normal returns r with its outline counter-clockwise and its holes clockwise;
// paths that enclose nothing are left out of the holes.
func (r Region) Normal() Region {
	out := Region{Outer: r.Outer}
	if r.Outer.Area() < 0 {
		out.Outer = r.Outer.Reverse()
	}
	for _, h := range r.Holes {
		switch a := h.Area(); {
		case a > 0:
			h = h.Reverse()
		case a == 0:
			continue
		}
		out.Holes = append(out.Holes, h)
	}
	return out
}

// Contains reports whether p lies in r; points on an edge may fall either way.
func (r Region) Contains(p Point) bool {
	if !r.Outer.Contains(p) {
		return false
	}
	for _, h := range r.Holes {
		if h.Contains(p) {
			return false
		}
	}
	return true
}
