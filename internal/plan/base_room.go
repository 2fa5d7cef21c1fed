package plan

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/surface"
	"springrib/internal/unit"
)

// How panels that stand on one base keep out of each other's way. Panel and ribs of one
// copy are cut into short bricks whose sides lie along the scores, square to the foot and
// upward: a cylinder's are that by themselves, but for the slant of a short piece. Two
// copies differ by a turn about the upright and a move, so that two bricks meet where
// their heights overlap and their rectangles, seen from above, do.

const (
	// brickLength is how much of the panel one brick takes along the bend, mm, and so the
	// most that a brick is larger than what it stands for; mostBricks bounds their number.
	brickLength = 1.0
	mostBricks  = 600
)

// brick is a box about a piece of a copy: X along the scores, Y away from the ribs, Z up
// from the base.
type brick struct{ lo, hi surface.Vec }

func noBrick() brick {
	inf := math.Inf(1)
	return brick{surface.Vec{X: inf, Y: inf, Z: inf}, surface.Vec{X: -inf, Y: -inf, Z: -inf}}
}

func (b *brick) add(v surface.Vec) {
	b.lo = surface.Vec{X: math.Min(b.lo.X, v.X), Y: math.Min(b.lo.Y, v.Y), Z: math.Min(b.lo.Z, v.Z)}
	b.hi = surface.Vec{X: math.Max(b.hi.X, v.X), Y: math.Max(b.hi.Y, v.Y), Z: math.Max(b.hi.Z, v.Z)}
}

// pile is bricks in order along the bend with the boxes of their halves, quarters...
type pile struct {
	box         brick
	left, right *pile // nil for a single brick
}

func newPile(bricks []brick) *pile {
	if len(bricks) == 1 {
		return &pile{box: bricks[0]}
	}
	n := len(bricks) / 2
	p := &pile{left: newPile(bricks[:n]), right: newPile(bricks[n:])}
	p.box = p.left.box
	p.box.add(p.right.box.lo)
	p.box.add(p.right.box.hi)
	return p
}

// standing is one copy: the panel and its ribs.
type standing struct{ piles []*pile }

// stands cuts one copy into bricks.
func (p *Plan) stands() standing {
	f := p.footFrame()
	var out standing
	if b := p.panelBricks(f); len(b) > 0 {
		out.piles = append(out.piles, newPile(b))
	}
	for _, s := range p.Supports {
		if b := p.ribBricks(f, s); len(b) > 0 {
			out.piles = append(out.piles, newPile(b))
		}
	}
	return out
}

// footFrame has its origin in the middle of the longest rib's foot, V away from the ribs
// and N up, in the section; package view stands the base in the same.
func (p *Plan) footFrame() surface.Frame {
	task := p.Supports[p.Longest].Task
	st := p.Edge.At(task.Start)
	up, out := st.Tangent(), p.outward(st.Tangent())
	foot := st.P.Sub(out.Mul(task.FootDepth / 2))
	return surface.Frame{Origin: vec(foot), V: vec(out), N: vec(up)}
}

