package remedy

import (
	"slices"

	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/unit"
)

// surer is a larger factor against cracking, or against pinching where that comes first,
// with that number of passes or another, at which few panels fail: the least factor for
// which some number of passes is sound.
func surer(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	long := slices.Max(p.ScoreLengths())
	shuts := p.Proof.Chance.Pinch > p.Proof.Chance.Crack
	for _, safe := range []float64{1.5, 1.75, 2, 2.25, 2.5, 3, 3.5, 4} {
		v := p.V
		factor := &v.Panel.StrainSafe
		if shuts {
			factor = &v.Panel.ClosingSafe
		}
		if safe <= *factor {
			continue
		}
		*factor = safe
		q := p.Anew(v)
		q.Line, q.Section, q.Drawing = p.Line, p.Section, p.Drawing
		if !q.Run(plan.StageScores) {
			return nil
		}
		for _, n := range passesFrom(p.Try().Passes, len(q.Scores.Tries)) {
			t := q.Scores.Tries[n-1]
			if t.Sound() && q.ChanceOf(t, slices.Repeat([]float64{long}, len(t.Layout.Folds))).Fail <= plan.Few {
				return []finding.Remedy{surerBy(p, t, safe, shuts)}
			}
		}
	}
	return nil
}

// surerBy is the change to that factor and number of passes.
func surerBy(p *plan.Plan, t plan.Try, safe float64, shuts bool) finding.Remedy {
	field, against := "panel.strainSafe", "cracking"
	if shuts {
		field, against = "panel.closingSafe", "pinching"
	}
	sets := map[string]string{field: unit.Bare(safe, unit.MM)}
	text := "Lay " + num(len(t.Layout.Folds)) + " scores instead of " + num(len(p.Scores.Layout.Folds))
	if t.Passes != p.Try().Passes {
		text += ", in " + unit.Plural(t.Passes, "pass") + " instead of " + num(p.Try().Passes)
		sets["panel.passes"] = num(t.Passes)
	}
	return finding.Remedy{Text: text + ": a factor of " + unit.Ratio(safe) + " against " + against, Set: sets}
}

// passesFrom lists the numbers of passes up to most, that one first.
func passesFrom(first, most int) []int {
	out := []int{first}
	for n := 1; n <= most; n++ {
		if n != first {
			out = append(out, n)
		}
	}
	return out
}
