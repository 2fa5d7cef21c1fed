package sheet

import (
	"math"
	"slices"

	"springrib/internal/plane"
)

// exploring shortens what is used of the last sheet, in steps that get smaller where they
// fail. Where the smallest fails it begins again from other arrangements, until its share
// of the effort is spent. What it does follows Gardeyn, Vanden Berghe & Wauters, arXiv
// 2509.13329, 2025.
type exploring struct {
	c      *crowd
	until  int64
	length float64 // at best
	step   float64 // share of the length by which it is shortened
	pool   []arrangement
}

// Shares of the length. Measured on public instances: a first step of 0.1 % does as well
// in a long time, of 1 % better in a short one.
const (
	firstStep = 0.01
	lastStep  = 0.01 / 16
)

// exploreShare of what is left of the effort is for exploring, the rest to compress.
const exploreShare = 0.8

// poolSize is how many failed arrangements are kept to begin again from.
const poolSize = 200

// arrangement is a state that overlaps.
type arrangement struct {
	overlap float64
	lies    []lie
}

func (e *exploring) anew() { e.c, e.pool = nil, nil }

func (e *exploring) next(s *Search) *separation {
	if e.until == 0 {
		e.until = s.p.budget.share(exploreShare)
	}
	for s.p.budget.spent < e.until {
		if e.c == nil && !e.begin(s) {
			break
		}
		if len(e.pool) > 0 {
			pick := int(float64(len(e.pool)) * s.p.random.Float64() * s.p.random.Float64())
			e.c.restore(e.pool[pick].lies)
			e.c.disrupt()
			return e.c.separate(e.until, 200, 3)
		}
		e.c.restore(s.kept)
		e.c.width = e.length
		switch e.c.narrow(e.length*(1-e.step), e.length/2) {
		case narrowed:
			return e.c.separate(e.until, 200, 3)
		case emptied: // the sheet before is the last one now
			e.c = nil
		case tooNarrow:
			if e.step /= 2; e.step < lastStep {
				return nil
			}
		}
	}
	return nil
}

// begin starts from the best layout so far; false when there is none to shorten.
func (e *exploring) begin(s *Search) bool {
	s.p.lieAt(s.kept)
	n := s.p.lastSheet()
	if n < 0 {
		return false
	}
	e.length = s.p.length(n)
	e.c = s.p.newCrowd(n+1, e.length)
	e.step = firstStep
	return true
}

func (e *exploring) ended(s *Search, apart bool) {
	if apart {
		e.pool = nil
		e.length = s.p.length(e.c.sheets - 1)
		s.gain()
	} else if e.step > lastStep {
		e.step /= 2
	} else {
		e.fail()
	}
	s.stuck = len(e.pool) > 0
}

// fail puts the arrangement in the pool, by its overlap.
func (e *exploring) fail() {
	a := arrangement{e.c.tally(), e.c.lies(nil)}
	if len(e.pool) == poolSize {
		e.pool = e.pool[:poolSize-1]
	}
	e.pool = append(e.pool, a)
	k := len(e.pool) - 1
	for ; k > 0 && e.pool[k-1].overlap > a.overlap; k-- {
		e.pool[k] = e.pool[k-1]
	}
	e.pool[k] = a
}

// largeShare is the share of all hulls' area that large items make up, largest first.
const largeShare = 0.75

// disrupt swaps two large items that are not alike. What lay deepest under the newcomer
// goes to the place that it left.
func (c *crowd) disrupt() {
	large := c.large()
	if len(large) < 2 {
		return
	}
	a := large[c.random.IntN(len(large))]
	b := a
	for k := 0; k < 16 && c.alike(a, b); k++ {
		b = large[c.random.IntN(len(large))]
	}
	if a != b {
		c.swap(a, b)
	}
}

// large lists the large free items.
func (c *crowd) large() []int {
	all, sum := 0.0, 0.0
	var out []int
	order := c.byArea()
	for _, i := range order {
		all += c.kinds[c.items[i].kind].hull
	}
	for _, i := range order {
		if c.items[i].sheet >= 0 && (sum < largeShare*all || len(out) < 2) {
			out = append(out, i)
		}
		sum += c.kinds[c.items[i].kind].hull
	}
	return out
}

// alike tells whether to swap two items changes little: their hulls' area and their size
// differ by under a hundredth.
func (c *crowd) alike(a, b int) bool {
	ka, kb := c.kinds[c.items[a].kind], c.kinds[c.items[b].kind]
	near := func(x, y float64) bool { return math.Abs(x-y) <= 0.01*max(x, y) }
	return a == b || near(ka.hull, kb.hull) || near(ka.size, kb.size)
}

// swap puts each of two items about where the other lay. What lies under one at its new
// place, with its own middle there, goes to the place that that one left.
func (c *crowd) swap(a, b int) {
	ma, mb := c.middle(a), c.middle(b)
	sa, sb := c.items[a].sheet, c.items[b].sheet
	c.moveTo(a, sb, mb)
	c.moveTo(b, sa, ma)
	c.clear(a, b, sa, ma.Sub(mb))
	c.clear(b, a, sb, mb.Sub(ma))
}

// clear moves what lies under item i, but for one, by a way to a sheet.
func (c *crowd) clear(i, but, sheet int, by plane.Point) {
	m, box := c.middle(i), c.kinds[c.items[i].kind].box
	for _, j := range slices.Clone(c.on[c.items[i].sheet]) {
		if j == i || j == but || c.items[j].fixed {
			continue
		}
		mj := c.middle(j)
		if d := mj.Sub(m); math.Abs(d.X) < underShare*box.W() && math.Abs(d.Y) < underShare*box.H() {
			c.moveTo(j, sheet, mj.Add(by))
		}
	}
}

// underShare of an item's width and height, about its middle, is where others are moved
// away from when it comes.
const underShare = 0.25

// middle returns the middle of an item's box.
func (c *crowd) middle(i int) plane.Point {
	return c.items[i].at.Add(c.kinds[c.items[i].kind].box.Centre())
}

// moveTo puts an item with its middle at a point, as near as the room of the sheet lets it.
func (c *crowd) moveTo(i, sheet int, middle plane.Point) {
	k := c.items[i].kind
	c.put(i, spot{0, lie{k, sheet, middle.Sub(c.kinds[k].box.Centre())}})
	if !c.bring(i) {
		c.exile(i, c.sheets)
	}
}
