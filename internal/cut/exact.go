package cut

import "math"

// exactWork is how many steps an exact tour may take, some 20 ms: enough for seven
// closed strokes of maxStarts nodes, or a dozen lines.
const exactWork = 1 << 22

// exact makes t the shortest tour there is, if that is little work, and reports
// whether it did.
func (t *tour) exact() bool { return t.exactWithin(exactWork) }

// exactWithin is exact with its limit of work given.
//
// Held and Karp, "A dynamic programming approach to sequencing problems", Journal
// of SIAM 10 (1962), with the ways of an element as further states.
func (t *tour) exactWithin(work int) bool {
	n := len(t.els)
	first := make([]int, n+1) // first state of each element
	for e, el := range t.els {
		first[e+1] = first[e] + len(el.ways)
	}
	m := first[n]
	if n > 16 || m*m<<n > work {
		return false
	}
	x := exactTable{t, first, make([]float64, m<<n), make([]int32, m<<n)}
	for i := range x.cost {
		x.cost[i], x.from[i] = math.Inf(1), -1
	}
	for e, el := range t.els {
		for w, way := range el.ways {
			x.cost[x.at(1<<e, e, w)] = gap(t.start, way.in) + way.cost
		}
	}
	for set := 1; set < 1<<n; set++ {
		for e := range t.els {
			if set&(1<<e) != 0 {
				x.extend(set, e)
			}
		}
	}
	x.read(1<<n - 1)
	return true
}

// exactTable holds the least travel over a set of elements that ends with a way of
// one of them.
type exactTable struct {
	*tour
	first []int
	cost  []float64
	from  []int32 // the state before
}

func (x *exactTable) at(set, e, w int) int { return set*x.first[len(x.els)] + x.first[e] + w }

// extend tries every element outside set after those in it ending with e.
func (x *exactTable) extend(set, e int) {
	for w, last := range x.els[e].ways {
		here := x.at(set, e, w)
		for f, el := range x.els {
			if set&(1<<f) != 0 {
				continue
			}
			for v, next := range el.ways {
				c := x.cost[here] + gap(last.out, next.in) + next.cost
				if to := x.at(set|1<<f, f, v); c < x.cost[to] {
					x.cost[to], x.from[to] = c, int32(here)
				}
			}
		}
	}
}

// read sets the tour from the best state that holds every element.
func (x *exactTable) read(all int) {
	m := x.first[len(x.els)]
	state := all*m + lowest(x.cost[all*m:(all+1)*m])
	for i := len(x.els) - 1; i >= 0; i-- {
		e := 0
		for state%m >= x.first[e+1] {
			e++
		}
		x.order[i], x.place[e], x.way[e] = e, i, state%m-x.first[e]
		state = int(x.from[state])
	}
}
