package plane

import (
	"math"
	"testing"

	"springrib/internal/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// curveCase is a curve whose length is known in closed form.
type curveCase struct {
	name   string
	at     func(t float64) Point // derivative
	t0, t1 float64
	length float64
}

// knownLengths are closed forms evaluated with 20 digits (mpmath): parabola
// sqrt(5)/2 + asinh(2)/4, ellipses 4 a E(e), catenary sinh 1, the Archimedean spiral
// and the cycloid's 8 r.
func knownLengths() []curveCase {
	ellipse := func(a, b float64) func(float64) Point {
		return func(t float64) Point { return Point{-a * math.Sin(t), b * math.Cos(t)} }
	}
	full := 2 * math.Pi
	return []curveCase{
		{"parabola y=x^2 over 0..1", func(t float64) Point { return Point{1, 2 * t} }, 0, 1, 1.4789428575445974},
		{"ellipse 2:1", ellipse(2, 1), 0, full, 9.688448220547676},
		{"ellipse 3:2", ellipse(3, 2), 0, full, 15.86543958929059},
		{"ellipse 5:3", ellipse(5, 3), 0, full, 25.52699886339813},
		{"ellipse 10:1", ellipse(10, 1), 0, full, 40.63974180100896},
		{"ellipse 100x50", ellipse(100, 50), 0, full, 484.4224110273838},
		{"ellipse 150x100", ellipse(150, 100), 0, full, 793.2719794645295},
		{"ellipse 300x100", ellipse(300, 100), 0, full, 1336.489322055526},
		{"sine", func(t float64) Point { return Point{1, math.Cos(t)} }, 0, full, 7.640395578055424},
		{"sine 10 over 100", func(t float64) Point {
			return Point{1, 10 * full / 100 * math.Cos(full*t/100)}
		}, 0, 100, 109.238354733118},
		{"catenary", func(t float64) Point { return Point{1, math.Sinh(t)} }, 0, 1, 1.1752011936438015},
		{"Archimedean spiral", func(t float64) Point {
			return Point{math.Cos(t) - t*math.Sin(t), math.Sin(t) + t*math.Cos(t)}
		}, 0, full, 21.256294148209099},
		{"cycloid", func(t float64) Point { return Point{1 - math.Cos(t), math.Sin(t)} }, 0, full, 8},
	}
}

func TestQuadLengths(t *testing.T) {
	for _, c := range knownLengths() {
		for acc := 1e-3; acc > 1e-13; acc /= 10 {
			got := solve.Integrate(func(x float64) float64 { return c.at(x).Len() }, c.t0, c.t1, acc*c.length)
			assert.InDelta(t, c.length, got, math.Max(acc, 1e-14)*c.length, "%s at %g", c.name, acc)
		}
		got := solve.Integrate(func(x float64) float64 { return c.at(x).Len() }, c.t0, c.t1, 1e-12)
		assert.InDelta(t, c.length, got, 1e-9, c.name)
	}
}

func TestCubicLength(t *testing.T) {
	parabola := CubicSeg(Pt(0, 0), Pt(1./3, 0), Pt(2./3, 1./3), Pt(1, 1))
	for acc := 1e-2; acc > 1e-13; acc /= 10 {
		assert.InDelta(t, 1.4789428575445974, parabola.LengthWithin(acc), acc*2, "accuracy %g", acc)
	}
	// A quadratic that runs forth and back on one line, raised to a cubic; the value
	// is from the tests of the kurbo library (Linebender, Apache-2.0/MIT).
	a, m, b := Pt(-1, 0), Pt(1.03, 0), Pt(1, 0)
	collapsed := CubicSeg(a, a.Lerp(m, 2./3), b.Lerp(m, 2./3), b)
	assert.InDelta(t, 2.0008737864167325, collapsed.Length(), 1e-9)
	quarter := fourCubics(Pt(0, 0), 1, 1).Segs[0]
	assert.InDelta(t, 1.57101669807386, quarter.Length(), 1e-12) // mpmath
}

func TestArcLength(t *testing.T) {
	for _, sweep := range []float64{1e-9, 1e-4, 0.3, 1, math.Pi, 4, 6.2, -2, -6.2} {
		s := ArcSeg(Pt(3, 4), 50, 0.7, 0.7+sweep)
		assert.InDelta(t, 50*math.Abs(sweep), s.Length(), 1e-9, "sweep %g", sweep)
		assert.InDelta(t, sweep, s.Sweep(), 1e-12)
		c, r, a0, sw := s.ArcGeometry()
		if math.Abs(sweep) > 0.1 {
			assert.InDelta(t, 0, c.Dist(Pt(3, 4)), 1e-9)
			assert.InDelta(t, 50, r, 1e-9)
			assert.InDelta(t, 0.7, a0, 1e-9)
			assert.InDelta(t, sweep, sw, 1e-12)
		}
	}
	assert.InDelta(t, 2*math.Pi*7, CirclePath(Pt(1, 2), 7).Length(), 1e-12)
}

func TestParamAtInvertsLength(t *testing.T) {
	for _, s := range segmentZoo() {
		total := s.Length()
		for i := range 11 {
			l := total * float64(i) / 10
			assert.InDelta(t, l, s.Split(0, s.ParamAt(l)).Length(), 1e-9*total+1e-12, "%v at %g", s, l)
		}
	}
}

func TestPathAt(t *testing.T) {
	p := MustParse("M 0 0 L 10 0 A 5 0 1 10 10 L 0 10")
	at, dir := p.At(10 + 2.5*math.Pi)
	assert.InDelta(t, 0, at.Dist(Pt(15, 5)), 1e-12)
	assert.InDelta(t, 0, dir.Dist(Pt(0, 1)), 1e-12)
	at, dir = p.At(1e9)
	assert.Equal(t, Pt(0, 10), at)
	assert.Equal(t, Pt(-1, 0), dir)
	require.Panics(t, func() { Path{}.At(1) })
}
