package score

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/curve"
	"springrib/internal/plane"
)

// The table gives what the exact root gives, for any limits and either way to bend: to
// 2e-4, and nearly always to 1e-5.
func TestTableAgainstTheRoot(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	seen := map[Bound]int{}
	rough := 0
	for range 60 {
		lim := randomTask(r).Limits
		lim.Fold = []float64{0, 0.017, 0.05}[r.IntN(3)]
		bad := lim.Cases[0]
		bad.Strain, bad.Closing = bad.Strain*1.2, 1
		lim.Cases = append(lim.Cases, bad)
		sd := side{r.IntN(2) == 0, r.IntN(2) == 0}
		most := math.Pow(10, -1-2*r.Float64())
		table := lim.newTable(sd, most, new(Laws))
		for range 50 {
			k := most * math.Pow(10, -3*r.Float64())
			want, got := lim.at(k, sd), table.at(k)
			require.Equal(t, want.Reached, got.Reached, "k %v: %+v %+v", k, want, got)
			require.InEpsilon(t, want.Pitch, got.Pitch, 2e-4)
			if math.Abs(got.Pitch/want.Pitch-1) > 1e-5 {
				rough++
			}
			require.InDelta(t, want.D, got.D, 2e-4*lim.Cases[0].Law.Score().Thickness)
			if want.Reached {
				seen[got.Bound]++
			}
		}
	}
	assert.Less(t, rough, 5)
	for _, b := range []Bound{ByStrain, ByClosing, ByStandOff, ByFold, ByLaw} {
		assert.Greater(t, seen[b], 20, b)
	}
}

func TestSharpestInvertsAt(t *testing.T) {
	r := rand.New(rand.NewPCG(43, 44))
	for range 200 {
		lim := randomTask(r).Limits
		sd := side{r.IntN(2) == 0, r.IntN(2) == 0}
		p := lim.Cases[0].Law.Score().Width + lim.Land + 10*r.Float64()
		k := math.Inf(1)
		for _, s := range lim.sharpest(sd) {
			c := s.law.At(p)
			k = math.Min(k, s.most(&c, sd.standIn(lim.Cases[0].Law, p)))
		}
		if sp := lim.at(k, sd); sp.Bound != ByLaw && sp.Reached {
			assert.InEpsilon(t, p, sp.Pitch, 1e-6, "%+v", sp)
		}
	}
}

// A cubic through few knots of a monotone function is monotone, and exact on a line.
func TestMonotoneSlopes(t *testing.T) {
	x := []float64{0, 1, 1.5, 4, 4.2, 9}
	for _, y := range [][]float64{{0, 0, 0, 1, 5, 5}, {9, 4, 3.9, 3.8, -7, -7.1}} {
		f := newMonotone(x, y)
		for i := 1; i < len(x); i++ {
			last := y[i-1]
			for g := 0.0; g <= 1; g += 0.01 {
				v := f.at(x[i-1] + g*(x[i]-x[i-1]))
				if x := x[i-1] + g*(x[i]-x[i-1]); g > 0 && g < 0.99 {
					require.InDelta(t, (f.at(x+1e-6)-f.at(x-1e-6))/2e-6, f.slope(x), 1e-4)
				}
				require.GreaterOrEqual(t, (v-last)*(y[len(y)-1]-y[0]), -1e-12)
				last = v
			}
		}
	}
	line := []float64{1, 3, 4, 9, 9.4, 19}
	assert.InDelta(t, 3+2*0.25, newMonotone(x, line).at(1.25), 1e-12)
}

// swing is an edge whose curvature varies all along: an S through points.
func swing(scale float64) curve.Curve {
	var pts []plane.Point
	for _, p := range [][2]float64{{0, 0}, {60, 25}, {140, 40}, {230, 10}, {300, -15}, {380, 5}} {
		pts = append(pts, plane.Pt(p[0]*scale, p[1]*scale))
	}
	c, err := curve.Through(pts...)
	if err != nil {
		panic(err)
	}
	return c
}

func BenchmarkLayVarying(b *testing.B) {
	for _, scale := range []float64{1, 10, 100} {
		task := arch(90)
		task.Edge = swing(scale)
		task.Limits.Fold = 0.02 / scale
		b.Run("", func(b *testing.B) {
			n := 0
			for b.Loop() {
				n = len(Lay(task).Folds)
			}
			b.ReportMetric(float64(n), "scores")
		})
	}
}
