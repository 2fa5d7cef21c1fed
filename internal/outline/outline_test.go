package outline_test

import (
	"fmt"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/outline"
)

// A panel on a straight line, which needs no places of scores: 200 x 80 less four corners of
// (1 - pi/4) r^2 and the hole.
func ExampleNew() {
	d := design.Empty()
	d.Panel.Width, d.Panel.Length, d.Panel.CornerRadius = "80", "200", "10"
	d.Panel.Holes = []design.Hole{{Along: "100", Across: "0", Width: "30"}}
	v, _ := design.Read(d)
	out, said, ok := outline.New(outline.Task{Values: &v, Edge: curve.Level(curve.Piece{Length: 200}), PanelLeft: true, Flat: 200})
	fmt.Printf("%v: %.0f long, %d holes, %.0f mm2; to say: %d\n", ok, out.Length, len(out.Region.Holes), out.Region.Area(), len(said))
	// Output: true: 200 long, 1 holes, 15207 mm2; to say: 0
}
