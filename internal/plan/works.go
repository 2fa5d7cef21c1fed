package plan

import (
	"springrib/internal/score"
)

// NothingWorks tells that no number of passes is sound though the spacing was left to the
// program. With a number or a distance of the person's own, their choice may be at fault.
func (p *Plan) NothingWorks() bool {
	if r := p.Rule(); r == score.Count || r == score.Pitch || len(p.Scores.Layout.Folds) == 0 {
		return false
	}
	if _, tight := Roomless(p.Scores.Layout); tight {
		return false // which is told already
	}
	for _, t := range p.Scores.Tries {
		if t.Sound() {
			return false
		}
	}
	return len(p.Scores.Tries) > 0
}

// NothingWorksAsTyped tells that no number of passes is sound with the number of scores or
// the distance between them that the person set.
func (p *Plan) NothingWorksAsTyped() bool {
	if r := p.Rule(); r != score.Count && r != score.Pitch {
		return false
	}
	for _, t := range p.Scores.Tries {
		if t.Sound() {
			return false
		}
	}
	return p.Drawn && len(p.Scores.Layout.Folds) > 0
}

// Nearest returns the try that comes nearest to being sound.
func (p *Plan) Nearest() *Try { return &p.Scores.Tries[p.Ranked()[0]] }

// Over returns how far the worse of cracking and pinching is over what is allowed, 1 at
// the limit.
func (t *Try) Over() float64 { return t.worst() }
