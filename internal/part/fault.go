package part

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// FaultKind tells what is wrong with an outline.
type FaultKind uint8

// The faults, graver first.
const (
	Crosses     FaultKind = iota // a path runs across itself
	Touches                      // a path touches itself: the part hangs together at a point, or ends in a hair
	NoArea                       // a path encloses nothing
	HoleOutside                  // a hole lies outside the outline
	HoleAtEdge                   // a hole reaches the outline's edge
	HolesMeet                    // two holes meet, or one lies in the other
	HoleNear                     // less than was asked for is left between a hole and an edge
)

// Fault is one thing wrong with an outline, at its place.
type Fault struct {
	Kind        FaultKind
	At          plane.Point
	Hole, Other int     // holes from 0; -1 where the outline itself is meant
	Gap         float64 // what is left, of HoleNear, mm
}

const (
	// faultFlat is how closely curves are followed while looking for faults, mm.
	faultFlat = 0.005
	// faultTouch is the gap that counts as none, mm: a tenth of a narrow laser's kerf.
	faultTouch = 0.015
)

// Faults looks for whatever keeps a region from being cut as one piece: at most one
// fault of each kind for each path or pair of paths, in the order of the kinds. least
// is what should be left between a hole and any other edge. Holes are meant to lie
// inside the outline; which way paths run does not matter.
func Faults(r plane.Region, least float64) []Fault {
	f := faults{least: math.Max(least, faultTouch), found: map[faultKey]Fault{}}
	for i, p := range r.Paths() {
		f.add(p, i-1)
		if math.Abs(p.Area()) < faultTouch*faultTouch {
			f.take(Fault{Kind: NoArea, At: p.Start(), Hole: i - 1, Other: i - 1})
		}
	}
	f.sweep()
	f.contain(r)
	return f.sorted()
}

// stub is a straight piece of a flattened path.
type stub struct {
	a, b   plane.Point
	lo, hi plane.Point // its box
	path   int         // -1 for the outline, else the hole
	from   float64     // length along the path up to a
	next   int         // index of the piece that follows on the same path
}

type faultKey struct {
	kind        FaultKind
	hole, other int
}

type faults struct {
	least  float64
	stubs  []stub
	length map[int]float64 // of each path
	found  map[faultKey]Fault
}

// take keeps a fault, of several like ones that with the least gap, then the first.
func (f *faults) take(n Fault) {
	if n.Hole > n.Other {
		n.Hole, n.Other = n.Other, n.Hole
	}
	k := faultKey{n.Kind, n.Hole, n.Other}
	if old, ok := f.found[k]; !ok || n.Gap < old.Gap {
		f.found[k] = n
	}
}

func (f *faults) add(p plane.Path, path int) {
	pts := p.Flatten(faultFlat)
	first, l := len(f.stubs), 0.0
	for i := 1; i < len(pts); i++ {
		if pts[i] == pts[i-1] {
			continue
		}
		a, b := pts[i-1], pts[i]
		f.stubs = append(f.stubs, stub{
			a: a, b: b, path: path, from: l, next: len(f.stubs) + 1,
			lo: plane.Pt(math.Min(a.X, b.X), math.Min(a.Y, b.Y)), hi: plane.Pt(math.Max(a.X, b.X), math.Max(a.Y, b.Y)),
		})
		l += pts[i].Dist(pts[i-1])
	}
	if len(f.stubs) > first {
		f.stubs[len(f.stubs)-1].next = first
	}
	if f.length == nil {
		f.length = map[int]float64{}
	}
	f.length[path] = l
}

// sweep compares all pieces whose boxes come within reach, going along X.
func (f *faults) sweep() {
	order := make([]int, len(f.stubs))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return f.stubs[order[i]].lo.X < f.stubs[order[j]].lo.X })
	var open []int
	for _, i := range order {
		keep := open[:0]
		for _, j := range open {
			if f.stubs[j].hi.X < f.stubs[i].lo.X-f.least {
				continue
			}
			keep = append(keep, j)
			f.pair(min(i, j), max(i, j))
		}
		open = append(keep, i)
	}
}

// pair compares two pieces.
func (f *faults) pair(i, j int) {
	a, b := &f.stubs[i], &f.stubs[j]
	reach := f.least
	if a.path == b.path {
		reach = faultTouch
	}
	if a.lo.X > b.hi.X+reach || b.lo.X > a.hi.X+reach || a.lo.Y > b.hi.Y+reach || b.lo.Y > a.hi.Y+reach {
		return
	}
	switch {
	case a.next == j && b.next == i: // a path of two pieces is NoArea
	case a.next == j:
		f.joint(a, b)
	case b.next == i:
		f.joint(b, a)
	default:
		m := near(a, b)
		if a.path == b.path {
			f.self(a, b, m)
			return
		}
		f.apart(a, b, m)
	}
}

