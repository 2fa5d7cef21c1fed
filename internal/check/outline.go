package check

import (
	"math"
	"strconv"
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/support"
	"springrib/internal/unit"
)

// seenLength is the least length that a panel is longer or shorter than its curve and is
// told of, mm.
const seenLength = 0.05

// length looks at where the outline lies on the curve: past its ends the panel runs on
// straight, and what it does not reach of the curve is told of at both ends.
func length(p *plan.Plan) []finding.Finding {
	if p.Section.Closed {
		return seam(p, p.Outline.Length-p.Round())
	}
	foot, tip := p.Bares()
	return append(longer(p), append(bare(p, foot, false), bare(p, tip, true)...)...)
}

// lengthField is where the panel's length comes from.
func lengthField(p *plan.Plan) string {
	switch p.V.Panel.Shape {
	case design.Drawn:
		return "panel.drawnLength"
	case design.Polygon:
		return "panel.corners"
	}
	return "panel.length"
}

func ends(p *plan.Plan) map[string]float64 {
	return map[string]float64{"start": p.Outline.From, "end": p.Outline.To, "panel": p.Outline.Length, "curve": p.Scores.Layout.Length}
}

func longer(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	if p.Outline.From < -seenLength {
		f := found("panel-longer", finding.Warn, "The panel starts "+mm(p, -p.Outline.From)+" before the foot of the curve. That part has no scores and stays straight.", ends(p))
		out = append(out, on(f, "panel.along"))
	}
	if more := p.Outline.To - p.Scores.Layout.Length; more > seenLength {
		f := found("panel-longer", finding.Warn, "The panel is "+mm(p, more)+" longer than the curve. That part has no scores and stays straight.", ends(p))
		out = append(out, on(f, lengthField(p)))
	}
	return out
}

// bare tells of an end of the curve that the panel does not reach. A bend without panel is
// not the curve that was asked for; of a straight nothing is lost but its length.
func bare(p *plan.Plan, b plan.Bare, tip bool) []finding.Finding {
	if b.Length <= seenLength {
		return nil
	}
	say, field := "The panel starts "+mm(p, b.Length)+" after the foot of the curve", "panel.along"
	if tip {
		say, field = "The panel ends "+mm(p, b.Length)+" before the curve does", lengthField(p)
	}
	numbers := ends(p)
	numbers["bare"], numbers["bent"], numbers["scores"] = b.Length, b.Bent, float64(b.Scores)
	f := found("panel-shorter", finding.Note, say+".", numbers)
	if b.Scores > 0 || b.Bent > bentSeen {
		f.Severity = finding.Warn
		f.Text = say + ", and " + mm(p, b.Bent) + " of its bend has neither panel nor rib."
		if b.Scores > 0 {
			f.Text = say + ": " + counted(b.Scores, "score", "of its bend is", "of its bend are") + " left out, and the rib is shorter by as much."
		}
	}
	return one(on(f, field))
}

// bentSeen is the least length of a bend without panel that is warned of, mm.
const bentSeen = 0.5

// ribAt returns the id of the part that a support is cut as.
func ribAt(p *plan.Plan, support int) string { return p.Ribs.Kinds[p.Supports.All[support].Kind].ID }

// ribName tells one of several ribs by its place.
func ribName(p *plan.Plan, s support.Support) string {
	if len(p.Supports.All) == 1 {
		return "The rib"
	}
	return "The rib " + mm(p, s.Across) + " across"
}

func ribWide(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	for _, s := range p.Supports.All {
		if !s.Narrow {
			continue
		}
		field := "rib.thickness"
		switch {
		case s.Row >= 0:
			field = "rib.places." + strconv.Itoa(s.Row) + ".thickness"
		case p.V.Panel.Shape == design.Taper:
			if field = "panel.footWidth"; p.V.Panel.Bulges {
				field = "panel.widestWidth"
			}
		case p.V.Panel.Shape == design.Drawn:
			field = "panel.drawn"
		case p.V.Panel.Shape != design.Sector && p.V.Panel.Shape != design.Polygon:
			field = "panel.width"
		}
		f := found("rib-wide", finding.Stop, ribName(p, s)+" is "+mm(p, s.Thickness)+
			" thick, and nowhere does the panel cover it there. Make the panel wider, or the rib thinner, or move it.", map[string]float64{"rib": s.Thickness, "across": s.Across})
		f.Place.Part = p.Ribs.Kinds[s.Kind].ID
		out = append(out, on(f, field))
	}
	return out
}

