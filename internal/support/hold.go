package support

import (
	"math"

	"springrib/internal/brace"
)

// Holds works out how hard the panel pulls and whether ribs and glue stand it. Each rib is given
// what it stands; what is returned is the worst of all, figure by figure.
func (p *Task) Holds(ribs []Support) Hold {
	out := p.pull().hold(ribs)
	out.EndForce = p.endForce(ribs)
	return out
}

// hold gives every rib what it stands, and returns the worst of all, figure by figure.
func (u pull) hold(ribs []Support) Hold {
	for i := range ribs {
		ribs[i].Hold = u.holds(&ribs[i])
	}
	h := ribs[0].Hold
	for i, s := range ribs[1:] {
		n := s.Hold
		h.Moment = math.Max(h.Moment, n.Moment)
		h.RibBad = math.Max(h.RibBad, n.RibBad)
		if n.RibUse > h.RibUse {
			h.RibUse, h.Rib.Stress, h.Rib.StressAt, h.Weakest = n.RibUse, n.Rib.Stress, n.Rib.StressAt, i+1
		}
		if n.Rib.Movement > h.Rib.Movement {
			h.Rib.Movement, h.Softest = n.Rib.Movement, i+1
		}
		if n.Peel.Use > h.Peel.Use {
			h.Peel = n.Peel
		}
		h.FootStraight, h.TipStraight = math.Min(h.FootStraight, n.FootStraight), math.Min(h.TipStraight, n.TipStraight)
	}
	return h
}

// holds works out what one rib stands.
func (u pull) holds(s *Support) Hold {
	var h Hold
	pulls := make([]brace.Pull, 0, len(u.at))
	t := &s.Task
	for _, arc := range u.at {
		at := s.Along(arc)
		if at < t.Start || at > t.End {
			continue
		}
		st := u.Edge.At(arc)
		m := brace.Moment(math.Abs(st.Kappa), u.stiff(arc), s.Share(arc))
		if s.Seat.Along != nil {
			st = t.Edge.At(at)
		}
		pulls = append(pulls, brace.Pull{S: at, P: st.P, Moment: m, Depth: t.DepthAt(at)})
		h.Moment = math.Max(h.Moment, m)
	}
	if u.Closed {
		pulls = nil // a former is a plate: it does not bend
	}
	h.Rib = brace.Hold(pulls, brace.Beam{Thickness: s.Thickness, E: s.E.Value})
	if s.MOR.Value > 0 {
		h.RibUse, h.RibBad = h.Rib.Stress/s.MOR.Value, h.Rib.Stress/s.MOR.Bad()
	}
	last := u.LastBend()
	foot, tip := math.Max(t.Start, u.Foot()), math.Min(t.End, last)
	h.FootPeel, h.TipPeel = u.peelAt(s, u.CurvatureAfter(foot), foot, u.bond), u.peelAt(s, u.CurvatureBefore(tip), tip, u.bond)
	h.Peel = h.FootPeel
	if h.TipPeel.Use > h.Peel.Use {
		h.Peel = h.TipPeel
	}
	h.FootStraight, h.TipStraight = foot-t.Start, math.Max(0, t.End-s.Along(last))
	if u.lap > 0 {
		// Both ends of the panel hang on the lap, which is glued over all of its width.
		wide := brace.Glue{Width: s.Share(foot), Bond: u.bond}
		h.Peel = brace.PeelAt(u.CurvatureAfter(foot), u.stiff(foot), s.Share(foot), u.Sheet.T, u.Softness(), wide)
		h.FootPeel, h.TipPeel, h.FootStraight, h.TipStraight = h.Peel, h.Peel, u.lap, u.lap
	}
	return h
}

// peelAt returns what the end of a rib's glue line sees from the bend of curvature kappa
// that ends or begins at arc length s, where it holds so much.
func (u pull) peelAt(sup *Support, kappa, s, bond float64) brace.Peel {
	return brace.PeelAt(kappa, u.stiff(s), sup.Share(s), u.Sheet.T, u.Softness(), brace.Glue{Width: sup.GlueWidth(u.off), Bond: bond})
}

// endForce is the pull at the panel's tip: where the last rib that holds it ends, or
// where the last bend does before that. Of the whole last bend the place counts that needs
// most: its moment, over the whole width there, over what is left of the panel as lever. On
// an arc that is the bend's end; a smooth curve may run out straight there.
func (p *Task) endForce(ribs []Support) float64 {
	end := 0.0
	for _, s := range ribs {
		end = math.Max(end, s.Task.End)
	}
	at := math.Min(math.Max(end, p.PanelEnd()-p.Section.Tip()), p.Section.LastBend())
	tail := math.Max(0, p.PanelEnd()-p.Section.LastBend())
	stiff, whole := p.Stiff, p.Across.Widths(math.Inf(-1), math.Inf(1))
	most := 0.0
	for _, s := range p.lastBendTo(at) {
		k := p.Section.CurvatureBefore(s)
		if k == 0 {
			continue
		}
		lever := tail + at - s
		if tail == 0 && lever*lever*k < 6*p.Values.Rib.EndGap {
			lever = 0 // so near the end it is the accepted gap that counts
		}
		most = math.Max(most, brace.EndForce(k, stiff(s), whole(s), lever, p.Values.Rib.EndGap))
	}
	return most
}

// lastBendTo returns at, and the scores before it in the last bend: in all that turns one
// way.
func (p *Task) lastBendTo(at float64) []float64 {
	all := p.Section.Edge.Stretches()
	first, sign := at, 0
	for i := len(all) - 1; i >= 0 && (sign == 0 || all[i].Sign == sign); i-- {
		if st := all[i]; st.Sign != 0 && st.Start < at {
			first, sign = st.Start, st.Sign
		}
	}
	out := []float64{at}
	for i := len(p.Layout.Folds) - 1; i >= 0 && p.Layout.Folds[i].S >= first; i-- {
		if s := p.Layout.Folds[i].S; s < at {
			out = append(out, s)
		}
	}
	return out
}
