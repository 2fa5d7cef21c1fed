package sheet

import "springrib/internal/plane"

// squeeze tries to lay items that found no room on the sheets there are, small ones
// first, and returns those that still have none.
func (p *packer) squeeze(left []int, found func(left []int)) []int {
	n := p.lastSheet() + 1
	rest := append([]int(nil), left...)
	for k := len(left) - 1; k >= 0 && n > 0 && !p.budget.over(); k-- {
		c := p.newCrowd(n, unbounded)
		if !c.spare(p.items[left[k]].area) {
			continue
		}
		kept := c.keep()
		if c.exile(left[k], n) && p.within(0.1, func() bool { return c.separate(60, 2) }) {
			rest = append(rest[:k:k], rest[k+1:]...)
			found(rest)
			continue
		}
		c.restore(kept)
	}
	return rest
}

// unbounded is the width of a sheet that is used to its end.
const unbounded = 1e300

// within runs f with a share of the effort that is left.
func (p *packer) within(share float64, f func() bool) bool {
	limit := p.budget.limit
	p.budget.limit = p.budget.spent + int64(share*float64(limit-p.budget.spent))
	ok := f()
	p.budget.limit = limit
	return ok
}

// spare reports whether area more could be on the sheets: no packing of outlines is
// expected to fill more than nineteen twentieths.
func (c *crowd) spare(area float64) bool {
	room := 0.0
	for s := range c.sheets {
		b := &c.job.Beds[c.job.bedOf(s)]
		r := c.rooms[c.job.bedOf(s)]
		room += min(b.Region().Area(), r.W()*r.H())
	}
	for i := range c.items {
		if c.items[i].sheet >= 0 && c.items[i].sheet < c.sheets {
			area += c.items[i].area
		}
	}
	return area <= 0.95*room
}

// gather tries to do without the last sheet, again and again.
func (p *packer) gather(found func()) {
	for n := p.lastSheet(); n > 0 && !p.budget.over(); n = p.lastSheet() {
		kept := append([]item(nil), p.items...)
		if !p.clearLast(n) {
			copy(p.items, kept)
			return
		}
		found()
	}
}

// clearLast spreads the items of sheet n over those before it.
func (p *packer) clearLast(n int) bool {
	area := 0.0
	var move []int
	for _, i := range p.on(n) {
		if p.items[i].fixed {
			return false
		}
		area += p.items[i].area
		move = append(move, i)
	}
	for _, i := range move {
		p.items[i].sheet, p.items[i].at = -1, plane.Point{}
	}
	c := p.newCrowd(n, unbounded)
	if !c.spare(area) {
		return false
	}
	for _, i := range move {
		if !c.exile(i, n) {
			return false
		}
	}
	return p.within(0.3, func() bool { return c.separate(60, 3) })
}

// rest lets every free item sink down and left as far as it goes, from the left, so
// that parts lie at the gap from each other and not loosely in between.
func (p *packer) rest() {
	for n := range p.lastSheet() + 1 {
		list := p.on(n)
		for range 2 {
			for _, i := range p.fromLeft(list) {
				it := &p.items[i]
				if it.fixed {
					continue
				}
				others := make([]int, 0, len(list))
				for _, j := range list {
					if j != i {
						others = append(others, j)
					}
				}
				it.at = p.settle(it.kind, p.job.bedOf(n), others, it.at)
			}
		}
	}
}
