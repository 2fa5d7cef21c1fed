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
	if !ok || !l.followed(far) || !l.oneWay(t.Line, "near") || !l.oneWay(far, "far") {
		return false
	}
	if far, ok = l.turned(t.Line, far); !ok {
		return false
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

// oneWay stops a section that bends back.
func (l *lining) oneWay(c curve.Curve, name string) bool {
	for _, st := range c.Stretches() {
		if st.Sign > 0 {
			return l.Stop("far-bends-back", "curve.far", "The "+name+" section bends back "+l.Len(st.Start)+" from its foot. A panel between two sections must bend one way all along.",
				map[string]float64{"at": st.Start})
		}
	}
	return true
}

// nearlyAlike is by how much a far section may turn otherwise than the near one for its bends to be
// eased without asking, rad: a wood shop's angle. mostUneven is what is never eased at all, rad. What
// is no more than untold is what rounded radii leave.
const (
	nearlyAlike = 0.5 * math.Pi / 180
	untold      = 0.05 * math.Pi / 180
	mostUneven  = 1e-6
)

// turned returns the far section turned as far as the near one, its radii eased where it nearly does.
func (l *lining) turned(near, far curve.Curve) (curve.Curve, bool) {
	a, b := turning(near), turning(far)
	numbers := map[string]float64{"near": a * 180 / math.Pi, "far": b * 180 / math.Pi}
	off := math.Abs(a - b)
	switch {
	case off <= mostUneven || near.Closed() && far.Closed():
		return far, true
	case off > nearlyAlike || l.c.Far != design.Chain:
		return far, l.Stop("far-turns", "curve.far", "The near section turns by "+unit.Angle(a)+" in all, the far one by "+unit.Angle(b)+
			". Without a twist both must turn alike. Change the length or radius of a far bend.", numbers)
	}
	eased := *l.c
	eased.FarPieces = append([]design.PieceValues(nil), eased.FarPieces...)
	for i := range eased.FarPieces {
		eased.FarPieces[i].Radius *= b / a
	}
	if off > untold {
		l.Note("far-eased", finding.Note, "curve.farPieces", "The far section turns "+unit.Angle(b)+" as it is typed, the near one "+unit.Angle(a)+". Its radii are taken times "+
			unit.Ratio(b/a)+", so that both turn alike.", numbers)
	}
	out := lining{l.Notes, &eased}
	return out.farLine(near)
}

// turning returns how far a curve that turns right does so, rad.
func turning(c curve.Curve) float64 { return c.At(0).Phi - c.At(c.Length()).Phi }

// refused says why there is no skin between two sections that turn alike.
func (l *lining) refused(*skin.Refusal) bool {
	return l.Stop("far-no-skin", "curve.far", "No panel lies on both sections without a twist. Make the far one more like the near one.", nil)
}
