package plan

import (
	"math"
	"sort"

	"springrib/internal/hinge"
	"springrib/internal/machine"
	"springrib/internal/score"
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

// Ranges are those of the governing figures. A figure that there is none of is zero.
type Ranges struct {
	Cracking, Pinching Range
	// Radius is that of the rib edge at which the first limit itself would be reached,
	// with these scores, mm.
	Radius Range
	Force  Range // N at the free end
	// End is how far along the panel its end may come to lie from its place, mm: the
	// scores are where the file has them, but the line that keeps its length is not.
	End Range
}

// ranges works out what is not known of sheet and machine does to the plan as laid.
func ranges(p *Plan) bool {
	if p.Scores.Cracking.Score == 0 { // no fold lies on the panel
		return true
	}
	passes := p.Try().Passes
	crack, pinch := p.figures()
	k, _ := p.Section.Edge.Tightest()
	radius := func(l hinge.Law, rupture float64) float64 {
		out := crack(l, rupture)
		if pinch != nil {
			out = math.Max(out, pinch(l, rupture))
		}
		return out / k
	}
	pull := p.Section.endPitch(&p.Scores.Layout)
	force := func(l hinge.Law, _ float64) float64 { return p.scoring().scored(l, pull) }
	figures := []figure{crack, radius, force}
	if pinch != nil {
		figures = append(figures, pinch)
	}
	s := p.scoring().swings(passes, figures...)
	p.Proof.Ranges.Cracking = Range{p.Scores.Cracking.Value, p.Scores.Cracking.Low, p.Scores.Cracking.Bad, s[0].from()}
	p.Proof.Ranges.Radius = p.scoring().spread(passes, radius, s[1], 1)
	if f := p.Strength.Hold.EndForce; f > 0 {
		p.Proof.Ranges.Force = p.scoring().spread(passes, force, s[2], f/p.scoring().scored(p.Law(), pull))
	}
	if pinch != nil {
		p.Proof.Ranges.Pinching = Range{p.Scores.Pinching.Value, p.Scores.Pinching.Low, p.Scores.Pinching.Bad, s[3].from()}
	}
	p.Proof.Ranges.End = p.endRange(passes)
	return true
}

// figures returns how near the worst folds come to cracking and pinching as figures;
// pinch is nil where no score closes.
func (p *Plan) figures() (crack, pinch figure) {
	crack = crackAt(p.Scores.Layout.Folds[p.Scores.Cracking.Score-1])
	if p.Scores.Pinching.Score > 0 {
		pinch = pinchAt(p.Scores.Layout.Folds[p.Scores.Pinching.Score-1])
	}
	return crack, pinch
}

// endPitch is the spacing at the end of the last bend, where the free end pulls.
func (c *Section) endPitch(l *score.Layout) float64 {
	if r := l.RunAt(c.LastBend()); r != nil && r.Pitch > 0 {
		return r.Pitch
	}
	return math.Inf(1)
}

// spread evaluates a figure at both ends of its swing.
func (g scoring) spread(passes int, f figure, s swing, unit float64) Range {
	value := f(g.state(passes, moved{}))
	low, high := f(g.state(passes, s.down)), f(g.state(passes, s.up))
	return Range{unit * value, unit * math.Min(low, value), unit * math.Max(high, value), s.from()}
}

// from lists the causes of a swing's upper end.
func (s swing) from() []Share { return shares(s.sizes) }

func shares(sizes [quantities]float64) []Share {
	var out []Share
	total := norm(sizes)
	for q := range quantities {
		if part := sizes[q] * sizes[q] / (total * total); part >= 0.01 {
			out = append(out, Share{q, part})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Share > out[j].Share })
	return out
}

// endRange is how far the end of the panel may lie off, in quadrature over the
// quantities: the length that fold i needs is its turn times the distance D_i from the
// rib edge to the neutral line, so that the end moves by the sum of turn_i (D_i - D_i').
// It may be of either sign and is linear enough for plain differences.
func (p *Plan) endRange(passes int) Range {
	nominal := p.scoring().law(passes)
	var up, down [quantities]float64
	for q := range quantities {
		for _, end := range [2]float64{1, -1} {
			var x moved
			x[q] = end
			law, _ := p.scoring().state(passes, x)
			d := p.endShift(nominal, law)
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

// endShift returns how far past its place the panel's end comes to lie if the law is
// another: as much as the panel would have to be shorter.
func (p *Plan) endShift(was, is hinge.Law) float64 {
	fibre := func(l hinge.Law, pitch float64) float64 {
		if p.Section.Towards {
			return l.Score().Thickness - l.Neutral(pitch)
		}
		return l.Neutral(pitch)
	}
	sum := 0.0
	pitch, d := 0.0, 0.0
	for _, f := range p.Scores.Layout.Folds {
		// Both fibres move alike with the spacing: one spacing in fifty is as good as all.
		if near := neighbour(f); math.Abs(near-pitch) > 0.02*pitch || math.IsInf(near, 1) {
			pitch = near
			d = fibre(is, pitch) - fibre(was, pitch)
		}
		sum -= f.Theta * d
	}
	return sum
}

// neighbour is the mean distance to the next scores, of those there are.
func neighbour(f score.Fold) float64 {
	switch {
	case math.IsInf(f.Left, 1):
		return f.Right
	case math.IsInf(f.Right, 1):
		return f.Left
	}
	return (f.Left + f.Right) / 2
}

// Half returns half the range of a quantity with the chosen scores: mm of the depth,
// the width and the thickness, as a share of the value for all else, the larger one
// where the ends lie unevenly.
func (p *Plan) Half(q Quantity) float64 {
	s, m := p.V.Sheet, p.V.Machine
	switch q {
	case Depth:
		return m.Spread(p.Try().Passes)
	case Width:
		return m.WidthSpread
	case Thickness:
		return s.TSpread
	case Modulus:
		return s.E.Spread()
	case Through:
		return s.EZ.Spread()
	case Shear:
		return s.GXZ.Spread()
	case Faces:
		return s.Face.Spread()
	}
	return s.Rupture.Spread()
}

// FixedSkin tells that the tool leaves the same skin however thick the sheet.
func (p *Plan) FixedSkin() bool { return p.V.Machine.Reference == machine.Table }
