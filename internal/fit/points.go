package fit

import (
	"math"
	"slices"

	"springrib/internal/plane"
	"springrib/internal/solve"
)

// pointsSource is what Points returns.
type pointsSource struct {
	pts    []plane.Point
	closed bool
}

// Points returns the curve that dense points were taken from, as a source for Fit.
// A closed curve need not repeat its first point.
//
// A point is a corner when the polyline turns by more than 18 degrees over twelve
// tolerances of Fit on either side (which noise of half the tolerance doesn't reach),
// or when a smooth curve through it would leave the polyline by more than the
// tolerance: a few far points are a polygon. Between corners the direction is that of
// the cubic polynomial that fits the neighbours best; the window grows with the noise.
// The deviation that Fit promises is from the polyline itself, both ways.
func Points(pts []plane.Point, closed bool) plane.Source {
	pts = withoutRepeats(pts, closed)
	if len(pts) < 2 {
		panic("fit: Points needs two different points")
	}
	return pointsSource{pts, closed}
}

// withoutRepeats leaves out points within repeat of the one before, and the
// last point of a closed curve when it repeats the first.
func withoutRepeats(pts []plane.Point, closed bool) []plane.Point {
	var out []plane.Point
	for _, p := range pts {
		if n := len(out); n == 0 || out[n-1].Dist(p) > repeat {
			out = append(out, p)
		}
	}
	for closed && len(out) > 1 && out[len(out)-1].Dist(out[0]) <= repeat {
		out = out[:len(out)-1]
	}
	return out
}

func (s pointsSource) Loop() bool { return s.closed }

// Backwards returns the same points in the opposite order.
func (s pointsSource) Backwards() plane.Source {
	back := slices.Clone(s.pts)
	slices.Reverse(back)
	return pointsSource{back, s.closed}
}

// Stretches returns the curve between corners as cubics through the points with the
// estimated directions (corners as for the default tolerance).
func (s pointsSource) Stretches() []plane.Stretch {
	var out []plane.Stretch
	for _, part := range s.smooth(DefaultTolerance, coarse) {
		if part.exact != nil {
			out = append(out, part.exact.Stretch())
			continue
		}
		part := part
		n := float64(len(part.p) - 1)
		cubic := func(t float64) (c plane.Segment, u float64) {
			i := int(solve.Clamp(math.Floor(t*n), 0, n-1))
			h := part.p[i].Dist(part.p[i+1])
			a, b := part.p[i], part.p[i+1]
			return plane.CubicSeg(a, a.Add(part.t[i].Mul(h/3)), b.Sub(part.t[i+1].Mul(h/3)), b), t*n - float64(i)
		}
		out = append(out, plane.Stretch{At: func(t float64) (p, d plane.Point) {
			c, u := cubic(t)
			return c.Point(u), c.Deriv(u).Mul(n)
		}, Bend: func(t float64) plane.Point {
			c, u := cubic(t)
			return c.Deriv2(u).Mul(n * n)
		}})
	}
	return out
}

const (
	// cornerTurn is the turn that makes a corner of a dense polyline, rad, and cornerReach
	// the distance, in tolerances, over which it is looked for.
	cornerTurn, cornerReach = 18 * math.Pi / 180, 12.0
	// repeat is how near the point before, in mm, a point is the same: rounding.
	repeat = 1e-9
	// longBy is how many times as long as its neighbours an edge is a line and no step
	// between points of a curve, where there are more than fewPoints.
	longBy, fewPoints = 8, 8
	// An edge may stand off the curve behind it by the tolerance over jointSag for a joint
	// to lie on it.
	jointSag = 3
	// mostCuts of one edge, where more places for joints are asked for.
	mostCuts = 16
)

// smooth cuts the polyline at its corners and estimates directions between them. Its
// edges are cut into n/coarse where joints may fall.
func (s pointsSource) smooth(tol float64, n int) []sampled {
	pts := s.pts
	if s.closed {
		pts = append(append([]plane.Point(nil), pts...), pts[0])
	}
	corner := corners(pts, s.closed, tol)
	if s.closed {
		pts, corner = startAtCorner(pts, corner)
	}
	var out []sampled
	from := 0
	long := longEdges(pts)
	for i := 1; i < len(pts); i++ {
		if i < len(pts)-1 && !corner[i] && long[i-1] == long[i] {
			continue
		}
		wrap := s.closed && from == 0 && i == len(pts)-1 && !corner[0] && !long[0] && !long[i-1]
		out = append(out, polylineSamples(pts[from:i+1], wrap, tol, n))
		from = i
	}
	return out
}

// longEdges marks the edges (i is the one from point i on) that are longBy times as long
// as their neighbours: lines, which say nothing about the curvature of
// the dense points next to them.
func longEdges(pts []plane.Point) []bool {
	n := len(pts) - 1
	out := make([]bool, n+1)
	length := func(i int) float64 {
		if i < 0 || i >= n {
			return math.Inf(1)
		}
		return pts[i].Dist(pts[i+1])
	}
	for i := range n {
		near := math.Min(length(i-1), length(i+1))
		out[i] = !math.IsInf(near, 1) && length(i) > longBy*near && n > fewPoints
	}
	return out
}

