package intake

import (
	"math"

	"springrib/internal/plane"
)

// maxDegree is the highest degree of a spline that is read. Drawing programs stop
// at 25.
const maxDegree = 25

// spline is a B-spline curve, rational when it has weights.
type spline struct {
	degree  int
	knots   []float64
	ctrl    []plane.Point
	weights []float64 // one for each control point, or none
}

// valid reports whether s is a spline at all: as many knots as control points ask
// for, in rising order, and positive weights.
func (s spline) valid() bool {
	n := len(s.ctrl)
	if s.degree < 1 || s.degree > maxDegree || n <= s.degree || len(s.knots) != n+s.degree+1 ||
		len(s.weights) != 0 && len(s.weights) != n {
		return false
	}
	for i := 1; i < len(s.knots); i++ {
		if s.knots[i] < s.knots[i-1] {
			return false
		}
	}
	for _, w := range s.weights {
		if !(w > 1e-9 && w < 1e9) {
			return false
		}
	}
	return s.knots[n] > s.knots[s.degree]
}

// rational reports whether the weights differ.
func (s spline) rational() bool {
	for _, w := range s.weights {
		if math.Abs(w-s.weights[0]) > 1e-12*s.weights[0] {
			return true
		}
	}
	return false
}

func (s spline) cost() int { return len(s.ctrl) * (s.degree + 1) * (s.degree + 1) * (s.degree + 1) / 8 }

// draw draws s as lines, exact cubics, circular arcs where it is one, and otherwise
// cubics within accuracy.
func (s spline) draw(p *pen) {
	rational := s.rational()
	first := true
	for k := s.degree; k < len(s.ctrl) && !p.full() && !p.bad; k++ {
		if !(s.knots[k+1] > s.knots[k]) {
			continue
		}
		b := s.bezier(k, rational)
		if first {
			p.moveTo(b[0].flat())
			first = false
		}
		switch {
		case !rational && s.degree == 1:
			p.lineTo(b[1].flat())
		case !rational && s.degree == 2:
			p.quadTo(b[1].flat(), b[2].flat())
		case !rational && s.degree == 3:
			p.cubicTo(b[1].flat(), b[2].flat(), b[3].flat())
		default:
			p.bezierTo(b)
		}
	}
}

// weighted is a control point in homogeneous coordinates: place times weight.
type weighted struct{ x, y, w float64 }

func (q weighted) flat() plane.Point { return plane.Pt(q.x/q.w, q.y/q.w) }

func (q weighted) lerp(r weighted, f float64) weighted {
	return weighted{q.x + (r.x-q.x)*f, q.y + (r.y-q.y)*f, q.w + (r.w-q.w)*f}
}

// bezier returns the Bézier control points of s between knots k and k+1, as values
// of its blossom (Ramshaw, Blossoms are polar forms, Computer Aided Geometric Design
// 6, 1989): the j-th takes k+1 j times and k for the rest.
func (s spline) bezier(k int, rational bool) []weighted {
	n := s.degree
	out := make([]weighted, n+1)
	d := make([]weighted, n+1)
	for j := range out {
		for i := range d {
			c, w := s.ctrl[k-n+i], 1.0
			if rational {
				w = s.weights[k-n+i]
			}
			d[i] = weighted{c.X * w, c.Y * w, w}
		}
		for r := 1; r <= n; r++ {
			t := s.knots[k]
			if r <= j {
				t = s.knots[k+1]
			}
			for i := n; i >= r; i-- {
				lo, hi := s.knots[k-n+i], s.knots[k+i+1-r]
				d[i] = d[i-1].lerp(d[i], (t-lo)/(hi-lo))
			}
		}
		out[j] = d[n]
	}
	return out
}

// bezierTo draws a rational Bézier curve of any degree.
func (p *pen) bezierTo(b []weighted) {
	img := make([]weighted, len(b))
	for i, q := range b {
		f := p.m.Apply(q.flat())
		img[i] = weighted{f.X * q.w, f.Y * q.w, q.w}
		p.bad = p.bad || !finite(f)
	}
	if p.bad {
		return
	}
	p.at = b[len(b)-1].flat()
	if bulge, ok := conicBulge(img); ok {
		p.put(plane.BulgeSeg(p.last, img[2].flat(), bulge))
		return
	}
	p.fitBezier(img, 12)
}

// conicBulge recognises a rational quadratic that is part of a circle: its legs are
// equal and the middle weight is the cosine of half the turn, of either sign of
// parametrisation (Piegl & Tiller, The NURBS Book, 2nd ed. 1997, section 7.3).
func conicBulge(b []weighted) (bulge float64, ok bool) {
	if len(b) != 3 {
		return 0, false
	}
	u, v := b[1].flat().Sub(b[0].flat()), b[2].flat().Sub(b[1].flat())
	lu, lv := u.Len(), v.Len()
	turn := math.Atan2(u.Cross(v), u.Dot(v))
	w := b[1].w / math.Sqrt(b[0].w*b[2].w)
	if lu == 0 || math.Abs(lu-lv) > 1e-7*lu || math.Abs(turn) > 3 || math.Abs(w-math.Cos(turn/2)) > 1e-7 {
		return 0, false
	}
	return math.Tan(turn / 4), true
}

