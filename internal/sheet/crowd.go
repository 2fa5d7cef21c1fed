package sheet

import (
	"math"

	"springrib/internal/plane"
)

// crowd moves overlapping items until none overlaps. Each item in trouble goes where
// it overlaps least, every pair's overlap weighed, and the weights of pairs that stay
// in trouble grow: guided local search, as in Umetani et al., "Solving the irregular
// strip packing problem via guided local search for overlap minimization", ITOR
// 16(6), 2009, with sampled places and the weight rule of Gardeyn, Vanden Berghe &
// Wauters, arXiv 2509.13329, 2025. An overlap is measured by the depth in the nofit.
type crowd struct {
	*packer
	sheets int     // how many sheets may be used
	width  float64 // of the last of them
	on     [][]int // items by sheet
	weight []float64
	walls  []float64 // weights of the beds' outlines, by item
	now    []float64 // depth by pair as tally found it
}

func (p *packer) newCrowd(sheets int, width float64) *crowd {
	n := len(p.items)
	c := &crowd{packer: p, sheets: sheets, width: width, on: make([][]int, sheets)}
	c.weight, c.walls, c.now = make([]float64, n*n), make([]float64, n), make([]float64, n*n)
	for i := range p.items {
		if s := p.items[i].sheet; s >= 0 {
			c.on[s] = append(c.on[s], i)
		}
	}
	return c
}

// room returns the span of kind k on a sheet.
func (c *crowd) room(sheet, k int) (plane.Box, bool) {
	w := math.Inf(1)
	if sheet == c.sheets-1 {
		w = c.width
	}
	return c.span(c.job.bedOf(sheet), k, w)
}

// spot is a place for an item and what it costs there.
type spot struct {
	cost float64
	lie
}

// cost returns the weighed overlap of item i at a spot, or anything no less than
// bound once it is no less than that.
func (c *crowd) cost(i int, s *spot, bound float64) float64 {
	sum := 0.0
	if w := c.wall(c.job.bedOf(s.sheet), s.kind); w != nil {
		sum = c.walls[i] * w.depth(s.at)
		c.budget.spent += int64(len(w.zones))
	}
	weight := c.weight[i*len(c.items) : (i+1)*len(c.items)]
	for _, j := range c.on[s.sheet] {
		if sum >= bound {
			break
		}
		if j != i {
			sum += weight[j] * c.depth(c.items[j].kind, c.items[j].at, s.kind, s.at)
		}
	}
	return sum
}

// tally measures all overlaps and returns their sum.
func (c *crowd) tally() float64 {
	n := len(c.items)
	total := 0.0
	for _, list := range c.on {
		for a, i := range list {
			it := &c.items[i]
			c.now[i*n+i] = 0
			if w := c.wall(c.job.bedOf(it.sheet), it.kind); w != nil && !it.fixed {
				c.now[i*n+i] = w.depth(it.at)
				total += c.now[i*n+i]
			}
			for _, j := range list[:a] {
				d := 0.0
				if !it.fixed || !c.items[j].fixed {
					d = c.depth(c.items[j].kind, c.items[j].at, it.kind, it.at)
				}
				c.now[i*n+j], c.now[j*n+i] = d, d
				total += d
			}
		}
	}
	return total
}

// reweigh raises the weights of the pairs in trouble, the more the deeper, and lets
// the others sink back to 1.
func (c *crowd) reweigh() {
	n := len(c.items)
	worst := 0.0
	for _, list := range c.on {
		for a, i := range list {
			for _, j := range list[:a+1] {
				worst = max(worst, c.now[i*n+j])
			}
		}
	}
	next := func(w, d float64) float64 {
		if d > 0 {
			return w * (1.2 + 0.8*d/worst)
		}
		return max(1, w*0.95)
	}
	for _, list := range c.on {
		for a, i := range list {
			c.walls[i] = next(c.walls[i], c.now[i*n+i])
			for _, j := range list[:a] {
				w := next(c.weight[i*n+j], c.now[i*n+j])
				c.weight[i*n+j], c.weight[j*n+i] = w, w
			}
		}
	}
}

// troubled lists the free items that overlap something, in random order.
func (c *crowd) troubled() []int {
	n := len(c.items)
	var out []int
	for _, list := range c.on {
		for _, i := range list {
			if c.items[i].fixed {
				continue
			}
			for _, j := range list {
				if c.now[i*n+j] > 0 {
					out = append(out, i)
					break
				}
			}
		}
	}
	c.random.Shuffle(len(out), func(a, b int) { out[a], out[b] = out[b], out[a] })
	return out
}

// restore puts the items back.
func (c *crowd) restore(kept []lie) {
	c.lieAt(kept)
	for s := range c.on {
		c.on[s] = c.on[s][:0]
	}
	for i := range c.items {
		if s := c.items[i].sheet; s >= 0 {
			c.on[s] = append(c.on[s], i)
		}
	}
}

// put moves item i to a spot.
func (c *crowd) put(i int, s spot) {
	it := &c.items[i]
	if it.sheet != s.sheet {
		if it.sheet >= 0 {
			list := c.on[it.sheet]
			for k, j := range list {
				if j == i {
					c.on[it.sheet] = append(list[:k], list[k+1:]...)
					break
				}
			}
		}
		c.on[s.sheet] = append(c.on[s.sheet], i)
	}
	it.lie = s.lie
}
