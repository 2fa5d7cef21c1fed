package plan

import (
	"errors"
	"math"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/hinge"
	"springrib/internal/machine"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// section turns the wanted curve into the contact edge.
func section(p *Plan) bool {
	v := p.V
	p.PanelLeft = v.Rib.Side == design.Hollow
	p.Towards = v.Panel.ScoredFace == v.Rib.Side
	wanted := curve.Level(withEnds(pieces(v.Curve), v.Curve.Foot, v.Curve.Tip)...)
	if wanted.Length() == 0 {
		return p.stop("curve-empty", "curve.kind", "The curve has no length yet. Give it a size.", nil)
	}
	if c, ok := wanted.Crossing(); ok {
		return p.stop("curve-crosses", "curve.angle",
			"The curve runs into itself "+p.len(c.S1)+" and "+p.len(c.S2)+" from its foot. Make it shorter or its radius larger.",
			map[string]float64{"first": c.S1, "second": c.S2})
	}
	edge, err := wanted.Parallel(p.toContact())
	var tight *curve.ErrTooTight
	if errors.As(err, &tight) {
		return p.stop("curve-tight", "curve.radius",
			"The rib edge would lie "+p.len(math.Abs(tight.Distance))+" inside this line, but its radius is only "+
				p.len(tight.Radius)+" "+p.len(tight.At)+" from the foot. Take a larger radius.",
			map[string]float64{"radius": tight.Radius, "distance": math.Abs(tight.Distance), "at": tight.At})
	}
	p.Edge = edge
	return true
}

// pieces returns the wanted curve without its straight ends. The first bend turns
// right, so that it rises over its chord.
func pieces(c design.CurveValues) []curve.Piece {
	arc := func(radius, length float64) []curve.Piece { return []curve.Piece{{Length: length, Kappa: -1 / radius}} }
	switch c.Kind {
	case design.RadiusAngle:
		return arc(c.Radius, c.Radius*c.Angle)
	case design.SpanRise:
		a := curve.FromSpanRise(c.Span, c.Rise)
		return arc(a.Radius, a.Length())
	case design.LengthRadius:
		return arc(c.Radius, c.Length)
	}
	var out []curve.Piece
	for _, pc := range c.Pieces {
		k := 0.0
		switch pc.Turn {
		case design.Over:
			k = -1 / pc.Radius
		case design.Back:
			k = 1 / pc.Radius
		}
		out = append(out, curve.Piece{Length: pc.Length, Kappa: k})
	}
	return out
}

func withEnds(ps []curve.Piece, foot, tip float64) []curve.Piece {
	out := append([]curve.Piece{{Length: foot}}, ps...)
	return append(out, curve.Piece{Length: tip})
}

// toContact returns the distance from the wanted line to the contact edge, to the left.
// The outer face is the one away from the rib. The neutral line's distance depends a
// little on the spacing; it is taken for the deepest score at a spacing of one
// thickness, within about 0.05 t of any.
func (p *Plan) toContact() float64 {
	v := p.V
	d := 0.0
	switch v.Curve.Line {
	case design.Outer:
		d = v.Sheet.T
	case design.Neutral:
		law := p.law(len(v.Machine.Depths), 0)
		d = law.Neutral(v.Sheet.T)
		if p.Towards {
			d = v.Sheet.T - d
		}
	}
	if p.PanelLeft {
		return -d
	}
	return d
}

// law returns the law after a number of passes, with the skin moved by off mm.
func (p *Plan) law(passes int, off float64) hinge.Law {
	s, m := p.V.Sheet, p.V.Machine
	skin := m.Skin(passes, s.T, 0).Value + off
	skin = math.Min(math.Max(skin, 0.02*s.T), 0.98*s.T)
	bottom := map[machine.Bottom]hinge.Bottom{machine.Round: hinge.Round, machine.Flat: hinge.Flat, machine.Vee: hinge.Vee}[m.Bottom]
	sc := hinge.Score{Thickness: s.T, Depth: s.T - skin, Width: m.ScoreWidth, Bottom: bottom}
	if m.Bottom == machine.Vee {
		sc.RootWidth = m.ScoreWidth / 3
	}
	return hinge.New(hinge.Material{
		E: s.E.Value, NuXY: s.NuXY.Value, NuXZ: s.NuXZ.Value, EZ: s.EZ.Value, GXZ: s.GXZ.Value,
	}, sc)
}

// stop adds a finding that ends the plan, and returns false for the stage to return.
func (p *Plan) stop(id, field, text string, numbers map[string]float64, remedies ...finding.Remedy) bool {
	p.Findings = append(p.Findings, finding.Finding{
		ID: id, Severity: finding.Stop, Place: finding.Place{Field: field},
		Text: text, Numbers: numbers, Remedies: remedies,
	})
	return false
}

func (p *Plan) len(mm float64) string { return unit.Length(mm, p.V.Units) }

func pt(x, y float64) plane.Point { return plane.Pt(x, y) }