// fitBezier draws b, in mm, by cubics that share its ends and end derivatives, each
// half on its own where one isn't close enough.
func (p *pen) fitBezier(b []weighted, depth int) {
	if p.full() {
		return
	}
	n := len(b) - 1
	k := float64(n) / 3
	a, e := p.last, b[n].flat()
	c := a.Add(b[1].flat().Sub(b[0].flat()).Mul(k * b[1].w / b[0].w))
	d := e.Sub(b[n].flat().Sub(b[n-1].flat()).Mul(k * b[n-1].w / b[n].w))
	s := plane.CubicSeg(a, c, d, e)
	l, r := halves(b)
	if depth == 0 || follows(s, b, l, r) {
		p.put(s)
		return
	}
	p.fitBezier(l, depth-1)
	p.fitBezier(r, depth-1)
}

// follows reports whether s stays within accuracy of b, measured between points of
// equal parameter, which lie no nearer than the curves. l and r are the halves of b.
func follows(s plane.Segment, b, l, r []weighted) bool {
	for i := 1; i < 8; i++ {
		t := float64(i) / 8
		half, u := l, 2*t
		if t > 0.5 {
			half, u = r, 2*t-1
		}
		if s.Point(t).Dist(valueAt(half, u)) > accuracy {
			return false
		}
	}
	return true
}

// halves splits b at its middle (de Casteljau).
func halves(b []weighted) (l, r []weighted) {
	n := len(b)
	l, r = make([]weighted, n), append([]weighted(nil), b...)
	for i := range n {
		l[i] = r[0]
		for j := 0; j < n-1-i; j++ {
			r[j] = r[j].lerp(r[j+1], 0.5)
		}
	}
	return l, r
}

// valueAt returns the point of b at t (de Casteljau).
func valueAt(b []weighted, t float64) plane.Point {
	var buf [maxDegree + 1]weighted
	d := buf[:copy(buf[:], b)]
	for m := len(d) - 1; m > 0; m-- {
		for j := range m {
			d[j] = d[j].lerp(d[j+1], t)
		}
	}
	return d[0].flat()
}

// through returns the cubic spline with chord-length parameters through pts, its
// second derivative zero at ends without a given tangent (de Boor, A Practical Guide
// to Splines, 1978, chapter IV). Repeated points must have been left out.
func through(pts []plane.Point, start, end *plane.Point) []plane.Segment {
	n := len(pts) - 1
	if n < 1 {
		return nil
	}
	h := make([]float64, n) // chord lengths
	for i := range h {
		h[i] = pts[i].Dist(pts[i+1])
	}
	// Derivatives m at the points: lo m[i-1] + diag m[i] + up m[i+1] = rhs.
	diag, up, rhs := make([]float64, n+1), make([]float64, n+1), make([]plane.Point, n+1)
	slope := func(i int) plane.Point { return pts[i+1].Sub(pts[i]).Mul(1 / h[i]) }
	diag[0], up[0], rhs[0] = 2, 1, slope(0).Mul(3)
	if start != nil {
		up[0], diag[0], rhs[0] = 0, 1, start.Unit()
	}
	for i := 1; i <= n; i++ {
		var lo float64
		switch {
		case i < n:
			lo, diag[i], up[i] = h[i], 2*(h[i-1]+h[i]), h[i-1]
			rhs[i] = slope(i - 1).Mul(3 * h[i]).Add(slope(i).Mul(3 * h[i-1]))
		case end != nil:
			diag[i], rhs[i] = 1, end.Unit()
		default:
			lo, diag[i], rhs[i] = 1, 2, slope(n-1).Mul(3)
		}
		f := lo / diag[i-1]
		diag[i] -= f * up[i-1]
		rhs[i] = rhs[i].Sub(rhs[i-1].Mul(f))
	}
	m := rhs[n].Mul(1 / diag[n])
	out := make([]plane.Segment, n)
	for i := n - 1; i >= 0; i-- {
		m0 := rhs[i].Sub(m.Mul(up[i])).Mul(1 / diag[i])
		out[i] = plane.CubicSeg(pts[i], pts[i].Add(m0.Mul(h[i]/3)), pts[i+1].Sub(m.Mul(h[i]/3)), pts[i+1])
		m = m0
	}
	return out
}

// fitShape is a spline given by points on it.
type fitShape struct{ segs []plane.Segment }

func (s fitShape) cost() int { return len(s.segs) }

func (s fitShape) draw(p *pen) {
	for i, c := range s.segs {
		if i == 0 {
			p.moveTo(c.A)
		}
		p.cubicTo(c.C, c.D, c.B)
	}
}
