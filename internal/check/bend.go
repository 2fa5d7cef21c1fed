package check

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/hinge"
	"springrib/internal/plan"
	"springrib/internal/unit"
)

// cutsThrough looks at the bad end of the depth's range: a depth that goes through on
// the nominal value is a field out of its range already.
func cutsThrough(p *plan.Plan) []finding.Finding {
	t := p.Try()
	skin := p.V.Machine.Skin(t.Passes, p.V.Sheet.T, p.V.Sheet.TSpread)
	if skin.Low > 0 {
		return nil
	}
	f := found("cuts-through", finding.Stop,
		counted(t.Passes, "pass", "leaves", "leave")+" "+mm(p, skin.Value)+" of skin, and the depth may be off by as much: the score may go through. Take fewer passes, or a gentler setting.",
		map[string]float64{"skin": skin.Value, "spread": skin.High - skin.Value})
	return one(on(f, "panel.passes"))
}

// pinches is graded by the limit itself: shut is a stop, the factor used up a warning.
func pinches(p *plan.Plan) []finding.Finding {
	u := p.Scores.Pinching
	if u.Sound() || u.Score == 0 {
		return nil
	}
	sev, say := finding.Warn, "Score "+num(u.Score)+" closes "+unit.Ratio(u.Value)+" of its mouth; "+unit.Ratio(u.Allowed)+" is allowed."
	if u.Value > 1 {
		sev = finding.Stop
		say = "These scores pinch shut at a radius of " + mm(p, p.Radius(u.Score)*u.Value) + "; you want " + mm(p, p.Radius(u.Score)) + "."
	} else if u.Bad > 1 {
		sev = finding.Stop
		say = "In the worst case these scores pinch shut: they close " + unit.Ratio(u.Bad) + " of the mouth. " + p.Because(p.Proof.Ranges.Pinching)
	}
	f := found("kerf-pinches", sev, say, map[string]float64{"use": u.Value, "bad": u.Bad, "allowed": u.Allowed})
	return one(at(f, p, u.Score))
}

// strain stops only on a limit from a bend strip.
func strain(p *plan.Plan) []finding.Finding {
	u := p.Scores.Cracking
	u.Allowed = 1 / p.V.Panel.StrainSafe // what it may be held at for good is told apart
	if u.Sound() || u.Score == 0 {
		return nil
	}
	sev := finding.Warn
	worst := math.Max(u.Value, u.Bad)
	if p.V.Sheet.StrainTested && worst > 1 {
		sev = finding.Stop
	}
	say := "Score " + num(u.Score) + " strains the skin to " + unit.Ratio(u.Value) + " of what cracks it; up to " +
		unit.Ratio(u.Allowed) + " is allowed."
	if u.Value <= u.Allowed+1e-9 {
		say = "Score " + num(u.Score) + " strains the skin to " + unit.Ratio(u.Value) + " of what cracks it, in the worst case to " +
			unit.Ratio(u.Bad) + ". " + p.Because(p.Proof.Ranges.Cracking)
	}
	if !p.V.Sheet.StrainTested {
		say += " The limit is a handbook figure: bend a test strip of this sheet before you trust it."
	}
	f := found("strain-over", sev, say, map[string]float64{"use": u.Value, "bad": u.Bad, "allowed": u.Allowed,
		"strain": u.Value * p.V.Sheet.Rupture.Value})
	return one(at(f, p, u.Score))
}

// roundSide names the score whose bottom is pulled most.
func roundSide(p *plan.Plan) []finding.Finding {
	worst, n := 0.0, 0
	for i, f := range p.Scores.Layout.Folds {
		if !f.Closing && (n == 0 || f.State.NetStrain > worst) {
			worst, n = f.State.NetStrain, i+1
		}
	}
	if n == 0 {
		return nil
	}
	return one(at(found("round-side-bottom", finding.Warn,
		"Score "+num(n)+" opens as it bends: its bottom is stretched by "+unit.Percent(worst)+
			". Nobody has measured how much a score's bottom stands. Bend a test strip with its scores on the outside.",
		map[string]float64{"strain": worst}), p, n))
}

