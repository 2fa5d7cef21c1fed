// Package offset grows and shrinks regions, and finds where outlines cross. It works on
// lines and arcs, whose parallels and meetings are closed forms; cubics are taken as arcs.
package offset

import (
	"errors"
	"math"
	"sort"

	"springrib/internal/fit"
	"springrib/internal/plane"
	"springrib/internal/solve"
)

// Region returns the region of all points within d of r (d > 0, corners rounded), or
// of those points of r that are farther than -d from its edge (d < 0). A neck that
// closes splits the region into several, which come in the order of their leftmost
// points; a hole that closes is gone, and one that opens is new: compare the counts.
// Where nothing is left the result is empty.
//
// The edge is exact for lines and arcs: each piece's parallel, and arcs about the
// convex corners, are cut where they meet, and what lies nearer than d to any part of
// r's edge is dropped (Chen & McMains, Polygon offsetting by computing winding
// numbers, ASME DETC 2005, discuss this and other ways). Cubics are taken as arcs
// within tol/3 and what comes of them is fitted again, to tol in all.
//
// It fails when the parts that remain don't close, which 12,000 random outlines that
// were sound (see plane.Region) didn't bring about; an outline that crosses itself has no
// offset.
func Region(r plane.Region, d, tol float64) ([]plane.Region, error) {
	r = r.Normal()
	if d == 0 {
		return []plane.Region{r}, nil
	}
	curved := false
	var arcs []plane.Path
	for _, p := range r.Paths() {
		q, bent := forOffset(p, tol)
		curved = curved || bent
		arcs = append(arcs, q)
	}
	loops, err := offsetLoops(arcs, -d)
	if err != nil {
		return nil, err
	}
	out := regionsOf(loops)
	if curved {
		for i := range out {
			out[i] = refit(out[i], 2*tol/3)
		}
	}
	return out, nil
}

// forOffset returns p as lines and arcs, and whether it had cubics.
func forOffset(p plane.Path, tol float64) (arcs plane.Path, bent bool) {
	if curved(p) {
		return fit.Fit(p, fit.Options{Tolerance: tol / 3, Mode: fit.Arcs}).Path, true
	}
	return arcsWithin(p, tol), false
}

// curved reports whether p has cubics.
func curved(p plane.Path) bool {
	for _, s := range p.Segs {
		if s.Kind == plane.Cubic {
			return true
		}
	}
	return false
}

func refit(r plane.Region, tol float64) plane.Region {
	out := plane.Region{Outer: fit.Fit(r.Outer, fit.Options{Tolerance: tol}).Path}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, fit.Fit(h, fit.Options{Tolerance: tol}).Path)
	}
	return out
}

// nudges are changes of the distance, in mm, tried one after the other when pieces
// meet so unluckily (three in a point, two on each other) that the rest can't be put
// together. They are far below what any machine resolves.
func nudges() []float64 { return []float64{0, 1.3e-6, -1.7e-6, 5.9e-6, -7.1e-6, 2.3e-5, -2.9e-5} }

// offsetLoops returns the closed parallels at d to the left of closed paths.
func offsetLoops(paths []plane.Path, d float64) ([]plane.Path, error) {
	var err error
	for _, gap := range []float64{0, healGap} {
		for _, nudge := range nudges() {
			var loops []plane.Path
			if loops, err = offsetChains(paths, d+nudge); err != nil {
				continue
			}
			if loops, ok := healed(loops, gap); ok {
				return loops, nil
			}
			err = errors.New("offset: an offset outline doesn't close")
		}
	}
	return nil, err
}

// healGap is the gap in mm that is closed by moving an end when no change of the
// distance helps: a part too short to survive has been lost there.
const healGap = 1e-4

// healed closes chains whose ends are within gap and drops open ones no longer than
// it; ok is false if others stay open.
func healed(chains []plane.Path, gap float64) (loops []plane.Path, ok bool) {
	for _, c := range chains {
		if !c.Closed {
			if c.Length() <= gap {
				continue
			}
			if c.Start().Dist(c.End()) > gap {
				return nil, false
			}
			c.Segs[len(c.Segs)-1].B = c.Start()
			c.Closed = true
		}
		loops = append(loops, c)
	}
	return loops, true
}

// offsetChains returns what is left of the parallels, chained.
func offsetChains(paths []plane.Path, d float64) ([]plane.Path, error) {
	var raw, edge []plane.Segment
	for _, p := range paths {
		raw = append(raw, rawOffset(p, d)...)
		edge = append(edge, p.Segs...)
	}
	parts := splitAtMeetings(raw)
	keep := newSegTree(edge)
	var left []part
	for _, q := range parts {
		if !keep.nearer(q.seg.Point(0.5), math.Abs(d)-validSlack) {
			left = append(left, q)
		}
	}
	return chain(left)
}

// validSlack is how much nearer than the distance, in mm, the middle of a valid part
// may seem through rounding.
const validSlack = 1e-8

