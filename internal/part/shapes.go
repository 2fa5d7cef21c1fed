package part

import (
	"fmt"
	"math"

	"springrib/internal/plane"
	"springrib/internal/solve"
)

// Ellipse returns the outline of an ellipse of the given length along the bend and
// width across it, touching u = 0 and u = length, centred on v = 0, within 0.01 mm: two
// arcs for a circle, else the image of a circle in as few equal cubics as that takes,
// alike on both sides of v = 0.
func Ellipse(length, width float64) plane.Region {
	positive("ellipse", length, width)
	c := plane.Pt(length/2, 0)
	if length == width {
		return plane.Region{Outer: plane.CirclePath(c, width/2)}
	}
	a, b := length/2, width/2
	for n := 4; ; n++ {
		leg, off := circleCubic(2 * math.Pi / float64(n))
		if off*math.Max(a, b) > 0.0099 {
			continue
		}
		return plane.Region{Outer: ellipseCubics(c, a, b, n, leg)}
	}
}

// ellipseCubics returns n cubics that are the image of equal parts of a circle, from the
// foot counter-clockwise; leg is that of circleCubic.
func ellipseCubics(c plane.Point, a, b float64, n int, leg float64) plane.Path {
	at := func(p plane.Point) plane.Point { return c.Add(plane.Pt(a*p.X, b*p.Y)) }
	p := plane.Path{Closed: true}
	for i := range n {
		u := plane.Dir(math.Pi + 2*math.Pi*float64(i)/float64(n))
		v := plane.Dir(math.Pi + 2*math.Pi*float64((i+1)%n)/float64(n))
		p.Segs = append(p.Segs, plane.CubicSeg(at(u), at(u.Add(u.Left().Mul(leg))), at(v.Sub(v.Left().Mul(leg))), at(v)))
	}
	return p
}

// circleCubic returns the leg of a cubic for an arc of the unit circle through angle, at
// most a quarter turn, and how far it strays: the leg of 4/3 tan(angle/4), at which it
// touches the circle in its middle and strays outward twice, shortened until it strays
// inward in its middle by as much (as of M. Goldapp, Approximation of circular arcs by
// cubic polynomials, Computer Aided Geometric Design 8, 1991).
func circleCubic(angle float64) (leg, off float64) {
	a, b := plane.Pt(1, 0), plane.Dir(angle)
	strays := func(leg float64) (mid, most float64) {
		s := plane.CubicSeg(a, a.Add(a.Left().Mul(leg)), b.Sub(b.Left().Mul(leg)), b)
		for t := 0.15; t < 0.3; t += 0.005 {
			most = math.Max(most, s.Point(t).Len()-1)
		}
		return s.Point(0.5).Len() - 1, most
	}
	touching := 4.0 / 3 * math.Tan(angle/4)
	leg, _ = solve.Root(func(leg float64) float64 {
		mid, most := strays(leg)
		return mid + most
	}, touching*0.99, touching, 1e-15)
	mid, most := strays(leg)
	return leg, math.Max(most, -mid)
}

// Lens is the shape between two equal arcs.
type Lens struct {
	Length, Width float64
	// FootRound and TipRound are the radii of the arcs that round the two points,
	// tangent to both sides; 0 keeps a point.
	FootRound, TipRound float64
}

// side returns the radius of the sides and the distance of their centres from the
// axis: R = (L^2 + W^2)/(4 W).
func (l Lens) side() (r, off float64) {
	r = (l.Length*l.Length + l.Width*l.Width) / (4 * l.Width)
	return r, r - l.Width/2
}

// MostRound returns the largest radius that a point can be rounded to: half the width,
// where the rounding reaches the middle.
func (l Lens) MostRound() float64 { return l.Width / 2 }

