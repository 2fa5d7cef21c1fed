package sheet

import (
	"math"

	"springrib/internal/plane"
)

// How a place for an item is sought: samples anywhere and samples near where it is;
// the best of all is refined.
const (
	samplesFar  = 20
	samplesNear = 10
)

// move puts item i where its weighed overlap is least among the places it looks at.
func (c *crowd) move(i int) {
	it := &c.items[i]
	here := spot{math.Inf(1), it.lie}
	here.cost = c.cost(i, &here, math.Inf(1))
	if here.cost == 0 {
		return
	}
	best := here
	for range samplesNear {
		s := here
		s.kind = it.kinds[c.random.IntN(len(it.kinds))]
		d := 0.3 * c.kinds[it.kind].size
		s.at = it.at.Add(plane.Pt(d*(c.random.Float64()-0.5), d*(c.random.Float64()-0.5)))
		if s.kind != it.kind { // about the same middle
			s.at = s.at.Add(c.kinds[it.kind].box.Centre()).Sub(c.kinds[s.kind].box.Centre())
		}
		c.sample(i, s, &best)
	}
	for range samplesFar {
		s := spot{lie: lie{sheet: it.sheet, kind: it.kinds[c.random.IntN(len(it.kinds))]}}
		if c.sheets > 1 && c.random.IntN(2) == 0 {
			s.sheet = c.random.IntN(c.sheets)
		}
		if r, ok := c.room(s.sheet, s.kind); ok {
			s.at = plane.Pt(r.Min.X+r.W()*c.random.Float64(), r.Min.Y+r.H()*c.random.Float64())
			c.sample(i, s, &best)
		}
	}
	best = c.refine(i, best, 0.05, 0.00005)
	if best.cost > 0 {
		best = c.slip(i, best)
	}
	if best.cost < here.cost {
		c.put(i, best)
	}
}

// sample looks at a spot, brought into the room, and makes it the best if it is.
func (c *crowd) sample(i int, s spot, best *spot) {
	r, ok := c.room(s.sheet, s.kind)
	if !ok {
		return
	}
	s.at = clampTo(r, s.at)
	if s.cost = c.cost(i, &s, best.cost); s.cost < best.cost {
		*best = s
	}
}

func clampTo(r plane.Box, p plane.Point) plane.Point {
	return plane.Pt(max(r.Min.X, min(r.Max.X, p.X)), max(r.Min.Y, min(r.Max.Y, p.Y)))
}

// refine goes downhill from s: steps along an axis or a diagonal, longer after a
// gain and shorter after none, from first to last as shares of the item's size.
func (c *crowd) refine(i int, s spot, first, last float64) spot {
	r, ok := c.room(s.sheet, s.kind)
	if !ok {
		return s
	}
	size := c.kinds[s.kind].size
	dx, dy := first*size, first*size
	for (dx > last*size || dy > last*size) && s.cost > 0 && !c.budget.over() {
		step := plane.Pt(dx, 0)
		way := c.random.IntN(4)
		switch way {
		case 1:
			step = plane.Pt(0, dy)
		case 2:
			step = plane.Pt(dx, dy)
		case 3:
			step = plane.Pt(dx, -dy)
		}
		gain := false
		for _, sense := range [2]float64{1, -1} {
			t := s
			t.at = clampTo(r, s.at.Add(step.Mul(sense)))
			if t.cost = c.cost(i, &t, s.cost); t.cost < s.cost {
				s, gain = t, true
				break
			}
		}
		k := 0.5
		if gain {
			k = 1.1
		}
		if way != 1 {
			dx *= k
		}
		if way != 0 {
			dy *= k
		}
	}
	return s
}

// slip looks for a place clear of everything on the lines through s along both axes,
// not far off; if there is none it returns s.
func (c *crowd) slip(i int, s spot) spot {
	r, ok := c.room(s.sheet, s.kind)
	if !ok {
		return s
	}
	far := 0.05 * c.kinds[s.kind].size
	bed := c.job.bedOf(s.sheet)
	others := make([]int, 0, len(c.on[s.sheet]))
	for _, j := range c.on[s.sheet] {
		if j != i {
			others = append(others, j)
		}
	}
	if x, ok := c.freeLevel(s.kind, bed, others, s.at.Y, max(r.Min.X, s.at.X-far), min(r.Max.X, s.at.X+far), s.at.X); ok {
		s.at.X, s.cost = x, 0
		return s
	}
	if y, ok := c.freeUpright(s.kind, bed, others, s.at.X, max(r.Min.Y, s.at.Y-far), min(r.Max.Y, s.at.Y+far), s.at.Y); ok {
		s.at.Y, s.cost = y, 0
	}
	return s
}
