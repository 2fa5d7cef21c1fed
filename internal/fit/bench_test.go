package fit

import (
	"math"
	"testing"

	"springrib/internal/plane"
	"springrib/internal/shapes"
)

// spiralRib is the outline of a rib on an arc of radius r over 90 degrees whose depth
// falls from 20 to 8 mm: contact edge, tip, back edge, foot.
func spiralRib(r float64) plane.Source {
	arc := plane.Chain(false, plane.ArcSeg(plane.Pt(0, 0), r, 0, math.Pi/2))
	back := plane.Parallel(arc, 20, 8)
	return plane.Join(true, arc, plane.Open(arc.End(), plane.Pt(0, r-8)), plane.Reversed(back), plane.Open(plane.Pt(r-20, 0), arc.Start()))
}

// freeRib is a rib on a free curve of three cubics.
func freeRib() plane.Source {
	curve := plane.MustParse("M 0 0 C 40 0 70 20 100 60 C 130 100 170 100 200 70 C 230 40 260 40 300 60")
	back := plane.Parallel(curve, -20, -8)
	bs := back.Stretches()
	e0, _ := bs[0].End(0)
	e1, _ := bs[len(bs)-1].End(1)
	return plane.Join(true, curve, plane.Open(curve.End(), e1), plane.Reversed(back), plane.Open(e0, curve.Start()))
}

func benchFit(b *testing.B, src plane.Source, m Mode) {
	n := 0
	for b.Loop() {
		n = len(Fit(src, Options{Mode: m}).Path.Segs)
	}
	b.ReportMetric(float64(n), "pieces")
}

func BenchmarkFitSpiralRibAny(b *testing.B)  { benchFit(b, spiralRib(100), Any) }
func BenchmarkFitSpiralRibArcs(b *testing.B) { benchFit(b, spiralRib(100), Arcs) }
func BenchmarkFitFreeRibAny(b *testing.B)    { benchFit(b, freeRib(), Any) }
func BenchmarkFitFreeRibCubics(b *testing.B) { benchFit(b, freeRib(), Cubics) }
func BenchmarkFitFreeRibArcs(b *testing.B)   { benchFit(b, freeRib(), Arcs) }
func BenchmarkFitEllipseArcs(b *testing.B) {
	benchFit(b, shapes.FourCubics(plane.Pt(0, 0), 30, 15), Arcs)
}
func BenchmarkFitEllipseCubics(b *testing.B) {
	benchFit(b, shapes.FourCubics(plane.Pt(0, 0), 30, 15), Cubics)
}

func BenchmarkFitQuick(b *testing.B) {
	for name, src := range map[string]plane.Source{"spiral": spiralRib(100), "free": freeRib()} {
		for mode, m := range map[string]Mode{"any": Any, "arcs": Arcs} {
			b.Run(name+"/"+mode, func(b *testing.B) {
				for b.Loop() {
					Fit(src, Options{Mode: m, Quick: true})
				}
			})
		}
	}
}

func BenchmarkFit20000Points(b *testing.B) {
	pts := make([]plane.Point, 20000)
	for i := range pts {
		a := 2 * math.Pi * float64(i) / 20000
		pts[i] = plane.Dir(a).Mul(250 + 40*math.Sin(5*a) + 10*math.Sin(17*a))
	}
	benchFit(b, Points(pts, true), Any)
}

func BenchmarkFit5000Points(b *testing.B) {
	pts := make([]plane.Point, 5000)
	for i := range pts {
		a := 2 * math.Pi * float64(i) / 5000
		pts[i] = plane.Dir(a).Mul(250 + 40*math.Sin(5*a) + 10*math.Sin(17*a))
	}
	benchFit(b, Points(pts, true), Any)
}
