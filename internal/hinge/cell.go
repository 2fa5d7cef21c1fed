package hinge

import (
	"math"

	"springrib/internal/solve"
)

// Cell is everything the law says about scores at one even spacing. Lengths in mm.
type Cell struct {
	Spacing     float64 // p, +Inf for a score on its own
	HingeLength float64 // l_eff: length of bare web that would bend as the score does
	Softening   float64 // C = EI of the plain panel over EI of the scored one
	Stiffness   float64 // EI of the scored panel, N mm^2 per mm of width
	Neutral     float64 // fibre that keeps its length, from the uncut face
	Lx          float64 // closing of the mouth per unit of the elastic part of the rotation
	// MouthLever is the closing of the mouth per unit of rotation of one whole
	// spacing: Lx (1 - 1/C).
	MouthLever   float64
	ClosingAngle float64 // rotation per score that shuts the mouth, rad; +Inf if none does
	StrainFactor float64 // k_t: peak strain on the uncut face over 6M/(E' h^2)
	StrainArm    float64 // peak strain on the uncut face per curvature of the neutral fibre, mm
}

// At returns the law at spacing p. Where the bottoms of the scores would overlap, the
// panel is one continuous web: the hinge is as long as the spacing. It panics if p is
// not a positive number.
func (l Law) At(p float64) Cell {
	q := l.over(p)
	hinge := l.hinge(q)
	t := l.score.Thickness
	c := Cell{Spacing: p, HingeLength: hinge * t, Softening: l.soften(hinge, q)}
	c.Stiffness = l.plain / c.Softening
	c.Neutral = t * l.neutral(q, c.Softening)
	c.Lx = t * l.lx(q)
	c.MouthLever = c.Lx * (1 - 1/c.Softening)
	c.ClosingAngle = l.closing(c.MouthLever)
	c.StrainFactor = l.kt(q)
	c.StrainArm = c.StrainFactor * l.netArm(c.Softening)
	return c
}

// over returns p/t.
func (l Law) over(p float64) float64 {
	if !(p > 0) {
		panic("hinge: spacing must be positive")
	}
	return p / l.score.Thickness
}

// hinge returns l_eff over t at spacing q = p/t: a + the n-norm sum of L and b, which
// is b for scores far apart and L for scores that touch.
func (l Law) hinge(q float64) float64 {
	land := q - l.a
	switch {
	case land <= 0:
		return q
	case math.IsInf(q, 1):
		return l.a + l.b
	}
	n := float64(arrayMost)
	if g := l.growth * q; g < 4 { // exp(4)*0.584 > 20
		n = min(arrayMost, 1+arraySharp*solve.Exp(g))
	}
	small, large := land, l.b
	if small > large {
		small, large = large, small
	}
	// The smaller of the two, shortened by the other.
	return l.a + small*solve.Power(1+solve.Power(small/large, n), -1/n)
}

// soften returns C. In a narrow strip the lands bend with E, the webs with
// E/(1-nu^2), so the extra rotation counts 1-nu^2 times as much.
func (l Law) soften(hinge, q float64) float64 {
	return 1 + hinge/q*l.cube/l.web
}

// blend goes from 1 for scores that touch to 0 for scores far apart.
func blend(q, reach, power float64) float64 {
	return solve.Exp(-solve.Power(q/reach, power))
}

func (l Law) neutral(q, c float64) float64 {
	r := q / l.reachYe
	o := solve.Exp(-r * math.Sqrt(r)) // r^1.5
	ye := l.ye0 + o*(l.ye1-l.ye0)
	return (0.5 + ye*(c-1)) / c
}

func (l Law) lx(q float64) float64 {
	return l.lx0 + blend(q, l.reachLx, powerLever)*(l.lx1-l.lx0)
}

func (l Law) kt(q float64) float64 {
	return l.k0 + blend(q, l.reachKt, powerStrain)*(1-l.k0)
}

func (l Law) closing(lever float64) float64 {
	if lever <= 0 {
		return math.Inf(1)
	}
	return l.score.Width / lever
}

// HingeLength returns l_eff at spacing p, mm.
func (l Law) HingeLength(p float64) float64 { return l.score.Thickness * l.hinge(l.over(p)) }

// Softening returns C = EI of the plain panel over EI of the scored one, at least 1.
func (l Law) Softening(p float64) float64 { q := l.over(p); return l.soften(l.hinge(q), q) }

// Stiffness returns EI of the scored panel, N mm^2 per mm of width.
func (l Law) Stiffness(p float64) float64 { return l.plain / l.Softening(p) }

// Neutral returns the fibre that keeps its length, mm from the uncut face.
func (l Law) Neutral(p float64) float64 {
	return l.score.Thickness * l.neutral(l.over(p), l.Softening(p))
}

// Lx returns the closing of the mouth per unit of elastic rotation of a score, mm.
func (l Law) Lx(p float64) float64 { return l.score.Thickness * l.lx(l.over(p)) }

// MouthLever returns the closing of the mouth per unit of rotation of one spacing, mm.
func (l Law) MouthLever(p float64) float64 { return l.Lx(p) * (1 - 1/l.Softening(p)) }

// ClosingAngle returns the rotation per score at which the mouths shut when the scored
// face is inside the bend, rad. After that the panel stiffens at once; to the hand it
// is a hard stop.
func (l Law) ClosingAngle(p float64) float64 { return l.closing(l.MouthLever(p)) }

// StrainFactor returns k_t, 0.82 to 1.02 for an isotropic sheet; 1 is the safe round figure.
func (l Law) StrainFactor(p float64) float64 { return l.kt(l.over(p)) }

// Strain returns the peak strain on the uncut face when the neutral fibre is bent to
// curvature kappa, 1/mm; it has the sign of kappa.
func (l Law) Strain(p, kappa float64) float64 {
	return l.StrainFactor(p) * l.NetSectionStrain(p, kappa)
}

// NetSectionStrain returns the strain at either face of the web taken as a plain beam,
// 6M/(E' h^2) of the web, at curvature kappa of the neutral fibre.
//
// With the scores on the round side it is the strain at the bottom of the score, which
// is then in tension, without the concentration at the root: the true strain there is
// higher by a factor that the root radius governs and nobody knows for charred or torn
// fibre. There is no trustworthy toughness of thin panels across the thickness either,
// so this number compares designs; it does not clear one.
func (l Law) NetSectionStrain(p, kappa float64) float64 {
	return kappa * l.netArm(l.Softening(p))
}

// netArm is the strain of the web as a plain beam per curvature, mm.
func (l Law) netArm(c float64) float64 {
	return l.bent * l.score.Thickness / (2 * c * l.eta * l.eta * l.web)
}

// Moment returns the holding moment at curvature kappa, N mm per mm of width.
func (l Law) Moment(p, kappa float64) float64 { return kappa * l.Stiffness(p) }

// ClosingRadius returns the radius of the neutral fibre at which the mouths shut, mm;
// 0 if they never do.
func (l Law) ClosingRadius(p float64) float64 { return p / l.ClosingAngle(p) }

// CrackingRadius returns the radius of the neutral fibre at which the strain of the
// uncut face reaches limit, mm. It panics unless limit is positive.
func (l Law) CrackingRadius(p, limit float64) float64 {
	if !(limit > 0) {
		panic("hinge: strain limit must be positive")
	}
	return l.Strain(p, 1) / limit
}
