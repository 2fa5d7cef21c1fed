package solve_test

import (
	"fmt"
	"math"

	"springrib/internal/solve"
)

func ExampleRoot() {
	x, ok := solve.Root(func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 1e-12)
	fmt.Printf("%.9f %v\n", x, ok)
	// Output: 0.739085133 true
}

// The arc length of y = x^2 from 0 to 1, sqrt(5)/2 + asinh(2)/4.
func ExampleIntegrate() {
	fmt.Printf("%.12f\n", solve.Integrate(func(x float64) float64 { return math.Hypot(1, 2*x) }, 0, 1, 1e-12))
	// Output: 1.478942857545
}

// The smaller root of x^2 - 1e8 x + 1 keeps its digits.
func ExampleQuadratic() {
	roots, n := solve.Quadratic(1, -1e8, 1)
	fmt.Println(n, roots[0], roots[1])
	// Output: 2 1e-08 1e+08
}
