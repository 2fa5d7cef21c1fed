package fit

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// layers looks for the fewest pieces over a run and then for the best places of
// their ends.
//
// Let far[k] be the farthest node that k pieces can reach and near[q] the earliest
// from which q pieces reach the end. With n pieces the k-th joint must lie between
// near[n-k] and far[k]. Each of these windows gets a few candidates, and dynamic
// programming picks one in each.
type layers struct {
	run  *run
	find finder
	// candidates is how many evenly spaced places of a joint are tried besides the
	// natural ones; with more the deviations become a little more even and, for arcs,
	// kinks smaller.
	candidates int
	exactArcs  bool // exact arcs of the source are kept
	chords     map[[2]int]*chord
	step       int // length of the last piece in nodes, to start the next search
}

func (l *layers) fewest() []piece {
	greedy, far := l.greedy()
	n := len(greedy)
	if n == 1 {
		return greedy
	}
	if best, ok := l.choose(l.windows(far, l.backward(n), n)); ok {
		return best
	}
	return greedy
}

func (l *layers) last() int { return len(l.run.nodes) - 1 }

// piece fits between two nodes; neighbours always have their chord.
func (l *layers) piece(a, b int) (piece, bool) {
	i, j := l.run.nodes[a], l.run.nodes[b]
	p, ok := l.find(i, j)
	if !ok && b == a+1 {
		seg := plane.LineSeg(l.run.p[i], l.run.p[j])
		dev, _ := l.run.followsLine(seg, i, j)
		return piece{i, j, seg, dev}, true
	}
	return p, ok
}

// greedy takes the longest piece from each place.
func (l *layers) greedy() (ps []piece, far []int) {
	far = []int{0}
	for a := 0; a < l.last(); {
		b, p := l.reach(a)
		ps, far = append(ps, p), append(far, b)
		a = b
	}
	return ps, far
}

const (
	// quickTurn is about what a piece of halves turns to begin with, rad.
	quickTurn = 0.8
	// someCandidates are the evenly spaced places of a joint that are tried, arcCandidates
	// those of arcs alone, whose joints are harder to find. From manyPieces on it is
	// fewCandidates: the time of a long outline goes into its many joints instead.
	someCandidates, arcCandidates, fewCandidates, manyPieces = 5, 7, 3, 40
)

// halves keeps the exact parts of the run, cuts what lies between into parts that turn
// alike, and each that no piece follows into two.
func (l *layers) halves() []piece {
	var ps []piece
	from := 0
	for _, e := range l.run.exact {
		if e.seg.Kind != plane.Line && !l.exactArcs {
			continue
		}
		ps = l.parts(ps, from, sort.SearchInts(l.run.nodes, e.i))
		ps = append(ps, piece{e.i, e.j, e.seg, 0})
		from = sort.SearchInts(l.run.nodes, e.j)
	}
	return l.parts(ps, from, l.last())
}

func (l *layers) parts(ps []piece, from, to int) []piece {
	if from >= to {
		return ps
	}
	at := func(node int) float64 { return l.run.turned[l.run.nodes[node]] }
	start, turn := at(from), at(to)-at(from)
	n := max(1, int(math.Ceil(turn/quickTurn)))
	a := from
	for k := 1; k < n; k++ {
		b := a + sort.Search(to-a, func(i int) bool { return at(a+i) >= start+turn*float64(k)/float64(n) })
		ps = l.halve(ps, a, b)
		a = b
	}
	return l.halve(ps, a, to)
}

func (l *layers) halve(ps []piece, a, b int) []piece {
	if a >= b {
		return ps
	}
	if p, ok := l.piece(a, b); ok {
		return append(ps, p)
	}
	m := (a + b) / 2
	return l.halve(l.halve(ps, a, m), m, b)
}

// reach returns the farthest node that one piece from node a reaches, found by
// doubling and halving: it takes for granted that parts of good pieces are good.
func (l *layers) reach(a int) (int, piece) {
	end := l.last()
	if p, ok := l.piece(a, end); ok || end == a+1 {
		return end, p
	}
	good, bad := a, end
	var best piece
	try := func(b int) bool {
		p, ok := l.piece(a, b)
		if ok {
			good, best = b, p
		} else {
			bad = b
		}
		return ok
	}
	// From the length of the last piece up or down to a bracket, then halve it.
	step := min(l.firstStep(), end-1-a)
	if try(a + step) {
		for bad == end && good < end-1 {
			step += 1 + step/2
			try(min(a+step, end-1))
		}
	} else {
		for good == a && bad > a+1 {
			step -= 1 + step/3
			try(max(a+step, a+1))
		}
	}
	for bad-good > 1 {
		try((good + bad) / 2)
	}
	if b, p, ok := l.exactFrom(a); ok && b > good {
		good, best = b, p
	}
	l.step = good - a
	return good, best
}

