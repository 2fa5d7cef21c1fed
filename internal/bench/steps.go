package bench

import (
	"math"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/machine"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// steps is the order of work: cutting as the tool does it, then bending and gluing.
func (w writer) steps() Section {
	s := Section{ID: "steps", Title: "Order of work"}
	if !w.V.Machine.Tested && w.strips.Sheets() > 0 {
		s.Steps = append(s.Steps, Step{"strips", "Cut the test strips first", "Depth and width of the score are guesses until then. “" + stripsTitle + "” at the end says how to read them and where to write it."})
	}
	s.Steps = append(s.Steps, w.mask())
	s.Steps = append(s.Steps, w.cutting()...)
	s.Steps = append(s.Steps, w.clean()...)
	s.Steps = append(s.Steps, w.dry())
	s.Steps = append(s.Steps, w.feet()...)
	s.Steps = append(s.Steps, w.glue(), w.hold(), w.press())
	s.Figures = []Figure{w.together()}
	return s
}

// mask says how the face that will show is kept clean.
func (w writer) mask() Step {
	face := w.V.Panel.ShowFace
	down := w.Mirror // the scored face is the other one
	switch {
	case w.tool() != machine.Laser && !down:
		return Step{"mask", "Protect the show face", "The " + face + " face is scored and will show. Keep it clean, and try the tool on an offcut for torn edges."}
	case w.tool() == machine.Knife:
		return Step{"mask", "Protect the show face", "Lay the " + face + " face on clean board."}
	case w.tool() != machine.Laser:
		return Step{"mask", "Protect the show face", "Lay the " + face + " face on clean board, and back it where the tool may tear out."}
	case !down:
		return Step{"mask", "Mask the show face", "The " + face + " face is scored and will show. A mask keeps smoke off it but takes some of the depth: mask the test strips too."}
	}
	const raise = " Lay the sheet on strips at its margin: smoke and back-flash mark what touches the bed."
	switch w.family() {
	case stock.Plastic:
		return Step{"mask", "Mask and raise the show face", "Leave the film on the " + face + " face." + raise}
	case stock.Paper:
		return Step{"mask", "Raise the show face", "Lay the " + face + " face down without tape, which lifts the fibres of card." + raise}
	}
	return Step{"mask", "Mask and raise the show face", "Tape over the " + face + " face." + raise}
}

// cutting is the work at the tool.
func (w writer) cutting() []Step {
	var out []Step
	switch w.tool() {
	case machine.Saw:
		out = w.sawing()
	case machine.Knife:
		out = []Step{
			{"score", "Score along a steel rule", "Print the 1:1 template, check its bar and tape it on, or measure by the table of score positions. Make all scores before any cut."},
		}
		out = append(out, w.cutOuts()...)
		out = append(out, Step{"outline", "Cut the outlines last", "Cut on the lines of the template, and the " + w.ribs() + " a little outside the curve: work down to it."})
	default:
		how := w.sequence() + " What is free moves, so cuts come last."
		if m := w.V.Machine; w.tool() == machine.Router && math.Abs(m.ScoreWidth-m.Kerf) > 0.01*m.Kerf {
			how += " Scores are " + w.fit(m.ScoreWidth) + " wide, cuts " + w.kerfWidth() + ": change the cutter between them, and set its height again."
		}
		out = []Step{{"run", "Run the operations in this order", how}}
		if w.tool() == machine.Router && w.Base != nil && !w.V.Cut.Relief {
			out = append(out, Step{"corners", "Square the corners of the slots", "The cutter leaves them round by " + w.fit(w.V.Machine.Kerf/2) + ". File them square, or round the tenons to match."})
		}
	}
	return append(out, w.free()...)
}

// sequence is the order of operations that the file has.
func (w writer) sequence() string {
	s := ""
	for _, k := range []struct {
		kind cut.Kind
		what string
	}{{cut.Score, "scores"}, {cut.Mark, "marks"}, {cut.Inner, "inner cuts"}, {cut.Outer, "outer cuts"}} {
		switch {
		case !w.has(k.kind):
		case s == "":
			s = "All " + k.what
			if k.kind == cut.Score && w.V.Cut.EveryThird {
				s += ", every third line in three sweeps"
			}
		default:
			s += ", then the " + k.what
		}
	}
	return s + "."
}

// sawing scores a blank against the fence before anything is shaped.
func (w writer) sawing() []Step {
	b := w.Panel.Outline.Box()
	edge, _ := w.ends()
	blank := "Saw a square blank of " + w.mm(b.W()) + " by " + w.mm(b.H()) + ", and mark one end of it as the " + edge + "."
	if rectangular(w.Panel.Part) && len(w.Panel.Outline.Holes) == 0 {
		blank += " It is the panel itself."
	}
	score := "Set the fence to each figure of the table of fence positions, the " + edge + " against the fence, the scored face to the blade."
	if _, mirrored := w.settings(); mirrored {
		score += " Then turn the blank end for end, with the same face to the blade, for the second score of that setting."
	}
	return append([]Step{
		{"blank", "Cut a blank", blank},
		{"score", "Score against the fence", score},
		{"template", "Stick on the template", "Print it at 1:1, check its bar and stick it on for every other shape." + w.narrower()},
		{"outline", "Cut the outlines", "A straight blade cuts no curves. Take a fret saw or band saw to the " + w.ribs() + ", and work down to the line."},
	}, w.cutOuts()...)
}

// narrower says what the template's lines are for, as another blade leaves another edge.
func (w writer) narrower() string {
	kerf := w.V.Machine.Kerf
	if kerf <= 0 {
		return ""
	}
	return " Its lines stand " + w.fit(kerf/2) + " outside the finished edge, for a cut of " + w.kerfWidth() + ". For a narrower blade give the page that blade's cut first."
}

// cutOuts says how a saw or a knife comes by holes and slots.
func (w writer) cutOuts() []Step {
	saw := w.tool() == machine.Saw
	var out []Step
	if n := w.holes(); n > 0 {
		how := "Cut from each corner inward with the point of the blade, and round a curve in short strokes."
		if saw {
			how = "Drill into each and finish it with the fret saw; a table saw can't reach them."
		}
		out = append(out, Step{"holes", "Cut " + unit.Plural(n, "closed cut-out"), how})
	}
	if b := w.Base; b != nil {
		how := "Cut the long sides first, then the ends, and pare until the tenon goes in."
		if saw {
			how = "Drill inside the lines, fret from hole to hole and file until the tenon goes in."
		}
		out = append(out, Step{"slots", "Cut the slots of the base", unit.Plural(len(b.Slots), "slot") + " of " + w.fit(b.Slots[0].Width) + " by " + w.fit(b.Slots[0].Length) + ". " + how})
	}
	return out
}

// holes counts closed cut-outs that are no slots of the base.
func (w writer) holes() int {
	n := len(w.Panel.Outline.Holes)
	for _, r := range w.Ribs {
		n += len(r.Outline.Holes)
	}
	return n
}

// free says how parts come out of the sheet.
func (w writer) free() []Step {
	plastic, others := w.bridges()
	if plastic+others == 0 {
		return nil
	}
	n := unit.Plural(plastic+others, "bridge") + " of " + w.mm(w.V.Cut.BridgeWidth)
	if w.byHand() {
		return []Step{{"free", "Cut on through the bridges", n + " show as gaps in the template. They hold parts for a machine: by hand, cut on through them."}}
	}
	how := n + " hold parts in the sheet; none is on an edge that is glued."
	if others > 0 {
		how += " Cut them with a knife or a fine saw from both faces and pare the stubs."
	}
	if plastic > 0 {
		which := "them"
		if others > 0 {
			which = "those of plastic"
		}
		how += " Saw " + which + " with a fine blade and file the stubs: bending or snapping them off starts cracks."
	}
	return []Step{{"free", "Cut the bridges", how}}
}

// clean clears the scores and readies the edge that is glued.
func (w writer) clean() []Step {
	var out []Step
	shut := "."
	if w.closes() {
		shut = ". A crumb in a score of " + w.fit(w.V.Machine.ScoreWidth) + " stops it from closing."
	}
	laser := w.tool() == machine.Laser
	switch {
	case w.Scores() == 0 || w.tool() == machine.Knife:
	case w.family() == stock.Plastic:
		out = append(out, Step{"brush", "Brush the scores", "Clear every score of crumbs with a soft dry brush" + shut + " Use no cleaner and no solvent."})
	case laser:
		out = append(out, Step{"brush", "Brush the scores", "Clear every score of char and dust with a stiff brush or a thread drawn through" + shut})
	default:
		out = append(out, Step{"brush", "Brush the scores", "Clear every score of dust and chips with a stiff brush" + shut})
	}
	for _, f := range w.ribFamilies() {
		switch {
		case f == stock.Plastic:
			out = append(out, Step{"scrape", "Ready the plastic rib's edge", "Peel the film where panel and rib meet, file off what stands proud, square to the face, and wipe both dry."})
		case laser:
			out = append(out, Step{"scrape", "Scrape the rib's edge", "Take the char off the edge that will be glued, no more than a shaving, square to the face. Glue does not hold on char."})
		default:
			out = append(out, Step{"scrape", "Smooth the rib's edge", "Take fuzz and tool marks off the edge that will be glued, no more than a shaving, square to the face."})
		}
	}
	return out
}

// dry says how the panel is bent the first time.
func (w writer) dry() Step {
	if w.Scores() == 0 {
		return Step{"dry", "Dry-fit", "Lay the panel on the " + w.ribs() + ". It stays flat and must touch all along."}
	}
	how := "Bend the panel over the " + w.ribs() + " by hand from the foot, a few scores at a time."
	switch {
	case w.Closed:
		how = "Wrap the panel round the " + w.ribs() + " by hand from the seam, a few scores at a time."
	case w.V.Rib.Side == design.Round:
		how = "Bend the panel into the " + w.ribs() + " by hand from the foot, a few scores at a time."
	}
	how += " Its " + unit.Plural(w.Scores(), "score") + " turn by up to " + unit.Angle(w.fold()) + " each."
	stop := " Stop at any crackle."
	if w.family() == stock.Plastic {
		stop = " Stop at any click or whitening."
	}
	return Step{"dry", "Dry-fit", how + stop + w.farEdge()}
}

// near is what an end may miss by before it is spoken of, mm: what a ruler shows.
const nearEnough = 0.5

// farEdge says where the end of the panel must come to.
func (w writer) farEdge() string {
	over := w.To - w.Layout.Length
	switch {
	case w.Closed:
		return w.seamEnd()
	case over > nearEnough:
		return " Its end runs " + w.mm(over) + " past the end of the curve."
	case over < -nearEnough:
		return " Its end lies " + w.mm(-over) + " short of the end of the curve."
	}
	return " Its end must come to the end of the curve."
}

func (w writer) seamEnd() string {
	over := w.Length - w.Layout.Length
	switch {
	case w.V.Curve.Seam == design.Lap && over > 0:
		return " Its end must lap over its start by " + w.mm(over) + "."
	case over > 0.005:
		return " Its end comes past its start by " + w.mm(over) + ": mark it there, and trim it to meet."
	case over < -0.005:
		return " Its end stops " + w.mm(-over) + " short of its start."
	}
	return " Its end must meet its start."
}

// feet stands ribs in a base, or in what they were made for.
func (w writer) feet() []Step {
	var out []Step
	stub := false
	for _, s := range w.Supports {
		stub = stub || s.Foot == design.Stub && s.Task.Stub != nil
	}
	if stub {
		t := w.Supports[0]
		out = append(out, Step{"stub", "Try the stubs", "Each stub is " + w.fit(t.Thickness) + " by " + w.fit(w.V.Rib.StubWidth) + " and goes in by " + w.fit(w.V.Rib.StubDepth) + ". Try one dry in what the rib stands on."})
	}
	b := w.Base
	if b == nil {
		return out
	}
	take := " take tenons of "
	if len(b.Slots) == 1 {
		take = " takes a tenon of "
	}
	how := unit.Plural(len(b.Slots), "slot") + " of " + w.fit(b.Slots[0].Width) + " by " + w.fit(b.Slots[0].Length) + take +
		w.fit(b.Slots[0].Width-w.V.Rib.Fit) + " by " + w.fit(b.Slots[0].Length-w.V.Rib.Fit) + "."
	for _, s := range b.Slots {
		if math.Abs(s.Width-b.Slots[0].Width) > 0.005 || math.Abs(s.Length-b.Slots[0].Length) > 0.005 {
			how = unit.Plural(len(b.Slots), "slot") + " take the tenons; each is " + w.fit(w.V.Rib.Fit) + " wider and longer than its tenon."
		}
	}
	if w.V.Rib.Fit < 0 {
		how += " They are a press fit: try one dry, and stop if the sheet starts to split."
	} else {
		how += " Try one dry: it goes in by hand and stands by itself."
	}
	return append(out, Step{"base", "Stand the ribs in the base", how + " Glue the shoulders down, square to the base, when the panels have been fitted dry."})
}

// glue says where the glue goes and where to start.
func (w writer) glue() Step {
	how := ""
	switch {
	case len(w.Supports) > 1 || math.Abs(w.Mark.Across) > nearEnough:
		how = "The table of rib lines says where each goes, and how far it is glued."
		if w.Mark.Turned {
			how = "Rule the rib lines by hand on the face that meets the " + w.ribs() + ": the table says where."
		}
	case w.Mark.Turned:
		how = "Rule the rib's line down the middle of the face that meets it, by hand."
	default:
		how = "The marked line shows where the rib goes."
	}
	step := Step{"foot", "Glue the foot first", ""}
	if w.Closed {
		step = Step{"seam", "Glue from the seam", ""}
		how += " Start at the seam and glue all round, a few scores at a time."
		if w.V.Curve.Seam == design.Lap && w.Length > w.Layout.Length {
			how += " Glue the lap last."
		}
	} else {
		if len(w.Supports) == 1 {
			how += " Glue along its edge from the foot to " + w.mm(w.Mark.To-w.From) + " along the panel."
		}
		start := "foot"
		if w.Hold.FootStraight >= 1 {
			start = "straight foot"
		}
		how += " Set the " + start + " first, let it grab, then roll the panel on toward the tip."
		if w.Mark.Gap > 0.005 {
			how += " The last " + w.mm(w.Mark.Free) + " stay free and stand off by " + w.mm(w.Mark.Gap) + "."
		}
	}
	if w.plasticGlued() {
		how += " Use a glue whose label names this plastic, and keep solvent out of the scores: it crazes bent plastic."
	}
	step.How = how
	return step
}

// plasticGlued tells whether panel or ribs are of plastic.
func (w writer) plasticGlued() bool {
	if w.family() == stock.Plastic {
		return true
	}
	for _, f := range w.ribFamilies() {
		if f == stock.Plastic {
			return true
		}
	}
	return false
}

// hold says how hard the free end pulls.
func (w writer) hold() Step {
	if w.Closed {
		return Step{"hold", "Hold the seam", "The ends at the seam pull with about " + unit.Mass(w.Hold.EndForce, w.V.Units) + ". Hold them for as long as your glue's label says to full strength."}
	}
	return Step{"hold", "Hold it down", "The free end pulls with about " + unit.Mass(w.Hold.EndForce, w.V.Units) + ". Tape or clamp it, spread over the width, for as long as your glue's label says to full strength."}
}

// press says what holds the panel on while the glue sets.
func (w writer) press() Step {
	const stops = " A stop at the foot and one at the tip keep it from sliding."
	switch {
	case w.Closed:
		return Step{"caul", "Bind it all round", "Draw tape, cord or a band clamp round at each rib, over soft pads so that no flat is dented. See that every flat sits before the glue grabs."}
	case w.Caul != nil && w.V.Rib.CaulPad > 0:
		return Step{"caul", "Press with the caul", "Lay a pad of " + w.mm(w.V.Rib.CaulPad) + " on the panel and clamp the caul over the rib." + stops}
	case w.Caul != nil:
		return Step{"caul", "Press with the caul", "Clamp the caul over the rib, with paper between so that no glue holds it." + stops}
	}
	return Step{"caul", "Caul and stops", "Press with a strip bent to the same curve, or soft pads under the clamps, so that no clamp dents a flat." + stops}
}

// lines is the table of rib lines, for ribs that do not stand on the middle alone.
func (w writer) lines() []Section {
	if len(w.Supports) < 2 && math.Abs(w.Mark.Across) <= nearEnough {
		return nil
	}
	s := Section{ID: "lines", Title: "Rib lines", Table: &Table{Head: []string{"Part", "From the middle", "Glue it to, from the foot edge"}}}
	edge, _ := w.ends()
	s.Lines = []string{"As you look at the face that meets the " + w.ribs() + ", the " + edge + " toward you."}
	if w.Closed {
		s.Table.Head = s.Table.Head[:2]
	}
	for _, sup := range w.Supports {
		row := []string{w.Ribs[sup.Kind].Name, w.side(sup.Across)}
		if !w.Closed {
			row = append(row, w.mm(sup.Mark.To-w.From))
		}
		s.Table.Rows = append(s.Table.Rows, row)
	}
	return []Section{s}
}

// side writes a place across the panel as it looks on the face that meets the rib. The
// outline is seen from the show face, where across grows to the left of the bend; the rib
// meets that face unless just one of scored face up and rib on the scored face holds.
func (w writer) side(across float64) string {
	at := w.mm(math.Abs(across))
	switch {
	case math.Abs(across) < 0.005:
		return "in the middle"
	case (across > 0) == (w.Towards != w.Mirror):
		return at + " to the left"
	}
	return at + " to the right"
}
