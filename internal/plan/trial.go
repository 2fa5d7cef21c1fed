package plan

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/score"
)

// Workable works a design out no further than its scores and tells whether any number of
// passes is sound. Laid is what that took: how many scores were laid, a thing to bound a
// search by that is the same on every machine. Where the curve is that of a plan with an
// edge, known tells so, and it is not asked again whether it runs into itself.
func Workable(v design.Values, known bool) (sound bool, laid int) {
	p := Plan{V: v, simple: known}
	if !learn(&p) || !section(&p) || !size(&p) {
		return false, asking
	}
	if !known {
		laid = len(p.Edge.Samples(3 * math.Pi / 180)) // which that goes by
	}
	// The deepest skin that holds together is the likeliest, so it is asked first.
	for n := len(p.V.Machine.Depths); n >= 1 && !sound; n-- {
		laid += asking
		if p.skinOut(p.V.Machine.Skin(n, p.V.Sheet.T, 0).Value) != "" || !p.reachable(n) {
			continue
		}
		t := p.try(n)
		laid += t.laid
		sound = t.Sound
	}
	return sound, laid
}

// asking counts, in scores laid, for a number of passes that is refused unlaid: it takes
// about as long.
const asking = 200

// reachable tells, before any score is laid, whether every bend has a spacing that keeps
// the limits after passes: where its tightest place has none, laying would tell the same.
func (p *Plan) reachable(passes int) bool {
	v := p.V.Panel
	if r := p.rule(); r == score.Count || r == score.Pitch {
		return true
	}
	lim := score.Limits{Cases: p.cases(passes), StandOff: v.StandOff, Fold: v.FoldLimit, Land: v.MinLand}
	type bend struct {
		kappa float64
		sign  int
	}
	asked := map[bend]bool{}
	for _, st := range p.Edge.Stretches() {
		k, _ := st.Shape.Tightest()
		b := bend{k, st.Sign}
		if st.Sign == 0 || asked[b] {
			continue
		}
		asked[b] = true
		if !lim.Wanted(k, (st.Sign > 0) != p.PanelLeft, p.Towards).Reached {
			return false
		}
	}
	return true
}

// NothingWorks tells that no number of passes is sound though the spacing was left to the
// program. With a number or a distance of the person's own, their choice may be at fault.
func (p *Plan) NothingWorks() bool {
	if r := p.rule(); r == score.Count || r == score.Pitch || len(p.Layout.Folds) == 0 {
		return false
	}
	if _, tight := roomless(p.Layout); tight {
		return false // which is told already
	}
	for _, t := range p.Tries {
		if t.Sound {
			return false
		}
	}
	return len(p.Tries) > 0
}

// NothingWorksAsTyped tells that no number of passes is sound with the number of scores or
// the distance between them that the person set.
func (p *Plan) NothingWorksAsTyped() bool {
	if r := p.rule(); r != score.Count && r != score.Pitch {
		return false
	}
	for _, t := range p.Tries {
		if t.Sound {
			return false
		}
	}
	return p.Drawn && len(p.Layout.Folds) > 0
}

// Nearest returns the try that comes nearest to being sound.
func (p *Plan) Nearest() Try { return p.Tries[p.Ranked()[0]] }

// Over returns how far the worse of cracking and pinching is over what is allowed, 1 at
// the limit.
func (t Try) Over() float64 { return t.worst() }
