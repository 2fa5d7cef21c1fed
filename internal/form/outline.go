package form

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// square is a piece of an outline that lies square to the bend.
type square struct{ u, v0, v1 float64 }

// endsOf returns the pieces of the loops that lie square to the bend, in order along it.
func endsOf(loops [][]plane.Point) []square {
	var out []square
	each(loops, func(_, _ int, a, b plane.Point) {
		if a.X == b.X && a.Y != b.Y {
			out = append(out, square{a.X, a.Y, b.Y})
		}
	})
	sort.SliceStable(out, func(i, j int) bool { return out[i].u < out[j].u })
	return out
}

// sharp is the turn from which on a corner of an outline is drawn as an edge: well over
// that between the chords of a flattened arc, well under any corner that is meant.
const sharp = 20 * math.Pi / 180

// cornersOf returns the sharp corners of the loops, in order along the bend.
func cornersOf(loops [][]plane.Point) []plane.Point {
	var out []plane.Point
	each(loops, func(l, i int, a, b plane.Point) {
		before := a.Sub(loops[l][(i+len(loops[l])-1)%len(loops[l])])
		after := b.Sub(a)
		if math.Abs(math.Atan2(before.Cross(after), before.Dot(after))) > sharp {
			out = append(out, a)
		}
	})
	sort.SliceStable(out, func(i, j int) bool { return out[i].X < out[j].X })
	return out
}
