package remedy

import (
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/score"
)

// surer is what lets few panels fail: scores whose spacing follows the curve, and is
// chosen for that, another number of passes, or a larger radius.
func surer(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	var out []finding.Remedy
	now := p.Try().Passes
	if s := p.V.Panel.Spacing; s == design.FixedCount || s == design.FixedPitch {
		if t := p.Passed(now, score.Follow); fewFail(p, &t) {
			return one("Use "+num(len(t.Layout.Folds))+" scores instead of "+num(len(p.Scores.Layout.Folds)), "panel.spacing", design.Follow)
		}
	}
	for i := range p.Scores.Tries {
		if t := &p.Scores.Tries[i]; t.Passes != now && fewFail(p, t) {
			out = append(out, set("Use "+num(t.Passes)+" passes instead of "+num(now), "panel.passes", num(t.Passes)))
			break
		}
	}
	return append(out, radius(p)...)
}

// fewFail tells that a try is sound, and that few panels fail with it.
func fewFail(p *plan.Plan, t *plan.Try) bool { return t.Sound() && t.Chance.Fail <= p.Few() }
