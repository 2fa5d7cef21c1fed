package plan

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/unit"
)

// HoldEnds returns the changes with which an end of the panel that stands off too far, its
// tip or its foot, is held to the curve, each tried: a rib that may run as far as it can, or
// stands elsewhere; more ribs.
func (p *Plan) HoldEnds(tip bool) []finding.Remedy {
	var out []finding.Remedy
	offer := func(text string, set map[string]string, ribs design.RibValues) bool {
		q := p.withRibs(ribs)
		ok := q != nil && q.allStand() && q.holdsEnd(tip, p)
		if ok {
			out = append(out, finding.Remedy{Text: text, Set: set})
		}
		return ok
	}
	if p.Closed {
		return nil
	}
	ribs := p.V.Rib
	if tip && ribs.Short.OK {
		ribs.Short = design.Opt{}
		offer("Let the rib run as far as it may", map[string]string{"rib.short": ""}, ribs)
	}
	ribs = p.V.Rib
	set := map[string]string{}
	row := 0
	put := func(at design.RibPlaceValues) {
		set["rib.places."+strconv.Itoa(at.Row)+".across"] = unit.Bare(at.Across, p.V.Units)
		row = at.Row + 1
	}
	switch len(ribs.Places) {
	case 0:
		for n := ribs.Quantity + 1; n <= mostRibs && p.Outline.Box().H() > float64(n)*ribs.Thickness; n++ {
			ribs.Quantity = n
			if offer("Take "+strconv.Itoa(n)+" ribs", map[string]string{"rib.quantity": strconv.Itoa(n)}, ribs) {
				return out
			}
		}
		for i, s := range p.Supports {
			s.Row = i
			ribs.Places = append(ribs.Places, s.RibPlaceValues)
			put(s.RibPlaceValues)
		}
	case 1:
		one := ribs.Places[0]
		if across, ok := p.reaching(tip, ribs, nil, one); ok {
			one.Across = across
			put(one)
			ribs.Places = []design.RibPlaceValues{one}
			offer("Put the rib at "+p.len(across)+" across", set, ribs)
			ribs, set = p.V.Rib, map[string]string{}
		}
	}
	for _, at := range ribs.Places {
		row = max(row, at.Row+1)
	}
	more := p.openRib(0)
	more.Row = row
	if across, ok := p.reaching(tip, ribs, ribs.Places, more); ok {
		more.Across = across
		put(more)
		ribs.Places = append(ribs.Places[:len(ribs.Places):len(ribs.Places)], more)
		offer("Add a rib at "+p.len(across)+" across", set, ribs)
	}
	return out
}

// mostRibs bounds how many ribs are tried where their places are left open, and mostTried is
// about how many places across are tried for one: each takes a look at all of the panel.
const (
	mostRibs  = 5
	mostTried = 24
)

// withRibs returns the plan with other ribs on the same panel, nil where they can't stand.
func (p *Plan) withRibs(ribs design.RibValues) *Plan {
	q := *p
	q.Findings, q.Supports, q.Longest, q.trying = nil, nil, 0, true
	q.V.Rib = ribs
	if !supports(&q) {
		return nil
	}
	return &q
}

// allStand tells whether the panel covers every rib and none runs into itself.
func (p *Plan) allStand() bool {
	for _, s := range p.Supports {
		if s.Narrow || !p.deepEnough(s.Task) {
			return false
		}
	}
	return true
}

// holdsEnd tells whether one end of the panel stands off no more than is accepted, and the
// other no more than it did.
func (p *Plan) holdsEnd(tip bool, was *Plan) bool {
	this, other, before := p.FootEnd, p.TipEnd, was.TipEnd
	if tip {
		this, other, before = p.TipEnd, p.FootEnd, was.FootEnd
	}
	return !p.over(this) && (!p.over(other) || other.Gap <= before.Gap+0.01)
}

// reaching returns the place across at which one rib more, clear of the others, lets an end
// of the panel stand off least, the nearest to the middle of equal ones.
func (p *Plan) reaching(tip bool, ribs design.RibValues, others []design.RibPlaceValues, rib design.RibPlaceValues) (across float64, ok bool) {
	b := p.Outline.Box()
	step := math.Max(0.5, math.Ceil(2*b.H()/mostTried)/2)
	least, middle := math.Inf(1), p.middle()
	ribs.Places = append(others[:len(others):len(others)], rib)
	for k := math.Ceil(b.Min.Y / step); k*step <= b.Max.Y; k++ {
		at := k * step
		clear := true
		for _, o := range others {
			clear = clear && math.Abs(o.Across-at) > (o.Thickness+rib.Thickness)/2
		}
		if _, _, covered := p.reach(at, rib.Thickness); !clear || !covered {
			continue
		}
		ribs.Places[len(others)].Across = at
		q := p.withRibs(ribs)
		if q == nil {
			continue
		}
		gap := q.FootEnd.Gap
		if tip {
			gap = q.TipEnd.Gap
		}
		if gap < least-0.01 || gap < least+0.01 && math.Abs(at-middle) < math.Abs(across-middle) {
			across, least = at, math.Min(gap, least)
		}
	}
	return across, !math.IsInf(least, 1)
}
