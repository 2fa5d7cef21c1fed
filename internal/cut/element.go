package cut

import (
	"math"

	"springrib/internal/plane"
)

// element is what the tour goes through as one: a stroke, or a run of strokes whose
// order is settled.
type element struct {
	ways []way
	run  func(way int) []Stroke
}

// way is one way to run an element. Each has a way back, which starts where it ends
// and ends where it starts, at the same cost.
type way struct {
	in, out plane.Point
	back    int
	cost    float64 // travel inside the element, mm
}

// maxStarts is how many nodes of a closed stroke are tried as its start. A tour
// gains little from more, and choosing them costs the square.
const maxStarts = 24

// single returns the element of one stroke: an open one runs either way, a closed
// one starts at any node.
func single(s Stroke) element {
	segs := s.Path.Segs
	if !s.Path.Closed {
		a, b := segs[0].A, segs[len(segs)-1].B
		return element{
			ways: []way{{in: a, out: b, back: 1}, {in: b, out: a, back: 0}},
			run: func(w int) []Stroke {
				if w == 1 {
					return []Stroke{{s.Part, s.Path.Reverse()}}
				}
				return []Stroke{s}
			},
		}
	}
	starts := startNodes(len(segs))
	e := element{ways: make([]way, len(starts))}
	for i, k := range starts {
		e.ways[i] = way{in: segs[k].A, out: segs[k].A, back: i}
	}
	e.run = func(w int) []Stroke { return []Stroke{{s.Part, startAt(s.Path, starts[w])}} }
	return e
}

// startNodes returns up to maxStarts of n nodes, spread evenly, the first included.
func startNodes(n int) []int {
	m := min(n, maxStarts)
	out := make([]int, m)
	for i := range out {
		out[i] = i * n / m
	}
	return out
}

// startAt returns the closed path p begun at its kth node.
func startAt(p plane.Path, k int) plane.Path {
	if k == 0 {
		return p
	}
	segs := make([]plane.Segment, 0, len(p.Segs))
	segs = append(segs, p.Segs[k:]...)
	return plane.Path{Closed: true, Segs: append(segs, p.Segs[:k]...)}
}

// gap returns the travel from a to b. It is not math.Hypot because sheets are
// nowhere near where squares overflow, and this is asked millions of times.
func gap(a, b plane.Point) float64 {
	dx, dy := a.X-b.X, a.Y-b.Y
	return math.Sqrt(dx*dx + dy*dy)
}
