package fit

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/solve"
)

// Cubic pieces. Ends and end tangents are given; the two handle lengths are found by
// least squares of the deviation along the normals of the source. Each sample is
// matched with the point of the cubic on its normal (the measure that Tiller &
// Hanson, Offsets of two-dimensional profiles, IEEE Computer Graphics & Applications
// 4(9), 1984, use), so that the parametrisation of the source plays no part; matching
// and solving alternate (Gauss-Newton; Hoschek, Intrinsic parametrization for
// approximation, CAGD 5, 1988). For the last part of the way the samples are weighted
// by their deviation so that the largest shrinks (Lawson's method; Rice, The
// Approximation of Functions, vol. 2, 1969).

// Thresholds of the search for one cubic. None of them decides what is accepted: that
// every sample lies within the tolerance does (follows). They only say when to go on, so a
// wrong one costs time or pieces, never closeness.
const (
	// fitSamples is how many samples steer a cubic; all of them judge it. Four freedoms
	// need at least four; five to each catch every wave that a cubic can have.
	fitSamples = 20
	// mostRounds of matching and solving: matching settles in three or four, the others
	// are for the weights to level the deviation. With fewer, pieces that could just be
	// reached are cut in two.
	mostRounds = 9
	// settled is the part of the tolerance that is as good as none: what lies between the
	// samples is not seen any finer (sampleSlack).
	settled = sampleSlack
	// lastGain: a cubic within tolerance is done when a round leaves more than this of the
	// deviation. Without it each piece takes all its rounds.
	lastGain = 0.97
	// farOff after two rounds and halfway after four, in tolerances, are hopeless: matching
	// divides the deviation by three or more a round while it works, and the weights give
	// about a factor of two at most. Without them the search for the longest piece, which
	// mostly fails, takes all rounds each time.
	farOff, halfway = 30, 2
	// nearly there, in tolerances, the weights begin to level the deviation; before, they
	// would follow what matching has yet to take away.
	nearly = 0.8
	// leastWeight is what a round leaves of the weight of a sample without deviation, so
	// that none drops out for good.
	leastWeight = 0.15
	// freeing the tangents at free ends divides the deviation by up to ten: beyond this
	// many tolerances it is not tried.
	freeing = 12
	// mostTurn of one cubic, rad, 200 degrees: beyond a half turn its handles cross.
	mostTurn = 3.5
	// matched is the step of a parameter that ends the matching: the next one would be
	// about its square.
	matched = 1e-4
	// mostStep of a handle in one round, over the length: long steps come from a bad match.
	mostStep = 0.25
	// A handle is no shorter than the length over shortest, or the cubic may stand still at
	// its end, and no longer than the length times longest, or it may loop.
	shortest, longest = 50, 1.2
	// The tolerance over ridgeOver is a change of the deviation over the whole length that
	// is not worth a step: where the source is nearly straight any handle does.
	ridgeOver = 100
	// edgeStep is the part of a cubic along an edge of a polyline that is looked at once.
	edgeStep = 1.0 / 24
)

// cubicFit holds one fit in progress.
type cubicFit struct {
	run    *run
	i, j   int
	seg    plane.Segment
	u0, u1 plane.Point // end tangents
	free   [2]bool     // the ends whose tangent may turn
	tol    float64
	k      [fitSamples + 2]int
	u      [fitSamples + 2]float64 // matched parameters
	e      [fitSamples + 2]float64 // signed deviations
	w      [fitSamples + 2]float64 // weights
	n      int
}

// cubic returns the cubic that follows the samples i to j of r, with the tangents of
// the source at ends that aren't free, and its largest deviation; ok is false if that
// is more than tol or the cubic doesn't run along the samples.
func (r *run) cubic(i, j int, tol float64) (seg plane.Segment, dev float64, ok bool) {
	if r.turned[j]-r.turned[i] > mostTurn {
		return seg, 0, false
	}
	free := [2]bool{r.freeEnd(i), r.freeEnd(j)}
	r, i, j = r.closer(i, j)
	f := &cubicFit{run: r, i: i, j: j, u0: r.t[i], u1: r.t[j], tol: tol}
	f.start()
	if seg, dev, ok = f.solve(); ok {
		return seg, dev, true
	}
	f.free = free
	if free == [2]bool{} || dev > freeing*tol {
		return seg, dev, false
	}
	for k := range f.n {
		f.w[k] = 1
	}
	return f.solve()
}

