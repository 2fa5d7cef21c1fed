package plan

import (
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/form"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// panel makes the flat panel with its scores and the marks of its ribs.
func panel(p *Plan) bool {
	v := p.V.Panel
	p.Panel.Overrun = p.wantedOverrun()
	switch {
	case p.Section.Cone != nil:
		return conePanel(p)
	case p.Section.Pair != nil:
		return skinPanel(p)
	}
	b := p.Outline.Region.Box()
	var creases []surface.Crease
	for _, f := range p.Scores.Layout.Folds {
		creases = append(creases, surface.Crease{U: export.Round(f.U), Turn: f.Theta, Height: f.D, Pivot: f.Pivot})
	}
	first := p.Scores.Layout.Flats[0] // a chord where a cradle starts with its bend
	p.Panel.Strip = surface.Cylinder(first.P, first.Dir, p.Section.PanelLeft, creases, b.Min.Y, b.Max.Y)
	p.Panel.Bent = p.lies()
	p.Panel.frames = form.Fold(p.Panel.Bent)
	p.Panel.Mirror = v.ScoredFace != v.ShowFace
	task := part.PanelTask{
		ID: "panel", Name: "panel", From: p.V.Own(), Outline: p.Outline.Region, Strip: p.Panel.Strip, Lap: p.lapped(plane.Translate(export.Round(p.Round()), 0)),
		Overrun: p.Panel.Overrun, Mirror: p.Panel.Mirror, Quantity: v.Quantity, Kerf: p.V.Machine.Kerf,
	}
	for _, s := range p.Supports.All {
		if m := s.Mark; !m.Turned && m.To > m.From {
			task.Marks = append(task.Marks, plane.Open(pt(m.From, m.Across), pt(m.To, m.Across)))
		}
	}
	task.Marks = append(task.Marks, p.Outline.Marks...)
	p.Panel.Flat = part.NewPanel(task)
	return true
}

// lapped returns what bends the lap of a seam: the rulings of the start over again, moved by
// once round, as far as land stays before the panel's end.
func (p *Plan) lapped(once plane.Affine) []surface.Ruling {
	if !p.Section.Closed || p.V.Curve.Seam != design.Lap || p.Gores() > 1 { // a part runs on into the scores of the next
		return nil
	}
	room := p.Outline.Length - p.Round() - p.V.Panel.MinLand - p.Law().Score().Width
	var out []surface.Ruling
	for i, r := range p.Panel.Strip.Rulings {
		if p.Scores.Layout.Folds[i].U > room {
			break
		}
		for k, q := range r.Flat {
			r.Flat[k] = export.RoundPoint(once.Apply(q))
		}
		out = append(out, r)
	}
	return out
}

// seam returns what the panel needs beyond the girth of a closed edge.
func (p *Plan) seam() float64 {
	c := p.V.Curve
	switch {
	case !p.Section.Closed:
		return 0
	case c.Seam == design.Lap:
		return c.Lap
	}
	return c.Trim
}

// refold folds the panel up again from its rounded places and measures it.
func refold(p *Plan) bool {
	switch {
	case p.Section.Cone != nil:
		p.Proof.Fit = p.coneFit()
	case p.Section.Pair != nil:
		p.Proof.Fit = p.skinFit()
	default:
		p.Proof.Fit = form.Measure(p.Panel.Strip, p.Section.Edge, p.Section.PanelLeft, 0, p.Scores.Layout.Length)
	}
	p.Proof.Flats = Use{Allowed: 1}
	if so := p.V.Panel.StandOff; so > 0 {
		p.Proof.Flats.Value = p.Proof.Fit.Most / so
		p.Proof.Flats.Low, p.Proof.Flats.Bad = p.Proof.Flats.Value, p.Proof.Flats.Value
		for i, g := range p.Proof.Fit.Flats {
			if g.Most == p.Proof.Fit.Most {
				p.Proof.Flats.Score = max(1, min(i, len(p.Scores.Layout.Folds)))
			}
		}
	}
	return true
}
