package view

import (
	"math"
	"sort"

	"springrib/internal/design"
	"springrib/internal/form"
	"springrib/internal/plane"
	"springrib/internal/surface"
	"springrib/internal/wire"
)

// isometric draws the panel on its ribs as seen from +X, +Y and +Z alike, lengths along
// all three in one scale, bent as far as a share of its scores from the foot. It is what
// a page shows that can't draw in space.
//
// Nothing is cut at what hides it: what lies behind is drawn first. That is right for the
// flats of a panel and the ribs that it bends about, for ribs beside each other, the base
// that they stand on, and panels that stand behind each other on it.
func (w *worked) isometric(folded float64) (wire.Drawing, []float32) {
	s := newSketch("isometric", "Bent, in space")
	base, onBase := w.base()
	under := onBase && toEye(base.frame.N) > 0
	if under {
		drawPlate(s, base)
	}
	all := append([]rigid{w.lying()}, w.others()...)
	sort.SliceStable(all, func(i, j int) bool {
		return toEye(all[i].place(base.frame.Origin)) < toEye(all[j].place(base.frame.Origin))
	})
	mesh := form.NewMesh(w.sheet())
	for _, c := range all {
		w.onePanel(s, mesh, folded, c)
	}
	if onBase && !under {
		drawPlate(s, base)
	}
	return s.done(4)
}

// lying is how the first panel lies: as the curve is drawn, or, where its ribs are under its
// round side, on them.
func (w *worked) lying() rigid {
	if w.turned() {
		return rigid{x: surface.Vec{X: -1}, y: surface.Vec{Y: -1}, z: surface.Vec{Z: 1}}
	}
	return still()
}

// turned tells whether it lies on ribs under its round side.
func (w *worked) turned() bool {
	_, onBase := w.base()
	p := &w.plan
	return p.V.Rib.Side == design.Round && len(p.Supports.All) > 0 && !onBase && !p.Section.Closed && !p.Ruled()
}

// onePanel draws a panel and its ribs at one place of the base.
func (w *worked) onePanel(s *sketch, mesh form.Mesh, folded float64, c rigid) {
	flats := w.leaves(mesh, folded, c)
	sort.SliceStable(flats, func(i, j int) bool { return flats[i].depth < flats[j].depth })
	// A rib lies on the contact side: before the flats that turn this side away from the
	// eye, behind those that show it.
	for _, f := range flats {
		if f.contact {
			f.draw(s)
		}
	}
	ribs := w.ribBoards()
	for i, b := range ribs {
		ribs[i].frame = surface.Frame{Origin: c.place(b.frame.Origin), U: c.turn(b.frame.U), V: c.turn(b.frame.V), N: c.turn(b.frame.N)}
	}
	sort.SliceStable(ribs, func(i, j int) bool { return ribs[i].near() < ribs[j].near() })
	for _, b := range ribs {
		drawPlate(s, b)
	}
	for _, f := range flats {
		if !f.contact {
			f.draw(s)
		}
	}
}

// toEye is the direction to the eye, and seen where a place falls on the paper.
func toEye(v surface.Vec) float64 { return (v.X + v.Y + v.Z) / math.Sqrt(3) }

func seen(v surface.Vec) plane.Point {
	const cos30, sin30 = 0.8660254037844386, 0.5
	return plane.Pt((v.X-v.Z)*cos30, v.Y-(v.X+v.Z)*sin30)
}

// leaf is one flat of the panel as it is seen.
type leaf struct {
	score         int  // at its end
	contact       bool // its contact face is toward the eye
	depth         float64
	flank, face   []plane.Path // triangles
	slot          []plane.Path
	lines, scores []plane.Path
}

func (f leaf) draw(s *sketch) {
	s.path("flank", "panel", f.flank...)
	s.path("slot", "panel", f.slot...)
	s.path("face", "panel", f.face...)
	s.path("flat", "panel", f.lines...)
	if f.score > 0 {
		s.path("score", scoreRef(f.score), f.scores...)
	}
}

