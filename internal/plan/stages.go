package plan

import (
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/lay"
	"springrib/internal/learn"
	"springrib/internal/outline"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/section"
	"springrib/internal/stand"
	"springrib/internal/stock"
	"springrib/internal/strips"
	"springrib/internal/support"
	"springrib/internal/unit"
)

// learns puts what test strips said in the place of handbook and guess.
func learns(p *Plan) bool {
	var said []finding.Finding
	p.V = *p.Asked
	p.Readings, said = learn.From(&p.V)
	p.Findings = append(p.Findings, said...)
	return true
}

// lays puts the parts on sheets.
func lays(p *Plan) bool {
	var said []finding.Finding
	p.Lay, said = lay.New(lay.Task{Values: &p.V, Parts: p.CutParts(), Passes: p.Try().Passes, Closed: p.Section.Closed, Draft: p.draft})
	p.Findings = append(p.Findings, said...)
	return true
}

// CutParts returns all that is cut: panel, ribs, caul and base.
func (p *Plan) CutParts() []lay.Item {
	panel := lay.Item{Part: p.Panel.Flat.Part}
	for i := range p.Supports.All {
		s := &p.Supports.All[i]
		v := s.Across
		if p.Panel.Mirror {
			v = -v
		}
		panel.Lines = append(panel.Lines, part.Spare{Paths: []plane.Path{plane.Open(pt(s.Mark.From, v), pt(s.Mark.To, v))}, Clear: s.Thickness / 2})
	}
	out := []lay.Item{panel}
	for i := range p.Ribs.Kinds {
		r := &p.Ribs.Kinds[i]
		out = append(out, lay.Item{Part: r.Part, Joint: r.Task.Stub != nil, Glued: []plane.Path{r.Contact, r.Seat}})
	}
	if p.Caul != nil {
		out = append(out, lay.Item{Part: p.Caul.Part, Glued: []plane.Path{p.Caul.Contact}})
	}
	if p.Base != nil {
		out = append(out, lay.Item{Part: p.Base.Part, Joint: true})
	}
	return out
}

// note adds a finding about a field.
func (p *Plan) note(id string, sev finding.Severity, field, text string, numbers map[string]float64) {
	p.Findings = append(p.Findings, finding.Finding{ID: id, Severity: sev, Place: finding.Place{Field: field}, Text: text, Numbers: numbers})
}

// Pack begins to lay the parts of a design closer, from where they lie; nil where there is
// nothing to lay. The plan's own Lay is that of the packing.
func Pack(v design.Values, effort int64, seed uint64) (*Plan, *lay.Packing) {
	p := Make(v)
	if !p.Drawn {
		return &p, nil
	}
	return &p, p.Lay.Pack(effort, seed)
}

// bases makes the plate that ribs stand in.
func bases(p *Plan) bool {
	var said []finding.Finding
	p.Base, said = stand.NewBase(p.standing())
	p.Findings = append(p.Findings, said...)
	return true
}

// standing is what may stand on a base.
func (p *Plan) standing() stand.Task {
	t := stand.Task{
		Values: &p.V, Edge: p.Section.Edge, PanelLeft: p.Section.PanelLeft, Closed: p.Section.Closed || p.Ruled(), Longest: p.Supports.Longest,
		Outline: p.Outline.Region, Bent: p.Panel.Bent, Frames: p.Panel.frames,
	}
	for i := range p.Supports.All {
		s := &p.Supports.All[i]
		t.Feet = append(t.Feet, stand.Foot{Row: s.Row, Across: s.Across, Thickness: s.Thickness, Tenon: s.Foot == design.Tenon, Task: s.Task})
	}
	return t
}

// TestStrips returns the strips that the person wants for the design as planned.
func (p *Plan) TestStrips() strips.Set {
	t := p.Try()
	return strips.New(strips.Task{Values: &p.V, Passes: t.Passes, Spacing: t.Most, Overrun: p.Panel.Overrun})
}

// Stocks returns what is cut from: the panel's sheet, then those beside it.
func (p *Plan) Stocks() []stock.Sheet { return append([]stock.Sheet{p.V.Own()}, p.Lay.Beside()...) }

// sizes finds how wide the panel is where that is not typed.
func sizes(p *Plan) bool {
	switch {
	case p.Section.Cone != nil:
		p.Size.Width = p.Section.Cone.Slant()
		return true
	case p.Section.Pair != nil:
		p.Size.Width = p.Section.Pair.Apart
		return true
	}
	made, said, ok := outline.NewSize(&p.V, p.Section.Edge.Length())
	p.Size = made
	p.Findings = append(p.Findings, said...)
	return ok
}

