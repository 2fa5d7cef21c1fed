package remedy

import (
	"maps"
	"math"
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/lay"
	"springrib/internal/machine"
	"springrib/internal/part"
	"springrib/internal/plan"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// Changes with which a part keeps the holes, slots and tenons that its kerf takes away, and
// is cut from a sheet that its tool may touch. They are proposals: Tried keeps those that
// mend.

// reachRoom is how much wider than the kerf a hole is made, mm, so that the tool has a way
// to go in it.
const reachRoom = 0.1

// partOf returns the part that a finding speaks of, nil for none.
func partOf(p *plan.Plan, f *finding.Finding) *part.Part {
	for _, g := range p.Lay.Sheets {
		for i := range g.Parts {
			if g.Parts[i].ID == f.Place.Part {
				return &g.Parts[i]
			}
		}
	}
	return nil
}

// reach lets the kerf leave a part nothing to want: a narrower cut, wider slots, a thicker
// sheet for the ribs, wider holes.
func reach(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	pt := partOf(p, f)
	if pt == nil {
		return nil
	}
	var out []finding.Remedy
	if f.ID == "part-crosses" && pt.ID == "caul" {
		out = one("Cut no caul", "rib.caul", "no")
	}
	for share := 0.9; share > 0.05; share -= 0.1 {
		k := math.Floor(share*p.V.Machine.Kerf*100) / 100
		if a := part.Allow(pt.Outline, k); len(a.Lost) == 0 && !a.Failed && !a.Crosses && a.Left <= lay.LeftSeen {
			if cut := narrower(p, k); cut != nil {
				out = append(out, cut...)
				break
			}
		}
	}
	switch {
	case len(pt.Allowance.Lost) == 0:
	case p.Base != nil && pt.ID == p.Base.ID:
		out = append(out, widerSlots(p)...)
	case pt.ID == "panel":
		out = append(out, widerHoles(p, pt.Allowance.Lost)...)
	}
	return out
}

// narrower takes another kerf.
func narrower(p *plan.Plan, kerf float64) []finding.Remedy {
	if kerf <= 0 {
		return nil
	}
	text := "Cut with a kerf of "
	if p.V.Machine.Tool == machine.Router {
		text = "Take a cutter of "
	}
	return one(text+mm(p, kerf), "machine.kerf", bare(p, kerf))
}

// widerSlots gives tenons a clearance at which their slots can be cut, or takes the thinnest
// sheet of the ribs' family whose tenons are wide enough.
func widerSlots(p *plan.Plan) []finding.Remedy {
	need, thin, r := p.V.Machine.Kerf+reachRoom, math.Inf(1), p.V.Rib
	for _, s := range p.Supports.All {
		if s.Foot == design.Tenon {
			thin = math.Min(thin, s.Thickness)
		}
	}
	fit := math.Ceil(20*(need-thin)-1e-6) / 20
	out := one("Make the slots "+mm(p, fit)+" wider than the rib", "rib.fit", inMM(fit))
	best := stock.Stock{}
	for _, s := range stock.All() {
		t := s.Thickness.Value
		if s.Family == r.Stock.Family && !s.Laser.Never && t+r.Fit >= need && (best.ID == "" || t < best.Thickness.Value) {
			best = s
		}
	}
	if best.ID != "" {
		out = append(out, set("Cut the ribs from "+best.Name, "rib.stock", best.ID, "rib.thickness", ""))
	}
	return out
}

// widerHoles makes holes of the panel so wide that the tool has room in them, or leaves them
// out.
func widerHoles(p *plan.Plan, lost []int) []finding.Remedy {
	wide := math.Ceil(10*(p.V.Machine.Kerf+reachRoom)-1e-6) / 10
	wider, without := set("Make what is too narrow "+mm(p, wide)+" wide"), set("Leave it out")
	for _, i := range lost {
		n := i - p.Size.DrawnHoles()
		if n < 0 || n >= len(p.V.Panel.Holes) {
			return nil // drawn elsewhere
		}
		wider.Set[p.Size.HoleField(&p.V.Panel, i, "width")] = inMM(wide)
		maps.Copy(without.Set, design.BlankRow("panel.holes", p.V.Panel.Holes[n].Row))
	}
	return []finding.Remedy{wider, without}
}

// clearCorners clears the corners of joints, or, where the tool has no way in beside a
// tenon, takes a tool that has one, shoulders that this one has a way to, or a tenon without.
func clearCorners(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	if f.Severity != finding.Stop {
		if p.V.Machine.Tool == machine.Router {
			return one("Clear the corners with short runs of the cutter", "cut.relief", "auto")
		}
		return nil
	}
	foot := p.V.Rib.FootDepth
	out := narrower(p, math.Floor(10*(foot-p.V.Rib.StubWidth))/10)
	for _, w := range []float64{math.Floor(10*(foot-p.V.Machine.Kerf-2*reachRoom)) / 10, foot} {
		if w >= 1 {
			out = append(out, stubWidth(p, w)...)
		}
	}
	return out
}

// elsewhere takes another stock for parts that are not of the panel's sheet - that sheet
// where a laser may cut it, else the stock nearest in thickness of those that it may - or
// another tool.
func elsewhere(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	knife := set("Cut it with a knife", "machine.tool", "knife")
	pt, field := partOf(p, f), f.Place.Field
	prefix, ok := strings.CutSuffix(field, "stock")
	if pt == nil || !ok || field == design.PanelStock {
		return []finding.Remedy{knife}
	}
	text, id := "Take the panel's sheet for it", "same"
	if p.V.Sheet.Stock.Laser.Never {
		off := math.Inf(1)
		for _, s := range stock.All() {
			if away := math.Abs(s.Thickness.Value - pt.From.Thickness); !s.Laser.Never && away < off {
				text, id, off = "Take "+s.Name+" for it", s.ID, away
			}
		}
	}
	return []finding.Remedy{set(text, field, id, prefix+"thickness", ""), knife}
}

func sameThickness(_ *plan.Plan, f *finding.Finding) []finding.Remedy {
	return one("Take the panel's thickness", f.Place.Field, "")
}

// gap leaves a gap as wide as the kerf, and lets parts with places of their own lie like all
// others.
func gap(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	step := 0.1
	if p.V.Units == unit.Inch {
		step = unit.MMPerInch / 200
	}
	wide := step * math.Ceil(p.V.Machine.Kerf/step-1e-9)
	leave := set("Leave "+mm(p, wide)+" between parts", "cut.gap", bare(p, wide))
	if len(p.V.Cut.Pins) == 0 {
		return []finding.Remedy{leave}
	}
	free := set("Let all parts lie where there is room")
	for _, pin := range p.V.Cut.Pins {
		maps.Copy(free.Set, design.BlankRow("cut.pins", pin.Row))
	}
	if p.V.Cut.Gap >= p.V.Machine.Kerf {
		return []finding.Remedy{free}
	}
	free.Text += ", " + mm(p, wide) + " apart"
	free.Set["cut.gap"] = leave.Set["cut.gap"]
	return []finding.Remedy{leave, free}
}
