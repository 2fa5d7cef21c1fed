package fit

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/plane"
	"springrib/internal/shapes"
)

func TestHausdorffOfKnownPairs(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b plane.Path
		want float64
	}{
		{"the same", plane.CirclePath(plane.Pt(0, 0), 5), plane.CirclePath(plane.Pt(0, 0), 5), 0},
		{"concentric circles", plane.CirclePath(plane.Pt(0, 0), 5), plane.CirclePath(plane.Pt(0, 0), 6.5), 1.5},
		{"shifted circle", plane.CirclePath(plane.Pt(0, 0), 5), plane.CirclePath(plane.Pt(1, 2), 5), math.Sqrt(5)},
		{"parallel lines", plane.Open(plane.Pt(0, 0), plane.Pt(9, 0)), plane.Open(plane.Pt(0, 2), plane.Pt(9, 2)), 2},
		{"a line and its half", plane.Open(plane.Pt(0, 0), plane.Pt(10, 0)), plane.Open(plane.Pt(0, 0), plane.Pt(5, 0)), 5},
		{"chord and half circle", plane.MustParse("M 5 0 A 5 0 1 -5 0"), plane.Open(plane.Pt(5, 0), plane.Pt(-5, 0)), 5},
		// The middle of the long side is farthest from the two other sides together.
		{"an angle and its third side", plane.Open(plane.Pt(0, 0), plane.Pt(6, 0), plane.Pt(6, 8)), plane.Open(plane.Pt(0, 0), plane.Pt(6, 8)), 4.8},
		{"quarter circle and its cubic", plane.Chain(false, plane.ArcSeg(plane.Pt(0, 0), 100, 0, math.Pi/2)), plane.Path{Segs: shapes.FourCubics(plane.Pt(0, 0), 100, 100).Segs[:1]}, 0.027253},
	} {
		for acc := 1.0; acc > 1e-5; acc /= 10 {
			lo, hi := Deviation(c.a, c.b, acc)
			assert.LessOrEqual(t, lo, c.want+1e-6, "%s at %g", c.name, acc)
			assert.GreaterOrEqual(t, hi, c.want-1e-6, "%s at %g", c.name, acc)
			assert.LessOrEqual(t, hi-lo, acc*(1+1e-9), "%s at %g", c.name, acc)
			lo2, hi2 := Deviation(c.b, c.a, acc)
			assert.InDelta(t, lo, lo2, 1e-9)
			assert.InDelta(t, hi, hi2, 1e-9)
		}
	}
	assert.Panics(t, func() { Deviation(plane.Path{}, plane.CirclePath(plane.Pt(0, 0), 1), 1) })
}

// TestHausdorffAgainstSampling compares with brute force over dense points.
func TestHausdorffAgainstSampling(t *testing.T) {
	rng := rand.New(rand.NewSource(22))
	for range 30 {
		a, b := shapes.Star(rng, plane.Pt(0, 0), 20, 6), shapes.Star(rng, plane.Pt(1, 0), 20, 7)
		lo, hi := Deviation(a, b, 0.01)
		pa, pb := dense(a, 0.2), dense(b, 0.2)
		brute := 0.0
		for _, s := range [2][2][]plane.Point{{pa, append(pb, pb[0])}, {pb, append(pa, pa[0])}} {
			for _, p := range s[0] {
				brute = max(brute, shapes.DistToPolyline(p, s[1]))
			}
		}
		assert.GreaterOrEqual(t, hi, brute-0.02)
		assert.LessOrEqual(t, lo, brute+0.12) // samples are 0.2 apart
	}
}

func TestDeviationOfSources(t *testing.T) {
	lo, hi := Deviation(trueEllipse(30, 15), shapes.FourCubics(plane.Pt(0, 0), 30, 15), 1e-4)
	assert.InDelta(t, 2.7253e-4*30, hi, 2e-3) // scaled along X and by half along Y
	assert.Greater(t, lo, 2.7253e-4*15)
	lo, hi = Deviation(Points(shapes.EllipsePoints(30, 15, 50), true), shapes.FourCubics(plane.Pt(0, 0), 30, 15), 1e-4)
	sag := 0.0
	pts := shapes.EllipsePoints(30, 15, 50)
	for i, p := range pts {
		w := 2 * math.Pi * (float64(i) + 0.5) / 50
		q := p.Lerp(pts[(i+1)%50], 0.5)
		sag = max(sag, q.Dist(plane.Pt(30*math.Cos(w), 15*math.Sin(w))))
	}
	assert.InDelta(t, sag, (lo+hi)/2, 0.01)
}
