package plan

import (
	"errors"
	"math"
	"strconv"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/hinge"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// line finds the wanted curve, and whether a panel can follow it at all.
func line(p *Plan) bool {
	wanted, ok := p.wanted()
	if !ok {
		return false
	}
	if c, ok := wanted.Crossing(); ok {
		return p.stop("curve-crosses", p.curveField(c.S2, wanted),
			"The curve runs into itself "+p.len(c.S1)+" and "+p.len(c.S2)+" from its foot. Open it up there, or make it shorter.",
			map[string]float64{"first": c.S1, "second": c.S2})
	}
	for _, k := range wanted.Kinks(kinkSeen) {
		return p.stop("curve-kinked", p.curveField(k.S, wanted), "The curve has a corner of "+unit.Angle(math.Abs(k.Angle))+", "+
			p.len(k.S)+" from its foot. A panel can't turn on the spot: round it.",
			map[string]float64{"at": k.S, "degrees": k.Angle * 180 / math.Pi})
	}
	p.Line = wanted
	return true
}

// section turns the wanted curve into the contact edge.
func section(p *Plan) bool {
	v, wanted := p.V, p.Line
	p.Section.Towards = v.Panel.ScoredFace == v.Rib.Side
	p.Section.PanelLeft = (v.Rib.Side == design.Hollow) == (firstBend(wanted) <= 0)
	p.Section.Closed = v.Curve.Kind == design.Box || v.Curve.Kind == design.Oval || v.Curve.Kind == design.DrawnRound
	if p.Section.Closed {
		p.Section.PanelLeft = true // all of them go round to the right, whichever way they bend first
	}
	if p.Section.Closed && v.Rib.Side != design.Hollow {
		return p.stop("rib-outside", "rib.side", "A panel that goes all round a shape needs its rib inside, on the hollow side.", nil)
	}
	edge, err := wanted.Parallel(p.toContact())
	var tight *curve.ErrTooTight
	if errors.As(err, &tight) {
		return p.stop("curve-tight", p.curveField(tight.At, wanted),
			"The rib edge would lie "+p.len(math.Abs(tight.Distance))+" inside this line, but its radius is only "+
				p.len(tight.Radius)+" "+p.len(tight.At)+" from the foot. Take a larger radius.",
			map[string]float64{"radius": tight.Radius, "distance": math.Abs(tight.Distance), "at": tight.At})
	}
	p.Section.Edge = edge
	return p.closesOutside()
}

// kinkSeen is the least step of heading that counts for a corner, rad: half of what the
// gentlest finish folds at one score (common practice, no source).
const kinkSeen = 0.5 * math.Pi / 180

// wanted returns the curve that the person asks for, straight ends included.
func (p *Plan) wanted() (curve.Curve, bool) {
	c := p.V.Curve
	switch c.Kind {
	case design.Points:
		pts := make([]plane.Point, len(c.Points))
		for i, xy := range c.Points {
			pts[i] = plane.Pt(xy[0], xy[1])
		}
		smooth, err := curve.Through(pts...)
		var bad *curve.ErrPoints
		if errors.As(err, &bad) {
			field := "curve.points"
			if bad.Index >= 0 {
				field += "." + strconv.Itoa(c.PointRows[bad.Index]) + ".x"
			}
			return smooth, p.stop("curve-points", field, "This curve can't be drawn: "+bad.Why+".", nil)
		}
		return withStraights(smooth, c.Foot, c.Tip), true
	case design.Drawn:
		return p.drawnLine()
	case design.DrawnRound:
		return p.drawnRound()
	case design.Oval:
		// From the lowest point to the left and round, turning right as the first bend
		// of every curve does, so that inside is the hollow side.
		return curve.Ellipse(c.BoxWidth/2, c.BoxHeight/2, false), true
	case design.Box:
		return curve.Chain(plane.Point{}, math.Pi, curve.RoundedBox(c.BoxWidth, c.BoxHeight, c.Corner, false)...), true
	}
	w := curve.Level(withEnds(pieces(c), c.Foot, c.Tip)...)
	if w.Length() == 0 {
		return w, p.stop("curve-empty", "curve.kind", "The curve has no length yet. Give it a size.", nil)
	}
	return w, true
}

// firstBend returns which way the first bend turns: +1 left, -1 right, 0 for none.
func firstBend(c curve.Curve) int {
	for _, st := range c.Stretches() {
		if st.Sign != 0 {
			return st.Sign
		}
	}
	return 0
}

// withStraights puts a straight before and after a curve, along its ends.
func withStraights(c curve.Curve, foot, tip float64) curve.Curve {
	a, b := c.At(0), c.At(c.Length())
	var shapes []curve.Shape
	add := func(d curve.Curve) {
		for _, st := range d.Stretches() {
			shapes = append(shapes, st.Shape)
		}
	}
	add(curve.Chain(a.P.Sub(a.Tangent().Mul(foot)), a.Phi, curve.Piece{Length: foot}))
	add(c)
	add(curve.Chain(b.P, b.Phi, curve.Piece{Length: tip}))
	return curve.Join(shapes...)
}

// curveField returns the field that shapes the wanted curve at arc length s.
func (p *Plan) curveField(s float64, wanted curve.Curve) string {
	c := p.V.Curve
	switch c.Kind {
	case design.RadiusAngle, design.LengthRadius:
		return "curve.radius"
	case design.SpanRise:
		return "curve.rise"
	case design.Drawn, design.DrawnRound:
		return "curve.drawn"
	case design.Box:
		return "curve.corner"
	case design.Oval:
		return "curve.boxHeight"
	case design.Points:
		at, best, row := wanted.At(s).P, math.Inf(1), 0
		for i, xy := range c.Points {
			if d := at.Dist(plane.Pt(xy[0], xy[1])); d < best {
				best, row = d, c.PointRows[i]
			}
		}
		return "curve.points." + strconv.Itoa(row) + ".x"
	}
	s -= c.Foot
	for i, pc := range c.Pieces {
		if s <= pc.Length || i+1 == len(c.Pieces) {
			return "curve.pieces." + strconv.Itoa(i) + ".radius"
		}
		s -= pc.Length
	}
	return "curve.pieces"
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
		law := p.law(len(v.Machine.Depths))
		d = law.Neutral(v.Sheet.T)
		if p.Section.Towards {
			d = v.Sheet.T - d
		}
	}
	if p.Section.PanelLeft {
		return -d
	}
	return d
}

// law returns the law after a number of passes, all figures nominal.
func (p *Plan) law(passes int) hinge.Law {
	law, _ := p.state(passes, moved{})
	return law
}

// stop adds a finding that ends the plan, and returns false for the stage to return.
func (p *Plan) stop(id, field, text string, numbers map[string]float64) bool {
	p.note(id, finding.Stop, field, text, numbers)
	return false
}

func (p *Plan) len(mm float64) string { return unit.Length(mm, p.V.Units) }

func pt(x, y float64) plane.Point { return plane.Pt(x, y) }
