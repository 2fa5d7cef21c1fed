package form

import (
	"math"

	"springrib/internal/plane"
	"springrib/internal/surface"
)

// Sheet is a scored panel as a body: its outline lying flat, the strip it bends by, its
// thickness, and the scores as slots. The rulings must be lines u = const in the places of
// the outline, in order: those of the flat panel for a cylinder, for other strips a map in
// which they are.
type Sheet struct {
	Outline plane.Region // u along X, v along Y
	// Lines are the places u of the rulings in that map, and Flat takes a place of it to the
	// flat panel; both nil where the map is the flat panel itself.
	Lines     []float64
	Flat      func(u, v float64) plane.Point
	Strip     surface.Strip
	Thickness float64
	Depth     float64 // of a score
	Mouth     float64 // width of a score at the face it is cut from
	Root      float64 // width at its bottom, at most Mouth
	Contact   bool    // the scores are cut from the contact face, not from the other
}

// Points is a run of places, three numbers each, told twice: in the flat panel (u, v
// and the height over the contact face) and in space, bent. They belong to the flats in
// order: Ends[i] is how many places belong to flats up to i.
type Points struct {
	Flat, Bent []float32
	Ends       []int
}

// Mesh is a panel to be drawn. Body and Slots are triangles of three places each, in no
// particular winding: Slots is what the tool has burnt or cut bare. Edges and Scores are
// lines of two places: the outline on both faces, and the scores on the face they are
// cut from with their profile where they leave the panel. A score belongs to the flat
// before it.
//
// Each flat is rigid; between two, the skin is mitred: in space its faces meet in the
// plane that halves the fold.
type Mesh struct {
	Body, Slots, Edges, Scores Points
}

// NewMesh returns the panel as a mesh, folded whole.
func NewMesh(s Sheet) Mesh {
	b := mesher{Sheet: s, frames: Fold(s.Strip)}
	for _, r := range s.Strip.Rulings {
		if s.Lines == nil {
			b.lines = append(b.lines, r.Flat[0].X)
		}
		b.mitres = append(b.mitres, mitreOf(r))
	}
	if s.Lines != nil {
		b.lines = s.Lines
	}
	b.root, b.level, b.cut = math.Min(s.Root, s.Mouth)/2, s.Thickness-s.Depth, s.Thickness
	if s.Contact {
		b.skin, b.level, b.cut = s.Thickness, s.Depth, 0
	}
	b.spans()
	outlines := loops(s.Outline)
	all := slabs(outlines, b.cuts())
	b.out.Body.grow(3 * 6 * 4 * len(all))
	b.out.Slots.grow(3 * 6 * 2 * len(all))
	b.out.Edges.grow(3 * 2 * 4 * len(all))
	b.out.Scores.grow(3 * 2 * 4 * len(all))
	b.outline(outlines, all)
	return b.out
}

// grow makes room for so many numbers.
func (p *Points) grow(n int) {
	p.Flat, p.Bent = make([]float32, 0, n), make([]float32, 0, n)
}

// zone is a stretch of one flat that has one profile.
type zone struct {
	u0, u1 float64
	h0, h1 float64 // heights of the cut side at its ends
	slot   bool    // the tool has been there
	flat   int
	// wall is set where the cut side steps from the last zone to this: from that height.
	wall  bool
	below float64
}

// mesher builds a Mesh.
type mesher struct {
	Sheet
	frames           []surface.Frame
	lines            []float64 // of the rulings: u
	mitres           []mitre
	root             float64 // half the width at the bottom
	skin, level, cut float64 // heights of the skin's face, of the bottom of a score, of the scored face
	zones            []zone
	flats            []int // first zone of each flat
	out              Mesh
}

// spans lays out the zones of all flats along the bend.
func (b *mesher) spans() {
	lo, hi := b.Outline.Box().Min.X-1, b.Outline.Box().Max.X+1
	rs := b.lines
	for i := range b.frames {
		b.flats = append(b.flats, len(b.zones))
		from, to := lo, hi
		if i > 0 {
			from = rs[i-1]
		}
		if i < len(rs) {
			to = rs[i]
		}
		// A mouth wider than its share of the land leaves nothing of it standing.
		mouth := math.Min(b.Mouth/2, (to-from)/2)
		root := math.Min(b.root, mouth)
		if i > 0 {
			b.step(i, from, from+root, b.level, b.level, true)
			b.step(i, from+root, from+mouth, b.level, b.cut, true)
			from += mouth
		}
		end := to
		if i < len(rs) {
			end -= mouth
		}
		b.step(i, from, end, b.cut, b.cut, false)
		if i < len(rs) {
			b.step(i, end, to-root, b.cut, b.level, true)
			b.step(i, to-root, to, b.level, b.level, true)
		}
	}
}

