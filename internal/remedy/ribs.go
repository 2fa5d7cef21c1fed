package remedy

import (
	"math"
	"slices"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

// deep makes the ribs as deep as that, where none runs into itself.
func deep(p *plan.Plan, foot, tip float64) []finding.Remedy {
	return one("Make the rib "+mm(p, foot)+" deep at the foot and "+mm(p, tip)+" at the tip", "rib.footDepth", bare(p, foot), "rib.tipDepth", bare(p, tip))
}

// shallower looks for depths at which no rib's back edge runs into itself.
func shallower(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	foot, tip := p.V.Rib.FootDepth, p.V.Rib.TipDepth
	for range 24 {
		foot, tip = math.Floor(1.8*foot)/2, math.Floor(1.8*tip)/2
		if foot < 1 || tip < 1 {
			return nil
		}
		fits := true
		for _, s := range p.Supports.All {
			t := s.Task
			t.FootDepth, t.TipDepth = foot, tip
			fits = fits && p.Fits(t)
		}
		if fits {
			return deep(p, foot, tip)
		}
	}
	return nil
}

// deeper makes both depths of the rib larger by k, unless it would run into itself.
func deeper(p *plan.Plan, k float64) []finding.Remedy {
	t := p.Ribs.Task
	t.FootDepth, t.TipDepth = math.Ceil(2*k*t.FootDepth)/2, math.Ceil(2*k*t.TipDepth)/2
	if share, _ := t.Deepest(); share > 0.9 {
		return nil
	}
	return deep(p, t.FootDepth, t.TipDepth)
}

// stronger goes with the square of the depth, stiffer with its cube.
func stronger(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	return deeper(p, math.Sqrt(math.Max(f.Numbers["use"]*plan.RibFactor, f.Numbers["bad"])))
}

func stiffer(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	return deeper(p, math.Cbrt(f.Numbers["movement"]/f.Numbers["most"]))
}

// onto stands a rib at the place across nearest to where it was put at which the panel
// covers it over some of the curve, other ribs left where they are.
func onto(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	row := rowOf(f.Place.Field, "rib.places")
	at := p.OpenRib(f.Numbers["across"])
	if i := slices.IndexFunc(p.V.Rib.Places, func(o design.RibPlaceValues) bool { return o.Row == row }); i >= 0 {
		at = p.V.Rib.Places[i]
	} else if p.V.Rib.Quantity != 1 || len(p.V.Rib.Places) > 0 {
		return nil
	}
	b := p.Outline.Region.Box()
	const steps = 40
	best, off := 0.0, math.Inf(1)
	for i := range steps + 1 {
		across := math.Round(10*(b.Min.Y+b.H()*float64(i)/steps)) / 10
		if away := math.Abs(across - at.Across); away < off && away > 0.05 && standsAt(p, at, across) {
			best, off = across, away
		}
	}
	if math.IsInf(off, 1) {
		return nil
	}
	return one("Stand it "+mm(p, best)+" across", acrossOf(max(at.Row, 0)), bare(p, best))
}

// standsAt tells whether a rib could stand at a place across.
func standsAt(p *plan.Plan, at design.RibPlaceValues, across float64) bool {
	for _, o := range p.V.Rib.Places {
		if o.Row != at.Row && math.Abs(o.Across-across) < (o.Thickness+at.Thickness)/2 {
			return false
		}
	}
	u0, u1, ok := p.Covers(across, at.Thickness)
	return ok && math.Min(p.Section.Edge.Length(), p.Under(u1))-math.Max(0, p.Under(u0)) >= 1
}

func acrossOf(row int) string { return "rib.places." + num(row) + ".across" }

// mostRibs bounds how many ribs are tried where their places are left open, and mostTried is
// about how many places across are tried for one: each takes a look at all of the panel.
const (
	mostRibs  = 5
	mostTried = 24
)

// holding looks for ribs that hold an end of the panel.
type holding struct {
	p   *plan.Plan
	tip bool
	out []finding.Remedy
}

// holdEnds holds an end of the panel that stands off too far, its tip or its foot, to the
// curve: a rib that may run as far as it can, or stands elsewhere; more ribs.
func holdEnds(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	if f.Severity != finding.Warn || p.Section.Closed {
		return nil
	}
	h := holding{p: p, tip: f.Place.Field == "rib.short"}
	ribs := p.V.Rib
	if h.tip && ribs.Short.OK {
		ribs.Short = design.Opt{}
		h.offer(set("Let the rib run as far as it may", "rib.short", ""), ribs)
	}
	ribs = p.V.Rib
	open := set("")
	switch len(ribs.Places) {
	case 0:
		for n := ribs.Quantity + 1; n <= mostRibs && p.Outline.Region.Box().H() > float64(n)*ribs.Thickness; n++ {
			ribs.Quantity = n
			if h.offer(set("Take "+num(n)+" ribs", "rib.quantity", num(n)), ribs) {
				return h.out
			}
		}
		for i, s := range p.Supports.All {
			s.Row = i
			ribs.Places = append(ribs.Places, s.RibPlaceValues)
			open.Set[acrossOf(i)] = bare(p, s.Across)
		}
	case 1:
		alone := ribs
		alone.Places = nil
		if across, ok := h.reaching(alone, ribs.Places[0]); ok {
			alone.Places = slices.Clone(ribs.Places)
			alone.Places[0].Across = across
			h.offer(set("Put the rib at "+mm(p, across)+" across", acrossOf(alone.Places[0].Row), bare(p, across)), alone)
		}
	}
	more := p.OpenRib(0)
	more.Row = 0
	for _, at := range ribs.Places {
		more.Row = max(more.Row, at.Row+1)
	}
	if across, ok := h.reaching(ribs, more); ok {
		more.Across = across
		ribs.Places = append(slices.Clone(ribs.Places), more)
		open.Text, open.Set[acrossOf(more.Row)] = "Add a rib at "+mm(p, across)+" across", bare(p, across)
		h.offer(open, ribs)
	}
	return h.out
}

// offer keeps a change if the end is held by these ribs.
func (h *holding) offer(r finding.Remedy, ribs design.RibValues) bool {
	q := withRibs(h.p, ribs)
	if q == nil || !allStand(q) || !h.holds(q) {
		return false
	}
	h.out = append(h.out, r)
	return true
}

// withRibs returns the plan with other ribs on the same panel, nil where they can't stand.
func withRibs(p *plan.Plan, ribs design.RibValues) *plan.Plan {
	q := likeTo(p)
	q.V.Rib = ribs
	q.Outline, q.Across = p.Outline, p.Across
	if !q.Run(plan.StageSupports) {
		return nil
	}
	return q
}

// holds tells whether the end stands off no more than is accepted, and the other no more
// than it did.
func (h *holding) holds(q *plan.Plan) bool {
	foot, tip := q.Over()
	if h.tip {
		return !tip && (!foot || q.Supports.FootEnd.Gap <= h.p.Supports.FootEnd.Gap+0.01)
	}
	return !foot && (!tip || q.Supports.TipEnd.Gap <= h.p.Supports.TipEnd.Gap+0.01)
}

// reaching returns the place across at which one rib more, clear of the others, lets the
// end stand off least, the nearest to the middle of equal ones.
func (h *holding) reaching(ribs design.RibValues, rib design.RibPlaceValues) (across float64, ok bool) {
	p, others := h.p, ribs.Places
	b := p.Outline.Region.Box()
	step := math.Max(0.5, math.Ceil(2*b.H()/mostTried)/2)
	least, middle := math.Inf(1), p.Middle()
	for k := math.Ceil(b.Min.Y / step); k*step <= b.Max.Y; k++ {
		at := k * step
		near := func(o design.RibPlaceValues) bool { return math.Abs(o.Across-at) <= (o.Thickness+rib.Thickness)/2 }
		if _, _, covered := p.Covers(at, rib.Thickness); !covered || slices.ContainsFunc(others, near) {
			continue
		}
		rib.Across = at
		ribs.Places = append(slices.Clone(others), rib)
		q := withRibs(p, ribs)
		if q == nil {
			continue
		}
		gap := q.Supports.FootEnd.Gap
		if h.tip {
			gap = q.Supports.TipEnd.Gap
		}
		if gap < least-0.01 || gap < least+0.01 && math.Abs(at-middle) < math.Abs(across-middle) {
			across, least = at, math.Min(gap, least)
		}
	}
	return across, !math.IsInf(least, 1)
}
