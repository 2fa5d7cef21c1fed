package check

import (
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/unit"
)

// gluePulls looks along the glue line, its ends apart: there peels does.
func gluePulls(p *plan.Plan) []finding.Finding {
	b := p.Bond
	if b.Use <= 1 {
		return nil
	}
	f := found("glue-pulls", finding.Warn, "Where the bend changes, "+mm(p, b.S)+" from the foot, the panel pulls at the glue with up to "+unit.Stress(b.Stress)+
		", "+unit.Ratio(b.Use)+" of what the face of the sheet holds. A gentler change of radius, a thicker rib, a doubler glued beside it, or pegs there help.",
		map[string]float64{"stress": b.Stress, "use": b.Use, "at": b.S})
	f.Place.Part, f.Place.At = ribAt(p, b.Support), finding.At(p.Place(b.S))
	return one(on(f, "rib.thickness"))
}

// heldStrain compares the strain of the skin with what the sheet may be held at for
// long. It is noted and never counted on: the figure is of low authority.
func heldStrain(p *plan.Plan) []finding.Finding {
	limit := p.V.Sheet.Stock.Sustained
	strain := p.Cracking.Value * p.V.Sheet.Rupture.Value
	if !limit.Given() || p.Cracking.Score == 0 || strain <= limit.Value {
		return nil
	}
	return one(at(found("held-strain", finding.Note, "Held for long, "+p.V.Sheet.Stock.Name+" crazes from about "+unit.Percent(limit.Value)+
		" strain on ("+unit.Percent(limit.Low)+" to "+unit.Percent(limit.High)+", a figure of low authority); score "+num(p.Cracking.Score)+" holds "+unit.Percent(strain)+
		". Expect fine cracks with time, sooner with solvents and cleaners.",
		map[string]float64{"strain": strain, "limit": limit.Value}), p, p.Cracking.Score))
}

// caulHits says that a caul has no room in the bend.
func caulHits(p *plan.Plan) []finding.Finding {
	if !p.V.Rib.Caul || p.Caul != nil {
		return nil
	}
	why := "The caul has no room in this bend: it would have to lie inside a radius smaller than the sheet and its pad are thick."
	if p.Closed {
		why = "A panel that goes all round is clamped with a band, not with a caul."
	}
	return one(on(with(found("caul-left-out", finding.Note, why, nil), set("Leave the caul out", "rib.caul", "no")), "rib.caul"))
}
