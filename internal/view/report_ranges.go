package view

import (
	"springrib/internal/plan"
	"springrib/internal/state"
)

// ReportRange is a figure with the ends that nine in ten lie within, and what the worse
// end comes from: shares of its variance by quantity.
type ReportRange struct {
	Value number            `json:"value"`
	Low   number            `json:"low"`
	High  number            `json:"high"`
	From  map[string]number `json:"from"`
}

// ReportRanges are the ranges of the governing figures.
type ReportRanges struct {
	Cracking ReportRange `json:"cracking"`
	Pinching ReportRange `json:"pinching"`
	Radius   ReportRange `json:"breakRadius"`
	Force    ReportRange `json:"endForce"`
	End      ReportRange `json:"end"`
}

// ReportLearned is what test strips said; null without readings. Sigmas are standard
// deviations, those of stiffness, softness and rupture strain of the logarithm.
type ReportLearned struct {
	Readings     int              `json:"readings"`
	Skins        []ReportMeasured `json:"skins"`
	Width        ReportMeasured   `json:"scoreWidth"`
	Rupture      ReportMeasured   `json:"ruptureStrain"`
	RuptureKnown bool             `json:"ruptureKnown"`
	Softness     ReportMeasured   `json:"softness"`
	Clearance    ReportMeasured   `json:"clearance"`
	// OverBed is what the skin differs by from place to place: Value is its standard
	// deviation, N the number of places.
	OverBed ReportMeasured `json:"overBed"`
	// Apart is the same from score to score; N is the number of skins that told it.
	Apart ReportMeasured `json:"apart"`
	E     number         `json:"e"`
}

// ReportMeasured is a figure with its standard deviation and the number of readings it
// rests on, 0 when on none.
type ReportMeasured struct {
	Value number `json:"value"`
	Sigma number `json:"sigma"`
	N     int    `json:"n"`
}

func reportRanges(p *plan.Plan) ReportRanges {
	names := []string{state.Depth: "depth", state.Width: "scoreWidth", state.Thickness: "thickness", state.Modulus: "e",
		state.Through: "ez", state.Shear: "gxz", state.Rupture: "ruptureStrain", state.Faces: "face"}
	one := func(r state.Range) ReportRange {
		out := ReportRange{number(r.Value), number(r.Low), number(r.High), map[string]number{}}
		for _, s := range r.From {
			out.From[names[s.Of]] = number(s.Share)
		}
		return out
	}
	g := p.Proof.Ranges
	return ReportRanges{one(g.Cracking), one(g.Pinching), one(g.Radius), one(g.Force), one(g.End)}
}

func reportLearned(p *plan.Plan) *ReportLearned {
	l := p.Readings.Learned
	if l == nil {
		return nil
	}
	out := &ReportLearned{
		Readings: len(p.V.Strips.Readings), Width: ReportMeasured{number(l.Width.Value), number(l.Width.Sigma), l.Width.N},
		Rupture: ReportMeasured{number(l.Rupture.Value), number(l.Rupture.Sigma), l.Rupture.N}, RuptureKnown: l.RuptureKnown,
		Softness: ReportMeasured{number(l.Softness.Value), number(l.Softness.Sigma), l.Softness.N}, E: number(l.Material.E),
		Clearance: ReportMeasured{number(l.Clearance.Value), number(l.Clearance.Sigma), l.Clearance.N},
		OverBed:   ReportMeasured{number(l.OverBed.Value), number(l.OverBed.Sigma), l.OverBed.N},
		Apart:     ReportMeasured{number(l.Apart.Value), number(l.Apart.Sigma), l.Apart.N},
	}
	for _, h := range l.Skins {
		out.Skins = append(out.Skins, ReportMeasured{number(h.Value), number(h.Sigma), h.N})
	}
	return out
}
