package offset

import (
	"math"
	"testing"

	"springrib/internal/plane"
)

// FuzzRegion offsets whatever outline the text describes: nothing may panic, run on, or
// give coordinates that aren't numbers.
func FuzzRegion(f *testing.F) {
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
		if !p.Closed {
			return
		}
		rs, err := Region(plane.Region{Outer: p}, d, 0.01)
		if err != nil {
			return
		}
		for _, r := range rs {
			for _, q := range r.Paths() {
				checkFinite(t, q)
			}
		}
	})
}
