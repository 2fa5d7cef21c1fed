package intake

import (
	"fmt"
	"math"
	"sort"
)

// Near misses are looked for this far, mm, and further where the gap is wide: ten gaps.
const (
	missLeast = 1.0
	missMost  = 5.0
)

// pointAtNearMisses points at ends of different paths that were left apart, each end once, the
// nearest first.
func (m *mender) pointAtNearMisses() {
	reach := math.Max(missLeast, math.Min(10*m.gap, missMost))
	open, place := m.openEnds(reach)
	ends := newGrid(len(open))
	group := make([]int64, 2*len(m.pieces))
	for i := len(open) - 1; i >= 0; i-- {
		group[open[i]] = place[i].group
		place[i].group = 0
		ends.add(place[i], int32(open[i]))
	}
	var met []meeting
	var near []int32
	for i, e := range open {
		near = ends.round(near[:0], place[i], maxNear)
		best := meeting{dist: reach}
		for _, n := range near {
			f := end(n)
			// Where one would turn straight back into the other they lie side by side, as the
			// lines of a hatch do.
			if d := m.at(e).Dist(m.at(f)); f.piece() != e.piece() && d < best.dist && m.away(e).Dot(m.away(f)) < 0.9 {
				best = meeting{a: min(e, f), b: max(e, f), dist: d}
			}
		}
		if best.dist < reach {
			met = append(met, best)
		}
	}
	sort.Slice(met, func(i, j int) bool {
		p, q := met[i], met[j]
		switch {
		case p.dist != q.dist:
			return p.dist < q.dist
		case p.a != q.a:
			return p.a < q.a
		}
		return p.b < q.b
	})
	told := make([]bool, 2*len(m.pieces))
	shown := 0
	for _, t := range met {
		if told[t.a] || told[t.b] || shown == maxShown {
			continue
		}
		told[t.a], told[t.b] = true, true
		shown++
		p, q := &m.pieces[t.a.piece()], &m.pieces[t.b.piece()]
		kind, text := NearMiss, "Ends %.3f mm apart stay open."
		if group[t.a] != group[t.b] {
			kind, text = Apart, "Ends %.3f mm apart are on two layers or in two colours, and are not joined."
		} else if t.dist <= m.gap {
			continue // others met there
		}
		m.note(kind, merge(p.from, q.from), m.at(t.a).Lerp(m.at(t.b), 0.5), t.dist, fmt.Sprintf(text, t.dist))
	}
}
