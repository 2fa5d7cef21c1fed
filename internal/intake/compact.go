package intake

import (
	"math"

	"springrib/internal/fit"
	"springrib/internal/plane"
)

// Compactor compacts paths one after the other that together have no more points that lie
// on no smooth curve than one may.
type Compactor struct{ spent int }

// Compact returns p in few lines, arcs and cubics, with its figures rounded to 0.1 µm,
// so that its text form is short: within tolerance mm of p, both ways. Runs of short
// lines are taken for the points of a smooth curve, as programs write them that know
// polygons only; corners stay. Lines and arcs stay what they are.
//
// ok is false, and the path that of p, when p has more than 20,000 points that lie on no
// smooth curve, as a traced photograph has: it would take too long.
func (c *Compactor) Compact(p plane.Path, tolerance float64) (out plane.Path, ok bool) {
	if len(p.Segs) == 0 {
		return p, true
	}
	var parts []plane.Source
	lost := 0.0 // the most that thinning has moved anything
	left := maxRough - c.spent
	for _, r := range runsOf(&p) {
		whole := p.Closed && len(r.segs) == len(p.Segs)
		pts, eps := r.points(tolerance)
		if !r.lines {
			left -= len(r.segs)
		}
		if left -= len(pts); left < 0 {
			return p, false
		}
		lost = math.Max(lost, eps)
		if r.lines && spread(pts) {
			parts = append(parts, fit.Points(pts, whole))
		} else {
			parts = append(parts, plane.Path{Segs: r.segs, Closed: whole})
		}
	}
	c.spent = maxRough - left
	src := parts[0]
	if len(parts) > 1 {
		src = plane.Join(p.Closed, parts...)
	}
	return rounded(fit.Fit(src, fit.Options{Tolerance: tolerance - lost - roundingError}).Path), true
}

// maxRough bounds the points that are fitted, once thinned: a fit through noise takes up
// to 20 µs a point.
const maxRough = 20_000

// spread reports whether the points are not all one.
func spread(pts []plane.Point) bool {
	for _, p := range pts {
		if p.Dist(pts[0]) > joined {
			return true
		}
	}
	return false
}

// grain is the step, in mm, to which Compact rounds places, and roundingError bounds what
// that moves: half a diagonal of it at both ends of a piece.
const (
	grain         = 1e-4
	roundingError = 1.5 * grain
)

// run is a part of a path: lines that follow each other, or anything else.
type run struct {
	segs  []plane.Segment
	lines bool
}

// leastRun is how many lines in a row may be the points of a curve.
const leastRun = 4

// runsOf cuts p into runs. A closed path is turned so that it begins where a run does.
func runsOf(p *plane.Path) []run {
	n := len(p.Segs)
	if p.Closed {
		for i := range n {
			if p.Segs[i].Kind != plane.Line && p.Segs[(i+1)%n].Kind == plane.Line {
				segs := append([]plane.Segment(nil), p.Segs[i+1:]...)
				p.Segs = append(segs, p.Segs[:i+1]...)
				break
			}
		}
	}
	var out []run
	for i := 0; i < n; {
		j := i + 1
		for j < n && (p.Segs[j].Kind == plane.Line) == (p.Segs[i].Kind == plane.Line) {
			j++
		}
		lines := p.Segs[i].Kind == plane.Line && j-i >= leastRun
		if k := len(out) - 1; k >= 0 && !lines && !out[k].lines {
			out[k].segs = p.Segs[i-len(out[k].segs) : j]
		} else {
			out = append(out, run{p.Segs[i:j], lines})
		}
		i = j
	}
	return out
}

// points returns the ends of a run of lines and by how much less they tell than all.
//
// A run that was written far more densely than its shape asks for is thinned, so that the
// time of a fit goes with the shape. Where that leaves more than an eighth of the points,
// what it would leave are the crests of the noise, which mislead the fit: then all stay.
// A fifth of the tolerance passes over the noise of files with two decimals of a
// millimetre or more; half of it is for coarser ones.
func (r run) points(tolerance float64) (pts []plane.Point, eps float64) {
	if !r.lines {
		return nil, 0
	}
	all := make([]plane.Point, 0, len(r.segs)+1)
	all = append(all, r.segs[0].A)
	for _, s := range r.segs {
		all = append(all, s.B)
	}
	for _, eps := range [2]float64{tolerance / 5, tolerance / 2} {
		if pts := thinned(all, eps); len(pts) <= len(all)/8 {
			return pts, eps
		}
	}
	return all, 0
}

// thinned returns the points without those that lie within eps of the line between the
// neighbours that stay: blocks are halved until they hold to that. Unlike a walk that
// goes as far as it can from each point, halving doesn't pick the points that stand out.
func thinned(pts []plane.Point, eps float64) []plane.Point {
	out := pts[:1:1]
	var halve func(a, b int)
	halve = func(a, b int) {
		for i := a + 1; i < b; i++ {
			if plane.LineDistance(pts[i], pts[a], pts[b]) > eps {
				m := (a + b) / 2
				halve(a, m)
				halve(m, b)
				return
			}
		}
		out = append(out, pts[b])
	}
	const block = 1024
	for a := 0; a < len(pts)-1; a += block {
		halve(a, min(a+block, len(pts)-1))
	}
	return out
}

// rounded returns p with its figures rounded. Segments that shrink to nothing are left
// out; neighbours still meet, since both ends of a joint round alike. An arc of more than
// half a turn is cut in two first: the radius of a nearly full circle would go with the
// little that lies between its ends.
func rounded(p plane.Path) plane.Path {
	out := plane.Path{Closed: p.Closed}
	var segs []plane.Segment
	for _, s := range p.Segs {
		if math.Abs(s.Sweep()) > math.Pi+1e-9 {
			segs = append(segs, s.Split(0, 0.5), s.Split(0.5, 1))
		} else {
			segs = append(segs, s)
		}
	}
	for _, s := range segs {
		s.A, s.B, s.C, s.D = place(s.A), place(s.B), place(s.C), place(s.D)
		if s.Kind == plane.Arc {
			// Over a chord of a metre, this moves the middle by a quarter of the grain.
			s = plane.BulgeSeg(s.A, s.B, math.Round(s.Bulge*1e8)/1e8) // a line where nothing is left of it
		}
		if s.A != s.B || s.Kind == plane.Cubic && (s.C != s.A || s.D != s.A) {
			out.Segs = append(out.Segs, s)
		}
	}
	return out
}

func place(p plane.Point) plane.Point {
	const perMM = 1 / grain
	return plane.Pt(math.Round(p.X*perMM)/perMM+0, math.Round(p.Y*perMM)/perMM+0) // never -0
}
