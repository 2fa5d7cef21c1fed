package fit

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/solve"
)

// Arcs alone, joined without visible kinks. For two samples the arcs within tolerance
// form an interval of half sweeps w; with the chord at angle c such an arc starts in
// direction c-w and ends in direction c+w. So a set of directions in which one arc
// may arrive at a joint maps to the set of those at the next joint: widened by the
// kink, met with what the next chord allows, reflected about that chord. The search
// carries these sets forward and reads one smooth chain off backwards. (Fitting with
// sets of admissible arcs: Maier, Optimal arc spline approximation, CAGD 31, 2014.)

// label is one way to a candidate joint.
type label struct {
	cost   float64
	lo, hi float64 // directions of arrival, relative to the source's tangent
	wlo    float64 // half sweeps of the last arc that lead to them
	whi    float64
	dev    float64
	at     int // node
	from   *label
}

// Thresholds of the search for arcs. What is accepted is decided by the intervals and by
// the samples; these only say where to look.
const (
	// labelsKept is how many ways to one joint are kept: the cheapest, and dearer ones
	// that arrive in directions the kept ones don't reach, that is with more than newGround
	// of their range of directions outside each of theirs.
	labelsKept, newGround = 8, 0.2
	// rim is the part of the tolerance that the intervals of half sweeps work with: an arc
	// at the rim of its interval bulges a little more between samples.
	rim = 0.99
	// fewPart and leastPart of the tolerance are where the search for an even tolerance
	// begins: fewPart is what the law of the third power leaves at the least.
	fewPart, leastPart = 0.8, 1.0 / 64
	// evenSteps of halving find the even tolerance to a sixteenth of the way, on a log scale.
	evenSteps = 4
	// startsTried are the directions in which the first arc of a loop may set out, besides
	// the source's own.
	startsTried = 8
)

// fitArcs returns the fewest lines and arcs found whose kinks stay under o.Kink. For
// a number of pieces it first looks for the tolerance that longest pieces need with
// that number: their ends, forwards and backwards, leave narrow windows for the
// joints of even pieces, among which a smooth chain is then sought at the full
// tolerance. Kinks shrink with the square of the pieces' length, so more pieces are
// tried until it works; the last resort is biarcs.
func (r *run) fitArcs(o Options) []piece {
	limit := o.Tolerance * (1 - sampleSlack)
	tol := limit * rim
	least := len(r.greedyArcs(tol)) - 1
	l := r.layers(o)
	before := 0
	for _, n := range []int{least, least + 1, least + 2, least + 3, least + least/8, least + least/5, least + least/4, least + least/3, least + least/2} {
		if n <= before {
			continue
		}
		before = n
		// The deviation of arcs grows with the third power of their length.
		part := float64(least-1) / float64(n)
		even := r.evenTolerance(n, tol, fewPart*tol*part*part*part)
		e := r.arcLayers(even)
		_, far := e.greedy()
		if ps, ok := l.smoothChain(e.windows(far, e.backward(n), n), tol, o.Kink); ok && worst(ps) <= limit {
			return ps
		}
	}
	pairs, _ := r.pairs(limit).greedy()
	return r.split(pairs)
}

// pairs returns the search for pairs of arcs within tol.
func (r *run) pairs(tol float64) *layers {
	return &layers{run: r, find: func(i, j int) (piece, bool) { return r.biarc(i, j, tol) }, exactArcs: true}
}

// linesAndPairs is the same with lines where they do.
func (r *run) linesAndPairs(o Options) *layers {
	tol := o.Tolerance * (1 - sampleSlack)
	l := r.pairs(tol)
	pair := l.find
	l.find = func(i, j int) (piece, bool) {
		if seg, dev, ok := r.line(i, j, tol, o.Kink/2); ok {
			return piece{i, j, seg, dev}, true
		}
		return pair(i, j)
	}
	return l
}

func (r *run) arcLayers(tol float64) *layers {
	return &layers{run: r, find: r.finder(Arcs, tol, math.Inf(1)), candidates: arcCandidates, exactArcs: true}
}