// leaves returns the flats of the panel bent so far, carried to its place.
func (w *worked) leaves(m form.Mesh, folded float64, c rigid) []leaf {
	sheet := w.sheet()
	n := len(sheet.Strip.Rulings)
	at := math.Max(0, math.Min(1, folded)) * float64(n)
	frames := form.Partly(sheet.Strip, at)
	out := make([]leaf, len(frames))
	for i, f := range frames {
		l := &out[i]
		l.contact = toEye(c.turn(f.N)) < 0
		if i < n {
			l.score = i + 1
		}
		// The face that is seen is the skin's or the cut one.
		skin := sheet.Contact != l.contact
		height := sheet.Thickness
		if l.contact {
			height = 0
		}
		bent := i <= int(at)
		g := gatherer{frame: f, bent: bent, flat: i, carry: c}
		for _, t := range g.take(m.Body, 3) {
			switch {
			case t.level(height):
				l.face = append(l.face, t.path())
			case !t.level(sheet.Thickness - height):
				l.flank = append(l.flank, t.path())
			}
			l.depth += toEye(t.middle()) // the same for all flats but for their number of triangles
		}
		l.depth /= math.Max(1, float64(len(l.face)+len(l.flank)))
		if !skin {
			for _, t := range g.take(m.Slots, 3) {
				l.slot = append(l.slot, t.path())
			}
			for _, t := range g.take(m.Scores, 2) {
				if t.level(height) && i < n && alongside(t, sheet.Strip.Rulings[i]) {
					l.scores = append(l.scores, t.path())
				}
			}
		}
		for _, t := range g.take(m.Edges, 2) {
			if t.level(height) {
				l.lines = append(l.lines, t.path())
			}
		}
	}
	return out
}

// alongside tells whether a line of the flat panel runs along a ruling.
func alongside(b bit, r surface.Ruling) bool {
	d, e := b.flat[1].Sub(b.flat[0]), r.Flat[1].Sub(r.Flat[0])
	return math.Abs(d.X*e.Y-d.Y*e.X) < 1e-4*math.Hypot(d.X, d.Y)*e.Len()
}

// gatherer takes the places of one flat out of a mesh.
type gatherer struct {
	frame surface.Frame
	bent  bool // where the mesh has it bent; otherwise where frame puts it
	flat  int
	carry rigid // to its place on the base
}

// bit is a line or triangle: its places in the flat panel and in space.
type bit struct{ flat, at []surface.Vec }

func (g gatherer) take(p form.Points, size int) []bit {
	from := 0
	if g.flat > 0 {
		from = p.Ends[g.flat-1]
	}
	vec := func(a []float32, i int) surface.Vec {
		return surface.Vec{X: float64(a[3*i]), Y: float64(a[3*i+1]), Z: float64(a[3*i+2])}
	}
	var out []bit
	for i := from; i+size <= p.Ends[g.flat]; i += size {
		var b bit
		for k := i; k < i+size; k++ {
			f := vec(p.Flat, k)
			b.flat = append(b.flat, f)
			if g.bent {
				b.at = append(b.at, g.carry.place(vec(p.Bent, k)))
			} else {
				b.at = append(b.at, g.carry.place(g.frame.At(f.X, f.Y, f.Z)))
			}
		}
		out = append(out, b)
	}
	return out
}

// level tells whether all of it lies at one height of the panel.
func (b bit) level(h float64) bool {
	for _, f := range b.flat {
		if math.Abs(f.Z-h) > 1e-4 {
			return false
		}
	}
	return true
}

func (b bit) middle() surface.Vec {
	var sum surface.Vec
	for _, v := range b.at {
		sum = sum.Add(v)
	}
	return sum.Mul(1 / float64(len(b.at)))
}

// path returns it on the paper; triangles all run one way round, so that those of one
// item add up.
func (b bit) path() plane.Path {
	var pts []plane.Point
	for _, v := range b.at {
		pts = append(pts, seen(v))
	}
	if len(pts) == 2 {
		return plane.Open(pts...)
	}
	p := plane.Poly(pts...)
	if p.Area() < 0 {
		return p.Reverse()
	}
	return p
}

// near orders ribs beside each other from the furthest to the nearest.
func (pl board) near() float64 {
	return toEye(pl.frame.N) * (pl.h0 + pl.h1) / 2
}

// drawPlate draws what is seen of the walls of a plate, then its cap on this side.
func drawPlate(s *sketch, pl board) {
	near := pl.h1
	if toEye(pl.frame.N) < 0 {
		near = pl.h0
	}
	at := func(q plane.Point, h float64) plane.Point { return seen(pl.frame.At(q.X, q.Y, h)) }
	var walls, caps []plane.Path
	for _, loop := range form.Outlines(pl.outline) {
		var cap []plane.Point
		for i, a := range loop {
			b := loop[(i+1)%len(loop)]
			cap = append(cap, at(a, near))
			// The material lies to the left of a, b: a wall shows when its right is to the eye.
			d := b.Sub(a)
			if toEye(pl.frame.U.Mul(d.Y).Sub(pl.frame.V.Mul(d.X))) > 0 {
				walls = append(walls, plane.Poly(at(a, pl.h0), at(b, pl.h0), at(b, pl.h1), at(a, pl.h1)))
			}
		}
		caps = append(caps, plane.Poly(cap...))
	}
	s.path("wall", pl.ref, walls...)
	s.path("plate", pl.ref, caps...)
}
