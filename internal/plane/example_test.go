package plane_test

import (
	"fmt"
	"math"

	"springrib/internal/plane"
)

// Points along a spiral come back as few arcs and cubics within a hundredth of a
// millimetre.
func ExampleFit() {
	spiral := plane.Func(false, func(t float64) (p, d plane.Point) {
		r := 20 + 4*t
		return plane.Dir(t).Mul(r), plane.Dir(t).Mul(4).Add(plane.Dir(t).Left().Mul(r))
	}, 0, 2*math.Pi)
	fewest := plane.Fit(spiral, plane.Options{})
	arcs := plane.Fit(spiral, plane.Options{Mode: plane.Arcs})
	fmt.Println(len(fewest.Path.Segs), "pieces,", len(arcs.Path.Segs), "arcs; within 0.01 mm:", fewest.Deviation <= 0.01, arcs.Deviation <= 0.01)
	// Output: 4 pieces, 10 arcs; within 0.01 mm: true true
}

// Half a kerf outside a plate with a slot: corners come out round, the slot narrower.
func ExampleOffset() {
	plate := plane.Region{
		Outer: plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(40, 20))),
		Holes: []plane.Path{plane.RectPath(plane.BoxOf(plane.Pt(10, 8), plane.Pt(30, 12)))},
	}
	out, err := plane.Offset(plate, 0.5, 0.01)
	fmt.Println(len(out), err, out[0].Outer.Box().W(), out[0].Holes[0].Box().H())
	// Output: 1 <nil> 41 3
}

// A path by arc length: where 10 mm of the way round a bend lead to.
func ExamplePath_At() {
	bend, err := plane.Parse("M 0 0 L 5 0 A 10 0 1 15 10")
	p, heading := bend.At(10)
	fmt.Printf("%v %.3f %.3f %.3f\n", err, p.X, p.Y, math.Atan2(heading.Y, heading.X))
	// Output: <nil> 9.794 1.224 0.500
}
