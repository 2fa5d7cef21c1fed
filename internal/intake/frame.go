package intake

import (
	"math"

	"springrib/internal/plane"
)

// Shares by which frames and double lines are told from panels. They were chosen by trying
// drawings, and err on the side of the panel: common practice, no source.
const (
	framePage  = 0.01 // a rectangle this near the page, of its longer side, is as large as it
	frameInner = 0.05 // what a background lies behind has at least this share of its area
	frameLarge = 0.25 // what is framed alone has at least this
	doubleArea = 0.6  // the inner line of a double one has at least this share of the area
	doubleWide = 0.1  // and is at most this share of the smaller side apart
	doubleMost = 8.0  // or this far, mm
)

// framedBy returns the largest path inside piece i where i is not the panel but a background
// or the frame of a page: a rectangle, and
//
//   - filled without a line, as large as the page, before something that looks otherwise; or
//   - round one large path that has paths inside itself, as holes have none, or that looks
//     otherwise or is on another layer; or
//   - as large as the page, and all closed paths straight inside look otherwise.
func framedBy(pieces []piece, ins []nested, i int, page plane.Box) (inner int, framed bool) {
	f := &pieces[i]
	area := math.Abs(f.Path.Area())
	if area < 0.99*f.box.W()*f.box.H() {
		return -1, false
	}
	in := contentOf(pieces, ins, i)
	if in.largest < 0 || in.area < frameInner*area {
		return -1, false
	}
	near := framePage * math.Max(page.W(), page.H())
	asPage := !page.Empty() && near > 0 && f.box.Min.Dist(page.Min) <= near && f.box.Max.Dist(page.Max) <= near
	behind := asPage && f.Fill != "" && f.Stroke == "" && in.alike == 0
	alone := in.area >= frameLarge*area && in.count == 1 && (in.parent || in.alike == 0)
	return in.largest, behind || alone || asPage && in.alike == 0
}

// content is what lies directly inside a closed line: how many closed lines, how many of
// them are drawn like it, which is largest, its area, and whether it holds others.
type content struct {
	count, alike, largest int
	area                  float64
	parent                bool
}

func contentOf(pieces []piece, ins []nested, i int) content {
	f, c := &pieces[i], content{largest: -1}
	parent := make([]bool, len(pieces))
	for k := range pieces {
		p := &pieces[k]
		if !p.Path.Closed || ins[k].in < 0 {
			continue
		}
		parent[ins[k].in] = true
		if ins[k].in != i {
			continue
		}
		c.count++
		if p.Layer == f.Layer && p.Stroke == f.Stroke && p.Fill == f.Fill {
			c.alike++
		}
		if a := math.Abs(p.Path.Area()); a > c.area {
			c.largest, c.area = k, a
		}
	}
	c.parent = c.largest >= 0 && parent[c.largest]
	return c
}

// doubleOf returns the other line of piece i where i is drawn as a double line, as a traced
// stroke is, and the distance between them; -1 where it isn't.
func doubleOf(pieces []piece, ins []nested, i int) (inner int, width float64) {
	outer := &pieces[i]
	area := math.Abs(outer.Path.Area())
	inner, largest := -1, doubleArea*area
	for k := range pieces {
		p := &pieces[k]
		if a := math.Abs(p.Path.Area()); p.Path.Closed && ins[k].in == i && a > largest {
			inner, largest = k, a
		}
	}
	if inner < 0 {
		return -1, 0
	}
	in := &pieces[inner]
	width = 2 * (area - largest) / (outer.Length() + in.Length())
	if width > doubleMost || width > doubleWide*math.Min(outer.box.W(), outer.box.H()) {
		return -1, 0
	}
	const samples = 48
	tol := flatTolerance([]piece{{Item: outer.Item}, {Item: in.Item}}, math.Max(width/20, joined))
	line, pts := outer.Path.Flatten(tol), in.Path.Flatten(tol)
	even := 0
	for s := range samples {
		q := pts[s*(len(pts)-1)/samples]
		near := math.Inf(1)
		for k := 1; k < len(line); k++ {
			near = math.Min(near, plane.LineDistance(q, line[k-1], line[k]))
		}
		if near >= 0.5*width && near <= 1.7*width {
			even++
		}
	}
	if even < samples*9/10 {
		return -1, 0
	}
	return inner, width
}

// Stroke returns the width of a closed path that is the thin shape of a traced stroke, and
// whether it is one: at most a fortieth of its length wide.
func Stroke(p plane.Path) (width float64, thin bool) {
	l := p.Length() / 2
	width = math.Abs(p.Area()) / l
	return width, p.Closed && width < l/40
}
