package offset

import (
	"math"
	"strings"
	"testing"

	"springrib/internal/plane"
)

// What tests of this package draw with.

func checkFinite(t *testing.T, p plane.Path) {
	t.Helper()
	for _, s := range p.Segs {
		for _, v := range []float64{s.A.X, s.A.Y, s.B.X, s.B.Y, s.C.X, s.C.Y, s.D.X, s.D.Y, s.Bulge} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%v in %v", v, p)
			}
		}
	}
}

// mustRegion reads an outline and then its holes.
func mustRegion(text string) plane.Region {
	r := plane.Region{}
	for i, one := range strings.Split(strings.TrimPrefix(text, "M "), " M ") {
		if p := plane.MustParse("M " + one); i == 0 {
			r.Outer = p
		} else {
			r.Holes = append(r.Holes, p)
		}
	}
	return r.Normal()
}
