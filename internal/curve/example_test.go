package curve_test

import (
	"fmt"
	"math"

	"springrib/internal/curve"
	"springrib/internal/plane"
)

// A quarter turn of radius 80 between two straights, and the fibre 3 mm outside it.
//
//	__________            foot at the left, bending to the right
//	          \
//	           |
func ExampleChain() {
	c := curve.Chain(plane.Pt(0, 0), 0,
		curve.Piece{Length: 20}, curve.Piece{Length: 80 * math.Pi / 2, Kappa: -1.0 / 80}, curve.Piece{Length: 20})
	end := c.At(c.Length())
	outer, err := c.Parallel(3)
	fmt.Printf("%.2f long, ends at %.2f, %.2f turned by %.0f degrees\n", c.Length(), end.P.X, end.P.Y, end.Phi*180/math.Pi)
	fmt.Printf("%.2f longer outside, %v\n", outer.Length()-c.Length(), err)
	// Output:
	// 165.66 long, ends at 100.00, -100.00 turned by -90 degrees
	// 4.71 longer outside, <nil>
}

// Makers measure an arc by its chord and its rise.
func ExampleFromSpanRise() {
	a := curve.FromSpanRise(200, 40)
	fmt.Printf("radius %.1f, %.1f long\n", a.Radius, a.Length())
	// Output: radius 145.0, 220.7 long
}
