package view

import (
	"math"
	"slices"
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/intake"
	"springrib/internal/outline"
	"springrib/internal/plane"
	"springrib/internal/wire"
)

// Intake shows what a file drawn elsewhere holds and what would be taken of it.
func (Core) Intake(raw []byte, in wire.Intake) (wire.IntakeView, []float32, error) {
	doc, b, err := bringTo(raw, in)
	if err != nil {
		return wire.IntakeView{}, nil, err
	}
	why := b.missing()
	v := wire.IntakeView{
		Name: b.name, Size: strings.ToUpper(string(b.drawing.Format)) + ", " + b.area(b.drawing.Box()),
		Units: b.question(), Edges: b.edges(), Gap: b.gap, Roles: rolesOffered(), Rows: b.rowViews(),
		Sentence: why, Ready: why == "",
	}
	for _, f := range b.drawing.Notes {
		if f.ID != "intake-units-unknown" { // Units asks
			v.Findings = append(v.Findings, finding.Finding{ID: f.ID, Severity: f.Severity, Text: f.Text})
		}
	}
	if n := len(b.guess.Frames); n > 0 && b.in.Card != "curve" {
		box := b.items[b.guess.Frames[0]].Box()
		v.Findings = append(v.Findings, finding.Finding{ID: "intake-frame", Severity: finding.Note, Text: "The rectangle round everything, " + b.area(box) +
			", was taken for a background or a frame, not for the panel. Choose it as the outline if it is the panel."})
	}
	values := b.laid(doc, &v)
	if v.Ready {
		// It is taken for a try, so that ready is said of nothing that can't be.
		if tried, err := b.into(doc); err != nil {
			v.Ready, v.Sentence = false, err.Error()
		} else if why := b.stop(tried); why != "" {
			v.Ready, v.Sentence = false, why
		} else {
			v.Sentence = b.takes(values)
		}
	}
	s, m := b.sketch(values)
	v.Changes, v.More = b.changeViews(m)
	read := len(s.buf)
	t := newSketch("taken", "What is taken")
	t.buf, t.box = s.buf, s.box
	if v.Ready {
		b.sketchTaken(t, m)
	}
	t.box = s.box
	var numbers []float32
	v.Drawing, _ = s.done(3)
	v.Taken, numbers = t.done(3)
	if len(v.Taken.Items) == 0 {
		numbers = numbers[:read]
	}
	return v, numbers, nil
}

// edges asks which line of a double outline is meant.
func (b *brought) edges() *wire.EdgeQuestion {
	if !b.doubled() && b.in.Edge == "" || b.guess.Double == nil || b.in.Card == "curve" {
		return nil
	}
	d := b.guess.Double
	size := func(i int) string { return b.area(b.items[i].Box()) }
	return &wire.EdgeQuestion{
		Text: "The outline is drawn as two lines, " + b.mm(d.Width) + " apart.", Chosen: b.in.Edge,
		Choices: []wire.Choice{
			{Value: string(intake.Outer), Label: "The outer one is the edge, " + size(d.Outer)},
			{Value: string(intake.Inner), Label: "The inner one is the edge, " + size(d.Inner)},
			{Value: string(intake.Both), Label: "Both are cut: it is a ring"},
		},
	}
}

// question asks how large the file is.
func (b *brought) question() *wire.UnitsQuestion {
	u := b.drawing.Units
	if u.Stated || len(b.items) == 0 {
		return nil
	}
	q := &wire.UnitsQuestion{Chosen: b.in.PerInch}
	for _, c := range u.Choices {
		q.Choices = append(q.Choices, wire.UnitsChoice{PerInch: c.PerInch, Label: c.Label, Size: b.area(plane.BoxOf(plane.Pt(0, 0), plane.Pt(c.Width, c.Height)))})
	}
	return q
}

// controls are the fields that say how what is chosen is laid.
func (b *brought) controls() []wire.Control {
	wanted := map[string]bool{}
	if len(b.chosen(intake.Outline)) > 0 {
		for _, p := range []string{"panel.drawnLength", "panel.drawnTurn", "panel.drawnMirror", "panel.along", "panel.across", "panel.view"} {
			wanted[p] = true
		}
	}
	if len(b.chosen(intake.Curve)) > 0 {
		for _, p := range []string{"curve.drawnLength", b.endField(), "curve.drawnMirror", "curve.drawnTurn"} {
			wanted[p] = true
		}
	}
	var out []wire.Control
	for _, f := range design.Fields() {
		if wanted[f.Path] {
			c := control(f)
			c.When, c.More = nil, false
			out = append(out, c)
		}
	}
	return out
}

