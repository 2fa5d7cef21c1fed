package intake

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/fit"
	"springrib/internal/plane"
)

// Chains of a few lines that are nearly straight, long ones beside short ones, and circles
// that are closed but for a hair, in arcs and as polygons: whatever Compact makes of them lies
// within its tolerance, both ways.
func TestCompactOfUnevenChainsAndNearlyClosedCircles(t *testing.T) {
	rng := rand.New(rand.NewSource(2))
	n := 400
	if testing.Short() {
		n = 60
	}
	for range n {
		within := func(name string, p plane.Path) {
			t.Helper()
			got, ok := compact(p, fit.DefaultTolerance)
			require.True(t, ok)
			_, hi := fit.Deviation(p, got, 1e-3)
			assert.LessOrEqual(t, hi, fit.DefaultTolerance+1.2e-3, "%s: %s became %s", name, p, got)
		}
		pts, dir := []plane.Point{{}}, 0.0
		for range 3 + rng.Intn(4) {
			dir += (rng.Float64() - 0.5) * 2 * math.Pow(10, -3*rng.Float64())
			pts = append(pts, pts[len(pts)-1].Add(plane.Dir(dir).Mul(math.Pow(10, 2.5*rng.Float64()-1))))
		}
		within("an open chain", plane.Open(pts...))
		within("a closed chain", plane.Poly(pts...))

		c, r := plane.Pt(3, 4), math.Pow(10, 3*rng.Float64()-1)
		from, sweep := 6*rng.Float64(), 2*math.Pi-math.Pow(10, -4*rng.Float64())
		var arcs []plane.Segment
		k := 2 + rng.Intn(4)
		for i := range k {
			arcs = append(arcs, plane.ArcSeg(c, r, from+sweep*float64(i)/float64(k), from+sweep*float64(i+1)/float64(k)))
		}
		within("an open circle", plane.Path{Segs: arcs})
		within("a circle closed by a line", plane.Path{Segs: append(arcs, plane.LineSeg(arcs[k-1].B, arcs[0].A)), Closed: true})
		m := 4 + rng.Intn(200)
		pts = pts[:0]
		for i := range m {
			pts = append(pts, c.Add(plane.Dir(from+sweep*float64(i)/float64(m-1)).Mul(r)))
		}
		within("a polygon", plane.Open(pts...))
	}
}

// Found by fuzzing and by chance; each once left the tolerance by far.
func TestCompactOfWhatOnceLeftTheTolerance(t *testing.T) {
	for name, text := range map[string]string{
		"a long line and short ones":     "M 0 0 L 31.306629619784697 0.05473362937137577 L 32.202817948634035 0.05596838797965752 L 32.5453215071147 0.06034770013374685 L 48.91741441033708 0.3371486270941383 L 51.84197889959376 0.3887798442302039 L 72.65311550337135 0.5703158766459848 Z",
		"three lines":                    "M 0 0 L 3.3928133720736486 0.02336723837841022 L 3.664416073249745 0.07074218145892436 L 4.214733651871748 0.1676607650831116 Z",
		"a curve slow in its middle":     "M 0 0 L 7.125340323310059 -0.14799256740306552 L 7.24304059099581 -0.1525913504656017 L 35.69224139708223 -1.2347150155536764 L 36.927048587383936 -1.2813038163798074 L 38.817621975514506 -1.3552200960410503",
		"two arcs all but round":         "M 2.834854308388123 3.9936409349484183 B 0.9999737660930192 3.165146025035177 4.0063504000957515 B 0.9999737660930195 2.8348536419961605 3.993658264877561",
		"four arcs and a line all round": "M 2.9690628594114346 3.701220378987213 A 0.3003770440635 0 1 3.274398542821752 3.8778042214409987 A 0.3003770440635 0 1 3.2013703535742914 4.222881917843746 A 0.3003770440635 0 1 2.8506757232687656 4.260631212595566 A 0.3003770440635 0 1 2.7058820100922096 3.9390001916974966 A 0.3003770440635 0 1 2.966643007722271 3.701480855443868 Z",
	} {
		p := plane.MustParse(text)
		got := compacted(t, p, fit.DefaultTolerance)
		_, hi := fit.Deviation(p, got, 1e-3)
		assert.LessOrEqual(t, hi, fit.DefaultTolerance+1.2e-3, name)
	}
}
