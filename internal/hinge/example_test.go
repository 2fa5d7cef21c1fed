package hinge_test

import (
	"fmt"

	"springrib/internal/hinge"
)

// 3 mm board scored 2.2 mm deep by a laser, a line each 1.6 mm.
func ExampleNew() {
	law := hinge.New(hinge.Material{E: 3590, NuXY: 0.3}, hinge.Score{Thickness: 3, Depth: 2.2, Width: 0.2})
	c := law.At(1.6)
	fmt.Printf("%.1f times softer than the plain sheet\n", c.Softening)
	fmt.Printf("mouths shut at radius %.1f mm\n", law.ClosingRadius(1.6))
	fmt.Printf("strain of the skin at radius 60 mm: %.2f %%\n", 100*law.Strain(1.6, 1.0/60))
	// Output:
	// 31.2 times softer than the plain sheet
	// mouths shut at radius 20.4 mm
	// strain of the skin at radius 60 mm: 0.98 %
}
