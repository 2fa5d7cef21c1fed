package plan

import (
	"math"

	"springrib/internal/brace"
	"springrib/internal/design"
)

// Peeling is a rib's glue line that the panel's pull peels open at one end.
type Peeling struct {
	brace.Peel
	Straight float64 // glued there, mm
	Before   float64 // from the end of the curve to that end of the glue, mm
	Support  int
}

// Lack is how much longer the glued straight would have to be, mm.
func (p Peeling) Lack() float64 { return p.Length - p.Straight }

// Peels returns the worst of the glue lines that peel at their tip, or at their foot; ok
// is false where none does.
func (p *Plan) Peels(tip bool) (worst Peeling, ok bool) {
	for i, s := range p.Supports {
		at := Peeling{s.Hold.FootPeel, s.Hold.FootStraight, s.Task.Start, i}
		if tip {
			at = Peeling{s.Hold.TipPeel, s.Hold.TipStraight, 0, i}
			if p.V.Panel.Shape != design.Rectangle && p.V.Panel.Shape != design.Taper {
				at.Before = p.Edge.Length() - s.Task.End
			}
		}
		if at.Use > 1 && at.Lack() > 1e-9 && (!ok || at.Lack() > worst.Lack()) {
			worst, ok = at, true
		}
	}
	return worst, ok
}

// mostTrials bounds how often a longer straight is tried, mostLaid for how many scores
// it is tried at all: trying lays them again.
const (
	mostTrials = 5
	mostLaid   = 2000
)

// StraightThatWould returns a straight tip, or foot, with which no glue line peels at
// that end, found by trying: an outline that narrows toward its ends grows wider at the
// bend with it, and a wider panel pulls harder. The rib then runs to the tip, whatever was
// typed for how far it stops short, and an outline that does not follow the curve by itself
// is taken along: set is what that takes. ok is false where none was found, where the panel
// does not come to that end, or where the other end would peel worse for it.
func (p *Plan) StraightThatWould(tip bool) (mm float64, set map[string]string, ok bool) {
	worst, peels := p.Peels(tip)
	if !peels || p.Closed || len(p.Layout.Folds) > mostLaid {
		return 0, nil, false
	}
	if tip && p.To < p.Layout.Length-1 || !tip && p.From > 1 {
		return 0, nil, false
	}
	other := 0.0
	if at, peels := p.Peels(!tip); peels {
		other = at.Lack()
	}
	room := shortOfTip
	if tip && p.V.Rib.Short.OK {
		room = 0
	}
	mm = worst.Length + float64(room) + worst.Before
	if p.even() {
		mm = math.Ceil(2*mm-1e-9) / 2
		return mm, nil, p.bears(tip, mm, float64(room))
	}
	for range mostTrials {
		mm = math.Ceil(2*mm-1e-9) / 2
		q, set, drawn := p.withStraight(tip, mm)
		if !drawn {
			return 0, nil, false
		}
		if at, peels := q.Peels(!tip); peels && at.Lack() > other+0.01 {
			return 0, nil, false
		}
		at, peels := q.Peels(tip)
		if !peels {
			return mm, set, q.noWorse(p)
		}
		mm += 1.2*at.Lack() + 0.3
	}
	return 0, nil, false
}

// noWorse tells whether the panel's ends stand off, and leave of the curve, no more than
// is accepted, or than they did before.
func (p *Plan) noWorse(was *Plan) bool {
	foot, tip := p.Bares()
	oldFoot, oldTip := was.Bares()
	if p.over(p.FootEnd) && p.FootEnd.Gap > was.FootEnd.Gap+0.01 || p.over(p.TipEnd) && p.TipEnd.Gap > was.TipEnd.Gap+0.01 {
		return false
	}
	return foot.Length <= oldFoot.Length+shortSeen && tip.Length <= oldTip.Length+shortSeen
}

// even tells that the panel is a strip of one width over all of the curve: whatever its
// straights, it pulls at the ends of the bends as it did.
func (p *Plan) even() bool {
	v := p.V.Panel
	return v.Shape == design.Rectangle && !v.Length.OK && !v.Seen && v.Along == 0 && v.CornerRadius == 0 && len(v.Holes) == 0
}

// bears tells whether the curve with another straight runs into itself nowhere, nor the
// back of a rib along it.
func (p *Plan) bears(tip bool, mm, room float64) bool {
	q := Plan{V: p.V, memory: p.memory}
	if tip {
		q.V.Curve.Tip = mm
	} else {
		q.V.Curve.Foot = mm
	}
	if !section(&q) {
		return false
	}
	for _, s := range p.Supports {
		t := s.Task
		short := p.Edge.Length() - t.End
		if tip {
			short = room
		}
		t.Edge, t.End = q.Edge, q.Edge.Length()-short
		if !q.deepEnough(t) {
			return false
		}
	}
	return true
}

// withStraight works the design out as far as the hold of its ribs with another straight
// tip or foot. Straights change nothing of the spacing, so the scores are laid once, at
// the limits that they were found at. set is what takes the outline along.
func (p *Plan) withStraight(tip bool, mm float64) (q *Plan, set map[string]string, ok bool) {
	q = &Plan{V: p.V, memory: p.memory}
	if tip {
		q.V.Curve.Tip = mm
		if q.V.Rib.Short.OK {
			q.V.Rib.Short.V = 0
		}
	} else {
		q.V.Curve.Foot = mm
	}
	if !section(q) || !size(q) {
		return q, nil, false
	}
	t := p.Try()
	t.Layout = q.lay(t.cases, q.rule())
	q.Tries, q.Layout = []Try{t}, t.Layout
	set = p.Follow(q)
	if len(q.Layout.Folds) == 0 || !outline(q) || !supports(q) || !q.allStand() {
		return q, nil, false
	}
	return q, set, hold(q)
}