// Outline returns the lens from u = 0 to u = Length, centred on v = 0. A rounded point
// is shorter than the sharp one by what the rounding takes; the outline is moved and
// its sides lengthened so that it still spans u = 0 to Length.
func (l Lens) Outline() plane.Region {
	positive("lens", l.Length, l.Width)
	if l.FootRound < 0 || l.TipRound < 0 || math.Max(l.FootRound, l.TipRound) >= l.MostRound() {
		panic(fmt.Sprintf("part: lens %v wide rounded to %v and %v", l.Width, l.FootRound, l.TipRound))
	}
	sharp, foot := l.sharp()
	r, off := sharp.side()
	mid := plane.Pt(sharp.Length/2-foot, 0)
	lower, upper := mid.Add(plane.Pt(0, off)), mid.Sub(plane.Pt(0, off)) // centres of the lower and upper side
	// end returns the tangent point on the upper side and the centre of the rounding.
	end := func(round, sign float64) (touch, centre plane.Point) {
		x := math.Sqrt((r-round)*(r-round) - off*off)
		centre = mid.Add(plane.Pt(sign*x, 0))
		return upper.Add(centre.Sub(upper).Mul(r / (r - round))), centre
	}
	a, fc := end(l.FootRound, -1)
	b, tc := end(l.TipRound, 1)
	side := func(c, from, to plane.Point) plane.Segment {
		a0 := math.Atan2(from.Y-c.Y, from.X-c.X)
		sweep := math.Remainder(math.Atan2(to.Y-c.Y, to.X-c.X)-a0, 2*math.Pi)
		s := plane.ArcSeg(c, r, a0, a0+sweep)
		s.A, s.B = from, to
		return s
	}
	segs := []plane.Segment{side(lower, flip(a), flip(b))}
	if l.TipRound > 0 {
		segs = append(segs, roundEnd(tc, flip(b), b))
	}
	segs = append(segs, side(upper, b, a))
	if l.FootRound > 0 {
		segs = append(segs, roundEnd(fc, a, flip(a)))
	}
	return plane.Region{Outer: plane.Path{Segs: segs, Closed: true}}
}

// sharp returns the lens with sharp points whose rounding gives l, and how much the
// rounding takes off its foot. Rounding to radius q cuts the half length from
// sqrt(r^2-off^2) to sqrt((r-q)^2-off^2) + q; the length that gives l is found by
// fixed-point steps, which shrink the error by the ratio of width to length.
func (l Lens) sharp() (sharp Lens, foot float64) {
	sharp = Lens{Length: l.Length, Width: l.Width}
	take := func(q float64) float64 {
		if q == 0 {
			return 0
		}
		r, off := sharp.side()
		return sharp.Length/2 - math.Sqrt((r-q)*(r-q)-off*off) - q
	}
	for range 60 {
		foot = take(l.FootRound)
		next := l.Length + foot + take(l.TipRound)
		if math.Abs(next-sharp.Length) < 1e-12*l.Length {
			break
		}
		sharp.Length = next
	}
	return sharp, foot
}

func roundEnd(c, from, to plane.Point) plane.Segment {
	a0 := math.Atan2(from.Y-c.Y, from.X-c.X)
	a1 := math.Atan2(to.Y-c.Y, to.X-c.X)
	if a1 <= a0 {
		a1 += 2 * math.Pi
	}
	s := plane.ArcSeg(c, from.Dist(c), a0, a1)
	s.A, s.B = from, to
	return s
}

// Sector is part of a ring: the flat shape of a cone's wall, or a fan blade.
type Sector struct {
	Inner, Outer float64 // radii; Inner 0 gives a full pie piece
	Angle        float64 // less than a full turn
}

// Outline returns the sector with its middle line along the bend: the inner arc's
// middle at u = 0 (the point itself when Inner is 0), the outer arc's at u = Outer -
// Inner. Its outer corners may lie behind u = 0 when the angle is large.
func (s Sector) Outline() plane.Region {
	positive("sector", s.Outer, s.Angle)
	if s.Inner < 0 || s.Inner >= s.Outer || s.Angle >= 2*math.Pi {
		panic(fmt.Sprintf("part: sector from %v to %v through %v", s.Inner, s.Outer, s.Angle))
	}
	c := plane.Pt(-s.Inner, 0)
	h := s.Angle / 2
	at := func(r, a float64) plane.Point { return c.Add(plane.Dir(a).Mul(r)) }
	segs := []plane.Segment{plane.LineSeg(at(s.Inner, -h), at(s.Outer, -h))}
	segs = append(segs, arcs(c, s.Outer, -h, h)...)
	segs = append(segs, plane.LineSeg(at(s.Outer, h), at(s.Inner, h)))
	if s.Inner > 0 {
		segs = append(segs, arcs(c, s.Inner, h, -h)...)
	}
	return plane.Region{Outer: plane.Path{Segs: segs, Closed: true}}
}

// arcs returns the arc about c from a0 to a1, in two pieces when it turns through more
// than three quarters.
func arcs(c plane.Point, r, a0, a1 float64) []plane.Segment {
	if math.Abs(a1-a0) <= 1.5*math.Pi {
		return []plane.Segment{plane.ArcSeg(c, r, a0, a1)}
	}
	m := (a0 + a1) / 2
	return []plane.Segment{plane.ArcSeg(c, r, a0, m), plane.ArcSeg(c, r, m, a1)}
}

// Corner is a corner of a polygon with the radius it is rounded to, 0 for sharp.
type Corner struct {
	P      plane.Point
	Radius float64
}

