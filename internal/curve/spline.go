package curve

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"springrib/internal/plane"
	"springrib/internal/solve"
)

// MaxPoints is the largest number of points a spline takes.
const MaxPoints = 500

// ErrPoints says why a smooth curve can't be led through points.
type ErrPoints struct {
	Index int // of the point at fault, from 0; -1 when it is their number
	Why   string
}

func (e *ErrPoints) Error() string { return e.Why }

// Through returns the smooth curve through the points in order: the natural cubic
// spline over the lengths of the chords.
//
// It is the interpolating curve that a thin batten pinned at the points takes while
// its slopes against the chords stay small (Holladay 1957; Ahlberg, Nilson & Walsh,
// The Theory of Splines and Their Applications, 1967): continuous in curvature, and
// straight at both ends, so that it runs on into straight feet without a step of
// curvature. Taking the chords as parameter keeps the speed near one whatever the
// distances, so uneven points cause no loops; equal parameters would overshoot
// between near neighbours. A point that turns the way by more than a right angle
// still makes a tight bend beside it: the curve goes through every point at any cost.
//
// Points nearer than 1e-6 mm to the one before are an error, as are fewer than two and
// a way that turns back in a cusp. The error is an *ErrPoints.
func Through(pts ...plane.Point) (Curve, error) {
	if len(pts) < 2 {
		return Curve{}, &ErrPoints{-1, "a curve needs at least two points"}
	}
	if len(pts) > MaxPoints {
		return Curve{}, &ErrPoints{-1, fmt.Sprintf("a curve takes at most %d points", MaxPoints)}
	}
	t := make([]float64, len(pts))
	for i := 1; i < len(pts); i++ {
		d := pts[i].Dist(pts[i-1])
		if !(d > 1e-6) || math.IsInf(d, 0) {
			return Curve{}, &ErrPoints{i, "two points of the curve lie in the same place"}
		}
		t[i] = t[i-1] + d
	}
	sp := newSpline(t, pts)
	for i, c := range sp.spans {
		if c.slowest() < cuspSpeed {
			return Curve{}, &ErrPoints{i + 1, "the way turns back on itself here"}
		}
	}
	shapes := sp.stretches()
	if len(shapes) == 0 {
		return Curve{}, errors.New("curve: a spline without length")
	}
	return Join(shapes...), nil
}

// cubic is one span of a spline: c0 + c1 x + c2 x^2 + c3 x^3 for x from 0 to w.
type cubic struct {
	c0, c1, c2, c3 plane.Point
	w              float64
}

func (c cubic) at(x float64) plane.Point {
	return c.c0.Add(c.c1.Mul(x)).Add(c.c2.Mul(x * x)).Add(c.c3.Mul(x * x * x))
}

func (c cubic) d1(x float64) plane.Point {
	return c.c1.Add(c.c2.Mul(2 * x)).Add(c.c3.Mul(3 * x * x))
}

func (c cubic) d2(x float64) plane.Point { return c.c2.Mul(2).Add(c.c3.Mul(6 * x)) }

func (c cubic) kappa(x float64) float64 {
	d := c.d1(x)
	l := d.Len()
	return d.Cross(c.d2(x)) / (l * l * l)
}

// cuspSpeed is the speed, one along straight chords, below which a span has a cusp. The
// radius there is its square over the second derivative, which is about 6/w: less than
// w/15000.
const cuspSpeed = 0.02

// slowest returns the least speed: where c' and c” are square to each other, found by
// halving between the signs of thirty-two places, or at an end.
func (c cubic) slowest() float64 {
	least := math.Min(c.d1(0).Len(), c.d1(c.w).Len())
	gains := func(x float64) bool { return c.d1(x).Dot(c.d2(x)) > 0 }
	const n = 32
	for i := range n {
		a, b := c.w*float64(i)/n, c.w*float64(i+1)/n
		if gains(a) || !gains(b) {
			continue
		}
		for range 50 {
			if m := (a + b) / 2; gains(m) {
				b = m
			} else {
				a = m
			}
		}
		least = math.Min(least, c.d1(a).Len())
	}
	return least
}