// step adds a zone, with a wall before it where the cut side steps within one flat.
func (b *mesher) step(flat int, u0, u1, h0, h1 float64, slot bool) {
	if u1 <= u0 {
		return
	}
	z := zone{u0: u0, u1: u1, h0: h0, h1: h1, slot: slot, flat: flat}
	if n := len(b.zones); n > b.flats[flat] && b.zones[n-1].h1 != h0 {
		z.wall, z.below = true, b.zones[n-1].h1
	}
	b.zones = append(b.zones, z)
}

func (b *mesher) cuts() []float64 {
	var out []float64
	for _, z := range b.zones {
		out = append(out, z.u0)
	}
	return out
}

// outline goes through the slabs in order and draws what bounds each, then closes the
// flat.
func (b *mesher) outline(outlines [][]plane.Point, all []slab) {
	ends := endsOf(outlines)
	corners := cornersOf(outlines)
	at, e, c := 0, 0, 0
	for i, z := range b.zones {
		if i > 0 && z.flat != b.zones[i-1].flat {
			b.close(z.flat)
		}
		last := i+1 == len(b.zones)
		for ; at < len(all) && (all[at].u0 < z.u1 || last); at++ {
			if z.wall && all[at].u0 == z.u0 {
				b.face(z.flat, true, b.upright(all[at].u0, all[at].lo0, all[at].hi0, z.below, z.h0))
				b.notch(z, all[at])
			}
			b.slab(z, all[at])
		}
		for ; e < len(ends) && (ends[e].u < z.u1 || last); e++ {
			b.end(z, ends[e])
		}
		for ; c < len(corners) && (corners[c].X < z.u1 || last); c++ {
			p := corners[c]
			b.line(&b.out.Edges, z.flat, b.place(z, p.X, p.Y, b.skin), b.place(z, p.X, p.Y, z.height(p.X)))
		}
	}
	b.close(len(b.frames))
}

// close ends the flats before flat.
func (b *mesher) close(flat int) {
	for _, p := range []*Points{&b.out.Body, &b.out.Slots, &b.out.Edges, &b.out.Scores} {
		for len(p.Ends) < flat {
			p.Ends = append(p.Ends, len(p.Flat)/3)
		}
	}
}

func (z zone) height(u float64) float64 {
	return z.h0 + (z.h1-z.h0)*(u-z.u0)/(z.u1-z.u0)
}

// corner is a place of the flat panel; mitre is -1 at the first ruling of its flat, +1 at the
// second.
type corner struct {
	u, v, h float64
	mitre   float64
}

// corner returns a place of the outline's map where it lies in the flat panel.
func (b *mesher) corner(u, v, h float64) corner {
	if b.Flat != nil {
		q := b.Flat(u, v)
		u, v = q.X, q.Y
	}
	return corner{u: u, v: v, h: h}
}

// place returns a corner of the flat of z, mitred when it lies on a ruling.
func (b *mesher) place(z zone, u, v, h float64) corner {
	c := b.corner(u, v, h)
	rs := b.lines
	switch {
	case z.flat > 0 && u == rs[z.flat-1]:
		c.mitre = -1
	case z.flat < len(rs) && u == rs[z.flat]:
		c.mitre = 1
	}
	return c
}

// put adds a corner of a flat to a run.
func (b *mesher) put(p *Points, flat int, c corner) { p.add(c, b.bent(flat, c)) }

// add adds a place as it lies flat and bent.
func (p *Points) add(c corner, v surface.Vec) {
	p.Flat = append(p.Flat, float32(c.u), float32(c.v), float32(c.h))
	p.Bent = append(p.Bent, float32(v.X), float32(v.Y), float32(v.Z))
}

// mitre is the plane that halves a fold: from says where the pivot is so high over the contact
// face, rise how much higher it is along the ruling; on is how far, and which way, a place a
// millimetre below the pivot lies from the ruling.
type mitre struct {
	from, rise, on plane.Point
	height         float64
}

func mitreOf(r surface.Ruling) mitre {
	along := r.Flat[1].Sub(r.Flat[0])
	return mitre{
		from: r.Flat[0], height: r.Height[0], rise: along.Mul((r.Height[1] - r.Height[0]) / along.Dot(along)),
		on: along.Unit().Left().Mul(math.Tan(r.Turn / 2)),
	}
}

