package hinge

import "math"

// FoldState is one score folded by an angle, among neighbours at any distance.
type FoldState struct {
	HingeLength float64 // l_i, mm: the mean of what each side's distance gives
	Elastic     float64 // rotation of the score itself, without the bending of the lands, rad
	Strain      float64 // peak on the uncut face
	// NetStrain is the strain at either face of the web taken as a plain beam: with the
	// scores on the round side that of the bottom of the score, which is pulled, without
	// the concentration there (see Law.NetSectionStrain).
	NetStrain float64
	Lever     float64 // closing of the mouth per unit of Elastic, mm
	MouthGap  float64 // what is left of the mouth when the scored face is hollow, mm; negative: it would overlap
	OpenWidth float64 // width of the mouth when the scored face is round, mm
	Moment    float64 // N mm per mm of width
}

// Fold returns the state of one score turned by theta >= 0, with its neighbours at
// distances left and right, mm; +Inf where a plain straight follows. With heldFlat the
// lands are kept flat, by a rib with facets or by hand, and the score takes all of
// theta; else each land takes the part that its stiffness gives it, half of it counted
// to either score, and nothing to a straight, which carries no moment of its own.
//
//	l_i = (l(left) + l(right))/2
//	strain = k_t elastic eta/(2 l_i (1 - eta^3)),   gap = w - elastic l_x
//
// Within 1.3 % (isotropic) and 3 % (orthotropic) of finite elements of uneven strips;
// the mean distance in place of l_i is off by 7-39 % at ends and in alternating
// spacings (computed for this project).
func (l Law) Fold(theta, left, right float64, heldFlat bool) FoldState {
	if !(theta >= 0) || math.IsInf(theta, 1) {
		panic("hinge: fold angle must be a number from 0 up")
	}
	a := l.Beside(left)
	b := a
	if right != left {
		b = l.Beside(right)
	}
	return l.FoldBetween(theta, a, b, heldFlat)
}

// Side is what the distance to the next score on one side does to a score.
type Side struct{ hinge, lx, kt, land float64 } // over t, with half of the land that bends with the score

// Beside returns what a neighbour at distance p does, mm; +Inf for a plain straight. It is
// the same for the scores on either side of that land.
func (l Law) Beside(p float64) Side {
	q := l.over(p)
	return Side{l.hinge(q), l.lx(q), l.kt(q), halfLand(q)}
}

// Parts returns what of one spacing yields at a score whose sides are a and b, per unit of
// moment: the score itself, and the lands beside it that bend with it. Both count in
// lengths of plain panel over the thickness; their share of the sum is their share of the
// rotation.
func (l Law) Parts(a, b Side) (score, lands float64) {
	return (a.hinge + b.hinge) / 2 * l.cube / l.web, a.land + b.land
}

// FoldBetween is Fold with the two sides worked out.
func (l Law) FoldBetween(theta float64, a, b Side, heldFlat bool) FoldState {
	h, lx, kt := a.hinge, a.lx, a.kt
	if a != b {
		h, lx, kt = (h+b.hinge)/2, (lx+b.lx)/2, (kt+b.kt)/2
	}
	t := l.score.Thickness
	f := FoldState{HingeLength: h * t, Elastic: theta, Lever: lx * t}
	if land := a.land + b.land; !heldFlat && land > 0 {
		score := h * l.cube / l.web
		f.Elastic = theta * score / (score + land)
	}
	e := l.eta
	f.NetStrain = f.Elastic * e / (2 * h * (1 - e*e*e)) * l.turned
	f.Strain = kt * f.NetStrain
	f.MouthGap = l.score.Width - f.Elastic*f.Lever
	f.OpenWidth = l.score.Width + f.Elastic*f.Lever
	f.Moment = f.Elastic * l.plain * l.web / (h * t * l.cube)
	return f
}

// halfLand is the half of a land that bends with this score, over t.
func halfLand(q float64) float64 {
	if math.IsInf(q, 1) {
		return 0
	}
	return q / 2
}
