package plane

import "math"

// Start returns the first point of p; the zero Point when p is empty.
func (p Path) Start() Point {
	if len(p.Segs) == 0 {
		return Point{}
	}
	return p.Segs[0].A
}

// End returns the last point of p; the zero Point when p is empty.
func (p Path) End() Point {
	if len(p.Segs) == 0 {
		return Point{}
	}
	return p.Segs[len(p.Segs)-1].B
}

// Length returns the length of p in mm, to 1e-12 of itself.
func (p Path) Length() float64 {
	sum := 0.0
	for _, s := range p.Segs {
		sum += s.Length()
	}
	return sum
}

// Box returns the smallest box that holds p, by the exact extremes of its pieces.
func (p Path) Box() Box {
	b := EmptyBox()
	for i := range p.Segs {
		b.hold(&p.Segs[i])
	}
	return b
}

// Reverse returns p run backwards.
func (p Path) Reverse() Path {
	n := len(p.Segs)
	out := Path{Segs: make([]Segment, n), Closed: p.Closed}
	for i, s := range p.Segs {
		out.Segs[n-1-i] = s.Reverse()
	}
	return out
}

// Apply returns the image of p under m. Arcs stay arcs when m keeps shapes,
// mirrored or not; otherwise they become cubics within 4.25e-6 of their radius
// (before m). A closed path keeps its sense of travel in the pieces' order, so that
// mirroring turns a counter-clockwise path clockwise: see Region.Apply.
func (p Path) Apply(m Affine) Path {
	out := Path{Segs: make([]Segment, 0, len(p.Segs)), Closed: p.Closed}
	for _, s := range p.Segs {
		if t, ok := s.Apply(m); ok {
			out.Segs = append(out.Segs, t)
			continue
		}
		for _, c := range s.Cubics() {
			t, _ := c.Apply(m)
			out.Segs = append(out.Segs, t)
		}
	}
	return out
}

// At returns the point of p at length l from its start and the unit tangent there.
// l is clamped to the path; at a corner the tangent is that of the piece that
// begins there. It panics when p is empty.
func (p Path) At(l float64) (at, tangent Point) {
	last := len(p.Segs) - 1
	for i, s := range p.Segs {
		n := s.Length()
		if l < n || i == last {
			t := s.ParamAt(l)
			return s.Point(t), s.Tangent(t)
		}
		l -= n
	}
	panic("plane: At of an empty path")
}

// Flatten returns points of p, first and last included, whose polyline is within
// tol of p. A closed path ends with its start.
func (p Path) Flatten(tol float64) []Point {
	if len(p.Segs) == 0 {
		return nil
	}
	pts := []Point{p.Segs[0].A}
	for _, s := range p.Segs {
		pts = s.flatten(pts, tol)
	}
	return pts
}

// flatten appends points of s after A.
func (s Segment) flatten(pts []Point, tol float64) []Point {
	switch {
	case s.Kind == Arc && s.Bulge != 0:
		_, r := s.Centre()
		// A chord over angle w stands off by r (1 - cos w/2) = 2 r sin^2 w/4.
		w := 4 * math.Asin(math.Min(1, math.Sqrt(tol/(2*r))))
		n := math.Max(1, math.Ceil(math.Abs(s.Sweep())/w-1e-9))
		for i := 1; i < int(n); i++ {
			pts = append(pts, s.Point(float64(i)/n))
		}
	case s.Kind == Cubic:
		return s.flattenCubic(pts, tol, 24)
	}
	return append(pts, s.B)
}

// flattenCubic halves until the chord is within tol: it stands off by at most an
// eighth of the largest second derivative, 6/8 of the larger second difference of
// the control points.
func (s Segment) flattenCubic(pts []Point, tol float64, depth int) []Point {
	m := math.Max(s.A.Add(s.D).Sub(s.C.Mul(2)).Len(), s.C.Add(s.B).Sub(s.D.Mul(2)).Len())
	if 0.75*m <= tol || depth == 0 {
		return append(pts, s.B)
	}
	l, r := s.halve()
	return r.flattenCubic(l.flattenCubic(pts, tol, depth-1), tol, depth-1)
}

// halve splits a cubic at its middle (de Casteljau).
func (s Segment) halve() (l, r Segment) {
	ac, cd, db := s.A.Lerp(s.C, .5), s.C.Lerp(s.D, .5), s.D.Lerp(s.B, .5)
	p, q := ac.Lerp(cd, .5), cd.Lerp(db, .5)
	m := p.Lerp(q, .5)
	return CubicSeg(s.A, ac, p, m), CubicSeg(m, q, db, s.B)
}
