package plan

import (
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/form"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// outlineTolerance is how far a fitted outline may lie from the exact one, mm.
const outlineTolerance = 0.01

// panel makes the flat panel with its scores and the marks of its ribs.
func panel(p *Plan) bool {
	v := p.V.Panel
	p.Overrun = p.wantedOverrun()
	b := p.Outline.Box()
	var creases []surface.Crease
	for _, f := range p.Layout.Folds {
		creases = append(creases, surface.Crease{U: export.Round(f.U), Turn: f.Theta, Height: f.D, Pivot: f.Pivot})
	}
	first := p.Layout.Flats[0] // a chord where a cradle starts with its bend
	p.Strip = surface.Cylinder(first.P, first.Dir, p.PanelLeft, creases, b.Min.Y, b.Max.Y)
	p.Bent = p.lies()
	p.flats = form.Fold(p.Bent)
	p.Mirror = v.ScoredFace != v.ShowFace
	task := part.PanelTask{
		ID: "panel", Name: "panel", From: p.own(), Outline: p.Outline, Strip: p.Strip,
		Overrun: p.Overrun, Mirror: p.Mirror, Quantity: v.Quantity, Kerf: p.V.Machine.Kerf,
	}
	for _, s := range p.Supports {
		if m := s.Mark; !m.Turned && m.To > m.From {
			task.Marks = append(task.Marks, plane.Open(pt(m.From, m.Across), pt(m.To, m.Across)))
		}
	}
	task.Marks = append(task.Marks, p.DrawnMarks...)
	p.Panel = part.NewPanel(task)
	return true
}

// seam returns what the panel needs beyond the girth of a closed edge.
func (p *Plan) seam() float64 {
	c := p.V.Curve
	switch {
	case !p.Closed:
		return 0
	case c.Seam == design.Lap:
		return c.Lap
	}
	return c.Trim
}

// tip returns the length of the straight after the last bend.
func (p *Plan) tip() float64 {
	return p.Edge.Length() - p.lastBend()
}

// foot returns the length of the straight before the first bend.
func (p *Plan) foot() float64 {
	for _, st := range p.Edge.Stretches() {
		if st.Sign != 0 {
			return st.Start
		}
	}
	return p.Edge.Length()
}

// refold folds the panel up again from its rounded places and measures it.
func refold(p *Plan) bool {
	p.Fit = form.Measure(p.Strip, p.Edge, p.PanelLeft, 0, p.Layout.Length)
	p.Flats = Use{Allowed: 1}
	if so := p.V.Panel.StandOff; so > 0 {
		p.Flats.Value = p.Fit.Most / so
		p.Flats.Low, p.Flats.Bad = p.Flats.Value, p.Flats.Value
		for i, g := range p.Fit.Flats {
			if g.Most == p.Fit.Most {
				p.Flats.Score = max(1, min(i, len(p.Layout.Folds)))
			}
		}
	}
	return true
}
