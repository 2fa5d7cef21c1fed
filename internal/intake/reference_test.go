package intake

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// apart returns the largest distance of the points of a from the lines through those of b.
func apart(a, b [][]plane.Point) float64 {
	far := 0.0
	for _, pts := range a {
		for _, p := range pts {
			near := math.Inf(1)
			for _, line := range b {
				for k := 1; k < len(line); k++ {
					near = math.Min(near, plane.LineDistance(p, line[k-1], line[k]))
				}
			}
			far = math.Max(far, near)
		}
	}
	return far
}

// Every kind of entity that is read lies within 0.02 mm of the path that ezdxf, a general-purpose
// library, makes of it, and the other way round. Each kind is on a layer of its own.
func TestDXFPathsAgainstEzdxf(t *testing.T) {
	py, dir := python(t), t.TempDir()
	out, err := exec.Command(py, reference, "paths", dir).CombinedOutput()
	require.NoError(t, err, string(out))
	text, err := os.ReadFile(filepath.Join(dir, "paths.json"))
	require.NoError(t, err)
	var want map[string][][][2]float64
	require.NoError(t, json.Unmarshal(text, &want))
	require.GreaterOrEqual(t, len(want), 20)
	data, err := os.ReadFile(filepath.Join(dir, "kinds.dxf"))
	require.NoError(t, err)
	d, err := Read(data, Options{})
	require.NoError(t, err)
	got := map[string][][]plane.Point{}
	for _, it := range d.Items {
		got[it.Layer] = append(got[it.Layer], it.Path.Flatten(0.001))
	}
	worst := 0.0
	for layer, lines := range want {
		var ref [][]plane.Point
		for _, l := range lines {
			var pts []plane.Point
			for _, p := range l {
				pts = append(pts, plane.Pt(p[0], p[1]))
			}
			ref = append(ref, pts)
		}
		require.NotEmpty(t, got[layer], layer)
		off := math.Max(apart(ref, got[layer]), apart(got[layer], ref))
		assert.LessOrEqual(t, off, 0.02, layer)
		worst = math.Max(worst, off)
	}
	require.Len(t, got, len(want))
	t.Logf("%d kinds, at most %.4f mm off", len(want), worst)
}

// Splines lie where scipy has them (testdata/intake/splines.py made the points): all of its
// points on what is drawn, within what curves may lie off and the rounding of the points.
func TestSplinesAgainstScipy(t *testing.T) {
	text, err := os.ReadFile("../../testdata/intake/splines.json")
	require.NoError(t, err)
	var cases struct {
		Splines []struct {
			Degree         int
			Knots, Weights []float64
			Ctrl, Points   []plane.Point
		}
		Through []struct {
			Pts, Points []plane.Point
			Start, End  *plane.Point
		}
	}
	require.NoError(t, json.Unmarshal(text, &cases))
	require.Len(t, cases.Splines, 25)
	require.Len(t, cases.Through, 15)
	check := func(name string, i int, s shape, want []plane.Point) {
		p := pen{m: plane.Identity(), room: 10000}
		s.draw(&p)
		p.lift()
		require.Len(t, p.paths, 1)
		got := [][]plane.Point{p.paths[0].Flatten(1e-4)}
		assert.LessOrEqual(t, apart([][]plane.Point{want}, got), 2*accuracy, "%s %d", name, i)
		assert.LessOrEqual(t, p.paths[0].Start().Dist(want[0]), 1e-5)
		assert.LessOrEqual(t, p.paths[0].End().Dist(want[len(want)-1]), 1e-5)
	}
	for i, c := range cases.Splines {
		s := spline{degree: c.Degree, knots: c.Knots, ctrl: c.Ctrl, weights: c.Weights}
		require.True(t, s.valid(), i)
		check("spline", i, s, c.Points)
	}
	for i, c := range cases.Through {
		check("through", i, fitShape{through(c.Pts, c.Start, c.End)}, c.Points)
	}
}
