package plan

import (
	"cmp"
	"slices"

	"springrib/internal/stock"
)

// MostMovement is how far a rib may give at its tip when the panel is let go, mm. Common
// practice, no source.
const MostMovement = 0.5

// RibBreaks tells that the panel pulls a rib harder than it stands with its factor, or at the
// low end of its strength without.
func (p *Plan) RibBreaks() bool {
	h := &p.Strength.Hold
	return h.RibUse*RibFactor > 1 || h.RibBad > 1
}

// RibGives tells that a rib gives by more than goes unseen.
func (p *Plan) RibGives() bool { return p.Strength.Hold.Rib.Movement > MostMovement }

// HeldTooFar tells that a plastic is held for good at more strain than it may be, or than is
// known of it.
func (p *Plan) HeldTooFar() bool {
	s := p.V.Sheet.Stock
	if s.Family != stock.Plastic || p.Scores.Cracking.Score == 0 {
		return false
	}
	return !s.Sustained.Given() || p.HeldStrain() > s.Sustained.Low*(1+1e-9)
}

// HeldStrain is the strain of the skin that is strained most.
func (p *Plan) HeldStrain() float64 { return p.Scores.Cracking.Value * p.V.Sheet.Rupture.Value }

// against says what speaks against a panel that is sound as it is bent, once it is glued.
func (p *Plan) against() Reason {
	_, foot := p.Peels(false)
	_, tip := p.Peels(true)
	switch {
	case p.RibBreaks():
		return RibBreaks
	case foot || tip:
		return GluePeels
	case p.Strength.Bond.Use > 1:
		return GluePulls
	case p.HeldTooFar():
		return HeldStrained
	case p.RibGives():
		return RibGives
	}
	return Sound
}

// easier returns the plan with the number of passes of least machine time that nothing speaks
// against, up to its strength; the same plan where the person chose, where nothing speaks
// against it, or where something does against every other.
func (p *Plan) easier() *Plan {
	tries := p.Scores.Tries
	now := &tries[p.Scores.Chosen]
	if now.Against = p.against(); now.Against == Sound || p.V.Panel.Passes > 0 || !now.Sound() {
		return p
	}
	var order []int
	for i := range tries {
		if i != p.Scores.Chosen && tries[i].Sound() {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(tries[a].work(), tries[b].work()) })
	for _, i := range order {
		if q := p.glued(i); q != nil && q.Try().Chance.Fail <= p.Few() && q.Try().Against == Sound {
			return q
		}
	}
	return p
}

// glued returns the plan with another of its tries taken, up to its strength; nil where it
// comes to a stop before.
func (p *Plan) glued(i int) *Plan {
	q := p.Anew()
	q.Readings, q.Line, q.Section, q.Size = p.Readings, p.Line, p.Section, p.Size
	q.Findings = slices.Clone(p.Findings[:p.Scores.told])
	q.Scores = Scores{Tries: p.Scores.Tries, Chosen: i}
	p.surer(&q.Scores.Tries[i], p.Rule())
	if !q.choose() {
		return nil
	}
	for s := StageScores + 1; s <= StageSettled; s++ {
		if !q.Run(s) {
			return nil
		}
	}
	q.Try().Against = q.against()
	return q
}
