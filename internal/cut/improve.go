package cut

// Local search over tours: 2-opt (run a stretch of the tour backwards) and or-opt
// (move a stretch of one to three elements, either way round), tried only between
// elements that lie near each other and repeated where something has changed.
//
// Croes, "A method for solving traveling-salesman problems", Operations Research 6
// (1958), for 2-opt; Or, "Traveling salesman-type combinatorial problems",
// dissertation, Northwestern University (1976), for or-opt; neighbour lists and the
// queue as in Bentley, "Fast algorithms for geometric traveling salesman problems",
// ORSA Journal on Computing 4 (1992). Cited from memory.

const (
	// maxStretch is the longest stretch that a move may shift. It bounds the cost of
	// a move; up to this many elements nothing is lost.
	maxStretch = 1500
	// maxMoved is the longest stretch that or-opt takes out.
	maxMoved = 3
	// worthwhile is the least gain of a move, mm: above rounding, far below what a
	// machine notices, so that the search ends.
	worthwhile = 1e-6
)

// search is one run of local search.
type search struct {
	*tour
	near   [][]int
	queue  []int
	queued []bool
}

func (t *tour) improve(near [][]int) {
	s := &search{tour: t, near: near, queue: append([]int(nil), t.order...), queued: make([]bool, len(t.els))}
	for e := range s.queued {
		s.queued[e] = true
	}
	for head := 0; head < len(s.queue); head++ {
		e := s.queue[head]
		s.queued[e] = false
		for s.better(e) {
		}
		if head > 4*len(t.els) { // forget what is done
			s.queue = append([]int(nil), s.queue[head+1:]...)
			head = -1
		}
	}
}

// better makes the first gainful move found around element e.
func (s *search) better(e int) bool {
	for _, c := range s.near[e] {
		i, j := s.place[e], s.place[c]
		lo, hi := min(i, j), max(i, j)
		if hi-lo > maxStretch {
			continue
		}
		// Ends of e and c joined, then their starts joined.
		if s.reverse(lo+1, hi) || s.reverse(lo, hi-1) {
			return true
		}
		for l := 1; l <= maxMoved; l++ {
			if s.moveNear(i, i+l-1, j) || l > 1 && s.moveNear(i-l+1, i, j) {
				return true
			}
		}
	}
	return false
}

// reverse runs places i..j backwards if that gains.
func (s *search) reverse(i, j int) bool {
	gain := s.link(i-1) + s.link(j) - gap(s.out(i-1), s.out(j))
	if gain <= worthwhile {
		return false
	}
	if j+1 < len(s.order) {
		gain -= gap(s.in(i), s.in(j+1))
	}
	if gain <= worthwhile {
		return false
	}
	s.wake(i-1, i, j, j+1)
	s.turn(i, j)
	return true
}

// turn runs places i..j backwards.
func (t *tour) turn(i, j int) {
	for a, b := i, j; a <= b; a, b = a+1, b-1 {
		x, y := t.order[a], t.order[b]
		t.way[x] = t.els[x].ways[t.way[x]].back
		if a < b {
			t.way[y] = t.els[y].ways[t.way[y]].back
		}
		t.order[a], t.order[b] = y, x
		t.place[y], t.place[x] = a, b
	}
}

// moveNear moves places i..j to just before or just after place c if that gains.
func (s *search) moveNear(i, j, c int) bool {
	if i < 0 || j >= len(s.order) || c >= i && c <= j {
		return false
	}
	removed := s.link(i-1) + s.link(j)
	if j+1 < len(s.order) {
		removed -= gap(s.out(i-1), s.in(j+1))
	}
	if removed <= worthwhile {
		return false
	}
	return s.moveAfter(i, j, c, removed) || s.moveAfter(i, j, c-1, removed)
}

// moveAfter moves places i..j to follow place p, which must be elsewhere, if that
// gains; removed is what taking them out gains.
func (s *search) moveAfter(i, j, p int, removed float64) bool {
	if p >= i-1 && p <= j {
		return false
	}
	before, open := s.out(p), p+1 >= len(s.order)
	limit := removed + s.link(p) - worthwhile
	join := func(first, last way) float64 {
		l := gap(before, first.in)
		if !open {
			l += gap(last.out, s.in(p+1))
		}
		return l
	}
	a, b := s.order[i], s.order[j]
	first, last := s.els[a].ways[s.way[a]], s.els[b].ways[s.way[b]]
	if join(first, last) < limit {
		s.shift(i, j, p, false)
		return true
	}
	back, front := s.els[b].ways[last.back], s.els[a].ways[first.back]
	if join(back, front) < limit {
		s.shift(i, j, p, true)
		return true
	}
	if i != j || len(s.els[a].ways) <= 2 {
		return false
	}
	for w, x := range s.els[a].ways {
		if join(x, x)+x.cost-first.cost < limit {
			s.way[a] = w
			s.shift(i, j, p, false)
			return true
		}
	}
	return false
}

// shift moves places i..j to follow place p, turned round if back.
func (s *search) shift(i, j, p int, back bool) {
	s.wake(i-1, i, j, j+1)
	s.wake(p, p+1)
	if back {
		s.turn(i, j)
	}
	held := make([]int, 0, maxMoved)
	held = append(held, s.order[i:j+1]...)
	from, to := p+1, i // places that make room
	if p < i {
		copy(s.order[p+1+len(held):], s.order[p+1:i])
		copy(s.order[p+1:], held)
		to = j + 1
	} else {
		copy(s.order[i:], s.order[j+1:p+1])
		copy(s.order[p+1-len(held):], held)
		from, to = i, p+1
	}
	for k := from; k < to; k++ {
		s.place[s.order[k]] = k
	}
}

// wake queues the elements at the given places to be looked at again.
func (s *search) wake(places ...int) {
	for _, i := range places {
		if i < 0 || i >= len(s.order) {
			continue
		}
		if e := s.order[i]; !s.queued[e] {
			s.queued[e] = true
			s.queue = append(s.queue, e)
		}
	}
}
