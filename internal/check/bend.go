package check

import (
	"maps"
	"math"

	"springrib/internal/design"
	"springrib/internal/finding"
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
		counted(t.Passes, "pass", "leaves", "leave")+" "+mm(p, skin.Value)+" of skin, and the depth may be off by as much: it may go through. Take fewer passes, or a gentler setting.",
		map[string]float64{"skin": skin.Value, "spread": skin.High - skin.Value})
	if n, ok := p.PassesThatHold(); ok {
		f = with(f, set("Use "+num(n)+" passes instead of "+num(t.Passes), "panel.passes", num(n)))
	}
	return one(on(f, "panel.passes"))
}

// pinches is graded by the limit itself: shut is a stop, the factor used up a warning.
func pinches(p *plan.Plan) []finding.Finding {
	u := p.Pinching
	if u.Sound() || u.Score == 0 {
		return nil
	}
	sev, say := finding.Warn, "Score "+num(u.Score)+" closes "+unit.Ratio(u.Value)+" of its mouth; "+unit.Ratio(u.Allowed)+" is allowed."
	if u.Value > 1 {
		sev = finding.Stop
		say = "These kerfs pinch shut at a radius of " + mm(p, p.Radius(u.Score)*u.Value) + ", you want " + mm(p, p.Radius(u.Score)) + "."
	} else if u.Bad > 1 {
		sev = finding.Stop
		say = "At the bad end of what is known these kerfs pinch shut: " + unit.Ratio(u.Bad) + " of the mouth. " + p.Because(p.Ranges.Pinching)
	}
	f := found("kerf-pinches", sev, say, map[string]float64{"use": u.Value, "bad": u.Bad, "allowed": u.Allowed})
	return one(at(with(f, mends(p)...), p, u.Score))
}

// strain stops only on a limit from a bend strip.
func strain(p *plan.Plan) []finding.Finding {
	u := p.Cracking
	u.Allowed = 1 / p.V.Panel.StrainSafe // what it may be held at for good is told apart
	if u.Sound() || u.Score == 0 {
		return nil
	}
	sev := finding.Warn
	worst := math.Max(u.Value, u.Bad)
	if p.V.Sheet.StrainTested && worst > 1 {
		sev = finding.Stop
	}
	say := "At score " + num(u.Score) + " the skin is strained to " + unit.Ratio(u.Value) + " of what cracks it; " +
		unit.Ratio(u.Allowed) + " is allowed."
	if u.Value <= u.Allowed+1e-9 {
		say = "At score " + num(u.Score) + " the skin is strained to " + unit.Ratio(u.Value) + " of what cracks it, and to " +
			unit.Ratio(u.Bad) + " at the bad end of what is known. " + p.Because(p.Ranges.Cracking)
	}
	if !p.V.Sheet.StrainTested {
		say += " The limit is a handbook figure: bend a test strip of this sheet before you trust it."
	}
	f := found("strain-over", sev, say, map[string]float64{"use": u.Value, "bad": u.Bad, "allowed": u.Allowed,
		"strain": u.Value * p.V.Sheet.Rupture.Value})
	return one(at(with(f, mends(p)...), p, u.Score))
}

// follow offers to let the spacing follow the curve, where that keeps every limit.
func follow(p *plan.Plan) finding.Remedy {
	if _, ok := p.CountThatWould(); !ok || p.V.Panel.Spacing == design.Follow {
		return finding.Remedy{}
	}
	return set("Let the spacing follow the curve", "panel.spacing", design.Follow)
}

// mends returns the changes that would bring a use back to what is allowed; where nothing
// works, NothingWorks has them.
func mends(p *plan.Plan) []finding.Remedy {
	var out []finding.Remedy
	if p.NothingWorks() {
		return nil
	}
	if n, ok := p.CountThatWould(); ok && n != len(p.Layout.Folds) {
		out = append(out, set("Use "+num(n)+" scores instead of "+num(len(p.Layout.Folds)), "panel.spacing", design.Follow))
	}
	for i, t := range p.Tries {
		if i != p.Chosen && t.Sound {
			out = append(out, set("Use "+num(t.Passes)+" passes instead of "+num(p.Try().Passes), "panel.passes", num(t.Passes)))
			break
		}
	}
	if r, along, ok := p.RadiusThatWould(); ok {
		wider := set("Bend no tighter than a radius of "+mm(p, r), "curve.radius", unit.Bare(r, p.V.Units))
		maps.Copy(wider.Set, along)
		out = append(out, wider)
	}
	return out
}

