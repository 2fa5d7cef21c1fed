package part

import (
	"math"

	"springrib/internal/cut"
	"springrib/internal/plane"
	"springrib/internal/stock"
)

// Slot is a rectangular slot for a tenon: its middle, the direction of its length, and
// its size as finished, mm and radians.
type Slot struct {
	At            plane.Point
	Turn          float64
	Length, Width float64
}

// Path returns the slot's outline, counter-clockwise.
func (s Slot) Path() plane.Path {
	b := plane.Box{Min: plane.Pt(-s.Length/2, -s.Width/2), Max: plane.Pt(s.Length/2, s.Width/2)}
	return plane.RectPath(b).Apply(plane.Translate(s.At.X, s.At.Y).Mul(plane.Rotate(s.Turn)))
}

// BaseTask says what a base is made of.
type BaseTask struct {
	ID, Name string
	From     stock.Sheet
	Outline  plane.Path // closed
	Slots    []Slot
	Kerf     float64
	Quantity int
}

// NewBase makes a plate with slots. The slots are inner cuts, moved in by half the kerf,
// so that each comes out at its size.
func NewBase(t BaseTask) Part {
	out := plane.Region{Outer: t.Outline}
	for _, s := range t.Slots {
		out.Holes = append(out.Holes, s.Path())
	}
	p := Part{ID: t.ID, Name: t.Name, From: t.From, Outline: out.Normal(), Quantity: t.Quantity}
	p.free(t.Kerf)
	return p
}

// reliefTurn is how sharply an inside corner must turn to be cleared, radians.
const reliefTurn = math.Pi / 6

// leastSpur is the shortest run into a corner, mm: the tool can't be told of shorter ones.
const leastSpur = 0.0115

// Relieve clears the inside corners between straight cuts of a part for a round cutter of
// the given radius: the tool runs from the corner of its path on toward the corner of
// the material until it touches it, and back. A square tenon then goes home in a slot,
// and shoulders sit down.
func (p *Part) Relieve(radius float64) {
	if radius <= 0 {
		return
	}
	for i, w := range p.Work {
		if w.Path.Closed && (w.Kind == cut.Inner || w.Kind == cut.Outer) {
			p.Work[i].Path = relieved(w.Path, w.Kind == cut.Outer, radius)
		}
	}
}

// relieved runs into the corners of a tool's path. The material lies to the left of an
// outer path that runs counter-clockwise and of an inner one that runs clockwise; its
// inside corners turn to the right there.
func relieved(path plane.Path, outer bool, radius float64) plane.Path {
	p := path
	if p.IsCCW() != outer {
		p = p.Reverse()
	}
	n := len(p.Segs)
	var segs []plane.Segment
	for i, s := range p.Segs {
		segs = append(segs, s)
		next := p.Segs[(i+1)%n]
		if s.Kind != plane.Line || next.Kind != plane.Line {
			continue
		}
		a, b := s.Tangent(1), next.Tangent(0)
		turn := -turning(s, next)
		if turn < reliefTurn || turn > math.Pi-0.1 {
			continue
		}
		reach := radius/math.Sin((math.Pi-turn)/2) - radius
		if reach < leastSpur {
			continue
		}
		tip := s.B.Add(a.Left().Add(b.Left()).Unit().Mul(reach))
		segs = append(segs, plane.LineSeg(s.B, tip), plane.LineSeg(tip, s.B))
	}
	return plane.Path{Segs: segs, Closed: true}
}

// CornersLeft returns how far the cuts of a part stay short of the worst of its square
// inside corners, at which the other part of a joint has to go home, and how much of that
// any round tool leaves in such a corner.
func (p *Part) CornersLeft(cuts []Work, radius float64) (left, usual float64) {
	for _, path := range p.Outline.Paths() {
		for i, s := range path.Segs {
			next := path.Segs[(i+1)%len(path.Segs)]
			turn := -turning(s, next)
			if s.Kind != plane.Line || next.Kind != plane.Line || turn < reliefTurn || turn > math.Pi-0.1 {
				continue
			}
			off := math.Inf(1)
			for _, w := range cuts {
				if (w.Kind == cut.Inner || w.Kind == cut.Outer) && w.Path.Box().Grow(4*radius+1).Contains(s.B) {
					off = math.Min(off, toChords(w.Path.Flatten(0.02), s.B))
				}
			}
			if l := off - radius; l > left && !math.IsInf(l, 1) { // a slot that is lost is told of
				left, usual = l, radius/math.Sin((math.Pi-turn)/2)-radius
			}
		}
	}
	return left, usual
}

// turning is the angle between two pieces at their joint, positive to the left.
func turning(s, next plane.Segment) float64 {
	a, b := s.Tangent(1), next.Tangent(0)
	return math.Atan2(a.Cross(b), a.Dot(b))
}
