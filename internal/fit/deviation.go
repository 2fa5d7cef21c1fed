package fit

import (
	"math"

	"springrib/internal/plane"
)

// Deviation is Hausdorff for a source and a path fitted to it. The source is
// flattened by halving until middles stand off by less than accuracy/8, judged by
// samples: unlike that of Hausdorff the bound rests on the source being smooth between
// 16 samples of each stretch.
func Deviation(src plane.Source, p plane.Path, accuracy float64) (lo, hi float64) {
	var pts []plane.Point
	switch s := src.(type) {
	case plane.Path:
		pts = s.Flatten(accuracy / 8)
	case pointsSource:
		pts = append(pts, s.pts...)
		if s.closed {
			pts = append(pts, pts[0])
		}
	default:
		for _, st := range src.Stretches() {
			pts = flatten(st, pts, accuracy/8)
		}
	}
	return hausdorff(pts, p.Flatten(accuracy/8), accuracy)
}

func flatten(s plane.Stretch, pts []plane.Point, tol float64) []plane.Point {
	if s.Exact != nil {
		return append(pts, plane.Path{Segs: []plane.Segment{*s.Exact}}.Flatten(tol)...)
	}
	const n = 16
	a, _ := s.At(0)
	pts = append(pts, a)
	for i := range n {
		t0, t1 := float64(i)/n, float64(i+1)/n
		b, _ := s.At(t1)
		pts = flattenBetween(s, pts, t0, t1, a, b, tol, 20)
		a = b
	}
	return pts
}

func flattenBetween(s plane.Stretch, pts []plane.Point, t0, t1 float64, a, b plane.Point, tol float64, depth int) []plane.Point {
	m, _ := s.At((t0 + t1) / 2)
	if depth == 0 || plane.LineDistance(m, a, b) <= tol/2 {
		return append(pts, m, b)
	}
	pts = flattenBetween(s, pts, t0, (t0+t1)/2, a, m, tol, depth-1)
	return flattenBetween(s, pts, (t0+t1)/2, t1, m, b, tol, depth-1)
}

func hausdorff(a, b []plane.Point, accuracy float64) (lo, hi float64) {
	if len(a) == 0 || len(b) == 0 {
		panic("fit: Hausdorff distance of an empty path")
	}
	ta, tb := newLineTree(a), newLineTree(b)
	lo = max(tb.farthestVertex(a), ta.farthestVertex(b))
	hi = lo
	for i := 1; i < len(a); i++ {
		tb.bound(a[i-1], a[i], accuracy/2, &lo, &hi, 40)
	}
	for i := 1; i < len(b); i++ {
		ta.bound(b[i-1], b[i], accuracy/2, &lo, &hi, 40)
	}
	return max(0, lo-accuracy/4), hi + accuracy/4
}

// lineTree is a polyline with a tree of boxes over its lines.
type lineTree struct {
	pts    []plane.Point
	last   int // the line found last
	levels [][]plane.Box
}

func newLineTree(pts []plane.Point) *lineTree {
	if len(pts) == 1 {
		pts = append(pts, pts[0])
	}
	lines := make([]plane.Box, len(pts)-1)
	for i := range lines {
		lines[i] = plane.BoxOf(pts[i], pts[i+1])
	}
	return &lineTree{pts: pts, levels: plane.BoxLevels(lines)}
}

func (t *lineTree) farthestVertex(pts []plane.Point) float64 {
	far := 0.0
	for _, p := range pts {
		far = max(far, t.within(p, p))
	}
	return far
}

// within returns the least r such that one line of t is within r of both p and q, and
// so of all points between them. For p = q that is the distance.
func (t *lineTree) within(p, q plane.Point) float64 {
	// Neighbours in a row of questions have neighbouring answers.
	best := math.Inf(1)
	for k := max(0, t.last-1); k <= min(t.last+1, len(t.pts)-2); k++ {
		t.search(0, k, p, q, &best)
	}
	t.search(len(t.levels)-1, 0, p, q, &best)
	return best
}

func (t *lineTree) search(level, k int, p, q plane.Point, best *float64) {
	if level == 0 {
		a, b := t.pts[k], t.pts[k+1]
		if d := max(plane.LineDistance(p, a, b), plane.LineDistance(q, a, b)); d < *best {
			*best, t.last = d, k
		}
		return
	}
	below := t.levels[level-1]
	l, r := 2*k, 2*k+1
	dl, dr := reach(below[l], p, q), math.Inf(1)
	if r < len(below) {
		dr = reach(below[r], p, q)
	}
	if dr < dl {
		l, r, dl, dr = r, l, dr, dl
	}
	if dl < *best {
		t.search(level-1, l, p, q, best)
	}
	if dr < *best {
		t.search(level-1, r, p, q, best)
	}
}

// reach returns the larger of the distances of p and q from b.
func reach(b plane.Box, p, q plane.Point) float64 { return max(b.Distance(p), b.Distance(q)) }

// bound raises hi to a bound of the distance of the points between p and q from t,
// halving until that is within accuracy of lo, and lo by what it meets.
func (t *lineTree) bound(p, q plane.Point, accuracy float64, lo, hi *float64, depth int) {
	r := t.within(p, q)
	if r <= *lo+accuracy || depth == 0 {
		*hi = max(*hi, r)
		return
	}
	m := p.Lerp(q, 0.5)
	*lo = max(*lo, t.within(m, m))
	*hi = max(*hi, *lo)
	t.bound(p, m, accuracy, lo, hi, depth-1)
	t.bound(m, q, accuracy, lo, hi, depth-1)
}
