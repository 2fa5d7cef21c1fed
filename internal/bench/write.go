package bench

import (
	"math"
	"strconv"
	"strings"

	"springrib/internal/design"
	"springrib/internal/machine"
	"springrib/internal/part"
	"springrib/internal/plan"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

type writer struct{ p *plan.Plan }

func (w writer) mm(v float64) string { return unit.Length(v, w.p.V.Units) }

func (w writer) lead() string {
	p := w.p
	return "A panel of " + p.V.Sheet.Stock.Name + ", " + plural(p.Scores(), "score") + ", bent over a radius of " + w.mm(w.tightest()) +
		" at its tightest. Score, mark, cut, bend by hand, glue from the foot."
}

func (w writer) tightest() float64 {
	k, _ := w.p.Edge.Tightest()
	return 1 / k
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return strconv.Itoa(n) + " " + word + "s"
}

// parts says what is cut from what, with a picture of each.
func (w writer) parts() Section {
	s := Section{ID: "parts", Title: "What to cut from what", Table: &Table{Head: []string{"Part", "How many", "From", "Thickness", "Size, laid flat"}}}
	for _, g := range w.p.Sheets {
		for _, pt := range g.Parts {
			b := pt.Outline.Box()
			s.Table.Rows = append(s.Table.Rows, []string{pt.Name, strconv.Itoa(max(1, pt.Quantity)), g.From.Stock.Name, w.mm(g.From.Thickness), w.mm(b.W()) + " by " + w.mm(b.H())})
			s.Figures = append(s.Figures, Figure{ID: "part-" + pt.ID, Caption: pt.Name, Strokes: partStrokes(pt)})
		}
	}
	s.Lines = append([]string{"On " + plural(len(w.p.Jobs), "sheet") + " of " + w.mm(w.p.V.Machine.BedWidth) + " by " + w.mm(w.p.V.Machine.BedHeight) + "."}, w.laying()...)
	if w.p.Mirror {
		s.Lines = append(s.Lines, "The panel is drawn turned over: lay the sheet with the face that will show down.")
	} else {
		s.Lines = append(s.Lines, "Lay the sheet with the face that is scored up.")
	}
	return s
}

func partStrokes(pt part.Part) []Stroke {
	var out []Stroke
	for _, p := range pt.Outline.Paths() {
		out = append(out, Stroke{"cut", p})
	}
	for _, wk := range pt.Work {
		if wk.Score > 0 {
			out = append(out, Stroke{"score", wk.Path})
		}
	}
	return out
}

// machine is the table that is set at the machine.
func (w writer) machine() Section {
	v := w.p.V
	m := v.Machine
	t := w.p.Try()
	tool := map[machine.Tool]string{machine.Laser: "laser", machine.Router: "router", machine.Saw: "saw", machine.Knife: "knife"}[m.Tool]
	s := Section{ID: "machine", Title: "The machine", Table: &Table{Head: []string{"Operation", "How often", "Speed", "Colour in the file"}}}
	s.Lines = []string{
		"Set for a " + tool + ": score " + w.mm(m.ScoreWidth) + " wide, through cut " + w.mm(m.Kerf) + " wide.",
		"Scores go " + w.mm(v.Sheet.T-t.Skin) + " deep in " + plural(t.Passes, "pass") + " and leave " + w.mm(t.Skin) + " of skin in a sheet of " + w.mm(v.Sheet.T) + ".",
		"Every score runs " + w.mm(w.p.Overrun) + " past the edge at both ends.",
	}
	if w.p.Overrun < 0.005 {
		s.Lines[2] = "Every score ends at the edge."
	}
	s.Lines[1] = strings.Replace(s.Lines[1], "passs", "passes", 1)
	for _, o := range w.p.Operations() {
		speed := "as you know it"
		if o.Speed > 0 {
			speed = unit.Speed(o.Speed, v.Units)
		}
		s.Table.Rows = append(s.Table.Rows, []string{o.Name, strconv.Itoa(max(1, o.Passes)), speed, o.Colour})
	}
	total := 0.0
	for _, e := range w.p.Times {
		total += e.All.Total()
	}
	if total > 0 {
		s.Lines = append(s.Lines, "About "+unit.Time(total)+" of machine time for all sheets.")
	}
	if c := v.Cut; c.SheetPrice > 0 || c.HourPrice > 0 {
		n, others := w.bought()
		line := "At your prices: " + strings.TrimSpace(c.Currency+" "+unit.Decimal(c.SheetPrice*float64(n)+c.HourPrice*total/3600, 2)) +
			" for " + plural(n, "sheet") + " of " + v.Sheet.Stock.Name + " and the machine's time."
		if others > 0 {
			line += " Sheets of other stocks are not in it."
		}
		s.Lines = append(s.Lines, line)
	}
	return s
}

// strips says what the numbers rest on.
func (w writer) strips() Section {
	v := w.p.V
	s := Section{ID: "strips", Title: "What these numbers rest on"}
	yes := func(ok bool, tested, not string) {
		if ok {
			s.Lines = append(s.Lines, tested)
		} else {
			s.Lines = append(s.Lines, not)
		}
	}
	yes(v.Sheet.Measured, "Thickness: "+plural(len(v.Sheet.Readings), "reading")+", "+w.mm(v.Sheet.T)+".", "Thickness: not measured. Measure five places before you cut.")
	yes(v.Machine.Tested, "Depth and width of the score: from test strips.", "Depth and width of the score: not from test strips. Cut a depth strip of this sheet first.")
	if l := w.p.Learned; l != nil && l.OverBed.N > 0 {
		s.Lines = append(s.Lines, "Depth over the bed: within "+unit.LengthFine(v.Machine.DepthSpread, v.Units)+" of the mean, from strips cut at "+plural(l.OverBed.N, "place")+".")
	}
	yes(v.Sheet.StrainTested, "Strain at which the skin breaks: from a bend strip.", "Strain at which the skin breaks: a handbook figure. Bend a test strip to the radius you want before the real panel.")
	if l := w.p.Learned; w.p.Base != nil && l != nil && l.Clearance.N > 0 && !v.Rib.FitTyped {
		s.Lines = append(s.Lines, "Slots of the base: "+unit.LengthFine(v.Rib.Fit, v.Units)+" wider than the rib, from your fit strip.")
	}
	s.Lines = append(s.Lines, "Cracking: "+unit.Ratio(w.p.Cracking.Value)+" of the limit, "+unit.Ratio(w.p.Cracking.Allowed)+" allowed."+w.pinching())
	return s
}

func (w writer) pinching() string {
	if w.p.Pinching.Score == 0 {
		return " The scores open as they bend and can't pinch."
	}
	return " Pinching: " + unit.Ratio(w.p.Pinching.Value) + " of the limit, " + unit.Ratio(w.p.Pinching.Allowed) + " allowed."
}

// steps is the order of work.
func (w writer) steps() Section {
	p := w.p
	v := p.V
	s := Section{ID: "steps", Title: "Order of work"}
	add := func(id, what, how string) { s.Steps = append(s.Steps, Step{id, what, how}) }
	if v.Machine.Tool == machine.Laser {
		add("mask", "Mask and raise the show face", "Tape over the "+v.Panel.ShowFace+" face, and lay the sheet on strips at its margin so that it does not touch the bed: smoke and back-flash mark what lies on it.")
	} else {
		add("mask", "Protect the show face", "Lay the "+v.Panel.ShowFace+" face on clean board, and back it where the tool may tear out.")
	}
	add("run", "Run the operations in this order", "All scores"+w.sweeps()+", then the marks, then inner cuts, then outer cuts: what is free moves.")
	if n := w.bridges(); n > 0 {
		add("free", "Cut the bridges", plural(n, "bridge")+" of "+w.mm(v.Cut.BridgeWidth)+" hold parts in the sheet. Cut them with a knife from both faces and pare the stubs; none is on an edge that is glued.")
	}
	add("brush", "Brush the kerfs", "Clear every kerf of char and dust with a stiff brush or a thread drawn through: a crumb in a kerf of "+w.mm(v.Machine.ScoreWidth)+" stops it from closing.")
	add("scrape", "Scrape the rib's edge", "Take the char off the edge that will be glued, no more than a shaving, square to the face; glue does not hold on char.")
	add("dry", "Dry-fit", "Bend the panel over the rib by hand from the foot, a few scores at a time, "+plural(p.Scores(), "score")+" of about "+unit.Angle(w.fold())+" each. Stop at any crackle. "+w.farEdge())
	if b := p.Base; b != nil {
		add("base", "Stand the ribs in the base", plural(len(b.Slots), "slot")+" of "+w.mm(b.Slots[0].Width)+" by "+w.mm(b.Slots[0].Length)+" take tenons of "+w.tenon()+
			". Try one dry: it goes in by hand and stands by itself. Glue the shoulders down, square to the base, when the panels have been fitted dry.")
	}
	add("foot", "Glue the foot first", w.glue())
	add("hold", "Hold it down", "The free end pulls with about "+unit.Mass(p.Hold.EndForce, v.Units)+". Tape or clamp it, spread over the width, and hold it for as long as your glue's label says to full strength.")
	add("caul", "Caul and stops", "Press with a strip bent to the same curve, or soft pads under the clamps, so that no clamp dents a flat; a stop at the foot and one at the tip keep it from sliding.")
	return s
}

// tenon is the size of the first tenon, as its slot is the first.
func (w writer) tenon() string {
	for _, s := range w.p.Supports {
		if s.Foot == design.Tenon {
			return w.mm(s.Thickness) + " by " + w.mm(s.Task.Stub.Width)
		}
	}
	return ""
}

// farEdge says where the end of the panel must come to.
func (w writer) farEdge() string {
	switch over := w.p.Length - w.p.Layout.Length; {
	case !w.p.Closed:
		return "The far edge must come to the end of the curve."
	case w.p.V.Curve.Seam == design.Lap:
		return "Its end must lap over its start by " + w.mm(over) + "."
	case over > 0.005:
		return "Its end comes past its start by " + w.mm(over) + ": mark it there, and trim it to meet."
	}
	return "Its end must meet its start."
}

func (w writer) sweeps() string {
	if w.p.V.Cut.EveryThird {
		return ", every third line in three sweeps"
	}
	return ""
}

func (w writer) fold() float64 {
	most := 0.0
	for _, f := range w.p.Layout.Folds {
		most = math.Max(most, math.Abs(f.Theta))
	}
	return most
}

func (w writer) glue() string {
	p := w.p
	how := "Glue along the rib's edge from the foot to " + w.mm(p.Mark.To) + " along the panel. Set the straight foot first, let it grab, then roll the panel on toward the tip."
	if p.Mark.Turned {
		how = "Rule the rib's line down the panel by hand. " + how
	} else {
		how = "The marked line shows where the rib goes. " + how
	}
	if len(p.Supports) > 1 {
		how = "Each rib has its own line; rib by rib: "
		for i, s := range p.Supports {
			if i > 0 {
				how += "; "
			}
			how += p.Ribs[s.Kind].Name + " " + w.mm(s.Across) + " across, to " + w.mm(s.Mark.To) + " along"
		}
		how += ". Set the straight foot on all of them first, let it grab, then roll the panel on toward the tip."
		if p.Mark.Turned {
			how = "Rule the lines down the panel by hand. " + how
		}
	}
	if e := p.FootEnd; e.Gap > 0.005 {
		how += " The first " + w.mm(e.Free) + " stay free and stand off by " + w.mm(e.Gap) + "."
	}
	if e := p.TipEnd; e.Gap > 0.005 {
		how += " The last " + w.mm(e.Free) + " stay free and stand off by " + w.mm(e.Gap) + "."
	}
	if p.Closed {
		how = "Start at the seam, in the middle of a side; go all round; trim or lap the end. " + how
	}
	return how
}

// proof says how to know that it worked.
func (w writer) proof() Section {
	p := w.p
	pts, span, rise := Profile(p)
	s := Section{ID: "proof", Title: "How to know that it worked"}
	size := "Outer face after gluing: span " + w.mm(span) + ", rise " + w.mm(rise) + ", measured from edge to edge."
	if p.Closed {
		box := plane.BoxOf(pts...)
		size = "Outer face after gluing: " + w.mm(box.W()) + " by " + w.mm(box.H()) + " over all, away from the seam."
	}
	s.Lines = []string{size, "No flat stands more than " + w.mm(p.V.Panel.StandOff) + " off the rib; a strip of paper does not pass under it."}
	if !p.Closed { // a former is a plate: it does not bend
		s.Lines = append(s.Lines, "When you let go the rib may give by about "+w.mm(p.Hold.Rib.Movement)+" at its tip.")
	}
	s.Lines = append(s.Lines, "Hold the piece against this profile of its outer face.")
	s.Figures = []Figure{{ID: "profile", Caption: "Outer face, bent", Exact: true, Strokes: []Stroke{{"profile", plane.Open(pts...)}}}}
	return s
}

// Profile returns the face away from the rib of the panel as it lies, corner by corner from
// the foot, the distance between its ends and its greatest height over the line through
// them, mm.
func Profile(p *plan.Plan) (pts []plane.Point, span, rise float64) {
	span, rise = p.Measure()
	return p.Face(p.V.Sheet.T), span, rise
}

// trouble says what to do when it goes wrong.
func (w writer) trouble() Section {
	p := w.p
	s := Section{ID: "trouble", Title: "When it cracks, pinches or stands off"}
	more := len(p.Layout.Folds)*5/4 + 1
	s.Steps = []Step{
		{"cracks", "It crackles or cracks", "Stop. Let it back, and work thin glue into the crack if the piece is to be saved. For the next one: more scores (" + strconv.Itoa(more) + " instead of " + strconv.Itoa(len(p.Layout.Folds)) + "), a larger radius, or a thinner skin; type the radius at which it broke as a bend strip."},
		{"pinches", "The kerfs pinch shut", "The panel goes stiff at once: don't force it, the skin is what gives way. Brush the kerfs out; if they are clean, score wider or closer. Each mouth has " + w.mm(p.V.Machine.ScoreWidth) + " to close."},
		{"stands-off", "It stands off the rib", "Look for glue set too soon, char on the edge, or a sheet thicker than " + w.mm(p.V.Sheet.T) + ". Up to " + w.mm(p.V.Panel.StandOff) + " of flat height is planned and fills with glue."},
	}
	return s
}

// finish comes after bending.
func (w writer) finish() Section {
	return Section{ID: "finish", Title: "Finish after bending", Lines: []string{
		"Sand and paint or oil only when the glue is hard: a finish in the kerfs keeps glue out, and a film on the skin cracks as it bends.",
		"Water-based finish swells the skin from one side: seal both faces.",
		"Fill open kerfs, if they show, with what stays soft or with glue while it is held.",
	}}
}
