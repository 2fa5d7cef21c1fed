package plan

import (
	"math"
	"slices"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/unit"
)

// HoldEnds returns the changes with which an end of the panel that stands off too far, its
// tip or its foot, is held to the curve, each tried: ribs that are left to run as far as
// they can, a rib moved, one more rib, a longer straight there.
func (p *Plan) HoldEnds(tip bool) []finding.Remedy {
	if p.Closed || p.trying {
		return nil
	}
	var out []finding.Remedy
	add := func(r finding.Remedy, ok bool) {
		if ok {
			out = append(out, r)
		}
	}
	if tip && p.V.Rib.Short.OK {
		add(p.withRibs(tip, "Let the rib run as far as it may", map[string]string{"rib.short": ""}, func(r *design.RibValues) { r.Short = design.Opt{} }))
	}
	add(p.movedRib(tip))
	add(p.oneMoreRib(tip))
	if len(out) == 0 {
		add(p.longerEnd(tip))
	}
	return out
}

// withRibs tries the plan with its ribs changed.
func (p *Plan) withRibs(tip bool, text string, set map[string]string, change func(*design.RibValues)) (finding.Remedy, bool) {
	q := *p
	q.Findings, q.Supports, q.Longest, q.trying = nil, nil, 0, true
	q.V.Rib.Places = slices.Clone(p.V.Rib.Places)
	change(&q.V.Rib)
	return finding.Remedy{Text: text, Set: set}, supports(&q) && q.allStand() && q.holdsEnd(tip, p)
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

// movedRib puts the only rib where it does best.
func (p *Plan) movedRib(tip bool) (finding.Remedy, bool) {
	if len(p.V.Rib.Places) != 1 {
		return finding.Remedy{}, false
	}
	at := p.V.Rib.Places[0]
	b := p.Outline.Box()
	best, ok := p.bestPlace(b.Min.Y, b.Max.Y, p.middle(), at.Thickness)
	if !ok {
		return finding.Remedy{}, false
	}
	return p.withRibs(tip, "Put the rib at "+p.len(best.across)+" across", map[string]string{
		"rib.places." + strconv.Itoa(at.Row) + ".across": unit.Bare(best.across, p.V.Units)},
		func(r *design.RibValues) { r.Places[0].Across = best.across })
}

// mostRibs bounds how many ribs are tried where their places are left open.
const mostRibs = 5

// oneMoreRib spreads more ribs where their places are left open, else adds one where it
// does best beside those that are there.
func (p *Plan) oneMoreRib(tip bool) (finding.Remedy, bool) {
	places, set := slices.Clone(p.V.Rib.Places), map[string]string{}
	field := func(at design.RibPlaceValues) string { return "rib.places." + strconv.Itoa(at.Row) + ".across" }
	if len(places) == 0 {
		for n := p.V.Rib.Quantity + 1; n <= mostRibs && p.Outline.Box().H()/float64(n) > p.V.Rib.Thickness; n++ {
			if r, ok := p.withRibs(tip, "Take "+strconv.Itoa(n)+" ribs", map[string]string{"rib.quantity": strconv.Itoa(n)}, func(r *design.RibValues) { r.Quantity = n }); ok {
				return r, true
			}
		}
		for i, s := range p.Supports {
			s.Row = i
			places = append(places, s.RibPlaceValues)
			set[field(s.RibPlaceValues)] = unit.Bare(s.Across, p.V.Units)
		}
	}
	rib, ok := p.reaching(tip, places)
	if !ok {
		return finding.Remedy{}, false
	}
	for _, at := range places {
		rib.Row = max(rib.Row, at.Row+1)
	}
	set[field(rib)] = unit.Bare(rib.Across, p.V.Units)
	return p.withRibs(tip, "Add a rib at "+p.len(rib.Across)+" across", set, func(r *design.RibValues) { r.Places = append(places, rib) })
}

// mostTried is about how many places across are tried for one rib more: each takes a look at
// all of the panel.
const mostTried = 24

// reaching returns a rib that lies under as much as it can of the end that stands off,
// clear of those that are there.
func (p *Plan) reaching(tip bool, places []design.RibPlaceValues) (design.RibPlaceValues, bool) {
	r := p.V.Rib
	rib := design.RibPlaceValues{Stock: r.Stock, StockAt: r.StockAt, Thickness: r.Thickness, E: r.E, MOR: r.MOR, Foot: r.Foot}
	b := p.Outline.Box()
	lo, hi := b.Min.Y+rib.Thickness/2, b.Max.Y-rib.Thickness/2
	var across []float64
	step := math.Max(0.5, math.Ceil(2*(hi-lo)/mostTried)/2)
	for k := math.Ceil(lo / step); k*step <= hi; k++ {
		across = append(across, k*step)
	}
	best, least := 0.0, math.Inf(1)
	for i, at := range p.reaches(across, rib.Thickness) {
		clear := at[1]-at[0] > 1
		for _, o := range places {
			clear = clear && math.Abs(o.Across-across[i]) > (o.Thickness+rib.Thickness)/2
		}
		if !clear {
			continue
		}
		q := *p
		q.Findings, q.Supports, q.Longest, q.trying = nil, nil, 0, true
		rib.Across = across[i]
		q.V.Rib.Places = append(slices.Clone(places), rib)
		if !supports(&q) {
			continue
		}
		gap := q.FootEnd.Gap
		if tip {
			gap = q.TipEnd.Gap
		}
		if gap < least-0.01 || gap < least+0.01 && math.Abs(across[i]) < math.Abs(best) {
			best, least = across[i], gap
		}
	}
	rib.Across = best
	return rib, !math.IsInf(least, 1)
}

// longerEnd makes the straight there longer, the outline with it, until the ribs end on it.
func (p *Plan) longerEnd(tip bool) (finding.Remedy, bool) {
	if len(p.Layout.Folds) > mostLaid || tip && p.To < p.Layout.Length-1 || !tip && p.From > 1 {
		return finding.Remedy{}, false
	}
	was, field, name, free := p.V.Curve.Foot, "curve.foot", "foot", p.FootEnd.Bent
	if tip {
		was, field, name, free = p.V.Curve.Tip, "curve.tip", "tip", p.TipEnd.Bent
	}
	for k := range mostTrials {
		mm := math.Ceil(was + free*(1+float64(k)))
		q, set, ok := p.withStraight(tip, mm)
		if !ok || !q.allStand() || !q.holdsEnd(tip, p) || !q.noWorse(p) {
			continue
		}
		set[field] = unit.Bare(mm, p.V.Units)
		if tip && p.V.Rib.Short.OK {
			set["rib.short"] = "0"
		}
		return finding.Remedy{Text: "Make the straight " + name + " " + p.len(mm) + " long", Set: set}, true
	}
	return finding.Remedy{}, false
}
