package plan

import (
	"cmp"
	"math"
	"slices"

	"springrib/internal/design"
	"springrib/internal/machine"
	"springrib/internal/score"
	"springrib/internal/state"
)

// LeastSkin is the thinnest skin, over the thickness, that is offered unasked: below
// it a sheet is hard to lift off the bed in one piece. Common practice, no source.
const LeastSkin = 0.12

// scores tries every number of passes and takes the person's, or the one that is sound
// in the least machine time; where none is sound, the deepest.
func scores(p *Plan) bool {
	n := len(p.V.Machine.Depths)
	for passes := 1; passes <= n; passes++ {
		p.Scores.Tries = append(p.Scores.Tries, p.passed(passes, p.Rule()))
	}
	p.Scores.Chosen = n - 1
	if want := p.V.Panel.Passes; want > 0 {
		p.Scores.Chosen = min(want, n) - 1
		p.surer(&p.Scores.Tries[p.Scores.Chosen], p.Rule())
	} else {
		p.Scores.Chosen = p.quickest()
	}
	p.Scores.told = len(p.Findings)
	return p.choose()
}

// choose makes the chosen try the plan's.
func (p *Plan) choose() bool {
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

// quickest returns, of the sound tries of which few panels fail, that of least machine
// time, the fewer passes when equal; where more fail with any the one of which fewest do,
// and where none is sound the one that comes nearest in its worst use. Tries that would
// take longer than one found are not made surer.
func (p *Plan) quickest() int {
	tries := p.Scores.Tries
	order, bad := []int{}, 0
	for i, t := range tries {
		if t.Sound() {
			order = append(order, i)
		}
		if t.worst() < tries[bad].worst() {
			bad = i
		}
	}
	if len(order) == 0 {
		return bad
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(tries[a].work(), tries[b].work()) })
	best := -1
	for _, i := range order {
		if best >= 0 && tries[best].Chance.Fail <= p.Few() && tries[i].work() >= tries[best].work()-1e-9 {
			break
		}
		p.surer(&tries[i], p.Rule())
		if best < 0 || tries[i].before(&tries[best], p.Few()) {
			best = i
		}
	}
	return best
}

