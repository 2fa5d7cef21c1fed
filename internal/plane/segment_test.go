package plane

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
)

// segmentZoo returns segments of every kind, ordinary and awkward.
func segmentZoo() []Segment {
	zoo := []Segment{
		LineSeg(Pt(0, 0), Pt(3, 4)),
		LineSeg(Pt(1, 1), Pt(1, -5)),
		BulgeSeg(Pt(0, 0), Pt(10, 0), 1e-6),
		BulgeSeg(Pt(0, 0), Pt(10, 0), -0.3),
		BulgeSeg(Pt(0, 0), Pt(10, 2), 1),
		BulgeSeg(Pt(0, 0), Pt(1, 2), -3),
		BulgeSeg(Pt(0, 0), Pt(1, 2), 20),
		CubicSeg(Pt(0, 0), Pt(10, 20), Pt(30, 20), Pt(40, 0)),
		CubicSeg(Pt(0, 0), Pt(40, 20), Pt(-10, 20), Pt(30, 0)), // a loop
		CubicSeg(Pt(0, 0), Pt(30, 20), Pt(0, 20), Pt(30, 0)),   // a cusp or nearly
		CubicSeg(Pt(0, 0), Pt(0, 0), Pt(5, 5), Pt(10, 0)),      // no first handle
		CubicSeg(Pt(0, 0), Pt(5, 5), Pt(10, 0), Pt(10, 0)),     // no last handle
		CubicSeg(Pt(0, 0), Pt(10, 0), Pt(20, 0), Pt(30, 0)),    // straight
	}
	rng := rand.New(rand.NewSource(1))
	pt := func() Point { return Pt(rng.Float64()*100-50, rng.Float64()*100-50) }
	for range 20 {
		zoo = append(zoo, BulgeSeg(pt(), pt(), math.Tan(rng.Float64()*3-1.5)), CubicSeg(pt(), pt(), pt(), pt()))
	}
	return zoo
}

func TestDerivativesByDifferences(t *testing.T) {
	const h = 1e-5
	for _, s := range segmentZoo() {
		scale := 1 + s.Length() + math.Abs(s.Bulge)*s.Length()*10
		for _, u := range []float64{0.1, 0.35, 0.5, 0.82} {
			d := s.Point(u + h).Sub(s.Point(u - h)).Mul(1 / (2 * h))
			assert.InDelta(t, 0, d.Dist(s.Deriv(u)), 1e-6*scale, "%v", s)
			d2 := s.Deriv(u + h).Sub(s.Deriv(u - h)).Mul(1 / (2 * h))
			assert.InDelta(t, 0, d2.Dist(s.Deriv2(u)), 1e-5*scale, "%v", s)
		}
	}
}

func TestTangentsAtTheEnds(t *testing.T) {
	for _, s := range segmentZoo() {
		for _, u := range []float64{0, 1} {
			in := 1e-5 + u*(1-2e-5)
			assert.InDelta(t, 0, s.Tangent(u).Dist(s.Tangent(in)), 3e-3, "%v at %g", s, u)
			assert.InDelta(t, 1, s.Tangent(u).Len(), 1e-12)
		}
	}
}

func TestBoxIsTight(t *testing.T) {
	for _, s := range segmentZoo() {
		b, sampled := s.Box(), EmptyBox()
		for i := range 4001 {
			p := s.Point(float64(i) / 4000)
			sampled = sampled.Add(p)
			assert.True(t, b.Grow(1e-9).Contains(p), "%v", s)
		}
		assert.True(t, sampled.Grow(1e-4).ContainsBox(b), "%v: box %v, sampled %v", s, b, sampled)
	}
}

func TestSplitAndReverse(t *testing.T) {
	for _, s := range segmentZoo() {
		part := s.Split(0.2, 0.7)
		back := s.Reverse()
		for i := range 11 {
			u := float64(i) / 10
			assert.InDelta(t, 0, part.Point(u).Dist(s.Point(0.2+0.5*u)), 1e-9, "%v", s)
			assert.InDelta(t, 0, back.Point(u).Dist(s.Point(1-u)), 1e-9, "%v", s)
		}
		sum := s.Split(0, 0.3).Length() + s.Split(0.3, 1).Length()
		assert.InDelta(t, s.Length(), sum, 1e-8, "%v", s)
	}
}

