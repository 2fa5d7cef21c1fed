package hinge

import (
	"math"

	"springrib/internal/solve"
)

// Constants of the land that a deeper score takes from a shallower neighbour, fitted for
// this project to 41 finite-element strips of unequal skins, of which
// testdata/reference/unequal-depth-fe.csv is not one (4.2 and 2.05 there, rounded).
const (
	takeMost = 4.0
	takeFall = 2.0
)

// Takes returns the factor on the hinge length of a score that leaves a skin, mm, towards a
// neighbour at distance p that leaves another; 1 towards a straight. Neighbours that lie
// close share the land between them, and the deeper one takes more of it:
//
//	1 + tanh((4/u) exp(-2u) ln(neighbour/skin)),   u = p/(h reach),   h the mean of both skins
//
// with the Reach of the sheet's law, Lam N.
// For skins within 20 % of each other and u >= 0.8 the softest score's share of a turning is
// then within 2 % and that of any other within 6 % of finite elements
// (testdata/reference/unequal-depth-fe.csv); without it within 7 and 15 %, and 27 % too
// little below that. From u = 1.6 on it makes no difference.
func Takes(reach, skin, neighbour, p float64) float64 {
	u := 2 * p / ((skin + neighbour) * reach)
	if u > takeNone {
		return 1
	}
	return 2 / (1 + solve.Power(skin/neighbour, 2*takeMost/u*solve.Exp(-takeFall*u)))
}

// takeNone is the u from which on the factor is left out: for a fifth of difference it is
// under 2e-4 there.
const takeNone = 3.5

// Reach is how far over its skin the stress of a score dies away along the panel, Lam N; 1 for
// an isotropic sheet.
func (l Law) Reach() float64 { return l.lam * math.Sqrt((1+l.rho)/2) }

// Unequal returns what the scores of one strip yield by under one moment where they leave
// different skins, in lengths of plain panel: each rotates by as much as that length, mm, of
// the plain sheet, without the bending of the lands. laws are those of the scores from one
// end to the other, gaps the spacings between them, mm, and beyond both ends the sheet runs
// on plain.
//
//	c_i = l_i (eta_i^-3 - 1),   l_i the mean of both sides, each l(p) by Takes
//
// The strain of each score follows from its moment as usual (see Fold).
func Unequal(laws []Law, gaps []float64) []float64 {
	out := make([]float64, len(laws))
	for i, l := range laws {
		left, right := l.hinge(math.Inf(1)), l.hinge(math.Inf(1))
		if i > 0 {
			left = l.hinge(l.over(gaps[i-1])) * Takes(l.Reach(), l.Skin(), laws[i-1].Skin(), gaps[i-1])
		}
		if i < len(gaps) {
			right = l.hinge(l.over(gaps[i])) * Takes(l.Reach(), l.Skin(), laws[i+1].Skin(), gaps[i])
		}
		out[i] = l.score.Thickness * (left + right) / 2 * l.cube / l.web
	}
	return out
}
