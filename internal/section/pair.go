package section

import (
	"math"
	"sort"

	"springrib/internal/curve"
	"springrib/internal/plane"
	"springrib/internal/skin"
	"springrib/internal/surface"
)

// Pair is what a panel goes over that has a section of its own at either rib: the skin between two
// edges in planes that are parallel. The near one lies in the plane of the section, the far one a
// distance apart from it.
//
// Section.Edge stands in for it as the edge of a cylinder: at each place it bends as the skin does
// square to its rulings where these lie closest together, at the one rib or at the other.
type Pair struct {
	Near, Far curve.Curve
	Apart     float64 // mm
	Up        float64 // 1 where the far edge lies toward +Z, else -1
	Skin      skin.Skin
	spans     []span
}

// span is one piece of the skin by the arc length u of the stand-in edge: the places x along the
// skin, and how long both edges are up to there.
type span struct {
	u, x, near, far []float64
	ratios          [][2]float64 // of the spacing at either edge, to that where it is less
	turns           []float64    // of the touching plane since the place before, rad
	lean            []float64    // sine of the lean toward the far rib
	sign            int          // of the bend: +1 left, -1 right, 0 for a plane piece
}

// steps is in how many steps a bend of the skin is measured: one for each 0.05 rad, as Smooth asks,
// and a few in any case.
func steps(turn float64) int { return max(8, int(math.Ceil(math.Abs(turn)/0.05))) }

// NewPair returns the pair of two edges, and why there is none. left tells that the panel lies to
// the left of both.
func NewPair(near, far curve.Curve, apart, up float64, left bool) (*Pair, *skin.Refusal) {
	p := &Pair{Near: near, Far: far, Apart: apart, Up: up}
	x, y := surface.Vec{X: 1}, surface.Vec{Y: 1}
	made, no := skin.Parallel(skin.Rail{Curve: near, X: x, Y: y}, skin.Rail{Curve: far, Origin: surface.Vec{Z: up * apart}, X: x, Y: y}, left)
	if no != nil {
		return nil, no
	}
	p.Skin = made
	u := 0.0
	for i := range made.Pieces {
		s := p.measured(i, u)
		u = s.u[len(s.u)-1]
		p.spans = append(p.spans, s)
	}
	return p, nil
}

// measured returns a piece of the skin along the stand-in edge from u on.
func (p *Pair) measured(k int, u float64) span {
	piece := &p.Skin.Pieces[k]
	n, s := 1, span{turns: []float64{0}}
	if piece.Turn != 0 {
		n, s.sign = steps(piece.Turn), int(math.Copysign(1, piece.Turn))
	}
	var widths [][2]float64
	var last skin.Ruling
	for i := range n + 1 {
		f := float64(i) / float64(n)
		r := p.Skin.In(k, f)
		s.x, s.near, s.far = append(s.x, piece.From+(piece.To-piece.From)*f), append(s.near, r.A), append(s.far, r.B)
		s.lean = append(s.lean, r.N.Z*p.Up)
		if i > 0 {
			turn := math.Atan2(last.N.Cross(r.N).Len(), last.N.Dot(r.N))
			w := p.apart(last, r)
			for j := range w { // of an arc, not of its chord
				w[j] *= 1 + turn*turn/24
			}
			widths, s.turns = append(widths, w), append(s.turns, turn)
		}
		last = r
	}
	s.u, s.ratios = []float64{u}, make([][2]float64, n+1)
	for i, w := range widths {
		least, most := math.Min(w[0], w[1]), math.Max(w[0], w[1])
		step := least
		if s.sign == 0 && least < 1e-6*most { // a triangle, which has a corner on one edge
			step = (least + most) / 2
		}
		s.u = append(s.u, s.u[i]+step)
		for j := range w {
			q := w[j] / math.Max(least, 1e-9)
			s.ratios[i][j] += q / 2
			s.ratios[i+1][j] += q / 2
		}
	}
	for j := range 2 {
		s.ratios[0][j], s.ratios[n][j] = 2*s.ratios[0][j], 2*s.ratios[n][j]
	}
	return s
}

// apart returns how far two rulings are apart at either rail, square to the one half way.
func (p *Pair) apart(r, o skin.Ruling) [2]float64 {
	a, b := p.ends(r), p.ends(o)
	e := b[1].Sub(b[0]).Unit().Add(a[1].Sub(a[0]).Unit()).Unit()
	var out [2]float64
	for i := range out {
		d := b[i].Sub(a[i])
		out[i] = d.Sub(e.Mul(d.Dot(e))).Len()
	}
	return out
}

