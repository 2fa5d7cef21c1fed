package plan

import (
	"math"

	"springrib/internal/hinge"
	"springrib/internal/machine"
	"springrib/internal/score"
	"springrib/internal/section"
	"springrib/internal/state"
)

// Ranges are those of the governing figures. A figure that there is none of is zero.
type Ranges struct {
	Cracking, Pinching state.Range
	// Radius is that of the rib edge at which the first limit itself would be reached,
	// with these scores, mm.
	Radius state.Range
	Force  state.Range // N at the free end
	// End is how far along the panel its end may come to lie from its place, mm: the
	// scores are where the file has them, but the line that keeps its length is not.
	End state.Range
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
	pull := endPitch(&p.Section, &p.Scores.Layout)
	force := func(l hinge.Law, _ float64) float64 { return p.scoring().Stiffness(l, pull) }
	figures := []state.Figure{crack, radius, force}
	if pinch != nil {
		figures = append(figures, pinch)
	}
	s := p.scoring().Swings(passes, figures...)
	p.Proof.Ranges.Cracking = state.Range{Value: p.Scores.Cracking.Value, Low: p.Scores.Cracking.Low, High: p.Scores.Cracking.Bad, From: s[0].Shares()}
	p.Proof.Ranges.Radius = p.scoring().Spread(passes, radius, s[1], 1)
	if f := p.Strength.Hold.EndForce; f > 0 {
		p.Proof.Ranges.Force = p.scoring().Spread(passes, force, s[2], f/p.scoring().Stiffness(p.Law(), pull))
	}
	if pinch != nil {
		p.Proof.Ranges.Pinching = state.Range{Value: p.Scores.Pinching.Value, Low: p.Scores.Pinching.Low, High: p.Scores.Pinching.Bad, From: s[3].Shares()}
	}
	p.Proof.Ranges.End = p.endRange(passes)
	return true
}

// figures returns how near the worst folds come to cracking and pinching as figures;
// pinch is nil where no score closes.
func (p *Plan) figures() (crack, pinch state.Figure) {
	crack = crackAt(p.Scores.Layout.Folds[p.Scores.Cracking.Score-1])
	if p.Scores.Pinching.Score > 0 {
		pinch = p.pinch(p.Scores.Layout.Folds[p.Scores.Pinching.Score-1])
	}
	return crack, pinch
}

// pinch is how near a fold comes to pinching, at the end of its score that comes nearer.
func (p *Plan) pinch(f score.Fold) state.Figure {
	near := pinchAt(f)
	if f.Wider <= 1 {
		return near
	}
	f.Left, f.Right = f.Wider*f.Left, f.Wider*f.Right
	if far := pinchAt(f); far(p.Law(), 0) > near(p.Law(), 0) {
		return far
	}
	return near
}

// endPitch is the spacing at the end of the last bend, where the free end pulls.
func endPitch(c *section.Section, l *score.Layout) float64 {
	if r := l.RunAt(c.LastBend()); r != nil && r.Pitch > 0 {
		return r.Pitch
	}
	return math.Inf(1)
}

// endRange is how far the end of the panel may lie off. The length that fold i needs is its
// turn times the distance D_i from the rib edge to the neutral line, so that the end moves
// by the sum of turn_i (D_i - D_i'): of either sign, and linear enough for plain differences.
func (p *Plan) endRange(passes int) state.Range { return p.scoring().Drift(passes, p.endShift) }

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
func (p *Plan) Half(q state.Quantity) float64 {
	s, m := p.V.Sheet, p.V.Machine
	switch q {
	case state.Depth:
		return m.Spread(p.Try().Passes)
	case state.Width:
		return m.WidthSpread
	case state.Thickness:
		return s.TSpread
	case state.Modulus:
		return s.E.Spread()
	case state.Through:
		return s.EZ.Spread()
	case state.Shear:
		return s.GXZ.Spread()
	case state.Faces:
		return s.Face.Spread()
	}
	return s.Rupture.Spread()
}

// FixedSkin tells that the tool leaves the same skin however thick the sheet.
func (p *Plan) FixedSkin() bool { return p.V.Machine.Reference == machine.Table }