// before tells whether a sound try is to be taken rather than another.
func (t *Try) before(o *Try, most float64) bool {
	few, other := t.Chance.Fail <= most, o.Chance.Fail <= most
	switch {
	case few && other && (t.Against == Sound) != (o.Against == Sound):
		return t.Against == Sound
	case few && other:
		return t.work() < o.work()-1e-9
	case few != other:
		return few
	}
	return t.Chance.Fail < o.Chance.Fail
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
	law, rupture := p.scoring().At(passes, state.Moved{})
	stiff, weak := p.scoring().At(passes, e.crack.Up)
	narrow, _ := p.scoring().At(passes, e.pinch.Up)
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

// moreLand is what scores are laid further apart by between two sections: where two bends meet at the
// corner of a plane piece, the gap between their last scores comes out up to a twentieth less.
const moreLand = 0.06

// Limits returns what bounds the spacing, in these states of sheet and machine.
func (p *Plan) Limits(cases []score.Case) score.Limits {
	v := &p.V.Panel
	l := score.Limits{Cases: cases, StandOff: v.StandOff, Fold: v.FoldLimit, Land: v.MinLand, Wider: p.Section.Wider()}
	if p.Section.Pair != nil {
		l.Land += moreLand * (v.MinLand + p.V.Machine.ScoreWidth)
	}
	return l
}

// Lays lays the scores at limits.
func (p *Plan) Lays(cases []score.Case, rule score.Rule) score.Layout {
	v := p.V.Panel
	var wider func(s float64) float64
	if pair := p.Section.Pair; pair != nil {
		wider = pair.Wider
	}
	return score.Lay(score.Task{
		Wider: wider,
		Edge:  p.Section.Edge, PanelLeft: p.Section.PanelLeft, ScoredTowards: p.Section.Towards, Limits: p.Limits(cases),
		Rule: rule, Number: v.Count, Multiple: p.Gores(), Pitch: v.Pitch, Laws: p.laws(),
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
	t := p.passed(passes, rule)
	p.surer(&t, rule)
	return t
}

// passed is Passed as far as limits go, whatever the chance.
func (p *Plan) passed(passes int, rule score.Rule) Try {
	v := &p.V
	t := Try{Passes: passes, Skin: v.Machine.Skin(passes, v.Sheet.T, 0).Value, Law: p.scoring().Law(passes)}
	t.Layout, t.Limits, t.Laid, t.Cracking, t.Pinching = p.layout(passes, rule)
	t.Seconds = p.scoringTime(passes, len(t.Layout.Folds))
	t.Out = p.whyOut(&t)
	return t
}

// mostCloser is how often limits are drawn in for fewer panels to fail.
const mostCloser = 6

// closerBy is by how much a limit is drawn in where a chance is to fall to few: about as many
// standard deviations of 0.17, as a logarithm, as lie between the two. In few steps, so that
// a design and its mirror image, whose chances differ in the last digits, take the same.
func closerBy(fail, few float64) float64 {
	for _, s := range [...]struct{ times, by float64 }{{30, 1.22}, {10, 1.17}, {5, 1.13}, {2, 1.09}, {1, 1.05}, {0.5, 1.02}} {
		if fail > s.times*few {
			return s.by
		}
	}
	return 1
}

// surer works out the chance of a sound try and, where the spacing is chosen, lays its
// scores closer until few panels fail. What does so little for it that the chance does not
// fall by a tenth is left as it was, and so is what leaves too little land.
func (p *Plan) surer(t *Try, rule score.Rule) {
	if !t.Sound() || t.Asked || p.Few() >= 1 {
		return
	}
	t.Chance, t.Asked = p.ChanceOf(t, nil).Chances, true
	if rule == score.Count || rule == score.Pitch {
		return
	}
	used := usedOf(t)
	crack, pinch, step := 1.0, 1.0, 1.0 // drawn in so far, and what share of a step is taken
	for n := 0; n < mostCloser && t.Chance.Fail > p.Few(); n++ {
		was := [2]float64{crack, pinch}
		crack *= 1 + step*(closerBy(t.Chance.Crack, p.Few())-1)
		pinch *= 1 + step*(closerBy(t.Chance.Pinch, p.Few())-1)
		next := *t
		next.Limits = drawn(used, crack, pinch, 0)
		next.Layout = p.Lays(next.Limits, rule)
		next.Laid += len(next.Layout.Folds)
		if len(next.Layout.Folds) == len(t.Layout.Folds) {
			continue // another limit holds them
		}
		next.Cracking, next.Pinching = p.uses(next.Layout, t.Passes)
		if next.Out = p.whyOut(&next); !next.Sound() { // too far, as for the land
			crack, pinch, step = was[0], was[1], step/2
			continue
		}
		if next.Chance = p.ChanceOf(&next, nil).Chances; next.Chance.Fail > 0.9*t.Chance.Fail {
			return
		}
		next.Seconds = p.scoringTime(t.Passes, len(next.Layout.Folds))
		*t = next
	}
}

// usedOf returns the limits of a try, drawn in to what is used of them where another limit
// held the spacing.
func usedOf(t *Try) []score.Case {
	out := append([]score.Case{}, t.Limits...)
	for i := range out {
		out[i].Strain *= math.Min(1, over(t.Cracking))
		if t.Pinching.Score > 0 {
			out[i].Closing /= math.Max(1e-3, math.Min(1, over(t.Pinching)))
		}
	}
	return out
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
	RibBreaks    // these speak against a sound one once it is glued
	GluePeels
	GluePulls
	HeldStrained
	RibGives
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
