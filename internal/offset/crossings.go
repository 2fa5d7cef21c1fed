package offset

import (
	"sort"

	"springrib/internal/fit"
	"springrib/internal/plane"
)

// sweepPairs calls f for each pair i < j of boxes that overlap, in a fixed order. It
// sweeps along the longer side of all boxes together.
func sweepPairs(boxes []plane.Box, f func(i, j int)) {
	all := plane.EmptyBox()
	for _, b := range boxes {
		all = all.Union(b)
	}
	if all.H() > all.W() {
		flipped := make([]plane.Box, len(boxes))
		for i, b := range boxes {
			flipped[i] = plane.BoxOf(plane.Pt(b.Min.Y, b.Min.X), plane.Pt(b.Max.Y, b.Max.X))
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

// Crossings returns the points where paths cross or touch themselves or each other,
// joints of neighbours left out, in the order of the pieces. Cubics are looked at as
// arcs within 1e-3 mm. Stretches that lie on each other are not found.
func Crossings(paths ...plane.Path) []plane.Point {
	var segs []plane.Segment
	var path []int
	for k, p := range paths {
		for _, s := range arcsWithin(p, 1e-3).Segs {
			segs, path = append(segs, s), append(path, k)
		}
	}
	boxes := make([]plane.Box, len(segs))
	for i, s := range segs {
		boxes[i] = s.Box().Grow(plane.MeetSlack)
	}
	type found struct {
		i, j int
		at   plane.Point
	}
	var all []found
	sweepPairs(boxes, func(i, j int) {
		for _, m := range plane.Meetings(segs[i], segs[j]) {
			if path[i] == path[j] && joint(segs[i], segs[j], m) {
				continue
			}
			all = append(all, found{i, j, m.At})
		}
	})
	sort.SliceStable(all, func(a, b int) bool {
		return all[a].i < all[b].i || all[a].i == all[b].i && all[a].j < all[b].j
	})
	var out []plane.Point
	for _, f := range all {
		out = append(out, f.at)
	}
	return out
}

// joint reports whether the meeting is where one of two neighbours ends and the other
// begins.
func joint(a, b plane.Segment, m plane.Meeting) bool {
	return a.B == b.A && m.TA == 1 && m.TB == 0 || b.B == a.A && m.TB == 1 && m.TA == 0
}

// arcsWithin returns p with its cubics as lines and arcs within tol, without kinks
// that would matter; lines and arcs stay.
func arcsWithin(p plane.Path, tol float64) plane.Path {
	out := plane.Path{Closed: p.Closed}
	for _, s := range p.Segs {
		if s.A == s.B && s.Kind != plane.Cubic {
			continue
		}
		if s.Kind != plane.Cubic {
			out.Segs = append(out.Segs, s)
			continue
		}
		f := fit.Fit(plane.Path{Segs: []plane.Segment{s}}, fit.Options{Tolerance: tol, Mode: fit.Arcs})
		out.Segs = append(out.Segs, f.Path.Segs...)
	}
	return out
}
