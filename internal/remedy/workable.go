package remedy

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/plan"
	"springrib/internal/score"
)

// Workable works a design out no further than its scores and tells whether any number of
// passes is sound. Laid is what that took: how many scores were laid, a thing to bound a
// search by that is the same on every machine. Where the curve is that of another plan, like
// gives its line, and it is not asked again whether a panel can follow it.
func Workable(v *design.Values, like *plan.Plan) (sound bool, laid int) {
	q := &plan.Plan{Asked: v}
	if like != nil {
		q.Line = like.Line
	}
	if !q.Run(plan.StageReadings) || like == nil && !q.Run(plan.StageLine) || !q.Run(plan.StageSection, plan.StageSize) {
		return false, asking
	}
	if like == nil {
		laid = len(q.Section.Edge.Samples(3 * math.Pi / 180)) // which that goes by
	}
	// The deepest skin that holds together is the likeliest, so it is asked first.
	for n := len(q.V.Machine.Depths); n >= 1 && !sound; n-- {
		laid += asking
		if q.SkinOut(q.V.Machine.Skin(n, q.V.Sheet.T, 0).Value) != plan.Sound || !reachable(q, n) {
			continue
		}
		t := q.Passed(n, q.Rule())
		laid += t.Laid
		sound = t.Sound()
	}
	return sound, laid
}

// asking counts, in scores laid, for a number of passes that is refused unlaid: it takes
// about as long.
const asking = 200

// reachable tells, before any score is laid, whether every bend has a spacing that keeps
// the limits after passes: where its tightest place has none, laying would tell the same.
func reachable(p *plan.Plan, passes int) bool {
	if r := p.Rule(); r == score.Count || r == score.Pitch {
		return true
	}
	lim := p.Limits(p.Cases(passes))
	type bend struct {
		kappa float64
		sign  int
	}
	asked := map[bend]bool{}
	for _, st := range p.Section.Edge.Stretches() {
		k, _ := st.Shape.Tightest()
		b := bend{k, st.Sign}
		if st.Sign == 0 || asked[b] {
			continue
		}
		asked[b] = true
		if !lim.Wanted(k, (st.Sign > 0) != p.Section.PanelLeft, p.Section.Towards).Reached {
			return false
		}
	}
	return true
}
