package fit

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/solve"
)

// Mode says which pieces Fit may use.
type Mode uint8

// The modes of Fit. Exact lines and arcs of the source come first in each that
// allows them.
const (
	Any    Mode = iota // lines, arcs and cubics, the fewest
	Arcs               // lines and arcs
	Cubics             // lines and cubics
)

// DefaultTolerance is the deviation in mm that Fit allows when none is set: a tenth
// of what a laser or a router holds (common practice, no source).
const DefaultTolerance = 0.01

// DefaultKink is the jump of direction, in radians, that Fit allows where the source
// is smooth: 0.2 degrees, which over the length of a fingertip (10 mm) stands off by
// 0.02 mm and is neither seen nor felt (common practice, no source).
const DefaultKink = 0.2 * math.Pi / 180

// Options of Fit. The zero value asks for the fewest pieces of any kind within
// DefaultTolerance.
type Options struct {
	Tolerance float64 // largest deviation, mm, both ways; 0 means DefaultTolerance
	Mode      Mode
	Kink      float64 // largest jump of direction where the source is smooth, rad; 0 means DefaultKink
	// Quick halves what one piece (in mode Arcs: two arcs) does not follow, instead of
	// looking for the fewest: the same tolerance and kinks with up to three times the
	// pieces, much sooner.
	Quick bool
}

func (o Options) withDefaults() Options {
	if o.Tolerance == 0 {
		o.Tolerance = DefaultTolerance
	}
	if o.Kink == 0 {
		o.Kink = DefaultKink
	}
	if !(o.Tolerance > 0) || !(o.Kink > 0) {
		panic("fit: Fit needs a tolerance and a kink above 0")
	}
	return o
}

// Fitted is what Fit found.
type Fitted struct {
	Path plane.Path
	// Deviation bounds the distance of each from the other, mm (Hausdorff distance).
	Deviation float64
	// Kink is the largest jump of direction between two pieces, rad, where the source
	// has none.
	Kink float64
}

// Fit returns a path of few lines, arcs and cubics within tolerance of src, both
// ways. Corners of src (its direction jumps by more than Kink) stay where they are.
//
// Between corners the pieces end on the source. The longest piece from each place
// gives their number; the places are then moved, within what keeps the number, to
// where parts of the source join or to where the deviations are smallest, by dynamic
// programming over few candidates for each. At ends of cubics the tangent is the
// source's; an arc may turn off it by half of Kink on either side of a joint (in mode
// Arcs: two arcs by Kink).
//
// doc.go has the method and its guarantee.
//
// It panics on options below 0. A source without length gives an empty path.
func Fit(src plane.Source, o Options) Fitted {
	o = o.withDefaults()
	if o.Mode != Arcs {
		return fitSampled(src, runsOf(src, o.Tolerance, o.Kink, coarse), o)
	}
	if o.Quick {
		return fitSampled(src, runsOf(src, o.Tolerance, o.Kink, coarse), o)
	}
	for n := fine; ; n *= 2 {
		runs := runsOf(src, o.Tolerance, o.Kink, n)
		nodes := 0
		for _, r := range runs {
			nodes += len(r.nodes)
		}
		f := fitSampled(src, runs, o)
		if len(f.Path.Segs)*nodesAPiece < nodes || n >= finest || nodes > mostNodes {
			return f
		}
	}
}

const (
	// coarse and fine are numbers of even steps in which a smooth stretch is sampled to
	// begin with, for cubics and for arcs alone; finest ends the doubling of fine.
	coarse, fine, finest = 16, 48, 16 * 48
	// nodesAPiece: joints of smooth arcs need finer places than the shape of the curve
	// does, or more arcs are taken than the tolerance asks for.
	nodesAPiece = 16
	// mostNodes ends the doubling for long outlines, whose nodes are many in any case.
	mostNodes = 20000
	// remainder is the length of a loop's last piece, over the mean of all, up to which it
	// may be what is left over by a bad start; other starts are tried then.
	remainder = 0.6
	// leastSpread of a cloud of points, across it over along it, squared, that still tells
	// a circle from a line.
	leastSpread = 1e-9
)

