package sheet

import (
	"math"
	"math/bits"

	"springrib/internal/plane"
)

// crowd moves overlapping items until none overlaps. Each item in trouble goes where
// it overlaps least, every pair's overlap weighed, and the weights of pairs that stay
// in trouble grow: guided local search, as in Umetani et al., "Solving the irregular
// strip packing problem via guided local search for overlap minimization", ITOR
// 16(6), 2009, with sampled places and the weight rule of Gardeyn, Vanden Berghe &
// Wauters, arXiv 2509.13329, 2025. An overlap is measured by the way out of the nofit (see
// loss).
type crowd struct {
	*packer
	sheets  int       // how many sheets may be used
	width   float64   // of the last of them
	beds    []int     // by sheet
	on      [][]int   // items by sheet
	screens []*screen // by sheet
	boxes   []bounds  // by item: what it covers, grown so that those of two that overlap meet
	weight  []float64
	walls   []float64 // weights of the beds' outlines, by item
	now     []float64 // loss by pair as tally found it
}

func (p *packer) newCrowd(sheets int, width float64) *crowd {
	n := len(p.items)
	c := &crowd{packer: p, sheets: sheets, width: width, on: make([][]int, sheets)}
	c.weight, c.walls, c.now = make([]float64, n*n), make([]float64, n), make([]float64, n*n)
	c.boxes = make([]bounds, n)
	for s := range sheets {
		c.beds = append(c.beds, p.job.bedOf(s))
		room := p.rooms[c.beds[s]]
		if s == sheets-1 {
			room.Max.X = min(room.Max.X, room.Min.X+width)
		}
		c.screens = append(c.screens, newScreen(n, room))
	}
	c.sort()
	return c
}

// sort lists the items by sheet and their boxes.
func (c *crowd) sort() {
	for s := range c.on {
		c.on[s] = c.on[s][:0]
	}
	for i := range c.items {
		if s := c.items[i].sheet; s >= 0 {
			c.on[s] = append(c.on[s], i)
		}
		c.box(i)
	}
}

// box notes the box of an item as it lies now.
func (c *crowd) box(i int) {
	it := &c.items[i]
	k := &c.kinds[it.kind].cover
	c.boxes[i] = bounds{k.x0 + it.at.X, k.y0 + it.at.Y, k.x1 + it.at.X, k.y1 + it.at.Y}
	for s, g := range c.screens {
		if s == it.sheet {
			g.put(i, &c.boxes[i])
		} else {
			g.remove(i)
		}
	}
}

// room returns the span of kind k on a sheet.
func (c *crowd) room(sheet, k int) (plane.Box, bool) {
	w := math.Inf(1)
	if sheet == c.sheets-1 {
		w = c.width
	}
	return c.span(c.beds[sheet], k, w)
}

// spot is a place for an item and what it costs there.
type spot struct {
	cost float64
	lie
}

// cost returns the weighed overlap of item i at a spot, or anything no less than
// bound once it is no less than that. All time goes here, and the
// page's core inlines nothing of this package: so it calls little.
func (c *crowd) cost(i int, s *spot, bound float64) float64 {
	sum := 0.0
	if bed := c.beds[s.sheet]; c.edges[bed] != nil {
		sum = c.walls[i] * c.border(bed, s.kind).at(s.at.X, s.at.Y)
	}
	n, kinds := len(c.items), len(c.kinds)
	weight := c.weight[i*n : (i+1)*n]
	k := &c.kinds[s.kind].cover
	x0, y0, x1, y1 := k.x0+s.at.X, k.y0+s.at.Y, k.x1+s.at.X, k.y1+s.at.Y
	g := c.screens[s.sheet]
	left, right := stripOf((x0-g.x)*g.sx)*g.words, stripOf((x1-g.x)*g.sx)*g.words
	below, above := stripOf((y0-g.y)*g.sy)*g.words, stripOf((y1-g.y)*g.sy)*g.words
	for w := range g.words {
		near := ^(g.left[left+w] | g.right[right+w] | g.below[below+w] | g.above[above+w])
		c.budget.spent += lookWork
		for ; near != 0; near &= near - 1 {
			j := w<<6 + bits.TrailingZeros64(near)
			o := &c.boxes[j]
			c.budget.spent += 2
			if o.x0 >= x1 || o.x1 <= x0 || o.y0 >= y1 || o.y1 <= y0 || j == i {
				continue
			}
			it := &c.items[j]
			t := c.losses.index[it.kind*kinds+s.kind]
			if t == 0 {
				c.loss(it.kind, s.kind)
				t = c.losses.index[it.kind*kinds+s.kind]
			}
			if sum += weight[j] * c.losses.turns[t].look(s.at.X-it.at.X, s.at.Y-it.at.Y); sum >= bound {
				return sum
			}
		}
	}
	return sum
}

// lookWork is what a look counts for, for each word of the screen, besides 2 for each box that it
// compares: about so that ten steps take 100 ns natively.
const lookWork = 12

// tally measures all overlaps and returns their sum.
func (c *crowd) tally() float64 {
	n := len(c.items)
	total := 0.0
	for _, list := range c.on {
		for a, i := range list {
			it := &c.items[i]
			c.now[i*n+i] = 0
			if t := c.border(c.beds[it.sheet], it.kind); t != nil && !it.fixed {
				c.now[i*n+i] = t.at(it.at.X, it.at.Y)
				total += c.now[i*n+i]
			}
			c.budget.spent += int64(a)
			for _, j := range list[:a] {
				d := c.overlap(i, j)
				c.now[i*n+j], c.now[j*n+i] = d, d
				total += d
			}
		}
	}
	return total
}

// overlap returns the loss of two items as they lie; none of two that are pinned.
func (c *crowd) overlap(i, j int) float64 {
	a, b := &c.boxes[j], &c.boxes[i]
	if a.x0 >= b.x1 || a.x1 <= b.x0 || a.y0 >= b.y1 || a.y1 <= b.y0 || c.items[i].fixed && c.items[j].fixed {
		return 0
	}
	return c.loss(c.items[j].kind, c.items[i].kind).look(c.items[i].at.X-c.items[j].at.X, c.items[i].at.Y-c.items[j].at.Y)
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
	c.sort()
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
	c.box(i)
}
