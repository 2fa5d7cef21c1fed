package plan

import (
	"math"
	"springrib/internal/hinge"
	"springrib/internal/score"
	"springrib/internal/solve"
)

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
			last, ei = pitch, p.scoring().Stiffness(law, pitch)
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
		near = solve.SearchFrom(places, s, near)
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