func fitSampled(src plane.Source, runs []*run, o Options) Fitted {
	out := Fitted{Path: plane.Path{Closed: src.Loop()}}
	for _, r := range runs {
		ps := r.fit(o)
		for i, p := range ps {
			out.Deviation = math.Max(out.Deviation, p.dev)
			if i > 0 {
				out.Kink = math.Max(out.Kink, kinkBetween(ps[i-1].seg, p.seg))
			} else if r.cyclic {
				out.Kink = math.Max(out.Kink, kinkBetween(ps[len(ps)-1].seg, p.seg))
			}
			out.Path.Segs = appendJoined(out.Path.Segs, p.seg)
		}
	}
	if out.Deviation > 0 {
		out.Deviation += o.Tolerance * sampleSlack
	}
	if segs := out.Path.Segs; out.Path.Closed && len(segs) > 0 {
		last := &segs[len(segs)-1]
		if last.B.Dist(segs[0].A) > joinTolerance {
			out.Path.Segs = append(segs, plane.LineSeg(last.B, segs[0].A))
		} else {
			last.B = segs[0].A
		}
	}
	return out
}

// sampleSlack is the part of the tolerance that pays for what samples don't see (see
// sampleStretch).
const sampleSlack = 1.0 / 64

// joinTolerance is the gap in mm between two parts of a source that is rounding; a
// larger one is bridged by a line.
const joinTolerance = 1e-6

func kinkBetween(a, b plane.Segment) float64 { return angleBetween(a.Tangent(1), b.Tangent(0)) }

func appendJoined(segs []plane.Segment, s plane.Segment) []plane.Segment {
	if n := len(segs); n > 0 && segs[n-1].B != s.A {
		if segs[n-1].B.Dist(s.A) > joinTolerance {
			segs = append(segs, plane.LineSeg(segs[n-1].B, s.A))
		}
		s.A = segs[len(segs)-1].B
	}
	return append(segs, s)
}

// piece is one fitted segment between two samples of a run.
type piece struct {
	i, j int
	seg  plane.Segment
	dev  float64
}

// finder fits one piece between two samples, if one within tolerance exists.
type finder func(i, j int) (piece, bool)

// fit returns the pieces of one run.
func (r *run) fit(o Options) []piece {
	if r.s[len(r.s)-1] == 0 {
		return nil
	}
	if !r.cyclic {
		return r.fitFrom(o)
	}
	if o.Mode != Cubics {
		if ps, ok := r.fullCircle(o.Tolerance * (1 - sampleSlack)); ok {
			return ps
		}
	}
	if o.Quick {
		return r.fitFrom(o)
	}
	// A loop may begin anywhere: at its first sample, or where the first piece from
	// there ends, or between. The fewest pieces win, then the earlier of these.
	first, far := r.layers(o).greedy()
	if len(first) < 2 {
		return first
	}
	best, fewest := r, len(first)
	if last := first[fewest-1]; (r.s[last.j]-r.s[last.i])*float64(fewest) > remainder*r.s[len(r.s)-1] {
		return best.fitFrom(o) // the last piece is no mere remainder
	}
	for _, k := range []int{far[1], far[1] / 2} {
		turned := r.rotated(k)
		if ps, _ := turned.layers(o).greedy(); len(ps) < fewest {
			best, fewest = turned, len(ps)
		}
	}
	return best.fitFrom(o)
}

// layers returns the search for pieces of r with the tolerance that samples leave.
func (r *run) layers(o Options) *layers {
	tol, kink, candidates := o.Tolerance*(1-sampleSlack), o.Kink/2, someCandidates
	if o.Mode == Arcs {
		kink, candidates = math.Inf(1), arcCandidates
	}
	return &layers{run: r, find: r.finder(o.Mode, tol, kink), candidates: candidates, exactArcs: o.Mode != Cubics}
}

