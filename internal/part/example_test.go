package part_test

import (
	"fmt"

	"springrib/internal/part"
)

// What a cutter of 3 mm must follow to leave a plate of 100 x 60 mm with a hole of 20 mm:
// 1.5 mm outside the one, inside the other.
func ExampleAllow() {
	plate := part.Rectangle(100, 60)
	plate.Holes = append(plate.Holes, part.RoundHole(plate.Outer.Box().Centre(), 20).Reverse())
	a := part.Allow(plate, 3)
	fmt.Printf("outside %.1f x %.1f, hole %.1f\n", a.Outline.Outer.Box().W(), a.Outline.Outer.Box().H(), a.Outline.Holes[0].Box().W())
	// Output: outside 103.0 x 63.0, hole 17.0
}