func skinThin(p *plan.Plan) []finding.Finding {
	t := p.Try()
	if t.Skin <= 0 || t.Skin >= plan.LeastSkin*p.V.Sheet.T {
		return nil
	}
	return one(on(found("skin-thin", finding.Warn, "Only "+mm(p, t.Skin)+" of skin is left, under "+
		unit.Ratio(plan.LeastSkin)+" of the thickness. It may tear as you lift the sheet.",
		map[string]float64{"skin": t.Skin, "thickness": p.V.Sheet.T}), "panel.passes"))
}

// landNarrow tells of scores that leave too little between them: by the spacing of a bend, or where two
// bends meet.
func landNarrow(p *plan.Plan) []finding.Finding {
	w := p.V.Machine.ScoreWidth
	for _, r := range p.Scores.Layout.Runs {
		if r.Pitch-w < p.V.Panel.MinLand-unseen {
			return one(tooNarrow(p, r.Pitch, "between two scores", "Scores"))
		}
	}
	least, n := closestScores(p)
	if n == 0 || least-w >= p.V.Panel.MinLand-unseen {
		return nil
	}
	pair := num(n) + " and " + num(n+1)
	return one(at(tooNarrow(p, least, "between scores "+pair, "Scores "+pair+" are"), p, n))
}

// unseen is by how little a land may miss what was asked for without a word, mm: scores come in whole
// numbers, and a figure says no less.
const unseen = 0.005

// tooNarrow is the finding of scores so far apart.
func tooNarrow(p *plan.Plan, apart float64, between, scores string) finding.Finding {
	w := p.V.Machine.ScoreWidth
	land, sev := apart-w, finding.Warn
	text := "Only " + mm(p, land) + " is left " + between
	if land <= 0 {
		sev = finding.Stop
		text = scores + " " + mm(p, apart) + " apart and " + mm(p, w) + " wide leave nothing between them"
	}
	return on(found("land-narrow", sev, text+"; you asked for at least "+mm(p, p.V.Panel.MinLand)+".",
		map[string]float64{"land": land, "least": p.V.Panel.MinLand}), "panel.minLand")
}

// closestScores returns how far apart the closest neighbours on the panel lie, and the number of the
// first of them; 0 where there are no two.
func closestScores(p *plan.Plan) (apart float64, n int) {
	folds, off := p.Scores.Layout.Folds, map[int]bool{}
	for _, i := range p.Panel.Flat.Outside {
		off[i] = true
	}
	for i := 1; i < len(folds); i++ {
		if d := folds[i].U - folds[i-1].U; !off[i] && !off[i+1] && (n == 0 || d < apart) {
			apart, n = d, i
		}
	}
	return apart, n
}

func flats(p *plan.Plan) []finding.Finding {
	so := p.V.Panel.StandOff
	if so <= 0 || p.Proof.Fit.Most <= 1.05*so {
		return nil
	}
	f := found("flats-visible", finding.Warn, "The flats stand up to "+mm(p, p.Proof.Fit.Most)+
		" off the rib edge; you accept "+mm(p, so)+".", map[string]float64{"height": p.Proof.Fit.Most, "accepted": so})
	return one(at(f, p, p.Proof.Flats.Score))
}

