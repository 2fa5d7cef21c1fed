package plane_test

import (
	"fmt"
	"math"

	"springrib/internal/plane"
)

// A path by arc length: where 10 mm of the way round a bend lead to.
func ExamplePath_At() {
	bend, err := plane.Parse("M 0 0 L 5 0 A 10 0 1 15 10")
	p, heading := bend.At(10)
	fmt.Printf("%v %.3f %.3f %.3f\n", err, p.X, p.Y, math.Atan2(heading.Y, heading.X))
	// Output: <nil> 9.794 1.224 0.500
}
