package view

import (
	"math"
	"strconv"
	"strings"

	"springrib/internal/chance"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

func (w *worked) mm(v float64) string { return unit.Length(v, w.plan.V.Units) }

// verdict answers in one sentence.
func (w *worked) verdict() wire.Verdict {
	worst := finding.Worst(w.findings)
	if !w.plan.Drawn {
		text := "Fill in what is missing."
		if len(w.findings) > 0 {
			text = w.findings[0].Text
		}
		return wire.Verdict{Severity: w.grave(), Word: "Not yet", Sentence: text, Gauges: []wire.Gauge{}}
	}
	v := wire.Verdict{Severity: "sound", Word: "Sound", Gauges: w.gauges()}
	lead := w.summary()
	switch worst {
	case finding.Stop:
		v.Severity, v.Word = "stop", "Do not cut"
		lead = w.release().because[0].Text // what withholds files goes before what marks them
	case finding.Warn:
		v.Severity, v.Word = "warn", "Look again"
		lead = w.findings[0].Text
		if w.onlyUnsure() {
			v.Word = "Likely"
		}
	}
	v.Sentence = lead
	return v
}

// onlyUnsure tells that nothing speaks against the design but what is not known of it.
func (w *worked) onlyUnsure() bool {
	for _, f := range w.findings {
		if f.Severity == finding.Warn && f.ID != "may-fail" {
			return false
		}
	}
	return true
}

// grave is a note while things are only missing, a stop when something is wrong.
func (w *worked) grave() string {
	for _, f := range w.findings {
		if f.Severity == finding.Stop && f.ID != "field-missing" {
			return string(finding.Stop)
		}
	}
	return string(finding.Note)
}

// summary says what the plan comes to when nothing speaks against it.
func (w *worked) summary() string {
	p := &w.plan
	if p.ScoresCut() == 0 {
		return "No scores: this panel stays flat."
	}
	s := "It reaches " + unit.Ratio(p.Scores.Cracking.Value) + " of cracking"
	if p.Scores.Pinching.Score > 0 {
		s += " and " + unit.Ratio(p.Scores.Pinching.Value) + " of pinching"
	}
	s += ", with " + plural(p.ScoresCut(), "score") + " in " + passes(p.Try().Passes) + "."
	if p.Few() < 1 {
		one := chance.OneIn(p.Proof.Chance.Fail)
		s = string(one[0]-'a'+'A') + one[1:] + " would fail. " + s
	}
	return s
}

func plural(n int, word string) string { return unit.Plural(n, word) }

func passes(n int) string {
	words := []string{"", "one pass", "two passes", "three passes", "four passes", "five passes", "six passes"}
	if n < len(words) {
		return words[n]
	}
	return strconv.Itoa(n) + " passes"
}

func (w *worked) gauges() []wire.Gauge {
	p := &w.plan
	g := func(id, label string, u plan.Use) wire.Gauge {
		return wire.Gauge{ID: id, Label: label, Value: u.Value, Low: u.Low, High: u.Bad, Allowed: u.Allowed,
			Text: unit.Ratio(u.Value) + " of the limit, " + unit.Range(u.Low, u.Bad)}
	}
	c, k := g("cracking", "Cracking", p.Scores.Cracking), g("pinching", "Pinching", p.Scores.Pinching)
	if p.Scores.Pinching.Score == 0 && p.ScoresCut() > 0 {
		k.Text = "these scores open"
	}
	f := g("flats", "Flats", p.Proof.Flats)
	long := unit.Length // of a few hundredths
	if p.V.Units == unit.Inch {
		long = unit.LengthFine
	}
	f.Text = long(math.Max(0, p.Proof.Fit.Most), p.V.Units) + " of " + long(p.V.Panel.StandOff, p.V.Units)
	return []wire.Gauge{c, k, f}
}

// numbers are the governing figures.
func (w *worked) numbers() []wire.Number {
	p := &w.plan
	t := p.Try()
	v := &p.V
	var out []wire.Number
	add := func(id, label, text, help string) {
		out = append(out, wire.Number{ID: id, Label: label, Text: text, Help: help})
	}
	add("count", "Score lines", plural(p.ScoresCut(), "score")+w.inEach(), "Counted from the foot.")
	if p.ScoresCut() > 0 {
		about := "Along the flat panel."
		switch {
		case p.Section.Cone != nil:
			about = "From the narrow rim to the wide one."
		case p.Section.Pair != nil:
			about = "Where they lie closest, and where furthest apart."
		}
		add("spacing", "Spacing, centre to centre", unit.LengthRange(t.Least, p.Widest(), v.Units), about)
		lo, hi := w.foldRange()
		add("fold", "Fold at each score", angles(lo, hi), "How far each score turns.")
	}
	add("passes", "Passes", passes(t.Passes), "")
	add("skin", "Skin left", w.mm(t.Skin), "What remains under the bottom of the score.")
	switch f := p.Panel.Fan; {
	case f != nil:
		ring, all, between := "ring", p.Outline.Length/p.Scores.Layout.Length, "Between its two ends, with what laps or is trimmed."
		if !p.Section.Closed {
			ring, all, between = "rib", 1, "Of its arcs; they go straight on to both ends."
		}
		add("length", "Flat: radii of its arcs", bare(w, f.Inner)+" and "+w.mm(f.Inner+p.Width()), "Of the fan that the panel lies as, from the point where its scores would meet.")
		add("angle", "Flat: angle of the fan", unit.Angle(f.Angle*all), between)
		add("lean", "The panel leans", unit.Angle(p.Section.Cone.Lean()), "Against the axis, and so against the edge of each "+ring+".")
	case p.Panel.Net != nil:
		box := p.Panel.Flat.Outline.Box()
		add("length", "Panel, flat", bare(w, box.W())+" by "+w.mm(box.H()), "The least rectangle round it as it is cut.")
		closes, opens := p.Section.Pair.Leans()
		add("lean", "The panel leans up to", unit.Angle(math.Asin(math.Max(closes, opens))), "Against the edge of each rib, which is cut square.")
	default:
		add("length", "Panel length, flat", w.mm(p.Outline.Length), "Along the bend, from the foot edge to the tip.")
	}
	if p.ScoresCut() > 0 {
		d := p.Scores.Layout.Folds[len(p.Scores.Layout.Folds)/2].D
		add("neutral", "Rib edge to neutral line", w.mm(d), "The line in the panel that keeps its length.")
	}
	if r, _ := p.Section.Edge.Tightest(); r > 0 {
		add("radius", "Tightest radius of the rib edge", w.mm(1/r), "")
		add("limitRadius", "Tightest radius these scores allow", w.limitRadius(), "Where the first limit is used up, with your safety factors.")
		add("movement", "Rib gives when released", w.mm(p.Strength.Hold.Rib.Movement), "How far the rib's tip moves when the clamps come off.")
	}
	if off := math.Max(p.Supports.FootEnd.Gap, p.Supports.TipEnd.Gap); off > 0.01 {
		add("miss", "End of the panel off its place", w.mm(off), "Past the ribs it runs on straight.")
	} else {
		add("miss", "End of the panel off its place", unit.LengthFine(p.Proof.Fit.EndMiss, v.Units), "Folded up again from the file's rounded places.")
	}
	out = append(out, w.spans()...)
	out = append(out, w.lasting()...)
	if t.Seconds > 0 {
		add("time", "Scoring time, one panel", unit.Time(t.Seconds), "Strokes only, without travel.")
	}
	add("basis", "These numbers rest on", w.basis(), "")
	return out
}

// inEach says of how many parts a figure of one part is.
func (w *worked) inEach() string {
	if n := w.plan.Gores(); n > 1 {
		return " in each of " + plural(n, "part")
	}
	return ""
}

func (w *worked) foldRange() (lo, hi float64) {
	lo = math.Inf(1)
	for _, f := range w.plan.Scores.Layout.Folds {
		lo, hi = math.Min(lo, math.Abs(f.Theta)), math.Max(hi, math.Abs(f.Theta))
	}
	return lo, hi
}

func angles(lo, hi float64) string {
	a, b := unit.Angle(lo), unit.Angle(hi)
	if a == b {
		return a
	}
	return strings.TrimSuffix(a, "°") + "-" + b
}

// limitRadius scales the tightest radius by the worst use.
func (w *worked) limitRadius() string {
	p := &w.plan
	k, _ := p.Section.Edge.Tightest()
	use := math.Max(p.Scores.Cracking.Value/p.Scores.Cracking.Allowed, p.Scores.Cracking.Bad)
	if p.Scores.Pinching.Score > 0 {
		use = math.Max(use, math.Max(p.Scores.Pinching.Value/p.Scores.Pinching.Allowed, p.Scores.Pinching.Bad))
	}
	return w.mm(use / k)
}

// scores says of every score where it is and what limits it.
func (w *worked) scores() []wire.ScoreView {
	p := &w.plan
	out := make([]wire.ScoreView, 0, len(p.Scores.Layout.Folds))
	for i := range p.Scores.Layout.Folds {
		f := &p.Scores.Layout.Folds[i]
		if f.U <= p.Outline.From || f.U >= p.Outline.To {
			continue
		}
		limit, use, near := w.limitOf(i)
		if w.held {
			out = append(out, wire.ScoreView{N: i + 1, U: math.Round(f.U*1000) / 1000, Near: near})
			continue
		}
		out = append(out, wire.ScoreView{N: i + 1, U: f.U, At: w.mm(f.U) + " from the foot",
			Fold: "folds " + unit.Angle(math.Abs(f.Theta)), Limit: limit + ", " + unit.Ratio(use) + " of it", Near: near})
	}
	return out
}

// limitOf returns what fold i is nearest to and how much of it is used up, and whether
// that is more than its factor allows.
func (w *worked) limitOf(i int) (limit string, use float64, near bool) {
	p := &w.plan
	f := &p.Scores.Layout.Folds[i]
	crack := f.State.Strain / p.V.Sheet.Rupture.Value
	if f.Closing {
		shut := 1 - f.State.MouthGap/p.V.Machine.ScoreWidth
		if shut/p.Scores.Pinching.Allowed > crack/p.Scores.Cracking.Allowed {
			return "pinching", shut, shut > p.Scores.Pinching.Allowed
		}
	}
	return "cracking", crack, crack > p.Scores.Cracking.Allowed
}

// cards sums up each card in one sentence.
func (w *worked) cards() map[string]string {
	v := w.plan.V
	p := &w.plan
	out := map[string]string{}
	sheet := v.Sheet.Stock.Name + ", " + w.mm(v.Sheet.T)
	if v.Sheet.Measured {
		sheet += " measured, " + plural(len(v.Sheet.Readings), "reading")
	} else {
		sheet += ", not measured"
	}
	out["sheet"] = sheet
	tool := map[machine.Tool]string{machine.Laser: "Laser", machine.Router: "Router", machine.Saw: "Saw", machine.Knife: "Knife"}[v.Machine.Tool]
	out["machine"] = tool + ", score " + w.mm(v.Machine.ScoreWidth) + " wide, " + plural(len(v.Machine.Depths), "depth") + " known, bed " +
		bare(w, v.Machine.BedWidth) + " by " + w.mm(v.Machine.BedHeight)
	out["strips"] = w.stripsSentence()
	out["curve"] = w.curveSentence() + w.farSentence()
	shape, width := w.shape()
	out["panel"] = shape + ", " + width + ", scored on the " + v.Panel.ScoredFace + " side"
	if p.Drawn {
		out["panel"] += ", " + plural(p.ScoresCut(), "score")
	}
	if p.Ruled() {
		out["rib"] = w.howManyRibs() + ", " + w.mm(v.Rib.Thickness) + " thick, " + w.mm(v.Rib.FootDepth) + " wide"
	} else {
		out["rib"] = w.howManyRibs() + " the " + v.Rib.Side + " side, " + w.mm(v.Rib.Thickness) + " thick, " + w.mm(v.Rib.FootDepth) + " deep at the foot, " +
			w.mm(v.Rib.TipDepth) + " at the tip"
	}
	out["cut"] = w.cutSentence()
	for _, s := range w.states { // what stands in for a figure in doubt is not the maker's
		if card, _, _ := strings.Cut(s.Path, "."); s.Problem != "" && out[card] != "" {
			out[card] = "Not all of its figures are known yet"
		}
	}
	return out
}

func bare(w *worked, v float64) string {
	return strings.TrimSuffix(w.mm(v), " "+w.plan.V.Units.String())
}

// farSentence goes on with the section at the far rib.
func (w *worked) farSentence() string {
	c := w.plan.V.Curve
	apart := ", " + w.mm(c.Apart) + " from rib to rib"
	switch c.Far {
	case design.Scaled:
		return ", over to " + unit.Percent(c.FarScale) + " of it" + apart
	case design.FarArc:
		return ", over to a radius of " + w.mm(c.FarRadius) + apart
	case design.Chain:
		return ", over to a chain of " + plural(len(c.FarPieces), "piece") + apart
	case design.Box:
		return ", over to a box of " + bare(w, c.FarWidth) + " by " + w.mm(c.FarHeight) + apart
	case design.Oval:
		return ", over to an oval of " + bare(w, c.FarWidth) + " by " + w.mm(c.FarHeight) + apart
	}
	return ""
}

func (w *worked) curveSentence() string {
	c := w.plan.V.Curve
	switch c.Kind {
	case design.RadiusAngle:
		return "An arc of radius " + w.mm(c.Radius) + " through " + unit.Angle(c.Angle)
	case design.SpanRise:
		return "An arc over a span of " + w.mm(c.Span) + ", rising " + w.mm(c.Rise)
	case design.LengthRadius:
		return "An arc " + w.mm(c.Length) + " long of radius " + w.mm(c.Radius)
	}
	switch c.Kind {
	case design.DrawnRound:
		if c.Drawn.Source == "" {
			return "All round a line drawn elsewhere"
		}
		return "All round a line drawn elsewhere, from " + c.Drawn.Source
	case design.Drawn:
		if c.Drawn.Source == "" {
			return "A line drawn elsewhere"
		}
		return "A line drawn elsewhere, from " + c.Drawn.Source
	case design.Points:
		return "A smooth curve through " + plural(len(c.Points), "point")
	case design.Box:
		return "All round a box of " + bare(w, c.BoxWidth) + " by " + w.mm(c.BoxHeight) + ", corners of " + w.mm(c.Corner)
	case design.Cone, design.ConePart:
		of := map[string]string{design.Inside: " inside", design.Outside: " outside", design.RingCut: " of its rings"}[c.Sizes]
		round := "All round a cone of "
		in := ""
		if w.plan.Gores() > 1 {
			in = ", in " + plural(w.plan.Gores(), "part")
		}
		if c.Kind == design.ConePart {
			round = unit.Angle(c.Sweep) + " of a cone of "
		}
		if c.Rims == design.BySlant {
			return round + w.mm(c.Large) + of + ", " + w.mm(c.Slant) + " along its slant, leaning by " + unit.Angle(c.Lean) + in
		}
		return round + bare(w, c.Small) + " and " + w.mm(c.Large) + of + ", " + w.mm(c.RimHeight) + " high" + in
	case design.Oval:
		return "All round an oval of " + bare(w, c.BoxWidth) + " by " + w.mm(c.BoxHeight)
	}
	return "A chain of " + plural(len(c.Pieces), "piece")
}

func (w *worked) cutSentence() string {
	p := &w.plan
	n := 0
	for _, g := range p.Lay.Sheets {
		n += len(g.Layout.Sheets)
	}
	if n == 0 {
		return w.plan.V.Name
	}
	return plural(n, "sheet") + " of " + bare(w, p.V.Machine.BedWidth) + " by " + w.mm(p.V.Machine.BedHeight)
}