// ErrCorner says that a polygon's corners can't be rounded as asked, or that a side
// has no length.
type ErrCorner struct {
	Index int     // of the corner, from 0
	Room  float64 // the largest radius there is room for when the others stay
}

func (e *ErrCorner) Error() string {
	return fmt.Sprintf("corner %d has room for a radius of %.3f mm", e.Index+1, e.Room)
}

// Polygon returns the closed path through the corners, each rounded by an arc tangent
// to both of its sides. The error is an *ErrCorner. The path keeps the direction of
// the corners; whether it crosses itself is not asked here.
func Polygon(corners []Corner) (plane.Path, error) {
	n := len(corners)
	if n < 3 {
		panic("part: a polygon needs three corners")
	}
	cut := make([]float64, n) // length taken off both sides at each corner
	for i, c := range corners {
		a, b := corners[(i+n-1)%n].P, corners[(i+1)%n].P
		if a.Dist(c.P) < 1e-6 {
			return plane.Path{}, &ErrCorner{i, 0}
		}
		cut[i] = c.Radius * math.Tan(turnAt(a, c.P, b)/2)
	}
	for i, c := range corners {
		j := (i + 1) % n
		side := c.P.Dist(corners[j].P)
		if cut[i]+cut[j] > side+1e-9 {
			k, other := i, cut[j]
			if cut[j] > cut[i] {
				k, other = j, cut[i]
			}
			a, b := corners[(k+n-1)%n].P, corners[(k+1)%n].P
			return plane.Path{}, &ErrCorner{k, math.Max(0, (side-other)/math.Tan(turnAt(a, corners[k].P, b)/2))}
		}
	}
	var segs []plane.Segment
	var first, last plane.Point
	for i, c := range corners {
		a, b := corners[(i+n-1)%n].P, corners[(i+1)%n].P
		from := c.P.Add(a.Sub(c.P).Unit().Mul(cut[i]))
		to := c.P.Add(b.Sub(c.P).Unit().Mul(cut[i]))
		if i == 0 {
			first = from
		} else if last.Dist(from) > 1e-9 {
			segs = append(segs, plane.LineSeg(last, from))
		} else {
			from = last
		}
		if cut[i] > 0 {
			turn := turnAt(a, c.P, b)
			if c.P.Sub(a).Cross(b.Sub(c.P)) < 0 {
				turn = -turn
			}
			segs = append(segs, plane.BulgeSeg(from, to, math.Tan(turn/4)))
		}
		last = to
	}
	if last.Dist(first) > 1e-9 {
		segs = append(segs, plane.LineSeg(last, first))
	}
	return plane.Path{Segs: segs, Closed: true}, nil
}

// turnAt returns by how much the way from a over b to c turns, 0 to pi.
func turnAt(a, b, c plane.Point) float64 {
	u, v := b.Sub(a), c.Sub(b)
	return math.Abs(math.Atan2(u.Cross(v), u.Dot(v)))
}

// RoundedRectangle is a rectangle from u = 0 to length centred on v = 0 with one
// radius at all corners, at most half the shorter side.
func RoundedRectangle(length, width, radius float64) plane.Region {
	positive("rectangle", length, width)
	if radius <= 0 {
		return Rectangle(length, width)
	}
	r := math.Min(radius, math.Min(length, width)/2)
	h := width / 2
	p, err := Polygon([]Corner{
		{plane.Pt(0, -h), r}, {plane.Pt(length, -h), r}, {plane.Pt(length, h), r}, {plane.Pt(0, h), r},
	})
	if err != nil {
		panic(err)
	}
	return plane.Region{Outer: p}
}

// RoundHole returns a circular hole, running clockwise as holes do.
func RoundHole(c plane.Point, diameter float64) plane.Path {
	positive("hole", diameter)
	return plane.CirclePath(c, diameter/2).Reverse()
}

// SlotHole returns a slot with round ends about c, length over all, at angle to u.
func SlotHole(c plane.Point, length, width, angle float64) plane.Path {
	positive("slot", length, width)
	if length <= width {
		return RoundHole(c, width)
	}
	d := plane.Dir(angle).Mul((length - width) / 2)
	n := plane.Dir(angle).Left().Mul(width / 2)
	a, b := c.Sub(d), c.Add(d)
	return plane.Path{Closed: true, Segs: []plane.Segment{
		plane.LineSeg(a.Sub(n), b.Sub(n)), plane.BulgeSeg(b.Sub(n), b.Add(n), 1),
		plane.LineSeg(b.Add(n), a.Add(n)), plane.BulgeSeg(a.Add(n), a.Sub(n), 1),
	}}.Reverse()
}
