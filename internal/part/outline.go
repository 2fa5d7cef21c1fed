package part

import (
	"fmt"
	"math"
	"slices"

	"springrib/internal/plane"
)

// Rectangle returns the outline of a panel from u = 0 to length, centred on v = 0.
func Rectangle(length, width float64) plane.Region {
	positive("rectangle", length, width)
	return plane.Region{Outer: plane.RectPath(plane.Box{
		Min: plane.Pt(0, -width/2), Max: plane.Pt(length, width/2),
	})}
}

// Taper is a strip with straight sides from the foot to its widest place and on to
// the tip.
type Taper struct {
	Length                           float64
	FootWidth, WidestWidth, TipWidth float64
	WidestAt                         float64 // from the foot edge, 0 to Length
	Round                            bool    // the tip is an arc tangent to both sides
	OneEdge                          bool    // the lower side runs straight on from the foot; no tip is round then
}

// Outline returns the strip centred on v = 0, or on the middle of its foot where one edge is straight, foot edge at u = 0 and the furthest
// point of the tip at u = Length. A round tip is the arc that meets both sides
// tangentially and touches u = Length; it replaces the corners of the tip. A tip so
// blunt that the arc would not reach its sides keeps its corners.
func (t Taper) Outline() plane.Region {
	positive("taper", t.Length, t.FootWidth, t.WidestWidth, t.TipWidth)
	if t.WidestAt < 0 || t.WidestAt > t.Length {
		panic(fmt.Sprintf("part: widest place %v outside 0..%v", t.WidestAt, t.Length))
	}
	side := []plane.Point{plane.Pt(0, t.FootWidth/2)}
	if t.WidestAt > 0 && t.WidestAt < t.Length {
		side = append(side, plane.Pt(t.WidestAt, t.WidestWidth/2))
	} else if t.WidestAt == 0 {
		side[0].Y = t.WidestWidth / 2
	}
	tip := plane.Pt(t.Length, t.TipWidth/2)
	if t.WidestAt == t.Length {
		tip.Y = t.WidestWidth / 2
	}
	end := plane.LineSeg(flip(tip), tip)
	if t.OneEdge {
		return t.oneEdge(append(side, tip))
	}
	if touch, c, r := roundTip(side[len(side)-1], tip); t.Round && touch.X > side[len(side)-1].X {
		tip = touch
		a := math.Atan2(touch.Y, touch.X-c)
		end = plane.ArcSeg(plane.Pt(c, 0), r, -a, a)
	}
	side = append(side, tip)
	var segs []plane.Segment
	for i := 0; i+1 < len(side); i++ {
		segs = append(segs, plane.LineSeg(flip(side[i]), flip(side[i+1])))
	}
	segs = append(segs, end)
	for i := len(side) - 1; i > 0; i-- {
		segs = append(segs, plane.LineSeg(side[i], side[i-1]))
	}
	segs = append(segs, plane.LineSeg(side[0], flip(side[0])))
	return plane.Region{Outer: plane.Path{Segs: segs, Closed: true}}
}

// oneEdge returns the strip with all of its width above the line of the lower side.
func (t Taper) oneEdge(side []plane.Point) plane.Region {
	low := -side[0].Y
	for i := range side {
		side[i].Y = low + 2*side[i].Y
	}
	slices.Reverse(side)
	return plane.Region{Outer: plane.Poly(append(side, plane.Pt(0, low), plane.Pt(t.Length, low))...)}
}

// roundTip returns where the arc that ends at x = tip.X touches the side running from
// a to tip, its centre on the axis and its radius: the largest circle inside the tip
// of the side that touches the side and the tip's furthest line.
func roundTip(a, tip plane.Point) (touch plane.Point, centre, r float64) {
	// With the side at angle g to the axis, its distance from the point (c, 0) is
	// (tip.Y + (c-tip.X)*slope) cos g; set equal to tip.X - c.
	slope := (tip.Y - a.Y) / (tip.X - a.X)
	cosg := 1 / math.Hypot(1, slope)
	r = tip.Y * cosg / (1 + slope*cosg)
	centre = tip.X - r
	n := plane.Pt(-slope, 1).Mul(cosg) // outward from the axis
	return plane.Pt(centre, 0).Add(n.Mul(r)), centre, r
}

func flip(p plane.Point) plane.Point { return plane.Pt(p.X, -p.Y) }

func positive(what string, xs ...float64) {
	for _, x := range xs {
		if !(x > 0) || math.IsInf(x, 0) {
			panic(fmt.Sprintf("part: %s of size %v", what, x))
		}
	}
}
