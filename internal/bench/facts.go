package bench

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"springrib/internal/coupon"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/plane"
	"springrib/internal/stock"
	"springrib/internal/strips"
	"springrib/internal/support"
	"springrib/internal/unit"
)

// writer writes a plan down, with what sheet.txt asks about it.
type writer struct {
	p       *plan.Plan
	v       *design.Values
	strips  strips.Set
	profile Figure
	at      []place // to score, see settings
	facts   map[string]bool
	figures map[string]string
}

func newWriter(p *plan.Plan) *writer {
	return &writer{p: p, v: &p.V, facts: map[string]bool{}, figures: map[string]string{}}
}

func (w *writer) mm(v float64) string { return unit.Length(v, w.v.Units) }

// fit is a length that a fit or a depth hangs on.
func (w *writer) fit(v float64) string { return unit.LengthFit(v, w.v.Units) }

// figure is fit without its unit, for a table that names the unit once.
func (w *writer) figure(v float64) string {
	return strings.TrimSuffix(w.fit(v), " "+w.v.Units.String())
}

// when sets a fact, put a figure.
func (w *writer) when(fact string, holds bool)             { w.facts[fact] = holds }
func (w *writer) put(figure, text string)                  { w.figures[figure] = text }
func (w *writer) putMM(figure string, mm float64)          { w.figures[figure] = w.mm(mm) }
func (w *writer) putFit(figure string, mm float64)         { w.figures[figure] = w.fit(mm) }
func (w *writer) count(figure string, n int, thing string) { w.figures[figure] = unit.Plural(n, thing) }

// nearEnough is what an end may miss by before it is spoken of, mm: what a ruler shows.
const nearEnough = 0.5

// read finds every fact and figure.
func (w *writer) read() {
	w.strips = w.p.TestStrips()
	w.ofTool()
	w.ofPanel()
	w.ofCuts()
	w.ofBend()
	w.ofRibs()
	w.ofProof()
	w.ofStrips()
}

// ofTool finds what the cautions hang on: the tool and the sheets.
func (w *writer) ofTool() {
	tools := [...]string{machine.Laser: "laser", machine.Router: "router", machine.Saw: "saw", machine.Knife: "knife"}
	tool := w.v.Machine.Tool
	for t, name := range tools {
		w.when(name, machine.Tool(t) == tool)
	}
	w.put("tool", tools[tool])
	w.when("cone", w.p.Section.Cone != nil)
	w.when("bevel", w.v.Rib.Edge == design.Bevel)
	w.when("skin", w.p.Section.Pair != nil)
	w.when("ruled", w.p.Ruled())
	w.when("hub", hub(w.p))
	w.when("gores", w.p.Gores() > 1)
	w.put("gores", unit.Plural(w.p.Gores(), "part"))
	w.when("ring", w.p.Section.Cone != nil && w.p.Section.Closed)
	w.when("hand", tool == machine.Saw || tool == machine.Knife) // nothing reads a cut file there
	wood, plastic := false, false
	for _, from := range w.p.Stocks() {
		s := from.Stock
		wood = wood || s.Family == stock.Fibreboard || s.Family == stock.Plywood
		plastic = plastic || s.Family == stock.Plastic
	}
	w.when("anywood", wood)
	w.when("anyplastic", plastic)
}

// hub tells whether a ring has a hole for a lamp holder.
func hub(p *plan.Plan) bool {
	return slices.ContainsFunc(p.Supports.All, func(s support.Support) bool { return s.Task.Hub != nil })
}

// notes adds what is known of each stock in use.
func (w *writer) notes(s *Section) {
	said := map[string]bool{}
	for _, from := range w.p.Stocks() {
		notes := from.Stock.Notes
		if w.is("laser") {
			notes = append(append([]string{}, notes...), from.Stock.BeamNotes...)
		}
		for _, n := range notes {
			if !said[n] {
				said[n] = true
				s.Lines = append(s.Lines, n)
			}
		}
	}
}

// other is the other face.
func other(face string) string {
	if face == design.Hollow {
		return design.Round
	}
	return design.Hollow
}

