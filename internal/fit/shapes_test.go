package fit

import (
	"math"
	"math/rand"

	"springrib/internal/plane"
)

// segmentZoo returns segments of every kind, ordinary and awkward.
func segmentZoo() []plane.Segment {
	zoo := []plane.Segment{
		plane.LineSeg(plane.Pt(0, 0), plane.Pt(3, 4)),
		plane.LineSeg(plane.Pt(1, 1), plane.Pt(1, -5)),
		plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(10, 0), 1e-6),
		plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(10, 0), -0.3),
		plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(10, 2), 1),
		plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(1, 2), -3),
		plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(1, 2), 20),
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(10, 20), plane.Pt(30, 20), plane.Pt(40, 0)),
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(40, 20), plane.Pt(-10, 20), plane.Pt(30, 0)), // a loop
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(30, 20), plane.Pt(0, 20), plane.Pt(30, 0)),   // a cusp or nearly
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(0, 0), plane.Pt(5, 5), plane.Pt(10, 0)),      // no first handle
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(5, 5), plane.Pt(10, 0), plane.Pt(10, 0)),     // no last handle
		plane.CubicSeg(plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(20, 0), plane.Pt(30, 0)),    // straight
	}
	rng := rand.New(rand.NewSource(1))
	pt := func() plane.Point { return plane.Pt(rng.Float64()*100-50, rng.Float64()*100-50) }
	for range 20 {
		zoo = append(zoo, plane.BulgeSeg(pt(), pt(), math.Tan(rng.Float64()*3-1.5)), plane.CubicSeg(pt(), pt(), pt(), pt()))
	}
	return zoo
}
