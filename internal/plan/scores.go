package plan

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/machine"
	"springrib/internal/score"
)

// LeastSkin is the thinnest skin, over the thickness, that is offered unasked: below
// it a sheet is hard to lift off the bed in one piece. Common practice, no source.
const LeastSkin = 0.12

// scores tries every number of passes and takes the person's, or the one that is sound
// in the least machine time; where none is sound, the deepest.
func scores(p *Plan) bool {
	n := len(p.V.Machine.Depths)
	for passes := 1; passes <= n; passes++ {
		p.Scores.Tries = append(p.Scores.Tries, p.Passed(passes, p.Rule()))
	}
	p.Scores.Chosen = n - 1
	if want := p.V.Panel.Passes; want > 0 {
		p.Scores.Chosen = min(want, n) - 1
	} else {
		p.Scores.Chosen = p.quickest()
	}
	t := p.Scores.Tries[p.Scores.Chosen]
	p.Scores.Layout, p.Scores.Cracking, p.Scores.Pinching = t.Layout, t.Cracking, t.Pinching
	p.Scores.Cases = p.Cases(t.Passes)
	if !p.roomInside() {
		return false
	}
	p.Scores.places = t.Layout.Places(p.Section.Edge)
	return true
}

// Laid returns the scores of one try alone.
func (p *Plan) Laid(t *Try) Scores {
	return Scores{Tries: []Try{*t}, Layout: t.Layout, Cracking: t.Cracking, Pinching: t.Pinching, places: t.Layout.Places(p.Section.Edge)}
}

// quickest returns the sound try of least machine time, the fewer passes when equal;
// where none is sound the one that comes nearest in its worst use.
func (p *Plan) quickest() int {
	best, bad := -1, 0
	for i, t := range p.Scores.Tries {
		if t.Sound() && (best < 0 || t.work() < p.Scores.Tries[best].work()-1e-9) {
			best = i
		}
		if t.worst() < p.Scores.Tries[bad].worst() {
			bad = i
		}
	}
	if best < 0 {
		return bad
	}
	return best
}

// work ranks tries by machine time, or by lines run where no speed is known.
func (t *Try) work() float64 {
	if t.Seconds > 0 {
		return t.Seconds
	}
	return float64(t.Passes * len(t.Layout.Folds))
}

// worst is the larger of the two uses, each over what is allowed.
func (t *Try) worst() float64 {
	return math.Max(over(t.Cracking), over(t.Pinching))
}

func over(u Use) float64 { return math.Max(u.Value/math.Max(u.Allowed, 1e-9), u.Bad) }

// Cases returns the states of sheet and machine that the spacing must be sound for:
// the nominal one with its factors, and with factor one the bad end for cracking and
// the bad end for pinching. A factor and a bad end are never multiplied.
func (p *Plan) Cases(passes int) []score.Case {
	v, e := &p.V, p.ends(passes)
	law, rupture := p.scoring().state(passes, moved{})
	stiff, weak := p.scoring().state(passes, e.crack.up)
	narrow, _ := p.scoring().state(passes, e.pinch.up)
	return []score.Case{
		{Law: law, Strain: p.strainAllowed(rupture), Closing: v.Panel.ClosingSafe},
		{Law: stiff, Strain: weak},
		{Law: narrow, Closing: 1},
	}
}

// Rule is how the person wants the spacing chosen.
func (p *Plan) Rule() score.Rule {
	return map[string]score.Rule{
		design.Follow: score.Follow, design.Even: score.Even,
		design.FixedCount: score.Count, design.FixedPitch: score.Pitch,
	}[p.V.Panel.Spacing]
}

// layout lays the scores. Their spacing is chosen for scores among their like; one that
// ends a bend turns as much but has a land on one side only to help it. Where such a
// score, or one among uneven neighbours, comes out over a limit, that limit is drawn in
// by as much and the scores are laid again. It returns the limits that they lie at, and
// how many were laid in all.
func (p *Plan) layout(passes int, rule score.Rule) (l score.Layout, cases []score.Case, laid int, cracking, pinching Use) {
	cases = p.Cases(passes)
	for try := 0; ; try++ {
		l = p.Lays(cases, rule)
		laid += len(l.Folds)
		cracking, pinching = p.uses(l, passes)
		if rule == score.Count || rule == score.Pitch || try == mostTries || !Reached(l) || cracking.Sound() && pinching.Sound() {
			return l, cases, laid, cracking, pinching
		}
		cases = drawn(cases, over(cracking), over(pinching), 0.001+0.03*float64(try))
	}
}

// Lays lays the scores at limits.
func (p *Plan) Lays(cases []score.Case, rule score.Rule) score.Layout {
	v := p.V.Panel
	return score.Lay(score.Task{
		Edge: p.Section.Edge, PanelLeft: p.Section.PanelLeft, ScoredTowards: p.Section.Towards,
		Limits: score.Limits{Cases: cases, StandOff: v.StandOff, Fold: v.FoldLimit, Land: v.MinLand},
		Rule:   rule, Number: v.Count, Pitch: v.Pitch, Laws: p.laws(),
	})
}

