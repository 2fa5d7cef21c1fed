package outline

import (
	"math"
	"sort"

	"springrib/internal/fit"
	"springrib/internal/plane"
	"springrib/internal/solve"
)

// developer lays an outline onto the flat. Given flat, it stays as it is. Given as it is
// seen when bent, square to the straight line between the curve's ends, each place goes
// to where the show face comes to lie there: x along that line to arc length s of the
// edge, s to the place u of the panel.
type developer struct {
	p      *making
	seen   bool
	origin plane.Point
	along  plane.Point // unit vector of the line between the ends
	height float64     // of the show face over the contact face, to the edge's left
	s, x   []float64   // samples, both rising
}

// developer returns the one that the design asks for, or stops where it can't be seen.
func (p *making) developer() (*developer, bool) {
	d := &developer{p: p, seen: p.Values.Panel.Seen}
	if !d.seen {
		return d, true
	}
	if p.Values.Panel.ShowFace != p.Values.Rib.Side {
		d.height = p.Values.Sheet.T
		if !p.PanelLeft {
			d.height = -d.height
		}
	}
	a, b := d.face(0), d.face(p.Edge.Length())
	d.origin, d.along = a, b.Sub(a).Unit()
	for _, s := range p.Edge.Samples(2 * math.Pi / 180) {
		if p.Closed || d.rate(s) < 0.05 {
			return nil, p.Stop("outline-unseen", "panel.view", "Seen square to the line between its ends, the curve stands on edge or turns back "+p.Len(s)+
				" from its foot, so that the outline can't be told there. Give it flat.", map[string]float64{"at": s})
		}
		d.s, d.x = append(d.s, s), append(d.x, d.across(s))
	}
	return d, true
}

// face returns the place of the show face over arc length s.
func (d *developer) face(s float64) plane.Point {
	st := d.p.Edge.At(s)
	return st.P.Add(st.Tangent().Left().Mul(d.height))
}

func (d *developer) across(s float64) float64 { return d.face(s).Sub(d.origin).Dot(d.along) }

// rate returns dx/ds, with the face's own stretch: dP = T (1 - kappa h) ds.
func (d *developer) rate(s float64) float64 {
	st := d.p.Edge.At(s)
	return st.Tangent().Dot(d.along) * (1 - st.Kappa*d.height)
}

// length returns how long the curve is as the outline is given.
func (d *developer) length() float64 {
	if !d.seen {
		return d.p.Flat + d.p.Seam
	}
	return d.x[len(d.x)-1]
}

// arc returns the arc length under x; past the ends the panel runs on straight.
func (d *developer) arc(x float64) float64 {
	last := len(d.x) - 1
	switch {
	case x <= 0:
		return x / d.rate(-1)
	case x >= d.x[last]:
		return d.s[last] + (x-d.x[last])/d.rate(d.s[last]+1)
	}
	i := max(1, sort.SearchFloat64s(d.x, x))
	s, _ := solve.Root(func(s float64) float64 { return d.across(s) - x }, d.s[i-1], d.s[i], 1e-10)
	return s
}

// region lays a region onto the flat, refitted in few pieces.
func (d *developer) region(r plane.Region) plane.Region {
	if !d.seen {
		return r.Normal()
	}
	out := plane.Region{Outer: d.path(r.Outer)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, d.path(h))
	}
	return out.Normal()
}

func (d *developer) path(p plane.Path) plane.Path {
	at := func(t float64) (plane.Point, plane.Point) {
		i := min(max(int(t), 0), len(p.Segs)-1)
		seg := p.Segs[i]
		q, dq := seg.Point(t-float64(i)), seg.Deriv(t-float64(i))
		s := d.arc(q.X)
		slope := d.p.Places.Slope(s) / d.rate(s)
		return plane.Pt(d.p.Places.U(s), q.Y), plane.Pt(dq.X*slope, dq.Y)
	}
	return fit.Fit(plane.Func(p.Closed, at, d.knots(p)...), fit.Options{Tolerance: Tolerance, Quick: d.p.Draft}).Path
}

// knots returns the parameters of a path, segment number and part of it, at its joints
// and where it passes a step of the curve's curvature.
func (d *developer) knots(p plane.Path) []float64 {
	var steps []float64
	for _, st := range d.p.Edge.Stretches() {
		steps = append(steps, d.across(st.End))
	}
	steps = append(steps, 0)
	var out []float64
	for i, seg := range p.Segs {
		out = append(out, float64(i))
		const n = 32
		for j := range n {
			a, b := float64(j)/n, float64(j+1)/n
			xa, xb := seg.Point(a).X, seg.Point(b).X
			for _, x := range steps {
				if (xa-x)*(xb-x) < 0 {
					t, _ := solve.Root(func(t float64) float64 { return seg.Point(t).X - x }, a, b, 1e-12)
					out = append(out, float64(i)+t)
				}
			}
		}
	}
	out = append(out, float64(len(p.Segs)))
	sort.Float64s(out)
	return apart(out)
}

// apart drops knots that all but fall together, keeping the ends.
func apart(xs []float64) []float64 {
	out := xs[:1]
	for _, x := range xs[1:] {
		if x-out[len(out)-1] > 1e-6 {
			out = append(out, x)
		} else if x == math.Trunc(x) && len(out) > 1 {
			out[len(out)-1] = x // a joint counts for more than a step beside it
		}
	}
	return out
}