// firstStep returns the length in nodes to try first.
func (l *layers) firstStep() int {
	if l.step == 0 {
		return 1 + l.last()/6
	}
	return l.step
}

// exactFrom returns the exact part that begins at node a.
func (l *layers) exactFrom(a int) (int, piece, bool) {
	i := l.run.nodes[a]
	for _, e := range l.run.exact {
		if e.i == i && (e.seg.Kind == plane.Line || l.exactArcs) {
			return sort.SearchInts(l.run.nodes, e.j), piece{e.i, e.j, e.seg, 0}, true
		}
	}
	return 0, piece{}, false
}

// backward returns near[q] for q up to n.
func (l *layers) backward(n int) []int {
	near := []int{l.last()}
	for q := 1; q <= n; q++ {
		near = append(near, l.reachBack(near[q-1]))
	}
	return near
}

// reachBack returns the earliest node from which one piece reaches node b.
func (l *layers) reachBack(b int) int {
	if b == 0 {
		return 0
	}
	if _, ok := l.piece(0, b); ok || b == 1 {
		return 0
	}
	good, bad := b, 0
	try := func(a int) bool {
		_, ok := l.piece(a, b)
		if ok {
			good = a
		} else {
			bad = a
		}
		return ok
	}
	step := min(l.firstStep(), b-1)
	if try(b - step) {
		for bad == 0 && good > 1 {
			step += 1 + step/2
			try(max(b-step, 1))
		}
	} else {
		for good == b && bad < b-1 {
			step -= 1 + step/3
			try(min(b-step, b-1))
		}
	}
	for good-bad > 1 {
		try((good + bad) / 2)
	}
	j := l.run.nodes[b]
	for _, e := range l.run.exact {
		if e.j == j && (e.seg.Kind == plane.Line || l.exactArcs) {
			good = min(good, sort.SearchInts(l.run.nodes, e.i))
		}
	}
	l.step = b - good
	return good
}

// windows returns the candidates of each joint of n pieces, both ends included.
func (l *layers) windows(far, near []int, n int) [][]int {
	out := [][]int{{0}}
	count := l.candidates
	if n > manyPieces && count == someCandidates {
		count = fewCandidates
	}
	for k := 1; k < n; k++ {
		hi := far[min(k, len(far)-1)]
		lo := min(near[min(n-k, len(near)-1)], hi)
		out = append(out, l.places(max(lo, k), hi, count))
	}
	return append(out, []int{l.last()})
}

// places returns nodes from lo to hi: the natural ones and evenly spaced ones.
func (l *layers) places(lo, hi, count int) []int {
	var c []int
	first := sort.SearchInts(l.run.natural, l.run.nodes[lo])
	for _, v := range l.run.natural[first:] {
		if v > l.run.nodes[hi] || len(c) == count {
			break
		}
		c = append(c, sort.SearchInts(l.run.nodes, v))
	}
	for k := range count {
		c = append(c, lo+(hi-lo)*k/(count-1))
	}
	sortInts(c)
	out := c[:1]
	for _, v := range c[1:] {
		if v != out[len(out)-1] {
			out = append(out, v)
		}
	}
	return out
}

func sortInts(v []int) { sort.Ints(v) }

// state is the best way found to one candidate.
type state struct {
	cost float64
	from int // index of the candidate in the layer before
	last piece
	ok   bool
}

// choose picks one candidate in each window so that the sum of squared deviations is
// least. The squares make them even.
func (l *layers) choose(windows [][]int) ([]piece, bool) {
	states := make([][]state, len(windows))
	states[0] = []state{{ok: true}}
	for k := 1; k < len(windows); k++ {
		states[k] = make([]state, len(windows[k]))
		for bi, b := range windows[k] {
			for ai, a := range windows[k-1] {
				s := states[k-1][ai]
				if !s.ok || a >= b {
					continue
				}
				p, ok := l.piece(a, b)
				if !ok {
					continue
				}
				cost := s.cost + p.dev*p.dev
				if cur := &states[k][bi]; !cur.ok || cost < cur.cost {
					*cur = state{cost, ai, p, true}
				}
			}
		}
	}
	at, n := 0, len(windows)-1
	if !states[n][0].ok {
		return nil, false
	}
	out := make([]piece, n)
	for k := n; k > 0; k-- {
		out[k-1] = states[k][at].last
		at = states[k][at].from
	}
	return out, true
}
