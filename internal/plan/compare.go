package plan

import (
	"math"
	"sort"

	"springrib/internal/machine"
	"springrib/internal/score"
)

// compare works out for every number of passes what a person would choose by: the
// spacing as laid, the height of the flats, the pull at the free end, and the machine's
// time on this outline. What decides between them is known before.
func compare(p *Plan) bool {
	chosen := p.scoring().Stiffness(p.Law(), endPitch(&p.Section, &p.Scores.Layout))
	for i := range p.Scores.Tries {
		t := &p.Scores.Tries[i]
		if !p.draft && !p.alone {
			p.surer(t, p.Rule())
			if t.Sound() && i != p.Scores.Chosen {
				p.glued(i)
			}
		}
		t.Least, t.Most = laidSpacing(t.Layout)
		t.StandOff = p.flatHeight(t.Layout)
		t.Seconds = p.seconds(t.Layout, t.Passes)
		t.EndForce = p.Strength.Hold.EndForce * p.scoring().Stiffness(t.Law, endPitch(&p.Section, &t.Layout)) / chosen
	}
	return true
}

// Ranked returns the indices of the tries in the order in which one would take them: the
// sound ones of which few panels fail by machine time, the fewer passes first when equal,
// then those of which more do, then the others by how far they are over.
func (p *Plan) Ranked() []int {
	out := make([]int, len(p.Scores.Tries))
	for i := range out {
		out[i] = i
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, b := &p.Scores.Tries[out[i]], &p.Scores.Tries[out[j]]
		switch {
		case a.Sound() != b.Sound():
			return a.Sound()
		case (a.Against == Sound) != (b.Against == Sound):
			return a.Against == Sound
		case a.Sound():
			return a.before(b, p.Few())
		}
		return a.worst() < b.worst()
	})
	return out
}

// laidSpacing returns the least and the greatest distance between neighbouring scores of
// one bend.
func laidSpacing(l score.Layout) (least, most float64) {
	least = math.Inf(1)
	for i := 1; i < len(l.Folds); i++ {
		a, b := &l.Folds[i-1], &l.Folds[i]
		for k := range l.Runs {
			if r := &l.Runs[k]; r.Holds(a.S) && r.Holds(b.S) {
				least, most = math.Min(least, b.U-a.U), math.Max(most, b.U-a.U)
				break
			}
		}
	}
	if most == 0 { // single scores
		least = 0
		for _, r := range l.Runs {
			least, most = r.Pitch, math.Max(most, r.Pitch)
		}
	}
	return least, most
}

// flatHeight returns how far the flats stand off the edge by the formula for the fold
// beside them, where the spacing was chosen.
func (p *Plan) flatHeight(l score.Layout) float64 {
	most := 0.0
	for i := range l.Folds {
		f := &l.Folds[i]
		k := 0.0
		for j := range l.Runs {
			if r := &l.Runs[j]; r.Holds(f.S) {
				k = math.Max(k, math.Abs(p.Section.Edge.Kappa(r.Inside(f.S))))
			}
		}
		most = math.Max(most, score.FlatHeight(math.Abs(f.Theta), k, f.Theta > 0))
	}
	return most
}

// seconds is the time of all strokes of a layout on this panel's outline, from rest to
// rest, without travel; 0 where no speed is known.
func (p *Plan) seconds(l score.Layout, passes int) float64 {
	m := p.V.Machine
	if m.Speed <= 0 || len(l.Folds) == 0 {
		return 0
	}
	us := make([]float64, len(l.Folds))
	for i := range l.Folds {
		us[i] = l.Folds[i].U
	}
	sum := 0.0
	for _, spans := range p.Outline.Region.ClipLines(pt(0, 0), pt(0, -1), us) {
		for _, s := range spans {
			if !s.Graze {
				sum += machine.StrokeTime(m.Speed, m.Acceleration, s.Len()+2*p.Panel.Overrun)
			}
		}
	}
	return sum * float64(passes)
}