// ends returns where a ruling meets both edges, in space.
func (p *Pair) ends(r skin.Ruling) [2]surface.Vec {
	return [2]surface.Vec{p.Skin.A.At(r.A), p.Skin.B.At(r.B)}
}

// at returns the span of a place u of the stand-in edge, and its step there.
func (p *Pair) at(u float64) (s *span, i int, f float64) {
	k := sort.Search(len(p.spans)-1, func(k int) bool { return u <= p.spans[k].u[len(p.spans[k].u)-1] })
	s = &p.spans[k]
	i = min(max(sort.SearchFloat64s(s.u, u), 1), len(s.u)-1)
	return s, i, math.Min(math.Max((u-s.u[i-1])/(s.u[i]-s.u[i-1]), 0), 1)
}

func between(v []float64, i int, f float64) float64 { return v[i-1] + (v[i]-v[i-1])*f }

// X returns the place along the skin of a place u of the stand-in edge.
func (p *Pair) X(u float64) float64 {
	s, i, f := p.at(u)
	return between(s.x, i, f)
}

// Ratios returns how many times as far apart the scores lie there at the near edge and at the far one
// as where they lie closer together.
func (p *Pair) Ratios(u float64) [2]float64 {
	const hair = 1e-6
	s, i, f := p.at(u)
	if last := len(s.u) - 1; s.sign == 0 && u > s.u[last]-hair { // of the bend that begins there
		s, i, f = p.at(u + 2*hair)
	} else if s.sign == 0 && u < s.u[0]+hair {
		s, i, f = p.at(u - 2*hair)
	}
	if s.sign == 0 {
		return [2]float64{1, 1}
	}
	a, b := s.ratios[i-1], s.ratios[i]
	return [2]float64{a[0] + (b[0]-a[0])*f, a[1] + (b[1]-a[1])*f}
}

// Wider returns how many times as far apart the scores lie at their wider end there.
func (p *Pair) Wider(u float64) float64 {
	r := p.Ratios(u)
	return math.Max(r[0], r[1])
}

// Stance returns the most that the panel leans against the planes of its edges, and the least angle
// between a score and an edge, rad; and how far apart the edges would have to lie, mm, for it to lean
// by 60 degrees at most and slant by 30 at least. Parallel edges moved apart keep their skin's pairing.
func (p *Pair) Stance() (lean, slant, apart float64) {
	slant = math.Pi / 2
	tan := math.Sqrt(3) // of 60 degrees
	for _, s := range p.spans {
		for i, x := range s.x {
			lean = math.Max(lean, math.Abs(math.Asin(math.Max(-1, math.Min(1, s.lean[i])))))
			ends := p.ends(p.Skin.At(x))
			r, n := ends[1].Sub(ends[0]), p.Skin.Touch(x).N
			t := n.Cross(surface.Vec{Z: 1}).Unit() // along the edges, which lie in planes of one Z
			along, off := math.Abs(r.Dot(t)), math.Abs(r.Dot(t.Cross(surface.Vec{Z: 1})))
			slant = math.Min(slant, math.Atan2(r.Sub(t.Mul(r.Dot(t))).Len(), along))
			apart = math.Max(apart, math.Max(off/tan, math.Sqrt(math.Max(0, along*along/(tan*tan)-off*off))))
		}
	}
	return lean, slant, apart
}

// Chord returns the same of a flat that touches both edges with its corners, at u and v: both chords
// head alike, as both edges do.
func (p *Pair) Chord(u, v float64) [2]surface.Touch {
	a, b := p.Touch(u), p.Touch(v)
	n := b.A.Sub(a.A).Unit().Add(b.B.Sub(a.B).Unit()).Cross(a.B.Add(b.B).Sub(a.A.Add(b.A))).Unit()
	if n.Dot(a.N) < 0 {
		n = n.Mul(-1)
	}
	a.N, b.N = n, n
	return [2]surface.Touch{a, b}
}

// Touch returns where the flat that touches at u does so.
func (p *Pair) Touch(u float64) surface.Touch { return p.Skin.Touch(p.X(u)) }

