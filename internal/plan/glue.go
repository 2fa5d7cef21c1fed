package plan

import (
	"math"

	"springrib/internal/brace"
)

// Bond is the greatest pull on the glue along its line, the ends apart: where the curve
// or the width of the panel changes.
type Bond struct {
	Stress  float64 // MPa, at most
	Use     float64 // Stress over what the sheet's face holds at the bad end of what is known
	S       float64 // arc length of the edge
	Support int     // index of the rib
}

// Settled is what the tightest place comes to when the clamps are off.
type Settled struct {
	Was, Is float64 // radius of the rib edge, mm; both 0 where no rib bends
	S       float64 // arc length of the edge where it opens most
	Support int     // index of the rib
	// Force is what is left of the pull after years, as a share, in a heated room and
	// covered outdoors: 1/(1 + k_def). 1 where nothing is known.
	Indoors, Covered float64
}

// settles works out what glue and ribs are left with.
func settles(p *Plan) bool {
	stiff := p.stiffness()
	worst := 0.0
	for i := range p.Supports.All {
		s := &p.Supports.All[i]
		m := func(arc float64) float64 { return p.Section.Edge.Kappa(arc) * stiff(arc) * s.share(arc) }
		for _, arc := range p.Across.s {
			if arc < s.Task.Start || arc > s.Task.End || p.Section.Edge.Kappa(arc) == 0 {
				continue
			}
			ei := stiff(arc) * s.share(arc)
			if ei <= 0 {
				continue
			}
			b := brace.Bed{EI: ei, T: p.V.Sheet.T, EZ: p.softness(), Width: s.Thickness}
			room := math.Min(arc-s.Task.Start, s.Task.End-arc)
			if span := b.Span(); room >= span { // nearer the ends it is peel
				if pull := b.Along(m, arc, math.Min(room, spread*span)); pull > p.Strength.Bond.Stress {
					p.Strength.Bond = Bond{Stress: pull, Use: pull / p.badBond(), S: arc, Support: i}
				}
			}
			if p.Section.Closed {
				continue // a former is a plate: it does not bend
			}
			d := s.Task.DepthAt(arc)
			was := math.Abs(p.Section.Edge.Kappa(arc))
			is := brace.Released(was, ei, s.E.Value*s.Thickness*d*d*d/12)
			if open := was - is; open > worst { // of a bend that runs out straight the last bit opens most by share, and matters least
				worst = open
				p.Strength.Settled = Settled{Was: 1 / was, Is: 1 / is, S: arc, Support: i}
			}
		}
	}
	p.Strength.Settled.Indoors, p.Strength.Settled.Covered = kept(p.V.Sheet.Stock.KDef1.Value), kept(p.V.Sheet.Stock.KDef2.Value)
	return true
}

// spread is over how many spans of its elastic bed a glue line evens out a step before it
// lets go; about as far as the straight end that peel asks for. Common practice, no source.
const spread = 3

// kept is what creep leaves of a moment held at one curvature.
func kept(kdef float64) float64 { return 1 / (1 + kdef) }

// softness is the modulus through the thickness, MPa.
func (p *Plan) softness() float64 {
	if ez := p.V.Sheet.EZ.Value; ez > 0 {
		return ez
	}
	return p.V.Sheet.E.Value
}
