package section

import (
	"errors"
	"math"
	"strconv"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// lining finds the line that a person asks for.
type lining struct {
	finding.Notes
	c *design.CurveValues
}

// Line returns the line that a curve's figures ask for, its straight ends included; ok is
// false where they give none, or one that no panel can follow.
func Line(c *design.CurveValues, units unit.System) (wanted curve.Curve, said []finding.Finding, ok bool) {
	l := lining{finding.Notes{Units: units}, c}
	if wanted, ok = l.wanted(); ok {
		ok = l.followed(wanted)
	}
	return wanted, l.All, ok
}

// followed stops a line that runs into itself or turns on the spot.
func (l *lining) followed(wanted curve.Curve) bool {
	if c, ok := wanted.Crossing(); ok {
		return l.Stop("curve-crosses", FieldAt(l.c, c.S2, wanted),
			"The curve runs into itself "+l.Len(c.S1)+" and "+l.Len(c.S2)+" from its foot. Open it up there, or make it shorter.",
			map[string]float64{"first": c.S1, "second": c.S2})
	}
	for _, k := range wanted.Kinks(kinkSeen) {
		return l.Stop("curve-kinked", FieldAt(l.c, k.S, wanted), "The curve has a corner of "+unit.Angle(math.Abs(k.Angle))+", "+
			l.Len(k.S)+" from its foot. A panel can't turn on the spot: round it.",
			map[string]float64{"at": k.S, "degrees": k.Angle * 180 / math.Pi})
	}
	return true
}

// kinkSeen is the least step of heading that counts for a corner, rad: half of what the
// gentlest finish folds at one score (common practice, no source).
const kinkSeen = 0.5 * math.Pi / 180

// wanted returns the curve that the person asks for, straight ends included.
func (l *lining) wanted() (curve.Curve, bool) {
	c := l.c
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
			return smooth, l.Stop("curve-points", field, "This curve can't be drawn: "+bad.Why+".", nil)
		}
		return withStraights(smooth, c.Foot, c.Tip), true
	case design.Cone, design.ConePart:
		return l.cone()
	case design.Drawn:
		return l.drawnLine()
	case design.DrawnRound:
		return l.drawnRound()
	case design.Oval:
		// From the lowest point to the left and round, turning right as the first bend
		// of every curve does, so that inside is the hollow side.
		return curve.Ellipse(c.BoxWidth/2, c.BoxHeight/2, false), true
	case design.Box:
		return curve.Chain(plane.Point{}, math.Pi, curve.RoundedBox(c.BoxWidth, c.BoxHeight, c.Corner, false)...), true
	}
	w := curve.Level(withEnds(pieces(c), c.Foot, c.Tip)...)
	if w.Length() == 0 {
		return w, l.Stop("curve-empty", "curve.kind", "The curve has no length yet. Give it a size.", nil)
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

// FieldAt returns the field that shapes the wanted curve at arc length s.
func FieldAt(c *design.CurveValues, s float64, wanted curve.Curve) string {
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
	case design.Cone, design.ConePart:
		return "curve.small"
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
func pieces(c *design.CurveValues) []curve.Piece {
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
	return chained(c.Pieces)
}

// chained returns the arcs and straights of a row.
func chained(ps []design.PieceValues) []curve.Piece {
	var out []curve.Piece
	for _, pc := range ps {
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

// Wanted returns the line that the person asks for, its straight ends included, where
// the side view has it; ok is false where there is none.
func Wanted(v design.Values) (line curve.Curve, ok bool) {
	l := lining{finding.Notes{Units: v.Units}, &v.Curve}
	return l.wanted()
}

// WantedFar returns the section at the far rib as it is asked for, before its bends are eased; ok is
// false where there is none.
func WantedFar(v design.Values) (far curve.Curve, ok bool) {
	if !v.Curve.Skinned() {
		return far, false
	}
	l := lining{finding.Notes{Units: v.Units}, &v.Curve}
	near, ok := l.wanted()
	if !ok {
		return far, false
	}
	return l.farLine(near)
}

// ArcLength returns how long the curve is without its straight ends, for one that is an
// arc or a row of pieces.
func ArcLength(c design.CurveValues) float64 {
	long := 0.0
	for _, p := range pieces(&c) {
		long += p.Length
	}
	return long
}