// length integrates the speed from x0 to x1 with five points.
func (c cubic) length(x0, x1 float64) float64 {
	return solve.Gauss5(func(x float64) float64 { return c.d1(x).Len() }, x0, x1)
}

type spline struct{ spans []cubic }

// newSpline solves the tridiagonal system for the second derivatives at the points,
// zero at both ends (any text on numerical analysis: the natural spline).
func newSpline(t []float64, p []plane.Point) spline {
	n := len(p)
	m := make([]plane.Point, n) // second derivatives
	diag := make([]float64, n)
	for i := 1; i+1 < n; i++ {
		h0, h1 := t[i]-t[i-1], t[i+1]-t[i]
		rhs := p[i+1].Sub(p[i]).Mul(6 / h1).Sub(p[i].Sub(p[i-1]).Mul(6 / h0))
		diag[i] = 2 * (h0 + h1)
		if i > 1 {
			f := h0 / diag[i-1]
			diag[i] -= f * h0
			rhs = rhs.Sub(m[i-1].Mul(f))
		}
		m[i] = rhs
	}
	for i := n - 2; i > 0; i-- {
		m[i] = m[i].Sub(m[i+1].Mul(t[i+1] - t[i])).Mul(1 / diag[i])
	}
	var s spline
	for i := 0; i+1 < n; i++ {
		h := t[i+1] - t[i]
		s.spans = append(s.spans, cubic{
			c0: p[i],
			c1: p[i+1].Sub(p[i]).Mul(1 / h).Sub(m[i].Mul(2).Add(m[i+1]).Mul(h / 6)),
			c2: m[i].Mul(0.5),
			c3: m[i+1].Sub(m[i]).Mul(1 / (6 * h)),
			w:  h,
		})
	}
	return s
}

// stretches cuts the spline where its curvature changes sign.
func (s spline) stretches() []Shape {
	var out []Shape
	var now []piece
	sign := 0
	flush := func() {
		if len(now) > 0 {
			out = append(out, newSmooth(now, sign))
		}
		now, sign = nil, 0
	}
	for _, c := range s.spans {
		for _, x := range c.monotone() {
			pc := piece{c, x[0], x[1]}
			sg := pc.sign()
			if len(now) > 0 && sg != sign {
				flush()
			}
			sign = sg
			now = append(now, pc)
		}
	}
	flush()
	return out
}

// monotone cuts the span where its curvature passes zero: the roots of c' x c”, a
// quadratic since the cubic terms of the product cancel.
func (c cubic) monotone() [][2]float64 {
	a := 6 * c.c2.Cross(c.c3)
	b := 6 * c.c1.Cross(c.c3)
	k := 2 * c.c1.Cross(c.c2)
	cuts := []float64{0}
	roots, n := solve.Quadratic(a, b, k)
	for _, x := range roots[:n] {
		if x > 1e-9*c.w && x < c.w*(1-1e-9) {
			cuts = append(cuts, x)
		}
	}
	cuts = append(cuts, c.w)
	sort.Float64s(cuts)
	var out [][2]float64
	for i := 0; i+1 < len(cuts); i++ {
		if cuts[i+1]-cuts[i] > 1e-9*c.w {
			out = append(out, [2]float64{cuts[i], cuts[i+1]})
		}
	}
	return out
}

// piece is a part of a span, x0 to x1.
type piece struct {
	c      cubic
	x0, x1 float64
}

// smooth is a run of spline pieces without a change of sign of the curvature, by arc
// length. It is kept as knots of place, heading and curvature, with the quintic
// between them that meets all three at both: within (h/R)^6 R/46080 of the exact
// curve at a knot distance h and radius R, 1e-12 of the radius at the 0.05 rad that a
// knot distance turns.
type smooth struct {
	knots  []knot
	length float64
	sign   int
	k, ks  float64 // tightest, and where
}

// knot is the start of one quintic: place = sum of c[i] x^i, x = 0..1 over h mm.
type knot struct {
	s, h  float64
	phi   float64
	kappa float64
	c     [6]plane.Point
}

