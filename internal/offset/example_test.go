package offset_test

import (
	"fmt"

	"springrib/internal/offset"
	"springrib/internal/plane"
)

// Half a kerf outside a plate with a slot: corners come out round, the slot narrower.
func ExampleRegion() {
	plate := plane.Region{
		Outer: plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(40, 20))),
		Holes: []plane.Path{plane.RectPath(plane.BoxOf(plane.Pt(10, 8), plane.Pt(30, 12)))},
	}
	out, err := offset.Region(plate, 0.5, 0.01)
	fmt.Println(len(out), err, out[0].Outer.Box().W(), out[0].Holes[0].Box().H())
	// Output: 1 <nil> 41 3
}
