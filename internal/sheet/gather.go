package sheet

import "springrib/internal/plane"

// squeezing tries to lay items that found no room on the sheets there are, small ones
// first.
type squeezing struct {
	k int // which of those left over is next
	c *crowd
}

func (q *squeezing) next(s *Search) *separation {
	n := s.p.lastSheet() + 1
	for ; q.k >= 0 && n > 0; q.k-- {
		q.c = s.p.newCrowd(n, unbounded)
		if q.c.spare(s.p.items[s.left[q.k]].area) && q.c.exile(s.left[q.k], n) {
			return q.c.separate(s.p.budget.share(0.1), 60, 2)
		}
	}
	return nil
}

func (q *squeezing) ended(s *Search, apart bool) {
	if apart {
		s.left = append(s.left[:q.k:q.k], s.left[q.k+1:]...)
		s.gain()
	} else {
		s.p.lieAt(s.kept)
	}
	q.k--
}

func (q *squeezing) anew() { q.k = -1 }

// unbounded is the width of a sheet that is used to its end.
const unbounded = 1e300

// share returns what is spent once a share of what is left of the effort is.
func (b *budget) share(of float64) int64 { return b.spent + int64(of*float64(b.limit-b.spent)) }

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

// gathering tries to do without the last sheet, again and again.
type gathering struct{ failed bool }

func (g *gathering) next(s *Search) *separation {
	if g.failed {
		return nil
	}
	if n := s.p.lastSheet(); n > 0 {
		if c := s.p.clearLast(n); c != nil {
			return c.separate(s.p.budget.share(0.3), 60, 3)
		}
	}
	s.p.lieAt(s.kept)
	return nil
}

func (g *gathering) ended(s *Search, apart bool) {
	if apart {
		s.gain()
		return
	}
	s.p.lieAt(s.kept)
	g.failed = true
}

func (g *gathering) anew() { g.failed = false }

// clearLast spreads the items of sheet n over those before it; nil when they can't go there.
func (p *packer) clearLast(n int) *crowd {
	area := 0.0
	var move []int
	for _, i := range p.on(n) {
		if p.items[i].fixed {
			return nil
		}
		area += p.items[i].area
		move = append(move, i)
	}
	for _, i := range move {
		p.items[i].sheet, p.items[i].at = -1, plane.Point{}
	}
	c := p.newCrowd(n, unbounded)
	if !c.spare(area) {
		return nil
	}
	for _, i := range move {
		if !c.exile(i, n) {
			return nil
		}
	}
	return c
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
