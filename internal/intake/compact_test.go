package intake

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/fit"
	"springrib/internal/plane"
)

// dense returns n points of a curve, closed.
func dense(n int, at func(t float64) plane.Point) plane.Path {
	pts := make([]plane.Point, n)
	for i := range pts {
		pts[i] = at(float64(i) / float64(n))
	}
	return plane.Poly(pts...)
}

func circle(c plane.Point, r float64) func(t float64) plane.Point {
	return func(t float64) plane.Point { return c.Add(plane.Dir(2 * math.Pi * t).Mul(r)) }
}

func flower(t float64) plane.Point {
	return plane.Dir(2 * math.Pi * t).Mul(80 + 12*math.Sin(2*math.Pi*7*t))
}

func compacted(t *testing.T, p plane.Path, tolerance float64) plane.Path {
	t.Helper()
	out, ok := compact(p, tolerance)
	require.True(t, ok)
	return out
}

func TestCompactKeepsToTheToleranceInFewPieces(t *testing.T) {
	tooth := func(t float64) plane.Point { // a gear: dense, with corners
		k := math.Floor(t * 24)
		return plane.Dir(2 * math.Pi * t).Mul(60 + 4*math.Mod(k, 2))
	}
	for name, c := range map[string]struct {
		path  plane.Path
		most  int // pieces
		least int
	}{
		"rectangle":        {plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(200, 90))), 4, 4},
		"pentagon":         {dense(5, circle(plane.Pt(3, 4), 50)), 5, 5},
		"dense circle":     {dense(5000, circle(plane.Pt(3, 4), 50)), 8, 2},
		"sparse circle":    {dense(200, circle(plane.Pt(3, 4), 50)), 8, 2},
		"flower":           {dense(20000, flower), 80, 14},
		"gear":             {dense(4800, tooth), 60, 48},
		"arcs stay":        {plane.MustParse("M 0 0 L 100 0 A 20 0 1 100 40 L 0 40 A 20 0 1 0 0 Z"), 4, 4},
		"cubics stay":      {plane.CirclePath(plane.Pt(0, 0), 1).Apply(plane.Scale(100, 45)), 8, 4},
		"open":             {plane.Open(plane.Pt(0, 0), plane.Pt(10, 0), plane.Pt(10, 5)), 2, 2},
		"lines then cubic": {plane.MustParse("M 0 0 L 10 0 L 20 0.5 L 30 0 L 40 0.5 L 50 0 C 60 0 70 10 70 20 L 0 20 Z"), 9, 3},
	} {
		t.Run(name, func(t *testing.T) {
			got := compacted(t, c.path, fit.DefaultTolerance)
			require.Equal(t, c.path.Closed, got.Closed)
			assert.LessOrEqual(t, len(got.Segs), c.most)
			assert.GreaterOrEqual(t, len(got.Segs), c.least)
			_, hi := fit.Deviation(c.path, got, 1e-4)
			assert.LessOrEqual(t, hi, fit.DefaultTolerance+2e-4)
			back, err := plane.Parse(got.String())
			require.NoError(t, err, "the text form reads back")
			assert.Equal(t, got.String(), back.String())
			assert.InDelta(t, c.path.Area(), back.Area(), fit.DefaultTolerance*c.path.Length())
		})
	}
}

// What was written twice as densely comes to the same pieces, and noise of what files
// round to does not multiply them.
func TestCompactGoesByTheShapeNotThePoints(t *testing.T) {
	few, many := compacted(t, dense(2000, flower), 0.01), compacted(t, dense(200_000, flower), 0.01)
	assert.InDelta(t, len(few.Segs), len(many.Segs), 4)
	rng := rand.New(rand.NewSource(4))
	noisy := compacted(t, dense(20_000, func(t float64) plane.Point {
		return flower(t).Add(plane.Pt(rng.Float64()-0.5, rng.Float64()-0.5).Mul(0.002))
	}), 0.01)
	assert.LessOrEqual(t, len(noisy.Segs), 2*len(few.Segs))
	assert.Less(t, len(noisy.String()), 12_000)
}

// The places where a fit ends are those of the outline's corners, rounded.
func TestCompactKeepsCorners(t *testing.T) {
	star := dense(10, func(t float64) plane.Point {
		return plane.Dir(2 * math.Pi * t).Mul(40 + 60*math.Mod(math.Round(10*t), 2))
	})
	got := compacted(t, star, 0.01)
	require.Len(t, got.Segs, 10)
	for i, s := range got.Segs {
		assert.Less(t, s.A.Dist(star.Segs[i].A), grain)
	}
}

func TestCompactTakesWhatHasNoSize(t *testing.T) {
	p := plane.Pt(1, 1)
	for _, path := range []plane.Path{{}, plane.Path{Segs: []plane.Segment{plane.LineSeg(p, p), plane.LineSeg(p, p), plane.LineSeg(p, p), plane.LineSeg(p, p), plane.LineSeg(p, p)}}} {
		assert.Empty(t, compacted(t, path, 0.01).Segs)
	}
}

// BenchmarkImport is all that happens to an outline on its way in: read, mended, sorted,
// fitted. Its bound is 150 ms for 20,000 points.
func BenchmarkImport(b *testing.B) {
	for _, n := range sizes() {
		data := ringSVG(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				d, err := Read(data, Options{})
				if err != nil {
					b.Fatal(err)
				}
				m, _ := Mend(d.Items, 0.1)
				Guess(m.Items, plane.Box{}, Unsaid)
				for _, it := range m.Items {
					compact(it.Path, fit.DefaultTolerance)
				}
			}
		})
	}
}

// BenchmarkClip clips 500 scores by an outline as read, with as many sides as it has
// points. Its bound is 10 ms for 20,000.
func BenchmarkClip(b *testing.B) {
	var scores []float64
	for i := range 500 {
		scores = append(scores, 30+float64(i)*1.08)
	}
	for _, n := range sizes() {
		d, err := ReadSVG(ringSVG(n), Options{})
		if err != nil {
			b.Fatal(err)
		}
		r := plane.Region{Outer: d.Items[0].Path, Holes: []plane.Path{d.Items[1].Path}}.Normal()
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				r.ClipLines(plane.Pt(0, -600), plane.Pt(0, 0), scores)
			}
		})
	}
}

// Noise far above the tolerance is no curve: it is told apart, not fitted for minutes.
func TestCompactLeavesLongNoiseAlone(t *testing.T) {
	rng := rand.New(rand.NewSource(9))
	rough := dense(60_000, func(t float64) plane.Point { return flower(t).Mul(1 + 0.01*rng.Float64()) })
	got, ok := compact(rough, 0.01)
	assert.False(t, ok)
	assert.Len(t, got.Segs, 60_000)
}
