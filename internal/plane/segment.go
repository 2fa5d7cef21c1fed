package plane

import (
	"math"

	"springrib/internal/solve"
)

// Sweep returns the angle that an arc turns through, in (-2 pi, 2 pi), positive
// counter-clockwise; 0 for other kinds.
func (s Segment) Sweep() float64 {
	if s.Kind != Arc {
		return 0
	}
	return 4 * math.Atan2(s.Bulge, 1)
}

// Centre returns the centre and radius of an arc. A straight segment (or an arc of
// bulge 0) has an infinite radius and no usable centre.
func (s Segment) Centre() (c Point, r float64) {
	b := s.Bulge
	if s.Kind != Arc || b == 0 {
		return s.A.Lerp(s.B, 0.5), math.Inf(1)
	}
	ch := s.B.Sub(s.A)
	c = s.A.Lerp(s.B, 0.5).Add(ch.Left().Mul((1/b - b) / 4))
	return c, ch.Len() * math.Abs(b+1/b) / 4
}

// ArcGeometry returns centre, radius, start angle and sweep of an arc, the
// arguments that ArcSeg takes: ArcSeg(c, r, a0, a0+sweep).
func (s Segment) ArcGeometry() (c Point, r, a0, sweep float64) {
	c, r = s.Centre()
	v := s.A.Sub(c)
	return c, r, math.Atan2(v.Y, v.X), s.Sweep()
}

// Point returns the point at parameter t in [0, 1]: by length for lines and arcs,
// by the Bézier parameter for cubics. Both ends are exact.
func (s Segment) Point(t float64) Point {
	switch {
	case t == 0:
		return s.A
	case t == 1:
		return s.B
	case s.Kind == Arc && s.Bulge != 0:
		// The chord from A to the point, from the chord to B: no far-off centre enters.
		half := s.Sweep() / 2
		k := math.Sin(half*t) / math.Sin(half)
		return s.A.Add(turn(s.B.Sub(s.A), half*(t-1)).Mul(k))
	case s.Kind == Cubic:
		u := 1 - t
		a, c, d, b := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		return Point{a*s.A.X + c*s.C.X + d*s.D.X + b*s.B.X, a*s.A.Y + c*s.C.Y + d*s.D.Y + b*s.B.Y}
	}
	return s.A.Lerp(s.B, t)
}

// Deriv returns the first derivative by t, mm per unit of t.
func (s Segment) Deriv(t float64) Point {
	ch := s.B.Sub(s.A)
	switch {
	case s.Kind == Arc && s.Bulge != 0:
		half := s.Sweep() / 2
		return turn(ch, half*(2*t-1)).Mul(half / math.Sin(half))
	case s.Kind == Cubic:
		u := 1 - t
		p, q, r := s.C.Sub(s.A), s.D.Sub(s.C), s.B.Sub(s.D)
		a, b, c := 3*u*u, 6*u*t, 3*t*t
		return Point{a*p.X + b*q.X + c*r.X, a*p.Y + b*q.Y + c*r.Y}
	}
	return ch
}

// Deriv2 returns the second derivative by t.
func (s Segment) Deriv2(t float64) Point {
	switch {
	case s.Kind == Arc && s.Bulge != 0:
		return s.Deriv(t).Left().Mul(s.Sweep())
	case s.Kind == Cubic:
		p := s.A.Add(s.D).Sub(s.C.Mul(2))
		q := s.C.Add(s.B).Sub(s.D.Mul(2))
		return p.Lerp(q, t).Mul(6)
	}
	return Point{}
}

// Tangent returns the unit tangent at t. Where the derivative of a cubic vanishes
// it is the limit from inside the segment; a segment of no length gives zero.
func (s Segment) Tangent(t float64) Point {
	d := s.Deriv(t)
	if s.Kind != Cubic {
		return d.Unit()
	}
	size := math.Max(s.C.Dist(s.A), math.Max(s.D.Dist(s.A), s.B.Dist(s.A)))
	if d.Len() > 1e-9*size {
		return d.Unit()
	}
	if d2 := s.Deriv2(t); d2.Len() > 1e-6*size {
		if t > 0.5 {
			return d2.Mul(-1).Unit()
		}
		return d2.Unit()
	}
	return s.B.Sub(s.A).Unit()
}

// Curvature returns the signed curvature at t, 1/mm, positive when turning left;
// infinite at a cusp.
func (s Segment) Curvature(t float64) float64 {
	if s.Kind == Line || s.Kind == Arc && s.Bulge == 0 {
		return 0
	}
	if s.Kind == Arc {
		return s.Sweep() / s.Length()
	}
	d := s.Deriv(t)
	l := d.Len()
	return d.Cross(s.Deriv2(t)) / (l * l * l)
}

// Reverse returns s run from B to A.
func (s Segment) Reverse() Segment {
	return Segment{Kind: s.Kind, A: s.B, B: s.A, C: s.D, D: s.C, Bulge: -s.Bulge}
}

