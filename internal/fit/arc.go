package fit

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/solve"
)

// Lines and arcs. An arc from a to b has one freedom, the angle w between chord and
// end tangent (half its sweep). Seen from a sample p the turn from a-p to p-b is the w
// of the arc through p, and p stands off the arc of angle w by
//
//	|a-p| |p-b| sin(w - w_p) / |a-b|
//
// to first order in that over the diameter. So each sample allows an interval of w,
// and what all allow is what remains.

// Thresholds of lines and arcs. sameWay and tangentSlack keep an arc from running round the
// other way; the others only choose.
const (
	// mostArcTurn of the source under one arc, rad: a full turn and a little. It saves the
	// look at every sample; what is let through fails on them.
	mostArcTurn = 6.4
	// tangentSlack is how far an arc's end tangents may turn off the source's, rad (40
	// degrees), as long as its half sweep stays under wrapsFrom, where angles do not wrap.
	tangentSlack, wrapsFrom = 0.7, 2.4
	// smallAngle is where the sine stands for its angle, rad: it errs by 0.7 % there.
	smallAngle = 0.2
	// sameWay is the cosine of the angle between source and piece, at a sample, from which
	// the piece runs another way: 45 degrees.
	sameWay = 0.7
	// flatArc is the radius over the chord from which the distance from the circle is taken
	// by way of the chord: from the centre it would lose a digit for each of its own.
	flatArc = 1e4
	// A line is taken for an arc that is nearer by no more than this: by lineWorse times
	// the arc's deviation and the tolerance over lineGive.
	lineWorse, lineGive = 1.5, 20
)

// lineWillDo tells that a line of one deviation is hardly worse than an arc of another.
func lineWillDo(line, arc, tol float64) bool { return line <= lineWorse*arc+tol/lineGive }

// arcRange returns the interval of half sweeps w for which the arc from sample i to
// sample j of r is within tol of all samples between; empty when lo > hi.
func (r *run) arcRange(i, j int, tol float64) (lo, hi float64) {
	a, b := r.p[i], r.p[j]
	chord := a.Dist(b)
	lo, hi = r.roughRange(i, j)
	if chord == 0 || r.turned[j]-r.turned[i] > mostArcTurn {
		return 1, -1
	}
	// The middle first: it gives the narrowest interval and finds failures soon.
	n := j - i - 1
	for step := n / 2; step > 0; step /= 2 {
		if !r.narrow(i+step, a, b, chord, tol, &lo, &hi) {
			return 1, -1
		}
	}
	for k := i + 1; k < j; k++ {
		if !r.narrow(k, a, b, chord, tol, &lo, &hi) {
			return 1, -1
		}
	}
	return lo, hi
}

// roughRange returns the half sweeps whose end tangents are within tangentSlack of the
// source's. Without it an arc hardly larger than the tolerance could run round the
// other way. (Nearly full circles are left alone: there the angles wrap round.)
func (r *run) roughRange(i, j int) (lo, hi float64) {
	lo, hi = -math.Pi, math.Pi
	first, second := r.tangentAngles(i, j)
	for _, w := range [2]float64{-first, second} {
		if math.Abs(w) < wrapsFrom {
			lo, hi = max(lo, w-tangentSlack), min(hi, w+tangentSlack)
		}
	}
	return lo, hi
}

func (r *run) narrow(k int, a, b plane.Point, chord, tol float64, lo, hi *float64) bool {
	u, v := r.p[k].Sub(a), b.Sub(r.p[k])
	x, y := u.Dot(v), u.Cross(v)
	w := math.Atan2(y, x)
	d := math.Sqrt(x*x + y*y)
	give := math.Pi
	if q := chord * tol; q < d {
		give = q / d
		if give > smallAngle {
			give = math.Asin(give)
		}
	}
	*lo, *hi = max(*lo, w-give), min(*hi, w+give)
	return *lo <= *hi
}

// tangentAngles returns the angles from the chord of samples i and j to the source's
// tangents there. An arc that matches both has half sweep -first = second.
func (r *run) tangentAngles(i, j int) (first, second float64) {
	c := r.p[j].Sub(r.p[i])
	t0, t1 := r.t[i], r.t[j]
	return math.Atan2(c.Cross(t0), c.Dot(t0)), math.Atan2(c.Cross(t1), c.Dot(t1))
}

