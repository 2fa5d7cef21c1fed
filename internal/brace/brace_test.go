package brace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/plane"
)

// A straight cantilever of constant depth under a constant moment bends to a tip
// deflection M L^2/(2 E I) (Timoshenko, Strength of Materials, part I, table of beam
// deflections, cantilever with end couple).
func TestReleaseOfAStraightRib(t *testing.T) {
	var pulls []Pull
	for i := 0; i <= 400; i++ {
		s := float64(i) / 4
		pulls = append(pulls, Pull{S: s, P: plane.Pt(s, 0), Moment: 200, Depth: 10})
	}
	b := Beam{Thickness: 3, E: 3590}
	got := Hold(pulls, b)
	inertia := 3.0 * 1000 / 12
	assert.InDelta(t, 200*100*100/(2*3590*inertia), got.Movement, 1e-9)
	assert.InDelta(t, 6*200/(3.0*100), got.Stress, 1e-12)
}

// A quarter ring under constant moment: the end moves by M R^2/(EI) times
// (pi/2-1, 1) - from integrating the rotation about the lever by hand.
func TestReleaseOfAQuarterRing(t *testing.T) {
	const r, m, depth = 80.0, 300.0, 12.0
	var pulls []Pull
	for i := 0; i <= 2000; i++ {
		a := math.Pi / 2 * float64(i) / 2000
		pulls = append(pulls, Pull{S: r * a, P: plane.Pt(r*math.Sin(a), r*(1-math.Cos(a))), Moment: m, Depth: depth})
	}
	b := Beam{Thickness: 4, E: 9000}
	ei := b.E * b.Thickness * depth * depth * depth / 12
	assert.InEpsilon(t, m*r*r/ei*math.Hypot(math.Pi/2-1, 1), Hold(pulls, b).Movement, 1e-6)
}

func TestNoPullsNoStress(t *testing.T) {
	assert.Equal(t, Strength{}, Hold(nil, Beam{3, 1000}))
}

// A curve leaves its tangent by kappa s^2/2.
func TestFreeLengthReachesTheGap(t *testing.T) {
	for _, k := range []float64{1e-3, 1.0 / 60, 0.1} {
		for _, gap := range []float64{0.05, 0.3, 2} {
			assert.InEpsilon(t, gap, k*math.Pow(FreeLength(k, gap, 0), 2)/2, 1e-12)
		}
	}
}

func TestEndForce(t *testing.T) {
	// M = 284/60 * 100 = 473 N mm over a 6 mm tail.
	assert.InEpsilon(t, 284.0/60*100/6, EndForce(1.0/60, 284, 100, 6, 0.3), 1e-12)
	// Without a tail the gap left by an end force on a cantilever is kappa l^2/6.
	l := math.Sqrt(6 * 0.3 * 60)
	f := EndForce(1.0/60, 284, 100, 0, 0.3)
	left := l*l/60/2 - f*l*l*l/(3*284*100)
	assert.InEpsilon(t, 0.3, left, 1e-9)
}

// The end of a long beam on an elastic bed under an end couple M: the line load is
// 2 M lambda^2 with lambda^4 = k/(4 EI) (Hetenyi, Beams on Elastic Foundation, 1946,
// semi-infinite beam, end moment; from memory, high confidence).
func TestPeelMatchesBeamOnElasticFoundation(t *testing.T) {
	const kappa, ei, w, th, ez, b = 1.0 / 60, 284.0, 90.0, 3.0, 120.0, 4.0
	k := ez * b / th
	lambda := math.Pow(k/(4*ei*w), 0.25)
	p := PeelAt(kappa, ei, w, th, ez, Glue{Width: b, Bond: 0.65})
	assert.InEpsilon(t, 2*kappa*ei*w*lambda*lambda/b, p.Stress, 1e-12)
	assert.InEpsilon(t, p.Stress/0.65, p.Use, 1e-12)
	assert.Greater(t, PeelAt(kappa, ei, w, th, ez, Glue{2, 0.65}).Stress, p.Stress, "a narrower rib peels sooner")
}
