// Package stand is the plate that ribs stand in, and whether the bodies on it keep out of
// each other's way.
//
// NewBase takes ribs with their feet, the panel's outline and the panel as it lies bent. It
// returns the plate with a slot for every tenon, how each copy stands on it, and what there is
// to say: slots that run into each other, tenons too long, panels that meet or strike the plate.
//
// A body is cut into short bricks whose sides lie along the scores of its panel, square to
// its foot and upward: a cylinder's are that by themselves, but for the slant of a short
// piece. Two copies differ by a turn about the upright and a move, so that two bricks meet
// where their heights overlap and their rectangles, seen from above, do.
package stand

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/surface"
)

// mostRadius is the largest ring that is looked at, mm.
const mostRadius = 50_000.0

// Brick is a box about a piece of a copy: X along the scores, Y away from the ribs, Z up
// from the base.
type Brick struct{ Lo, Hi surface.Vec }

// None is the brick about nothing.
func None() Brick {
	inf := math.Inf(1)
	return Brick{surface.Vec{X: inf, Y: inf, Z: inf}, surface.Vec{X: -inf, Y: -inf, Z: -inf}}
}

// Add makes b so large that a place lies in it.
func (b *Brick) Add(v surface.Vec) {
	b.Lo = surface.Vec{X: math.Min(b.Lo.X, v.X), Y: math.Min(b.Lo.Y, v.Y), Z: math.Min(b.Lo.Z, v.Z)}
	b.Hi = surface.Vec{X: math.Max(b.Hi.X, v.X), Y: math.Max(b.Hi.Y, v.Y), Z: math.Max(b.Hi.Z, v.Z)}
}

// pile is bricks in order along the bend with the boxes of their halves, quarters...
type pile struct {
	box         Brick
	left, right *pile // nil for a single brick
}

func newPile(bricks []Brick) *pile {
	if len(bricks) == 1 {
		return &pile{box: bricks[0]}
	}
	n := len(bricks) / 2
	p := &pile{left: newPile(bricks[:n]), right: newPile(bricks[n:])}
	p.box = p.left.box
	p.box.Add(p.right.box.Lo)
	p.box.Add(p.right.box.Hi)
	return p
}

// Standing is one copy: the panel and its ribs.
type Standing struct{ piles []*pile }

// New puts a copy together of bodies, each of bricks in order; empty ones are left out.
func New(bodies ...[]Brick) Standing {
	var out Standing
	for _, b := range bodies {
		if len(b) > 0 {
			out.piles = append(out.piles, newPile(b))
		}
	}
	return out
}

// Touch is where two copies meet: the lowest such place in the first one's frame.
type Touch struct {
	At surface.Vec
	OK bool
}

// Meets finds the lowest place at which two copies come closer than gap, the second one
// moved by m against the first.
func (s Standing) Meets(m plane.Affine, gap float64) Touch {
	low := Touch{At: surface.Vec{Z: math.Inf(1)}}
	for _, a := range s.piles {
		for _, b := range s.piles {
			low.search(a, b, m, gap)
		}
	}
	return low
}

func (t *Touch) search(a, b *pile, m plane.Affine, gap float64) {
	z := math.Max(a.box.Lo.Z, b.box.Lo.Z)
	if z >= t.At.Z || z > math.Min(a.box.Hi.Z, b.box.Hi.Z) || !bricksMeet(a.box, b.box, m, gap) {
		return
	}
	switch {
	case a.left == nil && b.left == nil:
		c := a.box.Lo.Add(a.box.Hi).Mul(0.5)
		*t = Touch{surface.Vec{X: c.X, Y: c.Y, Z: z}, true}
	case b.left == nil || a.left != nil && extentOf(a.box) >= extentOf(b.box):
		first, second := lowerFirst(a)
		t.search(first, b, m, gap)
		t.search(second, b, m, gap)
	default:
		first, second := lowerFirst(b)
		t.search(a, first, m, gap)
		t.search(a, second, m, gap)
	}
}

func extentOf(b Brick) float64 { return b.Hi.Sub(b.Lo).Len() }

func lowerFirst(p *pile) (first, second *pile) {
	if p.right.box.Lo.Z < p.left.box.Lo.Z {
		return p.right, p.left
	}
	return p.left, p.right
}

