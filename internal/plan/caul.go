package plan

import (
	"math"

	"springrib/internal/outline"
	"springrib/internal/part"
)

// caul makes the block that presses the panel on its rib: its edge is the parallel of
// the rib edge past the panel's outer face and the pad that spares it. There is none
// for a panel that goes all round, nor where the bend leaves no room for one.
func caul(p *Plan) bool {
	r := p.V.Rib
	if !r.Caul || p.Section.Closed || p.Ruled() {
		return true
	}
	d := p.V.Sheet.T + r.CaulPad
	if !p.Section.PanelLeft {
		d = -d
	}
	edge, err := p.Section.Edge.Parallel(d)
	if err != nil {
		return true
	}
	// Straights keep their length, bends do not: the ends are those over the panel's.
	from, to := parallelTo(p, p.supporting().PanelStart(), d), parallelTo(p, p.supporting().PanelEnd(), d)
	t := part.RibTask{
		ID: "caul", Name: "caul", From: p.V.From(r.Stock, r.Thickness, r.StockAt), Edge: edge, PanelLeft: !p.Section.PanelLeft,
		Start: math.Max(0, from), End: math.Min(edge.Length(), to), FootDepth: r.CaulDepth, TipDepth: r.CaulDepth,
		Kerf: p.V.Machine.Kerf, Quantity: r.CaulQuantity * p.V.Panel.Quantity, Tolerance: outline.Tolerance, Quick: p.draft,
	}
	// Round the inside of a bend the back edge would run into itself.
	if share, _ := t.Deepest(); share > 0.9 {
		t.FootDepth *= 0.9 / share
		t.TipDepth = t.FootDepth
	}
	p.Caul = &RibPart{Rib: part.NewRib(t), Task: t}
	return true
}

// parallelTo returns the arc length of the parallel at distance d to the left over arc length
// s of the edge: an arc of length l that turns by phi grows by -d phi.
func parallelTo(p *Plan, s, d float64) float64 {
	return s - d*(p.Section.Edge.At(s).Phi-p.Section.Edge.At(0).Phi)
}