func (r *run) greedyArcs(tol float64) []int {
	_, far := r.arcLayers(tol).greedy()
	return far
}

// evenTolerance returns about the smallest tolerance at which n longest arcs are
// enough: between few, for which they aren't likely to be, and tol.
func (r *run) evenTolerance(n int, tol, few float64) float64 {
	enough := tol
	few = max(few, leastPart*tol)
	for range evenSteps {
		mid := math.Sqrt(enough * few)
		if len(r.greedyArcs(mid))-1 <= n {
			enough = mid
		} else {
			few = mid
		}
	}
	return enough
}

func worst(ps []piece) float64 {
	dev := 0.0
	for _, p := range ps {
		dev = math.Max(dev, p.dev)
	}
	return dev
}

// smoothChain looks for arcs with joints in the windows.
func (l *layers) smoothChain(windows [][]int, tol, kink float64) ([]piece, bool) {
	if !l.run.cyclic {
		end := l.carry(windows, &label{lo: -math.Inf(1), hi: math.Inf(1)}, tol, kink)
		return l.readBack(end, tol, kink), end != nil
	}
	// At the joint of a loop both sides keep within half of the kink of one direction.
	var best *label
	for _, dir := range l.startDirections(windows[1], tol) {
		end := l.carry(windows, &label{lo: dir + kink/2, hi: dir - kink/2}, tol, kink)
		if end != nil && (best == nil || end.cost < best.cost) {
			best = end
		}
	}
	return l.readBack(best, tol, kink), best != nil
}

// startDirections returns directions in which the first arc of a loop may start,
// relative to the source's: along it, and evenly over what is possible.
func (l *layers) startDirections(first []int, tol float64) []float64 {
	r := l.run
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, b := range first {
		if c := l.chord(0, r.nodes[b], tol); c.wlo <= c.whi {
			lo, hi = math.Min(lo, -c.whi-c.first), math.Max(hi, -c.wlo-c.first)
		}
	}
	out := []float64{0}
	for k := range startsTried {
		if lo < hi {
			out = append(out, lo+(hi-lo)*(float64(k)+0.5)/startsTried)
		}
	}
	return out
}

// carry returns the cheapest way from start through one candidate of each window, or
// nil. For a loop the range of start, widened by the kink, is the range of first
// directions, and its middle is also the direction of the end.
func (l *layers) carry(windows [][]int, start *label, tol, kink float64) *label {
	cur := []*label{start}
	n := len(windows) - 1
	for k := 1; k <= n; k++ {
		goal := math.NaN()
		if k == n && l.run.cyclic {
			goal = (start.lo + start.hi) / 2
		}
		var next []*label
		for _, b := range windows[k] {
			next = append(next, l.arrivals(cur, b, goal, tol, kink)...)
		}
		cur = next
	}
	sortLabels(cur)
	if len(cur) == 0 {
		return nil
	}
	return cur[0]
}

// arrivals returns the cheapest ways to node b by one more arc; a goal that is a
// number is the direction to arrive in, within half of the kink.
func (l *layers) arrivals(cur []*label, b int, goal, tol, kink float64) []*label {
	var out []*label
	r := l.run
	for _, from := range cur {
		if from.at >= b {
			continue
		}
		c := l.chord(r.nodes[from.at], r.nodes[b], tol)
		wlo, whi, first, second := c.wlo, c.whi, c.first, c.second
		if wlo > whi {
			continue
		}
		lo, hi := math.Max(wlo, -first-from.hi-kink), math.Min(whi, -first-from.lo+kink)
		if !math.IsNaN(goal) {
			lo, hi = math.Max(lo, second+goal-kink/2), math.Min(hi, second+goal+kink/2)
		}
		if lo > hi {
			continue
		}
		// Away from the middle of what the tolerance allows, the deviation grows.
		mid, half := (wlo+whi)/2, (whi-wlo)/2
		off := 0.0
		if half > 0 {
			off = math.Max(0, math.Max(lo-mid, mid-hi)) / half
		}
		dev := c.dev + off*(tol-c.dev)
		out = append(out, &label{from.cost + dev*dev, lo - second, hi - second, lo, hi, dev, b, from})
	}
	return pruned(out)
}

