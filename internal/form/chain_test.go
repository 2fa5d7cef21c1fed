package form

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/curve"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// reference reads a table of testdata/reference, without comment lines and head row.
func reference(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", name))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func numbers(t *testing.T, words []string) []float64 {
	t.Helper()
	out := make([]float64, len(words))
	for i, w := range words {
		x, err := strconv.ParseFloat(w, 64)
		require.NoError(t, err)
		out[i] = x
	}
	return out
}

// station is one row of developable-rails.csv.
type station struct {
	s       float64
	p, d, k surface.Vec
}

// on returns the place of a rail at arc length s by the quintic that has place, tangent and
// curvature of the two stations beside it.
func on(rail []station, s float64) surface.Vec {
	i := min(max(sort.Search(len(rail), func(i int) bool { return rail[i].s >= s }), 1), len(rail)-1)
	a, b := rail[i-1], rail[i]
	h := b.s - a.s
	x := (s - a.s) / h
	x3 := x * x * x
	return a.p.Mul(1 - x3*(10-15*x+6*x*x)).Add(b.p.Mul(x3 * (10 - 15*x + 6*x*x))).
		Add(a.d.Mul(h * (x - x3*(6-8*x+3*x*x)))).Add(b.d.Mul(h * x3 * (-4 + 7*x - 3*x*x))).
		Add(a.k.Mul(h * h * x * x / 2 * (1 - 3*x + 3*x*x - x3))).Add(b.k.Mul(h * h * x3 / 2 * (1 - 2*x + x*x)))
}

// rolled is one strip of the table: its touches, and where their ends lie in the flat.
type rolled struct {
	kind    string
	touches []surface.Touch
	flat    [][2]plane.Point
}

func developables(t *testing.T) map[string]*rolled {
	rails := map[string][]station{}
	for _, r := range reference(t, "developable-rails.csv") {
		n := numbers(t, r[2:])
		v := func(i int) surface.Vec { return surface.Vec{X: n[i], Y: n[i+1], Z: n[i+2]} }
		rails[r[0]+r[1]] = append(rails[r[0]+r[1]], station{n[0], v(1), v(4), v(7)})
	}
	out := map[string]*rolled{}
	for _, r := range reference(t, "developable-rulings.csv") {
		n := numbers(t, r[3:])
		c := out[r[0]]
		if c == nil {
			c = &rolled{kind: r[1]}
			out[r[0]] = c
		}
		c.touches = append(c.touches, surface.Touch{
			A: on(rails[r[0]+"a"], n[0]), B: on(rails[r[0]+"b"], n[1]), N: surface.Vec{X: n[2], Y: n[3], Z: n[4]}.Unit(),
		})
		c.flat = append(c.flat, [2]plane.Point{plane.Pt(n[5], n[6]), plane.Pt(n[7], n[8])})
	}
	return out
}

// Strips whose flat is known in closed form (testdata/reference/developable-rulings.csv) come
// back, folded at unlike heights at their two ends: every flat lies again where it touches
// both rails, within 1e-6 mm, and within 0.002 mm once the places are rounded as in a file.
func TestChainsOfAnyStripComeBack(t *testing.T) {
	kinds := map[string]int{}
	for name, c := range developables(t) {
		kinds[c.kind]++
		s, lain := surface.Chain(c.touches, func(i int) [2]float64 { return [2]float64{0.44, 0.5} })
		require.Len(t, lain, len(c.touches))
		off := func(s surface.Strip) (most float64) {
			frames := Fold(s)
			for i, l := range lain {
				a, b := l.Flat[0], l.Flat[1]
				most = math.Max(most, frames[l.On].At(a.X, a.Y, 0).Sub(c.touches[i].A).Len())
				most = math.Max(most, frames[l.On].At(b.X, b.Y, 0).Sub(c.touches[i].B).Len())
			}
			return most
		}
		assert.Less(t, off(s), 1e-6, "%s, case %s", c.kind, name)
		for i := range s.Rulings {
			for k := range s.Rulings[i].Flat {
				p := &s.Rulings[i].Flat[k]
				p.X, p.Y = math.Round(p.X*1e3)/1e3, math.Round(p.Y*1e3)/1e3
			}
		}
		assert.Less(t, off(s), 2e-3, "%s, case %s, rounded", c.kind, name)
	}
	assert.Equal(t, map[string]int{"cylinder": 5, "round cone": 5, "generalised cone": 5, "tangent developable": 5}, kinds)
}

