package coupon

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// K. E. Bisshopp, D. C. Drucker, Large deflection of cantilever beams, Quart. Appl.
// Math. 3 (1945); digits by mpmath in testdata/reference/numeric.txt: P L^2/EI, slope at
// the tip, drop/L, 1 - reach/L.
func TestBisshoppDrucker(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", "numeric.txt"))
	require.NoError(t, err)
	defer f.Close()
	lines, inside, n := bufio.NewScanner(f), false, 0
	for lines.Scan() {
		if strings.HasPrefix(lines.Text(), "CANTILEVER") {
			inside = true
			continue
		}
		var alpha, slope, drop, short float64
		if !inside {
			continue
		}
		if k, _ := fmt.Sscan(lines.Text(), &alpha, &slope, &drop, &short); k != 4 {
			break
		}
		n++
		s := Tongue{Length: 100}.Bend(100*100/alpha, 1)
		assert.InDelta(t, slope, s.Slope, 6e-8, "alpha %g", alpha)
		assert.InDelta(t, drop, s.Drop/100, 6e-9, "alpha %g", alpha)
		assert.InDelta(t, short, 1-s.Reach/100, 6e-9, "alpha %g", alpha)
	}
	assert.Equal(t, 12, n)
}

// Small drops: the beam tables, P L^3/3EI and q L^4/8EI (Roark's Formulas for Stress and
// Strain, table of cantilevers).
func TestSmallDropIsTheBeamTable(t *testing.T) {
	const ei, l = 1e6, 80.0
	assert.InEpsilon(t, .01*l*l*l/(3*ei), Tongue{Length: l}.Bend(ei, .01).Drop, 1e-5)
	assert.InEpsilon(t, 1e-4*l*l*l*l/(8*ei), Tongue{Length: l, Weight: 1e-4}.Bend(ei, 0).Drop, 1e-5)
	assert.InEpsilon(t, 1e-4*l*l*l/(6*ei), Tongue{Length: l, Weight: 1e-4}.Bend(ei, 0).Slope, 1e-5)
	assert.Equal(t, Shape{Reach: l}, Tongue{Length: l}.Bend(ei, 0))
}

// The same strip by a dumber method: a chain of n rigid links with springs between, in
// balance by repeated substitution; its error falls as 1/n^2.
func chainDrop(tg Tongue, ei, load float64, n int) float64 {
	h := tg.Length / float64(n)
	theta := make([]float64, n) // of link i, from the clamp
	for range 4000 {
		change := 0.0
		// Moments about the spring before link i by what hangs beyond.
		m, force := 0.0, load
		moments := make([]float64, n)
		for i := n - 1; i >= 0; i-- {
			c := math.Cos(theta[i])
			m += force*h*c + tg.Weight*h*h*c/2
			force += tg.Weight * h
			moments[i] = m
		}
		at := 0.0
		for i := range theta {
			spring := h / ei
			if i == 0 {
				spring /= 2 // half a link is bedded in the clamp
			}
			at += moments[i] * spring
			change = max(change, math.Abs(at-theta[i]))
			theta[i] += .3 * (at - theta[i])
		}
		if change < 1e-13 {
			break
		}
	}
	y := 0.0
	for i := range theta {
		y += h * math.Sin(theta[i])
	}
	return y
}

func TestOwnWeightAgainstAChainOfLinks(t *testing.T) {
	for _, c := range []struct{ ei, load, weight float64 }{
		{3000, .1, 4.4e-4}, {3000, .3, 4.4e-4}, {800, 0, 8e-4}, {50000, 3, 4e-4},
	} {
		tg := Tongue{Length: 110, Weight: c.weight}
		a, b := chainDrop(tg, c.ei, c.load, 200), chainDrop(tg, c.ei, c.load, 400)
		want := b + (b-a)/3 // Richardson
		assert.InEpsilon(t, want, tg.Bend(c.ei, c.load).Drop, 2e-5, "%+v", c)
	}
}

