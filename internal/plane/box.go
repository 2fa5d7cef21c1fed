package plane

import "math"

// BoxOf returns the smallest box that holds the points.
func BoxOf(pts ...Point) Box {
	b := EmptyBox()
	for _, p := range pts {
		b = b.Add(p)
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
	return Box{
		Point{math.Min(b.Min.X, p.X), math.Min(b.Min.Y, p.Y)},
		Point{math.Max(b.Max.X, p.X), math.Max(b.Max.Y, p.Y)},
	}
}

// Union returns the smallest box that holds b and c.
func (b Box) Union(c Box) Box {
	if c.Empty() {
		return b
	}
	return b.Add(c.Min).Add(c.Max)
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
