package view

import (
	"springrib/internal/stock"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// lasting are the figures of what follows the bending: what the glued piece settles at,
// what is left of its pull after years, and what the sheet would do without scores.
func (w *worked) lasting() []wire.Number {
	p, sys := w.plan, w.plan.V.Units
	if p.ScoresCut() == 0 {
		return nil
	}
	var out []wire.Number
	add := func(id, label, text, help string) {
		out = append(out, wire.Number{ID: id, Label: label, Text: text, Help: help})
	}
	s, sheet := p.Strength.Settled, p.V.Sheet
	if s.Was > 0 {
		add("released", "Radius once the clamps are off", unit.Length(s.Is, sys)+" where it was "+unit.Length(s.Was, sys),
			"Rib and sheet share the pull; the glue makes them stiffer than that, which is not counted on.")
	}
	if s.Indoors < 1 {
		add("creep", "Pull that is left after years", percent(s.Indoors)+" in a heated room, "+percent(s.Covered)+" outdoors under a roof",
			"Creep by k_def of EN 1995-1-1. Noted, never counted on: the sheet also settles to the curve for good.")
	}
	add("unscored", "Without scores this sheet breaks at a radius of", unit.Length(stock.Unscored(sheet.T, sheet.Rupture.Value), sys),
		"For comparison: half the thickness over the strain at which it cracks.")
	across := !sheet.Grained || sheet.GrainToScores > 0.7 // nearer across than along
	if r, ok := stock.MinimumBend(len(sheet.Stock.Plies), sheet.T, across); ok {
		add("unscoredTable", "Plain plywood this thick is bent dry to", unit.Length(r, sys),
			"FAA AC 43.13-1B, minimum bend radii of aircraft plywood, cold and dry; between its rows by logarithms.")
	}
	return out
}

func percent(share float64) string { return unit.Decimal(100*share, 0) + " %" }
