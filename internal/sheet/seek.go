package sheet

import (
	"math"

	"springrib/internal/plane"
)

// How a place for an item is sought: samples about where it is and samples anywhere. The
// best few are refined, and the best of those once more. Measured on public instances with
// the measure of overlap that loss is: with half as many the layouts are about a point
// less dense.
const (
	samplesNear = 25
	samplesFar  = 50
	samplesKept = 3
)

// Shares of the lesser side of an item's box: how near to each other two samples of a turn
// count as one, and from what step to what step samples and the best of them are refined.
const (
	apartShare              = 0.05
	roughFirst, roughLast   = 0.25, 0.02
	finelyFirst, finelyLast = 0.01, 0.001
)

// samples are the best places so far, the best first.
type samples struct {
	spots [samplesKept]spot
	n     int
}

// bound is the cost from which on a place is none of the best.
func (b *samples) bound() float64 {
	if b.n < samplesKept {
		return math.Inf(1)
	}
	return b.spots[b.n-1].cost
}

// add brings in a place that costs less than bound. Of places nearer than close to each
// other at one turn only the better stays.
func (b *samples) add(s spot, close float64) {
	for k := range b.spots[:b.n] {
		o := &b.spots[k]
		if o.sheet != s.sheet || o.kind != s.kind || max(math.Abs(o.at.X-s.at.X), math.Abs(o.at.Y-s.at.Y)) >= close {
			continue
		}
		if o.cost <= s.cost {
			return
		}
		copy(b.spots[k:], b.spots[k+1:b.n])
		b.n--
		break
	}
	k := min(b.n, samplesKept-1)
	for ; k > 0 && b.spots[k-1].cost > s.cost; k-- {
		b.spots[k] = b.spots[k-1]
	}
	b.spots[k] = s
	b.n = min(b.n+1, samplesKept)
}

// move puts item i where its weighed overlap is least among the places it looks at.
func (c *crowd) move(i int) {
	it := &c.items[i]
	here := spot{0, it.lie}
	here.cost = c.cost(i, &here, math.Inf(1))
	if here.cost == 0 {
		return
	}
	var best samples
	best.add(here, 0)
	own := c.kinds[it.kind].box
	for range samplesNear {
		s := here
		s.kind = it.kinds[c.random.IntN(len(it.kinds))]
		middle := plane.Pt(it.at.X+own.Min.X+own.W()*c.random.Float64(), it.at.Y+own.Min.Y+own.H()*c.random.Float64())
		s.at = middle.Sub(c.kinds[s.kind].box.Centre())
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
	least := c.refine(i, best.spots[0], roughFirst, roughLast)
	for _, s := range best.spots[1:best.n] {
		if s = c.refine(i, s, roughFirst, roughLast); s.cost < least.cost {
			least = s
		}
	}
	least = c.refine(i, least, finelyFirst, finelyLast)
	if least.cost > 0 {
		least = c.slip(i, least)
	}
	if least.cost < here.cost {
		c.put(i, least)
	}
}

// sample looks at a spot, brought into the room, and keeps it if it is one of the best.
func (c *crowd) sample(i int, s spot, best *samples) {
	r, ok := c.room(s.sheet, s.kind)
	if !ok {
		return
	}
	s.at = clampTo(r, s.at)
	bound := best.bound()
	if s.cost = c.cost(i, &s, bound); s.cost < bound {
		best.add(s, apartShare*c.kinds[s.kind].across)
	}
}

// clampTo brings p into r. Plain comparisons make it quick.
func clampTo(r plane.Box, p plane.Point) plane.Point {
	if p.X > r.Max.X {
		p.X = r.Max.X
	}
	if p.X < r.Min.X {
		p.X = r.Min.X
	}
	if p.Y > r.Max.Y {
		p.Y = r.Max.Y
	}
	if p.Y < r.Min.Y {
		p.Y = r.Min.Y
	}
	return p
}

// ways are those in which refine steps: along an axis or a diagonal.
var ways = [4]plane.Point{{X: 1}, {Y: 1}, {X: 1, Y: 1}, {X: 1, Y: -1}}

// refine goes downhill from s: steps both ways along a line, on in the same and longer
// after a gain, shorter and along another after none, from first to last as shares of the
// lesser side of the item's box.
func (c *crowd) refine(i int, s spot, first, last float64) spot {
	r, ok := c.room(s.sheet, s.kind)
	if !ok {
		return s
	}
	across := c.kinds[s.kind].across
	step := plane.Pt(first*across, first*across)
	way := c.random.IntN(4)
	for max(step.X, step.Y) > last*across && s.cost > 0 {
		w := ways[way]
		gain := false
		was := s.at
		for _, sense := range [2]float64{1, -1} {
			t := s
			t.at = clampTo(r, plane.Pt(was.X+sense*w.X*step.X, was.Y+sense*w.Y*step.Y))
			if t.cost = c.cost(i, &t, s.cost); t.cost < s.cost {
				s, gain = t, true
			}
		}
		k := longer
		if !gain {
			k = shorter[way]
		}
		if w.X != 0 {
			step.X *= k
		}
		if w.Y != 0 {
			step.Y *= k
		}
		if !gain {
			way = c.random.IntN(4)
		}
	}
	return s
}

// By how much a step of refine grows after a gain, and shrinks after none: on a diagonal
// by the root of a half, for it shrinks both ways.
const longer = 1.1

var shorter = [4]float64{0.5, 0.5, math.Sqrt2 / 2, math.Sqrt2 / 2}

// slipShare of an item's size is how far it slips: farther it hardly ever comes free.
const slipShare = 0.02

// slip looks for a place clear of everything on the lines through s along both axes,
// not far off; if there is none it returns s.
func (c *crowd) slip(i int, s spot) spot {
	r, ok := c.room(s.sheet, s.kind)
	if !ok {
		return s
	}
	far := slipShare * c.kinds[s.kind].size
	bed := c.beds[s.sheet]
	if c.deepest(i, &s) > far {
		return s
	}
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

// deepest returns the longest way out, in mm, that item i at a spot has of another.
func (c *crowd) deepest(i int, s *spot) float64 {
	deep := 0.0
	for _, j := range c.on[s.sheet] {
		it := &c.items[j]
		t := c.loss(it.kind, s.kind)
		if l := t.look(s.at.X-it.at.X, s.at.Y-it.at.Y); l > 0 && j != i {
			deep = max(deep, l/t.scale-t.first)
		}
	}
	return deep
}
