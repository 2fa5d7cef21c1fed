package state

import (
	"math"
	"sort"
	"springrib/internal/hinge"
)

// Range is a figure with its two ends, for the folds as they are laid, and what its
// worse end comes from.
type Range struct {
	Value, Low, High float64
	From             []Share // largest first; those under a hundredth are left out
}

// Share is how much of a range one quantity makes: its part of the sum of squares that
// the quadrature adds up (see swing).
type Share struct {
	Of    Quantity
	Share float64
}

// Spread evaluates a figure at both ends of its swing.
func (g Scoring) Spread(passes int, f Figure, s Swing, unit float64) Range {
	value := f(g.At(passes, Moved{}))
	low, high := s.Below()*f(g.At(passes, s.Down)), f(g.At(passes, s.Up))
	return Range{unit * value, unit * math.Min(low, value), unit * math.Max(high, value), s.Shares()}
}

// Shares lists the causes of a swing's upper end.
func (s Swing) Shares() []Share { return shares(s.sizes) }

func shares(sizes [Quantities]float64) []Share {
	var out []Share
	total := norm(sizes)
	for q := range Quantities {
		if part := sizes[q] * sizes[q] / (total * total); part >= 0.01 {
			out = append(out, Share{q, part})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Share > out[j].Share })
	return out
}

// Drift is the range of a figure that may have either sign, in quadrature over the quantities:
// shift says by how much it differs between two laws.
func (g Scoring) Drift(passes int, shift func(was, is hinge.Law) float64) Range {
	nominal := g.Law(passes)
	var up, down [Quantities]float64
	for q := range Quantities {
		for _, end := range [2]float64{1, -1} {
			var x Moved
			x[q] = end
			law, _ := g.At(passes, x)
			d := shift(nominal, law)
			up[q], down[q] = math.Max(up[q], d), math.Max(down[q], -d)
		}
	}
	out := Range{Low: -norm(down), High: norm(up)}
	out.From = shares(up)
	if norm(down) > norm(up) {
		out.From = shares(down)
	}
	return out
}