// pruned keeps the cheapest labels and those that widen the range of directions.
func pruned(ls []*label) []*label {
	sortLabels(ls)
	var out []*label
	for _, c := range ls {
		covered := 0.0
		for _, k := range out {
			covered = math.Max(covered, math.Min(c.hi, k.hi)-math.Max(c.lo, k.lo))
		}
		if len(out) < 2 || covered < (1-newGround)*(c.hi-c.lo) {
			out = append(out, c)
		}
		if len(out) == labelsKept {
			break
		}
	}
	return out
}

// chord is what is known of the arcs between two samples.
type chord struct {
	wlo, whi      float64 // half sweeps allowed
	first, second float64 // angles to the source's tangents
	dev           float64 // of the arc in the middle of the interval
}

// chord returns the arcs between samples i and j, worked out once.
func (l *layers) chord(i, j int, tol float64) *chord {
	if l.chords == nil {
		l.chords = map[[2]int]*chord{}
	}
	key := [2]int{i, j}
	if c := l.chords[key]; c != nil {
		return c
	}
	c := &chord{}
	l.chords[key] = c
	c.first, c.second = l.run.tangentAngles(i, j)
	for _, e := range l.run.exact {
		if e.i == i && e.j == j {
			c.wlo, c.whi = e.seg.Sweep()/2, e.seg.Sweep()/2
			return c
		}
	}
	near, a, b := l.run.closer(i, j)
	c.wlo, c.whi = near.arcRange(a, b, tol)
	if c.wlo <= c.whi {
		// What bulges between samples isn't in the interval; check its middle.
		_, dev, ok := near.arcWithin(a, b, c.wlo, c.whi, tol)
		c.dev = dev
		if !ok {
			c.wlo, c.whi = 1, -1
		}
	}
	return c
}

func sortLabels(ls []*label) {
	for i := 1; i < len(ls); i++ { // few
		for k := i; k > 0 && ls[k].cost < ls[k-1].cost; k-- {
			ls[k], ls[k-1] = ls[k-1], ls[k]
		}
	}
}

// readBack chooses the half sweeps from the last arc to the first, each as near to
// the middle of its tolerance as the next one's start allows.
func (l *layers) readBack(end *label, tol, kink float64) []piece {
	r := l.run
	var out []piece
	lo, hi := math.Inf(-1), math.Inf(1) // directions of arrival that the next arc takes
	for at := end; at != nil && at.from != nil; at = at.from {
		i, j := r.nodes[at.from.at], r.nodes[at.at]
		c := l.chord(i, j, tol)
		wlo, whi := math.Max(at.wlo, lo+c.second), math.Min(at.whi, hi+c.second)
		w := solve.Clamp((c.wlo+c.whi)/2, wlo, math.Max(wlo, whi))
		p := l.arcPiece(i, j, w, wlo, whi, tol)
		out = append(out, p)
		start := -c.first - p.seg.Sweep()/2
		lo, hi = start-kink, start+kink
	}
	for i, k := 0, len(out)-1; i < k; i, k = i+1, k-1 {
		out[i], out[k] = out[k], out[i]
	}
	return out
}

// arcPiece returns the arc of half sweep w between samples i and j, or the line if it
// is allowed and hardly worse.
func (l *layers) arcPiece(i, j int, w, wlo, whi, tol float64) piece {
	r := l.run
	for _, e := range r.exact {
		if e.i == i && e.j == j {
			return piece{i, j, e.seg, 0}
		}
	}
	seg := plane.BulgeSeg(r.p[i], r.p[j], math.Tan(w/2))
	near, a, b := r.closer(i, j)
	dev, _ := near.followsArc(seg, a, b)
	if wlo <= 0 && whi >= 0 {
		line := plane.LineSeg(r.p[i], r.p[j])
		if d, ok := near.followsLine(line, a, b); ok && lineWillDo(d, dev, tol) {
			return piece{i, j, line, d}
		}
	}
	return piece{i, j, seg, dev}
}