// The flat of a chain pivoting on its contact face is that of the smooth strip, to the second
// order of the folds.
func TestChainsLieAsTheSmoothStrip(t *testing.T) {
	for name, c := range developables(t) {
		s, lain := surface.Chain(c.touches, func(int) [2]float64 { return [2]float64{} })
		for i := 1; i < len(lain); i++ {
			turn := 0.0
			if n := lain[i].On; n > 0 {
				turn = s.Rulings[n-1].Turn
			}
			for _, end := range [][2]int{{0, 0}, {1, 1}, {0, 1}, {1, 0}} {
				want := c.flat[i-1][end[0]].Dist(c.flat[i][end[1]])
				got := lain[i-1].Flat[end[0]].Dist(lain[i].Flat[end[1]])
				assert.InDelta(t, want, got, 1e-6+want*turn*turn/4, "%s, case %s, flat %d", c.kind, name, i)
			}
		}
	}
}

// A strip may be laid anywhere in the flat: folded, it comes to the same place.
func TestALaidStripFoldsTheSame(t *testing.T) {
	c := developables(t)["7"]
	s, _ := surface.Chain(c.touches, func(int) [2]float64 { return [2]float64{1, 2} })
	m := plane.Translate(40, -7).Mul(plane.Rotate(2.1))
	moved := s.Laid(m)
	a, b := Fold(s), Fold(moved)
	for i := range a {
		p := plane.Pt(3, 11)
		q := m.Apply(p)
		near(t, a[i].At(p.X, p.Y, 0.7), b[i].At(q.X, q.Y, 0.7))
	}
}

// Along two rails of a cone a chain of planes stands off by R (sec(theta/2)-1) cos(alpha) beside
// each fold, and touches in between; its last line comes home to the first.
func TestAlongTheRailsOfACone(t *testing.T) {
	const r1, r2, h, n = 40.0, 90.0, 70.0, 24
	lean := math.Atan2(r2-r1, h)
	var touches []surface.Touch
	for i := range n + 1 {
		c, s := math.Cos(2*math.Pi*float64(i)/n), math.Sin(2*math.Pi*float64(i)/n)
		touches = append(touches, surface.Touch{
			A: surface.Vec{X: r1 * c, Y: r1 * s}, B: surface.Vec{X: r2 * c, Y: r2 * s, Z: h},
			N: surface.Vec{X: c * math.Cos(lean), Y: s * math.Cos(lean), Z: -math.Sin(lean)},
		})
	}
	s, lain := surface.Chain(touches, func(int) [2]float64 { return [2]float64{1.1, 1.4} })
	for _, rail := range []struct{ r, z float64 }{{r1, 0}, {r2, h}, {(r1 + r2) / 2, h / 2}} {
		fit := Along(s, circleRail(rail.r, rail.z), lain[0].Flat, lain[n].Flat)
		assert.Len(t, fit.Flats, n+1)
		assert.InDelta(t, 0, fit.Least, 1e-9)
		assert.InDelta(t, rail.r*(1/math.Cos(math.Pi/n)-1)*math.Cos(lean), fit.Most, 1e-6)
		assert.InDelta(t, 0, fit.EndMiss, 1e-9)
	}
}

// circleRail is a circle about Z at a height, run counter-clockwise from X.
func circleRail(r, z float64) Rail {
	edge := curve.Chain(plane.Pt(r, 0), math.Pi/2, curve.Piece{Length: 2 * math.Pi * r, Kappa: 1 / r})
	return Across(edge, false, z)
}
