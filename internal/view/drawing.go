package view

import (
	"math"
	"slices"

	"springrib/internal/plane"
	"springrib/internal/wire"
)

// sketch builds one Drawing and its numbers. It is given mm with Y up and writes Y
// down, as screens have it.
type sketch struct {
	d   wire.Drawing
	buf []float32
	box plane.Box
}

func newSketch(id, title string) *sketch {
	return &sketch{d: wire.Drawing{ID: id, Title: title}, box: plane.EmptyBox()}
}

// path adds an item of one or more paths.
func (s *sketch) path(role, ref string, paths ...plane.Path) {
	from := len(s.buf)
	for _, p := range paths {
		s.run(p)
	}
	if len(s.buf) > from {
		s.d.Items = append(s.d.Items, wire.Item{Role: role, Ref: ref, From: from, To: len(s.buf)})
	}
}

func (s *sketch) run(p plane.Path) {
	if len(p.Segs) == 0 {
		return
	}
	s.box = s.box.Union(p.Box())
	numbers := 4 // of the start and the end; an arc is at most eight cubics
	for i := range p.Segs {
		switch p.Segs[i].Kind {
		case plane.Line:
			numbers += 3
		case plane.Cubic:
			numbers += 7
		default:
			numbers += 7 * (1 + int(math.Abs(p.Segs[i].Sweep())/(math.Pi/4)))
		}
	}
	s.buf = slices.Grow(s.buf, numbers)
	s.put(0, p.Segs[0].A)
	for _, seg := range p.Segs {
		switch seg.Kind {
		case plane.Line:
			s.put(1, seg.B)
		default:
			for _, c := range seg.Cubics() {
				s.put(2, c.C, c.D, c.B)
			}
		}
	}
	if p.Closed {
		s.buf = append(s.buf, 3)
	}
}

func (s *sketch) put(op float32, pts ...plane.Point) {
	s.buf = append(s.buf, op)
	for _, p := range pts {
		s.buf = append(s.buf, float32(p.X), float32(-p.Y))
	}
}

// label adds a figure or word at p.
func (s *sketch) label(p plane.Point, anchor, text string, turn float64) {
	s.d.Labels = append(s.d.Labels, wire.Label{
		X: p.X, Y: -p.Y, Text: text, Anchor: anchor, Turn: -turn * 180 / math.Pi,
	})
}

// dimension draws a joiner's dimension line from a to b, set off to the left of a-b,
// with ticks and its figure over the middle.
func (s *sketch) dimension(a, b plane.Point, off float64, text string) {
	dir := b.Sub(a).Unit()
	n := dir.Left().Mul(off)
	p, q := a.Add(n), b.Add(n)
	tick := dir.Add(dir.Left()).Mul(1.2)
	ext := n.Unit().Mul(1.5)
	s.path("dimension", "",
		plane.Open(p, q),
		plane.Open(p.Sub(tick), p.Add(tick)), plane.Open(q.Sub(tick), q.Add(tick)),
		plane.Open(a.Add(ext), p.Add(ext)), plane.Open(b.Add(ext), q.Add(ext)))
	turn := math.Atan2(dir.Y, dir.X)
	if turn > math.Pi/2+1e-9 || turn <= -math.Pi/2+1e-9 {
		turn -= math.Copysign(math.Pi, turn)
	}
	s.label(p.Lerp(q, 0.5), "middle", text, turn)
}

// done closes the drawing with a margin around what was drawn.
func (s *sketch) done(margin float64) (wire.Drawing, []float32) {
	b := s.box.Grow(margin)
	s.d.Box = [4]float64{b.Min.X, -b.Max.Y, b.W(), b.H()}
	if s.d.Labels == nil {
		s.d.Labels = []wire.Label{}
	}
	return s.d, s.buf
}
