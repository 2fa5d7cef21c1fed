package plan

import (
	"maps"
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/part"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// Changes with which a part keeps the holes and slots that its kerf takes away.

// reachRoom is how much wider than the kerf a hole is made, mm, so that the tool has a way
// to go in it.
const reachRoom = 0.1

// LeftSeen is how far a tool may stay short of an edge unseen, mm. Common practice, no
// source.
const LeftSeen = 0.2

// keeps tells whether a part is cut as it was drawn.
func keeps(a part.Allowed) bool {
	return len(a.Lost) == 0 && !a.Failed && !a.Crosses && a.Left <= LeftSeen
}

// ReachThatWould returns changes, each tried, with which the kerf leaves a part nothing to
// want: a narrower cut, wider slots, a thicker sheet for the ribs, wider holes.
func (p *Plan) ReachThatWould(pt part.Part) []finding.Remedy {
	out := p.narrowerCut(pt)
	switch {
	case len(pt.Allowance.Lost) == 0:
	case p.Base != nil && pt.ID == p.Base.ID:
		out = append(out, p.widerSlots()...)
		out = append(out, p.thickerRibs()...)
	case pt.ID == "panel":
		out = append(out, p.widerHoles(pt.Allowance.Lost)...)
	}
	return out
}

// Uncrossed offers what keeps the outline of a rib or a caul from crossing itself.
func (p *Plan) Uncrossed(pt part.Part) []finding.Remedy {
	if p.Caul != nil && pt.ID == p.Caul.ID {
		return offer("Cut no caul", map[string]string{"rib.caul": "no"})
	}
	foot, tip := p.V.Rib.FootDepth, p.V.Rib.TipDepth
	for range 12 {
		foot, tip = math.Floor(1.7*foot)/2, math.Floor(1.7*tip)/2
		if foot < 1 || tip < 1 {
			break
		}
		if p.tried(pt.ID, func(v *design.Values) { v.Rib.FootDepth, v.Rib.TipDepth = foot, tip }) {
			return offer("Make the rib "+p.len(foot)+" deep at the foot and "+p.len(tip)+" at the tip", map[string]string{
				"rib.footDepth": unit.Bare(foot, p.V.Units), "rib.tipDepth": unit.Bare(tip, p.V.Units)})
		}
	}
	return nil
}

// Joint is a part whose square inside corners the tool leaves round, so that a tenon does
// not go home.
type Joint struct {
	part.Part
	Left  float64 // of the worst corner, mm
	Whole bool    // not only the corner: the tool has no way in beside it
}

// RoundCorners returns the parts of joints that are left so.
func (p *Plan) RoundCorners() []Joint {
	var out []Joint
	for _, g := range p.Sheets {
		for _, pt := range g.Parts {
			if !p.jointed(pt.ID) || p.Closed {
				continue
			}
			left, usual := pt.CornersLeft(p.works[pt.ID], p.V.Machine.Kerf/2)
			if left <= LeftSeen {
				continue
			}
			whole := p.V.Cut.Relief || left > usual+0.02
			if t := p.V.Machine.Tool; whole || t == machine.Router || t == machine.Laser { // saws and knives are not round
				out = append(out, Joint{pt, left, whole})
			}
		}
	}
	return out
}

// RoomBesideTenon offers a tenon with shoulders that the tool has a way to.
func (p *Plan) RoomBesideTenon(pt part.Part) []finding.Remedy {
	out := p.narrowerCut(pt)
	foot, was := p.V.Rib.FootDepth, p.V.Rib.StubWidth
	for _, w := range []float64{math.Floor(10*(foot-2*(p.V.Machine.Kerf/2+reachRoom))+1e-9) / 10, foot} {
		if w < 1 || math.Abs(w-was) < 1e-9 || !p.tried(pt.ID, func(v *design.Values) { v.Rib.StubWidth = w }) {
			continue
		}
		out = append(out, offer("Make it "+p.len(w)+" wide", map[string]string{"rib.stubWidth": unit.Bare(w, p.V.Units)})...)
		break
	}
	return out
}

// narrowerCut offers the widest cut with which all parts keep what they have.
func (p *Plan) narrowerCut(pt part.Part) []finding.Remedy {
	kerf := p.V.Machine.Kerf
	for share := 0.9; share > 0.05; share -= 0.1 {
		k := math.Floor(share*kerf*100) / 100
		if k <= 0 {
			break
		}
		if !keeps(part.Allow(pt.Outline, k)) || !p.tried(pt.ID, func(v *design.Values) { v.Machine.Kerf = k }) {
			continue
		}
		text := "Cut with a kerf of " + p.len(k)
		if p.V.Machine.Tool == machine.Router {
			text = "Take a cutter of " + p.len(k)
		}
		return offer(text, map[string]string{"machine.kerf": unit.Bare(k, p.V.Units)})
	}
	return nil
}

// tried works a change of the values out; ok is false where it stops what did not stop, or
// a part of the name still lacks something.
func (p *Plan) tried(id string, change func(v *design.Values)) bool {
	q := Plan{V: p.V, memory: p.memory, draft: true, trying: true}
	change(&q.V)
	for _, stage := range stages[1:] { // what strips said is in the values already
		if !stage(&q) {
			return false
		}
	}
	stopped := map[string]bool{}
	for _, f := range p.Findings {
		stopped[f.ID] = f.Severity == finding.Stop || stopped[f.ID]
	}
	for _, f := range q.Findings {
		if f.Severity == finding.Stop && !stopped[f.ID] {
			return false
		}
	}
	for _, j := range q.RoundCorners() {
		if j.ID == id && j.Whole {
			return false
		}
	}
	for _, g := range q.Sheets {
		for _, pt := range g.Parts {
			if pt.ID == id {
				return keeps(pt.Allowance)
			}
		}
	}
	return false
}

// thinnest is the thinnest rib that has a tenon, mm.
func (p *Plan) thinnest() float64 {
	t := math.Inf(1)
	for _, s := range p.Supports {
		if s.Foot == design.Tenon {
			t = math.Min(t, s.Thickness)
		}
	}
	return t
}

// widerSlots offers a clearance of the tenons at which their slots can be cut.
func (p *Plan) widerSlots() []finding.Remedy {
	fit := math.Ceil(20*(p.V.Machine.Kerf+reachRoom-p.thinnest())-1e-6) / 20
	const most = 3 // mm, that can be typed
	if fit > most || fit <= p.V.Rib.Fit || !p.tried(p.Base.ID, func(v *design.Values) { v.Rib.Fit = fit }) {
		return nil
	}
	return offer("Make the slots "+p.len(fit)+" wider than the rib", map[string]string{"rib.fit": unit.Bare(fit, unit.MM) + " mm"})
}

// thickerRibs offers the thinnest sheet of the ribs' family whose tenons are wide enough.
func (p *Plan) thickerRibs() []finding.Remedy {
	r := p.V.Rib
	best := stock.Stock{}
	for _, s := range stock.All() {
		if s.Family != r.Stock.Family || s.Laser.Never || s.Thickness.Value+r.Fit < p.V.Machine.Kerf+reachRoom {
			continue
		}
		if best.ID == "" || s.Thickness.Value < best.Thickness.Value {
			best = s
		}
	}
	if best.ID == "" || !p.tried(p.Base.ID, func(v *design.Values) {
		v.Rib.Stock, v.Rib.StockAt, v.Rib.Thickness = best, "rib.stock", best.Thickness.Value
		v.Rib.E, v.Rib.MOR = best.Edge(), best.EdgeStrength()
	}) {
		return nil
	}
	return offer("Cut the ribs from "+best.Name, map[string]string{"rib.stock": best.ID, "rib.thickness": ""})
}

// widerHoles offers holes of the panel that the tool has room in, else to leave them out.
func (p *Plan) widerHoles(lost []int) []finding.Remedy {
	wide := math.Ceil(10*(p.V.Machine.Kerf+reachRoom)-1e-6) / 10
	wider, without := map[string]string{}, map[string]string{}
	var rows []int
	for _, i := range lost {
		n := i - len(p.drawn.region.Holes)
		if n < 0 || n >= len(p.V.Panel.Holes) {
			return nil // drawn elsewhere
		}
		rows = append(rows, n)
		wider[p.HoleField(i, "width")] = unit.Bare(wide, unit.MM) + " mm"
		maps.Copy(without, design.BlankRow("panel.holes", p.V.Panel.Holes[n].Row))
	}
	name := "hole " + strconv.Itoa(lost[0]+1)
	if len(lost) > 1 {
		name = "these holes"
	}
	var out []finding.Remedy
	if p.tried("panel", func(v *design.Values) {
		v.Panel.Holes = append([]design.HoleValues{}, v.Panel.Holes...)
		for _, n := range rows {
			v.Panel.Holes[n].Width = wide
			v.Panel.Holes[n].Length = math.Max(wide, v.Panel.Holes[n].Length)
		}
	}) {
		out = offer("Make "+name+" "+p.len(wide)+" wide", wider)
	}
	return append(out, offer("Leave "+name+" out", without)...)
}
