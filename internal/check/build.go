package check

import (
	"math"

	"springrib/internal/cut"
	"springrib/internal/finding"
	"springrib/internal/lay"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// seam says of a panel that goes all round what its girth may be off by: 2 pi times
// what the thickness is off by.
func seam(p *plan.Plan, more float64) []finding.Finding {
	off, girth, who := 2*math.Pi*p.V.Sheet.TSpread, "The girth is ", "the panel is "
	if p.Section.Cone != nil {
		girth = "The girth at the narrow rim is "
	}
	if n := p.Gores(); n > 1 { // each takes its share of it
		off, girth, who = off/float64(n), "Of the girth at the narrow rim each part takes ", "each part is "
	}
	says := "; " + who
	if p.Gores() > 1 {
		says = ". " + unit.Upper(who)
	}
	f := found("seam", finding.Note, girth+mm(p, p.Round())+", give or take "+mm(p, off)+
		" for the thickness"+says+mm(p, more)+" longer, to lap or to trim. Dry-fit before you glue.",
		map[string]float64{"girth": p.Scores.Layout.Length, "extra": more, "off": off})
	if more < off {
		f.Severity = finding.Warn
		f.Text = girth + mm(p, p.Round()) + ", give or take " + mm(p, off) + " for the thickness, and " + who
		switch {
		case more < -off:
			f.Text += mm(p, -more) + " shorter: its ends don't meet."
		case more < 0.01:
			f.Text += "no longer: its ends may not meet."
		default:
			f.Text += "only " + mm(p, more) + " longer: its ends may not meet."
		}
	}
	return one(on(f, "curve.seam"))
}

func grazes(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	for _, g := range p.Panel.Flat.Grazes {
		out = append(out, at(found("score-grazes", finding.Warn, "Score "+num(g.Score)+
			" only touches the panel's edge. Move the edge or leave this score out.", nil), p, g.Score))
	}
	return out
}

func reenters(p *plan.Plan) []finding.Finding {
	for _, s := range p.Panel.Flat.Segments {
		if s.Held > 1e-6 {
			return one(at(found("overrun-reenters", finding.Warn, "Score "+num(s.Score)+" has only "+
				mm(p, p.Panel.Overrun-s.Held)+" of its run-out of "+mm(p, p.Panel.Overrun)+": more would score the other side of the gap. The head slows there and burns deeper.",
				map[string]float64{"held": s.Held, "wanted": p.Panel.Overrun}), p, s.Score))
		}
	}
	return nil
}

func hotLines(p *plan.Plan) []finding.Finding {
	m := p.V.Machine
	need := machine.LeastOverrun(m.Speed, m.Acceleration)
	if need <= 0 || p.Panel.Overrun >= need-1e-9 {
		return nil
	}
	text := "The head needs " + mm(p, need) + " to reach " + unit.Speed(m.Speed, p.V.Units) +
		", but the scores run out only " + mm(p, p.Panel.Overrun) + ". Their ends burn deeper than the middle."
	if p.Panel.Overrun < 0.01 {
		text = "The head needs " + mm(p, need) + " to reach " + unit.Speed(m.Speed, p.V.Units) +
			", but the scores end at the panel's edge. Their ends burn deeper than the middle."
	}
	numbers := map[string]float64{"needed": need, "overrun": p.Panel.Overrun}
	if n, shortest, reached := tooShort(p); n > 0 {
		// Those are hot from end to end, which says more than that their ends are.
		text += " " + counted(n, "score", "never reaches it", "never reach it") + ": the shortest is " + mm(p, shortest) + " and gets to " + unit.Speed(reached, p.V.Units) + "."
		numbers["lines"], numbers["shortest"], numbers["reached"] = float64(n), shortest, reached
	}
	return one(on(found("short-hot-line", finding.Warn, text, numbers), "panel.overrun"))
}

// tooShort counts the score strokes of one panel that never reach their speed, with the
// shortest of them and what it gets to.
func tooShort(p *plan.Plan) (n int, shortest, reached float64) {
	for _, j := range p.Lay.Jobs {
		for _, h := range cut.HotLines(j.Operations, p.V.Machine.Acceleration) {
			if h.Operation > 0 || h.Part != "panel" && h.Part != "panel 1" { // passes may be layers of their own
				continue
			}
			if n++; n == 1 || h.Length < shortest {
				shortest, reached = h.Length, h.Reached
			}
		}
	}
	return n, shortest, reached
}

// shortReach is how far a tool may stay short of an edge before the part counts as cut
// wrong, as a share of its radius, and at least, mm: what it leaves in a corner of 20
// degrees, 1/sin(10) - 1. What is less is told of.
const (
	shortReach      = 4.8
	leastShortReach = 0.5
)

// kerfLost tells of what a part has that its file has not.
func kerfLost(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	kerf := p.V.Machine.Kerf
	for _, g := range p.Lay.Sheets {
		for i := range g.Parts {
			pt := &g.Parts[i]
			a, f := &pt.Allowance, finding.Finding{Severity: finding.Stop, Place: finding.Place{Part: pt.ID, Field: "machine.kerf"}, Numbers: map[string]float64{"kerf": kerf}}
			what := "hole"
			if pt.ID == "base" {
				what = "slot"
			}
			switch {
			case a.Crosses:
				f.ID, f.Text = "part-crosses", "The outline of "+unit.The(pt.Name)+" runs across itself, so it can't be cut out. Change the curve, or its depth there."
			case a.Failed:
				f.ID, f.Text = "kerf-not-allowed", "No allowance for the kerf of "+mm(p, kerf)+" could be made on the outline of "+unit.The(pt.Name)+": it would come out half a kerf small all round."
			case len(a.Lost) > 0:
				f.Numbers["lost"] = float64(len(a.Lost))
				f.ID, f.Text = "kerf-hole-lost", counted(len(a.Lost), what, "is", "are")+" no wider than the kerf of "+mm(p, kerf)+", so they are missing from the file of "+unit.The(pt.Name)+"."
			case a.Left > lay.LeftSeen:
				f.Numbers["left"], f.Place.At = a.Left, finding.At(a.At.X)
				f.ID, f.Text = "kerf-no-reach", "A cut "+mm(p, kerf)+" wide does not reach into "+unit.The(pt.Name)+", "+mm(p, a.At.X)+" along, "+mm(p, a.At.Y)+
					" across: the last "+mm(p, a.Left)+" stay uncut there."
				if a.Left <= math.Max(leastShortReach, shortReach*kerf/2) {
					f.Severity = finding.Warn
				}
			default:
				continue
			}
			out = append(out, f)
		}
	}
	return out
}

// roundCorners tells of joints whose square corners stay round, so that no tenon seats.
func roundCorners(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	for _, j := range p.Lay.RoundCorners() {
		f := on(found("corner-round", finding.Warn, "The tool leaves the inside corners of "+unit.The(j.Name)+" round by "+mm(p, j.Left)+
			", so that the joint does not go home. Clear them with a file or a knife.", map[string]float64{"left": j.Left, "kerf": p.V.Machine.Kerf}), "cut.relief")
		if j.Whole {
			f.Severity, f.Place.Field = finding.Stop, "rib.stubWidth"
			f.Text = "A cut " + mm(p, p.V.Machine.Kerf) + " wide has no room beside the tenon of " + unit.The(j.Name) + ": " + mm(p, j.Left) + " stay in its corners, and it does not go into its slot."
		}
		f.Place.Part = j.ID
		out = append(out, f)
	}
	return out
}

func ribWeak(p *plan.Plan) []finding.Finding {
	const factor = plan.RibFactor
	use, bad := p.Strength.Hold.RibUse, p.Strength.Hold.RibBad
	if !p.RibBreaks() {
		return nil
	}
	end := "; up to " + unit.Ratio(1/factor) + " is usual."
	if use*factor <= 1 {
		end = ", in the worst case to " + unit.Ratio(bad) + "."
	}
	f := at(found("rib-weak", finding.Warn, "The panel loads the rib to "+unit.Ratio(use)+" of its strength, "+
		mm(p, p.Strength.Hold.Rib.StressAt)+" from the foot"+end,
		map[string]float64{"use": use, "bad": bad, "stress": p.Strength.Hold.Rib.Stress}), p, 0)
	f.Place.Part = ribAt(p, p.Strength.Hold.Weakest)
	return one(on(f, "rib.footDepth"))
}

func ribSoft(p *plan.Plan) []finding.Finding {
	m := p.Strength.Hold.Rib.Movement
	if !p.RibGives() {
		return nil
	}
	f := found("rib-soft", finding.Warn, "When you let go, the tip of the rib gives by "+mm(p, m)+"; up to "+mm(p, plan.MostMovement)+" goes unseen.",
		map[string]float64{"movement": m, "most": plan.MostMovement})
	f.Place.Part = ribAt(p, p.Strength.Hold.Softest)
	return one(on(f, "rib.footDepth"))
}

func wrongFace(p *plan.Plan) []finding.Finding {
	v := &p.V
	var out []finding.Finding
	if v.Panel.ShowFace == v.Panel.ScoredFace {
		out = append(out, on(found("wrong-face", finding.Warn, "The scores are on the "+v.Panel.ShowFace+" side, which is the one that shows.", nil), "panel.scoredFace"))
	}
	if v.Panel.ShowFace == v.Rib.Side {
		out = append(out, on(found("wrong-face", finding.Note, "The rib stands on the "+v.Rib.Side+" side, which is the one that shows.", nil), "rib.side"))
	}
	return out
}

// alongGrain warns within 30 degrees of the grain.
func alongGrain(p *plan.Plan) []finding.Finding {
	s := p.V.Sheet
	if !s.Grained || s.GrainToScores >= math.Pi/6 {
		return nil
	}
	return one(on(found("along-grain", finding.Warn, "The scores run along the face grain, where the skin splits. Turn the panel on the sheet.",
		map[string]float64{"angle": s.GrainToScores * 180 / math.Pi}), "sheet.grain"))
}

// glueLine warns when the bottom of the score lies within 0.1 mm of a glue line.
func glueLine(p *plan.Plan) []finding.Finding {
	t := p.Try()
	line, off, ok := stock.GlueLine(p.V.Sheet.Stock.Plies, p.V.Sheet.T, t.Skin)
	if !ok || math.Abs(off) > 0.1 {
		return nil
	}
	return one(on(found("glue-line", finding.Note, "The score ends at a glue line, "+mm(p, line)+
		" from the other face. Expect an uneven skin; one pass more or fewer may do better.",
		map[string]float64{"line": line, "off": off}), "panel.passes"))
}

func notMeasured(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	if !p.V.Sheet.Measured {
		out = append(out, on(found("not-measured", finding.Note, "The thickness is the nominal "+mm(p, p.V.Sheet.T)+
			". Measure your sheet in five places: a tenth more or less changes everything here.", nil), "sheet.readings"))
	}
	if !p.V.Machine.Tested {
		out = append(out, on(found("not-measured", finding.Note,
			"The depths are a guess. Cut a strip first.", nil), "machine.depths"))
	} else if !p.V.Machine.WidthTested {
		out = append(out, on(found("not-measured", finding.Note,
			"The width of the score is not from a test strip. Close a width strip and add its reading: it decides when scores pinch.", nil), "machine.scoreWidth"))
	}
	return out
}
