package plane

import "math"

// Area returns the area that p encloses in mm², positive when p runs
// counter-clockwise, by Green's theorem: exact for lines, arcs and cubics. An open
// path is closed by a chord.
func (p Path) Area() float64 {
	if len(p.Segs) == 0 {
		return 0
	}
	// Taken about the start, so that a far-off origin costs no digits.
	o, sum := p.Segs[0].A, 0.0
	for _, s := range p.Segs {
		sum += s.A.Sub(o).Cross(s.B.Sub(o))/2 + s.bow()
	}
	return sum
}

// IsCCW reports whether the closed path p runs counter-clockwise.
func (p Path) IsCCW() bool { return p.Area() > 0 }

// bow returns the signed area between s and its chord: positive when s bows to the
// right of the chord, as the counter-clockwise arc does.
func (s Segment) bow() float64 {
	ch := s.B.Sub(s.A)
	switch {
	case s.Kind == Arc && s.Bulge != 0:
		w := s.Sweep()
		h := math.Sin(w / 2)
		return ch.Dot(ch) / (8 * h * h) * angleLessSine(w)
	case s.Kind == Cubic:
		c, d := s.C.Sub(s.A), s.D.Sub(s.A)
		return (3*c.Cross(d) + 3*c.Cross(ch) + 6*d.Cross(ch)) / 20
	}
	return 0
}

// angleLessSine returns w - sin w without cancellation.
func angleLessSine(w float64) float64 {
	if math.Abs(w) > 0.25 {
		return w - math.Sin(w)
	}
	q := w * w // series; the next term is under 1e-16 of the sum
	return w * q / 6 * (1 - q/20*(1-q/42*(1-q/72*(1-q/110))))
}

// Centroid returns the centre of gravity of the area that p encloses, exact up to
// the flattening of curves at 1e-6 of the size of p. It panics when the area is 0.
func (p Path) Centroid() Point {
	b := p.Box()
	pts := p.Flatten(1e-6 * math.Max(b.W(), b.H()))
	o, sum, a := p.Start(), Point{}, 0.0
	for i := 1; i < len(pts); i++ {
		u, v := pts[i-1].Sub(o), pts[i].Sub(o)
		c := u.Cross(v)
		sum, a = sum.Add(u.Add(v).Mul(c)), a+c
	}
	if a == 0 {
		panic("plane: Centroid of no area")
	}
	return o.Add(sum.Mul(1 / (3 * a)))
}
