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

// learnBend brackets the strain at rupture between what held and what broke. Where some
// held more than broke others, strips differ, and the middle of the overlap and its
// width are taken; an overlap wider than half again can't be one sheet.
func (l *Learned) learnBend(readings []Reading, index []int) {
	held, broke := math.Inf(-1), math.Inf(1)
	heldAt, brokeAt, n := -1, -1, 0
	for i, r := range readings {
		if !l.deepEnough(r.Passes) {
			l.Findings = append(l.Findings, say(IDUnknownDepth, finding.Warn, index[i], map[string]float64{"passes": float64(r.Passes)},
				"How deep %s is not known, so the strain of this strip is not either. Read a depth strip first; it is not used.", passesGo(r.Passes)))
			continue
		}
		eps, open := gaugeStrain(l.Law(r.Passes), r)
		if !open {
			l.Findings = append(l.Findings, say(IDShut, finding.Note, index[i], map[string]float64{"radius": r.Value},
				"The mouths of this strip shut before it lay on a radius of %s, and past that the law doesn't hold. It is not used; space the scores closer.", unit.Length(r.Value, l.Units)))
			continue
		}
		n++
		l.Bends = append(l.Bends, BendResult{Radius: r.Value, Strain: eps, Broke: r.Verdict == Broke})
		switch r.Verdict {
		case Held:
			if eps > held {
				held, heldAt = eps, index[i]
			}
		case Broke:
			if eps < broke {
				broke, brokeAt = eps, index[i]
			}
		}
	}
	switch {
	case heldAt >= 0 && brokeAt >= 0:
		l.bracket(held, broke, n, brokeAt)
	case heldAt >= 0:
		l.onlyHeld(held, n, heldAt)
	case brokeAt >= 0 && broke < l.Rupture.Value:
		l.Rupture, l.RuptureKnown = Measured{broke, math.Max(l.Rupture.Sigma, .1), n}, true
	}
}

// bracket takes the geometric middle, with the spread of a figure that may be anywhere
// between the two, which is their ratio's logarithm over sqrt 12.
func (l *Learned) bracket(held, broke float64, n, at int) {
	width := math.Abs(math.Log(broke / held))
	if held > 1.5*broke {
		l.Findings = append(l.Findings, say(IDContradicts, finding.Warn, at, map[string]float64{"held": held * 100, "broke": broke * 100},
			"One strip held %.2f %% strain and another broke at %.2f %%. Check radius, spacing and passes of both; the strain limit stays as it was.", held*100, broke*100))
		return
	}
	l.Rupture, l.RuptureKnown = Measured{math.Sqrt(held * broke), math.Hypot(width/math.Sqrt(12), strainSigma), n}, true
}

// onlyHeld raises the limit to what was held, no further.
func (l *Learned) onlyHeld(held float64, n, at int) {
	l.Findings = append(l.Findings, say(IDOnlyHeld, finding.Note, at, map[string]float64{"held": held * 100},
		"No strip has broken yet: the skin bears %.2f %% at least. Bend one round smaller gauges until it cracks.", held*100))
	if held > l.Rupture.Value {
		l.Rupture = Measured{held, strainSigma, n}
	}
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
