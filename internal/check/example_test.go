package check_test

import (
	"fmt"

	"springrib/internal/check"
	"springrib/internal/design"
	"springrib/internal/plan"
)

// A design is read, planned, and looked over: what is found is told by id, field and severity.
func ExampleRun() {
	d := design.Empty()
	d.Curve.Radius, d.Curve.Angle = "60", "200" // no single score turns by 200°
	d.Panel.Width, d.Panel.Count, d.Panel.Spacing = "80", "1", design.FixedCount
	v, _ := design.Read(d)
	p := plan.Make(v)
	for _, f := range check.Run(&p) {
		if f.Place.Field == "panel.count" {
			fmt.Println(f.ID, f.Severity)
		}
	}
	d.Panel.Spacing = design.Follow
	v, _ = design.Read(d)
	p = plan.Make(v)
	fmt.Println("sound:", p.Try().Sound())
	// Output:
	// count-missed warn
	// sound: true
}
