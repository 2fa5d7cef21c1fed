package plan

import (
	"math"

	"springrib/internal/design"
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
	l, _, _, cracking, pinching := p.layout(p.Try().Passes, score.Follow)
	if !reached(l) || !cracking.Sound() || !pinching.Sound() {
		return 0, false
	}
	for _, r := range l.Runs { // a whole number of scores may lie closer than the spacing asked for
		if r.Count > 0 && r.Pitch < p.Law().Score().Width+p.V.Panel.MinLand-1e-6 {
			return 0, false
		}
	}
	return len(l.Folds), true
}

// RadiusThatWould returns a radius to type, near the least, at which the chosen number
// of passes is sound: from the worst use, which goes about as the curvature, in steps
// of 2 % until it is. There is none to give where the curve has no one radius to type,
// nor with a fixed count, where the spacing grows with the radius and the fold stays.
// set is what takes an outline along that does not follow the curve by itself.
func (p *Plan) RadiusThatWould() (r float64, set map[string]string, ok bool) {
	if k := p.V.Curve.Kind; k == design.Chain || k == design.SpanRise || p.V.Panel.Spacing == design.FixedCount {
		return 0, nil, false
	}
	r = p.V.Curve.Radius * math.Max(1, p.Try().worst())
	for range 20 {
		q := Plan{V: p.V, memory: p.memory}
		q.V.Curve.Radius = math.Ceil(r*10-1e-9) / 10
		if section(&q) && size(&q) {
			t := q.try(p.Try().Passes)
			if q.Layout = t.Layout; !p.follows() {
				set = p.Follow(&q)
				t = q.try(p.Try().Passes) // which reaches more of the curve now
			}
			if t.Sound {
				return q.V.Curve.Radius, set, true
			}
		}
		r *= 1.02
	}
	return 0, nil, false
}
