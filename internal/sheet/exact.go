package sheet

import (
	"math"
	"slices"

	"springrib/internal/plane"
)

// flatness is how far, in mm, the polylines of the exact tests may stand off the
// true curves; every distance they find is right within twice that.
const flatness = 0.001

// figure is a part or a bed as polylines in sheet coordinates, for exact tests.
type figure struct {
	edges  []edge      // of the outline and its holes
	boxes  []plane.Box // of the edges
	reach  []edge      // of the strokes that may leave the outline
	core   plane.Point
	within bool // core is a point inside
	box    plane.Box
}

// edge is a straight piece of a polyline.
type edge struct{ a, b plane.Point }

func (e edge) box() plane.Box {
	return plane.Box{Min: plane.Pt(min(e.a.X, e.b.X), min(e.a.Y, e.b.Y)), Max: plane.Pt(max(e.a.X, e.b.X), max(e.a.Y, e.b.Y))}
}

func (e edge) at(t float64) plane.Point { return e.a.Lerp(e.b, t) }

// newFigure flattens a region and its strokes under m.
func newFigure(r plane.Region, reach []plane.Path, m plane.Affine) *figure {
	f := &figure{box: plane.EmptyBox()}
	for _, p := range r.Paths() {
		f.edges = appendEdges(f.edges, p, m)
	}
	for _, p := range reach {
		f.reach = appendEdges(f.reach, p, m)
	}
	for _, e := range f.all() {
		f.box = f.box.Union(e.box())
	}
	f.bound()
	f.core, f.within = f.inner()
	return f
}

// bound notes the boxes of the edges.
func (f *figure) bound() {
	f.boxes = make([]plane.Box, len(f.edges))
	for i, e := range f.edges {
		f.boxes[i] = e.box()
	}
}

func (f *figure) all() []edge { return slices.Concat(f.edges, f.reach) }

func appendEdges(to []edge, p plane.Path, m plane.Affine) []edge {
	pts := p.Flatten(flatness)
	for i := range pts {
		pts[i] = m.Apply(pts[i])
		if i > 0 && pts[i] != pts[i-1] {
			to = append(to, edge{pts[i-1], pts[i]})
		}
	}
	return to
}

// inside reports whether p lies in f by the even-odd rule.
func (f *figure) inside(p plane.Point) bool {
	in := false
	for _, e := range f.edges {
		if (e.a.Y > p.Y) != (e.b.Y > p.Y) {
			if t := (p.Y - e.a.Y) / (e.b.Y - e.a.Y); p.X < e.a.X+t*(e.b.X-e.a.X) {
				in = !in
			}
		}
	}
	return in
}

// inner returns the middle of the widest run inside f on a few level lines.
func (f *figure) inner() (at plane.Point, ok bool) {
	box := plane.EmptyBox()
	for _, e := range f.edges {
		box = box.Union(e.box())
	}
	best := 0.0
	for k := range 16 {
		y := box.Min.Y + box.H()*(float64(k)+0.4871)/16
		var xs []float64
		for _, e := range f.edges {
			if (e.a.Y > y) != (e.b.Y > y) {
				xs = append(xs, e.a.X+(y-e.a.Y)/(e.b.Y-e.a.Y)*(e.b.X-e.a.X))
			}
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			if w := xs[i+1] - xs[i]; w > best {
				best, at, ok = w, plane.Pt((xs[i]+xs[i+1])/2, y), true
			}
		}
	}
	return at, ok
}

// off returns the distance from p to the nearest of the edges.
func off(p plane.Point, edges []edge) float64 {
	d := math.Inf(1)
	for _, e := range edges {
		d = min(d, e.dist(p))
	}
	return d
}

// dist returns the distance from p to e.
func (e edge) dist(p plane.Point) float64 {
	u := e.b.Sub(e.a)
	t := max(0, min(1, p.Sub(e.a).Dot(u)/u.Dot(u)))
	return p.Dist(e.at(t))
}

