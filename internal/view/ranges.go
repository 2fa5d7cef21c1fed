package view

import (
	"math"
	"strings"

	"springrib/internal/state"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// spans are the figures of a plan with what they may really be, and what that comes
// from most.
func (w *worked) spans() []wire.Number {
	p, sys := &w.plan, w.plan.V.Units
	if p.ScoresCut() == 0 {
		return nil
	}
	var out []wire.Number
	add := func(id, label, text string, r state.Range, help string) {
		if text != "" {
			out = append(out, wire.Number{ID: id, Label: label, Text: text, Help: strings.TrimSpace(help + " " + p.Because(r))})
		}
	}
	g := p.Proof.Ranges
	add("cracking", "How near cracking", shareRange(g.Cracking), g.Cracking, "Strain of the skin over the strain that cracks it.")
	if p.Scores.Pinching.Score > 0 {
		add("pinching", "How near pinching", shareRange(g.Pinching), g.Pinching, "How much of the mouth is closed.")
	}
	length := func(mm float64) string { return unit.Length(mm, sys) }
	if g.Radius.Value > 0 {
		add("breakRadius", "These scores crack or pinch shut at a radius of", spanned(g.Radius, length), g.Radius, "The limit itself, nothing kept in reserve.")
	}
	if g.Force.Value > 0 {
		add("force", "To hold the free end down", spanned(g.Force, func(n float64) string { return unit.Mass(n, sys) }), g.Force, "The pull at the panel's end.")
	}
	off := math.Max(g.End.High, -g.End.Low)
	add("endRange", "The panel's end may lie off by", unit.LengthFine(off, sys), g.End, "Along the panel, either way.")
	return out
}

// shareRange is a share of a limit with its range, "0.78 (0.66-0.91)".
func shareRange(r state.Range) string { return spanned(r, unit.Ratio) }

// spanned writes a figure with its range; the unit stands once where it is the same.
func spanned(r state.Range, write func(float64) string) string {
	value, low, high := write(r.Value), write(r.Low), write(r.High)
	if low == high {
		return value
	}
	if _, of, ok := strings.Cut(value, " "); ok && strings.HasSuffix(low, " "+of) && strings.HasSuffix(high, " "+of) {
		low, high = strings.TrimSuffix(low, " "+of), strings.TrimSuffix(high, " "+of)
	}
	return value + " (" + low + "-" + high + ")"
}
