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

// Touches returns n+1 lines that go once round the outside of the cone, evenly, the last on
// the first. The axis is Z, with the narrow rim at 0 and the wide one at its height times up,
// which is 1 or -1. They start at -Y and go toward -X.
func (c Cone) Touches(n int, up float64) []Touch {
	out := make([]Touch, n+1)
	cos, sin := c.Height/c.Slant(), (c.Wide-c.Narrow)/c.Slant()
	for i := range out {
		a := 2 * math.Pi * float64(i) / float64(n)
		x, y := -math.Sin(a), -math.Cos(a)
		out[i] = Touch{
			A: Vec{c.Narrow * x, c.Narrow * y, 0}, B: Vec{c.Wide * x, c.Wide * y, up * c.Height},
			N: Vec{cos * x, cos * y, -up * sin},
		}
	}
	return out
}

// Fan is where a flat cone lies: about its apex, from the line at Start, which leans by that
// from +Y, turning right as it goes round.
type Fan struct {
	Apex  plane.Point
	Inner float64 // radius of the narrow edge
	Start float64 // rad, left of +Y
	Angle float64 // that goes all round, rad
}

// At returns the place at an angle round from the start and a distance past the inner edge.
func (f Fan) At(angle, past float64) plane.Point {
	a := f.Start - angle
	return f.Apex.Add(plane.Pt(-math.Sin(a), math.Cos(a)).Mul(f.Inner + past))
}

// Arc returns the arc at a distance past the inner edge, between two angles.
func (f Fan) Arc(past, from, to float64) []plane.Segment {
	n := max(1, int(math.Ceil(math.Abs(to-from)/(math.Pi/2)-1e-9)))
	var out []plane.Segment
	for i := range n {
		a, b := from+(to-from)*float64(i)/float64(n), from+(to-from)*float64(i+1)/float64(n)
		dir := f.At(a, past).Sub(f.Apex).Unit().Left()
		if to > from {
			dir = dir.Mul(-1)
		}
		out = append(out, plane.ArcTangent(f.At(a, past), dir, f.At(b, past)))
	}
	return out
}

// Outline returns the sector from one angle to another, so far past the inner edge.
func (f Fan) Outline(from, to, slant float64) plane.Path {
	segs := f.Arc(0, from, to)
	segs = append(segs, plane.LineSeg(f.At(to, 0), f.At(to, slant)))
	segs = append(segs, f.Arc(slant, to, from)...)
	segs = append(segs, plane.LineSeg(f.At(from, slant), f.At(from, 0)))
	return plane.Path{Segs: segs, Closed: true}
}

// FanOf returns where the touches of a cone lie, and the strip laid so that the fan stands
// upright about +X = 0, the middle of its slant on Y = 0.
func FanOf(s Strip, lain []Lain) (Fan, Strip) {
	a, b := lain[0].Flat, lain[1].Flat
	// The touches are alike, so that their lines meet in one place: where the first two do.
	d, e := a[1].Sub(a[0]).Unit(), b[1].Sub(b[0]).Unit()
	step := math.Atan2(e.Cross(d), e.Dot(d))
	back := a[0].Dist(b[0]) / (2 * math.Sin(step/2))
	all := step * float64(len(lain)-1)
	f := Fan{Inner: back, Start: all / 2, Angle: all, Apex: plane.Pt(0, -back-a[0].Dist(a[1])/2)}
	from := f.At(0, 0)
	return f, s.Laid(plane.Translate(from.X, from.Y).Mul(plane.Rotate(f.Start)))
}
