package section

import (
	"math"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/skin"
	"springrib/internal/unit"
)

// farLine returns the section at the far rib where the near one is the line that is asked for; ok is
// false where there is none.
func (l *lining) farLine(near curve.Curve) (far curve.Curve, ok bool) {
	c := l.c
	round := c.Kind == design.Box || c.Kind == design.Oval
	if closed := c.Far == design.Box || c.Far == design.Oval; c.Far != design.Scaled && closed != round {
		say := "The near section is open and the far one goes all round. Make both open, or both closed."
		if round {
			say = "The near section goes all round and the far one is open. Make both closed, or both open."
		}
		return far, l.Stop("far-closed", "curve.far", say, nil)
	}
	start := near.At(0)
	switch c.Far {
	case design.Scaled:
		far = scaled(near, c.FarScale)
	case design.FarArc:
		turn := near.At(near.Length()).Phi - start.Phi
		far = curve.Chain(plane.Point{}, start.Phi, curve.Piece{Length: c.Foot},
			curve.Piece{Length: math.Abs(turn) * c.FarRadius, Kappa: math.Copysign(1/c.FarRadius, turn)}, curve.Piece{Length: c.Tip})
	case design.Chain:
		far = curve.Chain(plane.Point{}, start.Phi, withEnds(chained(c.FarPieces), c.Foot, c.Tip)...)
	case design.Box:
		far = curve.Chain(plane.Point{}, math.Pi, curve.RoundedBox(c.FarWidth, c.FarHeight, c.FarCorner, false)...)
	case design.Oval:
		far = curve.Ellipse(c.FarWidth/2, c.FarHeight/2, false)
	}
	return l.placed(near, far, round), true
}

// placed moves the far section so that its middle faces that of the near one, and then by what was
// typed, along the near one's ends and up from there.
func (l *lining) placed(near, far curve.Curve, round bool) curve.Curve {
	along, from, to := plane.Pt(1, 0), middle(far), middle(near)
	if round {
		from, to = centre(far), centre(near)
	} else if d := near.At(near.Length()).P.Sub(near.At(0).P); d.Len() > 1e-6 {
		along = d.Unit()
	}
	return moved(far, to.Sub(from).Add(along.Mul(l.c.FarRight)).Add(along.Left().Mul(l.c.FarUp)))
}

// middle returns the place half way between the ends of a curve.
func middle(c curve.Curve) plane.Point { return c.At(0).P.Lerp(c.At(c.Length()).P, 0.5) }

// centre returns the middle of what a curve takes up.
func centre(c curve.Curve) plane.Point {
	b := plane.EmptyBox()
	for _, s := range c.Samples(0.05) {
		b = b.Add(c.At(s).P)
	}
	return b.Centre()
}

// moved returns a curve moved without a turn.
func moved(c curve.Curve, by plane.Point) curve.Curve {
	return mapped(c, func(s curve.State) curve.State { s.P = s.P.Add(by); return s }, 1)
}

// scaled returns a curve made larger about the origin.
func scaled(c curve.Curve, k float64) curve.Curve {
	return mapped(c, func(s curve.State) curve.State { s.P, s.Kappa = s.P.Mul(k), s.Kappa/k; return s }, k)
}

// mapped returns a curve whose states are each as told, its arc length k times as long.
func mapped(c curve.Curve, as func(curve.State) curve.State, k float64) curve.Curve {
	var shapes []curve.Shape
	for _, st := range c.Stretches() {
		n := 1
		if st.Sign != 0 {
			n = steps(c.At(st.End).Phi - c.At(st.Start).Phi)
		}
		var at []curve.State
		var ss []float64
		for i := range n + 1 {
			s := st.Shape.Length() * float64(i) / float64(n)
			at, ss = append(at, as(st.Shape.At(s))), append(ss, k*s)
		}
		shapes = append(shapes, smoothly(at, ss, st.Sign))
	}
	return curve.Join(shapes...)
}

// pair makes the section of a panel that goes over from one section to another.
func (t *Task) pair(out *Section, say *finding.Notes) bool {
	l := lining{*say, t.Curve}
	defer func() { *say = l.Notes }()
	far, ok := l.farLine(t.Line)
	if !ok {
		return false
	}
	if !out.PanelLeft {
		return l.Stop("far-side", "curve.far", "This curve bends the wrong way first. Begin with the bend that goes over.", nil)
	}
	up := -1.0
	if t.Show == design.Hollow {
		up = 1
	}
	p, no := NewPair(t.Line, far, t.Curve.Apart, up, out.PanelLeft)
	if no != nil {
		return l.refused(no)
	}
	out.Pair, out.Edge = p, p.edge()
	return true
}

// refused says why there is no skin between two sections.
func (l *lining) refused(no *skin.Refusal) bool {
	near, far := no.Turns[0], no.Turns[1]
	_ = unit.Angle
	return l.Stop("far-turns", "curve.far", "The near section turns by "+unit.Angle(math.Abs(near))+" in all, the far one by "+unit.Angle(math.Abs(far))+
		". Without a twist both must turn alike. Change the length or radius of a far bend.",
		map[string]float64{"near": near * 180 / math.Pi, "far": far * 180 / math.Pi})
}
