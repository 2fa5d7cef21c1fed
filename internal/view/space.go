package view

import (
	"math"
	"strconv"

	"springrib/internal/form"
	"springrib/internal/hinge"
	"springrib/internal/plane"
	"springrib/internal/surface"
	"springrib/internal/wire"
)

// show adds what the page wants besides the usual drawings.
func (w *worked) show(out *wire.PlanView, arrays *[][]float32, show wire.Show) {
	switch show.Kind {
	case "space":
		s, a := w.space(len(*arrays))
		out.Space = &s
		*arrays = append(*arrays, a...)
	case "isometric":
		d, a := w.isometric(show.Folded)
		out.Drawings = append(out.Drawings, d)
		*arrays = append(*arrays, a)
	}
}

// handed returns +1 or -1: which way v runs along Z, so that the show face, looked at
// from outside with the foot to the left, is seen as the outline is given.
func (w *worked) handed() float64 {
	p := &w.plan
	// With the panel to the left, U x Z points away from it.
	hand := 1.0
	if p.Section.PanelLeft {
		hand = -1
	}
	if p.V.Panel.ShowFace == p.V.Rib.Side { // the contact face shows
		hand = -hand
	}
	return hand
}

// strip returns the panel as it lies, with v along Z as handed says.
func (w *worked) strip() surface.Strip {
	s := w.plan.Panel.Bent
	if w.plan.Ruled() {
		return s // it opens the way that shows it so
	}
	s.Start.V = surface.Vec{Z: w.handed()}
	return s
}

// sheet returns the panel as a body.
func (w *worked) sheet() form.Sheet {
	p := &w.plan
	sc := p.Law().Score()
	root := sc.Width
	if sc.Bottom == hinge.Vee {
		root = sc.RootWidth
	}
	out := form.Sheet{
		Outline: p.Outline.Region, Strip: w.strip(), Thickness: p.V.Sheet.T,
		Depth: sc.Depth, Mouth: sc.Width, Root: root, Contact: p.Section.Towards,
	}
	if p.Ruled() {
		out.Outline, out.Flat = p.Joined(), p.InFlat
		for _, f := range p.Scores.Layout.Folds {
			out.Lines = append(out.Lines, f.U)
		}
	}
	return out
}

// space returns the panel and its ribs as bodies, the arrays counted from first on.
func (w *worked) space(first int) (wire.Space, [][]float32) {
	m := form.NewMesh(w.sheet())
	out := wire.Space{
		First: first, File: plainName(w.doc, "bent", ""), Scores: len(w.plan.Scores.Layout.Folds),
		Body: m.Body.Ends, Slots: m.Slots.Ends, Edges: m.Edges.Ends, Lines: m.Scores.Ends,
		Own: len(w.plan.Supports.All), Turned: w.turned(), Marks: w.marks(),
	}
	flat, bent := w.beside()
	faces, edges := w.stand(&out)
	frames, hinges := w.motion()
	out.Bent = boxOf(m.Body.Bent, faces)
	out.Straight = boxOf(carried(m.Body.Flat, w.strip().Start), faces)
	return out, [][]float32{
		m.Body.Flat, m.Body.Bent, m.Slots.Flat, m.Slots.Bent, m.Edges.Flat, m.Edges.Bent, m.Scores.Flat, m.Scores.Bent,
		flat, bent, frames, hinges, faces, edges, w.copies(),
	}
}

// motion returns the frames and hinges as the page takes them.
func (w *worked) motion() (frames, hinges []float32) {
	s := w.strip()
	for _, f := range form.Fold(s) {
		for _, v := range []surface.Vec{f.U, f.V, f.N} {
			frames = append(frames, float32(v.X), float32(v.Y), float32(v.Z), 0)
		}
		frames = append(frames, float32(f.Origin.X), float32(f.Origin.Y), float32(f.Origin.Z), 1)
	}
	for _, h := range form.Hinges(s) {
		hinges = append(hinges, float32(h.At.X), float32(h.At.Y), float32(h.At.Z),
			float32(h.Axis.X), float32(h.Axis.Y), float32(h.Axis.Z), float32(h.Turn))
	}
	return frames, hinges
}

// board is a flat part as it stands in space.
type board struct {
	ref     string
	outline plane.Region
	frame   surface.Frame
	h0, h1  float64
}