// startAtCorner turns a closed polyline (last point = first) so that it begins at
// its first corner, if it has one.
func startAtCorner(pts []plane.Point, corner []bool) ([]plane.Point, []bool) {
	n := len(pts) - 1
	for k := range n {
		if corner[k] {
			q, c := make([]plane.Point, 0, n+1), make([]bool, 0, n+1)
			for i := range n + 1 {
				q, c = append(q, pts[(k+i)%n]), append(c, corner[(k+i)%n])
			}
			return q, c
		}
	}
	return pts, corner
}

// corners marks the corners of a polyline; the ends of an open one count as corners.
// The last point of a closed one repeats the first.
func corners(pts []plane.Point, closed bool, tol float64) []bool {
	n := len(pts)
	out := make([]bool, n)
	turns := make([]float64, n)
	for i := range n {
		if !closed && (i == 0 || i == n-1) {
			out[i] = true
			continue
		}
		turns[i] = turnAt(pts, closed, i, 0)
		edge := math.Min(pts[i].Dist(pts[before(i, n, closed)]), pts[i].Dist(pts[after(i, n, closed)]))
		// A smooth curve stands off its chord by an eighth of turn times chord.
		if math.Abs(turns[i])*edge/8 > tol || math.Abs(turns[i]) > math.Pi/2 && edge > tol {
			out[i] = true
		}
	}
	for i := range n {
		turns[i] = math.Abs(turnAt(pts, closed, i, cornerReach*tol))
	}
	for i := range n {
		if turns[i] > cornerTurn && largestNearby(pts, turns, closed, i, cornerReach*tol) {
			out[i] = true
		}
	}
	for i := range n {
		out[i] = out[i] || atFoot(pts, out, closed, i, tol)
	}
	return out
}

// atFoot tells that between a long edge and the next corner there is less than the
// tolerance at point i, as at the foot of a needle: there is no direction to estimate, so it
// is a corner too.
func atFoot(pts []plane.Point, corner []bool, closed bool, i int, tol float64) bool {
	n := len(pts)
	a, b := before(i, n, closed), after(i, n, closed)
	for _, walk := range [2]func(i, n int, closed bool) int{after, before} {
		if pts[i].Dist(pts[a]) > cornerReach*tol {
			k, gone := i, 0.0
			for gone < tol && !corner[k] && k != a {
				next := walk(k, n, closed)
				k, gone = next, gone+pts[k].Dist(pts[next])
			}
			if gone < tol && corner[k] {
				return true
			}
		}
		a, b = b, a
	}
	return false
}

func before(i, n int, closed bool) int {
	if i > 0 {
		return i - 1
	}
	if closed {
		return n - 2
	}
	return 0
}

func after(i, n int, closed bool) int {
	if i < n-1 {
		return i + 1
	}
	if closed {
		return 1
	}
	return n - 1
}

// turnAt returns the turn at point i between the directions to the points at least
// reach away before and after it; 0 at an open end.
func turnAt(pts []plane.Point, closed bool, i int, reach float64) float64 {
	n := len(pts)
	a, b := before(i, n, closed), after(i, n, closed)
	for k := 0; k < n && pts[a].Dist(pts[i]) < reach; k++ {
		if a == 0 && !closed {
			break
		}
		a = before(a, n, closed)
	}
	for k := 0; k < n && pts[b].Dist(pts[i]) < reach; k++ {
		if b == n-1 && !closed {
			break
		}
		b = after(b, n, closed)
	}
	u, v := pts[i].Sub(pts[a]), pts[b].Sub(pts[i])
	if u == (plane.Point{}) || v == (plane.Point{}) {
		return 0
	}
	return math.Atan2(u.Cross(v), u.Dot(v))
}

// largestNearby reports whether turns[i] is the largest within reach of point i; of
// equal ones the first.
func largestNearby(pts []plane.Point, turns []float64, closed bool, i int, reach float64) bool {
	n := len(pts)
	for k, a := 0, before(i, n, closed); k < n && a != i && pts[a].Dist(pts[i]) < reach; k++ {
		if turns[a] >= turns[i] && pts[a] != pts[i] {
			return false
		}
		if a == 0 && !closed {
			break
		}
		a = before(a, n, closed)
	}
	for k, b := 0, after(i, n, closed); k < n && b != i && pts[b].Dist(pts[i]) < reach; k++ {
		if turns[b] > turns[i] {
			return false
		}
		if b == n-1 && !closed {
			break
		}
		b = after(b, n, closed)
	}
	return true
}

// polylineSamples returns the samples of a polyline without corners inside: its
// points as nodes with estimated directions, and between them the middles of edges
// where the curve stands off noticeably.
func polylineSamples(pts []plane.Point, wrap bool, tol float64, n int) sampled {
	if len(pts) == 2 {
		e := plane.LineSeg(pts[0], pts[1])
		return sampleStretch(e.Stretch(), tol, 8)
	}
	dirs := directions(pts, wrap, tol)
	var out sampled
	out.polygonal = true
	for i, p := range pts {
		if i > 0 {
			turned := math.Abs(dirs[i-1].Cross(dirs[i]))
			sag := turned * p.Dist(pts[i-1]) / 8
			cut := max(1, min(n/coarse/2*2, mostCuts))
			if cut == 1 && (len(pts) <= fewPoints || sag > tol*sampleSlack) {
				cut = 2
			}
			for k := 1; k < cut; k++ {
				u := float64(k) / float64(cut)
				out.add(pts[i-1].Lerp(p, u), dirs[i-1].Lerp(dirs[i], u).Unit(), sag < tol/jointSag, true)
			}
		}
		out.add(p, dirs[i], true, false)
	}
	return out
}