// roundSide names the score whose bottom is pulled most.
func roundSide(p *plan.Plan) []finding.Finding {
	worst, n := 0.0, 0
	for i, f := range p.Layout.Folds {
		if !f.Closing && (n == 0 || f.State.NetStrain > worst) {
			worst, n = f.State.NetStrain, i+1
		}
	}
	if n == 0 {
		return nil
	}
	return one(at(found("round-side-bottom", finding.Warn,
		"Score "+num(n)+" opens as it bends: the bottom of the score is in tension, "+unit.Percent(worst)+
			" on the net section. There is no trustworthy figure for how much it stands. Bend a test strip scored side out.",
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

func landNarrow(p *plan.Plan) []finding.Finding {
	w := p.V.Machine.ScoreWidth
	for _, r := range p.Layout.Runs {
		land := r.Pitch - w
		if land >= p.V.Panel.MinLand-1e-6 {
			continue
		}
		sev := finding.Warn
		if land <= 0 {
			sev = finding.Stop
		}
		text := "Only " + mm(p, land) + " is left between two scores"
		if land <= 0 {
			text = "Scores " + mm(p, r.Pitch) + " apart and " + mm(p, w) + " wide leave nothing between them"
		}
		f := with(found("land-narrow", sev, text+"; "+
			mm(p, p.V.Panel.MinLand)+" is the least you set.", map[string]float64{"land": land, "least": p.V.Panel.MinLand}), follow(p))
		if field, text, value, ok := p.ApartThatWould(); ok {
			f = with(f, set(text, field, value))
		}
		return one(on(f, "panel.minLand"))
	}
	return nil
}

func flats(p *plan.Plan) []finding.Finding {
	so := p.V.Panel.StandOff
	if so <= 0 || p.Fit.Most <= 1.05*so {
		return nil
	}
	f := with(found("flats-visible", finding.Warn, "The flats stand up to "+mm(p, p.Fit.Most)+
		" off the rib edge; you accept "+mm(p, so)+".", map[string]float64{"height": p.Fit.Most, "accepted": so}),
		follow(p))
	if field, _ := design.At("panel.standOff"); p.Fit.Most < field.Max-0.01 {
		f = with(f, set("Accept "+mm(p, p.Fit.Most), "panel.standOff", unit.Bare(math.Ceil(p.Fit.Most*100)/100, p.V.Units)))
	}
	return one(at(f, p, p.Flats.Score))
}

// countMissed tells of a fixed number of scores that is fewer than the curve can take.
func countMissed(p *plan.Plan) []finding.Finding {
	want, laid := p.V.Panel.Count, len(p.Layout.Folds)
	if p.V.Panel.Spacing != design.FixedCount || laid == want || laid == 0 {
		return nil
	}
	text := "The curve takes at least " + num(laid) + " scores"
	if n := len(p.Layout.Runs); n > 1 {
		text = "The " + num(n) + " bends of this curve take at least " + num(laid) + " scores together"
	}
	text += ", so that each bend has one"
	for _, r := range p.Layout.Runs {
		if !r.Wraps {
			text += ", or one at either end where the panel lies in the hollow of the rib,"
			break
		}
	}
	return one(on(with(found("count-missed", finding.Warn, text+" and none folds by more than about 115°; you asked for "+num(want)+".",
		map[string]float64{"asked": float64(want), "laid": float64(laid)}),
		set("Use "+num(laid)+" scores", "panel.count", num(laid)), follow(p)), "panel.count"))
}

func folds(p *plan.Plan) []finding.Finding {
	lim := p.V.Panel.FoldLimit
	worst, n := 0.0, 0
	for i, f := range p.Layout.Folds {
		if th := math.Abs(f.Theta); th > worst {
			worst, n = th, i+1
		}
	}
	if lim <= 0 || worst <= lim*(1+1e-6) {
		return nil
	}
	return one(at(with(found("folds-visible", finding.Warn, "Score "+num(n)+" folds "+unit.Angle(worst)+
		"; for this finish "+unit.Angle(lim)+" is as much as stays hidden.",
		map[string]float64{"fold": worst * 180 / math.Pi, "limit": lim * 180 / math.Pi}),
		follow(p)), p, n))
}

// fits holds the refolded panel to what was promised.
func fits(p *plan.Plan) []finding.Finding {
	if math.Abs(p.Fit.LeastFlat) <= 0.02 && p.Fit.EndMiss <= 0.02 {
		return nil
	}
	return one(found("does-not-fit", finding.Stop, "Folded up again, the panel misses the rib: a flat by "+
		mm(p, math.Abs(p.Fit.LeastFlat))+", its end by "+mm(p, p.Fit.EndMiss)+". Don't cut this; keep the design file and tell us.",
		map[string]float64{"flat": p.Fit.LeastFlat, "end": p.Fit.EndMiss}))
}

func domain(p *plan.Plan) []finding.Finding {
	for _, r := range p.Layout.Runs {
		for _, d := range p.Law().Domain(r.Pitch) {
			return one(found("outside-law", finding.Note, "The law was checked for "+string(d.Ratio)+" from "+unit.Ratio(d.Low)+" to "+
				unit.Ratio(d.High)+"; here it is "+unit.Ratio(d.Value)+". Trust a test strip more than these numbers.",
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
	return one(on(with(found("passes-missing", finding.Warn, "You ask for "+num(p.V.Panel.Passes)+" passes, but the depth is known for "+
		num(n)+" only; this plan uses "+num(n)+". Cut a depth strip and add its reading.",
		map[string]float64{"wanted": float64(p.V.Panel.Passes), "known": float64(n)}),
		set("Use "+num(n)+" passes", "panel.passes", num(n))), "panel.passes"))
}
