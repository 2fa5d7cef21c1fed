package fit

import (
	"math"
	"testing"

	"springrib/internal/plane"
)

// FuzzFit fits whatever path the text describes, and its parallel: nothing may panic,
// run on, or give coordinates that aren't numbers, and the fit must be as near as it
// says.
func FuzzFit(f *testing.F) {
	f.Add("M 0 0 C 10 20 30 20 40 0", 6.35)
	f.Add("M 0 0 C 30 20 0 20 30 0", -1.0)
	f.Add("M 0 0 L 40 0 L 40 20 L 0 20 Z M 10 10 A 5 0 0 20 10 A 5 0 0 10 10 Z", 2.0)
	f.Add("M 0 0 L 20 0 L 20 8 L 40 8 L 40 0 L 60 0 L 60 20 L 40 20 L 40 12 L 20 12 L 20 20 L 0 20 Z", -2.0)
	f.Add("M 0 0 B 50 0.1 0 C 0 0 0 0 5 5 L 5 5 L 5 5.00001", 0.5)
	f.Fuzz(func(t *testing.T, s string, d float64) {
		p, err := plane.Parse(s)
		if err != nil || len(p.Segs) > 20 || math.Abs(d) > 1000 || math.IsNaN(d) {
			return
		}
		if b := p.Box(); b.W() > 1000 || b.H() > 1000 || plane.BoxOf(plane.Point{}).Union(b).W() > 1e5 {
			return
		}
		for m := Any; m <= Cubics; m++ {
			out := Fit(p, Options{Mode: m})
			checkFinite(t, out.Path)
			if p.Length() > 0.1 && len(out.Path.Segs) > 0 && len(p.Flatten(0.01)) < 2000 {
				if lo, _ := Deviation(p, out.Path, 0.01); lo > max(out.Deviation, 0.01)+1e-3 {
					t.Fatalf("mode %d: %g off, stated %g", m, lo, out.Deviation)
				}
			}
		}
		checkFinite(t, Fit(plane.Parallel(p, d, d), Options{}).Path)
	})
}

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