// knotTurn is about what the curve turns from knot to knot, rad.
const knotTurn = 0.05

func newSmooth(ps []piece, sign int) *smooth {
	var at []State // the states at all knots, each piece's last being the next one's first
	var ss []float64
	length := 0.0
	for _, p := range ps {
		lengths := p.lengths()
		l := lengths[parts]
		turn := math.Abs(math.Remainder(heading(p.c.d1(p.x1))-heading(p.c.d1(p.x0)), 2*math.Pi))
		n := min(max(4, int(math.Ceil(turn/knotTurn))), 400)
		for j := range n + 1 {
			if j == 0 && len(at) > 0 {
				continue
			}
			at = append(at, p.state(p.invert(lengths, l*float64(j)/float64(n))))
			ss = append(ss, length+l*float64(j)/float64(n))
		}
		length += l
	}
	return smoothThrough(at, ss, sign)
}

// Smooth returns the piece of curve that is in these states at arc lengths ss, the first of which is
// 0. It turns one way throughout, as sign says: +1 left, -1 right, 0 for a straight. Between two
// states it is the quintic that meets both in place, heading and curvature; they should lie no
// further apart than 0.05 rad of turning.
func Smooth(at []State, ss []float64, sign int) Shape {
	if len(at) < 2 || len(at) != len(ss) || ss[0] != 0 {
		panic("curve: a smooth piece needs two states and an arc length for each")
	}
	return smoothThrough(append([]State(nil), at...), ss, sign)
}

func smoothThrough(at []State, ss []float64, sign int) *smooth {
	m := &smooth{sign: sign, length: ss[len(ss)-1]}
	for i := range at {
		if i > 0 {
			at[i].Phi = at[i-1].Phi + math.Remainder(at[i].Phi-at[i-1].Phi, 2*math.Pi)
		}
		if sign == 0 || at[i].Kappa*float64(sign) < 0 { // straight, or rounding at an inflection
			at[i].Kappa = 0
		}
		if k := math.Abs(at[i].Kappa); k > m.k {
			m.k, m.ks = k, ss[i]
		}
	}
	for i := range len(at) - 1 {
		m.knots = append(m.knots, quintic(at[i], at[i+1], ss[i], ss[i+1]-ss[i]))
	}
	return m
}

// parts is how finely a piece is divided to measure it: five-point quadrature over an
// eighth of a span of moderate bend errs by less than 1e-12 of its length.
const parts = 8

// lengths returns the arc length up to each of the parts.
func (p piece) lengths() [parts + 1]float64 {
	var out [parts + 1]float64
	for j := range parts {
		out[j+1] = out[j] + p.c.length(p.x(j), p.x(j+1))
	}
	return out
}

func (p piece) x(j int) float64 { return p.x0 + (p.x1-p.x0)*float64(j)/parts }

// invert returns the parameter at arc length s by Newton's method within its part.
func (p piece) invert(lengths [parts + 1]float64, s float64) float64 {
	j := 0
	for j+1 < parts && lengths[j+1] <= s {
		j++
	}
	x0, x1 := p.x(j), p.x(j+1)
	x := x0 + (x1-x0)*(s-lengths[j])/(lengths[j+1]-lengths[j])
	for range 8 {
		step := (p.c.length(x0, x) - (s - lengths[j])) / p.c.d1(x).Len()
		x -= step
		if math.Abs(step) < 1e-14*p.c.w {
			break
		}
	}
	return x
}

func (p piece) state(x float64) State {
	return State{P: p.c.at(x), Phi: heading(p.c.d1(x)), Kappa: p.c.kappa(x)}
}

