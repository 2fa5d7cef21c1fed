package bench_test

import (
	"fmt"

	"springrib/internal/bench"
	"springrib/internal/design"
	"springrib/internal/plan"
)

func ExampleMake() {
	v, _ := design.Read(design.Examples()[0].Design)
	p := plan.Make(v)
	s := bench.Make(&p, p.Findings)
	fmt.Println(s.Title)
	for _, part := range s.Sections[:3] {
		fmt.Println("-", part.Title)
	}
	// Output:
	// Harbour lamp, revision A
	// - What may go wrong
	// - Before you cut, and while you glue
	// - Order of work
}
