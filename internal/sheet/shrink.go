package sheet

import (
	"math"
	"slices"

	"springrib/internal/plane"
)

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

// narrowness is what came of making the last sheet narrower.
type narrowness int

const (
	narrowed  narrowness = iota
	emptied              // there was nothing on it
	tooNarrow            // there is too little room for what must be on it, or no free item
)

// narrow sets the width of the last sheet. What lies to the right of cut moves left
// with the edge; cut < 0 moves only what sticks out. An item that is too wide goes to
// another sheet.
func (c *crowd) narrow(width, cut float64) narrowness {
	last := c.sheets - 1
	by := c.width - width
	c.width = width
	area, loose, had := 0.0, 0, len(c.on[last])
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
			return tooNarrow
		}
	}
	full := c.rooms[c.job.bedOf(last)].H() * width
	switch {
	case had == 0:
		return emptied
	case loose == 0 || last == 0 && area > full:
		return tooNarrow
	}
	return narrowed
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
		c.box(i)
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
				c.put(i, spot{0, lie{k, to, at}})
				return true
			}
		}
	}
	return false
}
