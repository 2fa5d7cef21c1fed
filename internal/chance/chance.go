package chance

import (
	"math"
	"slices"

	"springrib/internal/hinge"
	"springrib/internal/solve"
)

// Normal is a quantity that scatters about a mean.
type Normal struct{ Mean, SD float64 }

// Rupture is what is known of the strain at which a skin breaks.
type Rupture struct {
	Mean float64 // of strips: their mean, where LogNormal is set their median
	// Relative is how little that mean is known of, its standard deviation over itself.
	Relative  float64
	LogNormal bool
	// Within is the coefficient of variation among strips of one sheet, over 0, and Strip
	// the length of score that is strained in one of them, mm.
	Within, Strip float64
}

// Score is one score of a bend as laid: by how much it turns (rad), how far off its
// neighbours are (mm, +Inf for a straight), and how much of it lies on the panel (mm).
// Opens tells that its mouth is on the round side, where it can't shut.
type Score struct {
	Turn, Left, Right, Length float64
	Opens                     bool
}

// Panel is what a chance is asked of. Lengths in mm.
type Panel struct {
	Thickness Normal
	// Setting is the depth from the top face or, with FromTable, the skin that is left:
	// what all scores have in common.
	Setting   Normal
	FromTable bool
	// Apart is the standard deviation of the skin from score to score.
	Apart   float64
	Width   Normal
	Rupture Rupture
	// Law returns the law of a sheet of that thickness with scores of that skin and width.
	Law func(thickness, skin, width float64) hinge.Law
	// Bends are the stretches of scores that one moment bends at a time.
	Bends [][]Score
}

// Chances are shares of panels. Fail is not the sum of the others: a panel may do both.
type Chances struct{ Crack, Pinch, Fail float64 }

// Result tells the two states apart; Either is that of a panel that passes through both.
type Result struct{ Hand, Glued, Either Chances }

// The states that a chance is summed for.
const (
	hand = iota
	glued
	either
	states
)

// Steps of the sums, in standard deviations. Coarser ones than these lose up to a factor
// of two where the chance is 1 in 10,000; finer ones change it by less than a tenth.
const (
	stepSkin    = 0.6 // score to score
	stepSetting = 0.6
	stepRupture = 0.75
	reach       = 4.8 // of all sums
)

// leastSkin and mostSkin, shares of the thickness, bound what has a law.
const (
	leastSkin = 0.02
	mostSkin  = 0.98
)

// Of returns the chance that the panel fails. It panics unless thickness, skin, width,
// rupture and its scatter within the sheet are positive. A panel without scores never
// fails.
func Of(p Panel) Result {
	lost := lostIn(p, hand, glued, either)
	return Result{lost[hand], lost[glued], lost[either]}
}

// Either returns the chance that it fails in one of the two states, in a third of the time.
func Either(p Panel) Chances { return lostIn(p, either)[either] }

func lostIn(p Panel, which ...int) (lost [states]Chances) {
	if !(p.Thickness.Mean > 0 && p.Setting.Mean > 0 && p.Width.Mean > 0 && p.Rupture.Mean > 0 && p.Rupture.Within > 0 && p.Rupture.Strip > 0) {
		panic("chance: thickness, setting, width and rupture must be positive")
	}
	s := newSum(p)
	if len(s.groups) == 0 {
		return lost
	}
	all := commons(p)
	middle := len(all) / 2
	s.away(&lost, which, all[middle:])
	slices.Reverse(all[:middle])
	s.away(&lost, which, all[:middle])
	return lost
}

// away adds up common states in the order in which they lie away from the middle, as long as
// more is lost in one than in the one before, or it still counts.
func (s *sum) away(lost *[states]Chances, which []int, cs []common) {
	var last [states]float64
	for _, c := range cs {
		s.mark(c, which)
		counts := false
		for _, k := range which {
			was := lost[k].Fail
			s.add(&lost[k], k, c.weight)
			more := lost[k].Fail - was
			counts = counts || more > last[k]*c.weight || more > 1e-4*lost[k].Fail
			last[k] = more / c.weight
		}
		if !counts {
			return
		}
	}
}

// common is one state of what all scores share, with its weight.
type common struct{ t, skin, weight float64 }

// commons lists the states of the skin that the setting leaves. Set from the top, skin and
// thickness hang together, and the thickness is taken at its mean where the skin is known:
// what is left of its scatter changes the chance by less than 2 %.
func commons(p Panel) []common {
	skin, slope := p.Setting, 0.0
	if !p.FromTable {
		skin = Normal{p.Thickness.Mean - p.Setting.Mean, math.Hypot(p.Thickness.SD, p.Setting.SD)}
		if skin.SD > 0 {
			slope = p.Thickness.SD * p.Thickness.SD / (skin.SD * skin.SD)
		}
	}
	var out []common
	for _, z := range ladder(stepSetting, skin.SD) {
		off := skin.SD * z.at
		if t := p.Thickness.Mean + slope*off; t > 0 {
			out = append(out, common{t, skin.Mean + off, z.weight})
		}
	}
	return out
}

// node is a place of a sum, in standard deviations, and its weight.
type node struct{ at, weight float64 }

// ladder returns even nodes over a normal density; one where there is no scatter.
func ladder(step, sd float64) []node {
	if !(sd > 0) {
		return []node{{0, 1}}
	}
	n := int(math.Round(reach / step))
	out := make([]node, 0, 2*n+1)
	sum := 0.0
	for i := -n; i <= n; i++ {
		x := step * float64(i)
		w := solve.Exp(-x * x / 2)
		sum += w
		out = append(out, node{x, w})
	}
	for i := range out {
		out[i].weight /= sum
	}
	return out
}

// modulus returns the Weibull modulus m of a coefficient of variation, which falls with
// m: cv^2 = Gamma(1+2/m)/Gamma(1+1/m)^2 - 1. It is held to 1 to 400.
func modulus(cv float64) float64 {
	over := func(m float64) float64 {
		g := gamma(1 + 1/m)
		return gamma(1+2/m)/(g*g) - 1 - cv*cv
	}
	const least, most = 1.0, 400.0
	switch {
	case over(least) <= 0:
		return least
	case over(most) >= 0:
		return most
	}
	m, _ := solve.Root(over, least, most, 1e-9)
	return m
}