// On returns the arc length along the edge at a height that lies at u.
func (p *Pair) On(u, height float64) float64 {
	s, i, f := p.at(u)
	k := height / p.Apart
	return (1-k)*between(s.near, i, f) + k*between(s.far, i, f)
}

// edge returns the stand-in edge. It begins where the near one does.
func (p *Pair) edge() curve.Curve {
	at := p.Near.At(0)
	var shapes []curve.Shape
	for _, s := range p.spans {
		at.Kappa = 0
		states, ss := []curve.State{at}, []float64{0}
		for i := 1; i < len(s.u); i++ {
			turn, step := 0.0, s.u[i]-s.u[i-1]
			if s.sign != 0 {
				turn = float64(s.sign) * s.turns[i]
			}
			chord := step
			if math.Abs(turn) > 1e-9 {
				chord = step * math.Sin(turn/2) / (turn / 2)
			}
			at.P = at.P.Add(plane.Dir(at.Phi + turn/2).Mul(chord))
			at.Phi += turn
			states, ss = append(states, at), append(ss, ss[i-1]+step)
		}
		if s.sign != 0 {
			curvatures(states, ss, float64(s.sign))
		}
		shapes = append(shapes, smoothly(states, ss, s.sign))
	}
	return curve.Join(shapes...)
}

// curvatures fills in the curvature of states along a bend, by their heading.
func curvatures(at []curve.State, ss []float64, sign float64) {
	n := len(at) - 1
	mean := func(i int) float64 { return (at[i+1].Phi - at[i].Phi) / (ss[i+1] - ss[i]) }
	for i := 1; i < n; i++ {
		h, k := ss[i]-ss[i-1], ss[i+1]-ss[i]
		at[i].Kappa = (mean(i-1)*k + mean(i)*h) / (h + k)
	}
	at[0].Kappa = sign * math.Max(0, sign*(2*mean(0)-at[1].Kappa))
	at[n].Kappa = sign * math.Max(0, sign*(2*mean(n-1)-at[n-1].Kappa))
}

// Edge returns the edge of a rib at a height over the near one: both edges, and each between them,
// head alike along one ruling, so that its places, its length and its radii are shared in proportion.
func (p *Pair) Edge(height float64) curve.Curve {
	k := height / p.Apart
	switch {
	case math.Abs(k) < 1e-12:
		return p.Near
	case math.Abs(k-1) < 1e-12:
		return p.Far
	}
	var shapes []curve.Shape
	for _, s := range p.spans {
		if c, ok := p.shared(&s, k); ok {
			shapes = append(shapes, c)
		}
	}
	return curve.Join(shapes...)
}

// shared returns the piece of edge at a share of the way, unless it has no length.
func (p *Pair) shared(s *span, k float64) (curve.Shape, bool) {
	var at []curve.State
	var ss []float64
	for i := range s.u {
		a, b := p.Near.At(s.near[i]), p.Far.At(s.far[i])
		st := curve.State{P: a.P.Lerp(b.P, k), Phi: a.Phi}
		if s.sign != 0 { // as the bend has it at its ends, not what comes next
			st.Kappa = 1 / ((1-k)/p.Near.Kappa(inside(s.near, i)) + k/p.Far.Kappa(inside(s.far, i)))
		}
		at = append(at, st)
		ss = append(ss, (1-k)*(s.near[i]-s.near[0])+k*(s.far[i]-s.far[0]))
	}
	if ss[len(ss)-1] < 1e-9 {
		return nil, false
	}
	return smoothly(at, ss, s.sign), true
}

// inside returns entry i of places in order, or at their ends a hair before or after it.
func inside(s []float64, i int) float64 {
	const hair = 1e-9
	return math.Min(math.Max(s[i], s[0]+hair), s[len(s)-1]-hair)
}

// smoothly returns the piece of curve through states that turns as sign says: one arc, or a straight,
// where all bend alike.
func smoothly(at []curve.State, ss []float64, sign int) curve.Shape {
	n := len(at) - 1
	even := true
	for _, s := range at {
		even = even && math.Abs(s.Kappa-at[0].Kappa) <= 1e-9*math.Abs(at[0].Kappa)
	}
	if even {
		piece := curve.Piece{Length: ss[n], Kappa: at[0].Kappa}
		return curve.Chain(at[0].P, at[0].Phi, piece).Stretches()[0].Shape
	}
	return curve.Smooth(at, ss, sign)
}
