package plan

import (
	"math"
)

// Radius returns the radius of the contact edge under score n (from 1), mm.
func (p *Plan) Radius(n int) float64 {
	if n < 1 || n > len(p.Scores.Layout.Folds) {
		return math.Inf(1)
	}
	f := p.Scores.Layout.Folds[n-1]
	for _, r := range p.Scores.Layout.Runs {
		if f.S >= r.Start-1e-6 && f.S <= r.End+1e-6 {
			k := math.Abs(p.Section.Edge.At(math.Min(math.Max(f.S, r.Start+1e-6), r.End-1e-6)).Kappa)
			if k > 0 {
				return 1 / k
			}
		}
	}
	return math.Inf(1)
}