// Three times as many steps agree as the doc comment promises.
func TestShotConverges(t *testing.T) {
	for _, c := range []struct{ alpha, beta, bound float64 }{
		{.1, 0, 1e-12}, {2, 1, 1e-11}, {10, 10, 1e-10}, {0, 20, 1e-10}, {100, 100, 1e-8}, {390, 0, 1e-7}, {0, 390, 1e-7},
	} {
		s := newShot(c.alpha, c.beta)
		fine := shot{c.alpha, c.beta, 3 * s.steps}
		a, b := Tongue{Length: 1, Weight: c.beta}.Bend(1, c.alpha), bendBy(fine)
		assert.InDelta(t, b.Drop, a.Drop, c.bound, "%+v", c)
		assert.InDelta(t, b.Reach, a.Reach, c.bound, "%+v", c)
	}
}

func bendBy(s shot) Shape {
	lo, hi := 0.0, math.Pi/2
	for range 60 {
		m := (lo + hi) / 2
		if s.fire(m).theta < 0 {
			lo = m
		} else {
			hi = m
		}
	}
	e := s.fire(hi)
	return Shape{Drop: e.y, Reach: e.x, Slope: hi}
}

func TestStiffnessRoundTrip(t *testing.T) {
	for _, weight := range []float64{0, 2e-4, 1e-3} {
		tg := Tongue{Length: 110, Weight: weight}
		for _, ei := range []float64{300, 3e3, 3e4, 3e5} {
			for _, load := range []float64{0, .02, .1, .3, 3} {
				if load+weight == 0 {
					continue
				}
				drop := tg.Bend(ei, load).Drop
				got, ok := tg.Stiffness(load, drop)
				require.True(t, ok, "EI %g load %g weight %g", ei, load, weight)
				slack := 1e-10 + 1e-11*tg.ReadingGain(ei, load)
				assert.InEpsilon(t, ei, got, slack, "EI %g load %g weight %g drop %g", ei, load, weight, drop)
			}
		}
	}
}

func TestLoadForADrop(t *testing.T) {
	tg := Tongue{Length: 110, Weight: 4e-4}
	for _, drop := range []float64{12, 16, 44, 80} {
		load, ok := tg.Load(3000, drop)
		require.True(t, ok)
		assert.InDelta(t, drop, tg.Bend(3000, load).Drop, 1e-8)
	}
	_, ok := tg.Load(3000, 1)
	assert.False(t, ok, "its own weight takes it lower")
	_, ok = tg.Load(3000, 109)
	assert.False(t, ok)
}

func TestStiffnessNonsense(t *testing.T) {
	tg := Tongue{Length: 100}
	for _, c := range [][2]float64{{1, 0}, {1, -3}, {1, 100}, {1, 101}, {0, 10}, {1, math.NaN()}} {
		_, ok := tg.Stiffness(c[0], c[1])
		assert.False(t, ok, c)
	}
	assert.Panics(t, func() { tg.Bend(0, 1) })
	assert.Panics(t, func() { tg.Bend(1, -1) })
	assert.Panics(t, func() { Tongue{}.Bend(1, 1) })
	s := tg.Bend(1, 1e3)
	assert.Greater(t, s.Drop, 95.0, "a limp strip hangs straight down")
	assert.Less(t, s.Drop, 100.0)
	before, after := tg.Bend(100*100/399.999, 1), tg.Bend(100*100/400.001, 1)
	assert.InDelta(t, before.Drop, after.Drop, .01*(100-before.Drop), "the two ways meet")
	assert.InDelta(t, before.Reach, after.Reach, .01*before.Reach)
}

func TestDropGrowsWithLoadAndShrinksWithStiffness(t *testing.T) {
	tg := Tongue{Length: 90, Weight: 3e-4}
	last := -1.0
	for load := 0.0; load < 5; load += .05 {
		d := tg.Bend(4000, load).Drop
		assert.Greater(t, d, last)
		last = d
	}
	last = math.Inf(1)
	for ei := 200.0; ei < 1e6; ei *= 1.3 {
		d := tg.Bend(ei, .2).Drop
		assert.Less(t, d, last)
		last = d
	}
}

func BenchmarkBend(b *testing.B) {
	for range b.N {
		Tongue{Length: 110, Weight: 4e-4}.Bend(3000, .2)
	}
}

func BenchmarkStiffness(b *testing.B) {
	for range b.N {
		Tongue{Length: 110, Weight: 4e-4}.Stiffness(.2, 30)
	}
}
