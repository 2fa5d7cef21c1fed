package curve

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

func through(t *testing.T, pts ...plane.Point) Curve {
	t.Helper()
	c, err := Through(pts...)
	require.NoError(t, err)
	return c
}

func randomPoints(r *rand.Rand) []plane.Point {
	var pts []plane.Point
	p := plane.Pt(0, 0)
	dir := 0.0
	for range 3 + r.IntN(8) {
		pts = append(pts, p)
		dir += (r.Float64()*2 - 1) * 0.8
		p = p.Add(plane.Dir(dir).Mul(15 + 60*r.Float64()))
	}
	return pts
}

func TestThroughPassesItsPoints(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 100 {
		pts := randomPoints(r)
		c := through(t, pts...)
		for _, p := range pts {
			best := math.Inf(1)
			for i := range 800 {
				best = math.Min(best, p.Dist(c.At(c.Length()*float64(i)/799).P))
			}
			require.Less(t, best, c.Length()/700)
		}
		require.InDelta(t, 0, pts[0].Dist(c.At(0).P), 1e-12)
		require.InDelta(t, 0, pts[len(pts)-1].Dist(c.At(c.Length()).P), 1e-9)
	}
}

// Heading and curvature are continuous, zero curvature at both ends, the heading is
// the integral of the curvature and the place that of the heading.
func TestThroughIsContinuousInCurvature(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 60 {
		c := through(t, randomPoints(r)...)
		require.Empty(t, c.Kinks(1e-6))
		require.InDelta(t, 0, c.At(0).Kappa, 1e-9)
		require.InDelta(t, 0, c.At(c.Length()).Kappa, 1e-9)
		const n = 5000
		h := c.Length() / n
		phi, p := c.At(0).Phi, c.At(0).P
		last := c.At(0).Kappa
		for i := range n {
			m := c.At(h * (float64(i) + 0.5))
			p = p.Add(plane.Dir(phi + m.Kappa*h/2).Mul(h))
			phi += m.Kappa * h
			k := c.At(h * float64(i+1)).Kappa
			require.InDelta(t, last, k, 0.008, "no step of curvature")
			last = k
		}
		require.InDelta(t, c.At(c.Length()).Phi, phi, 1e-3)
		require.InDelta(t, 0, p.Dist(c.At(c.Length()).P), 0.02)
	}
}

// Three points on a line, a mirror image, a turn, a scale: the curve follows.
func TestThroughInvariance(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 50 {
		pts := randomPoints(r)
		c := through(t, pts...)
		a := 6 * r.Float64()
		image := func(p plane.Point) plane.Point {
			return plane.Pt(p.X*math.Cos(a)+p.Y*math.Sin(a), p.X*math.Sin(a)-p.Y*math.Cos(a)).Mul(2.5)
		}
		var moved []plane.Point
		for _, p := range pts {
			moved = append(moved, image(p))
		}
		m := through(t, moved...)
		require.InEpsilon(t, 2.5*c.Length(), m.Length(), 1e-9)
		for i := range 20 {
			s := c.Length() * float64(i) / 20
			require.InDelta(t, 0, image(c.At(s).P).Dist(m.At(2.5*s).P), 1e-6)
		}
		// reversed
		var back []plane.Point
		for i := range pts {
			back = append(back, pts[len(pts)-1-i])
		}
		b := through(t, back...)
		s := c.Length() * 0.37
		require.InDelta(t, 0, c.At(s).P.Dist(b.At(b.Length()-s).P), 1e-6)
	}
	straight := through(t, plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(40, 0))
	assert.Len(t, straight.Stretches(), 1)
	assert.Equal(t, 0, straight.Stretches()[0].Sign)
}

// Uneven points on a smooth curve cause no loop and stay near it: points of a circle
// of radius 100 at very uneven angles. The straight end flattens the last, widest step,
// whose arc stands 4 mm off its chord, by less than 1.5 mm.
func TestThroughUnevenPoints(t *testing.T) {
	var pts []plane.Point
	for _, a := range []float64{0, 0.02, 0.05, 0.4, 0.45, 1.0, 1.02, 1.6} {
		pts = append(pts, plane.Dir(a).Mul(100))
	}
	c := through(t, pts...)
	_, crosses := c.Crossing()
	assert.False(t, crosses)
	for i := range 200 {
		p := c.At(c.Length() * float64(i) / 199).P
		assert.InDelta(t, 100, p.Len(), 1.5)
	}
}

// The spline of many points of a sine has its length: 109.238354733118 for one period
// of y = 10 sin(2 pi x/100) (complete elliptic integral, computed to 15 digits).
func TestThroughLengthOfASine(t *testing.T) {
	var pts []plane.Point
	for i := range 400 {
		x := 100 * float64(i) / 399
		pts = append(pts, plane.Pt(x, 10*math.Sin(2*math.Pi*x/100)))
	}
	c := through(t, pts...)
	assert.InDelta(t, 109.238354733118, c.Length(), 1e-5)
	// One inflection in the middle; the curvature is zero at the ends anyway.
	assert.Len(t, c.Stretches(), 2)
	assert.Equal(t, -1, c.Stretches()[0].Sign)
	assert.Equal(t, 1, c.Stretches()[1].Sign)
	k, _ := c.Tightest()
	assert.InEpsilon(t, 10*math.Pow(2*math.Pi/100, 2), k, 0.02)
}

