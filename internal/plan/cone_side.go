package plan

import (
	"math"

	"springrib/internal/plane"
)

// Side is a cone cut through its axis, seen from the side: its wide rim down at 0, X from the axis.
// Part of one is cut through its middle, to the right of the axis.
type Side struct {
	Walls  []plane.Path // of the panel
	Rings  []plane.Path // of the supports, index by index
	Glued  []plane.Path // the edges of the rings
	Scores []plane.Path // by fold: some of the far half whole, of the others a tick at the wide rim
}

// mostSeen is about how many scores a Side has whole, were there no near half: more would be a black
// wall. tick is what it shows of the others, as a share.
const (
	mostSeen = 60
	tick     = 0.05
)

// Side returns it; only of a cone.
func (p *Plan) Side() Side {
	k, t := p.Section.Cone, p.V.Sheet.T
	out := pt(math.Cos(k.Lean()), math.Sin(k.Lean())).Mul(t)
	foot, head := pt(k.Wide, 0), pt(k.Narrow, k.Height)
	right := plane.Poly(foot, foot.Add(out), head.Add(out), head)
	s := Side{Walls: []plane.Path{right.Apply(plane.Scale(-1, 1)), right}}
	if !p.Section.Closed {
		s.Walls = s.Walls[1:]
	}
	for _, r := range p.Supports.All {
		b := plane.Box{Min: pt(-k.Radius(r.Height), k.Height-r.Height-r.Thickness), Max: pt(k.Radius(r.Height), k.Height-r.Height)}
		glued := []float64{b.Min.X, b.Max.X}
		if !p.Section.Closed {
			b.Min.X = b.Max.X - r.Task.DepthAt(r.Along(p.Section.Edge.Length()/2))
			glued = glued[1:]
		}
		s.Rings = append(s.Rings, plane.RectPath(b))
		for _, x := range glued {
			s.Glued = append(s.Glued, plane.Open(pt(x, b.Min.Y), pt(x, b.Max.Y)))
		}
	}
	n := len(p.Scores.Layout.Folds)
	every := (n + mostSeen - 1) / mostSeen
	for i := range n {
		share := (float64(i) + 0.5) / float64(n)
		at := 2 * math.Pi * share
		x, far := -math.Sin(at), math.Cos(at) <= 0
		if !p.Section.Closed { // the middle of it lies to the right, and what comes after is far
			at = p.Section.Sweep * (share - 0.5)
			x, far = math.Cos(at), at >= 0
		}
		foot, head := pt(k.Wide*x, 0), pt(k.Narrow*x, k.Height)
		if !far || i%every != 0 {
			head = foot.Lerp(head, tick)
		}
		s.Scores = append(s.Scores, plane.Open(foot, head))
	}
	return s
}
