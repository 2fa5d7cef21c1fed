package support

import (
	"math"

	"springrib/internal/brace"
	"springrib/internal/design"
	"springrib/internal/section"
	"springrib/internal/state"
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

// Settles works out what glue and ribs are left with.
func (p *Task) Settles(ribs []Support) (Bond, Settled) { return p.pull().settle(ribs) }

// pull is what the bent panel does to the ribs that hold it.
type pull struct {
	state.Scoring
	*section.Section
	stiff func(s float64) float64 // EI per width of the panel along the edge
	at    []float64               // arc lengths at which its moment is asked for
	off   float64                 // by which a flat may stand off, mm
	round bool                    // the panel goes all round and its ends are glued over each other
	lap   float64                 // by which what goes round a cone or between two sections laps over itself at the seam, mm
	bond  float64                 // what the face of the sheet holds at the bad end of what is known, MPa
}

func (p *Task) pull() pull {
	u := pull{Scoring: p.scoring(), Section: p.Section, stiff: p.Stiff, at: p.Across.S, off: p.Values.Panel.StandOff, bond: p.Values.Rib.GlueBond.Bad()}
	if c := &p.Values.Curve; p.Section.Closed && c.Seam == design.Lap {
		u.round = true
		if p.Section.Ruled() {
			u.lap = c.Lap
		}
	}
	return u
}

// settle returns the greatest pull on the glue of ribs away from their ends, and what the
// tightest place comes to when the clamps are off.
func (u pull) settle(ribs []Support) (bond Bond, set Settled) {
	worst := 0.0
	for i := range ribs {
		s := &ribs[i]
		m := func(arc float64) float64 {
			if long := u.Edge.Length(); u.round && (arc < 0 || arc > long) { // past the seam, which is as round as the rest
				arc -= long * math.Floor(arc/long)
			}
			return u.Edge.Kappa(arc) * u.stiff(arc) * s.Share(arc)
		}
		for _, arc := range u.at {
			at := s.Along(arc)
			if at < s.Task.Start || at > s.Task.End || u.Edge.Kappa(arc) == 0 {
				continue
			}
			ei := u.stiff(arc) * s.Share(arc)
			if ei <= 0 {
				continue
			}
			b := brace.Bed{EI: ei, T: u.Sheet.T, EZ: u.Softness(), Width: s.GlueWidth(u.off)}
			// A ring is as long as its own girth, and the edge as that of the narrow rim.
			room := math.Min(at-s.Task.Start, math.Min(s.Task.End, s.Along(u.Edge.Length()))-at)
			if u.round {
				room = spread * b.Span()
			}
			if span := b.Span(); room >= span { // nearer the ends it is peel
				if pull := b.Along(m, arc, math.Min(room, spread*span)); pull > bond.Stress {
					bond = Bond{Stress: pull, Use: pull / u.bond, S: arc, Support: i}
				}
			}
			if u.Closed {
				continue // a former is a plate: it does not bend
			}
			d := s.Task.DepthAt(at)
			was := math.Abs(u.Edge.Kappa(arc))
			is := brace.Released(was, ei, s.E.Value*s.Thickness*d*d*d/12)
			if open := was - is; open > worst { // of a bend that runs out straight the last bit opens most by share, and matters least
				worst = open
				set = Settled{Was: 1 / was, Is: 1 / is, S: arc, Support: i}
			}
		}
	}
	set.Indoors, set.Covered = kept(u.Sheet.Stock.KDef1.Value), kept(u.Sheet.Stock.KDef2.Value)
	return bond, set
}

// spread is over how many spans of its elastic bed a glue line evens out a step before it
// lets go; about as far as the straight end that peel asks for. Common practice, no source.
const spread = 3

// kept is what creep leaves of a moment held at one curvature.
func kept(kdef float64) float64 { return 1 / (1 + kdef) }