// plates returns the ribs at their places across the panel, and the base that they stand
// in, where there is one.
func (w *worked) plates() []board {
	out := w.ribBoards()
	if base, ok := w.base(); ok {
		out = append(out, base)
	}
	return out
}

// ribBoards returns the ribs of the first panel.
func (w *worked) ribBoards() []board {
	p := &w.plan
	hand := w.handed()
	var out []board
	for _, s := range p.Supports.All {
		a, b := hand*(s.Across-s.Thickness/2), hand*(s.Across+s.Thickness/2)
		if p.Ruled() {
			a, b = p.Up()*s.Low, p.Up()*(s.Low+s.Thickness)
		}
		out = append(out, board{p.Ribs.Kinds[s.Kind].ID, p.Ribs.Kinds[s.Kind].Outline, form.Section(), math.Min(a, b), math.Max(a, b)})
	}
	return out
}

// floor returns the frame of the base as the first panel's foot sees it: X along the
// scores, Y away from the ribs, square to their feet; the origin is the middle of a foot.
func (w *worked) floor() (surface.Frame, bool) {
	p := &w.plan
	if p.Base == nil || len(p.Supports.All) == 0 {
		return surface.Frame{}, false
	}
	task := p.Supports.All[p.Supports.Longest].Task
	st := p.Section.Edge.At(task.Start)
	up, out := st.Tangent(), st.Tangent().Left()
	if !p.Section.PanelLeft {
		out = out.Mul(-1)
	}
	foot := st.P.Sub(out.Mul(task.FootDepth / 2))
	return surface.Frame{
		Origin: surface.Vec{X: foot.X, Y: foot.Y}, U: surface.Vec{Z: w.handed()},
		V: surface.Vec{X: out.X, Y: out.Y}, N: surface.Vec{X: up.X, Y: up.Y},
	}, true
}

// underFirst carries the base, whose slots are placed about its middle, so that those of
// the first panel come under its ribs.
func (w *worked) underFirst() plane.Affine {
	back, ok := w.plan.Base.Poses[0].Inverse()
	if !ok {
		panic("view: a panel that can't be placed on its base")
	}
	return back
}

// base returns the base with the panel in its first slots.
func (w *worked) base() (board, bool) {
	f, ok := w.floor()
	if !ok {
		return board{}, false
	}
	p := &w.plan
	return board{p.Base.ID, p.Base.Outline.Apply(w.underFirst()), f, -p.V.Base.Thickness, 0}, true
}

// rigid is a motion of solid bodies: where the axes come to lie, and the origin.
type rigid struct{ x, y, z, at surface.Vec }

// still leaves everything where it is.
func still() rigid {
	return rigid{x: surface.Vec{X: 1}, y: surface.Vec{Y: 1}, z: surface.Vec{Z: 1}}
}

func (c rigid) turn(d surface.Vec) surface.Vec {
	return c.x.Mul(d.X).Add(c.y.Mul(d.Y)).Add(c.z.Mul(d.Z))
}

func (c rigid) place(p surface.Vec) surface.Vec { return c.turn(p).Add(c.at) }

// others returns what carries the first panel to the place of each other one on the base.
func (w *worked) others() []rigid {
	f, ok := w.floor()
	if !ok {
		return nil
	}
	var out []rigid
	back := w.underFirst()
	for _, pose := range w.plan.Base.Poses[1:] {
		m := back.Mul(pose)
		o := m.Apply(plane.Point{})
		u, v := m.Apply(plane.Pt(1, 0)).Sub(o), m.Apply(plane.Pt(0, 1)).Sub(o)
		toU, toV := f.U.Mul(u.X).Add(f.V.Mul(u.Y)), f.U.Mul(v.X).Add(f.V.Mul(v.Y))
		// A direction goes from the one frame to the other by its shares along the axes.
		turn := func(d surface.Vec) surface.Vec {
			return toU.Mul(d.Dot(f.U)).Add(toV.Mul(d.Dot(f.V))).Add(f.N.Mul(d.Dot(f.N)))
		}
		out = append(out, rigid{
			turn(surface.Vec{X: 1}), turn(surface.Vec{Y: 1}), turn(surface.Vec{Z: 1}),
			f.At(o.X, o.Y, 0).Sub(turn(f.Origin)),
		})
	}
	return out
}