// cross returns where on e, from 0 to 1, it meets f, give or take 1e-9 of their
// lengths; ok is false when it does not or when they are parallel.
func (e edge) cross(f edge) (t float64, ok bool) {
	u, v, w := e.b.Sub(e.a), f.b.Sub(f.a), f.a.Sub(e.a)
	d := u.Cross(v)
	if d == 0 {
		return 0, false
	}
	t, s := w.Cross(v)/d, w.Cross(u)/d
	return t, min(t, s) >= -1e-9 && max(t, s) <= 1+1e-9
}

// apart returns the distance between e and f.
func (e edge) apart(f edge) float64 {
	if _, ok := e.cross(f); ok {
		return 0
	}
	return min(min(e.dist(f.a), e.dist(f.b)), min(f.dist(e.a), f.dist(e.b)))
}

// near returns the edges that come within d of the box.
func near(edges []edge, b plane.Box, d float64) []edge {
	b = b.Grow(d)
	var out []edge
	for _, e := range edges {
		if e.box().Overlaps(b) {
			out = append(out, e)
		}
	}
	return out
}

// runs calls yield with each piece into which the edges of f cut e: none of the
// pieces crosses f but by rounding, so that its middle tells on which side of f it
// lies.
func (e edge) runs(f *figure, yield func(edge)) {
	cuts := make([]float64, 2, 8)
	cuts[1] = 1
	box := e.box()
	for i := range f.boxes {
		if f.boxes[i].Overlaps(box) {
			if t, ok := e.cross(f.edges[i]); ok {
				cuts = append(cuts, t)
			}
		}
	}
	slices.Sort(cuts)
	for i, t := range cuts {
		cuts[i] = max(0, min(1, t))
		if i > 0 && cuts[i] > cuts[i-1] {
			yield(edge{e.at(cuts[i-1]), e.at(cuts[i])})
		}
	}
}

// farthest returns how far from the edge of f the ends and some inner points of e
// come, of those that lie inside f or, as asked, outside.
func (f *figure) farthest(e edge, inside bool) float64 {
	d := 0.0
	for _, t := range []float64{0, 0.15, 0.5, 0.85, 1} {
		if p := e.at(t); f.inside(p) == inside {
			d = max(d, off(p, f.edges))
		}
	}
	return d
}

// depth returns how deep the edges reach into f, in mm; 0 when they don't.
func (f *figure) depth(edges []edge) float64 {
	d := 0.0
	for _, e := range near(edges, f.box, 0) {
		e.runs(f, func(run edge) {
			if f.inside(run.at(0.5)) {
				d = max(d, f.farthest(run, true))
			}
		})
	}
	return d
}

// stray returns how far the edges reach out of f, in mm; 0 when they don't.
func (f *figure) stray(edges []edge) float64 {
	d := 0.0
	for _, e := range edges {
		e.runs(f, func(run edge) {
			if !f.inside(run.at(0.5)) {
				d = max(d, f.farthest(run, false))
			}
		})
	}
	return d
}

// clear returns the distance between two lots of edges, exact up to reach and at
// least reach beyond.
func clear(a, b []edge, reach float64) float64 {
	ab := plane.EmptyBox()
	for _, e := range a {
		ab = ab.Union(e.box())
	}
	b = near(b, ab, reach)
	d := reach
	for _, e := range b {
		eb := e.box().Grow(d)
		for _, g := range a {
			if g.box().Overlaps(eb) {
				d = min(d, e.apart(g))
			}
		}
	}
	return d
}

// onBed reports whether a piece lies on a bed, its overruns too, off the margin.
func onBed(p *Piece, at Place, bed *Bed) bool {
	room := bed.room()
	part := newFigure(p.Outline, p.Reach, at.Move())
	if !room.Grow(touch).ContainsBox(part.box) {
		return false
	}
	return bed.rectangle() || newFigure(bed.Region(), nil, plane.Identity()).holds(part, bed.Margin) <= touch
}

// holds returns by how much part leaves the bed f or comes nearer than margin to its
// edge, in mm; 0 when all is well.
func (f *figure) holds(part *figure, margin float64) float64 {
	all := part.all()
	if out := f.stray(all); out > touch {
		return margin + out
	}
	if in := part.depth(f.edges); in > touch { // a hole of the bed under the part
		return margin + in
	}
	return max(0, margin-clear(all, f.edges, margin))
}
