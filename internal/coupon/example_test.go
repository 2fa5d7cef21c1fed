package coupon_test

import (
	"fmt"

	"springrib/internal/coupon"
	"springrib/internal/hinge"
)

// A strip that held at radius 30 and broke at 25 says more of the sheet than a handbook.
func ExampleLearn() {
	const e = 7755.0
	was := coupon.Belief{
		Material: hinge.Material{E: e, NuXY: .3, NuXZ: .3, EZ: .06 * e, GXZ: .06 * e}, SpreadE: .15, SpreadZ: .5,
		Thickness: coupon.Measured{Value: 3.9, Sigma: .05}, Density: 680, Width: coupon.Measured{Value: .18, Sigma: .04},
		Skins:   []coupon.Measured{{Value: 1.4, Sigma: .15}, {Value: 1, Sigma: .15}, {Value: .7, Sigma: .15}},
		Rupture: coupon.Measured{Value: 0.0049, Sigma: .2},
	}
	got := coupon.Learn(was, []coupon.Reading{
		{Kind: coupon.KindBend, Passes: 3, Spacing: 1, Value: 30, Verdict: coupon.Held, Date: "2 March"},
		{Kind: coupon.KindBend, Passes: 3, Spacing: 1, Value: 25, Verdict: coupon.Broke, Date: "2 March"},
	}, coupon.Owner{})
	fmt.Printf("rupture strain %.2f %% believed, %.2f %% learned\n", 100*was.Rupture.Value, 100*got.Belief.Rupture.Value)
	// Output: rupture strain 0.49 % believed, 1.14 % learned
}