// rawOffset returns the parallels of the lines and arcs of p, arcs about corners on
// the outer side, and neighbours cut where they meet on the inner side.
func rawOffset(p plane.Path, d float64) []plane.Segment {
	n := len(p.Segs)
	pieces := make([]plane.Segment, n)
	alive := make([]bool, n)
	for i, s := range p.Segs {
		pieces[i], alive[i] = offsetPiece(s, d)
	}
	var joins []plane.Segment
	for i, s := range p.Segs {
		if i == n-1 && !p.Closed {
			break
		}
		j := (i + 1) % n
		t0, t1 := s.Tangent(1), p.Segs[j].Tangent(0)
		w := math.Atan2(t0.Cross(t1), t0.Dot(t1))
		back := math.Abs(w) > math.Pi-1e-9
		if w*d > 0 && !back {
			if i != j && alive[i] && alive[j] {
				pieces[i], pieces[j] = trimmed(pieces[i], pieces[j])
			}
			continue
		}
		if w*d > 0 { // straight back: round the tip
			w = -w
		}
		a, b := s.B.Add(t0.Left().Mul(d)), s.B.Add(t1.Left().Mul(d))
		switch {
		case a.Dist(b) > 4*chainGap:
			joins = append(joins, plane.BulgeSeg(a, b, math.Tan(w/4)))
		case alive[i] && alive[j]: // too small for a piece: lengthen the next one
			pieces[j] = pieces[j].Split(-a.Dist(b)/pieces[j].Length(), 1)
			pieces[j].A = pieces[i].B
		}
	}
	var out []plane.Segment
	for i, q := range pieces {
		if alive[i] && q.A.Dist(q.B) > 1e-9 {
			out = append(out, q)
		}
	}
	return append(out, joins...)
}

// trimmed cuts the end of a and the start of b where they cross near the joint. What
// is cut off lies nearer to the other's original; where the two are nearly straight
// on, that would be too little for the check of distances to see.
func trimmed(a, b plane.Segment) (plane.Segment, plane.Segment) {
	best, ta, tb := 0.25, 1.0, 0.0
	for _, m := range plane.Meetings(a, b) {
		if off := math.Max(1-m.TA, m.TB); off < best {
			best, ta, tb = off, m.TA, m.TB
		}
	}
	if best == 0.25 {
		return a, b
	}
	a, b = a.Split(0, ta), b.Split(tb, 1)
	b.A = a.B
	return a, b
}

// offsetPiece returns the parallel of a line or arc; ok is false when the arc shrinks
// away.
func offsetPiece(s plane.Segment, d float64) (q plane.Segment, ok bool) {
	if s.Kind == plane.Arc && s.Bulge != 0 {
		_, r := s.Centre()
		if r-d*solve.Sign(s.Bulge) < 1e-9 {
			return q, false
		}
	}
	q, _ = s.Parallel(d, d)
	return q, q.A.Dist(q.B) > 1e-9
}

// part is a piece of segment number of.
type part struct {
	seg plane.Segment
	of  int
}

// splitAtMeetings cuts the segments where they meet each other.
func splitAtMeetings(segs []plane.Segment) []part {
	boxes := make([]plane.Box, len(segs))
	cuts := make([][]float64, len(segs))
	for i, s := range segs {
		boxes[i] = s.Box().Grow(plane.MeetSlack)
	}
	sweepPairs(boxes, func(i, j int) {
		for _, m := range plane.Meetings(segs[i], segs[j]) {
			cuts[i] = append(cuts[i], m.TA)
			cuts[j] = append(cuts[j], m.TB)
		}
	})
	var out []part
	for i, s := range segs {
		sort.Float64s(cuts[i])
		least := 2 * chainGap / s.Length()
		t0 := 0.0
		for _, t := range cuts[i] {
			if t-t0 > least && t < 1-least {
				out = append(out, part{s.Split(t0, t), i})
				t0 = t
			}
		}
		out = append(out, part{s.Split(t0, 1), i})
	}
	return out
}

// segTree holds lines and arcs in a tree of boxes for nearness queries.
type segTree struct {
	segs   []plane.Segment
	levels [][]plane.Box
}

func newSegTree(segs []plane.Segment) *segTree {
	boxes := make([]plane.Box, len(segs))
	for i, s := range segs {
		boxes[i] = s.Box()
	}
	return &segTree{segs, plane.BoxLevels(boxes)}
}

// nearer reports whether a segment is nearer than d to p.
func (t *segTree) nearer(p plane.Point, d float64) bool {
	return d > 0 && t.nearerIn(len(t.levels)-1, 0, p, d)
}

func (t *segTree) nearerIn(level, k int, p plane.Point, d float64) bool {
	if k >= len(t.levels[level]) || t.levels[level][k].Distance(p) >= d {
		return false
	}
	if level == 0 {
		return t.segs[k].Distance(p) < d
	}
	return t.nearerIn(level-1, 2*k, p, d) || t.nearerIn(level-1, 2*k+1, p, d)
}
