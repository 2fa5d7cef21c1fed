package brace_test

import (
	"fmt"

	"springrib/internal/brace"
)

// A panel of stiffness 284 N mm over 100 mm of width, bent to radius 60 and glued on a
// rib 4 mm thick.
func ExampleEndForce() {
	fmt.Printf("moment %.0f N mm\n", brace.Moment(1.0/60, 284, 100))
	fmt.Printf("end held by %.0f N on a tail of 6 mm\n", brace.EndForce(1.0/60, 284, 100, 6, 0.3))
	peel := brace.PeelAt(1.0/60, 284, 100, 3, 250, brace.Glue{Width: 4, Bond: 0.6})
	fmt.Printf("the end of the glue sees up to %.1f MPa; a straight tail of %.0f mm would carry it\n", peel.Stress, peel.Length)
	// Output:
	// moment 473 N mm
	// end held by 79 N on a tail of 6 mm
	// the end of the glue sees up to 12.8 MPa; a straight tail of 14 mm would carry it
}
