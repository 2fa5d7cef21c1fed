package check

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/remedy"
	"springrib/internal/unit"
)

// NothingWorks tells of a design for which no number of passes is sound: which limit
// binds, and the smallest changes that would do, each found by planning again.
func NothingWorks(doc design.Document, p *plan.Plan) []finding.Finding {
	if !p.NothingWorks() {
		return evenFollowing(doc, p)
	}
	near := p.Nearest()
	f := found("nothing-works", finding.Warn, whatBinds(p, near), map[string]float64{"passes": float64(near.Passes), "over": near.Over()})
	var short bool
	f.Remedies, short = remedy.Search(doc, p)
	switch {
	case short:
		f.Text += " With so many scores not every change of depth, curve, side or sheet could be tried."
	case len(f.Remedies) == 0:
		f.Text += " No single change of depth, curve, side or sheet is enough."
	}
	return one(at(on(f, "panel.passes"), p, max(p.Scores.Cracking.Score, p.Scores.Pinching.Score)))
}

// evenFollowing tells of a number of scores, or a distance between them, that does not
// work when no other would either: with the spacing left open, and what would do then.
func evenFollowing(doc design.Document, p *plan.Plan) []finding.Finding {
	open, q, ok := remedy.WithSpacingOpen(doc, p)
	if !ok {
		return nil
	}
	fs := NothingWorks(open, &q)
	for i := range fs {
		for _, r := range fs[i].Remedies {
			r.Set["panel.spacing"] = design.Follow
		}
		fs[i].Text = "Neither the spacing that you set works nor any other. Left open: " + fs[i].Text
	}
	return fs
}

// whatBinds names the limit that even the nearest number of passes is over.
func whatBinds(p *plan.Plan, t *plan.Try) string {
	lead := "None of " + num(len(p.Scores.Tries)) + " pass counts works. The nearest, " + unit.Plural(t.Passes, "pass") + ", "
	if len(p.Scores.Tries) == 1 {
		lead = "One pass does not work: it "
	}
	switch t.Out {
	case plan.Cracks:
		return lead + "strains the skin to " + unit.Ratio(math.Max(t.Cracking.Value/t.Cracking.Allowed, t.Cracking.Bad)) + " times what is allowed, even with the scores as close as they may be."
	case plan.Pinches:
		return lead + "closes the scores to " + unit.Ratio(math.Max(t.Pinching.Value/t.Pinching.Allowed, t.Pinching.Bad)) + " times what is allowed, even with the scores as close as they may be."
	case plan.SkinThin:
		return lead + "leaves only " + mm(p, t.Skin) + " of skin, too little to handle."
	case plan.BendsTight:
		return lead + "leaves the sheet no room to bend: its neutral line lies further inside the bend than the bend is wide."
	case plan.HardlyScored:
		return lead + "hardly scores the sheet."
	case plan.CutsThrough:
		return lead + "cuts through."
	case plan.FlatsHigh:
		return lead + "leaves flats standing off more than the " + mm(p, p.V.Panel.StandOff) + " that you accept, even with the scores as close as they may be."
	case plan.FoldsVisible:
		return lead + "folds each score by more than the finish hides, even with the scores as close as they may be."
	}
	return lead + "leaves less material between the scores than you asked for."
}