// laid reads the fields that say how the drawing is laid, as the design would be with it,
// and tells what they come to.
func (b *brought) laid(doc design.Document, v *wire.IntakeView) design.Values {
	doc = design.Clone(doc)
	if len(b.chosen(intake.Outline)) > 0 {
		doc.Panel.Shape, doc.Panel.Drawn = design.Drawn, design.Drawing{Outline: "-"}
		doc.Panel.DrawnLength, doc.Panel.DrawnTurn, doc.Panel.DrawnMirror = "", "", false
	}
	if len(b.chosen(intake.Curve)) > 0 {
		doc.Curve.Kind, doc.Curve.Drawn = b.curveKind(), design.Drawing{Line: "-"}
		doc.Curve.DrawnLength, doc.Curve.DrawnTurn, doc.Curve.DrawnMirror, doc.Curve.DrawnBack, doc.Curve.DrawnSeam = "", "", false, false, ""
	}
	doc = b.lay(doc)
	values, _, states := design.ReadStates(doc)
	v.Controls, v.Fields = b.controls(), map[string]wire.Field{}
	for _, s := range states {
		if slices.ContainsFunc(v.Controls, func(c wire.Control) bool { return c.Path == s.Path }) {
			v.Fields[s.Path] = wire.Field{Default: s.Default, Problem: s.Problem, Means: s.Means}
			if s.Problem != "" {
				v.Ready, v.Sentence = false, s.Problem
			}
		}
	}
	return values
}

// curveKind is what the design's curve becomes: a closed line is wrapped all round.
func (b *brought) curveKind() string {
	if c := b.chosen(intake.Curve); len(c) == 1 && c[0].Closed {
		return design.DrawnRound
	}
	return design.Drawn
}

// endField asks where the panel's ends come to lie on the curve.
func (b *brought) endField() string {
	if b.curveKind() == design.DrawnRound {
		return "curve.drawnSeam"
	}
	return "curve.drawnBack"
}

// takes says what would be taken.
func (b *brought) takes(v design.Values) string {
	var parts []string
	if o := b.chosen(intake.Outline); len(o) == 1 {
		size := o[0].Apply(outline.DrawnMap(o[0], v.Panel.Drawn)).Box()
		text := "an outline " + b.mm(size.W()) + " long and " + b.mm(size.H()) + " wide"
		if n := len(b.chosen(intake.Hole)); n > 0 {
			text += ", " + plural(n, "hole")
		}
		parts = append(parts, text)
		if n := len(b.chosen(intake.Mark)); n > 0 {
			parts[0] += ", " + plural(n, "mark")
		}
	}
	if c := b.chosen(intake.Curve); len(c) == 1 {
		what := "a curve "
		if c[0].Closed {
			what = "a closed curve to wrap, "
		}
		parts = append(parts, what+b.mm(v.Curve.Drawn.Length.Or(c[0].Length()))+" long")
	}
	return "Takes " + strings.Join(parts, "; and ") + "."
}

// rowViews tells the rows in words.
func (b *brought) rowViews() []wire.IntakeRow {
	var out []wire.IntakeRow
	for i, g := range b.rows {
		r := wire.IntakeRow{ID: rowID(i), Layer: g.layer, Colour: g.colour, Text: b.rowText(g), Role: nameOf(b.roles[g.paths[0]])}
		if i == maxRows-1 {
			r.Layer, r.Colour = "all other layers", ""
		}
		for _, k := range g.paths {
			if nameOf(b.roles[k]) != r.Role {
				r.Role = ""
				break
			}
		}
		if len(g.paths) <= maxPaths {
			for _, k := range g.paths {
				r.Paths = append(r.Paths, wire.IntakePath{ID: pathID(k), Text: b.pathText(&b.items[k]), Role: nameOf(b.roles[k])})
			}
		}
		out = append(out, r)
	}
	return out
}

func (b *brought) pathText(it *intake.Item) string {
	if it.Path.Closed {
		return "closed, " + b.area(it.Box())
	}
	return "open, " + b.mm(it.Length()) + " long"
}

func (b *brought) rowText(g group) string {
	if len(g.paths) == 1 {
		it := &b.items[g.paths[0]]
		if it.Path.Closed {
			return "a closed line, " + b.area(it.Box())
		}
		return "an open line, " + b.mm(it.Length()) + " long"
	}
	lo, hi := math.Inf(1), 0.0
	for _, k := range g.paths {
		l := b.items[k].Length()
		lo, hi = math.Min(lo, l), math.Max(hi, l)
	}
	kind := "open line"
	if g.closed {
		kind = "closed line"
	}
	text := plural(len(g.paths), kind) + ", "
	if a, z := b.mm(lo), b.mm(hi); a != z {
		return text + b.bare(lo) + " to " + z + " long"
	}
	return text + b.mm(hi) + " long"
}
