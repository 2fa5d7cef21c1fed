package remedy

import (
	"maps"
	"math"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/support"
)

// mostTrials bounds how often a longer straight is tried, mostScores for how many scores
// it is tried at all: trying lays them again.
const (
	mostTrials = 5
	mostScores = 2000
)

// straight is a longer straight tip, or foot, that is looked for.
type straight struct {
	p     *plan.Plan
	tip   bool
	worst plan.Peeling
	other float64 // what the other end lacks as it is, mm
}

// longerStraight makes a straight so long that no glue line peels at that end.
func longerStraight(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	s := straight{p: p, tip: f.Place.Field == "curve.tip"}
	var peels bool
	if s.worst, peels = p.Peels(s.tip); !peels || p.Section.Closed {
		return nil
	}
	if at, peels := p.Peels(!s.tip); peels {
		s.other = at.Lack()
	}
	long, along, ok := s.found()
	if !ok {
		return nil
	}
	end := "foot"
	if s.tip {
		end = "tip"
	}
	r := set("Make the straight "+end+" "+mm(p, long)+" long", f.Place.Field, bare(p, long))
	maps.Copy(r.Set, along)
	if s.tip && p.V.Rib.Short.OK && p.V.Rib.Short.V > 0 {
		r.Text, r.Set["rib.short"] = r.Text+", and the ribs as long", "0"
	}
	return []finding.Remedy{r}
}

// found looks for the straight by trying: an outline that narrows toward its ends grows
// wider at the bend with it, and a wider panel pulls harder. The rib then runs to the tip,
// whatever was typed for how far it stops short, and an outline that does not follow the
// curve by itself is taken along: sets is what that takes. ok is false where none was
// found, where the panel does not come to that end, or where the other end would peel worse
// for it.
func (s straight) found() (mm float64, sets map[string]string, ok bool) {
	p := s.p
	if len(p.Scores.Layout.Folds) > mostScores || s.tip && p.Outline.To < p.Scores.Layout.Length-1 || !s.tip && p.Outline.From > 1 {
		return 0, nil, false
	}
	room := float64(support.ShortOfTip)
	if s.tip && p.V.Rib.Short.OK {
		room = 0
	}
	mm = s.worst.Length + room + s.worst.Before
	if even(p) && !p.Ruled() {
		mm = math.Ceil(2*mm-1e-9) / 2
		return mm, nil, s.bears(mm, room)
	}
	for range mostTrials {
		mm = math.Ceil(2*mm-1e-9) / 2
		q, sets, drawn := s.with(mm)
		if !drawn {
			return 0, nil, false
		}
		if at, peels := q.Peels(!s.tip); peels && at.Lack() > s.other+0.01 {
			return 0, nil, false
		}
		at, peels := q.Peels(s.tip)
		if !peels {
			return mm, sets, noWorse(q, p)
		}
		mm += 1.2*at.Lack() + 0.3
	}
	return 0, nil, false
}

// noWorse tells whether the panel's ends stand off, and leave of the curve, no more than
// is accepted, or than they did before.
func noWorse(p, was *plan.Plan) bool {
	overFoot, overTip := p.Over()
	if overFoot && p.Supports.FootEnd.Gap > was.Supports.FootEnd.Gap+0.01 || overTip && p.Supports.TipEnd.Gap > was.Supports.TipEnd.Gap+0.01 {
		return false
	}
	foot, tip := p.Bares()
	oldFoot, oldTip := was.Bares()
	return foot.Length <= oldFoot.Length+seen && tip.Length <= oldTip.Length+seen
}

// even tells that the panel is a strip of one width over all of the curve: whatever its
// straights, it pulls at the ends of the bends as it did.
func even(p *plan.Plan) bool {
	v := p.V.Panel
	return v.Shape == design.Rectangle && !v.Length.OK && !v.Seen && v.Along == 0 && v.CornerRadius == 0 && len(v.Holes) == 0
}

// anew returns a plan with another straight that nothing is made of yet.
func (s straight) anew(mm float64) *plan.Plan {
	q := s.p.Anew()
	if s.tip {
		q.V.Curve.Tip = mm
	} else {
		q.V.Curve.Foot = mm
	}
	return q
}

// bears tells whether the curve with another straight runs into itself nowhere, nor the
// back of a rib along it.
func (s straight) bears(mm, room float64) bool {
	q := s.anew(mm)
	if !q.Run(plan.StageLine, plan.StageSection) {
		return false
	}
	for _, sup := range s.p.Supports.All {
		t := sup.Task
		short := s.p.Section.Edge.Length() - t.End
		if s.tip {
			short = room
		}
		t.Edge, t.End = q.Section.Edge, q.Section.Edge.Length()-short
		if !q.Fits(t) {
			return false
		}
	}
	return true
}

// with works the design out as far as the hold of its ribs with another straight. Straights
// change nothing of the spacing, so the scores are laid once, at the limits that they were
// found at. sets is what takes the outline along.
func (s straight) with(mm float64) (q *plan.Plan, sets map[string]string, ok bool) {
	q = s.anew(mm)
	if s.tip && q.V.Rib.Short.OK {
		q.V.Rib.Short.V = 0
	}
	if !q.Run(plan.StageLine, plan.StageSection, plan.StageSize) {
		return q, nil, false
	}
	t := *s.p.Try()
	t.Layout = q.Lays(t.Limits, q.Rule())
	if len(t.Layout.Folds) == 0 {
		return q, nil, false
	}
	q.Scores = q.Laid(&t)
	sets = takeAlong(s.p, q)
	return q, sets, redrawn(s.p, q, true) && q.Run(plan.StageHold)
}
