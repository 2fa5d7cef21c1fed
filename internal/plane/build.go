package plane

import "math"

// LineSeg returns the straight segment from a to b.
func LineSeg(a, b Point) Segment { return Segment{Kind: Line, A: a, B: b} }

// BulgeSeg returns the arc from a to b of the given bulge (see Segment.Bulge), or
// the line when bulge is 0.
func BulgeSeg(a, b Point, bulge float64) Segment {
	if bulge == 0 {
		return LineSeg(a, b)
	}
	return Segment{Kind: Arc, A: a, B: b, Bulge: bulge}
}

// CubicSeg returns the cubic Bézier from a to b with control points c and d.
func CubicSeg(a, c, d, b Point) Segment { return Segment{Kind: Cubic, A: a, B: b, C: c, D: d} }

// ArcSeg returns the arc about center from angle a0 to angle a1 (radians);
// counter-clockwise when a1 > a0. The sweep a1-a0 must lie strictly between -2 pi
// and 2 pi: a full circle takes two arcs.
func ArcSeg(center Point, r, a0, a1 float64) Segment {
	if math.Abs(a1-a0) >= 2*math.Pi {
		panic("plane: ArcSeg of a full turn")
	}
	a := center.Add(Dir(a0).Mul(r))
	b := center.Add(Dir(a1).Mul(r))
	return BulgeSeg(a, b, math.Tan((a1-a0)/4))
}

// ArcTangent returns the arc (or line) that leaves a along direction u and ends at b.
// b must not lie straight behind a.
func ArcTangent(a, u, b Point) Segment {
	c := b.Sub(a)
	// The chord makes half the sweep with the tangent.
	return BulgeSeg(a, b, math.Tan(math.Atan2(u.Cross(c), u.Dot(c))/2))
}

// Poly returns the closed polygon through pts.
func Poly(pts ...Point) Path {
	p := Open(pts...)
	if n := len(pts); n > 0 && pts[n-1] != pts[0] {
		p.Segs = append(p.Segs, LineSeg(pts[n-1], pts[0]))
	}
	p.Closed = len(p.Segs) > 0
	return p
}

// Open returns the open polyline through pts. Repeated points are left out.
func Open(pts ...Point) Path {
	var p Path
	for i := 1; i < len(pts); i++ {
		if pts[i] != pts[i-1] {
			p.Segs = append(p.Segs, LineSeg(pts[i-1], pts[i]))
		}
	}
	return p
}

// Chain returns the path made of segs, which must join end to end exactly, and
// close when closed is set.
func Chain(closed bool, segs ...Segment) Path {
	for i, s := range segs {
		if i > 0 && segs[i-1].B != s.A {
			panic("plane: Chain with a gap")
		}
	}
	if closed && len(segs) > 0 && segs[len(segs)-1].B != segs[0].A {
		panic("plane: Chain does not close")
	}
	return Path{Segs: segs, Closed: closed}
}

// RectPath returns the outline of b, counter-clockwise from its lower left corner.
func RectPath(b Box) Path {
	return Poly(b.Min, Point{b.Max.X, b.Min.Y}, b.Max, Point{b.Min.X, b.Max.Y})
}

// CirclePath returns the circle about c as two half circles, counter-clockwise from
// its rightmost point.
func CirclePath(c Point, r float64) Path {
	a, b := Point{c.X + r, c.Y}, Point{c.X - r, c.Y}
	return Path{Segs: []Segment{BulgeSeg(a, b, 1), BulgeSeg(b, a, 1)}, Closed: true}
}
