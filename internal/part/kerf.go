package part

import (
	"math"

	"springrib/internal/cut"
	"springrib/internal/offset"
	"springrib/internal/plane"
)

// Allowed is an outline moved so that the finished piece keeps its size.
type Allowed struct {
	Outline plane.Region // where the tool's middle runs
	// Lost are the holes of the finished outline that are no wider than the kerf: the tool
	// would cut them away, and they are left out.
	Lost []int
	// Failed tells that no allowance could be made, Crosses that the finished outline runs
	// across itself; it is as given then.
	Failed, Crosses bool
	// Left is how far the tool stays short of the finished edge where that is narrower than
	// the kerf - a slit, the tip of a notch - at the worst place, At. 0 where it keeps to
	// what a round tool leaves in any corner.
	Left float64
	At   plane.Point
}

// Allow moves an outline by half the kerf, out at the edge and in at the holes. Corners
// between straight lines stay sharp, so that a rectangle is cut with four lines; the
// piece inside them has its corners exactly.
func Allow(r plane.Region, kerf float64) Allowed {
	if kerf <= 0 {
		return Allowed{Outline: r, Crosses: meets(r)}
	}
	if r = r.Normal(); roomy(r, kerf/2) {
		if out, ok := beside(r, kerf/2); ok {
			return allowed(r, out, kerf/2, []float64{0})
		}
	}
	if meets(r) {
		return Allowed{Outline: r, Crosses: true}
	}
	moved, err := offset.Region(r, kerf/2, kerfTolerance)
	if err != nil {
		moved, err = offset.Region(unbent(r), kerf/2, kerfTolerance)
	}
	if err != nil || len(moved) != 1 {
		return Allowed{Outline: r, Failed: true}
	}
	out := plane.Region{Outer: sharpen(moved[0].Outer, kerf/2)}
	for _, h := range moved[0].Holes {
		out.Holes = append(out.Holes, sharpen(h, kerf/2))
	}
	if meets(out) {
		return Allowed{Outline: r, Failed: true}
	}
	return allowed(r, out, kerf/2, []float64{0, 0.25, 0.5, 0.75})
}

// leastRun is how wide the run of the tool's middle in a hole must be, mm: narrower, its
// pieces would be shorter than any that leave.
const leastRun = 0.02

// allowed tells what of an outline its parallel holds, from the given places of its pieces:
// where the parallel has not folded, corners are enough.
func allowed(r, moved plane.Region, d float64, places []float64) Allowed {
	a := Allowed{Outline: plane.Region{Outer: plane.Tidy(moved.Outer)}}
	runs := make([][]plane.Path, len(r.Holes)+1) // of the edge, then of each hole
	runs[0] = []plane.Path{a.Outline.Outer}
	for _, h := range moved.Holes {
		h = plane.Tidy(h)
		of := 0 // a notch that closes at its mouth is a hole of none
		for i, whole := range r.Holes {
			if whole.Contains(h.Start()) {
				of = i + 1
			}
		}
		if of == 0 || math.Abs(h.Area()) >= leastRun/2*h.Length() {
			a.Outline.Holes = append(a.Outline.Holes, h)
			runs[of] = append(runs[of], h)
		}
	}
	a.reach(r.Outer, runs[0], d, places)
	for i, h := range r.Holes {
		if len(runs[i+1]) == 0 {
			a.Lost = append(a.Lost, i)
			continue
		}
		a.reach(h, runs[i+1], d, places)
	}
	return a
}

// cornerLeft is how far a round tool may stay short of an edge, as a share of its radius,
// before it counts as not reaching: in an inside corner of 39 degrees, 1/sin(39/2) - 1.
const cornerLeft = 2

// reach finds where the tool stays furthest from a finished edge: in inside corners, and
// where slits and necks have closed.
func (a *Allowed) reach(p plane.Path, runs []plane.Path, d float64, places []float64) {
	var edge []edgePiece
	for _, run := range runs {
		for _, s := range run.Segs {
			edge = append(edge, edgePiece{plane.Path{Segs: []plane.Segment{s}}, s.Box()})
		}
	}
	for k, s := range p.Segs {
		prev := p.Segs[(k+len(p.Segs)-1)%len(p.Segs)]
		for _, t := range places {
			if t == 0 && prev.Tangent(1).Cross(s.Tangent(0)) > -smoothJoint {
				continue // not an inside corner
			}
			q := s.Point(t)
			if left := fromEdge(edge, q, (1+cornerLeft)*d) - d; left > cornerLeft*d+1e-6 && left > a.Left {
				a.Left, a.At = left, q
			}
		}
	}
}

type edgePiece struct {
	plane.Path
	box plane.Box
}

// fromEdge returns how far q lies from an edge; where that is near, only whether it is.
func fromEdge(edge []edgePiece, q plane.Point, near float64) float64 {
	best := math.Inf(1)
	for _, e := range edge {
		if e.box.Grow(best).Contains(q) {
			if best = math.Min(best, toChords(e.Flatten(0.02), q)); best < near {
				return best
			}
		}
	}
	return best
}

