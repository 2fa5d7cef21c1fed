package check

import (
	"math"
	"strconv"
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/unit"
)

// length looks at where the outline lies on the curve. One that starts after the foot or
// ends before the tip is fine.
func length(p *plan.Plan) []finding.Finding {
	if p.Closed {
		return seam(p, p.Length-p.Layout.Length)
	}
	var out []finding.Finding
	numbers := map[string]float64{"start": p.From, "end": p.To, "panel": p.Length, "curve": p.Layout.Length}
	sized := p.V.Panel.Shape != design.Polygon && p.V.Panel.Shape != design.Drawn
	asLong := func() finding.Remedy {
		if !p.AsLongAsTheCurve() {
			return finding.Remedy{}
		}
		return set("Make it as long as the curve", "panel.length", "")
	}
	move := func(by float64) finding.Remedy {
		from, to, ok := p.Moved(p.V.Panel.Along + by)
		if !ok || by > 0 && from < -0.05 || by < 0 && to > p.Layout.Length+0.05 {
			return finding.Remedy{}
		}
		return set("Move it "+mm(p, math.Abs(by)), "panel.along", unit.Bare(p.V.Panel.Along+by, p.V.Units))
	}
	if p.From < -0.05 {
		f := found("panel-longer", finding.Warn, "The panel starts "+mm(p, -p.From)+" before the foot of the curve. What is before it has no scores and runs on straight.", numbers)
		if p.To-p.From < p.Layout.Length || sized && !p.V.Panel.Length.OK {
			f = with(f, move(math.Ceil(-p.From*100)/100))
		}
		out = append(out, on(f, "panel.along"))
	}
	switch more := p.To - p.Layout.Length; {
	case more > 0.05:
		f := found("panel-longer", finding.Warn, "The panel is "+mm(p, more)+" longer than the curve. What is past the curve has no scores and runs on straight.", numbers)
		field := "panel.length"
		switch {
		case sized && p.V.Panel.Length.OK:
			f = with(f, asLong())
		case p.From-more > -0.05:
			f = with(f, move(-math.Ceil(more*100)/100))
		}
		switch {
		case p.V.Panel.Shape == design.Drawn:
			field = "panel.drawnLength"
		case !sized:
			field = "panel.corners"
		}
		out = append(out, on(f, field))
	case more < -0.05 && sized && p.V.Panel.Length.OK:
		out = append(out, on(with(found("panel-shorter", finding.Note, "The panel ends "+mm(p, -more)+" before the curve does.", numbers), asLong()), "panel.length"))
	}
	return out
}

// ribAt returns the id of the part that a support is cut as.
func ribAt(p *plan.Plan, support int) string { return p.Ribs[p.Supports[support].Kind].ID }

// ribName tells one of several ribs by its place.
func ribName(p *plan.Plan, s plan.Support) string {
	if len(p.Supports) == 1 {
		return "The rib"
	}
	return "The rib " + mm(p, s.Across) + " across"
}

func ribWide(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	for _, s := range p.Supports {
		if !s.Narrow {
			continue
		}
		field := "rib.thickness"
		switch {
		case s.Row >= 0:
			field = "rib.places." + strconv.Itoa(s.Row) + ".thickness"
		case p.V.Panel.Shape == design.Taper:
			field = "panel.widestWidth"
		case p.V.Panel.Shape == design.Drawn:
			field = "panel.drawn"
		case p.V.Panel.Shape != design.Sector && p.V.Panel.Shape != design.Polygon:
			field = "panel.width"
		}
		f := found("rib-wide", finding.Stop, ribName(p, s)+" is "+mm(p, s.Thickness)+
			" thick, and nowhere does the panel cover it there. Make the panel wider, or the rib thinner, or move it.", map[string]float64{"rib": s.Thickness, "across": s.Across})
		f.Place.Part = p.Ribs[s.Kind].ID
		out = append(out, on(with(f, p.Onto(s.RibPlaceValues)...), field))
	}
	return out
}

