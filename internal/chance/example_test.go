package chance_test

import (
	"fmt"

	"springrib/internal/chance"
	"springrib/internal/hinge"
)

// Of a hundred panels of twelve scores that turn by 4 degrees each, how many crack: where
// skins differ from score to score by 0.02 mm, and where they differ by 0.08 mm. The weakest
// of the twelve decides.
func ExampleOf() {
	mdf := hinge.Material{E: 3600, NuXY: 0.3, NuXZ: 0.3, EZ: 200, GXZ: 220}
	var bend []chance.Score
	for range 12 {
		bend = append(bend, chance.Score{Turn: 0.07, Left: 3, Right: 3, Length: 100})
	}
	for _, apart := range []float64{0.02, 0.08} {
		r := chance.Of(chance.Panel{
			Thickness: chance.Normal{Mean: 3, SD: 0.02},
			Setting:   chance.Normal{Mean: 2.2, SD: 0.02},
			Apart:     apart,
			Width:     chance.Normal{Mean: 0.4, SD: 0.01},
			Rupture:   chance.Rupture{Mean: 0.0155, Within: 0.05, Strip: 100},
			Law: func(thickness, skin, width float64) hinge.Law {
				return hinge.New(mdf, hinge.Score{Thickness: thickness, Depth: thickness - skin, Width: width})
			},
			Bends: [][]chance.Score{bend},
		})
		fmt.Printf("%.0f in 100\n", 100*r.Either.Crack)
	}
	// Output:
	// 14 in 100
	// 77 in 100
}
