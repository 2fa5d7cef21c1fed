package plane

import (
	"math"
	"sort"
)

// meeting is a common point of two segments, as parameters of both.
type meeting struct {
	at     Point
	ta, tb float64
}

// endSlack is how far beyond the end of a line or arc, in mm, a meeting still counts:
// well above the rounding of meetings of curves a few metres wide.
const endSlack = 1e-8

// meetings returns the common points of two lines or arcs, at most two. Where they
// lie on each other over a length it returns none.
func meetings(a, b Segment) []meeting {
	var at []Point
	la, lb := a.Kind == Line || a.Bulge == 0, b.Kind == Line || b.Bulge == 0
	switch {
	case la && lb:
		at = meetLines(a, b)
	case la:
		at = meetLineArc(a, b)
	case lb:
		at = meetLineArc(b, a)
	default:
		at = meetArcs(a, b)
	}
	var out []meeting
	for _, p := range at {
		ta, oka := a.paramOf(p)
		tb, okb := b.paramOf(p)
		if oka && okb {
			out = append(out, meeting{p, ta, tb})
		}
	}
	return out
}

func meetLines(a, b Segment) []Point {
	u, v := a.B.Sub(a.A), b.B.Sub(b.A)
	den := u.Cross(v)
	if math.Abs(den) <= 1e-14*u.Len()*v.Len() {
		return nil
	}
	return []Point{a.A.Add(u.Mul(b.A.Sub(a.A).Cross(v) / den))}
}

func meetLineArc(l, arc Segment) []Point {
	c, r := arc.Centre()
	u := l.B.Sub(l.A).Unit()
	foot := l.A.Add(u.Mul(c.Sub(l.A).Dot(u)))
	h := c.Sub(l.A).Cross(u)
	d := (r - math.Abs(h)) * (r + math.Abs(h))
	if d < 0 {
		if d > -endSlack*r { // touching, to rounding
			return []Point{foot}
		}
		return nil
	}
	w := u.Mul(math.Sqrt(d))
	return []Point{foot.Sub(w), foot.Add(w)}
}

func meetArcs(a, b Segment) []Point {
	ca, ra := a.Centre()
	cb, rb := b.Centre()
	v := cb.Sub(ca)
	d := v.Len()
	if d < 1e-12*(ra+rb) {
		return nil
	}
	u := v.Mul(1 / d)
	x := (d + (ra-rb)*(ra+rb)/d) / 2 // from ca along u to the common chord
	q := (ra - x) * (ra + x)
	foot := ca.Add(u.Mul(x))
	if q < 0 {
		if q > -endSlack*ra {
			return []Point{foot}
		}
		return nil
	}
	w := u.Left().Mul(math.Sqrt(q))
	return []Point{foot.Sub(w), foot.Add(w)}
}

// paramOf returns the parameter of a point that lies on the carrier of a line or arc;
// ok is false beyond its ends.
func (s Segment) paramOf(p Point) (t float64, ok bool) {
	switch {
	case p.Dist(s.A) <= endSlack:
		return 0, true
	case p.Dist(s.B) <= endSlack:
		return 1, true
	case s.Kind == Line || s.Bulge == 0:
		u := s.B.Sub(s.A)
		t = p.Sub(s.A).Dot(u) / u.Dot(u)
	default:
		// The turn from A-p to p-B is half the sweep for p on the arc, and half the
		// sweep less pi beyond; the angle at the centre is twice that at A.
		u, v, ch := p.Sub(s.A), s.B.Sub(p), s.B.Sub(s.A)
		half := s.Sweep() / 2
		if math.Abs(math.Atan2(u.Cross(v), u.Dot(v))-half) > 1e-3+math.Pi/2 {
			return 0, false
		}
		if u.Dot(u) > v.Dot(v) { // from the farther end, where the angle is sharp
			t = 1 + math.Atan2(ch.Cross(u), ch.Dot(u))/half
		} else {
			t = math.Atan2(ch.Cross(v), ch.Dot(v)) / half
		}
	}
	return t, t > 0 && t < 1
}

// sweepPairs calls f for each pair i < j of boxes that overlap, in a fixed order. It
// sweeps along the longer side of all boxes together.
func sweepPairs(boxes []Box, f func(i, j int)) {
	all := EmptyBox()
	for _, b := range boxes {
		all = all.Union(b)
	}
	if all.H() > all.W() {
		flipped := make([]Box, len(boxes))
		for i, b := range boxes {
			flipped[i] = Box{Point{b.Min.Y, b.Min.X}, Point{b.Max.Y, b.Max.X}}
		}
		boxes = flipped
	}
	order := make([]int, len(boxes))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return boxes[order[a]].Min.X < boxes[order[b]].Min.X })
	var active []int
	for _, i := range order {
		kept := active[:0]
		for _, j := range active {
			if boxes[j].Max.X < boxes[i].Min.X {
				continue
			}
			kept = append(kept, j)
			if boxes[i].Overlaps(boxes[j]) {
				f(min(i, j), max(i, j))
			}
		}
		active = append(kept, i)
	}
}

// SelfCrossings returns the points where p crosses or touches itself, joints of
// neighbours left out, in the order of the pieces. Cubics are looked at as arcs within
// 1e-3 mm. Stretches that lie on each other are not found.
func (p Path) SelfCrossings() []Point { return crossings([]Path{p}) }

// SelfCrossings returns the points where outline or holes of r cross or touch
// themselves or each other, under the conditions of Path.SelfCrossings.
func (r Region) SelfCrossings() []Point { return crossings(r.Paths()) }

func crossings(paths []Path) []Point {
	var segs []Segment
	var path []int
	for k, p := range paths {
		for _, s := range p.arcsWithin(1e-3).Segs {
			segs, path = append(segs, s), append(path, k)
		}
	}
	boxes := make([]Box, len(segs))
	for i, s := range segs {
		boxes[i] = s.Box().Grow(endSlack)
	}
	type found struct {
		i, j int
		at   Point
	}
	var all []found
	sweepPairs(boxes, func(i, j int) {
		for _, m := range meetings(segs[i], segs[j]) {
			if path[i] == path[j] && joint(segs[i], segs[j], m) {
				continue
			}
			all = append(all, found{i, j, m.at})
		}
	})
	sort.SliceStable(all, func(a, b int) bool {
		return all[a].i < all[b].i || all[a].i == all[b].i && all[a].j < all[b].j
	})
	var out []Point
	for _, f := range all {
		out = append(out, f.at)
	}
	return out
}

// joint reports whether the meeting is where one of two neighbours ends and the other
// begins.
func joint(a, b Segment, m meeting) bool {
	return a.B == b.A && m.ta == 1 && m.tb == 0 || b.B == a.A && m.tb == 1 && m.ta == 0
}

// arcsWithin returns p with its cubics as lines and arcs within tol, without kinks
// that would matter; lines and arcs stay.
func (p Path) arcsWithin(tol float64) Path {
	out := Path{Closed: p.Closed}
	for _, s := range p.Segs {
		if s.A == s.B && s.Kind != Cubic {
			continue
		}
		if s.Kind != Cubic {
			out.Segs = append(out.Segs, s)
			continue
		}
		f := Fit(Path{Segs: []Segment{s}}, Options{Tolerance: tol, Mode: Arcs})
		out.Segs = append(out.Segs, f.Path.Segs...)
	}
	return out
}
