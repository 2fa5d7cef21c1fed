package check

import (
	"math"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// seam says of a panel that goes all round what its girth may be off by: 2 pi times
// what the thickness is off by.
func seam(p *plan.Plan, more float64) []finding.Finding {
	off := 2 * math.Pi * p.V.Sheet.TSpread
	f := found("seam", finding.Note, "The girth is "+mm(p, p.Layout.Length)+", give or take "+mm(p, off)+
		" for the thickness; the panel is "+mm(p, more)+" longer, to lap or to trim. Dry-fit before you glue.",
		map[string]float64{"girth": p.Layout.Length, "extra": more, "off": off})
	if more < off {
		f.Severity = finding.Warn
		f.Text = "The girth is " + mm(p, p.Layout.Length) + ", give or take " + mm(p, off) + " for the thickness, and the panel is "
		switch {
		case more < -off:
			f.Text += mm(p, -more) + " shorter: its ends don't meet."
		case more < 0.01:
			f.Text += "no longer: its ends may not meet."
		default:
			f.Text += "only " + mm(p, more) + " longer: its ends may not meet."
		}
		f = with(f, set("Leave "+mm(p, math.Ceil(2*off))+" to trim", "curve.seam", design.Butt, "curve.trim", unit.Bare(math.Ceil(2*off), p.V.Units), "panel.length", "", "panel.along", "0"))
	}
	return one(on(f, "curve.seam"))
}

func grazes(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	for _, g := range p.Panel.Grazes {
		out = append(out, at(found("score-grazes", finding.Warn, "Score "+num(g.Score)+
			" only touches the panel's edge. Move the edge or leave this score out.", nil), p, g.Score))
	}
	return out
}

func reenters(p *plan.Plan) []finding.Finding {
	for _, s := range p.Panel.Segments {
		if s.Held > 1e-6 {
			return one(at(found("overrun-reenters", finding.Warn, "Score "+num(s.Score)+" has only "+
				mm(p, p.Overrun-s.Held)+" of the "+mm(p, p.Overrun)+" it should run out, or it would score the other side of the gap. The head slows there and burns deeper.",
				map[string]float64{"held": s.Held, "wanted": p.Overrun}), p, s.Score))
		}
	}
	return nil
}

func hotLines(p *plan.Plan) []finding.Finding {
	m := p.V.Machine
	need := machine.LeastOverrun(m.Speed, m.Acceleration)
	if need <= 0 || p.Overrun >= need-1e-9 {
		return nil
	}
	text := "The head needs " + mm(p, need) + " to reach " + unit.Speed(m.Speed, p.V.Units) +
		", but the scores run out only " + mm(p, p.Overrun) + ". Their ends burn deeper than the middle."
	if p.Overrun < 0.01 {
		text = "The head needs " + mm(p, need) + " to reach " + unit.Speed(m.Speed, p.V.Units) +
			", but the scores end at the panel's edge. Their ends burn deeper than the middle."
	}
	numbers := map[string]float64{"needed": need, "overrun": p.Overrun}
	if n, shortest, reached := tooShort(p); n > 0 {
		// Those are hot from end to end, which says more than that their ends are.
		text += " " + num(n) + " of them never reach it: the shortest is " + mm(p, shortest) + " and gets to " + unit.Speed(reached, p.V.Units) + "."
		numbers["lines"], numbers["shortest"], numbers["reached"] = float64(n), shortest, reached
	}
	return one(on(with(found("short-hot-line", finding.Warn, text, numbers),
		set("Run out "+mm(p, math.Ceil(need*10)/10), "panel.overrun", unit.Bare(math.Ceil(need*10)/10, p.V.Units))), "panel.overrun"))
}

// tooShort counts the score strokes of one panel that never reach their speed, with the
// shortest of them and what it gets to.
func tooShort(p *plan.Plan) (n int, shortest, reached float64) {
	for _, j := range p.Jobs {
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
	for _, g := range p.Sheets {
		for i := range g.Parts {
			pt := &g.Parts[i]
			a, f := &pt.Allowance, finding.Finding{Severity: finding.Stop, Place: finding.Place{Part: pt.ID, Field: "machine.kerf"}, Numbers: map[string]float64{"kerf": kerf}}
			what := "hole"
			if pt.ID == "base" {
				what = "slot"
			}
			switch {
			case a.Crosses:
				f.ID, f.Text = "part-crosses", "The outline of the "+pt.Name+" runs across itself, so it can't be cut out. Change the curve, or its depth there."
				if pt.ID == "caul" {
					f.Remedies = []finding.Remedy{set("Cut no caul", "rib.caul", "no")}
				}
			case a.Failed:
				f.ID, f.Text = "kerf-not-allowed", "No allowance for the kerf of "+mm(p, kerf)+" could be made on the outline of the "+pt.Name+": it would come out half a kerf small all round."
			case len(a.Lost) > 0:
				f.Numbers["lost"] = float64(len(a.Lost))
				f.ID, f.Text = "kerf-hole-lost", counted(len(a.Lost), what, "is", "are")+" no wider than the kerf of "+mm(p, kerf)+", so the file of the "+pt.Name+" is without."
			case a.Left > plan.LeftSeen:
				f.Numbers["left"], f.Place.At = a.Left, finding.At(a.At.X)
				f.ID, f.Text = "kerf-no-reach", "A cut "+mm(p, kerf)+" wide does not reach into the "+pt.Name+" "+mm(p, a.At.X)+" along, "+mm(p, a.At.Y)+
					" across: the last "+mm(p, a.Left)+" stay uncut there."
				if a.Left <= math.Max(leastShortReach, shortReach*kerf/2) {
					f.Severity = finding.Warn
				}
			default:
				continue
			}
			out = append(out, with(f, p.ReachThatWould(pt)...))
		}
	}
	return out
}

// roundCorners tells of joints whose square corners stay round, so that no tenon seats.
func roundCorners(p *plan.Plan) []finding.Finding {
	var out []finding.Finding
	for _, j := range p.RoundCorners() {
		f := on(found("corner-round", finding.Warn, "The tool leaves the inside corners of the "+j.Name+" round by "+mm(p, j.Left)+
			", so that the joint does not go home. Clear them with a file or a knife.", map[string]float64{"left": j.Left, "kerf": p.V.Machine.Kerf}), "cut.relief")
		switch {
		case j.Whole:
			f.Severity, f.Place.Field, f.Remedies = finding.Stop, "rib.stubWidth", p.RoomBesideTenon()
			f.Text = "A cut " + mm(p, p.V.Machine.Kerf) + " wide has no room beside the tenon of the " + j.Name + ": " + mm(p, j.Left) + " stay in its corners, and it does not go into its slot."
		case p.V.Machine.Tool == machine.Router:
			f = with(f, set("Clear the corners with short runs of the cutter", "cut.relief", "auto"))
		}
		f.Place.Part = j.ID
		out = append(out, f)
	}
	return out
}

// The factor of 1.5 on a rib's strength is common practice, no source.
func ribWeak(p *plan.Plan) []finding.Finding {
	const factor = 1.5
	use, bad := p.Hold.RibUse, p.Hold.RibBad
	if use*factor <= 1 && bad <= 1 {
		return nil
	}
	end := "; a factor of " + unit.Ratio(factor) + " is usual."
	if use*factor <= 1 {
		end = ", and to " + unit.Ratio(bad) + " of the least that it may have."
	}
	f := at(found("rib-weak", finding.Warn, "The panel pulls the rib to "+unit.Ratio(use)+" of its strength, "+
		mm(p, p.Hold.Rib.StressAt)+" from the foot"+end,
		map[string]float64{"use": use, "bad": bad, "stress": p.Hold.Rib.Stress}), p, 0)
	f.Place.Part = ribAt(p, p.Hold.Weakest)
	return one(on(with(f, deeper(p, math.Sqrt(math.Max(use*factor, bad)))), "rib.footDepth"))
}

const mostMovement = 0.5

func ribSoft(p *plan.Plan) []finding.Finding {
	m := p.Hold.Rib.Movement
	if m <= mostMovement {
		return nil
	}
	f := found("rib-soft", finding.Warn, "When you let go the rib gives by "+mm(p, m)+" at its tip; "+mm(p, mostMovement)+" is as much as goes unseen.",
		map[string]float64{"movement": m, "most": mostMovement})
	f.Place.Part = ribAt(p, p.Hold.Softest)
	return one(on(with(f, deeper(p, math.Cbrt(m/mostMovement))), "rib.footDepth"))
}

// deeper proposes both depths of the rib larger by k, unless it would run into itself.
func deeper(p *plan.Plan, k float64) finding.Remedy {
	t := p.RibTask
	t.FootDepth, t.TipDepth = math.Ceil(2*k*t.FootDepth)/2, math.Ceil(2*k*t.TipDepth)/2
	if share, _ := t.Deepest(); share > 0.9 {
		return finding.Remedy{}
	}
	return set("Make the rib "+mm(p, t.FootDepth)+" deep at the foot and "+mm(p, t.TipDepth)+" at the tip",
		"rib.footDepth", unit.Bare(t.FootDepth, p.V.Units), "rib.tipDepth", unit.Bare(t.TipDepth, p.V.Units))
}

func wrongFace(p *plan.Plan) []finding.Finding {
	v := p.V
	other := map[string]string{design.Hollow: design.Round, design.Round: design.Hollow}[v.Panel.ShowFace]
	var out []finding.Finding
	if v.Panel.ShowFace == v.Panel.ScoredFace {
		out = append(out, on(with(found("wrong-face", finding.Warn, "The scores are on the "+v.Panel.ShowFace+" side, which is the one that shows.", nil),
			set("Score the "+other+" side", "panel.scoredFace", other)), "panel.scoredFace"))
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
	return one(on(with(found("along-grain", finding.Warn, "The scores run along the face grain, where the skin splits. Turn the panel on the sheet.",
		map[string]float64{"angle": s.GrainToScores * 180 / math.Pi}),
		set("Lay the grain across the scores", "sheet.grain", "across")), "sheet.grain"))
}

// glueLine warns when the bottom of the score lies within 0.1 mm of a glue line.
func glueLine(p *plan.Plan) []finding.Finding {
	t := p.Try()
	line, off, ok := stock.GlueLine(p.V.Sheet.Stock.Plies, p.V.Sheet.T, t.Skin)
	if !ok || math.Abs(off) > 0.1 {
		return nil
	}
	return one(on(found("glue-line", finding.Note, "The bottom of the score comes to lie at a glue line, "+mm(p, line)+
		" from the other face. Expect an uneven skin; a pass more or less may do better.",
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
			"Depth of the passes and width of the score are not from test strips of this sheet. Cut a strip first: these two decide most.", nil), "machine.depths"))
	} else if !p.V.Machine.WidthTested {
		out = append(out, on(found("not-measured", finding.Note,
			"The width of the score is not from a test strip. Close a width strip and add its reading: it decides when scores pinch.", nil), "machine.scoreWidth"))
	}
	return out
}