// quintic returns the quintic over h mm with the places, unit tangents and curvature
// vectors of a and b at its ends.
func quintic(a, b State, s, h float64) knot {
	d0, d1 := a.Tangent().Mul(h), b.Tangent().Mul(h)
	e0, e1 := a.Tangent().Left().Mul(a.Kappa*h*h), b.Tangent().Left().Mul(b.Kappa*h*h)
	k := knot{s: s, h: h, phi: a.Phi, kappa: a.Kappa}
	k.c[0], k.c[1], k.c[2] = a.P, d0, e0.Mul(0.5)
	// The rest makes up the ends' differences in place, slope and bend.
	p := b.P.Sub(a.P).Sub(d0).Sub(e0.Mul(0.5))
	v := d1.Sub(d0).Sub(e0)
	w := e1.Sub(e0)
	k.c[3] = p.Mul(10).Sub(v.Mul(4)).Add(w.Mul(0.5))
	k.c[4] = p.Mul(-15).Add(v.Mul(7)).Sub(w)
	k.c[5] = p.Mul(6).Sub(v.Mul(3)).Add(w.Mul(0.5))
	return k
}

func heading(d plane.Point) float64 { return math.Atan2(d.Y, d.X) }

func (m *smooth) Length() float64 { return m.length }

func (m *smooth) At(s float64) State {
	p, d, kappa, phi := m.at(s)
	return State{P: p, Phi: phi + math.Remainder(heading(d)-phi, 2*math.Pi), Kappa: kappa}
}

func (m *smooth) Kappa(s float64) float64 {
	_, _, kappa, _ := m.at(s)
	return kappa
}

// at returns the place, a vector along the tangent, the curvature and a heading nearby.
func (m *smooth) at(s float64) (p, d plane.Point, kappa, near float64) {
	i := sort.Search(len(m.knots), func(i int) bool { return m.knots[i].s > s }) - 1
	k := &m.knots[max(i, 0)]
	x := (s - k.s) / k.h
	c := &k.c
	var e plane.Point
	p = c[5]
	for j := 4; j >= 0; j-- { // Horner for the place and twice its derivatives
		e = e.Mul(x).Add(d)
		d = d.Mul(x).Add(p)
		p = p.Mul(x).Add(c[j])
	}
	if m.sign != 0 {
		l := d.Len()
		if kappa = 2 * d.Cross(e) / (l * l * l); kappa*float64(m.sign) < 0 {
			kappa = 0
		}
	}
	return p, d, kappa, k.phi
}

// toward returns the step from s to the foot of p on the circle that the curve follows at
// s, at most a tenth of its radius, and the height of p over that foot, positive to the
// left.
func (m *smooth) toward(p plane.Point, s float64) (step, height float64) {
	at, t, k, _ := m.at(s)
	t = t.Unit()
	v := p.Sub(at)
	along, up := v.Dot(t), t.Cross(v)
	if k == 0 {
		return along, up
	}
	sin, cos := k*along, 1-k*up
	if cos < 0.1 {
		step = along / 0.1
	} else {
		step = math.Atan(sin/cos) / k
	}
	lim := math.Abs(0.1 / k)
	return clamp(step, -lim, lim), (2*up - k*v.Dot(v)) / (1 + math.Sqrt(sin*sin+cos*cos))
}

func clamp(x, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, x)) }

func (m *smooth) Tightest() (float64, float64) { return m.k, m.ks }

// Parallel returns the parallel as knots of its own: at each the place, heading and
// curvature are exact, k/(1 - d k), and its arc length is s - d (phi - phi(0)), so that
// it is as near between as the curve itself.
func (m *smooth) Parallel(d float64) Shape {
	if d == 0 {
		return m
	}
	out := &smooth{sign: m.sign}
	var last State
	lastS := 0.0
	for i := range len(m.knots) + 1 {
		var at State
		s := m.length
		if i < len(m.knots) {
			k := m.knots[i]
			at, s = State{k.c[0], k.phi, k.kappa}, k.s
		} else {
			at = m.At(m.length)
		}
		s -= d * (at.Phi - m.knots[0].phi)
		at = State{at.P.Add(at.Tangent().Left().Mul(d)), at.Phi, at.Kappa / (1 - d*at.Kappa)}
		if k := math.Abs(at.Kappa); k > out.k {
			out.k, out.ks = k, s
		}
		if i > 0 {
			out.knots = append(out.knots, quintic(last, at, lastS, s-lastS))
		}
		last, lastS = at, s
	}
	out.length = lastS
	return out
}
