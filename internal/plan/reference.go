package plan

import (
	"math"
	"springrib/internal/design"
	"springrib/internal/hinge"
	"springrib/internal/score"
	"springrib/internal/solve"
	"springrib/internal/state"
)

func (p *Plan) scoring() state.Scoring {
	return state.Scoring{Sheet: &p.V.Sheet, Machine: &p.V.Machine}
}

// ends are the bad and the good ends of how near cracking and pinching are, as states.
type ends struct{ crack, pinch state.Swing }

// ends finds them before there is a layout, at the spacing that the nominal state asks
// for where the edge bends most. The spacing that comes of it is narrower at most by
// what the bad ends ask; that turns the point on the sphere a little, which changes the
// figure there little. So does taking the spacing from a ladder, by less than 3e-4 of the
// figure: curves that differ little then share their ends, and the tables made of them.
// What is told of a layout asks its own worst fold anew.
func (p *Plan) ends(passes int) ends {
	pitch := rung(p.referencePitch(passes))
	s := p.scoring().Swings(passes,
		func(l hinge.Law, rupture float64) float64 { return l.Strain(pitch, 1) / rupture },
		func(l hinge.Law, _ float64) float64 { return l.MouthLever(pitch) / l.Score().Width })
	return ends{s[0], s[1]}
}

// rung returns the power of 1.03 nearest to a length.
func rung(x float64) float64 {
	const step = 0.0295588022415444 // ln 1.03
	return solve.Exp(step * math.Round(math.Log(x)/step))
}

func (p *Plan) referencePitch(passes int) float64 {
	v := p.V.Panel
	law, rupture := p.scoring().At(passes, state.Moved{})
	t := p.V.Sheet.T
	if v.Spacing == design.FixedPitch {
		return v.Pitch
	}
	if v.Spacing == design.FixedCount {
		return math.Max(p.Section.Bent()/float64(max(1, v.Count)), 0.05*t)
	}
	lim := p.Limits([]score.Case{{Law: law, Strain: p.strainAllowed(rupture), Closing: v.ClosingSafe}})
	k, sign := 0.0, 0
	for _, st := range p.Section.Edge.Stretches() {
		if tight, _ := st.Shape.Tightest(); st.Sign != 0 && tight > k {
			k, sign = tight, st.Sign
		}
	}
	if k <= 0 {
		return t
	}
	return lim.Wanted(k, (sign > 0) != p.Section.PanelLeft, p.Section.Towards).Pitch
}
