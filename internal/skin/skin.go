// Package skin finds what lies on two edges in space without a twist: a developable strip, told by
// its rulings.
//
// A strip between two edges can be laid flat where along each ruling, the straight line from one edge
// to the other, one plane touches both. For edges in parallel planes that is so where both head the
// same way:
//
//	       B
//	  .----------.         the ruling from A to B lies in the plane that both tangents
//	 /     \      '        and the ruling span; it is one plane, since the tangents
//	.    ruling    '       are parallel
//	       \
//	   .----A--.
//
// So the pairing of their places needs no search: it is the inverse of the heading. A straight faces
// a straight, and the piece between is plane; or it faces one place of a bend that heads as it does,
// and the plane piece is a triangle.
//
// Source: any text of differential geometry on developable surfaces; that a strip with parallel edge
// tangents along its rulings is developable follows from its tangent plane being constant there.
package skin

import (
	"math"

	"springrib/internal/curve"
	"springrib/internal/plane"
	"springrib/internal/solve"
	"springrib/internal/surface"
)

// Rail is an edge in space: a curve in the plane that X and Y span through Origin, both of length 1
// and square to each other.
type Rail struct {
	Curve        curve.Curve
	Origin, X, Y surface.Vec
}

// At returns the place at arc length s.
func (r *Rail) At(s float64) surface.Vec {
	p := r.Curve.At(s).P
	return r.Origin.Add(r.X.Mul(p.X)).Add(r.Y.Mul(p.Y))
}

// dir returns a direction of the rail's plane in space.
func (r *Rail) dir(d plane.Point) surface.Vec { return r.X.Mul(d.X).Add(r.Y.Mul(d.Y)) }

// Ruling is a straight line of the skin: the arc lengths along both rails that it joins, and the
// normal of the plane that touches the skin along it, of length 1, away from the rails' inner side.
type Ruling struct {
	A, B float64
	N    surface.Vec
}

// Piece is a part of the skin, by its parameter x: a bend, or a plane piece, which does not turn.
type Piece struct {
	From, To float64
	Turn     float64 // of the rails' heading, rad, positive left; 0 for a plane piece
	a, b     [2]float64
	phi      float64 // heading where it begins
}

// Skin is a strip between two rails.
type Skin struct {
	A, B   Rail
	Pieces []Piece
	left   bool
}

// Refusal says that no skin was found, and from which places on.
type Refusal struct{ A, B float64 }

// alike is by how much two headings may differ and still count as one, rad: a strip twisted by so
// little over its width is strained by less than 1e-13.
const alike = 1e-6

// Parallel returns the skin between rails in parallel planes whose X and Y are the same. The panel
// lies to the left of both, or to the right. It refuses rails that do not turn alike: the same way in
// the same order, as far in all.
func Parallel(a, b Rail, left bool) (Skin, *Refusal) {
	s := Skin{A: a, B: b, left: left}
	m := merger{skin: &s, a: side{c: a.Curve}, b: side{c: b.Curve}}
	if math.Abs(math.Remainder(a.Curve.At(0).Phi-b.Curve.At(0).Phi, 2*math.Pi)) > alike || !m.run() {
		return Skin{}, &Refusal{m.a.s, m.b.s}
	}
	return s, nil
}

// side is how far one rail has been followed.
type side struct {
	c    curve.Curve
	next int     // stretch
	s    float64 // arc length
}

// turn returns how far the stretch that comes next still turns, 0 for a straight; ok is false past the
// last.
func (d *side) turn() (turn float64, ok bool) {
	all := d.c.Stretches()
	if d.next == len(all) {
		return 0, false
	}
	st := all[d.next]
	if st.Sign == 0 {
		return 0, true
	}
	return d.c.At(st.End).Phi - d.c.At(d.s).Phi, true
}

// pass goes on to the end of the stretch.
func (d *side) pass() {
	d.s = d.c.Stretches()[d.next].End
	d.next++
}

// merger pairs the stretches of both rails.
type merger struct {
	skin *Skin
	a, b side
}

func (m *merger) run() bool {
	for {
		ta, onA := m.a.turn()
		tb, onB := m.b.turn()
		from := [2]float64{m.a.s, m.b.s}
		switch {
		case !onA && !onB:
			return true
		case onA && onB && ta == 0 && tb == 0:
			m.a.pass()
			m.b.pass()
			m.add(from, 0)
		case onA && ta == 0:
			m.a.pass()
			m.add(from, 0)
		case onB && tb == 0:
			m.b.pass()
			m.add(from, 0)
		case !onA || !onB || ta*tb < 0:
			if !m.hair(ta, tb) {
				return false
			}
		default:
			m.bend(ta, tb)
			m.add(from, m.a.c.At(m.a.s).Phi-m.a.c.At(from[0]).Phi)
		}
	}
}