// countMissed tells of a fixed number of scores that is fewer than the curve can take.
func countMissed(p *plan.Plan) []finding.Finding {
	want, laid := p.V.Panel.Count, len(p.Scores.Layout.Folds)
	if p.V.Panel.Spacing != design.FixedCount || laid == want || laid == 0 {
		return nil
	}
	if g := p.Gores(); g > 1 && laid-want < g && laid > want {
		return one(on(found("count-missed", finding.Warn, "In "+num(g)+" equal parts the panel has "+num(laid)+" scores, as many in each; you asked for "+num(want)+".",
			map[string]float64{"asked": float64(want), "laid": float64(laid)}), "panel.count"))
	}
	text := "The curve takes at least " + num(laid) + " scores"
	if n := len(p.Scores.Layout.Runs); n > 1 {
		text = "The " + num(n) + " bends of this curve take at least " + num(laid) + " scores together"
	}
	text += ", so that each bend has one"
	for _, r := range p.Scores.Layout.Runs {
		if !r.Wraps {
			text += ", or one at either end where the panel lies in the hollow of the rib,"
			break
		}
	}
	return one(on(found("count-missed", finding.Warn, text+" and none folds by more than about 115°; you asked for "+num(want)+".",
		map[string]float64{"asked": float64(want), "laid": float64(laid)}), "panel.count"))
}

func folds(p *plan.Plan) []finding.Finding {
	lim := p.V.Panel.FoldLimit
	worst, n := 0.0, 0
	for i, f := range p.Scores.Layout.Folds {
		if th := math.Abs(f.Theta); th > worst {
			worst, n = th, i+1
		}
	}
	if lim <= 0 || worst <= lim*(1+1e-6) {
		return nil
	}
	return one(at(found("folds-visible", finding.Warn, "Score "+num(n)+" folds "+unit.Angle(worst)+
		"; the "+p.V.Panel.Finish+" finish hides up to "+unit.Angle(lim)+".",
		map[string]float64{"fold": worst * 180 / math.Pi, "limit": lim * 180 / math.Pi}), p, n))
}

// fits holds the refolded panel to what was promised.
func fits(p *plan.Plan) []finding.Finding {
	if math.Abs(p.Proof.Fit.LeastFlat) <= 0.02 && p.Proof.Fit.EndMiss <= 0.02 {
		return nil
	}
	return one(found("does-not-fit", finding.Stop, "Folded up again, the panel misses the rib: a flat by "+
		mm(p, math.Abs(p.Proof.Fit.LeastFlat))+", its end by "+mm(p, p.Proof.Fit.EndMiss)+". Don't cut this; keep the design file and tell us.",
		map[string]float64{"flat": p.Proof.Fit.LeastFlat, "end": p.Proof.Fit.EndMiss}))
}

// inWords says what can lie outside the checked range of the law.
func inWords(r hinge.Ratio) string {
	switch r {
	case hinge.DepthRatio:
		return "Depth of the score over thickness"
	case hinge.WidthRatio:
		return "Width of the score over thickness"
	case hinge.SpacingRatio:
		return "Spacing over thickness"
	case hinge.EZRatio:
		return "Stiffness through the sheet over that along it"
	}
	return "Shear stiffness of the sheet over that in bending"
}

func domain(p *plan.Plan) []finding.Finding {
	for _, r := range p.Scores.Layout.Runs {
		for _, d := range p.Law().Domain(r.Pitch) {
			return one(found("outside-law", finding.Note, inWords(d.Ratio)+" is "+unit.Ratio(d.Value)+" here; this was checked from "+unit.Ratio(d.Low)+" to "+
				unit.Ratio(d.High)+". Trust a test strip more than these numbers.",
				map[string]float64{"value": d.Value, "low": d.Low, "high": d.High}))
		}
	}
	return nil
}

func passesMissing(p *plan.Plan) []finding.Finding {
	n := len(p.V.Machine.Depths)
	if p.V.Panel.Passes <= n {
		return nil
	}
	return one(on(found("passes-missing", finding.Warn, "You ask for "+unit.Plural(p.V.Panel.Passes, "pass")+", but the depth of only "+
		num(n)+" is known, so "+num(n)+" is used. Cut a depth strip and add its reading.",
		map[string]float64{"wanted": float64(p.V.Panel.Passes), "known": float64(n)}), "panel.passes"))
}
