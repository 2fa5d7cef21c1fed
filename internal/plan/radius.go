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
	if r := p.Scores.Layout.RunAt(f.S); r != nil {
		return 1 / math.Abs(p.Section.Edge.At(r.Inside(f.S)).Kappa)
	}
	return math.Inf(1)
}
