package state_test

import (
	"fmt"

	"springrib/internal/design"
	"springrib/internal/hinge"
	"springrib/internal/state"
)

// What is not known of a sheet and its scores makes of the strain at one turn.
func ExampleScoring_Swings() {
	v, _ := design.Read(design.Examples()[0].Design)
	g := state.Scoring{Sheet: &v.Sheet, Machine: &v.Machine}
	strain := func(l hinge.Law, rupture float64) float64 { return l.Strain(5, 1) / rupture }
	r := g.Spread(1, strain, g.Swings(1, strain)[0], 1)
	fmt.Printf("from %.2f to %.2f of the likeliest; most of it from the strain that breaks the skin: %v\n", r.Low/r.Value, r.High/r.Value, r.From[0].Of == state.Rupture)
	// Output: from 0.69 to 1.35 of the likeliest; most of it from the strain that breaks the skin: true
}
