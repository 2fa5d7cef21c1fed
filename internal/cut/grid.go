package cut

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// grid finds points near a place. Points are the ends of ways, named by element.
type grid struct {
	box    plane.Box
	size   float64 // of a cell
	nx, ny int
	cells  [][]spot
}

type spot struct {
	at       plane.Point
	el, way  int
	distance float64 // filled in by nearby
}

// newGrid holds the start of every way, about two to a cell.
func newGrid(els []element) *grid {
	g := &grid{box: plane.EmptyBox()}
	n := 0
	for _, e := range els {
		for _, w := range e.ways {
			g.box = g.box.Add(w.in)
			n++
		}
	}
	g.size = math.Max(1e-3, math.Max(math.Sqrt(g.box.W()*g.box.H()*2/float64(n)), math.Max(g.box.W(), g.box.H())*2/float64(n)))
	g.nx, g.ny = int(g.box.W()/g.size)+1, int(g.box.H()/g.size)+1
	g.cells = make([][]spot, g.nx*g.ny)
	for i, e := range els {
		for w, x := range e.ways {
			c := g.cell(x.in)
			g.cells[c] = append(g.cells[c], spot{at: x.in, el: i, way: w})
		}
	}
	return g
}

func (g *grid) cell(p plane.Point) int {
	x, y := g.column(p)
	return y*g.nx + x
}

func (g *grid) column(p plane.Point) (x, y int) {
	x = int((p.X - g.box.Min.X) / g.size)
	y = int((p.Y - g.box.Min.Y) / g.size)
	return min(max(x, 0), g.nx-1), min(max(y, 0), g.ny-1)
}

// remove takes all ways of element e out of the grid.
func (g *grid) remove(e int, ways []way) {
	for _, w := range ways {
		c := g.cell(w.in)
		keep := g.cells[c][:0]
		for _, s := range g.cells[c] {
			if s.el != e {
				keep = append(keep, s)
			}
		}
		g.cells[c] = keep
	}
}

// rings calls visit with the cells around p, ring by ring, until visit has seen a
// ring whose cells are all farther than the reach it last returned.
func (g *grid) rings(p plane.Point, visit func([]spot) (reach float64)) {
	cx, cy := g.column(p)
	reach := math.Inf(1)
	for r := 0; r < max(g.nx, g.ny); r++ {
		// Anything in ring r is at least r-1 cells away from p, whose own place in
		// (or outside) its cell is not known here.
		if float64(r-1)*g.size > reach {
			return
		}
		for y := max(cy-r, 0); y <= min(cy+r, g.ny-1); y++ {
			step := 1
			if y != cy-r && y != cy+r {
				step = 2 * r // the two sides of the ring only
			}
			for x := cx - r; x <= cx+r; x += max(step, 1) {
				if x >= 0 && x < g.nx && len(g.cells[y*g.nx+x]) > 0 {
					reach = visit(g.cells[y*g.nx+x])
				}
			}
		}
	}
}

// closest returns the way whose start is nearest to p among those left. Ties go to
// the lower element, then the lower way.
func (g *grid) closest(p plane.Point) spot {
	best := spot{distance: math.Inf(1)}
	g.rings(p, func(cell []spot) float64 {
		for _, s := range cell {
			s.distance = gap(p, s.at)
			if s.before(best) {
				best = s
			}
		}
		return best.distance
	})
	return best
}

func (s spot) before(t spot) bool {
	if s.distance != t.distance {
		return s.distance < t.distance
	}
	if s.el != t.el {
		return s.el < t.el
	}
	return s.way < t.way
}

// nearby returns the k elements other than e with a way that starts nearest to p,
// nearest first.
func (g *grid) nearby(p plane.Point, e, k int) []int {
	var found []spot // at most k, sorted, one for each element
	g.rings(p, func(cell []spot) float64 {
		for _, s := range cell {
			s.distance = gap(p, s.at)
			if s.el == e || len(found) == k && !s.before(found[k-1]) {
				continue
			}
			found = insertSpot(found, s, k)
		}
		if len(found) < k {
			return math.Inf(1)
		}
		return found[k-1].distance
	})
	out := make([]int, len(found))
	for i, s := range found {
		out[i] = s.el
	}
	return out
}

// insertSpot puts s into a sorted list of at most k, keeping the nearer of two
// spots of one element.
func insertSpot(list []spot, s spot, k int) []spot {
	for i, old := range list {
		if old.el != s.el {
			continue
		}
		if !s.before(old) {
			return list
		}
		list = append(list[:i], list[i+1:]...)
		break
	}
	i := sort.Search(len(list), func(i int) bool { return s.before(list[i]) })
	list = append(list, spot{})
	copy(list[i+1:], list[i:])
	list[i] = s
	return list[:min(len(list), k)]
}

// nearest orders the tour by always going to the nearest start that is left.
func (t *tour) nearest() {
	g := newGrid(t.els)
	at := t.start
	for i := range t.order {
		s := g.closest(at)
		t.order[i], t.place[s.el], t.way[s.el] = s.el, i, s.way
		g.remove(s.el, t.els[s.el].ways)
		at = t.els[s.el].ways[s.way].out
	}
}

// nearEach is how many neighbours of each end are kept. Moves between elements that
// are farther apart hardly ever pay.
const nearEach = 6

// neighbours returns for each element the elements near any of its ends. A closed
// element of many nodes is looked at from eight of them.
func (t *tour) neighbours() [][]int {
	g := newGrid(t.els)
	out := make([][]int, len(t.els))
	seen := make([]int, len(t.els)) // by element: 1 + the last element it was listed for
	for e, el := range t.els {
		step := (len(el.ways) + 7) / 8
		for w := 0; w < len(el.ways); w += step {
			for _, n := range g.nearby(el.ways[w].in, e, nearEach) {
				if seen[n] != e+1 {
					seen[n] = e + 1
					out[e] = append(out[e], n)
				}
			}
		}
	}
	return out
}
