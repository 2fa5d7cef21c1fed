package section

import (
	"math"
	"strconv"

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
		from, to = l.centres()
	} else {
		along = ends(near)
	}
	return moved(far, to.Sub(from).Add(along.Mul(l.c.FarRight)).Add(along.Left().Mul(l.c.FarUp)))
}

// ends returns the way from end to end of an open section; to the right where its ends meet.
func ends(near curve.Curve) plane.Point {
	if d := near.At(near.Length()).P.Sub(near.At(0).P); d.Len() > 1e-6 {
		return d.Unit()
	}
	return plane.Pt(1, 0)
}

// middle returns the place half way between the ends of a curve.
func middle(c curve.Curve) plane.Point { return c.At(0).P.Lerp(c.At(c.Length()).P, 0.5) }

// centres returns the middles of a far and a near section that go all round, as they are made.
func (l *lining) centres() (far, near plane.Point) {
	c := l.c
	if c.Kind == design.Box { // which begins in the middle of its lower side, an oval lies about the origin
		near = plane.Pt(0, c.BoxHeight/2)
	}
	switch c.Far {
	case design.Scaled:
		far = near.Mul(c.FarScale)
	case design.Box:
		far = plane.Pt(0, c.FarHeight/2)
	}
	return far, near
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
	if !ok || !l.followed(far) {
		return false
	}
	if far, ok = l.turned(t.Line, far); !ok {
		return false
	}
	if !out.PanelLeft {
		return l.Stop("far-dips", "curve.far", "This section dips first and the panel lies over it. Draw it the other way up, so that its first bend goes over.", nil)
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
	return l.stands(p)
}

// mostLean is the most that a panel may lean against its ribs, and leastSlant the least that its
// scores may run at to their edges, rad: beyond, it lies along the ribs rather than over them, and
// what is reckoned across the ribs means nothing any more. Set where random panels came out wrong.
const (
	mostLean   = 75 * math.Pi / 180
	leastSlant = 20 * math.Pi / 180
)

// stands stops a panel that lies along its ribs. Its numbers have the distance at which it would
// lean and slant by comfortably less.
func (l *lining) stands(p *Pair) bool {
	lean, slant, apart := p.Stance()
	numbers := map[string]float64{"lean": lean * 180 / math.Pi, "slant": slant * 180 / math.Pi, "apart": apart}
	switch {
	case lean > mostLean:
		return l.Stop("far-leans", "curve.apart", "The panel leans "+unit.Angle(lean)+" against the ribs, so it would lie along them. Up to "+unit.Angle(mostLean)+
			" is taken. Set the ribs further apart, or make the far section more like the near one.", numbers)
	case slant < leastSlant:
		return l.Stop("far-slants", "curve.farRight", "The scores would run at "+unit.Angle(slant)+" to a rib's edge. From "+unit.Angle(leastSlant)+
			" up is taken. Move the far section back, or set the ribs further apart.", numbers)
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

// turned returns the far section turned as far as the near one, bend by bend, its radii eased where it
// nearly does.
func (l *lining) turned(near, far curve.Curve) (curve.Curve, bool) {
	a, b := swings(near), swings(far)
	if near.Closed() && far.Closed() && len(a) == 1 && len(b) == 1 {
		return far, true
	}
	if len(a) != len(b) || a[0]*b[0] < 0 {
		return far, l.Stop("far-swings", "curve.far", "The near section turns over and back "+unit.Plural(len(a), "time")+" in all, the far one "+unit.Plural(len(b), "time")+
			". Without a twist both must do so alike, in the same order.", map[string]float64{"near": float64(len(a)), "far": float64(len(b))})
	}
	eased := *l.c
	eased.FarPieces = append([]design.PieceValues(nil), eased.FarPieces...)
	most := 0.0
	for i := range a {
		is, to := math.Abs(a[i]), math.Abs(b[i])
		if off := math.Abs(is - to); off > nearlyAlike || off > mostUneven && l.c.Far != design.Chain {
			return far, l.Stop("far-turns", "curve.far", "The near section turns by "+unit.Angle(is)+where(i, len(a))+", the far one by "+unit.Angle(to)+
				". Without a twist both must turn alike. Change the length or radius of a far bend.",
				map[string]float64{"near": is * 180 / math.Pi, "far": to * 180 / math.Pi, "swing": float64(i)})
		}
		most = math.Max(most, math.Abs(is-to))
		for _, k := range Swing(eased.FarPieces, i) {
			eased.FarPieces[k].Radius *= to / is
		}
	}
	if most <= mostUneven {
		return far, true
	}
	if most > untold {
		l.Note("far-eased", finding.Note, "curve.farPieces", "As it is typed the far section turns by up to "+unit.Angle(most)+
			" more or less than the near one. Its radii are eased so that both turn alike.", map[string]float64{"degrees": most * 180 / math.Pi})
	}
	out := lining{l.Notes, &eased}
	return out.farLine(near)
}

// where says which of several swings is meant.
func where(i, n int) string {
	if n == 1 {
		return " in all"
	}
	return " in swing " + strconv.Itoa(i+1)
}

// swings returns how far a section turns one way before it turns back, swing by swing, rad.
func swings(c curve.Curve) []float64 {
	var out []float64
	last := 0
	for _, st := range c.Stretches() {
		if st.Sign == 0 {
			continue
		}
		if st.Sign != last {
			out, last = append(out, 0), st.Sign
		}
		out[len(out)-1] += c.At(st.End).Phi - c.At(st.Start).Phi
	}
	return out
}

// Swing returns which pieces of a row bend in its i-th swing.
func Swing(ps []design.PieceValues, i int) []int {
	var out []int
	n, last := -1, ""
	for k, p := range ps {
		if p.Turn == design.Straight {
			continue
		}
		if p.Turn != last {
			n, last = n+1, p.Turn
		}
		if n == i {
			out = append(out, k)
		}
	}
	return out
}

// refused says why there is no skin between two sections that turn alike.
func (l *lining) refused(*skin.Refusal) bool {
	return l.Stop("far-no-skin", "curve.far", "No panel lies on both sections without a twist. Make the far one more like the near one.", nil)
}