// ofPanel finds what there is to say of the panel's sheet and its faces.
func (w *writer) ofPanel() {
	p, v := w.p, w.v
	family := v.Sheet.Stock.Family
	w.when("plastic", family == stock.Plastic)
	w.when("paper", family == stock.Paper)
	w.when("wood", family != stock.Plastic && family != stock.Paper)
	w.when("closed", p.Section.Closed)
	w.when("scored", p.ScoresCut() > 0)
	w.when("closes", p.Scores.Pinching.Score > 0)
	w.when("down", p.Panel.Mirror) // the scored face is up and the other one will show
	show, scored := v.Panel.ShowFace, v.Panel.ShowFace
	if p.Panel.Mirror {
		scored = other(show)
	}
	w.put("show", show)
	w.put("scoredface", scored)
	w.when("opens", !p.Panel.Mirror || scored == design.Round)
	edge, _ := w.ends()
	w.put("edge", edge)
	w.put("stock", v.Sheet.Stock.Name)
	w.put("grain", unit.Angle(v.Sheet.GrainToScores))
	w.when("grained", v.Sheet.Grained && v.Cut.Turns != design.TurnQuarter)
	w.when("grainacross", v.Sheet.GrainToScores > 80*math.Pi/180)
	w.when("graindown", v.Sheet.GrainToScores < 10*math.Pi/180)
	w.count("scores", p.ScoresCut(), "score")
	w.put("fold", unit.Angle(w.fold()))

	w.when("measured", v.Sheet.Measured)
	w.when("tested", v.Machine.Tested)
	w.when("strained", v.Sheet.StrainTested)
	w.count("readings", len(v.Sheet.Readings), "reading")
	l := p.Readings.Learned
	w.when("overbed", l != nil && l.OverBed.N > 0)
	w.when("fitted", l != nil && l.Clearance.N > 0 && p.Base != nil && !v.Rib.FitTyped)
	w.put("spread", unit.LengthFine(v.Machine.DepthSpread, v.Units))
	if l != nil {
		w.count("places", l.OverBed.N, "place")
	} else {
		w.put("places", "")
	}
}

// fold is the sharpest fold of all scores.
func (w *writer) fold() float64 {
	most := 0.0
	for i := range w.p.Scores.Layout.Folds {
		most = math.Max(most, math.Abs(w.p.Scores.Layout.Folds[i].Theta))
	}
	return most
}

// ofCuts finds what there is to say of scores, cuts and bridges.
func (w *writer) ofCuts() {
	p, v, m := w.p, w.v, &w.v.Machine
	t := &p.Scores.Tries[p.Scores.Chosen]
	w.putFit("width", m.ScoreWidth)
	w.putFit("depth", v.Sheet.T-t.Skin)
	w.putFit("skin", t.Skin)
	w.putFit("thickness", v.Sheet.T)
	w.count("passes", t.Passes, "pass")
	w.when("overrun", p.Panel.Overrun >= 0.005)
	w.putMM("overrun", p.Panel.Overrun)
	// A cutter and a beam are known to the last figure.
	w.when("kerf", m.Kerf > 0)
	w.put("kerf", unit.LengthFine(m.Kerf, v.Units))
	w.putFit("half", m.Kerf/2)
	w.when("twocutters", math.Abs(m.ScoreWidth-m.Kerf) > 0.01*m.Kerf)
	w.when("relief", v.Cut.Relief)
	w.sequence()

	b := p.Panel.Flat.Outline.Box()
	w.put("blank", w.mm(b.W())+" by "+w.mm(b.H()))
	w.when("plain", len(p.Panel.Flat.Outline.Holes) == 0 && rectangular(p.Panel.Flat.Outline.Outer))
	holes := len(p.Panel.Flat.Outline.Holes)
	for i := range p.Ribs.Kinds {
		holes += len(p.Ribs.Kinds[i].Outline.Holes)
	}
	w.when("holes", holes > 0)
	w.count("holes", holes, "closed cut-out")

	plastic, others := w.bridges()
	w.when("bridges", plastic+others > 0)
	w.when("bridgeplastic", plastic > 0)
	w.when("bridgeother", others > 0)
	w.put("bridges", unit.Plural(plastic+others, "bridge")+" of "+w.mm(v.Cut.BridgeWidth))

	var failed []string
	for i := range p.Lay.Sheets {
		for k := range p.Lay.Sheets[i].Parts {
			if pt := &p.Lay.Sheets[i].Parts[k]; pt.Allowance.Failed {
				failed = append(failed, pt.Name)
			}
		}
	}
	w.when("failed", len(failed) > 0)
	w.put("failed", unit.List(failed))
	w.costs()

	mirrored := false
	w.at, mirrored = w.settings()
	w.when("mirrored", mirrored)
	w.when("odd", p.ScoresCut()%2 == 1)
	w.count("settings", len(w.at), "setting")
}

