package plan

import (
	"springrib/internal/design"
	"springrib/internal/score"
)

// Trial works a design out no further than its scores, for one number of passes, or for
// all when passes is 0; ok is false where there is no curve to lay them on.
func Trial(v design.Values, passes int) (tries []Try, ok bool) {
	p := Plan{V: v}
	if !learn(&p) || !section(&p) || !size(&p) {
		return nil, false
	}
	for n := 1; n <= len(p.V.Machine.Depths); n++ {
		if passes == 0 || passes == n {
			tries = append(tries, p.try(n))
		}
	}
	return tries, true
}

// NothingWorks tells that no number of passes is sound though the spacing was left to the
// program. With a number or a distance of the person's own, their choice may be at fault.
func (p *Plan) NothingWorks() bool {
	if r := p.rule(); r == score.Count || r == score.Pitch || len(p.Layout.Folds) == 0 {
		return false
	}
	for _, t := range p.Tries {
		if t.Sound {
			return false
		}
	}
	return len(p.Tries) > 0
}

// Nearest returns the try that comes nearest to being sound.
func (p *Plan) Nearest() Try { return p.Tries[p.Ranked()[0]] }

// Over returns how far the worse of cracking and pinching is over what is allowed, 1 at
// the limit.
func (t Try) Over() float64 { return t.worst() }
