package plan

import (
	"maps"
	"math"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/part"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// Changes with which a part keeps the holes, slots and tenons that its kerf takes away.
// They are proposals: check.Tried keeps those that mend.

// reachRoom is how much wider than the kerf a hole is made, mm, so that the tool has a way
// to go in it.
const reachRoom = 0.1

// LeftSeen is how far a tool may stay short of an edge unseen, mm. Common practice, no
// source.
const LeftSeen = 0.2

// ReachThatWould returns changes with which the kerf may leave a part nothing to want: a
// narrower cut, wider slots, a thicker sheet for the ribs, wider holes.
func (p *Plan) ReachThatWould(pt *part.Part) []finding.Remedy {
	var out []finding.Remedy
	for share := 0.9; share > 0.05 && out == nil; share -= 0.1 {
		k := math.Floor(share*p.V.Machine.Kerf*100) / 100
		if a := part.Allow(pt.Outline, k); len(a.Lost) == 0 && !a.Failed && !a.Crosses && a.Left <= LeftSeen {
			out = p.narrower(k)
		}
	}
	switch {
	case len(pt.Allowance.Lost) == 0:
	case p.Base != nil && pt.ID == p.Base.ID:
		out = append(out, p.widerSlots()...)
	case pt.ID == "panel":
		out = append(out, p.widerHoles(pt.Allowance.Lost)...)
	}
	return out
}

// narrower offers another kerf.
func (p *Plan) narrower(kerf float64) []finding.Remedy {
	if kerf <= 0 {
		return nil
	}
	text := "Cut with a kerf of "
	if p.V.Machine.Tool == machine.Router {
		text = "Take a cutter of "
	}
	return offer(text+p.len(kerf), map[string]string{"machine.kerf": unit.Bare(kerf, p.V.Units)})
}

// widerSlots offers a clearance of the tenons at which their slots can be cut, and the
// thinnest sheet of the ribs' family whose tenons are wide enough.
func (p *Plan) widerSlots() []finding.Remedy {
	need, thin, r := p.V.Machine.Kerf+reachRoom, math.Inf(1), p.V.Rib
	for _, s := range p.Supports {
		if s.Foot == design.Tenon {
			thin = math.Min(thin, s.Thickness)
		}
	}
	fit := math.Ceil(20*(need-thin)-1e-6) / 20
	out := offer("Make the slots "+p.len(fit)+" wider than the rib", map[string]string{"rib.fit": unit.Bare(fit, unit.MM) + " mm"})
	best := stock.Stock{}
	for _, s := range stock.All() {
		t := s.Thickness.Value
		if s.Family == r.Stock.Family && !s.Laser.Never && t+r.Fit >= need && (best.ID == "" || t < best.Thickness.Value) {
			best = s
		}
	}
	if best.ID != "" {
		out = append(out, offer("Cut the ribs from "+best.Name, map[string]string{"rib.stock": best.ID, "rib.thickness": ""})...)
	}
	return out
}

// widerHoles offers holes of the panel that the tool has room in, and to leave them out.
func (p *Plan) widerHoles(lost []int) []finding.Remedy {
	wide := math.Ceil(10*(p.V.Machine.Kerf+reachRoom)-1e-6) / 10
	wider, without := map[string]string{}, map[string]string{}
	for _, i := range lost {
		n := i - len(p.drawn.region.Holes)
		if n < 0 || n >= len(p.V.Panel.Holes) {
			return nil // drawn elsewhere
		}
		wider[p.HoleField(i, "width")] = unit.Bare(wide, unit.MM) + " mm"
		maps.Copy(without, design.BlankRow("panel.holes", p.V.Panel.Holes[n].Row))
	}
	return append(offer("Make what is too narrow "+p.len(wide)+" wide", wider), offer("Leave it out", without)...)
}

// Joint is a part whose square inside corners the tool leaves round, so that a tenon does
// not go home.
type Joint struct {
	*part.Part
	Left  float64 // of the worst corner, mm
	Whole bool    // not only the corner: the tool has no way in beside it
}

// RoundCorners returns the parts of joints that are left so.
func (p *Plan) RoundCorners() []Joint {
	var out []Joint
	for _, g := range p.Sheets {
		for i := range g.Parts {
			pt := &g.Parts[i]
			if !p.jointed(pt.ID) || p.Closed {
				continue
			}
			left, usual := pt.CornersLeft(p.works[pt.ID], p.V.Machine.Kerf/2)
			whole, t := p.V.Cut.Relief || left > usual+0.02, p.V.Machine.Tool
			if left > LeftSeen && (whole || t == machine.Router || t == machine.Laser) { // saws and knives are not round
				out = append(out, Joint{pt, left, whole})
			}
		}
	}
	return out
}

// RoomBesideTenon offers a tool that has a way to the shoulders, shoulders that this one
// has a way to, and a tenon without.
func (p *Plan) RoomBesideTenon() []finding.Remedy {
	foot := p.V.Rib.FootDepth
	out := p.narrower(math.Floor(10*(foot-p.V.Rib.StubWidth)) / 10)
	for _, w := range []float64{math.Floor(10*(foot-p.V.Machine.Kerf-2*reachRoom)) / 10, foot} {
		if w >= 1 {
			out = append(out, offer("Make it "+p.len(w)+" wide", map[string]string{"rib.stubWidth": unit.Bare(w, p.V.Units)})...)
		}
	}
	return out
}
