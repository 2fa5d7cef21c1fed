package plan

import "math"

// Bare is what of the curve an end of the panel leaves uncovered.
type Bare struct {
	Length float64 // along the flat panel, mm
	Bent   float64 // how much of it is curved
	Scores int     // that fall there, of those that the curve asks for
}

// Bares returns that of the panel's foot and tip.
func (p *Plan) Bares() (foot, tip Bare) {
	foot, tip = p.bare(0, p.supporting().PanelStart()), p.bare(p.supporting().PanelEnd(), p.Section.Edge.Length())
	foot.Length, tip.Length = math.Max(0, p.Outline.From), math.Max(0, p.Scores.Layout.Length-p.Outline.To)
	for _, f := range p.Scores.Layout.Folds {
		if f.U < p.Outline.From {
			foot.Scores++
		} else if f.U > p.Outline.To {
			tip.Scores++
		}
	}
	return foot, tip
}

func (p *Plan) bare(from, to float64) Bare {
	out := Bare{}
	for _, st := range p.Section.Edge.Stretches() {
		if a, b := math.Max(from, st.Start), math.Min(to, st.End); b > a && st.Sign != 0 {
			out.Bent += b - a
		}
	}
	return out
}
