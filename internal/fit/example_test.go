package fit_test

import (
	"fmt"
	"math"

	"springrib/internal/fit"
	"springrib/internal/plane"
)

// Points along a spiral come back as few arcs and cubics within a hundredth of a
// millimetre.
func ExampleFit() {
	spiral := plane.Func(false, func(t float64) (p, d plane.Point) {
		r := 20 + 4*t
		return plane.Dir(t).Mul(r), plane.Dir(t).Mul(4).Add(plane.Dir(t).Left().Mul(r))
	}, 0, 2*math.Pi)
	fewest := fit.Fit(spiral, fit.Options{})
	arcs := fit.Fit(spiral, fit.Options{Mode: fit.Arcs})
	fmt.Println(len(fewest.Path.Segs), "pieces,", len(arcs.Path.Segs), "arcs; within 0.01 mm:", fewest.Deviation <= 0.01, arcs.Deviation <= 0.01)
	// Output: 4 pieces, 10 arcs; within 0.01 mm: true true
}
