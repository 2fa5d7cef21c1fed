package view

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/outline"
	"springrib/internal/plan"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// flatView carries places of the panel as given to those of the flat drawing, which
// shows the scored face, and back: it is its own inverse but for the shift.
type flatView struct {
	origin plane.Point // the panel's foot edge and middle line in the drawing
	hand   float64     // -1 where the drawing is mirrored
}

func (f flatView) at(along, across float64) plane.Point {
	return plane.Pt(f.origin.X+along, f.origin.Y+f.hand*across)
}

// panelGrips returns the handles of a panel that is drawn: its outline and holes, its
// ribs, and the end of their glue; of a cone its rims and its height.
func panelGrips(p *plan.Plan) []grip {
	switch {
	case p.Section.Cone != nil:
		return coneGrips(p)
	case p.Section.Pair != nil:
		return nil
	}
	v := p.V.Panel
	hand := 1.0
	if p.Panel.Mirror {
		hand = -1
	}
	f, given := flatView{plane.Pt(v.Along, hand*v.Across), hand}, p.Given()
	out := append(outlineGrips(p, f, given.Length), holeGrips(f, v)...)
	if given.Seen() {
		for i := range out {
			out[i] = developed(out[i], given)
		}
	}
	return append(append(out, ribGrips(p, hand)...), glueGrips(p, hand)...)
}

// developed returns a handle of an outline that is given as it is seen when bent: it is
// held where the outline comes to lie on the flat panel.
func developed(g grip, given outline.Given) grip {
	inner, stretch := g.pull, math.Max(1, given.Stretch(g.at.X))
	g.at.X = given.U(g.at.X)
	g.pull = func(to plane.Point) ([]float64, float64) {
		figures, rate := inner(plane.Pt(given.Along(to.X), to.Y))
		return figures, rate * stretch
	}
	return g
}

// outlineGrips are the handles of an outline as it is given, length long.
func outlineGrips(p *plan.Plan, f flatView, length float64) []grip {
	v := p.V.Panel
	// These outlines are the same on both sides of their middle line: held is the upper
	// edge, whichever face is drawn.
	upper := func(along, width float64) plane.Point { return f.at(along, f.hand*width/2) }
	across := func(id, path string, along, width float64) grip {
		return straightGrip(id, labelOf(path), "flat", "y", upper(along, width), path, f.at(along, 0), plane.Pt(0, 1), 2)
	}
	switch v.Shape {
	case design.Rectangle:
		return []grip{across("panel-width", "panel.width", length/2, v.Width), roundingGrip(f, length, v)}
	case design.Ellipse, design.Lens:
		return []grip{across("panel-width", "panel.width", length/2, v.Width)}
	case design.Taper:
		widest, tip := math.Min(v.WidestAt.Or(length/3), length), length
		if v.TipRound { // held where the rounding begins: past it the width is nowhere to be seen
			tip = math.Max(widest, length-v.TipWidth/2)
		}
		ends := []grip{across("foot-width", "panel.footWidth", 0, v.FootWidth), across("tip-width", "panel.tipWidth", tip, v.TipWidth)}
		if v.Edges == "one" { // the straight one lies half the foot's width below the middle line
			low := -v.FootWidth / 2
			ends[1] = straightGrip("tip-width", labelOf("panel.tipWidth"), "flat", "y", f.at(tip, low+v.TipWidth), "panel.tipWidth", f.at(tip, low), plane.Pt(0, f.hand), 1)
		}
		if !v.Bulges || v.Edges == "one" {
			return ends
		}
		w := freeGrip("widest", "Widest place", "flat", upper(widest, v.WidestWidth), "panel.widestAt", "panel.widestWidth", f.origin, plane.Pt(1, 2))
		w.knobs[0].high = math.Min(w.knobs[0].high, math.Floor(10*length)/10)
		return append(ends, w)
	case design.Sector:
		return sectorGrips(f, length, v)
	case design.Polygon:
		return polygonGrips(f, v)
	}
	return nil
}

// ribGrips move ribs across the panel. Ribs that were spread evenly get places of their
// own by the first that is moved.
func ribGrips(p *plan.Plan, hand float64) []grip {
	var out []grip
	own := len(p.V.Rib.Places) > 0
	b := p.Outline.Region.Box()
	for i, s := range p.Supports.All {
		row := s.Row
		if !own {
			row = i
		}
		path := func(row int) string { return "rib.places." + strconv.Itoa(row) + ".across" }
		name := "Place of the rib"
		if len(p.Supports.All) > 1 {
			name = "Place of rib " + strconv.Itoa(i+1)
		}
		g := straightGrip("rib "+strconv.Itoa(i+1), name, "flat", "y", plane.Pt(s.Mark.From, hand*s.Across), path(row), plane.Point{}, plane.Pt(0, hand), 1)
		g.knobs[0].low, g.knobs[0].high = b.Min.Y, b.Max.Y
		if !own {
			g.rest = map[string]string{}
			for k, other := range p.Supports.All {
				g.rest[path(k)] = unit.Bare(other.Across, p.V.Units)
			}
		}
		out = append(out, g)
	}
	return out
}

// glueGrips are the end of the rib and its glue, in both drawings.
func glueGrips(p *plan.Plan, hand float64) []grip {
	if p.Section.Closed || len(p.Supports.All) == 0 {
		return nil
	}
	s := p.Supports.All[p.Supports.Longest]
	reach := p.Reach(s)
	low, high := boundsOf("rib.short")
	k := knob{path: "rib.short", kind: design.Length, value: math.Max(0, reach-s.Task.End), low: low, high: math.Min(high, 0.9*(reach-s.Task.Start))}
	short := func(s float64) ([]float64, float64) { return []float64{reach - s}, 1 }
	// Held is the middle of the rib's end: the panel's own end may lie right above it.
	end := p.Section.Edge.At(s.Task.End)
	in := end.Tangent().Left().Mul(s.Task.DepthAt(s.Task.End) / 2)
	if p.Section.PanelLeft {
		in = in.Mul(-1)
	}
	return []grip{
		{
			id: "glue", label: "End of the glue", drawing: "bent", ways: "track", knobs: []knob{k}, at: end.P.Add(in),
			pull: func(to plane.Point) ([]float64, float64) { return short(p.Section.Edge.Nearest(to, s.Task.End)) },
		}, {
			id: "glue-flat", label: "End of the glue mark", drawing: "flat", ways: "x", knobs: []knob{k}, at: plane.Pt(s.Mark.To, hand*s.Across),
			pull: func(to plane.Point) ([]float64, float64) { return short(p.Under(to.X)) },
		},
	}
}
