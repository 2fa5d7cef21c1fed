package plan_test

import (
	"fmt"

	"springrib/internal/design"
	"springrib/internal/plan"
)

func ExampleMake() {
	v, _ := design.Read(design.Examples()[0].Design)
	p := plan.Make(v)
	fmt.Printf("%v: %d passes, %d scores, %d ribs, %d sheets\n", p.Drawn, p.Try().Passes, p.ScoresCut(), len(p.Supports.All), len(p.Lay.Jobs))
	// Output: true: 2 passes, 95 scores, 2 ribs, 1 sheets
}
