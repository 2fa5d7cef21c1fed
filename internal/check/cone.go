package check

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/unit"
)

// mostWedge is the widest wedge beside a ring that glue is left to fill, mm. Common practice, no
// source.
const mostWedge = 0.5

// ringWedge tells of the ring whose square edge leaves most open.
func ringWedge(p *plan.Plan) []finding.Finding {
	worst := 0
	for i, s := range p.Supports.All {
		if s.Wedge > p.Supports.All[worst].Wedge {
			worst = i
		}
	}
	if !p.Ruled() || p.Supports.All[worst].Wedge <= mostWedge {
		return nil
	}
	s := p.Supports.All[worst]
	lean := math.Asin(s.Wedge / s.Thickness)
	f := found("ring-wedge", finding.Warn, "The panel leans "+unit.Angle(lean)+" against a "+ringWord(p)+" "+mm(p, s.Thickness)+
		" thick. Cut square, its edge touches at one face and stands "+mm(p, s.Wedge)+" off at the other. Bevel it, or cut it from thinner sheet.",
		map[string]float64{"wedge": s.Wedge, "degrees": lean * 180 / math.Pi, "most": mostWedge})
	f.Place.Part = ribAt(p, worst)
	return one(on(f, "rib.thickness"))
}

// mostPoke is how far the far face of a rib may stand into the panel and still give way as it is
// glued, mm. Common practice, no source.
const mostPoke = 0.05

// leansBoth tells of the rib against which the panel leans one way here and the other way there.
func leansBoth(p *plan.Plan) []finding.Finding {
	worst := 0
	for i, s := range p.Supports.All {
		if s.Poke > p.Supports.All[worst].Poke {
			worst = i
		}
	}
	s := p.Supports.All[worst]
	if s.Poke <= mostPoke {
		return nil
	}
	f := found("rib-leans-both", finding.Warn, unit.Upper(ribName(p, s))+" is cut square, and the panel leans over it one way here and the other way there. One face of it would stand up to "+
		mm(p, s.Poke)+" into the panel: bevel it there, or cut it from thinner sheet.", map[string]float64{"poke": s.Poke, "most": mostPoke})
	f.Place.Part = ribAt(p, worst)
	return one(on(f, "rib.thickness"))
}

// mostShort is how far a score may stop short of the panel's edge without a word of warning, mm: its
// neighbour takes its fold there. Common practice, no source.
const mostShort = 10

// scoresStop tells of scores that end inside the panel, where two would run into each other.
func scoresStop(p *plan.Plan) []finding.Finding {
	stops := p.Panel.Flat.Stops
	if len(stops) == 0 {
		return nil
	}
	worst := stops[0]
	for _, s := range stops {
		if s.Short > worst.Short {
			worst = s
		}
	}
	f := found("scores-stop", finding.Note, counted(len(stops), "score", "stops", "stop")+" short of the edge, by up to "+mm(p, worst.Short)+
		", where two would run into each other. The one beside it takes its fold there. Let the beam end gently.",
		map[string]float64{"scores": float64(len(stops)), "short": worst.Short, "most": mostShort})
	if worst.Short > mostShort {
		f.Severity = finding.Warn
	}
	return one(at(f, p, worst.Score))
}

// ringWord is what a support of a cone is called.
func ringWord(p *plan.Plan) string {
	if p.Section.Closed {
		return "ring"
	}
	return "rib"
}

// rimTooNarrow tells of a narrow rim that no number of scores can bend: among scores ever closer the
// skin bends as a plain web does, and strains by half its thickness over the radius.
func rimTooNarrow(p *plan.Plan) []finding.Finding {
	if !p.Ruled() || len(p.Scores.Layout.Folds) == 0 {
		return nil
	}
	k, _ := p.Section.Edge.Tightest()
	skin, rupture := p.Try().Skin, p.V.Sheet.Rupture.Value
	strain := skin / 2 * k / (1 + k*p.Scores.Layout.Folds[0].D)
	use := strain / rupture
	if use <= p.Scores.Cracking.Allowed {
		return nil
	}
	where := " round the narrow rim, "
	if p.Section.Pair != nil {
		where = " where the panel bends tightest, "
	}
	f := found("rim-too-narrow", finding.Warn, "However many scores there are, a skin of "+mm(p, skin)+" strains by "+unit.Percent(strain)+
		where+unit.Ratio(use)+" of what cracks it. Make it larger there, or the skin thinner.",
		map[string]float64{"strain": strain, "use": use, "allowed": p.Scores.Cracking.Allowed})
	if p.V.Sheet.StrainTested && use > 1 {
		f.Severity = finding.Stop
	}
	field := "curve.small"
	if p.Section.Pair != nil {
		field = "curve.far"
	}
	if p.V.Curve.Rims == design.BySlant {
		field = "curve.large"
	}
	return one(on(f, field))
}

// coneBySaw stops a fence from cutting what does not run parallel.
func coneBySaw(p *plan.Plan) []finding.Finding {
	if !p.Ruled() || p.V.Machine.Tool != machine.Saw {
		return nil
	}
	say := "The scores of a cone run"
	if p.Section.Pair != nil {
		say = "The scores between two sections run"
	}
	return one(on(found("cone-by-saw", finding.Stop, say+" together, and a fence cuts them parallel. Take a laser, a router or a knife.", nil), "machine.tool"))
}

// seamPeels tells of a cone whose ends pull off its rings at the seam.
func seamPeels(p *plan.Plan) []finding.Finding {
	worst, ok := p.Peels(false)
	if !ok {
		return nil
	}
	say := "At the seam the panel's ends pull off the rings with up to " + unit.Ratio(worst.Use) + " of the least that the face of the sheet holds. "
	field := "curve.seam"
	if worst.Straight > 0 {
		field = "curve.lap"
		say += "The lap would have to be " + mm(p, worst.Length) + " wide."
	} else {
		say += "Lap the seam, or glue a strip of sheet behind it over both ends."
	}
	f := found("glue-peels", finding.Warn, say, map[string]float64{"stress": worst.Stress, "use": worst.Use, "needed": worst.Length, "straight": worst.Straight})
	f.Place.Part = ribAt(p, worst.Support)
	return one(on(f, field))
}