// holeOverRib warns of holes that take the ground from under a glue line.
func holeOverRib(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	for i, h := range p.Outline.Region.Holes {
		b := h.Box()
		for _, s := range p.Supports.All {
			from, to := math.Max(b.Min.X, p.Place(s.Task.Start)), math.Min(b.Max.X, p.Place(s.Task.End))
			if to <= from || b.Max.Y <= s.Across-s.Thickness/2 || b.Min.Y >= s.Across+s.Thickness/2 {
				continue
			}
			f := found("hole-over-rib", finding.Warn, ribName(p, s)+" runs under hole "+num(i+1)+", "+mm(p, from)+" to "+mm(p, to)+
				" along, where the glue holds nothing. Move one of them.", map[string]float64{"from": from, "to": to, "across": s.Across})
			f.Place.Part, f.Place.At = "panel", finding.At((from+to)/2)
			out = append(out, on(f, p.Size.HoleField(&p.V.Panel, i, "across")))
		}
	}
	return out
}

// peels asks at both ends of each rib for a glued straight long enough to take the
// panel's pull at the bad end of what the sheet's face holds, and tells the worst.
func peels(p *plan.Plan) []finding.Finding {
	if p.Ruled() && p.Section.Closed {
		return seamPeels(p)
	}
	var out []finding.Finding
	end := func(name, field string, tip bool) {
		worst, ok := p.Peels(tip)
		if !ok {
			return
		}
		there := "it has " + mm(p, worst.Straight)
		if worst.Straight < 0.01 {
			there = "it has none"
		}
		f := found("glue-peels", finding.Warn, "The panel pulls the glue off at the "+name+". Give it "+mm(p, worst.Length)+
			" of glued straight: "+there+". (With none the pull is up to "+unit.Ratio(worst.Use)+
			" times what the glue surely holds.) A thicker rib, a doubler glued beside it, pegs or tape there help too.",
			map[string]float64{"stress": worst.Stress, "use": worst.Use, "needed": worst.Length, "straight": worst.Straight})
		f.Place.Part = ribAt(p, worst.Support)
		if p.Section.Closed {
			field = "curve.kind"
		}
		out = append(out, on(f, field))
	}
	end("foot", "curve.foot", false)
	end("tip", "curve.tip", true)
	return out
}

// endGap tells of the panel's ends past the ribs: more than is accepted is a warning.
func endGap(p *plan.Plan) []finding.Finding {
	const seen = 0.01 // mm
	overFoot, overTip := p.Over()
	var out []finding.Finding
	end := func(e support.End, over bool, lead, field string) {
		if e.Gap <= seen {
			return
		}
		text := lead + ": the end misses its curve by " + mm(p, e.Gap)
		f := found("end-gap", finding.Note, text+".", map[string]float64{"free": e.Free, "gap": e.Gap, "accepted": p.V.Rib.EndGap})
		if over {
			f.Severity, f.Text = finding.Warn, text+"; you accept "+mm(p, p.V.Rib.EndGap)+"."
		}
		f.Place.Part, f.Place.At = "panel", finding.At(p.Place(e.At))
		out = append(out, on(f, field))
	}
	end(p.Supports.TipEnd, overTip, "Past the ribs the last "+mm(p, p.Supports.TipEnd.Free)+" stay straight", "rib.short")
	end(p.Supports.FootEnd, overFoot, "Before the ribs the first "+mm(p, p.Supports.FootEnd.Free)+" stay straight", "rib.places")
	return out
}

func markTurned(p *plan.Plan) []finding.Finding {
	if !p.Supports.Mark.Turned {
		return nil
	}
	var lines []string
	for _, s := range p.Supports.All {
		if p.Ruled() { // of a ring at the rim it is the rim
			if s.Mark.To > s.Mark.From && p.Section.Pair != nil {
				lines = append(lines, unit.Percent(s.Line/p.Section.Tall())+" of the way along each score, from the near rib.")
			} else if s.Mark.To > s.Mark.From {
				at := mm(p, p.Width()/2-s.Mark.Across) + " from the wide edge"
				if p.Section.Closed {
					at += ", all round"
				}
				lines = append(lines, at+".")
			}
			continue
		}
		where := "down the middle"
		if s.Across != 0 {
			where = mm(p, s.Across) + " across"
		}
		from := s.Mark.From + p.V.Rib.MarkStart
		start := mm(p, from) + " along"
		if math.Abs(from-p.Outline.From) < 0.005 {
			start = "the foot edge"
		}
		lines = append(lines, where+" from "+start+" to "+mm(p, s.Mark.To)+".")
	}
	what := "The rib goes on the unscored face, so its line is not in the cut file. Rule it by hand before you bend: "
	if len(lines) == 0 {
		return nil
	}
	if len(lines) > 1 {
		what = "The ribs go on the unscored face, so their lines are not in the cut file. Rule them by hand before you bend. "
		for i := range lines {
			lines[i] = unit.Upper(lines[i])
		}
	}
	return one(on(found("mark-turned", finding.Note, what+strings.Join(lines, " "),
		map[string]float64{"to": p.Supports.Mark.To}), "rib.side"))
}
