// Package plane holds flat geometry in millimetres: points, segments, paths and
// regions, and what is measured and cut of them.
//
// Y points up and angles grow counter-clockwise; exports flip. A path is a chain
// of lines, circular arcs and cubic Bézier curves, the three kinds that leave the
// program. Nothing here knows what a path is for.
package plane

import "math"

// Point is a place in the plane, or the vector to it, in mm.
type Point struct{ X, Y float64 }

// Pt is shorthand for Point{x, y}.
func Pt(x, y float64) Point { return Point{x, y} }

// Add returns p+q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p-q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul returns p scaled by k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Dot returns the scalar product p·q.
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the z component of p×q, positive when q lies to the left of p.
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Len returns the length of p.
func (p Point) Len() float64 { return math.Hypot(p.X, p.Y) }

// Dist returns the distance between p and q.
func (p Point) Dist(q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Left returns p turned a quarter counter-clockwise.
func (p Point) Left() Point { return Point{-p.Y, p.X} }

// Unit returns p scaled to length 1; the zero vector stays zero.
func (p Point) Unit() Point {
	l := p.Len()
	if l == 0 {
		return p
	}
	return Point{p.X / l, p.Y / l}
}

// Lerp returns the point at fraction f from p to q.
func (p Point) Lerp(q Point, f float64) Point {
	return Point{p.X + (q.X-p.X)*f, p.Y + (q.Y-p.Y)*f}
}

// Dir returns the unit vector at angle a (radians) from +X.
func Dir(a float64) Point {
	sin, cos := math.Sincos(a)
	return Point{cos, sin}
}

// Kind tells what a Segment is.
type Kind uint8

// The kinds of Segment.
const (
	Line  Kind = iota // straight from A to B
	Arc               // circular from A to B, see Segment.Bulge
	Cubic             // cubic Bézier A, C, D, B
)

// Segment is one piece of a path.
type Segment struct {
	Kind Kind
	A, B Point // start and end
	C, D Point // control points of a Cubic
	// Bulge of an Arc: tan of a quarter of the angle it turns through, positive
	// counter-clockwise; 1 is a half circle. A full circle takes two arcs.
	Bulge float64
}

// Path is a chain of segments, each starting where the one before ended.
// A closed path ends at its own start; the last segment closes it explicitly.
type Path struct {
	Segs   []Segment
	Closed bool
}

// Region is an area with holes. The outer path runs counter-clockwise, holes
// clockwise; neither crosses itself or another.
type Region struct {
	Outer Path
	Holes []Path
}

// Box is an axis-aligned rectangle. The zero Box is the point at the origin; use
// EmptyBox as the start of a union.
type Box struct{ Min, Max Point }

// EmptyBox returns the box that holds nothing.
func EmptyBox() Box {
	inf := math.Inf(1)
	return Box{Point{inf, inf}, Point{-inf, -inf}}
}
