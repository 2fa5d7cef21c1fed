package coupon

import (
	"math"

	"springrib/internal/finding"
	"springrib/internal/hinge"
	"springrib/internal/solve"
	"springrib/internal/unit"
)

// gaugeStrain is the strain of the skin of a strip bent round a gauge, and whether its
// mouths were still open there. The scored face lies on the gauge, or the skin does.
func gaugeStrain(law hinge.Law, r Reading) (strain float64, open bool) {
	t := law.Score().Thickness
	yn := law.Neutral(r.Spacing)
	if r.RoundSide {
		return law.Strain(r.Spacing, 1/(r.Value+yn)), true
	}
	radius := r.Value + t - yn
	return law.Strain(r.Spacing, 1/radius), radius >= law.ClosingRadius(r.Spacing)
}

// strainSigma is how well the strain of one strip is known, as a logarithm: the strain
// factor of the law, 2 % against finite elements, and the skin's own error, which the
// strain follows about as its half power at a given spacing.
const strainSigma = 0.04

// learnBend takes what held and what broke together, each with the scatter of strips (see
// rupture). Only strips of both kinds make the limit one that was tested: with one kind
// alone it moves as far as that side tells. Where one held far more than broke another,
// no scatter of one sheet explains it, and the limit stays.
func (l *Learned) learnBend(readings []Reading, index []int) {
	held, broke := math.Inf(-1), math.Inf(1)
	heldAt, brokeAt := -1, -1
	for i, r := range readings {
		eps, ok := l.bent(r, index[i])
		if !ok {
			continue
		}
		l.Bends = append(l.Bends, BendResult{Radius: r.Value, Strain: eps, Broke: r.Verdict == Broke})
		switch {
		case r.Verdict == Held && eps > held:
			held, heldAt = eps, index[i]
		case r.Verdict == Broke && eps < broke:
			broke, brokeAt = eps, index[i]
		}
	}
	if len(l.Bends) == 0 {
		return
	}
	both := heldAt >= 0 && brokeAt >= 0
	switch {
	case both && held > mostOverlap*broke:
		l.Findings = append(l.Findings, say(IDContradicts, finding.Warn, brokeAt, map[string]float64{"held": held * 100, "broke": broke * 100},
			"One strip held %.2f %% strain and another broke at %.2f %%. Check radius, spacing and passes of both; the strain limit stays as it was.", held*100, broke*100))
		return
	case !both && heldAt >= 0:
		l.Findings = append(l.Findings, say(IDOnlyHeld, finding.Note, heldAt, map[string]float64{"held": held * 100},
			"No strip has broken yet: the skin bears about %.2f %%. Bend one round smaller gauges until it cracks.", held*100))
	case !both:
		l.Findings = append(l.Findings, say(IDOnlyBroke, finding.Note, brokeAt, map[string]float64{"broke": broke * 100},
			"No strip has held yet: one broke at %.2f %%. Bend another round larger gauges, down to the first that cracks it.", broke*100))
	}
	l.takeRupture(both, held)
}

// takeRupture makes the strips the new limit. With one kind alone the limit goes no
// further than that kind tells, up to what was held or down from what was believed, and
// stays where they tell nothing new.
func (l *Learned) takeRupture(both bool, held float64) {
	was := l.Rupture
	r := rupture{mean: math.Log(l.Bends[0].Strain), sigma: vague, strips: l.Bends}
	if was.Value > 0 {
		r.mean, r.sigma = math.Log(was.Value), math.Max(was.Sigma, handbookSigma)
	}
	mean, sigma := r.learn()
	value := solve.Exp(mean)
	if !both && was.Value > 0 {
		value = math.Min(value, math.Max(was.Value, held))
		if math.Abs(value-was.Value) < 0.01*was.Value {
			return
		}
	}
	l.Rupture = Measured{value, math.Sqrt(sigma*sigma + strainSigma*strainSigma + stripScatter*stripScatter), len(l.Bends)}
	l.RuptureKnown = both
}

// mostOverlap is how many times the strain that broke one strip another may have held and
// they are still of one sheet: four standard deviations of what two strips differ by.
const mostOverlap = 1.75

// bent returns the strain that a strip saw round its gauge; ok is false, and it is said
// why, where that can't be told.
func (l *Learned) bent(r Reading, index int) (eps float64, ok bool) {
	if !l.deepEnough(r.Passes) {
		l.Findings = append(l.Findings, say(IDUnknownDepth, finding.Warn, index, map[string]float64{"passes": float64(r.Passes)},
			"How deep %s is not known, so the strain of this strip is not either. Read a depth strip first; it is not used.", passesGo(r.Passes)))
		return 0, false
	}
	eps, open := gaugeStrain(l.Law(r.Passes), r)
	if !open {
		l.Findings = append(l.Findings, say(IDShut, finding.Note, index, map[string]float64{"radius": r.Value},
			"The mouths of this strip shut before it lay on a radius of %s, and past that the law doesn't hold. It is not used; space the scores closer.", unit.Length(r.Value, l.Units)))
	}
	return eps, open && (r.Verdict == Held || r.Verdict == Broke)
}

// learnWidth turns the closing angle of strips into the width of their scores,
// w = turn per score * lever.
func (l *Learned) learnWidth(readings []Reading, index []int) {
	var s series
	for i, r := range readings {
		if !l.deepEnough(r.Passes) {
			l.Findings = append(l.Findings, say(IDUnknownDepth, finding.Warn, index[i], map[string]float64{"passes": float64(r.Passes)},
				"How deep %s is not known, so the closing of this strip says nothing. Read a depth strip first; it is not used.", passesGo(r.Passes)))
			continue
		}
		turn := r.Value / float64(r.Count)
		w, ok := l.widthFor(r.Passes, r.Spacing, turn)
		if !ok || w > 3*l.Width.Value || w < l.Width.Value/3 {
			l.Findings = append(l.Findings, say(IDUnits, finding.Warn, index[i], map[string]float64{"width": finite(w), "believed": l.Width.Value},
				"A score that shuts at %s would be %s wide, not %s. Check angle and count; it is not used.", unit.Angle(turn), unit.LengthFine(w, l.Units), unit.LengthFine(l.Width.Value, l.Units)))
			continue
		}
		s.add(w, index[i])
	}
	// The turn of a strip is read to about 4 % (2 degrees of 45), the lever is known to 1 %.
	l.settle(s, .04*l.Width.Value, "score width", &l.Width)
}

// widthFor solves w = turn * lever(w); the lever hardly depends on w.
func (l *Learned) widthFor(passes int, spacing, turn float64) (float64, bool) {
	h := l.Skins[passes-1].Value
	return solve.Root(func(w float64) float64 {
		law := hinge.New(l.Material, l.score(h, w))
		return w - turn*law.MouthLever(spacing)
	}, 0, spacing, 1e-9)
}
