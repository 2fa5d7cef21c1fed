package fit

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
	"springrib/internal/shapes"
)

// TestDirections: the estimated tangents of sampled ellipses, exact and scattered.
func TestDirections(t *testing.T) {
	rng := rand.New(rand.NewSource(23))
	for _, c := range []struct {
		n     int
		noise float64
		worst float64 // radians
	}{
		{100, 0, 2e-3}, {400, 0, 1e-4}, {2000, 0, 1e-4},
		{400, 0.001, 8e-3}, {2000, 0.003, 2e-2},
	} {
		pts := shapes.EllipsePoints(30, 15, c.n)
		for i := range pts {
			pts[i] = pts[i].Add(plane.Pt(rng.NormFloat64(), rng.NormFloat64()).Mul(c.noise))
		}
		dirs := directions(append(pts, pts[0]), true, 0.01)
		worst := 0.0
		for i := range pts {
			w := 2 * math.Pi * float64(i) / float64(c.n)
			worst = max(worst, angleBetween(dirs[i], plane.Pt(-30*math.Sin(w), 15*math.Cos(w))))
		}
		assert.LessOrEqual(t, worst, c.worst, "%d points, noise %g", c.n, c.noise)
	}
}

func TestNoiseEstimate(t *testing.T) {
	rng := rand.New(rand.NewSource(24))
	pts := shapes.EllipsePoints(30, 15, 1000)
	assert.Less(t, (&window{pts: pts}).noise(), 1e-6)
	for i := range pts {
		pts[i] = pts[i].Add(plane.Pt(rng.NormFloat64(), rng.NormFloat64()).Mul(0.002))
	}
	assert.InEpsilon(t, 0.002, (&window{pts: pts}).noise(), 0.15)
}

func TestCorners(t *testing.T) {
	count := func(pts []plane.Point, closed bool) int {
		if closed {
			pts = append(pts, pts[0])
		}
		n := 0
		for _, c := range corners(pts, closed, 0.01)[:len(pts)-1] {
			if c {
				n++
			}
		}
		return n
	}
	assert.Equal(t, 4, count(dense(plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(10, 10))), 10), true))
	assert.Equal(t, 4, count(dense(plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(10, 10))), 0.05), true))
	assert.Equal(t, 0, count(shapes.EllipsePoints(30, 15, 400), true))
	assert.Equal(t, 24, count(shapes.EllipsePoints(30, 30, 24), true), "far points are a polygon")
	assert.Equal(t, 2, count(dense(plane.Chain(true, plane.BulgeSeg(plane.Pt(0, 0), plane.Pt(60, 0), 0.4), plane.BulgeSeg(plane.Pt(60, 0), plane.Pt(0, 0), 0.3)), 0.3), true))
	// Scatter of 0.004 over steps of 0.02 turns single steps by far more than a corner.
	rng := rand.New(rand.NewSource(25))
	line := make([]plane.Point, 400)
	for i := range line {
		line[i] = plane.Pt(0.02*float64(i), (rng.Float64()-0.5)*0.008)
	}
	n := 0
	for _, c := range corners(line, false, 0.01)[1:399] {
		if c {
			n++
		}
	}
	assert.Zero(t, n)
	f := Fit(Points(line, false), Options{})
	assert.Equal(t, "l", shapes.Kinds(f.Path))
}

func TestMedian(t *testing.T) {
	rng := rand.New(rand.NewSource(26))
	for n := 1; n < 40; n++ {
		v := make([]float64, n)
		for i, k := range rng.Perm(n) {
			v[i] = float64(k)
		}
		assert.Equal(t, float64(n/2), median(v))
	}
	assert.Equal(t, 2.0, median([]float64{2, 2, 2, 2}))
}

func TestSolveNormal(t *testing.T) {
	rng := rand.New(rand.NewSource(27))
	for range 50 {
		var m [4][6]float64
		x := [4]plane.Point{plane.Pt(1, 2), plane.Pt(-3, 0.5), plane.Pt(0, 7), plane.Pt(2, 2)}
		var rows [8][4]float64
		for i := range rows {
			for j := range rows[i] {
				rows[i][j] = rng.NormFloat64()
			}
		}
		for _, r := range rows {
			var b plane.Point
			for j := range 4 {
				b = b.Add(x[j].Mul(r[j]))
			}
			for i := range 4 {
				for j := range 4 {
					m[i][j] += r[i] * r[j]
				}
				m[i][4] += r[i] * b.X
				m[i][5] += r[i] * b.Y
			}
		}
		c := solveNormal(m, 4)
		for i := range c {
			assert.InDelta(t, 0, c[i].Dist(x[i]), 1e-8)
		}
	}
}

func TestPointsCleanUp(t *testing.T) {
	sq := []plane.Point{plane.Pt(0, 0), plane.Pt(0, 0), plane.Pt(5, 0), plane.Pt(5, 5), plane.Pt(5, 5+1e-12), plane.Pt(0, 5), plane.Pt(0, 0)}
	f := Fit(Points(sq, true), Options{})
	assert.Len(t, f.Path.Segs, 4)
	assert.InDelta(t, 25, f.Path.Area(), 1e-9)
	f = Fit(Points(sq[:4], false), Options{})
	assert.Len(t, f.Path.Segs, 2)
	assert.False(t, f.Path.Closed)
}

// TestLongEdgesAreLines: an outline whose straights have no points between is cut
// there, and its round parts are found.
func TestLongEdgesAreLines(t *testing.T) {
	slot := plane.MustParse("M 0 0 L 60 0 A 8 0 1 60 16 L 0 16 A 8 0 1 0 0 Z")
	f := checkFit(t, "slot", Points(slot.Flatten(1e-4), true), Options{})
	assert.Len(t, f.Path.Segs, 4)
	assert.InDelta(t, slot.Area(), f.Path.Area(), 0.05)
}

// TestRunsAndGrading: parts that join smoothly make one run, corners divide, and next
// to a fine part the coarse one is watched closely.
func TestRunsAndGrading(t *testing.T) {
	rr := plane.MustParse("M 5 0 L 35 0 A 5 0 1 40 5 L 40 25")
	rs := runsOf(rr, 0.01, DefaultKink, coarse)
	require.Len(t, rs, 1)
	assert.Len(t, rs[0].natural, 2)
	assert.Len(t, rs[0].exact, 3)
	assert.Len(t, runsOf(plane.MustParse("M 0 0 L 5 0 L 5 5"), 0.01, DefaultKink, coarse), 2)
	ring := runsOf(shapes.FourCubics(plane.Pt(0, 0), 3, 2), 0.01, DefaultKink, coarse)
	require.Len(t, ring, 1)
	assert.True(t, ring[0].cyclic)
	assert.False(t, ring[0].freeEnd(0))
	tiny := plane.MustParse("M 0 0 L 100 0 A 0.1 0 1 100.1 0.1 L 100.1 100")
	r := runsOf(tiny, 0.01, DefaultKink, coarse)[0]
	for i := 2; i < len(r.s); i++ {
		a, b := r.s[i-1]-r.s[i-2], r.s[i]-r.s[i-1]
		assert.LessOrEqual(t, max(a, b), 3.5*min(a, b), "at %g", r.s[i-1])
	}
	for k := range ring[0].nodes {
		turned := ring[0].rotated(k)
		assert.Len(t, turned.p, len(ring[0].p))
		assert.InDelta(t, ring[0].s[len(ring[0].s)-1], turned.s[len(turned.s)-1], 1e-9)
		assert.Equal(t, 0, turned.nodes[0])
	}
}
