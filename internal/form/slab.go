package form

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// slab is a piece of a flat region between two lines u0 and u1 square to the bend, with
// nothing but straight outline below and above: from lo to hi at each of the two.
type slab struct {
	u0, u1   float64
	lo0, lo1 float64
	hi0, hi1 float64
}

// side is a straight piece of an outline that runs along the bend, a.X < b.X.
type side struct{ a, b plane.Point }

func (s side) at(u float64) float64 {
	return s.a.Y + (s.b.Y-s.a.Y)*(u-s.a.X)/(s.b.X-s.a.X)
}

// flatness is how far a flattened outline may lie from the exact one, mm: far below
// what a screen shows.
const flatness = 0.01

// Outlines returns the outline of a region and its holes as corners, within 0.01 mm: the
// outline counter-clockwise, the holes clockwise.
func Outlines(r plane.Region) [][]plane.Point { return loops(r.Normal()) }

// loops returns the outlines of a region as corners.
func loops(r plane.Region) [][]plane.Point {
	var out [][]plane.Point
	for _, p := range r.Paths() {
		pts := p.Flatten(flatness)
		if n := len(pts); n > 1 && pts[0].Dist(pts[n-1]) < 1e-9 {
			pts = pts[:n-1]
		}
		if len(pts) > 2 {
			out = append(out, pts)
		}
	}
	return out
}

// each calls f with every piece of the loops, and its number along its loop.
func each(loops [][]plane.Point, f func(loop, i int, a, b plane.Point)) {
	for l, pts := range loops {
		for i, a := range pts {
			f(l, i, a, pts[(i+1)%len(pts)])
		}
	}
}

// slabs cuts what the loops enclose, by the even-odd rule, into slabs between all their
// corners and the lines at cuts. They come in order along the bend, then from low to
// high; a slab never reaches over a cut.
func slabs(loops [][]plane.Point, cuts []float64) []slab {
	sides, stops := sidesOf(loops, cuts)
	var out []slab
	var active []side
	next := 0
	for i := 0; i+1 < len(stops); i++ {
		u0, u1 := stops[i], stops[i+1]
		for ; next < len(sides) && sides[next].a.X <= u0; next++ {
			active = append(active, sides[next])
		}
		kept := active[:0]
		for _, s := range active {
			if s.b.X >= u1 {
				kept = append(kept, s)
			}
		}
		active = kept
		mid := (u0 + u1) / 2
		across := append([]side(nil), active...)
		sort.SliceStable(across, func(a, b int) bool { return across[a].at(mid) < across[b].at(mid) })
		for k := 0; k+1 < len(across); k += 2 {
			lo, hi := across[k], across[k+1]
			out = append(out, slab{u0, u1, lo.at(u0), lo.at(u1), hi.at(u0), hi.at(u1)})
		}
	}
	return out
}

// sidesOf returns the pieces of the loops that run along the bend, sorted by where they
// begin, and every place where a slab ends. A corner within 1e-9 mm of a cut is moved
// onto it: the caller knows its cuts again by their exact value.
func sidesOf(loops [][]plane.Point, cuts []float64) ([]side, []float64) {
	stops := sort.Float64Slice(append([]float64(nil), cuts...))
	stops.Sort()
	snap := snapper(stops)
	var sides []side
	var places []float64
	each(loops, func(_, _ int, a, b plane.Point) {
		a.X, b.X = snap(a.X), snap(b.X)
		places = append(places, a.X) // b begins the next piece
		if a.X > b.X {
			a, b = b, a
		}
		if a.X < b.X {
			sides = append(sides, side{a, b})
		}
	})
	sort.SliceStable(sides, func(i, j int) bool { return sides[i].a.X < sides[j].a.X })
	return sides, merged(stops, places)
}

// snapper returns a function that moves a place onto the cut that is within 1e-9 mm.
func snapper(cuts []float64) func(float64) float64 {
	return func(x float64) float64 {
		i := sort.SearchFloat64s(cuts, x)
		for _, k := range []int{i - 1, i} {
			if k >= 0 && k < len(cuts) && math.Abs(cuts[k]-x) < 1e-9 {
				return cuts[k]
			}
		}
		return x
	}
}

// merged returns cuts and corners in order, without repeats.
func merged(cuts, corners []float64) []float64 {
	all := append(append([]float64(nil), cuts...), corners...)
	sort.Float64s(all)
	out := all[:0]
	for i, x := range all {
		if i == 0 || x > out[len(out)-1] {
			out = append(out, x)
		}
	}
	return out
}