// holeOverRib warns of holes that take the ground from under a glue line.
func holeOverRib(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	for i, h := range p.Outline.Holes {
		b := h.Box()
		for _, s := range p.Supports {
			from, to := math.Max(b.Min.X, p.Place(s.Task.Start)), math.Min(b.Max.X, p.Place(s.Task.End))
			if to <= from || b.Max.Y <= s.Across-s.Thickness/2 || b.Min.Y >= s.Across+s.Thickness/2 {
				continue
			}
			f := found("hole-over-rib", finding.Warn, ribName(p, s)+" runs under hole "+num(i+1)+", "+mm(p, from)+" to "+mm(p, to)+
				" along: the glue holds nothing there. Move the one or the other.", map[string]float64{"from": from, "to": to, "across": s.Across})
			f.Place.Part, f.Place.At = "panel", finding.At((from+to)/2)
			out = append(out, on(f, p.HoleField(i, "across")))
		}
	}
	return out
}

// peels asks at both ends of each rib for a glued straight long enough to take the
// panel's pull at the strength of the sheet's face, and tells the worst.
func peels(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	end := func(name, field string, tip bool) {
		worst, ok := p.Peels(tip)
		if !ok {
			return
		}
		there := "there are " + mm(p, worst.Straight)
		if worst.Straight < 0.01 {
			there = "there is none"
		}
		f := found("glue-peels", finding.Warn, "At the "+name+" the panel's pull peels the glue: "+mm(p, worst.Length)+
			" of glued straight would take it, "+there+". (With none, the face would see up to "+unit.Ratio(worst.Use)+
			" of what it holds.) A thicker rib, a doubler glued beside it, pegs or tape there help too.",
			map[string]float64{"stress": worst.Stress, "use": worst.Use, "needed": worst.Length, "straight": worst.Straight})
		f.Place.Part = ribAt(p, worst.Support)
		if p.Closed {
			out = append(out, on(f, "curve.kind"))
			return
		}
		if long, ok := p.StraightThatWould(tip); ok {
			r := set("Make the straight "+name+" "+mm(p, long)+" long", field, unit.Bare(long, p.V.Units))
			if tip && p.V.Rib.Short.OK && p.V.Rib.Short.V > 0 {
				r.Text, r.Set["rib.short"] = r.Text+", and the ribs as long", "0"
			}
			f = with(f, r)
		}
		out = append(out, on(f, field))
	}
	end("foot", "curve.foot", false)
	end("tip", "curve.tip", true)
	return out
}

func endGap(p *plan.Plan) []finding.Finding {
	const seen = 0.01 // mm
	var out []finding.Finding
	if e := p.TipEnd; e.Gap > seen {
		out = append(out, on(found("end-gap", finding.Note, "The last "+mm(p, e.Free)+" of the panel are not glued and run on straight: the end stands "+
			mm(p, e.Gap)+" off the curve.", map[string]float64{"free": e.Free, "gap": e.Gap}), "rib.short"))
	}
	if e := p.FootEnd; e.Gap > seen {
		out = append(out, on(found("end-gap", finding.Note, "The first "+mm(p, e.Free)+" of the panel lie before the ribs and run on straight: the end stands "+
			mm(p, e.Gap)+" off the curve.", map[string]float64{"free": e.Free, "gap": e.Gap}), "rib.places"))
	}
	return out
}

func markTurned(p *plan.Plan) []finding.Finding {
	if !p.Mark.Turned {
		return nil
	}
	var lines []string
	for _, s := range p.Supports {
		where := "down the middle"
		if s.Across != 0 {
			where = mm(p, s.Across) + " across"
		}
		from := s.Mark.From + p.V.Rib.MarkStart
		start := mm(p, from) + " along"
		if math.Abs(from-p.From) < 0.005 {
			start = "the foot edge"
		}
		lines = append(lines, where+", from "+start+" to "+mm(p, s.Mark.To))
	}
	what := "The rib goes on the unscored face, so its line is not in the cut file. Rule it by hand "
	if len(lines) > 1 {
		what = "The ribs go on the unscored face, so their lines are not in the cut file. Rule them by hand "
	}
	return one(on(found("mark-turned", finding.Note, what+strings.Join(lines, "; ")+", before you bend.",
		map[string]float64{"to": p.Mark.To}), "rib.side"))
}