// sequence is the order of operations that the files have.
func (w *writer) sequence() {
	words := [...]string{cut.Score: "scores", cut.Mark: "marks", cut.Inner: "inner cuts", cut.Outer: "outer cuts"}
	s := ""
	for _, o := range w.p.Lay.Operations() {
		switch {
		case s != "":
			s += ", then the " + words[o.Kind]
		default:
			s = "All " + words[o.Kind]
			if o.Kind == cut.Score && w.v.Cut.EveryThird {
				s += ", every third line in three sweeps"
			}
		}
	}
	w.put("sequence", s)
}

// costs finds sheets, time and prices.
func (w *writer) costs() {
	total, bought, others := 0.0, 0, 0
	for i := range w.p.Lay.Times {
		total += w.p.Lay.Times[i].All.Total()
	}
	for i := range w.p.Lay.Beds { // a scrap costs nothing
		switch {
		case !w.p.Lay.Froms[i].Own:
			others++
		case len(w.p.Lay.Beds[i].Outer.Segs) == 0:
			bought++
		}
	}
	c := &w.v.Cut
	w.when("time", total > 0)
	w.put("time", unit.Time(total))
	w.when("price", c.SheetPrice > 0 || c.HourPrice > 0)
	w.put("price", strings.TrimSpace(c.Currency+" "+unit.Decimal(c.SheetPrice*float64(bought)+c.HourPrice*total/3600, 2)))
	w.count("bought", bought, "sheet")
	w.when("othersheets", others > 0)
	w.put("sheets", unit.Plural(len(w.p.Lay.Jobs), "sheet")+" of "+w.mm(w.v.Machine.BedWidth)+" by "+w.mm(w.v.Machine.BedHeight))
}

// rectangular tells whether an outline is a plain rectangle.
func rectangular(p plane.Path) bool {
	b := p.Box()
	return len(p.Segs) == 4 && math.Abs(math.Abs(p.Area())-b.W()*b.H()) < 1e-6*b.W()*b.H()
}

// bridges counts the bridges on all sheets: pieces of outer cuts that do not close. They
// are told apart by whether the part is of plastic.
func (w *writer) bridges() (plastic, others int) {
	brittle := map[string]bool{}
	for i := range w.p.Lay.Sheets {
		g := &w.p.Lay.Sheets[i]
		for k := range g.Parts {
			brittle[g.Parts[k].ID] = g.From.Stock.Family == stock.Plastic
		}
	}
	for i := range w.p.Lay.Jobs {
		for _, o := range w.p.Lay.Jobs[i].Operations {
			if o.Kind != cut.Outer {
				continue
			}
			for k := range o.Strokes {
				id, _, _ := strings.Cut(o.Strokes[k].Part, " ") // "rib1 2" is the second copy of rib1
				switch {
				case o.Strokes[k].Path.Closed:
				case brittle[id]:
					plastic++
				default:
					others++
				}
			}
			break // further ones repeat it
		}
	}
	return plastic, others
}

// ofBend finds what there is to say of bending and where the end must come to.
func (w *writer) ofBend() {
	p := w.p
	over, slack := p.Outline.To-p.Scores.Layout.Length, nearEnough
	if p.Section.Closed {
		over, slack = p.Outline.Length-p.Round(), 0.005
	}
	w.when("past", over > slack)
	w.when("short", over < -slack)
	w.putMM("over", math.Abs(over))
	w.when("lap", w.v.Curve.Seam == design.Lap)
	w.ofCone(over)
	w.when("cradle", w.v.Rib.Side == design.Round)
	w.when("straightfoot", p.Strength.Hold.FootStraight >= 1)
	w.when("footgap", p.Supports.FootEnd.Gap > 0.005)
	w.putMM("footgap", p.Supports.FootEnd.Gap)
	w.putMM("footfree", p.Supports.FootEnd.Free)
	w.when("tipgap", p.Supports.TipEnd.Gap > 0.005)
	w.putMM("tipgap", p.Supports.TipEnd.Gap)
	w.putMM("tipfree", p.Supports.TipEnd.Free)
	w.putMM("glueto", p.Supports.Mark.To-p.Outline.From)
	w.put("pull", unit.Mass(p.Strength.Hold.EndForce, w.v.Units))
	w.when("caul", p.Caul != nil)
	w.when("pad", w.v.Rib.CaulPad > 0)
	w.putMM("pad", w.v.Rib.CaulPad)
}