// bent returns where a corner lies in space. Both flats at a ruling take it from the one
// before, to the last bit: the least gap between them would shine through.
func (b *mesher) bent(flat int, c corner) surface.Vec {
	if c.mitre < 0 {
		flat--
	}
	u, v := c.u, c.v
	if c.mitre != 0 {
		m := &b.mitres[flat]
		off := m.height + (u-m.from.X)*m.rise.X + (v-m.from.Y)*m.rise.Y - c.h
		u, v = u+off*m.on.X, v+off*m.on.Y
	}
	return b.frames[flat].At(u, v, c.h)
}

// face adds a four-sided face.
func (b *mesher) face(flat int, slot bool, q [4]corner) {
	p := &b.out.Body
	if slot {
		p = &b.out.Slots
	}
	var at [4]surface.Vec
	for i, c := range q {
		at[i] = b.bent(flat, c)
	}
	for _, i := range [6]int{0, 1, 2, 0, 2, 3} {
		p.add(q[i], at[i])
	}
}

func (b *mesher) line(p *Points, flat int, from, to corner) {
	b.put(p, flat, from)
	b.put(p, flat, to)
}

// slab draws the faces of one slab of a zone: the skin's face, the cut side, and the
// outline on both sides.
func (b *mesher) slab(z zone, s slab) {
	h0, h1 := z.height(s.u0), z.height(s.u1)
	at := func(u, v, h float64) corner { return b.place(z, u, v, h) }
	b.face(z.flat, false, [4]corner{at(s.u0, s.lo0, b.skin), at(s.u1, s.lo1, b.skin), at(s.u1, s.hi1, b.skin), at(s.u0, s.hi0, b.skin)})
	b.face(z.flat, z.slot, [4]corner{at(s.u0, s.lo0, h0), at(s.u1, s.lo1, h1), at(s.u1, s.hi1, h1), at(s.u0, s.hi0, h0)})
	b.flank(z, s.u0, s.u1, s.lo0, s.lo1)
	b.flank(z, s.u0, s.u1, s.hi0, s.hi1)
	if z.flat < len(b.lines) && s.u1 == b.lines[z.flat] {
		b.score(z, s)
	}
}

// flank draws the outline's side of a slab, and its edges.
func (b *mesher) flank(z zone, u0, u1, v0, v1 float64) {
	at := func(u, v, h float64) corner { return b.place(z, u, v, h) }
	h0, h1 := z.height(u0), z.height(u1)
	b.face(z.flat, false, [4]corner{at(u0, v0, b.skin), at(u1, v1, b.skin), at(u1, v1, h1), at(u0, v0, h0)})
	b.line(&b.out.Edges, z.flat, at(u0, v0, b.skin), at(u1, v1, b.skin))
	p := &b.out.Edges
	if z.slot {
		p = &b.out.Scores
	}
	b.line(p, z.flat, at(u0, v0, h0), at(u1, v1, h1))
}

// score draws a score where it lies on the face it is cut from, along the slab that
// ends at it.
func (b *mesher) score(z zone, s slab) {
	b.line(&b.out.Scores, z.flat, b.place(z, s.u1, s.lo1, b.cut), b.place(z, s.u1, s.hi1, b.cut))
}

// notch draws the profile of an upright wall where it leaves the panel.
func (b *mesher) notch(z zone, s slab) {
	for _, v := range []float64{s.lo0, s.hi0} {
		b.line(&b.out.Scores, z.flat, b.corner(s.u0, v, z.below), b.corner(s.u0, v, z.h0))
	}
}

// upright returns a face square to the bend.
func (b *mesher) upright(u, v0, v1, h0, h1 float64) [4]corner {
	return [4]corner{b.corner(u, v0, h0), b.corner(u, v1, h0), b.corner(u, v1, h1), b.corner(u, v0, h1)}
}

// end draws a piece of the outline that lies square to the bend.
func (b *mesher) end(z zone, e square) {
	h := z.height(e.u)
	b.face(z.flat, false, b.upright(e.u, e.v0, e.v1, b.skin, h))
	b.line(&b.out.Edges, z.flat, b.place(z, e.u, e.v0, b.skin), b.place(z, e.u, e.v1, b.skin))
	b.line(&b.out.Edges, z.flat, b.place(z, e.u, e.v0, h), b.place(z, e.u, e.v1, h))
}