// solve improves the cubic until it is within tol or no longer promises to be.
func (f *cubicFit) solve() (seg plane.Segment, dev float64, ok bool) {
	tol := f.tol
	best := math.Inf(1)
	for round := range mostRounds {
		f.match()
		e := f.worst()
		if e < tol*settled {
			break
		}
		if e < best {
			if round > 1 && e <= tol && e > lastGain*best {
				best = e
				break
			}
			best = e
		} else if round > 2 && e <= tol {
			break
		}
		if round >= 2 && e > farOff*tol || round >= 4 && e > halfway*tol {
			return seg, e, false
		}
		if round >= 3 && e > nearly*tol {
			f.stress(e)
		}
		if !f.improve() {
			return seg, e, false
		}
	}
	f.match()
	dev, ok = f.run.follows(f.seg, f.i, f.j, tol)
	return f.seg, dev, ok
}

// polynomial is a cubic by powers of u, quicker to evaluate many times.
type polynomial struct{ c0, c1, c2, c3 plane.Point }

func polynomialOf(s *plane.Segment) polynomial {
	return polynomial{
		s.A,
		s.C.Sub(s.A).Mul(3),
		s.A.Add(s.D).Sub(s.C.Mul(2)).Mul(3),
		s.B.Sub(s.A).Add(s.C.Sub(s.D).Mul(3)),
	}
}

func (q *polynomial) at(u float64) plane.Point {
	return plane.Pt(q.c0.X+u*(q.c1.X+u*(q.c2.X+u*q.c3.X)), q.c0.Y+u*(q.c1.Y+u*(q.c2.Y+u*q.c3.Y)))
}

func (q *polynomial) deriv(u float64) plane.Point {
	return plane.Pt(q.c1.X+u*(2*q.c2.X+u*3*q.c3.X), q.c1.Y+u*(2*q.c2.Y+u*3*q.c3.Y))
}

// advances tells whether the cubic runs along d all the way between two parameters: what it heads by
// along d is a parabola in u.
func (q *polynomial) advances(u0, u1 float64, d plane.Point) bool {
	along := func(u float64) float64 { return q.deriv(u).Dot(d) }
	a, b, mid := along(u0), along(u1), along((u0+u1)/2)
	if a < 0 || b < 0 || mid <= 0 {
		return false
	}
	// With x from -1 to 1 over the interval it is mid + half x + curve x^2.
	half, curve := (b-a)/2, (a+b)/2-mid
	return curve <= 0 || math.Abs(half) >= 2*curve || mid-half*half/(4*curve) > 0
}

// start chooses the samples and lays a first cubic with handles of a third of the
// length.
func (f *cubicFit) start() {
	r := f.run
	inside := f.j - f.i - 1
	f.n = min(inside, fitSamples)
	for k := range f.n {
		f.k[k] = f.i + 1 + (2*k+1)*inside/(2*f.n)
		f.u[k] = (r.s[f.k[k]] - r.s[f.i]) / (r.s[f.j] - r.s[f.i])
		f.w[k] = 1
	}
	h := (r.s[f.j] - r.s[f.i]) / 3
	a, b := r.p[f.i], r.p[f.j]
	f.seg = plane.CubicSeg(a, a.Add(f.u0.Mul(h)), b.Sub(f.u1.Mul(h)), b)
}

// match moves each parameter to the point of the cubic on the sample's normal, and
// notes the deviation there.
func (f *cubicFit) match() {
	q := polynomialOf(&f.seg)
	for k := range f.n {
		p, t := f.run.p[f.k[k]], f.run.t[f.k[k]]
		u := f.u[k]
		d := q.at(u).Sub(p)
		for range 2 {
			v := q.deriv(u).Dot(t)
			if v <= 0 {
				break
			}
			du := d.Dot(t) / v
			u = solve.Clamp(u-du, 0, 1)
			d = q.at(u).Sub(p)
			if math.Abs(du) < matched {
				break
			}
		}
		f.u[k] = u
		f.e[k] = t.Cross(d)
	}
}

func (f *cubicFit) worst() float64 {
	m := 0.0
	for k := range f.n {
		m = max(m, math.Abs(f.e[k]))
	}
	return m
}

// stress raises the weights where the deviation is large.
func (f *cubicFit) stress(worst float64) {
	for k := range f.n {
		f.w[k] *= leastWeight + math.Abs(f.e[k])/worst
	}
}

// unknown is one freedom of the cubic: a control point moves along dir.
type unknown struct {
	dir  plane.Point
	last bool // of D, not of C
}

