package stand

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/surface"
)

const (
	// brickLength is how much of the panel one brick takes along the bend, mm, and so the
	// most that a brick is larger than what it stands for; mostBricks bounds their number.
	brickLength = 1.0
	mostBricks  = 600
)

// stands cuts one copy into bricks.
func (p *plate) stands() Standing {
	f := p.Frame()
	bodies := [][]Brick{p.PanelBricks(f)}
	for _, s := range p.Feet {
		bodies = append(bodies, p.ribBricks(f, s))
	}
	return New(bodies...)
}

// Frame has its origin in the middle of the longest rib's foot, V away from the ribs
// and N up, in the section; package view stands the base in the same.
func (p *Task) Frame() surface.Frame {
	task := p.Feet[p.Longest].Task
	st := p.Edge.At(task.Start)
	up, out := st.Tangent(), p.outward(st.Tangent())
	foot := st.P.Sub(out.Mul(task.FootDepth / 2))
	return surface.Frame{Origin: vec(foot), V: vec(out), N: vec(up)}
}

// outward returns the normal of a tangent of the edge that points to the panel's side.
func (p *Task) outward(tangent plane.Point) plane.Point {
	if p.PanelLeft {
		return tangent.Left()
	}
	return tangent.Left().Mul(-1)
}

func vec(q plane.Point) surface.Vec { return surface.Vec{X: q.X, Y: q.Y} }

// seen returns a place of the section in the foot's frame, v along the scores.
func seen(f surface.Frame, q surface.Vec, v float64) surface.Vec {
	d := q.Sub(f.Origin)
	return surface.Vec{X: v, Y: d.Dot(f.V), Z: d.Dot(f.N)}
}

// PanelBricks cuts the bent panel along the bend, flat by flat, and each piece into as
// many as the outline has prongs there.
func (p *Task) PanelBricks(f surface.Frame) []Brick {
	flats := p.Frames
	box := p.Outline.Outer.Box()
	step := math.Max(brickLength, box.W()/mostBricks)
	var cuts []float64
	for i := range flats {
		from, to := box.Min.X, box.Max.X
		if i > 0 {
			from = math.Max(from, p.Bent.Rulings[i-1].Flat[0].X)
		}
		if i < len(p.Bent.Rulings) {
			to = math.Min(to, p.Bent.Rulings[i].Flat[0].X)
		}
		if to <= from {
			continue
		}
		n := math.Ceil((to-from)/step - 1e-9)
		for k := range int(n) {
			cuts = append(cuts, from+(to-from)*float64(k)/n)
		}
		if i+1 == len(flats) {
			cuts = append(cuts, to)
		}
	}
	prongs := p.prongs(cuts)
	var out []Brick
	flat := 0
	for i := 0; i+1 < len(cuts); i++ {
		a, b := cuts[i], cuts[i+1]
		for flat < len(p.Bent.Rulings) && p.Bent.Rulings[flat].Flat[0].X <= a+1e-9 {
			flat++
		}
		for _, w := range prongs[i] {
			piece := None()
			for _, u := range []float64{a, b} {
				for _, h := range []float64{0, p.Values.Sheet.T} {
					q := flats[flat].At(u, 0, h)
					piece.Add(seen(f, q, w[0]))
					piece.Add(seen(f, q, w[1]))
				}
			}
			out = append(out, piece)
		}
	}
	return out
}

// prongs returns from where to where the outline lies across, over each piece between
// cuts: as at its ends and its middle.
func (p *Task) prongs(cuts []float64) [][][2]float64 {
	var lines []float64
	for i := 0; i+1 < len(cuts); i++ {
		d := cuts[i+1] - cuts[i]
		for _, k := range []float64{1e-3, 0.5, 1 - 1e-3} {
			// To the left of a line that runs up lies the side of smaller u.
			lines = append(lines, -(cuts[i] + k*d))
		}
	}
	if len(lines) == 0 {
		return nil
	}
	out := make([][][2]float64, len(cuts)-1)
	outer := plane.Region{Outer: p.Outline.Outer}
	for i, spans := range outer.ClipLines(plane.Pt(0, 0), plane.Pt(0, 1), lines) {
		for _, s := range spans {
			if s.To > s.From {
				out[i/3] = together(out[i/3], [2]float64{s.From, s.To})
			}
		}
	}
	return out
}

// together adds a stretch to others that are apart; those that it touches become one.
func together(apart [][2]float64, s [2]float64) [][2]float64 {
	kept := apart[:0]
	for _, o := range apart {
		if o[0] > s[1] || o[1] < s[0] {
			kept = append(kept, o)
			continue
		}
		s = [2]float64{math.Min(o[0], s[0]), math.Max(o[1], s[1])}
	}
	return append(kept, s)
}

// ribBricks cuts a rib along its edge.
func (p *Task) ribBricks(f surface.Frame, s Foot) []Brick {
	t := s.Task
	n := int(math.Ceil((t.End-t.Start)/math.Max(brickLength, (t.End-t.Start)/mostBricks) - 1e-9))
	var out []Brick
	for i := range n {
		piece := None()
		for _, k := range []int{i, i + 1} {
			at := t.Start + (t.End-t.Start)*float64(k)/float64(n)
			st := p.Edge.At(at)
			back := st.P.Sub(p.outward(st.Tangent()).Mul(t.DepthAt(at)))
			for _, q := range []plane.Point{st.P, back} {
				piece.Add(seen(f, vec(q), s.Across-s.Thickness/2))
				piece.Add(seen(f, vec(q), s.Across+s.Thickness/2))
			}
		}
		out = append(out, piece)
	}
	return out
}
