package state

import (
	"math"

	"springrib/internal/hinge"
	"springrib/internal/stock"
)

// Stiffness returns EI per width of the scored panel at a spacing.
//
// The law takes the sheet as one stuff. In plywood the skin left under a score is a few
// plies only: along the grain of its face it may be twice as stiff as the sheet, across
// it a tenth. All rotation that scores add happens in that skin, so of the law's
//
//	C = 1 + (l/p) (eta^-3 - 1)
//
// the part eta^-3 of the skin goes with E of the sheet over E of the skin (package
// stock, Skin), and the part -1 of the plain panel that the score takes away does not:
//
//	C' = 1 + (l/p) (r eta^-3 - 1),  r = E sheet / E skin
//
// It moves only the pull of the panel. Strain and closing follow from how far each score
// turns, which the rib sets. A depth that was found with test strips is an effective one,
// at which the law meets the sagging of the strip, plies included; there r is 1.
func (g Scoring) Stiffness(law hinge.Law, pitch float64) float64 {
	r := g.SkinRatio(law.Skin())
	if r == 1 {
		return law.Stiffness(pitch)
	}
	eta := law.Skin() / law.Score().Thickness
	cube := 1 / (eta * eta * eta)
	l := (law.Softening(pitch) - 1) / (cube - 1) // l/p
	if math.IsInf(pitch, 1) {
		l = 0
	}
	return law.PlainStiffness() / math.Max(1+l*(r*cube-1), 1e-9)
}

// SkinRatio returns E of the sheet over E of a skin h thick, both for bending as the
// panel bends.
func (g Scoring) SkinRatio(h float64) float64 {
	s := g.Sheet
	if len(s.Stock.Plies) == 0 || g.Machine.Tested || !s.Grained {
		return 1
	}
	el, et := s.Stock.Veneer()
	if !(el > 0 && et > 0) {
		return 1
	}
	var total float64
	for _, t := range s.Stock.Plies {
		total += t
	}
	n := len(s.Stock.Plies)
	plies := make([]float64, n) // from the uncut face, at the measured thickness
	for i, t := range s.Stock.Plies {
		plies[n-1-i] = t * s.T / total
	}
	along, cross := stock.Skin(plies, h, el, et)
	sheetAlong, sheetCross := stock.Skin(plies, s.T, el, et)
	theta := math.Pi/2 - s.GrainToScores
	shear, nu := s.Stock.GInPlane.Value, s.Stock.NuXY.Value
	skin := stock.OffAxis(along, cross, shear, nu, theta)
	sheet := stock.OffAxis(sheetAlong, sheetCross, shear, nu, theta)
	if !(skin > 0 && sheet > 0) {
		return 1
	}
	return sheet / skin
}
