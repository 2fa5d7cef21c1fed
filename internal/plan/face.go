package plan

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/surface"
)

// Corners returns where each fold breaks the panel as it lies, at height h over the
// contact face: in the plane that halves the fold; of a cone at its wide rim.
func (p *Plan) Corners(h float64) []plane.Point {
	frames := p.Panel.frames
	out := make([]plane.Point, len(p.Panel.Bent.Rulings))
	for i, r := range p.Panel.Bent.Rulings {
		c := r.Corner(h, false)[0]
		if p.Ruled() {
			c = r.Corner(h, false)[1]
		}
		out[i] = inSection(frames[i].At(c.X, c.Y, h))
	}
	return out
}

// Face returns the corners of the face at height h over the contact face of the panel as
// it lies, from its foot edge to its tip; of a cone at its wide rim.
func (p *Plan) Face(h float64) []plane.Point {
	frames, corners := p.Panel.frames, p.Corners(h)
	first := 0
	for first < len(p.Scores.Layout.Folds) && p.Scores.Layout.Folds[first].U <= p.Outline.From {
		first++
	}
	last := first
	for last < len(p.Scores.Layout.Folds) && p.Scores.Layout.Folds[last].U < p.Outline.To {
		last++
	}
	end := func(flat int, u float64) plane.Point {
		at := pt(u, 0)
		if p.Ruled() {
			at = p.InFlat(u, p.Width()/2)
		}
		return inSection(frames[flat].At(at.X, at.Y, h))
	}
	out := append([]plane.Point{end(first, p.Outline.From)}, corners[first:last]...)
	return append(out, end(last, p.Outline.To))
}

// inSection is a place of the bent panel as its section has it.
func inSection(v surface.Vec) plane.Point { return plane.Pt(v.X, v.Y) }

// Measure returns the distance between the ends of the face away from the rib, of the panel
// as it lies, and its greatest height over the line through them, mm.
func (p *Plan) Measure() (span, rise float64) {
	pts := p.Face(p.V.Sheet.T)
	a, b := pts[0], pts[len(pts)-1]
	n := b.Sub(a).Unit().Left()
	for _, q := range pts {
		rise = math.Max(rise, math.Abs(q.Sub(a).Dot(n)))
	}
	return a.Dist(b), rise
}