// copies returns the same as the page takes it, column by column.
func (w *worked) copies() []float32 {
	out := []float32{}
	for _, c := range w.others() {
		for _, d := range []surface.Vec{c.x, c.y, c.z} {
			out = append(out, float32(d.X), float32(d.Y), float32(d.Z), 0)
		}
		out = append(out, float32(c.at.X), float32(c.at.Y), float32(c.at.Z), 1)
	}
	return out
}

// stand returns the bodies of the plates.
func (w *worked) stand(out *wire.Space) (faces, edges []float32) {
	for _, pl := range w.plates() {
		body := form.NewPrism(pl.outline, pl.frame, pl.h0, pl.h1)
		faces, edges = append(faces, body.Faces...), append(edges, body.Edges...)
		out.Ribs = append(out.Ribs, wire.Extent{Ref: pl.ref, Faces: len(faces) / 3, Edges: len(edges) / 3})
	}
	return faces, edges
}

// beside returns a place at the panel's edge for each score, on the side toward +Z, half
// way through the sheet, flat and bent.
func (w *worked) beside() (flat, bent []float32) {
	p := &w.plan
	hand, frames, h := w.handed(), form.Fold(w.strip()), p.V.Sheet.T/2
	if p.Ruled() {
		return w.besideRuled(frames, h)
	}
	for i, r := range p.Panel.Bent.Rulings {
		v := p.Outline.Region.Box().Max.Y
		if hand < 0 {
			v = p.Outline.Region.Box().Min.Y
		}
		if spans := p.Outline.Region.ClipLine(r.Flat[0], r.Flat[1]); len(spans) > 0 {
			dir := r.Flat[1].Sub(r.Flat[0]).Unit()
			end := spans[len(spans)-1].To
			if hand < 0 {
				end = spans[0].From
			}
			v = r.Flat[0].Add(dir.Mul(end)).Y
		}
		u := r.Flat[0].X
		b := frames[i].At(r.Corner(h, false)[0].X, v, h)
		flat = append(flat, float32(u), float32(v), float32(h))
		bent = append(bent, float32(b.X), float32(b.Y), float32(b.Z))
	}
	return flat, bent
}

// besideRuled returns the same of a panel whose scores run apart, at its wide rim or far rib.
func (w *worked) besideRuled(frames []surface.Frame, h float64) (flat, bent []float32) {
	p := &w.plan
	for i, f := range p.Scores.Layout.Folds {
		q := p.InFlat(f.U, p.Width()/2)
		b := frames[i].At(q.X, q.Y, h)
		flat = append(flat, float32(q.X), float32(q.Y), float32(h))
		bent = append(bent, float32(b.X), float32(b.Y), float32(b.Z))
	}
	return flat, bent
}

// marks gathers the scores that are near a limit into runs.
func (w *worked) marks() []wire.SpaceMark {
	var out []wire.SpaceMark
	for _, s := range w.scores() {
		if !s.Near {
			continue
		}
		if n := len(out); n > 0 && out[n-1].Last == s.N-1 {
			out[n-1].Last = s.N
			continue
		}
		out = append(out, wire.SpaceMark{First: s.N, Last: s.N})
	}
	for i := range out {
		m := &out[i]
		m.At, m.Text = (m.First+m.Last)/2, strconv.Itoa(m.First)
		if m.Last > m.First {
			m.Text += "-" + strconv.Itoa(m.Last)
		}
	}
	return out
}

// carried returns flat places where a frame puts them.
func carried(flat []float32, f surface.Frame) []float32 {
	out := make([]float32, 0, len(flat))
	for i := 0; i+2 < len(flat); i += 3 {
		v := f.At(float64(flat[i]), float64(flat[i+1]), float64(flat[i+2]))
		out = append(out, float32(v.X), float32(v.Y), float32(v.Z))
	}
	return out
}

// boxOf returns least and greatest X, Y and Z.
func boxOf(runs ...[]float32) [6]float64 {
	xy, z := plane.EmptyBox(), plane.EmptyBox()
	for _, run := range runs {
		for i := 0; i+2 < len(run); i += 3 {
			xy = xy.Add(plane.Pt(float64(run[i]), float64(run[i+1])))
			z = z.Add(plane.Pt(float64(run[i+2]), 0))
		}
	}
	return [6]float64{xy.Min.X, xy.Min.Y, z.Min.X, xy.Max.X, xy.Max.Y, z.Max.X}
}