// unbent returns an outline with chords within kerfTolerance in place of arcs that are
// next to straight, which hardly have a centre to move about.
func unbent(r plane.Region) plane.Region {
	const straight = 1e4 // mm
	chords := func(p plane.Path) plane.Path {
		out := plane.Path{Closed: true}
		for _, s := range p.Segs {
			if _, radius := s.Centre(); s.Kind != plane.Arc || radius < straight {
				out.Segs = append(out.Segs, s)
				continue
			}
			pts := plane.Path{Segs: []plane.Segment{s}}.Flatten(kerfTolerance)
			for i := 1; i < len(pts); i++ {
				out.Segs = append(out.Segs, plane.LineSeg(pts[i-1], pts[i]))
			}
		}
		return out
	}
	out := plane.Region{Outer: chords(r.Outer)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, chords(h))
	}
	return out
}

// kerfTolerance is how far a moved free curve may lie from the exact one, mm: a fifth
// of what outlines may.
const kerfTolerance = 0.002

// smoothJoint is the turn at a joint, in radians, that counts as none: above what fitting
// leaves between two pieces of a smooth curve (fit.DefaultKink), and for half a kerf of
// a tenth of a millimetre a gap of a thousandth.
const smoothJoint = 0.01

// roomy tells whether nothing of the outline bends inward more sharply than the tool's
// half width, so that its parallel neither folds nor closes anything: no corner turns
// away from the material but between long lines, no curve does so with a radius under
// twice d, and holes are too large to close. (A slit narrower than the kerf shows up as a crossing.)
func roomy(r plane.Region, d float64) bool {
	for _, p := range r.Paths() {
		for i, s := range p.Segs {
			next := p.Segs[(i+1)%len(p.Segs)]
			if a, b := s.Tangent(1), next.Tangent(0); a.Cross(b) < -smoothJoint && !(long(s, a, b, d) && long(next, a, b, d)) {
				return false
			}
			for _, t := range []float64{0, 0.25, 0.5, 0.75, 1} {
				if s.Curvature(t)*2*d < -1 {
					return false
				}
			}
		}
		if b := p.Box(); math.Min(b.W(), b.H()) < 8*d {
			return false
		}
	}
	return true
}

// long tells whether a piece has room for an inner corner, where its neighbour's direction
// jumps from a to b, to move in: along straight pieces it moves by d tan(turn/2).
func long(s plane.Segment, a, b plane.Point, d float64) bool {
	turn := math.Abs(math.Atan2(a.Cross(b), a.Dot(b)))
	return turn < 0.9*math.Pi && s.Length() > 8*d*math.Max(1, math.Tan(turn/2))
}

// beside returns the parallel of a roomy outline, d further from the material: with the
// outer edge running counter-clockwise and holes clockwise, always to the right. Each
// piece gives one piece: lines and arcs exactly, cubics with their legs moved (Tiller &
// Hanson, Offsets of two-dimensional profiles, IEEE CG&A 1984). ok is false where that
// strays by more than kerfTolerance, or the parallel meets itself.
func beside(r plane.Region, d float64) (moved plane.Region, ok bool) {
	good := true
	move := func(p plane.Path) plane.Path {
		segs := make([]plane.Segment, 0, len(p.Segs)+4)
		for i, s := range p.Segs {
			next := p.Segs[(i+1)%len(p.Segs)]
			moved, near := shifted(s, d)
			if !near { // halves stray an eighth as far or less
				var first plane.Segment
				var ok bool
				if first, ok = shifted(s.Split(0, 0.5), d); ok {
					segs = append(segs, first)
					moved, near = shifted(s.Split(0.5, 1), d)
				}
			}
			good = good && near
			segs = append(segs, moved)
			a, b := s.Tangent(1), next.Tangent(0)
			if turn := math.Atan2(a.Cross(b), a.Dot(b)); turn > smoothJoint {
				from := s.B.Sub(a.Left().Mul(d))
				segs = append(segs, plane.BulgeSeg(from, next.A.Sub(b.Left().Mul(d)), math.Tan(turn/4)))
			}
		}
		for i := range segs { // joints that are smooth but for a hair
			j := (i + 1) % len(segs)
			if u, v := segs[i].Tangent(1), segs[j].Tangent(0); u.Cross(v) < -smoothJoint { // an inner corner
				good = trim(&segs[i], &segs[j]) && good
				continue
			}
			mid := segs[i].B.Lerp(segs[j].A, 0.5)
			segs[i].B, segs[j].A = mid, mid
		}
		return sharpen(plane.Path{Segs: segs, Closed: true}, d)
	}
	out := plane.Region{Outer: move(r.Outer)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, move(h))
	}
	return out, good && !meets(out)
}

// trim cuts the end of p and the start of q where the two cross; ok is false when they
// don't.
func trim(p, q *plane.Segment) (ok bool) {
	t, u, ok := plane.CrossingOf(p, q)
	if !ok || t > 1 || u < 0 {
		return false
	}
	*p, *q = p.Split(0, t), q.Split(u, 1)
	q.A = p.B
	return true
}

