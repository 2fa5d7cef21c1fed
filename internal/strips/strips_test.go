package strips_test

import (
	"fmt"

	"springrib/internal/design"
	"springrib/internal/strips"
)

func ExampleNew() {
	d := design.Examples()[0].Design
	d.Strips.Which = design.DepthStrip
	v, _ := design.Read(d)
	s := strips.New(strips.Task{Values: &v, Passes: 2, Spacing: 5, Overrun: 2})
	weights := s.Weights(s.Pieces[0])
	fmt.Printf("%d pieces on %d sheet; hang %.1f N and then %.1f N on the first\n", len(s.Pieces), s.Sheets(), weights[0], weights[1])
	// Output: 7 pieces on 1 sheet; hang 1.1 N and then 3.3 N on the first
}