// mostTries bounds how often scores are laid again.
const mostTries = 4

// Reached tells whether every stretch got a spacing that keeps its limits.
func Reached(l score.Layout) bool {
	for _, r := range l.Runs {
		if !r.Spacing.Reached {
			return false
		}
	}
	return true
}

// drawn returns the cases with their limits drawn in by what was gone over them, half as
// much again, since strain and closing grow less than in proportion to the spacing, and
// a share more: another limit may have held the spacing until then.
func drawn(cases []score.Case, crack, pinch, more float64) []score.Case {
	out := append([]score.Case{}, cases...)
	for i := range out {
		if crack > 1 {
			out[i].Strain /= (1 + more) * crack * math.Sqrt(crack)
		}
		if pinch > 1 {
			out[i].Closing *= (1 + more) * pinch * math.Sqrt(pinch)
		}
	}
	return out
}

// Passed returns what a number of passes gives where the spacing is chosen by a rule.
func (p *Plan) Passed(passes int, rule score.Rule) Try {
	v := &p.V
	t := Try{Passes: passes, Skin: v.Machine.Skin(passes, v.Sheet.T, 0).Value, Law: p.scoring().law(passes)}
	t.Layout, t.Limits, t.Laid, t.Cracking, t.Pinching = p.layout(passes, rule)
	t.Seconds = p.scoringTime(passes, len(t.Layout.Folds))
	t.Out = p.whyOut(&t)
	return t
}

// Reason is why a number of passes won't do. The numbers to it are those of the Try.
type Reason uint8

// The reasons, in the order in which they are looked for.
const (
	Sound        Reason = iota // nothing speaks against it
	CutsThrough                // no skin is left
	SkinThin                   // less is left than can be handled
	HardlyScored               // next to nothing is taken away
	BendsTight                 // a bend is tighter than the neutral line lies inside it
	Pinches
	Cracks
	FlatsHigh    // they stand off more than is accepted, at any spacing
	FoldsVisible // they fold more than the finish hides, at any spacing
	LandNarrow   // too little is left between two scores
)

// whyOut says why a try is not sound. A strain limit from a handbook counts here like a
// tested one: it steers the choice, though as a finding it only warns, since built work
// goes past it.
func (p *Plan) whyOut(t *Try) Reason {
	v := &p.V
	if out := p.SkinOut(t.Skin); out != Sound {
		return out
	}
	if _, tight := Roomless(t.Layout); tight {
		return BendsTight
	}
	switch {
	case !t.Pinching.Sound():
		return Pinches
	case !t.Cracking.Sound():
		return Cracks
	}
	for _, r := range t.Layout.Runs {
		// Where no spacing reaches a limit, it is that limit and not the least land, which
		// the scores were then laid at.
		if !r.Spacing.Reached && v.Panel.Spacing != design.FixedCount && v.Panel.Spacing != design.FixedPitch {
			return failed(r.Spacing.Failed)
		}
		if r.Count > 0 && r.Pitch < t.Law.Score().Width+v.Panel.MinLand-1e-6 {
			return LandNarrow
		}
	}
	return Sound
}

// failed is the reason for a limit that no spacing keeps.
func failed(b score.Bound) Reason {
	switch b {
	case score.ByStandOff:
		return FlatsHigh
	case score.ByFold:
		return FoldsVisible
	case score.ByStrain:
		return Cracks
	case score.ByClosing:
		return Pinches
	}
	return Sound
}

// SkinOut says why a skin won't do, whatever the curve.
func (p *Plan) SkinOut(skin float64) Reason {
	switch t := p.V.Sheet.T; {
	case skin <= 0:
		return CutsThrough
	case skin < LeastSkin*t:
		return SkinThin
	case skin >= 0.98*t:
		return HardlyScored
	}
	return Sound
}

// scoringTime is the time of all strokes of one panel, from rest to rest, without
// travel.
func (p *Plan) scoringTime(passes, n int) float64 {
	m := p.V.Machine
	if m.Speed <= 0 {
		return 0
	}
	return float64(n*passes) * machine.StrokeTime(m.Speed, m.Acceleration, p.Width()+2*p.wantedOverrun())
}

// wantedOverrun is the typed overrun, or what the head needs to reach speed, at least
// half a millimetre past the edge.
func (p *Plan) wantedOverrun() float64 {
	m := p.V.Machine
	return p.V.Panel.Overrun.Or(math.Max(0.5, math.Ceil(10*machine.LeastOverrun(m.Speed, m.Acceleration)-1e-9)/10))
}

// laws returns what was asked of the laws before, nil for nothing.
func (p *Plan) laws() *score.Laws {
	if p.memory == nil {
		return nil
	}
	return &p.memory.laws
}
