package remedy

import (
	"maps"
	"math"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/lay"
	"springrib/internal/plan"
)

// onBed lays what lies off the bed turned, or with a smaller margin, where it fits so.
func onBed(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	w, h, bw, bh := f.Numbers["width"], f.Numbers["height"], f.Numbers["bedWidth"], f.Numbers["bedHeight"]
	if bw == 0 { // a part in a place of its own
		return unpin(p, f)
	}
	const hair = 0.01
	var out []finding.Remedy
	m := p.V.Cut.Margin
	least := math.Floor(10*(m-math.Max(w-bw, h-bh)/2-hair)) / 10
	if (w > bw || h > bh) && least >= 0 && least < m {
		out = one("Leave "+mm(p, least)+" along the edge of the bed", "cut.margin", bare(p, least))
	}
	if p.V.Cut.Turns != design.TurnQuarter && h <= bw-hair && w <= bh-hair {
		out = append(out, set("Let parts lie turned by a quarter", "cut.turns", design.TurnQuarter))
	}
	if f.Place.Part == "panel" && p.Section.Cone != nil && p.Section.Closed {
		out = append(out, gored(p, bw, bh)...)
	}
	return out
}

// unpin lays parts that were put in a place as all others are.
func unpin(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	pt, r := partOf(p, f), set("Let it lie where there is room")
	for _, pin := range p.V.Cut.Pins {
		if pt != nil && lay.Names(pin.Part, *pt) {
			maps.Copy(r.Set, design.BlankRow("cut.pins", pin.Row))
		}
	}
	if len(r.Set) == 0 {
		return nil
	}
	return []finding.Remedy{r}
}

// narrowerBridges makes bridges so narrow that more of them find a place.
func narrowerBridges(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	pt, c := partOf(p, f), p.V.Cut
	best, width := int(f.Numbers["bridges"]), 0.0
	for _, share := range []float64{0.75, 0.5, 0.35, 0.25, 0.1} {
		c.BridgeWidth = math.Floor(100*share*p.V.Cut.BridgeWidth) / 100
		if c.BridgeWidth < 0.1 || best >= int(f.Numbers["wanted"]) { // the least that can be typed
			break
		}
		if n := p.Lay.BridgesWith(pt, &c); n > best {
			best, width = n, c.BridgeWidth
		}
	}
	if width == 0 {
		return nil
	}
	return one("Make bridges "+mm(p, width)+" wide", "cut.bridgeWidth", inMM(width))
}

// bridgeSmall holds small parts by bridges, where any finds a place.
func bridgeSmall(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	c := p.V.Cut
	c.Bridges = design.BridgeSmall
	if p.Lay.BridgesWith(partOf(p, f), &c) == 0 {
		return nil
	}
	return one("Hold small parts by bridges", "cut.bridges", design.BridgeSmall)
}
