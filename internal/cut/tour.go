package cut

import "springrib/internal/plane"

// tour is an order of elements, each run one way, from a fixed start to a free end.
type tour struct {
	els   []element
	start plane.Point
	order []int // elements by place
	way   []int // by element
	place []int // by element
}

// shortest returns the strokes of els in an order with little travel from start,
// and where it ends.
func shortest(els []element, start plane.Point) ([]Stroke, plane.Point) {
	if len(els) == 0 {
		return nil, start
	}
	t := newTour(els, start)
	if !t.exact() {
		t.heuristic()
	}
	var out []Stroke
	for _, e := range t.order {
		out = append(out, els[e].run(t.way[e])...)
	}
	return out, t.out(len(els) - 1)
}

func newTour(els []element, start plane.Point) *tour {
	t := &tour{els: els, start: start, order: make([]int, len(els)), way: make([]int, len(els)), place: make([]int, len(els))}
	for i := range els {
		t.order[i], t.place[i] = i, i
	}
	return t
}

// heuristic makes a tour by nearest neighbour and improves it until neither the
// order nor the ways get better.
func (t *tour) heuristic() {
	t.nearest()
	t.bestWays()
	near := t.neighbours()
	before := t.length()
	for range 8 {
		t.improve(near)
		t.bestWays()
		after := t.length()
		if after > before-1e-6 {
			return
		}
		before = after
	}
}

// in returns where the element at place i starts.
func (t *tour) in(i int) plane.Point {
	e := t.order[i]
	return t.els[e].ways[t.way[e]].in
}

// out returns where the element at place i ends; place -1 is the start of the tour.
func (t *tour) out(i int) plane.Point {
	if i < 0 {
		return t.start
	}
	e := t.order[i]
	return t.els[e].ways[t.way[e]].out
}

// link returns the travel from place i to the one after it, 0 after the last.
func (t *tour) link(i int) float64 {
	if i+1 >= len(t.order) {
		return 0
	}
	return gap(t.out(i), t.in(i+1))
}

// length returns the travel of the whole tour.
func (t *tour) length() float64 {
	l := 0.0
	for i := -1; i < len(t.order); i++ {
		l += t.link(i)
		if i >= 0 {
			e := t.order[i]
			l += t.els[e].ways[t.way[e]].cost
		}
	}
	return l
}

// bestWays chooses the way of every element for the order as it stands, by dynamic
// programming along the tour. Ties go to the lower way.
func (t *tour) bestWays() {
	from := make([][]int, len(t.order)) // by place and way: the way of the place before
	cost := []float64{0}
	ends := []plane.Point{t.start}
	for i, e := range t.order {
		ways := t.els[e].ways
		next := make([]float64, len(ways))
		from[i] = make([]int, len(ways))
		outs := make([]plane.Point, len(ways))
		for w, x := range ways {
			best, by := cost[0]+gap(ends[0], x.in), 0
			for p := 1; p < len(ends); p++ {
				if c := cost[p] + gap(ends[p], x.in); c < best {
					best, by = c, p
				}
			}
			next[w], from[i][w], outs[w] = best+x.cost, by, x.out
		}
		cost, ends = next, outs
	}
	w := lowest(cost)
	for i := len(t.order) - 1; i >= 0; i-- {
		t.way[t.order[i]] = w
		w = from[i][w]
	}
}

// lowest returns the index of the least of v, the first of equals.
func lowest(v []float64) int {
	k := 0
	for i := range v {
		if v[i] < v[k] {
			k = i
		}
	}
	return k
}
