package sheet

import (
	"math"
	"math/rand/v2"

	"springrib/internal/plane"
)

// rect returns a w x h rectangle with its lower left corner at the origin.
func rect(w, h float64) plane.Region {
	return plane.Region{Outer: plane.RectPath(plane.BoxOf(plane.Point{}, plane.Pt(w, h)))}
}

// poly returns the polygon through x, y pairs.
func poly(xy ...float64) plane.Region {
	var pts []plane.Point
	for i := 0; i < len(xy); i += 2 {
		pts = append(pts, plane.Pt(xy[i], xy[i+1]))
	}
	return plane.Region{Outer: plane.Poly(pts...)}.Normal()
}

// rib returns a curved rib: an arc of radius r over angle w, depth deep, with square
// ends.
func rib(r, w, deep float64) plane.Region {
	o := plane.Pt(0, -r)
	a := plane.ArcSeg(o, r, math.Pi/2-w/2, math.Pi/2+w/2)
	b := plane.ArcSeg(o, r-deep, math.Pi/2+w/2, math.Pi/2-w/2)
	return plane.Region{Outer: plane.Chain(true, a, plane.LineSeg(a.B, b.A), b, plane.LineSeg(b.B, a.A))}.Normal()
}

// ring returns a disc of radius r with a round hole of radius h.
func ring(r, h float64) plane.Region {
	return plane.Region{Outer: plane.CirclePath(plane.Point{}, r), Holes: []plane.Path{plane.CirclePath(plane.Point{}, h)}}.Normal()
}

// strip returns a tapered strip along X with scores square to X that run out by over
// past both long edges.
func strip(length, foot, widest, tip, pitch, over float64, rounded bool) Piece {
	at := 0.6 * length
	half := func(x float64) float64 {
		if x < at {
			return (foot + (widest-foot)*x/at) / 2
		}
		return (widest + (tip-widest)*(x-at)/(length-at)) / 2
	}
	end := plane.LineSeg(plane.Pt(length, -tip/2), plane.Pt(length, tip/2))
	if rounded {
		tip := plane.Pt(length+tip/2, 0)
		p, q := tip.Sub(end.A), end.B.Sub(tip)
		end = plane.BulgeSeg(end.A, end.B, math.Tan(math.Atan2(p.Cross(q), p.Dot(q))/2))
	}
	p := Piece{ID: "panel", Quantity: 1}
	p.Outline = plane.Region{Outer: plane.Chain(true,
		plane.LineSeg(plane.Pt(0, -foot/2), plane.Pt(at, -widest/2)),
		plane.LineSeg(plane.Pt(at, -widest/2), end.A),
		end,
		plane.LineSeg(end.B, plane.Pt(at, widest/2)),
		plane.LineSeg(plane.Pt(at, widest/2), plane.Pt(0, foot/2)),
		plane.LineSeg(plane.Pt(0, foot/2), plane.Pt(0, -foot/2)),
	)}
	for x := pitch; x < length-pitch/2; x += pitch {
		p.Reach = append(p.Reach, plane.Open(plane.Pt(x, -half(x)-over), plane.Pt(x, half(x)+over)))
	}
	return p
}

// between returns a number from lo to hi.
func between(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// randomPiece returns one of the kinds of part the program makes, of random size.
func randomPiece(r *rand.Rand) Piece {
	var p Piece
	switch r.IntN(6) {
	case 0:
		p = strip(between(r, 100, 350), between(r, 20, 60), between(r, 30, 90), between(r, 8, 40), between(r, 4, 12), between(r, 1, 8), r.IntN(2) == 0)
	case 1:
		p.Outline = rib(between(r, 60, 400), between(r, 0.3, 1.6), between(r, 8, 30))
	case 2:
		h := between(r, 25, 60)
		p.Outline = ring(h+between(r, 8, 25), h)
	case 3:
		p.Outline = rect(between(r, 10, 150), between(r, 8, 60))
	case 4: // base plate with slots
		w, h := between(r, 60, 200), between(r, 40, 100)
		p.Outline = rect(w, h)
		for x := 12.; x+6 < w; x += 25 {
			p.Outline.Holes = append(p.Outline.Holes, plane.RectPath(plane.BoxOf(plane.Pt(x, 10), plane.Pt(x+3, h-10))).Reverse())
		}
	case 5:
		p.Outline = randomStar(r, between(r, 10, 60))
		box := p.Outline.Box()
		y := between(r, box.Min.Y, box.Max.Y)
		p.Reach = []plane.Path{plane.Open(plane.Pt(box.Min.X-5, y), plane.Pt(box.Max.X+3, y+2))}
	}
	p.Quantity = 1 + r.IntN(4)
	switch r.IntN(3) {
	case 0:
		p.Turns = []float64{0, math.Pi}
	case 1:
		p.Turns = []float64{0, math.Pi / 2, math.Pi, -math.Pi / 2}
	}
	return p
}

// randomStar returns a polygon seen whole from its middle.
func randomStar(r *rand.Rand, size float64) plane.Region {
	n := 5 + r.IntN(9)
	var pts []plane.Point
	for i := range n {
		pts = append(pts, plane.Dir(2*math.Pi*(float64(i)+between(r, 0, .8))/float64(n)).Mul(size*between(r, 0.3, 1)))
	}
	return plane.Region{Outer: plane.Poly(pts...)}.Normal()
}
