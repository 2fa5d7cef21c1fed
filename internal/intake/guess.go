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

// Guess says what each item probably is, for the person to put right. The closed
// path of the largest area is the outline and those straight inside it are holes;
// what lies in holes, and open lines inside, are marks. Without any closed path the
// longest open one is the curve. What the file doesn't show is left out, unless it
// shows nothing.
func Guess(items []Item) []Role {
	roles := make([]Role, len(items))
	painted := false
	for _, it := range items {
		painted = painted || it.Painted()
	}
	var pieces []piece
	var number []int // of each piece among the items
	for i, it := range items {
		if len(it.Path.Segs) > 0 && (it.Painted() || !painted) {
			it.Box()
			pieces = append(pieces, piece{Item: it})
			number = append(number, i)
		}
	}
	outline := largest(pieces)
	if outline < 0 {
		if i := longest(pieces); i >= 0 {
			roles[number[i]] = Curve
		}
		return roles
	}
	ins, _ := nest(pieces)
	inside := within(ins, outline)
	for i, p := range pieces {
		switch {
		case i == outline:
			roles[number[i]] = Outline
		case ins[i].in == outline && p.Path.Closed:
			roles[number[i]] = Hole
		case inside[i]:
			roles[number[i]] = Mark
		}
	}
	return roles
}

// largest returns the closed piece of the largest area, -1 without any.
func largest(pieces []piece) int {
	best, area := -1, 0.0
	for i := range pieces {
		p := &pieces[i]
		if a := math.Abs(p.Path.Area()); p.Path.Closed && a > area*(1+1e-9) {
			best, area = i, a
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

// RegionOf returns the outline with its holes; ok is false when no item, or more
// than one, is the outline, or when an outline or hole is open.
func RegionOf(items []Item, roles []Role) (r plane.Region, ok bool) {
	if len(items) != len(roles) {
		panic("intake: RegionOf needs a role for each item")
	}
	outlines := 0
	for i, it := range items {
		switch roles[i] {
		case Outline:
			r.Outer = it.Path
			outlines++
		case Hole:
			r.Holes = append(r.Holes, it.Path)
		default:
			continue
		}
		if !it.Path.Closed {
			return plane.Region{}, false
		}
	}
	if outlines != 1 {
		return plane.Region{}, false
	}
	return r.Normal(), true
}