// Split returns the part of s from parameter t0 to t1, 0 <= t0 <= t1 <= 1.
func (s Segment) Split(t0, t1 float64) Segment {
	a, b := s.Point(t0), s.Point(t1)
	switch s.Kind {
	case Arc:
		return Segment{Kind: Arc, A: a, B: b, Bulge: math.Tan(s.Sweep() * (t1 - t0) / 4)}
	case Cubic:
		k := (t1 - t0) / 3
		return CubicSeg(a, a.Add(s.Deriv(t0).Mul(k)), b.Sub(s.Deriv(t1).Mul(k)), b)
	}
	return LineSeg(a, b)
}

// Apply returns the image of s under m; ok is false for an arc that would become
// part of an ellipse, which Segment can't hold (Path.Apply turns it into cubics).
func (s Segment) Apply(m Affine) (image Segment, ok bool) {
	image = Segment{Kind: s.Kind, A: m.Apply(s.A), B: m.Apply(s.B), Bulge: s.Bulge}
	switch s.Kind {
	case Arc:
		if m.Det() < 0 {
			image.Bulge = -s.Bulge
		}
		return image, m.similar()
	case Cubic:
		image.C, image.D = m.Apply(s.C), m.Apply(s.D)
	}
	return image, true
}

// Cubics returns s as cubics: itself for a cubic, and for an arc pieces of at most
// 45 degrees, which pass outside it by at most 4.25e-6 of the radius.
func (s Segment) Cubics() []Segment {
	switch s.Kind {
	case Cubic:
		return []Segment{s}
	case Line:
		return []Segment{CubicSeg(s.A, s.A.Lerp(s.B, 1./3), s.A.Lerp(s.B, 2./3), s.B)}
	}
	n := math.Ceil(math.Abs(s.Sweep())/(math.Pi/4) - 1e-9)
	n = math.Max(n, 1)
	out := make([]Segment, 0, int(n))
	a := s.A
	for i := range int(n) {
		t0, t1 := float64(i)/n, float64(i+1)/n
		b := s.Point(t1)
		// Handles of 4/3 tan(sweep/4) radii put the middle of the cubic on the arc.
		sw := s.Sweep() / n
		k := 4. / 3 / n
		if sw != 0 {
			k = 4. / 3 * math.Tan(sw/4) / s.Sweep()
		}
		out = append(out, CubicSeg(a, a.Add(s.Deriv(t0).Mul(k)), b.Sub(s.Deriv(t1).Mul(k)), b))
		a = b
	}
	return out
}

// Box returns the smallest box that holds s.
func (s Segment) Box() Box {
	b := EmptyBox()
	b.hold(&s)
	return b
}

// hold makes b hold s.
func (b *Box) hold(s *Segment) {
	b.add(s.A)
	b.add(s.B)
	if s.Kind == Line || s.Kind == Cubic && b.Contains(s.C) && b.Contains(s.D) {
		return // a cubic keeps within its four points
	}
	if s.Kind == Cubic {
		b.holdTurns(s, Point{0, 1})
		b.holdTurns(s, Point{1, 0})
		return
	}
	for _, t := range s.extrema(Point{0, 1}) {
		b.add(Point{s.A.X, s.Point(t).Y})
	}
	for _, t := range s.extrema(Point{1, 0}) {
		b.add(Point{s.Point(t).X, s.A.Y})
	}
}

// holdTurns makes b hold the places where the cubic s turns back along n, an axis.
func (b *Box) holdTurns(s *Segment, n Point) {
	ts, count := s.cubicTurns(n)
	for _, t := range ts[:count] {
		if t > 0 && t < 1 {
			p := s.Point(t)
			b.add(Point{s.A.X + (p.X-s.A.X)*n.X, s.A.Y + (p.Y-s.A.Y)*n.Y})
		}
	}
}

// cubicTurns returns the parameters, in rising order, where a cubic turns back along n.
func (s Segment) cubicTurns(n Point) (ts [2]float64, count int) {
	a, b, c := s.C.Sub(s.A).Dot(n), s.D.Sub(s.C).Dot(n), s.B.Sub(s.D).Dot(n)
	return solve.Quadratic(a-2*b+c, 2*(b-a), a)
}

// extrema returns in rising order the parameters strictly inside (0, 1) where s
// turns back along direction n, so that it is monotone between them.
func (s Segment) extrema(n Point) []float64 {
	switch {
	case s.Kind == Arc && s.Bulge != 0:
		return s.arcExtrema(n)
	case s.Kind == Cubic:
		var in []float64
		ts, count := s.cubicTurns(n)
		for _, t := range ts[:count] {
			if t > 0 && t < 1 {
				in = append(in, t)
			}
		}
		return in
	}
	return nil
}

func (s Segment) arcExtrema(n Point) []float64 {
	sw := s.Sweep()
	d := s.Deriv(0)
	// The angle from the tangent to the line square to n, in the sense of the sweep.
	w := math.Atan2(d.Cross(n.Left()), d.Dot(n.Left()))
	if sw < 0 {
		w, sw = -w, -sw
	}
	for w > 0 {
		w -= math.Pi
	}
	var in []float64
	for ; w < sw; w += math.Pi {
		if t := w / sw; t > 0 && t < 1 {
			in = append(in, t)
		}
	}
	return in
}

// turn returns p turned counter-clockwise by angle radians.
func turn(p Point, angle float64) Point {
	s, c := math.Sin(angle), math.Cos(angle)
	return Point{c*p.X - s*p.Y, s*p.X + c*p.Y}
}
