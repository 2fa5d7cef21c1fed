package intake

import (
	"math"

	"springrib/internal/plane"
)

// twin is what two drawings of the same path share: all cheap to find.
type twin struct {
	box    plane.Box
	length float64
}

func (a twin) near(b twin) bool {
	const t = sameWithin
	return a.box.Min.Dist(b.box.Min) <= 2*t && a.box.Max.Dist(b.box.Max) <= 2*t &&
		math.Abs(a.length-b.length) <= 4*t+1e-3*a.length
}

// maxTwins bounds how many paths about one centre each further one is compared with.
const maxTwins = 16

// dropDuplicates drops paths that were drawn before in the same layer, in either
// direction. The first one stays. With point it also points at those on other layers.
func (m *mender) dropDuplicates(point bool) {
	type cell struct{ x, y int64 }
	const size = 4 * sameWithin
	byCentre := map[cell][]int{} // numbers of pieces kept
	twins := make([]twin, len(m.pieces))
	kept := m.pieces[:0:0]
	doubled := 0
	for i, p := range m.pieces {
		twins[i] = twin{p.box, p.Path.Length()}
		c := p.box.Centre()
		at := cell{int64(math.Floor(c.X / size)), int64(math.Floor(c.Y / size))}
		var near []int
		for dx := int64(-1); dx <= 1; dx++ {
			for dy := int64(-1); dy <= 1; dy++ {
				near = append(near, byCentre[cell{at.x + dx, at.y + dy}]...)
			}
		}
		same, other := m.twinsOf(i, near, twins)
		const text = "Drawn twice: one dropped."
		switch {
		case same >= 0 && !m.leaves(Duplicate, merge(p.from, m.pieces[same].from), p.Path.Start(), 0, text):
			m.note(Duplicate, merge(p.from, m.pieces[same].from), p.Path.Start(), 0, text)
			continue
		case other >= 0 && point && doubled < maxShown:
			doubled++
			m.note(Doubled, merge(p.from, m.pieces[other].from), p.Path.Start(), 0, "Drawn on two layers: use one of them only.")
		}
		kept = append(kept, p)
		if len(near) < maxTwins {
			byCentre[at] = append(byCentre[at], i)
		}
	}
	m.pieces = kept
}

// twinsOf looks among near for the same path as piece i: on its layer and on another
// one, -1 for none.
func (m *mender) twinsOf(i int, near []int, twins []twin) (same, other int) {
	same, other = -1, -1
	p := m.pieces[i]
	for _, j := range near {
		q := m.pieces[j]
		if !twins[i].near(twins[j]) || !samePath(p.Path, q.Path) {
			continue
		}
		if p.Layer == q.Layer {
			return j, other
		}
		if other < 0 {
			other = j
		}
	}
	return same, other
}

// samePath reports whether a and b are the same curve within sameWithin, however
// divided and in either direction.
func samePath(a, b plane.Path) bool {
	if a.Closed != b.Closed {
		return false
	}
	if len(a.Segs) == len(b.Segs) && (sameSegs(a, b) || sameSegs(a, b.Reverse())) {
		return true
	}
	const tol = sameWithin / 4
	if flatCount(a, tol)*flatCount(b, tol) > 1e6 {
		return false
	}
	pa, pb := a.Flatten(tol), b.Flatten(tol)
	return allNear(pa, pb) && allNear(pb, pa)
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

// allNear reports whether each point lies within sameWithin of the polyline.
func allNear(pts, line []plane.Point) bool {
	for _, p := range pts {
		near := false
		for i := 1; i < len(line) && !near; i++ {
			near = toSegment(p, line[i-1], line[i]) <= sameWithin
		}
		if !near {
			return false
		}
	}
	return true
}

// toSegment returns the distance from p to the straight piece from a to b.
func toSegment(p, a, b plane.Point) float64 {
	d := b.Sub(a)
	l := d.Dot(d)
	if l == 0 {
		return p.Dist(a)
	}
	f := math.Max(0, math.Min(1, p.Sub(a).Dot(d)/l))
	return p.Dist(a.Lerp(b, f))
}
