package skin_test

import (
	"fmt"
	"math"

	"springrib/internal/curve"
	"springrib/internal/plane"
	"springrib/internal/skin"
	"springrib/internal/surface"
)

// A quarter of a square with a corner of radius 30 mm lies opposite a quarter circle of radius 80: the
// corner faces all of the circle, and each straight the one place of it that heads as it does.
func ExampleParallel() {
	x, y := surface.Vec{X: 1}, surface.Vec{Y: 1}
	corner := curve.Chain(plane.Pt(0, 0), math.Pi/2, curve.Piece{Length: 50}, curve.Piece{Length: 15 * math.Pi, Kappa: -1.0 / 30}, curve.Piece{Length: 50})
	circle := curve.Chain(plane.Pt(0, 0), math.Pi/2, curve.Piece{Length: 40 * math.Pi, Kappa: -1.0 / 80})
	s, refused := skin.Parallel(skin.Rail{Curve: corner, X: x, Y: y}, skin.Rail{Curve: circle, Origin: surface.Vec{Z: 100}, X: x, Y: y}, true)
	fmt.Println(refused == nil)
	for _, p := range s.Pieces {
		a, b := s.At(p.From), s.At(p.To)
		fmt.Printf("turns %.0f degrees over %.1f and %.1f mm\n", math.Abs(p.Turn)*180/math.Pi, b.A-a.A, b.B-a.B)
	}
	// Output:
	// true
	// turns 0 degrees over 50.0 and 0.0 mm
	// turns 90 degrees over 47.1 and 125.7 mm
	// turns 0 degrees over 50.0 and 0.0 mm
}