// shifted returns a piece moved d to its right.
func shifted(s plane.Segment, d float64) (plane.Segment, bool) {
	a, b := s.A.Sub(s.Tangent(0).Left().Mul(d)), s.B.Sub(s.Tangent(1).Left().Mul(d))
	switch s.Kind {
	case plane.Line:
		return plane.LineSeg(a, b), true
	case plane.Arc:
		return plane.BulgeSeg(a, b, s.Bulge), true
	}
	leg := func(p, q plane.Point) (at, dir plane.Point) {
		dir = q.Sub(p).Unit()
		return p.Sub(dir.Left().Mul(d)), dir
	}
	p1, d1 := leg(s.A, s.C)
	p2, d2 := leg(s.C, s.D)
	p3, d3 := leg(s.D, s.B)
	out := plane.CubicSeg(a, crossing(p1, d1, p2, d2, s.C.Sub(d1.Left().Mul(d))), crossing(p2, d2, p3, d3, s.D.Sub(d3.Left().Mul(d))), b)
	// Legs of such a length that the middle is met as well: (A + 3C + 3D + B)/8 there.
	t0, t1 := s.Tangent(0), s.Tangent(1)
	rest := s.Point(0.5).Sub(s.Tangent(0.5).Left().Mul(d)).Mul(8).Sub(a.Add(b).Mul(4)).Mul(1.0 / 3)
	if den := t0.Cross(t1); math.Abs(den) > 0.05 {
		if c, e := rest.Cross(t1)/den, -t0.Cross(rest)/den; c > 0 && e > 0 {
			if met := plane.CubicSeg(a, a.Add(t0.Mul(c)), b.Sub(t1.Mul(e)), b); strays(s, met, d) < strays(s, out, d) {
				out = met
			}
		}
	}
	return out, strays(s, out, d) <= kerfTolerance
}

// strays returns how far a moved cubic lies from the parallel of s, by seven places of it.
func strays(s, moved plane.Segment, d float64) float64 {
	most := 0.0
	for t := 0.125; t < 1; t += 0.125 {
		want := s.Point(t).Sub(s.Tangent(t).Left().Mul(d))
		n := moved.Tangent(t).Left()
		most = math.Max(most, math.Abs(want.Sub(moved.Point(t)).Dot(n)))
	}
	return most
}

// crossing returns where the lines p+dir and q+e meet, or near when they hardly do.
func crossing(p, dir, q, e, near plane.Point) plane.Point {
	den := dir.Cross(e)
	if math.Abs(den) < 1e-6 {
		return near
	}
	return p.Add(dir.Mul(q.Sub(p).Cross(e) / den))
}

// meets tells whether an outline, taken as chords within 0.05 mm, crosses itself.
func meets(r plane.Region) bool {
	type chord struct{ a, b plane.Point }
	var cs []chord
	for _, p := range r.Paths() {
		pts := p.Flatten(0.05)
		for i := range pts {
			cs = append(cs, chord{pts[i], pts[(i+1)%len(pts)]})
		}
	}
	if len(cs) > 1500 {
		return len(offset.Crossings(r.Paths()...)) > 0
	}
	side := func(a, b, c plane.Point) float64 { return b.Sub(a).Cross(c.Sub(a)) }
	for i, c := range cs {
		for _, e := range cs[i+1:] {
			if side(c.a, c.b, e.a)*side(c.a, c.b, e.b) < 0 && side(e.a, e.b, c.a)*side(e.a, e.b, c.b) < 0 {
				return true
			}
		}
	}
	return false
}

// sharpen puts a corner back where the offset has rounded one between two lines with
// an arc of radius d. Corners of more than 120 degrees keep their arc: their point
// would stand out by more than d.
func sharpen(p plane.Path, d float64) plane.Path {
	n := len(p.Segs)
	gone := make([]bool, n)
	segs := append([]plane.Segment{}, p.Segs...)
	for i, s := range segs {
		prev, next := (i+n-1)%n, (i+1)%n
		if s.Kind != plane.Arc || n < 4 || segs[prev].Kind != plane.Line || segs[next].Kind != plane.Line {
			continue
		}
		_, r := s.Centre()
		if math.Abs(r-d) > 1e-6 || math.Abs(s.Sweep()) > 2*math.Pi/3 ||
			math.Abs(turning(segs[prev], s)) > smoothJoint || math.Abs(turning(s, segs[next])) > smoothJoint { // cut short by what it meets
			continue
		}
		tip := s.A.Add(s.Tangent(0).Mul(d * math.Tan(math.Abs(s.Sweep())/2)))
		segs[prev].B, segs[next].A = tip, tip
		gone[i] = true
	}
	var out []plane.Segment
	for i, s := range segs {
		if !gone[i] {
			out = append(out, s)
		}
	}
	return plane.Path{Segs: out, Closed: p.Closed}
}

// cuts returns the work that frees the allowed outline: inner cuts before the outer.
func (a Allowed) cuts() []Work {
	var out []Work
	for _, h := range a.Outline.Holes {
		out = append(out, Work{Kind: cut.Inner, Path: h})
	}
	return append(out, Work{Kind: cut.Outer, Path: a.Outline.Outer})
}
