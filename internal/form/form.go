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

// Rail is the edge of a rib in space: a section and the plane that it lies in.
type Rail struct {
	Edge curve.Curve
	At   surface.Frame // the section's X, Y and normal
	Left bool          // the panel lies to the left of the edge
}

// Across returns the rail of a cylinder's section at height v along the scores.
func Across(edge curve.Curve, left bool, v float64) Rail {
	f := Section()
	f.Origin.Z = v
	return Rail{edge, f, left}
}

// place returns where a place in space lies in the section.
func (r *Rail) place(p surface.Vec) plane.Point {
	d := p.Sub(r.At.Origin)
	return plane.Pt(d.Dot(r.At.U), d.Dot(r.At.V))
}

// crossed is where a line of a flat crosses the plane of a rail: in the flat panel, and in
// the section.
type crossed struct{ flat, at plane.Point }

// cross returns where the line of the flat panel, which lies on the contact face as the
// frame says, crosses the plane of the rail.
func (r *Rail) cross(f surface.Frame, line [2]plane.Point) crossed {
	a, b := f.At(line[0].X, line[0].Y, 0), f.At(line[1].X, line[1].Y, 0)
	da, db := a.Sub(r.At.Origin).Dot(r.At.N), b.Sub(r.At.Origin).Dot(r.At.N)
	k := da / (da - db)
	return crossed{line[0].Add(line[1].Sub(line[0]).Mul(k)), r.place(a.Add(b.Sub(a).Mul(k)))}
}

// Measure refolds the strip of a cylinder and measures it against the contact edge in the
// section at height v along the scores. left says that the panel lies to the left of the
// edge; length is the panel's developed length for the end miss.
func Measure(s surface.Strip, edge curve.Curve, left bool, v, length float64) Fit {
	end := func(u float64) [2]plane.Point { return [2]plane.Point{plane.Pt(u, v-1), plane.Pt(u, v+1)} }
	return Along(s, Across(edge, left, v), end(0), end(length))
}

// Along refolds the strip and measures it against a rail, square to the panel. start and end
// are the lines of the flat panel, on its first and last flat, that lie over the rail's two
// ends. Each flat is sampled from corner to corner.
func Along(s surface.Strip, rail Rail, start, end [2]plane.Point) Fit {
	frames := Fold(s)
	fit := Fit{Least: math.Inf(1), Most: math.Inf(-1)}
	g := gauge{edge: rail.Edge, left: rail.Left}
	from, to := start, end
	for i, f := range frames {
		if i > 0 {
			from = s.Rulings[i-1].Corner(0, true)
		}
		to = end
		if i < len(s.Rulings) {
			to = s.Rulings[i].Corner(0, false)
		}
		a, b := rail.cross(f, from), rail.cross(f, to)
		if i == len(s.Rulings) {
			fit.End = b.at
			fit.EndMiss = b.at.Dist(rail.Edge.At(rail.Edge.Length()).P)
		}
		if from[1].Sub(from[0]).Cross(b.flat.Sub(a.flat)) >= 0 {
			continue // nothing is left of this flat
		}
		lean := f.N.Dot(rail.At.N)
		gap := g.along(a, b)
		gap.Least, gap.Most = gap.Least*math.Sqrt(1-lean*lean), gap.Most*math.Sqrt(1-lean*lean)
		fit.Flats = append(fit.Flats, gap)
		fit.Least, fit.Most = math.Min(fit.Least, gap.Least), math.Max(fit.Most, gap.Most)
		if math.Abs(gap.Least) > math.Abs(fit.LeastFlat) {
			fit.LeastFlat = gap.Least
		}
	}
	return fit
}

// gauge measures places of the panel against the edge, remembering where it last was.
type gauge struct {
	edge curve.Curve
	left bool
	near float64
}

// gap returns the signed distance of a place of the section from the edge.
func (g *gauge) gap(p plane.Point) float64 {
	var d float64
	g.near, d = g.edge.Foot(p, g.near)
	if !g.left {
		return -d
	}
	return d
}

// samples is how often a flat is measured, corner to corner.
const samples = 16

// along measures one flat, from corner to corner.
func (g *gauge) along(from, to crossed) Gap {
	start, long := g.near, from.at.Dist(to.at)
	d0 := g.gap(from.at)
	s0 := g.near
	g.near += long
	d1 := g.gap(to.at)
	if centre, kappa, ok := g.edge.Circle(s0, g.near); ok {
		return g.overArc(from, to, d0, d1, centre, kappa)
	}
	g.near = start
	out := Gap{Least: math.Inf(1), Most: math.Inf(-1)}
	const step = 1.0 / samples
	var d [samples + 1]float64
	at := 0
	for j := range d {
		k := step * float64(j)
		if j > 0 {
			g.near += long * step
		}
		d[j] = g.gap(between(from.at, to.at, k))
		if d[j] < d[at] {
			at = j
		}
		if d[j] > out.Most {
			out.Most, out.At = d[j], between(from.flat, to.flat, k).X
		}
	}
	out.Least = d[at]
	if at > 0 && at < samples {
		out.Least = g.least(from, to, step*float64(at), step, d[at-1], d[at], d[at+1])
	}
	return out
}

func between(a, b plane.Point, k float64) plane.Point { return a.Add(b.Sub(a).Mul(k)) }

// overArc measures a flat over one arc or straight, with d0 and d1 its gaps at the
// corners: along a line the distance from a circle has one extreme, at the foot of the
// circle's centre.
func (g *gauge) overArc(from, to crossed, d0, d1 float64, centre plane.Point, kappa float64) Gap {
	out := Gap{Least: math.Min(d0, d1), Most: d0, At: from.flat.X}
	if d1 > d0 {
		out.Most, out.At = d1, to.flat.X
	}
	if kappa == 0 {
		return out
	}
	a, b := to.at.Sub(from.at), centre.Sub(from.at)
	share := a.Dot(b) / a.Dot(a)
	if !(share > 0 && share < 1) {
		return out
	}
	end := g.near
	g.near -= (1 - share) * a.Len()
	d := g.gap(between(from.at, to.at, share))
	g.near = end
	out.Least = math.Min(out.Least, d)
	if d > out.Most {
		out.Most, out.At = d, between(from.flat, to.flat, share).X
	}
	return out
}

// least follows the gap down from the share k of a flat, where it is d, with d0 and d1 a step
// before and after it, by parabolas of a quarter of the width each time, until two in a
// row gain less than a ten-millionth of a millimetre. One alone may miss where the edge's
// curvature steps under the flat.
func (g *gauge) least(from, to crossed, k, step, d0, d, d1 float64) float64 {
	best := math.Min(d, math.Min(d0, d1))
	idle := 0
	for range 6 {
		bend := d0 - 2*d + d1
		if bend <= 0 {
			break
		}
		k += step * math.Max(-1, math.Min(1, (d0-d1)/(2*bend)))
		step /= 4
		at := func(k float64) float64 { return g.gap(between(from.at, to.at, k)) }
		d0, d, d1 = at(k-step), at(k), at(k+step)
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