// outward returns the normal of a tangent of the edge that points to the panel's side.
func (p *Plan) outward(tangent plane.Point) plane.Point {
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

// panelBricks cuts the bent panel along the bend, flat by flat, and each piece into as
// many as the outline has prongs there.
func (p *Plan) panelBricks(f surface.Frame) []brick {
	flats := p.flats
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
	var out []brick
	flat := 0
	for i := 0; i+1 < len(cuts); i++ {
		a, b := cuts[i], cuts[i+1]
		for flat < len(p.Bent.Rulings) && p.Bent.Rulings[flat].Flat[0].X <= a+1e-9 {
			flat++
		}
		for _, w := range prongs[i] {
			piece := noBrick()
			for _, u := range []float64{a, b} {
				for _, h := range []float64{0, p.V.Sheet.T} {
					q := flats[flat].At(u, 0, h)
					piece.add(seen(f, q, w[0]))
					piece.add(seen(f, q, w[1]))
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
	outer := plane.Region{Outer: p.Outline.Outer}
	for i, spans := range outer.ClipLines(pt(0, 0), pt(0, 1), lines) {
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
func (p *Plan) ribBricks(f surface.Frame, s Support) []brick {
	t := s.Task
	n := int(math.Ceil((t.End-t.Start)/math.Max(brickLength, (t.End-t.Start)/mostBricks) - 1e-9))
	var out []brick
	for i := range n {
		piece := noBrick()
		for _, k := range []int{i, i + 1} {
			at := t.Start + (t.End-t.Start)*float64(k)/float64(n)
			st := p.Edge.At(at)
			back := st.P.Sub(p.outward(st.Tangent()).Mul(t.DepthAt(at)))
			for _, q := range []plane.Point{st.P, back} {
				piece.add(seen(f, vec(q), s.Across-s.Thickness/2))
				piece.add(seen(f, vec(q), s.Across+s.Thickness/2))
			}
		}
		out = append(out, piece)
	}
	return out
}

// touch is where two copies meet: the lowest such place in the first one's frame.
type touch struct {
	at surface.Vec
	ok bool
}

// meets finds the lowest place at which two copies come closer than gap, the second one
// moved by m against the first.
func (s standing) meets(m plane.Affine, gap float64) touch {
	low := touch{at: surface.Vec{Z: math.Inf(1)}}
	for _, a := range s.piles {
		for _, b := range s.piles {
			low.search(a, b, m, gap)
		}
	}
	return low
}

func (t *touch) search(a, b *pile, m plane.Affine, gap float64) {
	z := math.Max(a.box.lo.Z, b.box.lo.Z)
	if z >= t.at.Z || z > math.Min(a.box.hi.Z, b.box.hi.Z) || !bricksMeet(a.box, b.box, m, gap) {
		return
	}
	switch {
	case a.left == nil && b.left == nil:
		c := a.box.lo.Add(a.box.hi).Mul(0.5)
		*t = touch{surface.Vec{X: c.X, Y: c.Y, Z: z}, true}
	case b.left == nil || a.left != nil && extentOf(a.box) >= extentOf(b.box):
		first, second := lowerFirst(a)
		t.search(first, b, m, gap)
		t.search(second, b, m, gap)
	default:
		first, second := lowerFirst(b)
		t.search(a, first, m, gap)
		t.search(a, second, m, gap)
	}
}

func extentOf(b brick) float64 { return b.hi.Sub(b.lo).Len() }

func lowerFirst(p *pile) (first, second *pile) {
	if p.right.box.lo.Z < p.left.box.lo.Z {
		return p.right, p.left
	}
	return p.left, p.right
}

// bricksMeet tells whether two bricks, seen from above, come closer than gap, b moved by m:
// two rectangles are apart if a side of one of them parts them. The gap is kept along the
// sides, and at corners a little more.
func bricksMeet(a, b brick, m plane.Affine, gap float64) bool {
	ca, cb := mid(a), m.Apply(mid(b))
	o := m.Apply(plane.Point{})
	ux, uy := m.Apply(pt(1, 0)).Sub(o), m.Apply(pt(0, 1)).Sub(o)
	ha, hb := half(a), half(b)
	d := cb.Sub(ca)
	for _, n := range []plane.Point{pt(1, 0), pt(0, 1), ux, uy} {
		ra := ha.X*math.Abs(n.X) + ha.Y*math.Abs(n.Y)
		rb := hb.X*math.Abs(n.Dot(ux)) + hb.Y*math.Abs(n.Dot(uy))
		if math.Abs(d.Dot(n)) >= ra+rb+gap {
			return false
		}
	}
	return true
}

func mid(b brick) plane.Point  { return pt((b.lo.X+b.hi.X)/2, (b.lo.Y+b.hi.Y)/2) }
func half(b brick) plane.Point { return pt((b.hi.X-b.lo.X)/2, (b.hi.Y-b.lo.Y)/2) }

// reach is how far a copy goes from the middle of its foot, seen from above.
func (s standing) reach() float64 {
	far := 0.0
	for _, p := range s.piles {
		for _, q := range []plane.Point{pt(p.box.lo.X, p.box.lo.Y), pt(p.box.lo.X, p.box.hi.Y), pt(p.box.hi.X, p.box.lo.Y), pt(p.box.hi.X, p.box.hi.Y)} {
			far = math.Max(far, q.Len())
		}
	}
	return far
}

// ringMeets tells where copies of a ring meet. Each sees the others as every other one
// does, so that the first against half of them is enough.
func (s standing) ringMeets(radius float64, n int, gap float64) (low touch, other int) {
	low.at.Z = math.Inf(1)
	first := plane.Translate(0, radius)
	back := plane.Translate(0, -radius)
	for k := 1; k <= n/2; k++ {
		m := back.Mul(plane.Rotate(2 * math.Pi * float64(k) / float64(n))).Mul(first)
		if t := s.meets(m, gap); t.ok && t.at.Z < low.at.Z {
			low, other = t, k
		}
	}
	return low, other
}

// ringRadius is the least radius from a start on at which n copies keep the gap, to a
// tenth of a millimetre and then rounded up to whole ones; ok is false where none up to
// what a base can be does. Bodies further from the middle only come apart, so that it can
// be found by halving.
func (s standing) ringRadius(from float64, n int, gap float64) (r float64, ok bool) {
	free := func(r float64) bool { t, _ := s.ringMeets(r, n, gap); return !t.ok }
	if free(from) {
		return from, true
	}
	lo, hi := from, math.Max(from, s.reach())
	for !free(hi) {
		if lo, hi = hi, 2*hi; hi > mostDrawn {
			return 0, false
		}
	}
	for hi-lo > 0.1 {
		if m := (lo + hi) / 2; free(m) {
			hi = m
		} else {
			lo = m
		}
	}
	return math.Ceil(hi), free(math.Ceil(hi))
}

// room looks at the bodies that stand on a base, and says where two of them meet.
func (p *Plan) room(poses []plane.Affine) {
	s := p.stands()
	p.strikes(s, poses)
	if len(poses) < 2 {
		return
	}
	if p.V.Base.Kind == design.RingBase {
		p.ringRoom(s, len(poses))
		return
	}
	low := touch{at: surface.Vec{Z: math.Inf(1)}}
	var a, b int
	far := 2 * s.reach()
	for i, m := range poses {
		back, ok := m.Inverse()
		if !ok {
			panic("plan: a panel that can't be placed on its base")
		}
		for j := i + 1; j < len(poses); j++ {
			if m.Apply(plane.Point{}).Dist(poses[j].Apply(plane.Point{})) > far {
				continue
			}
			if t := s.meets(back.Mul(poses[j]), 0); t.ok && t.at.Z < low.at.Z {
				low, a, b = t, i, j
			}
		}
		if p.V.Base.Kind == design.RowBase {
			break // each sees the next as the first does
		}
	}
	if !low.ok {
		return
	}
	f := p.meeting(low, a, b)
	if p.V.Base.Kind == design.RowBase {
		f.Place.Field = "base.pitch"
		if pitch, ok := s.rowPitch(p.V.Base.Pitch.V); ok {
			f.Numbers["pitch"] = pitch
			f.Remedies = append(f.Remedies, finding.Remedy{Text: "Set them " + p.len(pitch) + " apart", Set: map[string]string{"base.pitch": unit.Bare(pitch, unit.MM) + " mm"}})
		}
	} else {
		f.Place.Field = "base.places"
	}
	p.Findings = append(p.Findings, f)
}

// rowPitch is the least whole pitch from one on at which two copies side by side are free.
func (s standing) rowPitch(from float64) (float64, bool) {
	most := 0.0
	for _, p := range s.piles {
		most = math.Max(most, p.box.hi.X-p.box.lo.X)
	}
	for pitch := math.Ceil(from); pitch <= math.Ceil(2*most)+1; pitch++ {
		if !s.meets(plane.Translate(pitch, 0), 0).ok {
			return pitch, true
		}
	}
	return 0, false
}

// ringRoom is room for a ring.
func (p *Plan) ringRoom(s standing, n int) {
	radius := p.ring
	low, other := s.ringMeets(radius, n, 0)
	if !low.ok {
		return
	}
	f := p.meeting(low, 0, other)
	f.Place.Field = "base.radius"
	q := pt(low.at.X, low.at.Y+radius)
	f.Numbers["radius"], f.Numbers["fromMiddle"] = radius, q.Len()
	if q.Len() < 2*p.V.Sheet.T {
		f.Text += " That is over the middle of the ring."
	} else {
		f.Text += " That is " + p.len(q.Len()) + " from the middle of the ring."
	}
	if r, ok := s.ringRadius(radius, n, baseRoom/2); ok {
		f.Numbers["needed"] = r
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "Make the ring " + p.len(r) + " in radius", Set: map[string]string{"base.radius": unit.Bare(r, unit.MM) + " mm"}})
	}
	for k := n - 1; k >= 2; k-- {
		if t, _ := s.ringMeets(radius, k, 0); !t.ok {
			f.Numbers["copies"] = float64(k)
			f.Remedies = append(f.Remedies, finding.Remedy{Text: "Stand only " + strconv.Itoa(k) + " on a base", Set: map[string]string{"base.copies": strconv.Itoa(k)}})
			break
		}
	}
	p.Findings = append(p.Findings, f)
}

// meeting says of two panels that they stand in each other.
func (p *Plan) meeting(t touch, a, b int) finding.Finding {
	above := p.len(t.at.Z) + " above it"
	if t.at.Z < 0.01 {
		above = "right at its face"
	}
	return finding.Finding{
		ID: "panels-meet", Severity: finding.Warn, Place: finding.Place{Part: "base"},
		Text: "As they bend, panels " + strconv.Itoa(a+1) + " and " + strconv.Itoa(b+1) + " on the base run into each other, " +
			above + p.whichSide(t) + ".",
		Numbers: map[string]float64{"first": float64(a + 1), "second": float64(b + 1), "height": math.Max(0, t.at.Z), "across": t.at.X, "outward": t.at.Y},
	}
}

// whichSide says whether they lean together behind the ribs or before the panels.
func (p *Plan) whichSide(t touch) string {
	switch {
	case t.at.Y < -p.V.Rib.FootDepth/2:
		return ", behind their ribs"
	case t.at.Y > p.V.Rib.FootDepth/2+2*p.V.Sheet.T:
		return ", before their feet"
	}
	return ""
}

// ringOf is the radius of a ring of n copies: as given, else as tight as the panels stand
// free of each other, feet and all that bends over them.
func (p *Plan) ringOf(n int) float64 {
	b := p.V.Base
	box := p.Outline.Box()
	wide := 2*math.Max(math.Abs(box.Min.Y), math.Abs(box.Max.Y)) + baseRoom
	// Standing on the ring, facing outward. The feet's inner corners keep apart.
	least := p.V.Rib.FootDepth + wide/(2*math.Tan(math.Pi/float64(max(n, 3))))
	if b.Radius.OK || n < 2 {
		return b.Radius.Or(least)
	}
	if r, ok := p.stands().ringRadius(least, n, baseRoom/2); ok {
		return r
	}
	return least
}

// strikes says where a panel that bends down again, or that hangs past its foot, comes
// below the upper face of the base.
func (p *Plan) strikes(s standing, poses []plane.Affine) {
	deep := -seat
	var at plane.Point
	for _, m := range poses {
		for _, b := range s.bricks() {
			if b.lo.Z >= deep {
				continue
			}
			for _, q := range []plane.Point{mid(b), pt(b.lo.X, b.lo.Y), pt(b.lo.X, b.hi.Y), pt(b.hi.X, b.lo.Y), pt(b.hi.X, b.hi.Y)} {
				if p.Base.Outline.Contains(m.Apply(q)) {
					deep, at = b.lo.Z, mid(b)
				}
			}
		}
	}
	if deep >= -seat {
		return
	}
	where := "in front of its foot"
	if at.Y < 0 {
		where = "behind its foot"
	}
	p.Findings = append(p.Findings, finding.Finding{
		ID: "panel-strikes-base", Severity: finding.Warn, Place: finding.Place{Part: "base", Field: "base.kind"},
		Text:    "The bent panel reaches " + p.len(-deep) + " below the face of the base, " + p.len(math.Abs(at.Y)) + " " + where + ": it stands in the plate. Raise the foot with a longer straight, or make the base smaller there.",
		Numbers: map[string]float64{"below": -deep, "outward": at.Y},
	})
}

// bricks returns the single bricks of a copy.
func (s standing) bricks() []brick {
	var out []brick
	var walk func(*pile)
	walk = func(p *pile) {
		if p.left == nil {
			out = append(out, p.box)
			return
		}
		walk(p.left)
		walk(p.right)
	}
	for _, p := range s.piles {
		walk(p)
	}
	return out
}
