package part

import (
	"springrib/internal/fit"
	"springrib/internal/plane"
)

// parallel returns the back edge from the foot to an arc length without fitting where it is
// made of lines and arcs: the parallels of lines, and of arcs at a depth that stays.
func (t RibTask) parallel(to float64) (back []plane.Segment, ok bool) {
	edge, ok := t.Edge.Segments(t.Start, to)
	if !ok {
		return nil, false
	}
	side := 1.0
	if !t.PanelLeft {
		side = -1
	}
	s := t.Start
	for _, e := range edge {
		end := s + e.Length()
		q, ok := e.Parallel(-side*t.DepthAt(s), -side*t.DepthAt(end))
		if !ok {
			return nil, false
		}
		s = end
		if n := len(back); n > 0 && back[n-1].B != q.A {
			if back[n-1].B.Dist(q.A) > joined { // the edge turns a corner
				back = append(back, plane.LineSeg(back[n-1].B, q.A))
			}
			q.A = back[len(back)-1].B
		}
		back = append(back, q)
	}
	return back, true
}

// joined is how far apart two pieces of the back edge may end by rounding alone, mm.
const joined = 1e-6

// fitBack returns the back edge from the foot to where the tip's rounding starts, as
// the fewest pieces within the tolerance: lines and arcs where the rib edge is made of
// them, cubics too where it is a free curve.
func (t RibTask) fitBack(to float64) []plane.Segment {
	if back, ok := t.parallel(to); ok {
		return back
	}
	src := plane.Func(false, t.back, t.knots(to)...)
	o := fit.Options{Tolerance: t.Tolerance, Quick: t.Quick}
	if _, plain := t.Edge.Segments(t.Start, t.End); plain {
		o.Mode = fit.Arcs
	}
	return fit.Fit(src, o).Path.Segs
}

// fitEdge returns the contact edge where it is not made of lines and arcs already.
func (t RibTask) fitEdge() []plane.Segment {
	at := func(s float64) (plane.Point, plane.Point) {
		st := t.Edge.At(s)
		return st.P, st.Tangent()
	}
	src := plane.Func(false, at, t.knots(t.End)...)
	return fit.Fit(src, fit.Options{Tolerance: t.Tolerance, Quick: t.Quick}).Path.Segs
}

// knots returns the arc lengths at which the edge's curvature may step, from the rib's start
// to end.
func (t RibTask) knots(end float64) []float64 {
	out := []float64{t.Start}
	for _, st := range t.Edge.Stretches() {
		if st.End > out[len(out)-1]+1e-9 && st.End < end-1e-9 {
			out = append(out, st.End)
		}
	}
	return append(out, end)
}