func TestThroughRefuses(t *testing.T) {
	for _, pts := range [][]plane.Point{
		nil, {plane.Pt(1, 1)}, {plane.Pt(0, 0), plane.Pt(0, 0)},
		{plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(10, 0), plane.Pt(20, 5)},
		make([]plane.Point, MaxPoints+1), {plane.Pt(0, 0), plane.Pt(math.Inf(1), 0)}, {plane.Pt(0, 0), plane.Pt(math.NaN(), 0)},
	} {
		_, err := Through(pts...)
		var e *ErrPoints
		require.True(t, errors.As(err, &e), "%v", pts)
	}
}

func TestSplineParallel(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 40 {
		c := through(t, randomPoints(r)...)
		k, _ := c.Tightest()
		d := (r.Float64()*2 - 1) * 0.5 / k
		p, err := c.Parallel(d)
		require.NoError(t, err)
		require.InDelta(t, c.Length()-d*c.Turning(), p.Length(), 1e-7)
		for i := range 15 {
			at := p.At(p.Length() * float64(i) / 14)
			s := c.Nearest(at.P, c.Length()*float64(i)/14)
			require.InDelta(t, math.Abs(d), at.P.Dist(c.At(s).P), 1e-6)
			require.InDelta(t, 0, math.Remainder(at.Phi-c.At(s).Phi, 2*math.Pi), 1e-6)
		}
	}
}

// Ellipse perimeters from the complete elliptic integral (computed to 16 digits).
func TestEllipseLength(t *testing.T) {
	for _, c := range [][3]float64{{2, 1, 9.688448220547676}, {5, 3, 25.52699886339813}, {10, 1, 40.63974180100896}, {150, 100, 793.2719794645295}} {
		for _, left := range []bool{true, false} {
			e := Ellipse(c[0], c[1], left)
			assert.InEpsilon(t, c[2], e.Length(), 1e-9)
			assert.True(t, e.Closed())
			assert.InDelta(t, 2*math.Pi, math.Abs(e.Turning()), 1e-9)
			k, _ := e.Tightest()
			assert.InEpsilon(t, math.Max(c[0], c[1])/math.Pow(math.Min(c[0], c[1]), 2), k, 1e-3)
			_, crosses := e.Crossing()
			assert.False(t, crosses)
		}
	}
}

// The girth of a rounded box is its perimeter less (8 - 2 pi) r; a tenth of a
// millimetre outward all round moves any closed girth by 2 pi/10 = 0.63 mm.
func TestRoundedBoxGirth(t *testing.T) {
	c := Chain(plane.Point{}, 0, RoundedBox(200, 120, 30, true)...)
	assert.InDelta(t, 640-(8-2*math.Pi)*30, c.Length(), 1e-9)
	assert.True(t, c.Closed())
	p, err := c.Parallel(-0.1)
	require.NoError(t, err)
	assert.InDelta(t, 0.2*math.Pi, p.Length()-c.Length(), 1e-9)
	oval := Chain(plane.Point{}, 0, RoundedBox(200, 120, 999, false)...)
	assert.InDelta(t, 160+120*math.Pi, oval.Length(), 1e-9)
	assert.True(t, oval.Closed())
}

func TestFromPath(t *testing.T) {
	p := plane.MustParse("M 0 0 L 20 0 A 10 0 1 30 10 C 30 30 60 30 60 10")
	c, err := FromPath(p)
	require.NoError(t, err)
	assert.InDelta(t, p.Length(), c.Length(), 1e-8)
	for i := range 30 {
		s := c.Length() * float64(i) / 29
		at, tan := p.At(s)
		require.InDelta(t, 0, at.Dist(c.At(s).P), 1e-7)
		require.InDelta(t, 0, tan.Dist(c.At(s).Tangent()), 1e-6)
	}
	_, err = FromPath(plane.Path{})
	assert.Error(t, err)
}

func FuzzThrough(f *testing.F) {
	f.Add(0.0, 0.0, 10.0, 5.0, 20.0, -5.0, 30.0, 0.0)
	f.Add(0.0, 0.0, 10.0, 0.0, 20.0, 0.0, 30.0, 0.0)
	f.Add(0.0, 0.0, 10.0, 0.0, 0.0, 0.1, 10.0, 0.1)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i float64) {
		cv, err := Through(plane.Pt(a, b), plane.Pt(c, d), plane.Pt(e, g), plane.Pt(h, i))
		if err != nil {
			return
		}
		for j := range 5 {
			cv.At(cv.Length() * float64(j) / 4)
		}
	})
}

func BenchmarkSplineAt(b *testing.B) {
	c, _ := Through(plane.Pt(0, 0), plane.Pt(50, 20), plane.Pt(110, 10), plane.Pt(160, -30))
	i := 0
	for b.Loop() {
		c.At(c.Length() * float64(i%97) / 97)
		i++
	}
}

// A way that turns back on itself has no smooth curve: the point where it does is named.
func TestThroughRefusesCusps(t *testing.T) {
	for _, last := range []float64{0, 3, 99} {
		for _, y := range []float64{0, 1e-9, 1e-3} {
			_, err := Through(plane.Pt(0, 0), plane.Pt(100, y), plane.Pt(last, 0))
			var at *ErrPoints
			require.ErrorAs(t, err, &at, "back to %v by way of %v", last, y)
			assert.Contains(t, []int{1, 2}, at.Index)
		}
	}
	_, err := Through(plane.Pt(0, 0), plane.Pt(100, 60), plane.Pt(0, 80))
	assert.NoError(t, err, "a hairpin of some width is a curve")
}
