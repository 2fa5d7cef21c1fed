package remedy_test

import (
	"fmt"

	"springrib/internal/design"
	"springrib/internal/plan"
	"springrib/internal/remedy"
)

// A bend too tight for every number of passes: what would do, each change found by planning
// again, and still sound when it is pressed.
func ExampleSearch() {
	d := design.Empty()
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width = "22", "60", "80"
	d.Rib.FootDepth, d.Rib.TipDepth = "10", "8"
	v, _ := design.Read(d)
	p := plan.Make(v)
	fmt.Println("nothing works:", p.NothingWorks())
	found, _ := remedy.Search(d, &p)
	for _, r := range found {
		mended := d
		for path, text := range r.Set {
			mended, _ = design.Set(mended, path, text)
		}
		v, _ := design.Read(mended)
		q := plan.Make(v)
		fmt.Println("fields changed:", len(r.Set), "sound:", q.Try().Sound())
	}
	// Output:
	// nothing works: true
	// fields changed: 2 sound: true
}