// bricksMeet tells whether two bricks, seen from above, come closer than gap, b moved by m:
// two rectangles are apart if a side of one of them parts them. The gap is kept along the
// sides, and at corners a little more.
func bricksMeet(a, b Brick, m plane.Affine, gap float64) bool {
	ca, cb := a.Mid(), m.Apply(b.Mid())
	o := m.Apply(plane.Point{})
	ux, uy := m.Apply(plane.Pt(1, 0)).Sub(o), m.Apply(plane.Pt(0, 1)).Sub(o)
	ha, hb := half(a), half(b)
	d := cb.Sub(ca)
	for _, n := range []plane.Point{plane.Pt(1, 0), plane.Pt(0, 1), ux, uy} {
		ra := ha.X*math.Abs(n.X) + ha.Y*math.Abs(n.Y)
		rb := hb.X*math.Abs(n.Dot(ux)) + hb.Y*math.Abs(n.Dot(uy))
		if math.Abs(d.Dot(n)) >= ra+rb+gap {
			return false
		}
	}
	return true
}

// Mid is the middle of a brick seen from above.
func (b Brick) Mid() plane.Point { return plane.Pt((b.Lo.X+b.Hi.X)/2, (b.Lo.Y+b.Hi.Y)/2) }
func half(b Brick) plane.Point   { return plane.Pt((b.Hi.X-b.Lo.X)/2, (b.Hi.Y-b.Lo.Y)/2) }

// Reach is how far a copy goes from the middle of its foot, seen from above.
func (s Standing) Reach() float64 {
	far := 0.0
	for _, p := range s.piles {
		for _, q := range []plane.Point{plane.Pt(p.box.Lo.X, p.box.Lo.Y), plane.Pt(p.box.Lo.X, p.box.Hi.Y), plane.Pt(p.box.Hi.X, p.box.Lo.Y), plane.Pt(p.box.Hi.X, p.box.Hi.Y)} {
			far = math.Max(far, q.Len())
		}
	}
	return far
}

// RingMeets tells where copies of a ring meet. Each sees the others as every other one
// does, so that the first against half of them is enough.
func (s Standing) RingMeets(radius float64, n int, gap float64) (low Touch, other int) {
	low.At.Z = math.Inf(1)
	first := plane.Translate(0, radius)
	back := plane.Translate(0, -radius)
	for k := 1; k <= n/2; k++ {
		m := back.Mul(plane.Rotate(2 * math.Pi * float64(k) / float64(n))).Mul(first)
		if t := s.Meets(m, gap); t.OK && t.At.Z < low.At.Z {
			low, other = t, k
		}
	}
	return low, other
}

// RingRadius is the least radius from a start on at which n copies keep the gap, to a
// tenth of a millimetre and then rounded up to whole ones; ok is false where none up to
// what a base can be does. Bodies further from the middle only come apart, so that it can
// be found by halving.
func (s Standing) RingRadius(from float64, n int, gap float64) (r float64, ok bool) {
	free := func(r float64) bool { t, _ := s.RingMeets(r, n, gap); return !t.OK }
	if free(from) {
		return from, true
	}
	lo, hi := from, math.Max(from, s.Reach())
	for !free(hi) {
		if lo, hi = hi, 2*hi; hi > mostRadius {
			return 0, false
		}
	}
	for hi-lo > 0.1 {
		if m := (lo + hi) / 2; free(m) {
			hi = m
		} else {
			lo = m
		}
	}
	return math.Ceil(hi), free(math.Ceil(hi))
}

// RowPitch is the least whole pitch from one on at which two copies side by side are free.
func (s Standing) RowPitch(from float64) (float64, bool) {
	most := 0.0
	for _, p := range s.piles {
		most = math.Max(most, p.box.Hi.X-p.box.Lo.X)
	}
	for pitch := math.Ceil(from); pitch <= math.Ceil(2*most)+1; pitch++ {
		if !s.Meets(plane.Translate(pitch, 0), 0).OK {
			return pitch, true
		}
	}
	return 0, false
}

// Bricks returns the single bricks of a copy.
func (s Standing) Bricks() []Brick {
	var out []Brick
	var walk func(*pile)
	walk = func(p *pile) {
		if p.left == nil {
			out = append(out, p.box)
			return
		}
		walk(p.left)
		walk(p.right)
	}
	for _, p := range s.piles {
		walk(p)
	}
	return out
}
