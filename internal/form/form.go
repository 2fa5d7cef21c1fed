// Package form folds a panel back up from what the file holds, and measures what
// comes out. It knows nothing of how the scores were found: it takes their places as
// rounded, their folds and pivot heights, and turns one flat after the other.
package form

import (
	"math"

	"springrib/internal/curve"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// Fold returns the frame of every flat of the strip: one more than there are
// rulings. Each flat is the one before it turned about the ruling between them, at
// the height that the ruling pivots at.
func Fold(s surface.Strip) []surface.Frame {
	return Partly(s, float64(len(s.Rulings)))
}

// rotate turns v by angle about the unit axis (Rodrigues' formula).
func rotate(v, axis surface.Vec, angle float64) surface.Vec {
	c, s := math.Cos(angle), math.Sin(angle)
	return v.Mul(c).Add(axis.Cross(v).Mul(s)).Add(axis.Mul(axis.Dot(v) * (1 - c)))
}

// Gap is what one flat leaves between its contact face and the rib edge, mm along
// the edge's normal, positive apart and negative into the rib.
type Gap struct {
	Least, Most float64
	At          float64 // place of the most along the flat panel
}

// Fit is how the refolded panel meets the rib edge.
type Fit struct {
	Flats       []Gap
	Least, Most float64     // over all flats
	LeastFlat   float64     // the flat whose least gap is furthest from touching: that gap
	End         plane.Point // where the panel's far edge comes to lie on the contact face
	EndMiss     float64     // its distance from the end of the edge
}

// Measure refolds the strip and measures it against the contact edge in the section
// at height v along the scores. left says that the panel lies to the left of the
// edge; length is the panel's developed length for the end miss. Only as much of the
// panel as the edge covers is measured. Each flat is sampled from corner to corner.
func Measure(s surface.Strip, edge curve.Curve, left bool, v, length float64) Fit {
	frames := Fold(s)
	fit := Fit{Least: math.Inf(1), Most: math.Inf(-1)}
	g := gauge{edge: edge, left: left, v: v}
	for i, f := range frames {
		from, to := extent(s, i, v, length)
		if to <= from {
			continue
		}
		gap := g.along(f, from, to)
		fit.Flats = append(fit.Flats, gap)
		fit.Least, fit.Most = math.Min(fit.Least, gap.Least), math.Max(fit.Most, gap.Most)
		if math.Abs(gap.Least) > math.Abs(fit.LeastFlat) {
			fit.LeastFlat = gap.Least
		}
	}
	last := frames[len(frames)-1].At(length, v, 0)
	fit.End = plane.Pt(last.X, last.Y)
	fit.EndMiss = fit.End.Dist(edge.At(edge.Length()).P)
	return fit
}

// gauge measures places of the panel against the edge, remembering where it last was.
type gauge struct {
	edge curve.Curve
	left bool
	v    float64
	near float64
}

// gap returns the signed distance of the flat's place u from the edge.
func (g *gauge) gap(f surface.Frame, u float64) float64 {
	p := f.At(u, g.v, 0)
	var d float64
	g.near, d = g.edge.Foot(plane.Pt(p.X, p.Y), g.near)
	if !g.left {
		return -d
	}
	return d
}

// samples is how often a flat is measured, corner to corner.
const samples = 16

// along measures one flat.
func (g *gauge) along(f surface.Frame, from, to float64) Gap {
	start := g.near
	d0 := g.gap(f, from)
	s0 := g.near
	g.near += to - from
	d1 := g.gap(f, to)
	if centre, kappa, ok := g.edge.Circle(s0, g.near); ok {
		return g.overArc(f, from, to, d0, d1, centre, kappa)
	}
	g.near = start
	out := Gap{Least: math.Inf(1), Most: math.Inf(-1)}
	step := (to - from) / samples
	var d [samples + 1]float64
	at := 0
	for j := range d {
		u := from + step*float64(j)
		if j > 0 {
			g.near += step
		}
		d[j] = g.gap(f, u)
		if d[j] < d[at] {
			at = j
		}
		if d[j] > out.Most {
			out.Most, out.At = d[j], u
		}
	}
	out.Least = d[at]
	if at > 0 && at < samples {
		out.Least = g.least(f, from+step*float64(at), step, d[at-1], d[at], d[at+1])
	}
	return out
}

// overArc measures a flat over one arc or straight, with d0 and d1 its gaps at the
// corners: along a line the distance from a circle has one extreme, at the foot of the
// circle's centre.
func (g *gauge) overArc(f surface.Frame, from, to, d0, d1 float64, centre plane.Point, kappa float64) Gap {
	out := Gap{Least: math.Min(d0, d1), Most: d0, At: from}
	if d1 > d0 {
		out.Most, out.At = d1, to
	}
	if kappa == 0 {
		return out
	}
	p := f.At(from, g.v, 0)
	a, b := f.At(to, g.v, 0).Sub(p), surface.Vec{X: centre.X - p.X, Y: centre.Y - p.Y}
	share := (a.X*b.X + a.Y*b.Y) / (a.X*a.X + a.Y*a.Y)
	if !(share > 0 && share < 1) {
		return out
	}
	u := from + share*(to-from)
	end := g.near
	g.near -= (1 - share) * (to - from)
	d := g.gap(f, u)
	g.near = end
	out.Least = math.Min(out.Least, d)
	if d > out.Most {
		out.Most, out.At = d, u
	}
	return out
}

// least follows the gap down from the place u, where it is d, with d0 and d1 a step
// before and after it, by parabolas of a quarter of the width each time, until two in a
// row gain less than a ten-millionth of a millimetre. One alone may miss where the edge's
// curvature steps under the flat.
func (g *gauge) least(f surface.Frame, u, step, d0, d, d1 float64) float64 {
	best := math.Min(d, math.Min(d0, d1))
	idle := 0
	for range 6 {
		bend := d0 - 2*d + d1
		if bend <= 0 {
			break
		}
		u += step * math.Max(-1, math.Min(1, (d0-d1)/(2*bend)))
		step /= 4
		d0, d, d1 = g.gap(f, u-step), g.gap(f, u), g.gap(f, u+step)
		before := best
		best = math.Min(best, math.Min(d, math.Min(d0, d1)))
		if before-best >= 1e-7 {
			idle = 0
		} else if idle++; idle == 2 {
			break
		}
	}
	return best
}

// extent returns the corners of flat i on the contact face in the section at v: the
// rulings beside it, drawn in or out by height*tan(turn/2).
func extent(s surface.Strip, i int, v, length float64) (from, to float64) {
	from, to = 0, length
	if i > 0 {
		r := s.Rulings[i-1]
		from = cross(r, v) + r.Height*math.Tan(r.Turn/2)
	}
	if i < len(s.Rulings) {
		r := s.Rulings[i]
		to = math.Min(to, cross(r, v)-r.Height*math.Tan(r.Turn/2))
	}
	return from, to
}

// cross returns u where the ruling passes v in the flat panel.
func cross(r surface.Ruling, v float64) float64 {
	a, b := r.Flat[0], r.Flat[1]
	return a.X + (b.X-a.X)*(v-a.Y)/(b.Y-a.Y)
}
