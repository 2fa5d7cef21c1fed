package sheet

import (
	"math"
	"slices"
)

// shrink shortens what is used of the last sheet: first in larger steps, beginning
// again from other arrangements when one gets stuck, then in small ones. Found is
// called at each gain.
func (p *packer) shrink(found func()) {
	n := p.lastSheet() + 1
	length := p.length(n - 1)
	c := p.newCrowd(n, length)
	kept := c.keep()
	start, limit := p.budget.spent, p.budget.limit
	explore := start + (limit-start)*7/10
	step := 0.01
	var pool []arrangement
	for p.budget.spent < explore && !p.budget.over() {
		c.narrow(length*(1-step), -1)
		p.budget.limit = min(limit, explore)
		ok := c.separate(60, 3)
		p.budget.limit = limit
		if ok {
			length = p.length(n - 1)
			kept = c.keep()
			pool = pool[:0]
			found()
			continue
		}
		pool = append(pool, arrangement{c.tally(), c.keep()})
		slices.SortStableFunc(pool, func(a, b arrangement) int { return sign(a.overlap - b.overlap) })
		pick := pool[int(float64(len(pool))*p.random.Float64()*p.random.Float64())]
		c.restore(pick.items)
		c.disrupt()
	}
	c.restore(kept)
	for step = 0.0005; step > 1e-6 && !p.budget.over(); {
		c.narrow(length*(1-step), p.random.Float64()*length)
		if c.separate(40, 1) {
			length = p.length(n - 1)
			kept = c.keep()
			found()
			step *= 1.2
			continue
		}
		c.restore(kept)
		step *= 0.7
	}
	c.restore(kept)
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
// with the edge; cut < 0 moves only what sticks out.
func (c *crowd) narrow(width, cut float64) {
	last := c.sheets - 1
	by := c.width - width
	c.width = width
	for _, i := range slices.Clone(c.on[last]) {
		it := &c.items[i]
		if it.fixed {
			continue
		}
		if cut >= 0 && it.at.X+c.kinds[it.kind].box.Centre().X > cut {
			it.at.X -= by
		}
		r, ok := c.room(last, it.kind)
		for _, k := range it.kinds {
			if ok {
				break
			}
			it.kind = k
			r, ok = c.room(last, k)
		}
		if ok {
			it.at = clampTo(r, it.at)
		}
	}
}

// disrupt swaps the places of two large items.
func (c *crowd) disrupt() {
	order := c.byArea()
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
		it := &c.items[i]
		if r, ok := c.room(it.sheet, it.kind); ok {
			it.at = clampTo(r, it.at)
		}
	}
}
