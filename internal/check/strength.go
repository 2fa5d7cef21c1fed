package check

import (
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/unit"
)

// noSolid tells of softness figures that no solid has with the others: the law would
// have no answer, so it is given the nearest that a solid has.
func noSolid(p *plan.Plan) []finding.Finding {
	s := p.V.Sheet
	m := p.Law().Material()
	var out []finding.Finding
	say := func(field, name string, typed, used float64) {
		if used < typed*(1-1e-9) {
			out = append(out, on(found("no-solid", finding.Warn, name+" of "+unit.Stress(typed)+" can't be right beside this sheet's other figures: no solid has them all. "+
				unit.Stress(used)+" is used.", map[string]float64{"typed": typed, "used": used}), field))
		}
	}
	say("sheet.ez", "A modulus through the thickness", s.EZ.Value, m.EZ)
	say("sheet.gxz", "A shear modulus", s.GXZ.Value, m.GXZ)
	return out
}

// gluePulls looks along the glue line, its ends apart: there peels does.
func gluePulls(p *plan.Plan) []finding.Finding {
	b := p.Strength.Bond
	if b.Use <= 1 {
		return nil
	}
	f := found("glue-pulls", finding.Warn, "The panel pulls the glue off "+mm(p, b.S)+" from the foot, where the bend changes: the pull is up to "+unit.Ratio(b.Use)+
		" times what the sheet's face surely holds. A gentler change of radius, a thicker rib, a doubler glued beside it, or pegs there help.",
		map[string]float64{"stress": b.Stress, "use": b.Use, "at": b.S})
	f.Place.Part, f.Place.At = ribAt(p, b.Support), finding.At(p.Place(b.S))
	return one(on(f, "rib.thickness"))
}

// heldStrain holds the strain of a plastic's skin to what it may be held at for good, at the
// low end of that: glued to its rib it stays bent. It warns and never stops: the only figure
// is of low authority, crazing comes slowly, and the piece can be made to find out. Of a
// plastic without a figure nothing is promised.
func heldStrain(p *plan.Plan) []finding.Finding {
	s := p.V.Sheet.Stock
	limit, strain := s.Sustained, p.HeldStrain()
	if !p.HeldTooFar() {
		return nil
	}
	held := "Score " + num(p.Scores.Cracking.Score) + " holds the skin at " + unit.Percent(strain) + " strain for good. "
	const warm = " Bent warm, as its maker says how, it is held without strain."
	numbers := map[string]float64{"strain": strain}
	if !limit.Given() {
		return one(at(found("held-strain", finding.Warn, held+"How much "+s.Name+" stands for years is not known here: ask its maker."+warm, numbers), p, p.Scores.Cracking.Score))
	}
	numbers["limit"] = limit.Low
	return one(at(found("held-strain", finding.Warn, held+s.Name+" crazes with time at more than "+unit.Percent(limit.Low)+" to "+unit.Percent(limit.High)+
		", by a weak source; solvents and cleaners hasten it."+warm, numbers), p, p.Scores.Cracking.Score))
}

// caulHits says that a caul has no room in the bend.
func caulHits(p *plan.Plan) []finding.Finding {
	if !p.V.Rib.Caul || p.Caul != nil {
		return nil
	}
	why := "The caul has no room in this bend: its radius is smaller than sheet and pad are thick together."
	if p.Section.Closed {
		why = "A panel that goes all round is clamped with a band, not with a caul."
	}
	return one(on(found("caul-left-out", finding.Note, why, nil), "rib.caul"))
}