// joint looks at two pieces in a row: one that turns back along the other leaves a hair
// between them.
func (f *faults) joint(a, b *stub) {
	u, v := a.b.Sub(a.a), b.b.Sub(b.a)
	if u.Dot(v) < 0 && math.Abs(u.Cross(v)) < faultTouch*math.Max(u.Len(), v.Len()) && math.Min(u.Len(), v.Len()) > faultTouch {
		f.take(Fault{Kind: Touches, At: a.b, Hole: a.path, Other: a.path})
	}
}

// self looks at two pieces of one path. Places that are near along the path too belong
// to one tight turn.
func (f *faults) self(a, b *stub, m meeting) {
	if m.cross {
		f.take(Fault{Kind: Crosses, At: m.at, Hole: a.path, Other: a.path})
		return
	}
	along := math.Abs(b.from + m.b - a.from - m.a)
	along = math.Min(along, f.length[a.path]-along)
	if m.gap < faultTouch && along > 20*faultTouch {
		f.take(Fault{Kind: Touches, At: m.at, Hole: a.path, Other: a.path, Gap: m.gap})
	}
}

// apart looks at pieces of two paths.
func (f *faults) apart(a, b *stub, m meeting) {
	kind := HoleAtEdge
	if a.path >= 0 && b.path >= 0 {
		kind = HolesMeet
	}
	if m.gap >= faultTouch {
		if m.gap >= f.least {
			return
		}
		kind = HoleNear
	}
	f.take(Fault{Kind: kind, At: m.at, Hole: a.path, Other: b.path, Gap: m.gap})
}

// contain looks for holes that lie outside the outline or within each other. Those that
// reach an edge are told already.
func (f *faults) contain(r plane.Region) {
	boxes := make([]plane.Box, len(r.Holes))
	for i, h := range r.Holes {
		boxes[i] = h.Box().Grow(1e-6)
	}
	for i, h := range r.Holes {
		if _, ok := f.found[faultKey{HoleAtEdge, -1, i}]; !ok && len(h.Segs) > 0 && !r.Outer.Contains(h.Start()) {
			f.take(Fault{Kind: HoleOutside, At: h.Start(), Hole: i, Other: i})
		}
		for j, o := range r.Holes {
			if i == j || len(h.Segs) == 0 || !boxes[j].Contains(h.Start()) {
				continue
			}
			if _, ok := f.found[faultKey{HolesMeet, min(i, j), max(i, j)}]; !ok && o.Contains(h.Start()) {
				f.take(Fault{Kind: HolesMeet, At: h.Start(), Hole: i, Other: j})
			}
		}
	}
}

// sorted returns what was found, a pair that meets not told as near once more.
func (f *faults) sorted() []Fault {
	var out []Fault
	for k, n := range f.found {
		if _, crosses := f.found[faultKey{Crosses, k.hole, k.other}]; k.kind == NoArea && crosses {
			continue // two lobes that cancel
		}
		if k.kind == HoleNear {
			_, edge := f.found[faultKey{HoleAtEdge, k.hole, k.other}]
			_, meet := f.found[faultKey{HolesMeet, k.hole, k.other}]
			_, outside := f.found[faultKey{HoleOutside, k.other, k.other}]
			if edge || meet || outside {
				continue
			}
		}
		out = append(out, n)
	}
	sort.Slice(out, func(i, j int) bool {
		a, b := out[i], out[j]
		switch {
		case a.Kind != b.Kind:
			return a.Kind < b.Kind
		case a.Hole != b.Hole:
			return a.Hole < b.Hole
		}
		return a.Other < b.Other
	})
	return out
}

// meeting is where two pieces come nearest: the place between, the gap, and how far
// along each it is.
type meeting struct {
	at    plane.Point
	gap   float64
	a, b  float64
	cross bool
}

func near(a, b *stub) meeting {
	u, v, w := a.b.Sub(a.a), b.b.Sub(b.a), b.a.Sub(a.a)
	if den := u.Cross(v); den != 0 {
		s, t := w.Cross(v)/den, w.Cross(u)/den
		if s > 0 && s < 1 && t > 0 && t < 1 {
			return meeting{at: a.a.Add(u.Mul(s)), cross: true}
		}
	}
	m := meeting{gap: math.Inf(1)}
	// try takes a corner of one piece against the other; it lies own along its own.
	try := func(q plane.Point, own float64, o *stub, swap bool) {
		dir := o.b.Sub(o.a)
		l := dir.Len()
		t := math.Max(0, math.Min(l, q.Sub(o.a).Dot(dir)/l))
		p := o.a.Add(dir.Mul(t / l))
		if e := q.Dist(p); e < m.gap {
			m.at, m.gap, m.a, m.b = q.Lerp(p, 0.5), e, own, t
			if swap {
				m.a, m.b = t, own
			}
		}
	}
	try(a.a, 0, b, false)
	try(a.b, u.Len(), b, false)
	try(b.a, 0, a, true)
	try(b.b, v.Len(), a, true)
	return m
}
