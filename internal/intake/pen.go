package intake

import (
	"math"
	"slices"

	"springrib/internal/plane"
)

// joined is the distance in mm below which the two ends of a path are one point: a
// file written with four decimals can't say more.
const joined = 1e-4

// pen draws paths in the coordinates of an element and keeps them in mm. Lines,
// circular arcs and cubics stay what they are; parts of ellipses become cubics.
type pen struct {
	m     plane.Affine // from the element to mm, Y up
	room  int          // segments that may still be drawn
	bad   bool         // something was not finite or too far off
	paths []plane.Path // finished

	segs      []plane.Segment
	start, at plane.Point // in the element
	last      plane.Point // image of at
}

// full reports whether the drawing has outgrown MaxSegments.
func (p *pen) full() bool { return p.room < 0 }

func (p *pen) moveTo(q plane.Point) {
	p.lift()
	p.start, p.at, p.last = q, q, p.m.Apply(q)
}

// lift ends the path as drawn so far. It counts as closed when it ends where it
// started.
func (p *pen) lift() {
	if len(p.segs) == 0 {
		return
	}
	path := plane.Path{Segs: p.segs}
	p.segs = nil
	if n := len(path.Segs); path.Start().Dist(path.End()) <= joined && path.Box().W()+path.Box().H() > 4*joined {
		path.Segs[n-1].B = path.Segs[0].A
		path.Closed = true
	}
	p.paths = append(p.paths, path)
}

// close draws back to the start and ends the path.
func (p *pen) close() {
	if n := len(p.segs); n > 0 {
		switch d := p.last.Dist(p.segs[0].A); {
		case d > joined:
			p.put(plane.LineSeg(p.last, p.segs[0].A))
		case d > 0:
			p.segs[n-1].B = p.segs[0].A
		}
		p.paths = append(p.paths, plane.Path{Segs: p.segs, Closed: true})
		p.segs = nil
	}
	p.at, p.last = p.start, p.m.Apply(p.start)
}

// put appends a segment in mm, leaving out what has no length.
func (p *pen) put(s plane.Segment) {
	p.room--
	b := s.B
	for _, q := range [4]plane.Point{s.A, s.B, s.C, s.D} {
		if !(math.Abs(q.X) <= farthest && math.Abs(q.Y) <= farthest) {
			p.bad = true
		}
	}
	point := s.A == s.B && (s.Kind != plane.Cubic || s.C == s.A && s.D == s.A)
	if p.full() || p.bad || point {
		return
	}
	if s.Kind == plane.Arc && s.Bulge == 0 {
		s.Kind = plane.Line
	}
	if n := len(p.segs); n >= 256 && n == cap(p.segs) { // from there on append grows by a quarter, and copies a long path five times over
		p.segs = slices.Grow(p.segs, n)
	}
	p.segs = append(p.segs, s)
	p.last = b
}

func (p *pen) lineTo(q plane.Point) {
	p.at = q
	p.put(plane.LineSeg(p.last, p.m.Apply(q)))
}

func (p *pen) cubicTo(c, d, q plane.Point) {
	p.at = q
	p.put(plane.CubicSeg(p.last, p.m.Apply(c), p.m.Apply(d), p.m.Apply(q)))
}

// quadTo draws a quadratic Bézier, raised to a cubic exactly.
func (p *pen) quadTo(c, q plane.Point) {
	p.cubicTo(p.at.Lerp(c, 2./3), q.Lerp(c, 2./3), q)
}

// bulgeTo draws a circular arc.
func (p *pen) bulgeTo(q plane.Point, bulge float64) {
	if bulge == 0 || p.at == q {
		p.lineTo(q)
		return
	}
	s := plane.BulgeSeg(p.at, q, bulge)
	c, r, a0, sweep := s.ArcGeometry()
	if !(r < farthest*farthest) {
		p.lineTo(q)
		return
	}
	p.ellipseTo(ellipse{c, plane.Pt(r, 0), plane.Pt(0, r)}, a0, sweep, q)
}

// ellipse is the image of the unit circle: centre + u cos t + v sin t.
type ellipse struct{ centre, u, v plane.Point }

func (e ellipse) point(t float64) plane.Point {
	return e.centre.Add(e.u.Mul(math.Cos(t))).Add(e.v.Mul(math.Sin(t)))
}

func (e ellipse) deriv(t float64) plane.Point {
	return e.v.Mul(math.Cos(t)).Sub(e.u.Mul(math.Sin(t)))
}

// round reports whether e is a circle: within 1e-9 of its size, which is far below
// what any file writes and far above rounding.
func (e ellipse) round() bool {
	uu, vv := e.u.Dot(e.u), e.v.Dot(e.v)
	return math.Abs(uu-vv) <= 1e-9*uu && math.Abs(e.u.Dot(e.v)) <= 1e-9*uu
}

// ellipseTo draws the part of e from parameter t0 on over sweep, which must start
// at the current point and end at q.
func (p *pen) ellipseTo(e ellipse, t0, sweep float64, q plane.Point) {
	p.at = q
	end := p.m.Apply(q)
	img := ellipse{p.m.Apply(e.centre), p.m.ApplyVector(e.u), p.m.ApplyVector(e.v)}
	if !finite(img.centre, img.u, img.v, end) || math.IsNaN(t0) || math.Abs(sweep) > 7 {
		p.bad = true
		return
	}
	round := img.round()
	n := pieces(img, sweep, round)
	step := sweep / float64(n)
	for i := 1; i <= n; i++ {
		t := t0 + sweep*float64(i)/float64(n)
		b := end
		if i < n {
			b = img.point(t)
		}
		if round {
			bulge := math.Tan(step / 4)
			if img.u.Cross(img.v) < 0 {
				bulge = -bulge
			}
			p.put(plane.BulgeSeg(p.last, b, bulge))
			continue
		}
		k := 4. / 3 * math.Tan(step/4)
		p.put(plane.CubicSeg(p.last, p.last.Add(img.deriv(t-step).Mul(k)), b.Sub(img.deriv(t).Mul(k)), b))
	}
}

// pieces returns how many segments hold a sweep of e: arcs of at most half a turn,
// or cubics within accuracy. A cubic over 90 degrees is off by 2.7253e-4 of the
// radius (computed), and the error falls with the sixth power of the angle.
func pieces(e ellipse, sweep float64, round bool) int {
	if round {
		return max(1, int(math.Ceil(math.Abs(sweep)/math.Pi-1e-9)))
	}
	size := math.Max(e.u.Len(), e.v.Len()) * math.Sqrt2 // at least the longer semi-axis
	per90 := math.Max(1, math.Sqrt(math.Cbrt(2.7253e-4*size/accuracy)))
	return max(1, int(math.Ceil(math.Abs(sweep)/(math.Pi/2)*per90-1e-9)))
}

// wholeEllipse draws e closed, starting at parameter 0.
func (p *pen) wholeEllipse(e ellipse) {
	q := e.centre.Add(e.u)
	p.moveTo(q)
	p.ellipseTo(e, 0, 2*math.Pi, q)
	p.close()
}

func finite(pts ...plane.Point) bool {
	for _, p := range pts {
		if !(math.Abs(p.X) <= math.MaxFloat64 && math.Abs(p.Y) <= math.MaxFloat64) {
			return false
		}
	}
	return true
}