// freeEnd reports whether sample i is an end of r where no tangent must be met.
func (r *run) freeEnd(i int) bool { return !r.cyclic && (i == 0 || i == len(r.p)-1) }

// arc returns the line or arc from sample i to j that is within tol, deviates least,
// and turns off the source's tangents at ends that aren't free by at most kink.
func (r *run) arc(i, j int, tol, kink float64) (seg plane.Segment, dev float64, ok bool) {
	for _, e := range r.exact {
		if e.i == i && e.j == j {
			return e.seg, 0, true
		}
	}
	near, a, b := r.closer(i, j)
	lo, hi := near.arcRange(a, b, tol)
	if lo > hi {
		return seg, 0, false
	}
	first, second := r.tangentAngles(i, j)
	if !r.freeEnd(i) {
		lo, hi = max(lo, -first-kink), min(hi, -first+kink)
	}
	if !r.freeEnd(j) {
		lo, hi = max(lo, second-kink), min(hi, second+kink)
	}
	if lo > hi {
		return seg, 0, false
	}
	return near.arcWithin(a, b, lo, hi, tol)
}

// arcWithin returns the best line or arc from sample i to j of half sweep between lo
// and hi. A line is chosen when it lies within the range and an arc would follow the
// samples hardly better.
func (r *run) arcWithin(i, j int, lo, hi, tol float64) (seg plane.Segment, dev float64, ok bool) {
	a, b := r.p[i], r.p[j]
	w := (lo + hi) / 2
	seg = plane.BulgeSeg(a, b, math.Tan(w/2))
	dev, ok = r.followsArc(seg, i, j)
	if lo <= 0 && hi >= 0 {
		line := plane.LineSeg(a, b)
		if d, fits := r.followsArc(line, i, j); fits && d <= tol && (!ok || lineWillDo(d, dev, tol)) {
			return line, d, true
		}
	}
	return seg, dev, ok && dev <= tol
}

// followsArc measures a line or arc against the samples i to j; see follows.
func (r *run) followsArc(seg plane.Segment, i, j int) (dev float64, ok bool) {
	if seg.Kind == plane.Line {
		return r.followsLine(seg, i, j)
	}
	c, rad := seg.Centre()
	ch := seg.B.Sub(seg.A)
	l := ch.Len()
	// Distance from the circle by way of the chord when the centre is far off.
	b := seg.Bulge
	far := rad > flatArc*l
	e1, e2 := 0.0, 0.0
	for k := i + 1; k <= j; k++ {
		e := 0.0
		if k < j {
			v := r.p[k].Sub(c)
			d := v.Len()
			e = d - rad
			if far {
				x := r.p[k].Sub(seg.A).Dot(ch) / (l * l)
				e = (r.p[k].Sub(seg.A).Cross(ch)/l - 2*l*b*x*(1-x)) * solve.Sign(b)
			}
			// The source must run the arc's way here.
			if v.Left().Dot(r.t[k])*solve.Sign(b) < sameWay*d {
				return dev, false
			}
		}
		dev = max(dev, math.Abs(e))
		if k > i+1 {
			dev = max(dev, math.Abs(e1)+r.bulge(k-1, e2, e1, e))
		}
		e1, e2 = e, e1
	}
	return dev, true
}

func (r *run) followsLine(seg plane.Segment, i, j int) (dev float64, ok bool) {
	u := seg.B.Sub(seg.A).Unit()
	e1, e2 := 0.0, 0.0
	for k := i + 1; k <= j; k++ {
		e := 0.0
		if k < j {
			if u.Dot(r.t[k]) < sameWay {
				return dev, false
			}
			e = u.Cross(r.p[k].Sub(seg.A))
		}
		dev = max(dev, math.Abs(e))
		if k > i+1 {
			dev = max(dev, math.Abs(e1)+r.bulge(k-1, e2, e1, e))
		}
		e1, e2 = e, e1
	}
	return dev, true
}
