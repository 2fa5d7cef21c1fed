package surface_test

import (
	"fmt"
	"math"

	"springrib/internal/surface"
)

// Three sides of a box 30 x 20 mm, touched in their middles, lie in one plane once they are
// unrolled: the folds are as far from each other as the corners are, 30 mm.
//
//	.---------.
//	|    ^    |
//	| >     < |
//	|         |
func ExampleChain() {
	side := func(x, y, nx, ny float64) surface.Touch {
		return surface.Touch{A: surface.Vec{X: x, Y: y}, B: surface.Vec{X: x, Y: y, Z: 50}, N: surface.Vec{X: nx, Y: ny}}
	}
	strip, _ := surface.Chain([]surface.Touch{side(0, 10, -1, 0), side(15, 20, 0, 1), side(30, 10, 1, 0)}, func(int) [2]float64 { return [2]float64{} })
	a, b := strip.Rulings[0], strip.Rulings[1]
	fmt.Printf("%d folds of %.0f degrees, %.0f mm apart; bent at (%.0f, %.0f) and (%.0f, %.0f)\n", len(strip.Rulings), a.Turn*180/math.Pi,
		a.Flat[0].Dist(b.Flat[0]), math.Abs(a.Bent[0].X), a.Bent[0].Y, b.Bent[0].X, b.Bent[0].Y)
	// Output: 2 folds of 90 degrees, 30 mm apart; bent at (0, 20) and (30, 20)
}
