package plan

import (
	"math"

	"springrib/internal/score"
)

// Radius returns the radius of the contact edge under score n (from 1), mm.
func (p *Plan) Radius(n int) float64 {
	if n < 1 || n > len(p.Layout.Folds) {
		return math.Inf(1)
	}
	f := p.Layout.Folds[n-1]
	for _, r := range p.Layout.Runs {
		if f.S >= r.Start-1e-6 && f.S <= r.End+1e-6 {
			k := math.Abs(p.Edge.At(math.Min(math.Max(f.S, r.Start+1e-6), r.End-1e-6)).Kappa)
			if k > 0 {
				return 1 / k
			}
		}
	}
	return math.Inf(1)
}

// CountThatWould returns the number of scores at which every limit is kept with the
// chosen number of passes, when the spacing follows the curve; ok is false when there
// is none.
func (p *Plan) CountThatWould() (n int, ok bool) {
	t := p.task(p.Try().Passes)
	t.Rule = score.Follow
	l := score.Lay(t)
	for _, r := range l.Runs {
		if !r.Spacing.Reached {
			return 0, false
		}
	}
	return len(l.Folds), true
}

// RadiusThatWould returns the least radius at which the plan's spacing keeps the use
// at what is allowed, the use being in proportion to the curvature.
func (p *Plan) RadiusThatWould(u Use) (float64, bool) {
	r := p.Radius(u.Score)
	k := math.Max(u.Value/u.Allowed, u.Bad)
	if math.IsInf(r, 0) || k <= 1 {
		return 0, false
	}
	return math.Ceil(r*k*10) / 10, true
}
