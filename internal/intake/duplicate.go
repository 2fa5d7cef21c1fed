package intake

import (
	"math"

	"springrib/internal/plane"
)

// alike reports whether p and q may be drawings of the same path, by what is cheap to find.
func (p *piece) alike(q *piece) bool {
	const t = sameWithin
	return p.box.Min.Dist(q.box.Min) <= 2*t && p.box.Max.Dist(q.box.Max) <= 2*t &&
		math.Abs(p.Length()-q.Length()) <= 4*t+1e-3*p.Length()
}

// maxTwins bounds how many paths about one centre each further one is compared with.
const maxTwins = 16

// dropDuplicates drops paths that were drawn before in the same layer, in either
// direction. The first one stays. With point it also points at those on other layers.
func (m *mender) dropDuplicates(point bool) {
	const size = 4 * sameWithin
	seen := newGrid(len(m.pieces)) // pieces kept, by their centre
	kept := m.pieces[:0]
	was := m.pieces // as they stood: kept overwrites no piece that is still asked for
	doubled := 0
	var near []int32
	for i := range was {
		p := was[i]
		at := gridCell(p.box.Centre(), size)
		near = seen.round(near[:0], at, maxTwins)
		same, other := m.twinsOf(&p, near, kept)
		const text = "Drawn twice: one dropped."
		switch {
		case same >= 0 && !m.leaves(Duplicate, merge(p.from, kept[same].from), p.Path.Start(), 0, text):
			m.note(Duplicate, merge(p.from, kept[same].from), p.Path.Start(), 0, text)
			continue
		case other >= 0 && point && doubled < maxShown:
			doubled++
			m.note(Doubled, merge(p.from, kept[other].from), p.Path.Start(), 0, "Drawn on two layers: use one of them only.")
		}
		if len(near) < maxTwins {
			seen.add(at, int32(len(kept)))
		}
		kept = append(kept, p)
	}
	m.pieces = kept
}

// twinsOf looks among the kept pieces that lie near for the same path as p: on its layer and
// on another one, -1 for none.
func (m *mender) twinsOf(p *piece, near []int32, kept []piece) (same, other int) {
	same, other = -1, -1
	for _, j := range near {
		q := &kept[j]
		if !p.alike(q) || !m.samePath(p.Path, q.Path) {
			continue
		}
		if p.Layer == q.Layer {
			return int(j), other
		}
		if other < 0 {
			other = int(j)
		}
	}
	return same, other
}

// maxAlike bounds the points that are compared to find out which paths are the same.
const maxAlike = 4_000_000

// samePath reports whether a and b are the same curve within sameWithin, however
// divided and in either direction.
func (m *mender) samePath(a, b plane.Path) bool {
	if a.Closed != b.Closed {
		return false
	}
	if m.alike += len(a.Segs) + len(b.Segs); m.alike > maxAlike {
		return false
	}
	if len(a.Segs) == len(b.Segs) && (sameSegs(a, b) || sameSegs(a, b.Reverse())) {
		return true
	}
	const tol = sameWithin / 4
	if m.alike += int(math.Min(flatCount(a, tol)+flatCount(b, tol), maxAlike)); m.alike > maxAlike {
		return false
	}
	pa, pb := a.Flatten(tol), b.Flatten(tol)
	return m.allNear(pa, pb) && m.allNear(pb, pa)
}

// sameSegs compares piece by piece; a closed path may start anywhere.
func sameSegs(a, b plane.Path) bool {
	n := len(a.Segs)
	starts := 1
	if a.Closed {
		starts = n
	}
	tried := 0
	for k := range starts {
		if b.Segs[k].A.Dist(a.Segs[0].A) > sameWithin {
			continue
		}
		if tried++; tried > 4 {
			return false
		}
		same := true
		for i := 0; i < n && same; i++ {
			same = sameSegment(a.Segs[i], b.Segs[(i+k)%n])
		}
		if same {
			return true
		}
	}
	return false
}

func sameSegment(s, t plane.Segment) bool {
	if s.A.Dist(t.A) > sameWithin || s.B.Dist(t.B) > sameWithin {
		return false
	}
	if s.Kind == plane.Line && t.Kind == plane.Line {
		return true
	}
	for _, f := range [3]float64{0.25, 0.5, 0.75} {
		if s.Point(f).Dist(t.Point(f)) > sameWithin {
			return false
		}
	}
	return true
}

// allNear reports whether each point lies within sameWithin of the polyline. Where one
// point lies, the next is looked for first, so that the work is of their number.
func (m *mender) allNear(pts, line []plane.Point) bool {
	at, n := 0, len(line)-1
	for _, p := range pts {
		near := false
		for k := 0; k < n && !near; k++ {
			i := (at + (k+1)/2*(1-2*(k%2)) + 2*n) % n
			if near = plane.LineDistance(p, line[i], line[i+1]) <= sameWithin; near {
				at = i
			}
			if m.alike++; m.alike > maxAlike {
				return false
			}
		}
		if !near {
			return false
		}
	}
	return true
}
