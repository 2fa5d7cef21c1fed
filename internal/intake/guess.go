package intake

import (
	"math"

	"springrib/internal/plane"
)

// Role is what an item is taken for.
type Role string

// The roles.
const (
	Unused  Role = ""
	Outline Role = "outline" // the edge of the panel
	Hole    Role = "hole"
	Mark    Role = "mark"  // drawn on the surface
	Curve   Role = "curve" // the wanted section
)

// Guessed is what the items of a drawing were taken for.
type Guessed struct {
	Roles  []Role
	Frames []int   // items taken for a background or the frame of a page
	Double *Double // the outline where it is drawn as a double line
}

// Double is an outline drawn as two closed lines a pen's width apart, by items.
type Double struct {
	Outer, Inner int
	Width        float64 // mm
}

// Edge says which line of a double one is meant.
type Edge string

// The edges.
const (
	Unsaid Edge = ""
	Outer  Edge = "outer"
	Inner  Edge = "inner"
	Both   Edge = "both" // a ring: the inner one is a hole
)

// Guess says what each item probably is, for the person to put right. The closed
// path of the largest area is the outline, unless it frames others, and those straight
// inside it are holes; what lies in holes, and open lines inside, are marks. Without any
// closed path the longest open one is the curve. What the file doesn't show is left out,
// unless it shows nothing.
//
// page is the page of the drawing, empty where it has none, and edge what was said of a
// double line; while that is open, the outer one is the outline.
func Guess(items []Item, page plane.Box, edge Edge) (g Guessed) {
	g.Roles = make([]Role, len(items))
	pieces, number := shown(items)
	outline := largest(pieces)
	if outline < 0 {
		if i := longest(pieces); i >= 0 {
			g.Roles[number[i]] = Curve
		}
		return g
	}
	ins, _ := nest(pieces)
	for range 3 { // a frame, its double, a background
		in, framed := framedBy(pieces, ins, outline, page)
		if double, _ := doubleOf(pieces, ins, outline); framed && double >= 0 {
			_, framed = framedBy(pieces, ins, double, page) // two lines of a frame, or of a panel
		}
		if !framed {
			break
		}
		g.Frames = append(g.Frames, number[outline])
		outline = in
	}
	beside := -1 // the line of a double one that is not meant
	if inner, width := doubleOf(pieces, ins, outline); inner >= 0 {
		g.Double = &Double{number[outline], number[inner], width}
		switch edge {
		case Inner:
			outline, beside = inner, outline
		case Both:
		default:
			beside = inner
		}
	}
	inside := within(ins, outline)
	for i, p := range pieces {
		switch {
		case i == outline:
			g.Roles[number[i]] = Outline
		case i == beside:
		case (ins[i].in == outline || ins[i].in == beside && inside[i]) && p.Path.Closed:
			g.Roles[number[i]] = Hole
		case inside[i]:
			g.Roles[number[i]] = Mark
		}
	}
	return g
}

// shown returns the items to choose among - those painted, or all where none is - and of
// each its number among the items.
func shown(items []Item) (pieces []piece, number []int) {
	painted := false
	for _, it := range items {
		painted = painted || it.Painted()
	}
	for i, it := range items {
		if len(it.Path.Segs) > 0 && (it.Painted() || !painted) {
			it.Box()
			pieces = append(pieces, piece{Item: it})
			number = append(number, i)
		}
	}
	return pieces, number
}

// largest returns the closed piece of the largest area, -1 without any. A figure of eight
// may have none, and counts by its box.
func largest(pieces []piece) int {
	best, size := -1, 0.0
	for i := range pieces {
		p := &pieces[i]
		if !p.Path.Closed {
			continue
		}
		if a := math.Max(math.Abs(p.Path.Area()), 1e-3*p.box.W()*p.box.H()); a > size*(1+1e-9) {
			best, size = i, a
		}
	}
	return best
}

// longest returns the longest piece, -1 without any.
func longest(pieces []piece) int {
	best, length := -1, 0.0
	for i := range pieces {
		if l := pieces[i].Length(); l > length*(1+1e-9) {
			best, length = i, l
		}
	}
	return best
}

// within tells of each piece whether it lies, at whatever depth, in piece outer. Each
// step outward is taken once: rings in rings may be many.
func within(ins []nested, outer int) []bool {
	out, known := make([]bool, len(ins)), make([]bool, len(ins))
	var way []int
	for i := range ins {
		way = way[:0]
		k := i
		for k >= 0 && k != outer && !known[k] {
			way = append(way, k)
			k = ins[k].in
		}
		in := k >= 0 && (k == outer || out[k])
		for _, j := range way {
			out[j], known[j] = in, true
		}
	}
	return out
}
