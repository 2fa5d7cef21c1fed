package surface

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// Net is where a panel lies flat whose scores run as they like: by lines across it in order, each at
// its place u along, from one rail to the other. Between two lines a flat is plane, so that its
// places are shared in proportion. Beyond its ends the net goes on as it begins, carried along.
type Net struct {
	U     []float64
	Lines [][2]plane.Point
	Width float64 // what a place past the first rail is told of at the second, mm
	// Bends are the runs of lines, first and last, between which the rails are smooth; from one run
	// to the next they run straight.
	Bends [][2]int
}

// End is the last place along.
func (n *Net) End() float64 { return n.U[len(n.U)-1] }

// Place returns the place u along, so far past the first rail.
func (n *Net) Place(u, past float64) plane.Point {
	switch {
	case u > n.End()+flush:
		return n.Turn().Apply(n.Place(u-n.End(), past))
	case u < -flush:
		back, _ := n.Turn().Inverse()
		return back.Apply(n.Place(u+n.End(), past))
	}
	i := min(max(sort.SearchFloat64s(n.U, u), 1), len(n.U)-1)
	a, b := n.Lines[i-1], n.Lines[i]
	f := (u - n.U[i-1]) / (n.U[i] - n.U[i-1])
	return a[0].Lerp(b[0], f).Lerp(a[1].Lerp(b[1], f), past/n.Width)
}

// Turn carries what lies at the start of the net to its end: once round, where it closes.
func (n *Net) Turn() plane.Affine {
	a, b := n.Lines[0], n.Lines[len(n.Lines)-1]
	return motion(a[0], a[1], b[0], b[1])
}

// Rail returns the line at a distance past the first rail between two places along: smooth cubics
// along each bend, by the places on either side, and straights between.
func (n *Net) Rail(past, from, to float64) plane.Path {
	if to < from {
		return n.Rail(past, to, from).Reverse()
	}
	var out plane.Path
	last := n.Place(from, past)
	line := func(p plane.Point) {
		if p.Dist(last) > 1e-6 {
			out.Segs = append(out.Segs, plane.LineSeg(last, p))
		}
		last = p
	}
	for _, b := range n.Bends {
		lo, hi := math.Max(from, n.U[b[0]]), math.Min(to, n.U[b[1]])
		if hi-lo < 1e-9 {
			continue
		}
		line(n.Place(lo, past))
		pts := []plane.Point{last}
		for i := b[0]; i <= b[1]; i++ {
			if n.U[i] > lo+1e-9 && n.U[i] < hi-1e-9 {
				pts = append(pts, n.Place(n.U[i], past))
			}
		}
		pts = append(pts, n.Place(hi, past))
		out.Segs = append(out.Segs, smooth(pts)...)
		last = pts[len(pts)-1]
	}
	line(n.Place(to, past))
	return out
}

// smooth returns cubics through places, each headed as the circle through it and its neighbours.
func smooth(pts []plane.Point) []plane.Segment {
	n := len(pts)
	if n == 2 {
		return []plane.Segment{plane.LineSeg(pts[0], pts[1])}
	}
	head := make([]plane.Point, n)
	for i := 1; i+1 < n; i++ {
		a, b := pts[i].Sub(pts[i-1]), pts[i+1].Sub(pts[i])
		// The tangent of that circle: each side's direction weighed by the other side's length.
		head[i] = a.Mul(b.Len() / a.Len()).Add(b.Mul(a.Len() / b.Len())).Unit()
	}
	// At its end a circle leaves the chord by as much as it meets it at the other.
	mirrored := func(d, chord plane.Point) plane.Point {
		e := chord.Unit()
		return e.Mul(2 * d.Dot(e)).Sub(d)
	}
	head[0] = mirrored(head[1], pts[1].Sub(pts[0]))
	head[n-1] = mirrored(head[n-2], pts[n-1].Sub(pts[n-2]))
	out := make([]plane.Segment, 0, n-1)
	for i := range n - 1 {
		l := pts[i].Dist(pts[i+1]) / 3
		out = append(out, plane.CubicSeg(pts[i], pts[i].Add(head[i].Mul(l)), pts[i+1].Sub(head[i+1].Mul(l)), pts[i+1]))
	}
	return out
}