// Width is how wide the panel is, as typed or as it follows.
func (p *Plan) Width() float64 {
	if p.Size.Width > 0 {
		return p.Size.Width
	}
	return p.V.Panel.Width
}

// outlines makes the panel's outline.
func outlines(p *Plan) bool {
	made, said, ok := outline.New(p.outlined())
	p.Outline = made
	p.Findings = append(p.Findings, said...)
	return ok
}

// outlined is what the outline is made of.
func (p *Plan) outlined() outline.Task {
	return outline.Task{
		Values: &p.V, Edge: p.Section.Edge, PanelLeft: p.Section.PanelLeft, Closed: p.Section.Closed, Seam: p.seam(),
		Flat: p.Round(), Places: p.Scores.places, Size: p.Size, Draft: p.draft,
	}
}

// Gives tells where what the design says of an outline comes to lie on the flat panel; ok is
// false where the curve is such that no outline can be told as it is seen.
func (p *Plan) Gives() (outline.Given, bool) { return outline.Gives(p.outlined()) }

// Given is Gives of a plan that is drawn.
func (p *Plan) Given() outline.Given {
	g, ok := p.Gives()
	if !ok {
		panic("plan: an outline was laid that can't be seen")
	}
	return g
}

// acrosses cuts the outline.
func acrosses(p *Plan) bool {
	p.Across = outline.NewAcross(p.Joined(), p.Section.Edge, p.Scores.places)
	return true
}

// stop adds a finding that ends the plan, and returns false for the stage to return.
func (p *Plan) stop(id, field, text string, numbers map[string]float64) bool {
	p.note(id, finding.Stop, field, text, numbers)
	return false
}

// sections turns the wanted curve into the contact edge.
func sections(p *Plan) bool {
	made, said, ok := section.New(section.Task{
		Line: p.Line, Curve: &p.V.Curve, ScoredFace: p.V.Panel.ScoredFace, RibSide: p.V.Rib.Side,
		Sheet: &p.V.Sheet, Machine: &p.V.Machine, Units: p.V.Units, Ring: p.V.Rib.Thickness, Show: p.V.Panel.ShowFace,
	})
	p.Section = made
	p.Findings = append(p.Findings, said...)
	return ok
}

// lines finds the wanted curve, and whether a panel can follow it at all.
func lines(p *Plan) bool {
	wanted, said, ok := section.Line(&p.V.Curve, p.V.Units)
	p.Findings = append(p.Findings, said...)
	if ok {
		p.Line = wanted
	}
	return ok
}

func (p *Plan) len(mm float64) string { return unit.Length(mm, p.V.Units) }

func pt(x, y float64) plane.Point { return plane.Pt(x, y) }

// holds works out how hard the panel pulls and whether ribs and glue stand it.
func holds(p *Plan) bool {
	p.Strength.Hold = p.supporting().Holds(p.Supports.All)
	return true
}

// settles works out what glue and ribs are left with.
func settles(p *Plan) bool {
	p.Strength.Bond, p.Strength.Settled = p.supporting().Settles(p.Supports.All)
	return true
}

// supporting is the panel that ribs are to hold.
func (p *Plan) supporting() *support.Task {
	t := &support.Task{
		Values: &p.V, Section: &p.Section, Layout: &p.Scores.Layout, Places: p.Scores.places, Outline: &p.Outline,
		Width: p.Width(), Across: p.Across, Draft: p.draft,
	}
	if len(p.Scores.Tries) > 0 {
		t.Stiff = p.stiffness()
	}
	return t
}

// supports finds where ribs stand, what each holds and how far each reaches.
func supports(p *Plan) bool {
	made, said, ok := support.New(p.supporting())
	p.Supports = made
	p.Findings = append(p.Findings, said...)
	return ok
}

// Covers returns from where to where along the flat panel a strip as wide as a rib lies on it.
func (p *Plan) Covers(across, thickness float64) (from, to float64, ok bool) {
	return p.supporting().Covers(across, thickness)
}

// Middle is where one rib stands for choice.
func (p *Plan) Middle() float64 { return p.supporting().Middle() }

// OpenRib is a rib at a place across of which nothing else was typed.
func (p *Plan) OpenRib(across float64) design.RibPlaceValues { return p.supporting().OpenRib(across) }

// Straight returns where the contact face of a straight end lies that was to lie at arc length s.
func (p *Plan) Straight(e support.End, s float64) plane.Point { return p.supporting().Straight(e, s) }

// Off returns the place of the curve at which an end stands off most, and the place of the
// panel square above it.
func (p *Plan) Off(e support.End) (curve, panel plane.Point) { return p.supporting().Off(e) }
