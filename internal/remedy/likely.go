package remedy

import (
	"sort"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/score"
	"springrib/internal/unit"
)

// surer is what lets few panels fail: scores whose spacing follows the curve, and is
// chosen for that, another number of passes, or a larger radius.
func surer(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	var out []finding.Remedy
	now := p.Try().Passes
	if s := p.V.Panel.Spacing; s == design.FixedCount || s == design.FixedPitch {
		if t := p.Passed(now, score.Follow); fewFail(p, &t) {
			return one("Use "+unit.Plural(len(t.Layout.Folds), "score")+" instead of "+num(len(p.Scores.Layout.Folds)), "panel.spacing", design.Follow)
		}
	}
	for i := range p.Scores.Tries {
		if t := &p.Scores.Tries[i]; t.Passes != now && fewFail(p, t) {
			out = append(out, set("Use "+unit.Plural(t.Passes, "pass")+" instead of "+num(now), "panel.passes", num(t.Passes)))
			break
		}
	}
	return append(out, radius(p)...)
}

// fewFail tells that a try is sound, and that few panels fail with it.
func fewFail(p *plan.Plan, t *plan.Try) bool { return t.Sound() && t.Chance.Fail <= p.Few() }

// softer is numbers of passes with which the panel pulls less at ribs and glue, the one that
// pulls least first.
func softer(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	now := p.Try()
	var soft []plan.Try
	for _, t := range p.Scores.Tries {
		if t.Sound() && t.EndForce < 0.9*now.EndForce {
			soft = append(soft, t)
		}
	}
	sort.SliceStable(soft, func(i, j int) bool { return soft[i].EndForce < soft[j].EndForce })
	var out []finding.Remedy
	for _, t := range soft[:min(len(soft), 2)] {
		out = append(out, set("Use "+unit.Plural(t.Passes, "pass")+" instead of "+num(now.Passes), "panel.passes", num(t.Passes)))
	}
	return out
}
