package plan

import (
	"math"

	"springrib/internal/hinge"
	"springrib/internal/score"
	"springrib/internal/stock"
)

// scored returns EI per width of the scored panel at a spacing.
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
func (g scoring) scored(law hinge.Law, pitch float64) float64 {
	r := g.skinRatio(law.Skin())
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

// skinRatio returns E of the sheet over E of a skin h thick, both for bending as the
// panel bends.
func (g scoring) skinRatio(h float64) float64 {
	s := g.sheet
	if len(s.Stock.Plies) == 0 || g.machine.Tested || !s.Grained {
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

// stiffness returns EI per width along the edge: that of the scored panel at the spacing
// of the folds about there, of the plain sheet on straights.
func (p *Plan) stiffness() func(s float64) float64 {
	if p.Scores.stiff == nil {
		p.Scores.stiff = p.stiffnessOf(p.Law(), p.Scores.Layout)
	}
	return p.Scores.stiff
}

func (p *Plan) stiffnessOf(law hinge.Law, l score.Layout) func(s float64) float64 {
	last, ei := math.NaN(), 0.0
	at := func(pitch float64) float64 {
		if pitch != last {
			last, ei = pitch, p.scoring().scored(law, pitch)
		}
		return ei
	}
	places, folds := make([]float64, len(l.Folds)), make([]float64, len(l.Folds))
	for i, f := range l.Folds {
		places[i], folds[i] = f.S, at(spacingAt(l, i))
	}
	plain := law.PlainStiffness()
	near := 0
	return func(s float64) float64 {
		if l.RunAt(s) == nil {
			return plain
		}
		near = searchFrom(places, s, near)
		i := near
		if i == len(places) || i > 0 && s-places[i-1] < places[i]-s {
			i--
		}
		return folds[i]
	}
}

// spacingAt returns the mean distance from fold i to its neighbours in the same bend, or
// the bend's spacing where it is alone. Distances that differ by rounding count as one.
func spacingAt(l score.Layout, i int) float64 {
	f := &l.Folds[i]
	for k := range l.Runs {
		r := &l.Runs[k]
		// The folds at the ends of a cradle lie a hair past them.
		if f.S < r.Start-r.Pitch/2 || f.S > r.End+r.Pitch/2 {
			continue
		}
		sum, n := 0.0, 0.0
		if i > 0 && l.Folds[i-1].S >= r.Start-1e-6 {
			sum, n = sum+f.Left, n+1
		}
		if i+1 < len(l.Folds) && l.Folds[i+1].S <= r.End+1e-6 {
			sum, n = sum+f.Right, n+1
		}
		if n == 0 {
			return r.Pitch
		}
		return math.Round(sum/n*1e9) / 1e9
	}
	return math.Inf(1)
}