// hair passes what one rail turns on by no more than rounding, and adds it to the piece before.
func (m *merger) hair(ta, tb float64) bool {
	switch {
	case ta != 0 && math.Abs(ta) <= alike:
		m.a.pass()
	case tb != 0 && math.Abs(tb) <= alike:
		m.b.pass()
	default:
		return false
	}
	if n := len(m.skin.Pieces); n > 0 {
		p := &m.skin.Pieces[n-1]
		p.a[1], p.b[1] = m.a.s, m.b.s
	}
	return true
}

// bend goes on along both rails by what the one turns that turns less.
func (m *merger) bend(ta, tb float64) {
	switch d := math.Abs(ta) - math.Abs(tb); {
	case math.Abs(d) <= alike:
		m.a.pass()
		m.b.pass()
	case d < 0:
		m.b.s = m.b.at(ta)
		m.a.pass()
	default:
		m.a.s = m.a.at(tb)
		m.b.pass()
	}
}

// at returns the arc length of the stretch at which it has turned by so much more.
func (d *side) at(turn float64) float64 {
	return heading(d.c, d.s, d.c.Stretches()[d.next].End, d.c.At(d.s).Phi+turn)
}

// heading returns where between two arc lengths, over which it turns one way, a curve heads so.
func heading(c curve.Curve, lo, hi, phi float64) float64 {
	a, b := c.At(lo).Phi-phi, c.At(hi).Phi-phi
	if a == 0 || a*b >= 0 && math.Abs(a) <= math.Abs(b) {
		return lo
	}
	if b == 0 || a*b >= 0 {
		return hi
	}
	guess := lo + (hi-lo)*a/(a-b) // along an arc it is there
	if off := c.At(guess).Phi - phi; math.Abs(off) < 1e-14 {
		return guess
	}
	s, _ := solve.Root(func(s float64) float64 { return c.At(s).Phi - phi }, lo, hi, 1e-12*(hi-lo))
	return s
}

// add adds the piece that was passed last. Its parameter is as long as the longer of its edges.
func (m *merger) add(from [2]float64, turn float64) {
	x := m.skin.Length()
	a, b := [2]float64{from[0], m.a.s}, [2]float64{from[1], m.b.s}
	long := math.Max(a[1]-a[0], b[1]-b[0])
	m.skin.Pieces = append(m.skin.Pieces, Piece{From: x, To: x + long, Turn: turn, a: a, b: b, phi: m.a.c.At(from[0]).Phi})
}

// Length is where the parameter ends; it begins at 0.
func (s *Skin) Length() float64 {
	if n := len(s.Pieces); n > 0 {
		return s.Pieces[n-1].To
	}
	return 0
}

// At returns the ruling at x. Within a bend the heading grows evenly with x; over a plane piece the
// places on both rails do.
func (s *Skin) At(x float64) Ruling {
	i := 0
	for i+1 < len(s.Pieces) && x > s.Pieces[i].To {
		i++
	}
	return s.In(i, (x-s.Pieces[i].From)/(s.Pieces[i].To-s.Pieces[i].From))
}

// In returns the ruling at a share of piece i.
func (s *Skin) In(i int, share float64) Ruling {
	p := &s.Pieces[i]
	r := Ruling{A: p.a[0] + (p.a[1]-p.a[0])*share, B: p.b[0] + (p.b[1]-p.b[0])*share}
	phi := p.phi + p.Turn*share
	if p.Turn != 0 {
		r.A = heading(s.A.Curve, p.a[0], p.a[1], phi)
		r.B = heading(s.B.Curve, p.b[0], p.b[1], phi+s.B.Curve.At(p.b[0]).Phi-p.phi)
	}
	t := plane.Dir(phi)
	r.N = s.B.At(r.B).Sub(s.A.At(r.A)).Cross(s.A.dir(t)).Unit()
	if out := r.N.Dot(s.A.dir(t.Left())); out < 0 == s.left {
		r.N = r.N.Mul(-1)
	}
	return r
}

// Touch returns where the plane along the ruling at x touches both rails.
func (s *Skin) Touch(x float64) surface.Touch {
	r := s.At(x)
	return surface.Touch{A: s.A.At(r.A), B: s.B.At(r.B), N: r.N}
}