func (f *cubicFit) unknowns() (list [4]unknown, n int) {
	add := func(dir plane.Point, last bool) {
		list[n] = unknown{dir, last}
		n++
	}
	add(f.u0, false)
	if f.free[0] {
		add(f.u0.Left(), false)
	}
	add(f.u1, true)
	if f.free[1] {
		add(f.u1.Left(), true)
	}
	return list, n
}

// improve takes one Gauss-Newton step. It reports false when that leads nowhere.
func (f *cubicFit) improve() bool {
	list, n := f.unknowns()
	var m [4][6]float64
	for k := range f.n {
		u, t := f.u[k], f.run.t[f.k[k]]
		v := 1 - u
		var g [4]float64 // change of the deviation with each unknown
		for i := range n {
			b := 3 * v * v * u
			if list[i].last {
				b = 3 * v * u * u
			}
			g[i] = b * t.Cross(list[i].dir)
		}
		for i := range n {
			for j := range n {
				m[i][j] += f.w[k] * g[i] * g[j]
			}
			m[i][4] -= f.w[k] * g[i] * f.e[k]
		}
	}
	length := f.run.s[f.j] - f.run.s[f.i]
	ridge := f.tol / ridgeOver / length
	for i := range n {
		m[i][i] += ridge * ridge * float64(f.n)
	}
	step := solveNormal(m, n)
	for i := range n {
		d := list[i].dir.Mul(solve.Clamp(step[i].X, -mostStep*length, mostStep*length))
		if list[i].last {
			f.seg.D = f.seg.D.Add(d)
		} else {
			f.seg.C = f.seg.C.Add(d)
		}
	}
	h0 := f.seg.C.Sub(f.seg.A).Dot(f.u0)
	h1 := f.seg.B.Sub(f.seg.D).Dot(f.u1)
	lo, hi := length/shortest, length*longest
	f.seg.C = f.seg.C.Add(f.u0.Mul(solve.Clamp(h0, lo, hi) - h0))
	f.seg.D = f.seg.D.Sub(f.u1.Mul(solve.Clamp(h1, lo, hi) - h1))
	return !math.IsNaN(h0 + h1)
}

// follows measures the cubic seg against all samples i to j: each sample's normal
// must meet it, in order, running the same way, and within tol. Then the deviation
// holds both ways. What bulges between samples is counted in.
func (r *run) follows(seg plane.Segment, i, j int, tol float64) (dev float64, ok bool) {
	c := polynomialOf(&seg)
	u := 0.0
	e1, e2 := 0.0, 0.0 // deviations at the last two samples
	for k := i + 1; k <= j; k++ {
		e, was := 0.0, u
		if k < j {
			p, t := r.p[k], r.t[k]
			v := c.deriv(u).Dot(t)
			if v > 0 {
				u = solve.Clamp(u+(r.s[k]-r.s[k-1])/v, was, 1)
			}
			q := c.at(u).Sub(p)
			for range 4 {
				if v = c.deriv(u).Dot(t); v <= 0 {
					return dev, false
				}
				du := q.Dot(t) / v
				u = solve.Clamp(u-du, was, 1)
				q = c.at(u).Sub(p)
				if math.Abs(du) < matched {
					break
				}
			}
			if math.Abs(q.Dot(t)) > tol {
				return dev, false
			}
			e = t.Cross(q)
			dev = max(dev, q.Len())
		}
		if k > i+1 {
			dev = max(dev, math.Abs(e1)+r.bulge(k-1, e2, e1, e))
		}
		if k == j {
			u = 1
		}
		if !c.advances(was, u, r.p[k].Sub(r.p[k-1])) { // it must not turn back between the samples either
			return dev, false
		}
		dev = max(dev, r.offEdge(&c, k-1, was, u))
		if dev > tol {
			return dev, false
		}
		e1, e2 = e, e1
	}
	return dev, true
}

// offEdge returns how far c stands off the edge of a polyline after sample k between two
// of its parameters. Where c is slow it may swing out and back between two samples, which
// the parabola of bulge doesn't see; along an edge the deviation is a cubic in the parameter.
func (r *run) offEdge(c *polynomial, k int, u0, u1 float64) float64 {
	if u1-u0 <= 2*edgeStep || !r.onEdge(k) {
		return 0
	}
	edge := r.p[k+1].Sub(r.p[k]).Unit()
	n := math.Ceil((u1 - u0) / edgeStep)
	dev := 0.0
	for m := 1.0; m < n; m++ {
		dev = max(dev, math.Abs(edge.Cross(c.at(u0+(u1-u0)*m/n).Sub(r.p[k]))))
	}
	return dev
}