// ofRibs finds what there is to say of ribs, their feet and the base.
func (w *writer) ofRibs() {
	p, v := w.p, w.v
	lone := len(p.Supports.All) == 1
	ribs := "rib"
	if w.is("ring") {
		ribs = "ring"
	}
	w.put("arib", ribs)
	if !lone {
		ribs += "s"
	}
	w.put("ribs", ribs)
	w.when("lone", lone)
	w.when("lines", !lone || math.Abs(p.Supports.Mark.Across) > nearEnough)
	w.when("turned", p.Supports.Mark.Turned || w.is("saw")) // no line is on the face: a saw draws none
	stub, plastic, others := false, false, false
	for i := range p.Supports.All {
		s := &p.Supports.All[i]
		stub = stub || s.Foot == design.Stub && s.Task.Stub != nil
		of := s.Stock.Family == stock.Plastic
		plastic, others = plastic || of, others || !of
	}
	w.when("ribplastic", plastic)
	w.when("ribother", others)
	w.when("glueplastic", plastic || w.is("plastic"))
	w.when("stub", stub)
	w.put("stub", w.fit(v.Rib.Thickness)+" by "+w.fit(v.Rib.StubWidth))
	w.putFit("stubdepth", v.Rib.StubDepth)
	w.putFit("fit", v.Rib.Fit)
	w.when("press", v.Rib.Fit < 0)
	w.when("base", p.Base != nil)
	w.when("alike", true)
	for _, f := range []string{"slots", "allslots", "tenon", "take"} {
		w.put(f, "")
	}
	if p.Base == nil {
		return
	}
	slots := p.Base.Slots
	first := &slots[0]
	n := unit.Plural(len(slots), "slot")
	w.put("allslots", n)
	w.put("slots", n+" of "+w.fit(first.Width)+" by "+w.fit(first.Length))
	w.put("tenon", w.fit(first.Width-v.Rib.Fit)+" by "+w.fit(first.Length-v.Rib.Fit))
	w.put("take", "take tenons of")
	if len(slots) == 1 {
		w.put("take", "takes a tenon of")
	}
	for i := range slots {
		if math.Abs(slots[i].Width-first.Width) > 0.005 || math.Abs(slots[i].Length-first.Length) > 0.005 {
			w.when("alike", false)
		}
	}
}

// paperThickness is that of office paper of 80 g/m², mm. Common practice, no source.
const paperThickness = 0.1

// ofProof finds the size of the bent piece and what a flat may stand off by.
func (w *writer) ofProof() {
	pts, span, rise := Profile(w.p)
	w.profile = w.outerFace(pts)
	box := plane.BoxOf(pts...)
	w.putMM("span", span)
	w.putMM("rise", rise)
	w.put("size", w.mm(box.W())+" by "+w.mm(box.H()))
	off := w.v.Panel.StandOff
	w.putMM("standoff", off)
	w.when("standoff", off > 0)
	papers := int(off/paperThickness + 1e-9)
	w.when("nopaper", papers == 0)
	w.when("onepaper", papers == 1)
	w.when("somepaper", papers > 1 && papers < 10)
	w.put("papers", strconv.Itoa(papers))
	w.put("more", strconv.Itoa(papers+1))
	w.putMM("movement", w.p.Strength.Hold.Rib.Movement)
	w.when("true", w.profile.Scale == 1)
	w.put("scale", strconv.Itoa(int(w.profile.Scale)))
}

// ofStrips finds what there is to say of the test strips.
func (w *writer) ofStrips() {
	w.when("strips", w.strips.Sheets() > 0)
	w.when("spread", w.strips.Spread)
	w.when("missing", len(w.strips.Missing) > 0)
	w.when("likethis", false)
	w.put("missing", unit.List(w.strips.Missing))
	w.putMM("hang", design.TongueLength())
	for i := range w.strips.Pieces { // the last one stands for all
		if s := &w.strips.Pieces[i]; s.Passes > 0 && s.Spacing > 0 {
			w.put("strip", label(s))
			w.put("strippasses", unit.Plural(s.Passes, "pass"))
			w.put("stripspacing", unit.Decimal(s.Spacing, 2)+" mm") // as it is written on them
			w.when("likethis", true)
		}
	}
	var radii []string
	for i := range w.strips.Pieces {
		if s := &w.strips.Pieces[i]; s.Kind == coupon.GaugePiece {
			radii = append(radii, w.mm(s.Radius))
		}
	}
	w.put("radii", unit.List(radii))
}
