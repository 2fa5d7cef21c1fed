package plane

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestMeetingsLieOnBoth checks each meeting by distance, and their number by sampling.
func TestMeetingsLieOnBoth(t *testing.T) {
	rng := rand.New(rand.NewSource(11))
	pt := func() Point { return Pt(rng.Float64()*20, rng.Float64()*20) }
	seg := func() Segment {
		if rng.Intn(3) == 0 {
			return LineSeg(pt(), pt())
		}
		return BulgeSeg(pt(), pt(), math.Tan(rng.Float64()*2.6-1.3))
	}
	for range 400 {
		a, b := seg(), seg()
		ms := Meetings(a, b)
		for _, m := range ms {
			assert.Less(t, a.Point(m.TA).Dist(m.At), 1e-6)
			assert.Less(t, b.Point(m.TB).Dist(m.At), 1e-6)
		}
		// The distance of points of a from b dips to 0 at each meeting.
		zeros := 0
		const n = 2000
		for i := 1; i < n; i++ {
			p, q, r := a.Point(float64(i-1)/n), a.Point(float64(i)/n), a.Point(float64(i+1)/n)
			if d := b.Distance(q); d <= b.Distance(p) && d < b.Distance(r) && d < a.Length()/n {
				zeros++
			}
		}
		if near := len(ms) - zeros; near != 0 {
			// Nearly touching pairs and ends can't be told apart by sampling.
			for _, m := range ms {
				if m.TA < 0.01 || m.TA > 0.99 || m.TB < 0.01 || m.TB > 0.99 {
					near = 0
				}
			}
			glancing := false
			for i := range n + 1 {
				glancing = glancing || b.Distance(a.Point(float64(i)/n)) < 0.02
			}
			assert.True(t, near == 0 || glancing, "%v %v", a, b)
		}
	}
}
