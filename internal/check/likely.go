package check

import (
	"springrib/internal/chance"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/unit"
)

// many is the share of failing panels past which a design is not likely to hold.
const many = 0.1

// mayFail speaks where more panels than few would fail, though no limit is passed by the
// figures of the middle; where one is, that is told already.
func mayFail(p *plan.Plan) []finding.Finding {
	c := p.Proof.Chance
	if c.Fail <= p.Few() || !p.Try().Sound() || !p.Scores.Cracking.Sound() || !p.Scores.Pinching.Sound() {
		return nil
	}
	id, does := "may-fail", "crack"
	if c.Fail > many {
		id = "often-fails"
	}
	if c.Pinch > c.Crack {
		does = "pinch shut"
	}
	cause, left := c.Lot.Most()
	f := finding.Finding{ID: id, Severity: finding.Warn, Place: finding.Place{Field: because[cause].field},
		Text:    unit.Upper(chance.OneIn(c.Fail)) + " would " + does + " on its way to the rib. " + because[cause].text,
		Numbers: map[string]float64{"chance": c.Fail, "cracks": c.Crack, "pinches": c.Pinch, "known": left.Fail}}
	if left.Fail < c.Fail/2 {
		f.Text += " " + because[cause].were + ", " + chance.OneIn(left.Fail) + " would."
	}
	return []finding.Finding{f}
}

// because says of each cause what is not known, how it would be better, and where it is typed.
var because = [...]struct{ text, were, field string }{
	plan.BreakingMean:   {"Most of that is not knowing when this sheet breaks: bend a test strip.", "With that known", "strips.readings"},
	plan.BreakingWithin: {"Most of that comes from a sheet that is not equally strong all over.", "If it were", "sheet.stock"},
	plan.DepthOfAll:     {"Most of that is not knowing how deep the scores are: cut a depth strip.", "With that known", "strips.readings"},
	plan.DepthApart:     {"Most of that comes from scores of unequal depth.", "If all were alike", "machine.apart"},
	plan.ThicknessOff:   {"Most of that is not knowing how thick the sheet is: measure it in five places.", "With that known", "sheet.readings"},
	plan.WidthOff:       {"Most of that is not knowing how wide the scores are: close a width strip.", "With that known", "strips.readings"},
}
