package plane

import "math"

// BoxOf returns the smallest box that holds the points.
func BoxOf(pts ...Point) Box {
	b := EmptyBox()
	for _, p := range pts {
		b.add(p)
	}
	return b
}

// Empty reports whether b holds nothing.
func (b Box) Empty() bool { return !(b.Min.X <= b.Max.X && b.Min.Y <= b.Max.Y) }

// W returns the width of b; 0 when empty.
func (b Box) W() float64 { return math.Max(0, b.Max.X-b.Min.X) }

// H returns the height of b; 0 when empty.
func (b Box) H() float64 { return math.Max(0, b.Max.Y-b.Min.Y) }

// Centre returns the middle of b.
func (b Box) Centre() Point { return b.Min.Lerp(b.Max, 0.5) }

// Add returns the smallest box that holds b and p.
func (b Box) Add(p Point) Box {
	b.add(p)
	return b
}

// add makes b hold p. Comparing is several times faster than math.Min and math.Max where
// these are calls, as they are in wasm.
func (b *Box) add(p Point) {
	if p.X < b.Min.X {
		b.Min.X = p.X
	}
	if p.X > b.Max.X {
		b.Max.X = p.X
	}
	if p.Y < b.Min.Y {
		b.Min.Y = p.Y
	}
	if p.Y > b.Max.Y {
		b.Max.Y = p.Y
	}
}

// Union returns the smallest box that holds b and c.
func (b Box) Union(c Box) Box {
	if c.Empty() {
		return b
	}
	b.add(c.Min)
	b.add(c.Max)
	return b
}

// Grow returns b with each side moved out by d. An empty box stays empty, and a
// negative d may make it so.
func (b Box) Grow(d float64) Box {
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}}
}

// Overlaps reports whether b and c share a point; touching counts.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Contains reports whether p lies in b or on its edge.
func (b Box) Contains(p Point) bool {
	return b.Min.X <= p.X && p.X <= b.Max.X && b.Min.Y <= p.Y && p.Y <= b.Max.Y
}

// ContainsBox reports whether all of c lies in b.
func (b Box) ContainsBox(c Box) bool {
	return c.Empty() || b.Contains(c.Min) && b.Contains(c.Max)
}

// Distance returns the distance of p from b; 0 inside.
func (b Box) Distance(p Point) float64 {
	dx := max(0, max(b.Min.X-p.X, p.X-b.Max.X))
	dy := max(0, max(b.Min.Y-p.Y, p.Y-b.Max.Y))
	return math.Sqrt(dx*dx + dy*dy)
}

// BoxLevels builds a tree of boxes: box k of a level holds boxes 2k and 2k+1 of the
// one before.
func BoxLevels(level []Box) [][]Box {
	out := [][]Box{level}
	for len(level) > 1 {
		up := make([]Box, (len(level)+1)/2)
		for i := range up {
			up[i] = level[2*i]
			if 2*i+1 < len(level) {
				up[i] = up[i].Union(level[2*i+1])
			}
		}
		out = append(out, up)
		level = up
	}
	return out
}
