package surface

import (
	"math"

	"springrib/internal/plane"
)

// Touch is where one flat of a panel touches two rails: along the line from A to B, in the
// plane that is tangent to both. N is that plane's normal, of length 1, from the contact
// face into the panel.
type Touch struct{ A, B, N Vec }

// Lain is where the line of a Touch lies in the flat panel, and on which flat.
type Lain struct {
	Flat [2]plane.Point // A and B
	On   int
}

// Flush is the least turn that is a fold, rad: less is the rounding of what is one plane.
const Flush = 1e-12

// Chain returns the strip whose flats lie in the planes of the touches, and where the touches
// lie in the flat panel. heights says how far above the contact face the fold between touch i
// and the next pivots, at A and at B. A of the first touch lies at the flat panel's origin, B
// straight above it.
//
// Neighbouring planes, both moved into the panel by the heights, meet in the line about which
// the panel folds. The feet of its two places on either flat are as far apart from each other
// on one as on the other, so that one flat is laid beside the last by a rigid motion. It is
// exact for any strip whose touches run forward; a cylinder, a cone and a plane piece, which
// gets no fold, are cases of it. Domain: neighbouring planes turn by less than half round.
func Chain(touches []Touch, heights func(i int) [2]float64) (Strip, []Lain) {
	if len(touches) == 0 {
		panic("surface: a chain of no touches")
	}
	f := first(touches)
	s := Strip{Start: f}
	hand := 1.0
	if f.U.Cross(f.V).Dot(f.N) < 0 {
		hand = -1
	}
	lie := plane.Identity() // from a flat's own places to the panel's
	lain := make([]Lain, 0, len(touches))
	for i, t := range touches {
		at := own(t, hand)
		lain = append(lain, Lain{Flat: [2]plane.Point{lie.Apply(at.of(t.A)), lie.Apply(at.of(t.B))}, On: len(s.Rulings)})
		if i+1 == len(touches) {
			break
		}
		next := touches[i+1]
		to := own(next, hand)
		h := heights(i)
		if t.N.Cross(next.N).Len() < Flush {
			lie = lie.Mul(motion(to.of(t.A), to.of(t.B), at.of(t.A), at.of(t.B)))
			continue
		}
		r := Ruling{Height: h}
		r.Bent[0] = meet(t, next, t.A.Add(next.A).Mul(0.5), at.e.Add(to.e), h[0])
		r.Bent[1] = meet(t, next, t.B.Add(next.B).Mul(0.5), at.e.Add(to.e), h[1])
		r.Turn = hand * about(r.Bent[1].Sub(r.Bent[0]).Unit(), t.N, next.N)
		r.Flat[0], r.Flat[1] = lie.Apply(at.of(r.Bent[0])), lie.Apply(at.of(r.Bent[1]))
		lie = motion(to.of(r.Bent[0]), to.of(r.Bent[1]), r.Flat[0], r.Flat[1])
		s.Rulings = append(s.Rulings, r)
	}
	return s, lain
}

// first returns the frame of the first flat.
func first(touches []Touch) Frame {
	t := touches[0]
	e := t.B.Sub(t.A).Unit()
	u := e.Cross(t.N)
	if len(touches) > 1 {
		if o := touches[1]; o.A.Sub(t.A).Add(o.B.Sub(t.B)).Dot(u) < 0 {
			u = u.Mul(-1)
		}
	}
	return Frame{Origin: t.A, U: u, V: e, N: t.N}
}

// axes are a flat's own: from A of its touch, across and along it.
type axes struct{ from, t, e Vec }

func own(t Touch, hand float64) axes {
	e := t.B.Sub(t.A).Unit()
	return axes{t.A, e.Cross(t.N).Mul(hand), e}
}

// of returns the foot of a place in space, in the flat's own places.
func (a axes) of(p Vec) plane.Point {
	d := p.Sub(a.from)
	return plane.Pt(d.Dot(a.t), d.Dot(a.e))
}

// about returns the angle from a to b as it is seen along an axis, right-handed.
func about(axis, a, b Vec) float64 {
	a, b = a.Sub(axis.Mul(a.Dot(axis))), b.Sub(axis.Mul(b.Dot(axis)))
	return math.Atan2(a.Cross(b).Dot(axis), a.Dot(b))
}

// meet returns the place where two planes, both moved into the panel by h, and the plane
// square to axis through mid meet.
func meet(a, b Touch, mid, axis Vec, h float64) Vec {
	ca, cb, cm := a.N.Dot(a.A)+h, b.N.Dot(b.A)+h, axis.Dot(mid)
	n := a.N.Cross(b.N)
	return b.N.Cross(axis).Mul(ca).Add(axis.Cross(a.N).Mul(cb)).Add(n.Mul(cm)).Mul(1 / n.Dot(axis))
}

// motion returns the rigid motion that takes a to p and the direction from a to b to that
// from p to q.
func motion(a, b, p, q plane.Point) plane.Affine {
	v, w := b.Sub(a), q.Sub(p)
	c, s := v.Dot(w), v.Cross(w)
	l := math.Hypot(c, s)
	c, s = c/l, s/l
	return plane.Affine{c, s, -s, c, p.X - c*a.X + s*a.Y, p.Y - s*a.X - c*a.Y}
}

// Laid returns the same strip with its flat panel moved by a rigid motion that does not turn
// it over.
func (s Strip) Laid(m plane.Affine) Strip {
	back, ok := m.Inverse()
	if !ok {
		panic("surface: a motion that can't be undone")
	}
	o, x, y := back.Apply(plane.Pt(0, 0)), back.Apply(plane.Pt(1, 0)), back.Apply(plane.Pt(0, 1))
	out := Strip{Start: Frame{Origin: s.Start.At(o.X, o.Y, 0), N: s.Start.N}, Rulings: append([]Ruling(nil), s.Rulings...)}
	out.Start.U = s.Start.At(x.X, x.Y, 0).Sub(out.Start.Origin)
	out.Start.V = s.Start.At(y.X, y.Y, 0).Sub(out.Start.Origin)
	for i := range out.Rulings {
		f := &out.Rulings[i].Flat
		f[0], f[1] = m.Apply(f[0]), m.Apply(f[1])
	}
	return out
}
