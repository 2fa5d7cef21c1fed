package form_test

import (
	"fmt"
	"math"

	"springrib/internal/form"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// Three right angles 10 mm apart fold a strip of 40 mm into a square tube: its end comes
// back to its start.
//
//	10 .---. 20
//	   |   |
//	 0 '---' 30
func ExampleFold() {
	var creases []surface.Crease
	for _, u := range []float64{10, 20, 30} {
		creases = append(creases, surface.Crease{U: u, Turn: math.Pi / 2})
	}
	frames := form.Fold(surface.Cylinder(plane.Pt(0, 0), 0, true, creases, -20, 20))
	end := frames[3].At(40, 0, 0)
	fmt.Println(len(frames), "flats; the end is", math.Round(end.Sub(frames[0].At(0, 0, 0)).Len()), "mm from the start")
	// Output: 4 flats; the end is 0 mm from the start
}
