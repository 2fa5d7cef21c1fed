package plan

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/stand"
	"springrib/internal/surface"
)

const (
	// brickLength is how much of the panel one brick takes along the bend, mm, and so the
	// most that a brick is larger than what it stands for; mostBricks bounds their number.
	brickLength = 1.0
	mostBricks  = 600
)

// Stands cuts one copy into bricks.
func (p *Plan) Stands() stand.Standing {
	f := p.footFrame()
	bodies := [][]stand.Brick{p.panelBricks(f)}
	for _, s := range p.Supports.All {
		bodies = append(bodies, p.ribBricks(f, s))
	}
	return stand.New(bodies...)
}

// footFrame has its origin in the middle of the longest rib's foot, V away from the ribs
// and N up, in the section; package view stands the base in the same.
func (p *Plan) footFrame() surface.Frame {
	task := p.Supports.All[p.Supports.Longest].Task
	st := p.Section.Edge.At(task.Start)
	up, out := st.Tangent(), p.outward(st.Tangent())
	foot := st.P.Sub(out.Mul(task.FootDepth / 2))
	return surface.Frame{Origin: vec(foot), V: vec(out), N: vec(up)}
}

// outward returns the normal of a tangent of the edge that points to the panel's side.
func (p *Plan) outward(tangent plane.Point) plane.Point {
	if p.Section.PanelLeft {
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

// panelBricks cuts the bent panel along the bend, flat by flat, and each piece into as
// many as the outline has prongs there.
func (p *Plan) panelBricks(f surface.Frame) []stand.Brick {
	flats := p.Panel.frames
	box := p.Outline.Region.Outer.Box()
	step := math.Max(brickLength, box.W()/mostBricks)
	var cuts []float64
	for i := range flats {
		from, to := box.Min.X, box.Max.X
		if i > 0 {
			from = math.Max(from, p.Panel.Bent.Rulings[i-1].Flat[0].X)
		}
		if i < len(p.Panel.Bent.Rulings) {
			to = math.Min(to, p.Panel.Bent.Rulings[i].Flat[0].X)
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
	var out []stand.Brick
	flat := 0
	for i := 0; i+1 < len(cuts); i++ {
		a, b := cuts[i], cuts[i+1]
		for flat < len(p.Panel.Bent.Rulings) && p.Panel.Bent.Rulings[flat].Flat[0].X <= a+1e-9 {
			flat++
		}
		for _, w := range prongs[i] {
			piece := stand.None()
			for _, u := range []float64{a, b} {
				for _, h := range []float64{0, p.V.Sheet.T} {
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
func (p *Plan) prongs(cuts []float64) [][][2]float64 {
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
	outer := plane.Region{Outer: p.Outline.Region.Outer}
	for i, spans := range outer.ClipLines(pt(0, 0), pt(0, 1), lines) {
		for _, s := range spans {
			if s.To > s.From {
				out[i/3] = together(out[i/3], [2]float64{s.From, s.To})
			}
		}
	}
	return out
}

// together adds a stretch to others that are apart; those that it stand.Touches become one.
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
func (p *Plan) ribBricks(f surface.Frame, s Support) []stand.Brick {
	t := s.Task
	n := int(math.Ceil((t.End-t.Start)/math.Max(brickLength, (t.End-t.Start)/mostBricks) - 1e-9))
	var out []stand.Brick
	for i := range n {
		piece := stand.None()
		for _, k := range []int{i, i + 1} {
			at := t.Start + (t.End-t.Start)*float64(k)/float64(n)
			st := p.Section.Edge.At(at)
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

// room looks at the bodies that stand on a base, and says where two of them meet.
func (p *Plan) room(poses []plane.Affine) {
	s := p.Stands()
	p.strikes(s, poses)
	if len(poses) < 2 {
		return
	}
	if p.V.Base.Kind == design.RingBase {
		p.ringRoom(s, len(poses))
		return
	}
	low := stand.Touch{At: surface.Vec{Z: math.Inf(1)}}
	var a, b int
	far := 2 * s.Reach()
	for i, m := range poses {
		back, ok := m.Inverse()
		if !ok {
			panic("plan: a panel that can't be placed on its base")
		}
		for j := i + 1; j < len(poses); j++ {
			if m.Apply(plane.Point{}).Dist(poses[j].Apply(plane.Point{})) > far {
				continue
			}
			if t := s.Meets(back.Mul(poses[j]), 0); t.OK && t.At.Z < low.At.Z {
				low, a, b = t, i, j
			}
		}
		if p.V.Base.Kind == design.RowBase {
			break // each sees the next as the first does
		}
	}
	if !low.OK {
		return
	}
	f := p.meeting(low, a, b)
	if p.V.Base.Kind == design.RowBase {
		f.Place.Field = "base.pitch"
	} else {
		f.Place.Field = "base.places"
	}
	p.Findings = append(p.Findings, f)
}

// ringRoom is room for a ring.
func (p *Plan) ringRoom(s stand.Standing, n int) {
	radius := p.ring
	low, other := s.RingMeets(radius, n, 0)
	if !low.OK {
		return
	}
	f := p.meeting(low, 0, other)
	f.Place.Field = "base.radius"
	q := pt(low.At.X, low.At.Y+radius)
	f.Numbers["radius"], f.Numbers["fromMiddle"] = radius, q.Len()
	if q.Len() < 2*p.V.Sheet.T {
		f.Text += " That is over the middle of the ring."
	} else {
		f.Text += " That is " + p.len(q.Len()) + " from the middle of the ring."
	}
	p.Findings = append(p.Findings, f)
}

// meeting says of two panels that they stand in each other.
func (p *Plan) meeting(t stand.Touch, a, b int) finding.Finding {
	above := p.len(t.At.Z) + " above it"
	if t.At.Z < 0.01 {
		above = "right at its face"
	}
	return finding.Finding{
		ID: "panels-meet", Severity: finding.Warn, Place: finding.Place{Part: "base"},
		Text: "Bent, panels " + strconv.Itoa(a+1) + " and " + strconv.Itoa(b+1) + " on the base run into each other, " +
			above + p.whichSide(t) + ".",
		Numbers: map[string]float64{"first": float64(a + 1), "second": float64(b + 1), "height": math.Max(0, t.At.Z), "across": t.At.X, "outward": t.At.Y},
	}
}

// whichSide says whether they lean together behind the ribs or before the panels.
func (p *Plan) whichSide(t stand.Touch) string {
	switch {
	case t.At.Y < -p.V.Rib.FootDepth/2:
		return ", behind their ribs"
	case t.At.Y > p.V.Rib.FootDepth/2+2*p.V.Sheet.T:
		return ", before their feet"
	}
	return ""
}

// ringOf is the radius of a ring of n copies: as given, else as tight as the panels stand
// free of each other, feet and all that bends over them.
func (p *Plan) ringOf(n int) float64 {
	b := p.V.Base
	box := p.Outline.Region.Box()
	wide := 2*math.Max(math.Abs(box.Min.Y), math.Abs(box.Max.Y)) + BaseRoom
	// Standing on the ring, facing outward. The feet's inner corners keep apart.
	least := p.V.Rib.FootDepth + wide/(2*math.Tan(math.Pi/float64(max(n, 3))))
	if b.Radius.OK || n < 2 {
		return b.Radius.Or(least)
	}
	if r, ok := p.Stands().RingRadius(least, n, BaseRoom/2); ok {
		return r
	}
	return least
}

// strikes says where a panel that bends down again, or that hangs past its foot, comes
// below the upper face of the base.
func (p *Plan) strikes(s stand.Standing, poses []plane.Affine) {
	deep := -Seat
	var at plane.Point
	for _, m := range poses {
		for _, b := range s.Bricks() {
			if b.Lo.Z >= deep {
				continue
			}
			for _, q := range []plane.Point{b.Mid(), pt(b.Lo.X, b.Lo.Y), pt(b.Lo.X, b.Hi.Y), pt(b.Hi.X, b.Lo.Y), pt(b.Hi.X, b.Hi.Y)} {
				if p.Base.Outline.Contains(m.Apply(q)) {
					deep, at = b.Lo.Z, b.Mid()
				}
			}
		}
	}
	if deep >= -Seat {
		return
	}
	where := "in front of its foot"
	if at.Y < 0 {
		where = "behind its foot"
	}
	p.Findings = append(p.Findings, finding.Finding{
		ID: "panel-strikes-base", Severity: finding.Warn, Place: finding.Place{Part: "base", Field: "base.kind"},
		Text:    "The bent panel reaches " + p.len(-deep) + " below the face of the base, " + p.len(math.Abs(at.Y)) + " " + where + ": the base is in its way. Raise the foot with a longer straight, or make the base smaller there.",
		Numbers: map[string]float64{"below": -deep, "outward": at.Y},
	})
}
