package sheet

import (
	"math"

	"springrib/internal/plane"
)

// kind is a solid at one of its turns.
type kind struct {
	shape       int // alike for kinds of a piece that differ by quarter turns
	turn        float64
	body, reach []convex
	slack       float64
	box         plane.Box // of all tool paths, exact
	size        float64   // diagonal of box
	across      float64   // its lesser side
	cover       bounds    // of body and reach, grown so that those of two that overlap meet
	hull        float64   // area of the hull of body
	holed       bool
	quarters    int // of its turn, beyond what is under a quarter
	piece       int
	rest        float64 // of the turn, without the quarters
}

func newKind(p *Piece, s *solid, turn, gap float64) *kind {
	m := plane.Rotate(turn)
	k := &kind{turn: turn, slack: s.slack, box: p.extents(m), holed: s.holed}
	k.size = math.Hypot(k.box.W(), k.box.H())
	quarters := math.Floor(turn/(math.Pi/2) + sameTurn)
	k.quarters, k.rest = int(math.Mod(quarters, 4))&3, turn-quarters*(math.Pi/2)
	k.across = min(k.box.W(), k.box.H())
	var all convex
	for _, c := range s.body {
		k.body = append(k.body, c.apply(m))
		all = append(all, k.body[len(k.body)-1]...)
	}
	k.hull = hull(all).area()
	for _, c := range s.reach {
		k.reach = append(k.reach, c.apply(m))
		all = append(all, k.reach[len(k.reach)-1]...)
	}
	k.cover = all.bounds(s.slack + gap/2)
	return k
}

// sameTurn is how little two turns may differ, in radians, and count as one.
const sameTurn = 1e-12

// alike gives a kind its shape: that of one before it, or its own number.
func (k *kind) alike(before []*kind) {
	for _, b := range before {
		if b.piece == k.piece && math.Abs(b.rest-k.rest) <= sameTurn {
			k.shape = b.shape
			return
		}
	}
	k.shape = len(before)
}

// turnedBack returns what a kind covers with so many quarter turns less.
func (k *kind) turnedBack(quarters int) *kind {
	m := [4]plane.Affine{{1, 0, 0, 1, 0, 0}, {0, -1, 1, 0, 0, 0}, {-1, 0, 0, -1, 0, 0}, {0, 1, -1, 0, 0, 0}}[quarters]
	out := &kind{slack: k.slack}
	for _, c := range k.body {
		out.body = append(out.body, c.apply(m))
	}
	for _, c := range k.reach {
		out.reach = append(out.reach, c.apply(m))
	}
	return out
}
