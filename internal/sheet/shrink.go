package sheet

import (
	"math"
	"slices"
	"sort"

	"springrib/internal/plane"
)

// shrink shortens what is used of the last sheet: first in larger steps, beginning
// again from other arrangements when one gets stuck, then in small ones. Found is
// called at each gain. It returns when the effort is spent, when nothing more can be
// gained, or when the last sheet is empty.
func (p *packer) shrink(found func()) {
	n := p.lastSheet() + 1
	s := &shrinking{crowd: p.newCrowd(n, p.length(n-1)), found: found}
	s.length = s.width
	s.kept = s.keep()
	limit := p.budget.limit
	p.budget.limit = p.budget.spent + (limit-p.budget.spent)*17/20
	s.explore()
	p.budget.limit = limit
	s.restore(s.kept)
	s.compress()
	s.restore(s.kept)
}

// shrinking is the state of shrink: the best that was found so far.
type shrinking struct {
	*crowd
	length float64
	kept   []item
	found  func()
}

// gain records a better arrangement.
func (s *shrinking) gain() {
	s.length = s.packer.length(s.sheets - 1)
	s.kept = s.keep()
	s.found()
}

// stuckAfter is how many attempts in a row may fail before explore ends.
const stuckAfter = 150

// explore shortens by a hundredth at a time. An attempt that fails goes to a pool;
// the next begins from one of the better ones with two large parts swapped.
func (s *shrinking) explore() {
	var pool []arrangement
	for len(pool) < stuckAfter && !s.budget.over() {
		if !s.narrow(s.length*0.99, -1) {
			return
		}
		if s.separate(30, 2) {
			pool = pool[:0]
			s.gain()
			continue
		}
		pool = append(pool, arrangement{s.tally(), s.keep()})
		sort.SliceStable(pool, func(i, j int) bool { return pool[i].overlap < pool[j].overlap })
		s.restore(pool[int(float64(len(pool))*s.random.Float64()*s.random.Float64())].items)
		s.disrupt()
	}
}

// compress shortens by small steps that grow after a gain and shrink after none.
func (s *shrinking) compress() {
	for step := 0.0005; step > 1e-6 && !s.budget.over(); {
		s.width = s.length
		if !s.narrow(s.length*(1-step), s.random.Float64()*s.length) {
			return
		}
		if s.separate(40, 1) {
			s.gain()
			step *= 1.2
			continue
		}
		s.restore(s.kept)
		step *= 0.7
	}
}

// arrangement is a state that overlaps.
type arrangement struct {
	overlap float64
	items   []item
}

// lastSheet returns the highest number of a sheet in use.
func (p *packer) lastSheet() int {
	n := -1
	for i := range p.items {
		n = max(n, p.items[i].sheet)
	}
	return n
}

// length returns how far from the left edge of the room free items reach.
func (p *packer) length(sheet int) float64 {
	x := 0.0
	for i := range p.items {
		if it := &p.items[i]; it.sheet == sheet && !it.fixed {
			x = math.Max(x, it.at.X+p.kinds[it.kind].box.Max.X-p.rooms[p.job.bedOf(sheet)].Min.X)
		}
	}
	return x
}

// narrow sets the width of the last sheet. What lies to the right of cut moves left
// with the edge; cut < 0 moves only what sticks out. An item that is too wide goes to
// another sheet. It returns false when nothing can be gained: the last sheet has no
// free item, or too little room for what must be on it.
func (c *crowd) narrow(width, cut float64) bool {
	last := c.sheets - 1
	by := c.width - width
	c.width = width
	area, loose := 0.0, 0
	for _, i := range slices.Clone(c.on[last]) {
		it := &c.items[i]
		area += it.area
		if it.fixed {
			continue
		}
		loose++
		if cut >= 0 && it.at.X+c.kinds[it.kind].box.Centre().X > cut {
			it.at.X -= by
		}
		if !c.bring(i) && (last == 0 || !c.exile(i, last)) {
			return false
		}
	}
	full := c.rooms[c.job.bedOf(last)].H() * width
	return loose > 0 && (last > 0 || area <= full)
}

// bring puts an item in the room of its sheet, at another turn if need be.
func (c *crowd) bring(i int) bool {
	it := &c.items[i]
	r, ok := c.room(it.sheet, it.kind)
	for k := 0; !ok && k < len(it.kinds); k++ {
		if r, ok = c.room(it.sheet, it.kinds[k]); ok {
			it.kind = it.kinds[k]
		}
	}
	if ok {
		it.at = clampTo(r, it.at)
	}
	return ok
}

// exile puts an item somewhere on one of the first sheets, on which it may overlap.
func (c *crowd) exile(i, sheets int) bool {
	it := &c.items[i]
	first := c.random.IntN(sheets)
	for n := range sheets {
		to := (first + n) % sheets
		for _, k := range it.kinds {
			if r, ok := c.room(to, k); ok {
				at := plane.Pt(r.Min.X+r.W()*c.random.Float64(), r.Min.Y+r.H()*c.random.Float64())
				c.put(i, spot{0, to, k, at})
				return true
			}
		}
	}
	return false
}

// disrupt swaps the places of two large items.
func (c *crowd) disrupt() {
	order := slices.DeleteFunc(c.byArea(), func(i int) bool { return c.items[i].sheet < 0 })
	if len(order) < 2 {
		return
	}
	large := max(2, len(order)/3)
	a := order[c.random.IntN(large)]
	b := order[c.random.IntN(large)]
	for k := 0; k < 8 && c.items[a].piece == c.items[b].piece; k++ {
		b = order[c.random.IntN(len(order))]
	}
	ia, ib := &c.items[a], &c.items[b]
	ca := ia.at.Add(c.kinds[ia.kind].box.Centre())
	cb := ib.at.Add(c.kinds[ib.kind].box.Centre())
	sa, sb := ia.sheet, ib.sheet
	c.put(a, spot{0, sb, ia.kind, cb.Sub(c.kinds[ia.kind].box.Centre())})
	c.put(b, spot{0, sa, ib.kind, ca.Sub(c.kinds[ib.kind].box.Centre())})
	for _, i := range []int{a, b} {
		if !c.bring(i) {
			c.exile(i, c.sheets)
		}
	}
}