func TestApplyKeepsPoints(t *testing.T) {
	maps := []Affine{
		Rotate(0.4), Translate(3, -2), mirror(Pt(1, 1), Pt(4, 2)), Scale(3, 3), Scale(-1, 1),
		Scale(2, 0.5), Affine{1, 0.3, 0.7, 2, 5, 6}, RotateAbout(Pt(5, 5), 2),
	}
	for _, m := range maps {
		inv, ok := m.Inverse()
		assert.True(t, ok)
		for _, s := range segmentZoo() {
			p := Path{Segs: []Segment{s}}
			img := p.Apply(m)
			if s.Kind == Arc && m.similar() {
				assert.Len(t, img.Segs, 1)
				assert.Equal(t, Arc, img.Segs[0].Kind)
				assert.InDelta(t, 0, img.Segs[0].Point(0.3).Dist(m.Apply(s.Point(0.3))), 1e-9)
			}
			assert.InDelta(t, 0, img.End().Dist(m.Apply(p.End())), 1e-9)
			assert.InDelta(t, 0, inv.Apply(img.Start()).Dist(p.Start()), 1e-9)
			// The area to the chord scales with the determinant.
			assert.InDelta(t, m.Det()*p.Area(), img.Area(), 2e-5*(1+math.Abs(p.Area()*m.Det())), "%v %v", m, s)
		}
	}
	_, ok := Scale(1, 0).Inverse()
	assert.False(t, ok)
}

// TestQuarterCircleCubic checks the known error of the cubic quarter circle with
// handle 4/3 tan(pi/8): 2.7253e-4 outwards, none inwards (values by mpmath; the
// construction is standard, e.g. Goldapp, Approximation of circular arcs by cubic
// polynomials, CAGD 8, 1991), and of the 45 degree pieces that arcs are turned into.
func TestQuarterCircleCubic(t *testing.T) {
	worst := func(segs []Segment) (lo, hi float64) {
		for _, s := range segs {
			for i := range 20001 {
				d := s.Point(float64(i)/20000).Len() - 1
				lo, hi = math.Min(lo, d), math.Max(hi, d)
			}
		}
		return lo, hi
	}
	lo, hi := worst(fourCubics(Pt(0, 0), 1, 1).Segs[:1])
	assert.InDelta(t, 2.7253e-4, hi, 1e-8)
	assert.Greater(t, lo, -1e-12)
	lo, hi = worst(ArcSeg(Pt(0, 0), 1, 0, math.Pi/2).Cubics())
	assert.InDelta(t, 4.2455e-6, hi, 1e-9)
	assert.Greater(t, lo, -1e-12)
}

func TestArcBuilders(t *testing.T) {
	s := ArcTangent(Pt(0, 0), Pt(1, 0), Pt(5, 5))
	assert.InDelta(t, 0, s.Tangent(0).Dist(Pt(1, 0)), 1e-12)
	assert.InDelta(t, 0, s.Tangent(1).Dist(Pt(0, 1)), 1e-12)
	assert.Panics(t, func() { ArcSeg(Pt(0, 0), 1, 0, 7) })
	assert.Panics(t, func() { Chain(true, LineSeg(Pt(0, 0), Pt(1, 0))) })
	assert.Panics(t, func() { Chain(false, LineSeg(Pt(0, 0), Pt(1, 0)), LineSeg(Pt(0, 0), Pt(1, 0))) })
}

func ExampleSegment_ArcGeometry() {
	c, r, a0, sweep := BulgeSeg(Pt(10, 0), Pt(-10, 0), 1).ArcGeometry()
	fmt.Println(c, r, a0, sweep == math.Pi)
	// Output: {0 0} 10 0 true
}
