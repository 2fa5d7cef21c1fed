package surface

import (
	"math"

	"springrib/internal/plane"
)

// Cone is a frustum of a round cone: two radii, the narrow one first, and the height between
// them along the axis, mm. Domain: 0 < Narrow < Wide, Height > 0.
type Cone struct{ Narrow, Wide, Height float64 }

// Lean is the angle between a generator and the axis, rad.
func (c Cone) Lean() float64 { return math.Atan2(c.Wide-c.Narrow, c.Height) }

// Slant is the length of a generator between the rims, mm.
func (c Cone) Slant() float64 { return math.Hypot(c.Wide-c.Narrow, c.Height) }

// Net returns the flat frustum as a sector of a ring: its two radii, which are the distances
// from the apex along a generator, r/sin(lean), and the angle that goes all round, 2 pi
// sin(lean). Mathematics: any text of descriptive geometry.
func (c Cone) Net() (inner, outer, angle float64) {
	sin := (c.Wide - c.Narrow) / c.Slant()
	return c.Narrow / sin, c.Wide / sin, 2 * math.Pi * sin
}

// Radius returns the radius at a height over the narrow rim.
func (c Cone) Radius(height float64) float64 {
	return c.Narrow + (c.Wide-c.Narrow)*height/c.Height
}

// Angle returns how far round from -Y toward -X the cone is at a share of a span that is centred
// on +Y: 0 at its start, 1 at its end. A whole round starts and ends at -Y.
func Angle(span, share float64) float64 { return math.Pi - span/2 + span*share }

// Touches returns n+1 lines that go over a span of the outside of the cone, evenly; of a span of
// 2 pi the last lies on the first. The axis is Z, with the narrow rim at 0 and the wide one at its
// height times up, which is 1 or -1. They go round from -Y toward -X, see Angle.
func (c Cone) Touches(n int, up, span float64) []Touch {
	out := make([]Touch, n+1)
	cos, sin := c.Height/c.Slant(), (c.Wide-c.Narrow)/c.Slant()
	for i := range out {
		a := Angle(span, float64(i)/float64(n))
		x, y := -math.Sin(a), -math.Cos(a)
		out[i] = Touch{
			A: Vec{c.Narrow * x, c.Narrow * y, 0}, B: Vec{c.Wide * x, c.Wide * y, up * c.Height},
			N: Vec{cos * x, cos * y, -up * sin},
		}
	}
	return out
}

// Fan is where a flat cone lies: about its apex, from the line at Start, which leans by that
// from +Y, turning right as it goes round. Its places are given by u along and a distance past the
// narrow edge. One that is Open goes straight on before and after, square to its ends.
type Fan struct {
	Apex  plane.Point
	Inner float64 // radius of the narrow edge
	Start float64 // rad, left of +Y
	Angle float64 // that the cone takes, rad

	Foot float64 // u where the cone begins, mm
	Bend float64 // how much of u it takes, mm
	Open bool    // else the fan goes on past its ends
}

// At returns the place at an angle round from the start and a distance past the inner edge.
func (f Fan) At(angle, past float64) plane.Point {
	a := f.Start - angle
	return f.Apex.Add(plane.Pt(-math.Sin(a), math.Cos(a)).Mul(f.Inner + past))
}

// round returns the angle of a place along the fan, and how far before or after the cone it is.
func (f Fan) round(u float64) (angle, off float64) {
	on := u - f.Foot
	switch {
	case f.Open && on < 0:
		return 0, on
	case f.Open && on > f.Bend:
		return f.Angle, on - f.Bend
	}
	return f.Angle * on / f.Bend, 0
}

// Place returns the place u along, a distance past the narrow edge.
func (f Fan) Place(u, past float64) plane.Point {
	angle, off := f.round(u)
	a := f.Start - angle
	return f.At(angle, past).Add(plane.Pt(math.Cos(a), math.Sin(a)).Mul(off))
}

// Turn carries what lies on the fan along by u, mm.
func (f Fan) Turn(u float64) plane.Affine {
	return plane.RotateAbout(f.Apex, -f.Angle*u/f.Bend)
}

// Line returns the line at a distance past the narrow edge between two places along: an arc, and
// straights before and after it.
func (f Fan) Line(past, from, to float64) []plane.Segment {
	if to < from {
		return plane.Path{Segs: f.Line(past, to, from)}.Reverse().Segs
	}
	a, before := f.round(from)
	b, after := f.round(to)
	var out []plane.Segment
	if before < 0 {
		out = append(out, plane.LineSeg(f.Place(from, past), f.At(0, past)))
	}
	if b > a {
		out = append(out, f.Arc(past, a, b)...)
	}
	if after > 0 {
		out = append(out, plane.LineSeg(f.At(f.Angle, past), f.Place(to, past)))
	}
	return out
}

// Arc returns the arc at a distance past the inner edge, between two angles, the lesser first.
func (f Fan) Arc(past, from, to float64) []plane.Segment {
	n := max(1, int(math.Ceil((to-from)/(math.Pi/2)-1e-9)))
	var out []plane.Segment
	for i := range n {
		a, b := from+(to-from)*float64(i)/float64(n), from+(to-from)*float64(i+1)/float64(n)
		dir := f.At(a, past).Sub(f.Apex).Unit().Left().Mul(-1)
		out = append(out, plane.ArcTangent(f.At(a, past), dir, f.At(b, past)))
	}
	return out
}

// Outline returns what lies between two places along, so far past the inner edge.
func (f Fan) Outline(from, to, slant float64) plane.Path {
	segs := f.Line(0, from, to)
	segs = append(segs, plane.LineSeg(f.Place(to, 0), f.Place(to, slant)))
	segs = append(segs, f.Line(slant, to, from)...)
	segs = append(segs, plane.LineSeg(f.Place(from, slant), f.Place(from, 0)))
	return plane.Path{Segs: segs, Closed: true}
}

// FanOf returns where the touches of a cone lie, and the strip laid so that the first share of the
// fan stands upright about +X = 0, the middle of its slant on Y = 0.
func FanOf(s Strip, lain []Lain, share float64) (Fan, Strip) {
	a, b := lain[0].Flat, lain[1].Flat
	// The touches are alike, so that their lines meet in one place: where the first two do.
	d, e := a[1].Sub(a[0]).Unit(), b[1].Sub(b[0]).Unit()
	step := math.Atan2(e.Cross(d), e.Dot(d))
	back := a[0].Dist(b[0]) / (2 * math.Sin(step/2))
	all := step * float64(len(lain)-1)
	f := Fan{Inner: back, Start: all / 2 * share, Angle: all, Bend: all * back, Apex: plane.Pt(0, -back-a[0].Dist(a[1])/2)}
	from := f.At(0, 0)
	return f, s.Laid(plane.Translate(from.X, from.Y).Mul(plane.Rotate(f.Start)))
}