func (r *run) fitFrom(o Options) []piece {
	switch {
	case o.Mode == Arcs && o.Quick:
		return r.split(r.linesAndPairs(o).halves())
	case o.Mode == Arcs:
		return r.fitArcs(o)
	case o.Quick:
		return r.layers(o).halves()
	}
	return r.layers(o).fewest()
}

func (r *run) finder(m Mode, tol, kink float64) finder {
	return func(i, j int) (piece, bool) {
		if m != Cubics {
			if seg, dev, ok := r.arc(i, j, tol, kink); ok || m == Arcs {
				return piece{i, j, seg, dev}, ok
			}
		} else if seg, dev, ok := r.line(i, j, tol, kink); ok {
			return piece{i, j, seg, dev}, true
		}
		seg, dev, ok := r.cubic(i, j, tol)
		return piece{i, j, seg, dev}, ok
	}
}

// line returns the line from sample i to j under the conditions of arc.
func (r *run) line(i, j int, tol, kink float64) (seg plane.Segment, dev float64, ok bool) {
	first, second := r.tangentAngles(i, j)
	if !r.freeEnd(i) && math.Abs(first) > kink || !r.freeEnd(j) && math.Abs(second) > kink {
		return seg, 0, false
	}
	seg = plane.LineSeg(r.p[i], r.p[j])
	near, a, b := r.closer(i, j)
	dev, ok = near.followsLine(seg, a, b)
	return seg, dev, ok && dev <= tol
}

// roundWay is the sine of the angle off the circle, 30 degrees, at which a sample's tangent
// no longer runs round it.
const roundWay = 0.5

// fullCircle fits one circle to a loop, as two half circles from its first sample.
func (r *run) fullCircle(tol float64) ([]piece, bool) {
	c, rad, ok := circleThrough(r.p[:len(r.p)-1])
	if !ok {
		return nil, false
	}
	dev := 0.0
	for i, p := range r.p {
		e := math.Abs(p.Dist(c) - rad)
		dev = math.Max(dev, e)
		if e > tol || math.Abs(r.t[i].Dot(p.Sub(c))) > roundWay*rad {
			return nil, false
		}
	}
	a := c.Add(r.p[0].Sub(c).Unit().Mul(rad))
	b := c.Sub(a.Sub(c))
	bulge := solve.Sign(r.p[0].Sub(c).Cross(r.t[0]))
	m := len(r.p) / 2
	return []piece{{0, m, plane.BulgeSeg(a, b, bulge), dev}, {m, len(r.p) - 1, plane.BulgeSeg(b, a, bulge), dev}}, true
}

// circleThrough returns the circle of least squares of |p-c|^2 - r^2 (Kåsa, A circle
// fitting procedure and its error analysis, IEEE Trans. Instrum. Meas. 25, 1976).
func circleThrough(pts []plane.Point) (c plane.Point, r float64, ok bool) {
	var m plane.Point
	for _, p := range pts {
		m = m.Add(p)
	}
	m = m.Mul(1 / float64(len(pts)))
	var xx, xy, yy, xz, yz, zz float64
	for _, p := range pts {
		q := p.Sub(m)
		z := q.Dot(q)
		xx, xy, yy = xx+q.X*q.X, xy+q.X*q.Y, yy+q.Y*q.Y
		xz, yz, zz = xz+q.X*z, yz+q.Y*z, zz+z
	}
	det := xx*yy - xy*xy
	if !(det > leastSpread*(xx+yy)*(xx+yy)) {
		return c, 0, false
	}
	c = plane.Pt((xz*yy-yz*xy)/(2*det), (yz*xx-xz*xy)/(2*det))
	r = math.Sqrt(c.Dot(c) + zz/float64(len(pts)))
	return m.Add(c), r, true
}
