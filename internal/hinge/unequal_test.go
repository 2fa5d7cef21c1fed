package hinge

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// unequal returns how the scores of one strip share its turning under one moment: the
// shares of their own rotation add up to 1.
func unequal(laws []Law, gaps []float64) []float64 {
	shares, sum := Unequal(laws, gaps), 0.0
	for _, s := range shares {
		sum += s
	}
	for i := range shares {
		shares[i] /= sum
	}
	return shares
}

// unequalStrip is one strip of testdata/reference/unequal-depth-fe.csv, lengths over t.
type unequalStrip struct {
	name   string
	laws   []Law
	gaps   []float64
	shares []float64 // of the sum
	strain []float64 // per moment over E' t^2
	theta  []float64
	u      float64
}

func unequalStrips(t testing.TB) []unequalStrip {
	var out []unequalStrip
	for _, row := range readTable(t, "unequal-depth-fe.csv") {
		n := func(i int) float64 { return number(t, row[i]) }
		if len(out) == 0 || out[len(out)-1].name != row[0]+" "+row[1]+" "+row[2]+" %" {
			out = append(out, unequalStrip{name: row[0] + " " + row[1] + " " + row[2] + " %"})
		}
		s := &out[len(out)-1]
		m := Material{E: 1000, NuXY: 0.3, NuXZ: 0.3, EZ: 1000 * n(4), GXZ: 1000 * n(5)}
		bottom := map[string]Bottom{"round": Round, "flat": Flat}[row[3]]
		skin := n(10)
		s.laws = append(s.laws, New(m, Score{Thickness: 1, Depth: 1 - skin, Width: n(7), Bottom: bottom}))
		if len(s.laws) > 1 {
			s.gaps = append(s.gaps, n(8))
		}
		s.theta = append(s.theta, n(11))
		s.strain = append(s.strain, n(13))
		l := s.laws[0]
		s.u = n(8) / ((1 - n(6)) * l.lam * math.Sqrt((1+l.rho)/2))
	}
	for i := range out {
		sum := 0.0
		for _, th := range out[i].theta {
			sum += th
		}
		for _, th := range out[i].theta {
			out[i].shares = append(out[i].shares, th/sum)
		}
	}
	require.Greater(t, len(out), 35)
	return out
}

// The softest score decides: it folds most. Finite elements, 42 strips that nothing was
// fitted to.
func TestUnequalSkinsShareAsFiniteElementsSay(t *testing.T) {
	tested := 0
	for _, s := range unequalStrips(t) {
		got := unequal(s.laws, s.gaps)
		soft, worst := 0, 0.0
		for i := range got {
			if s.laws[i].Skin() < s.laws[soft].Skin() {
				soft = i
			}
			worst = math.Max(worst, math.Abs(got[i]/s.shares[i]-1))
		}
		off := got[soft]/s.shares[soft] - 1
		t.Logf("u %.2f %-28s softest %+.2f %%, worst of any %.2f %%", s.u, s.name, 100*off, 100*worst)
		switch {
		case s.u >= 1.6:
			tested++
			assert.InDelta(t, 0, off, 0.02, s.name)
			assert.Less(t, worst, 0.02, s.name)
		case s.u >= 0.8:
			tested++
			assert.InDelta(t, 0, off, 0.02, s.name)
			assert.Less(t, worst, 0.06, s.name)
		default:
			assert.InDelta(t, 0, off, 0.06, s.name)
		}
	}
	assert.Greater(t, tested, 35)
}

func TestUnequalOfEqualScores(t *testing.T) {
	l := New(Material{E: 3000, NuXY: 0.3, NuXZ: 0.3, EZ: 300, GXZ: 180}, Score{Thickness: 3, Depth: 2.2, Width: 0.2})
	got := unequal([]Law{l, l, l, l}, []float64{2, 2, 2})
	inner, end := l.Fold(1, 2, 2, true), l.Fold(1, math.Inf(1), 2, true)
	assert.InEpsilon(t, end.HingeLength/inner.HingeLength, got[0]/got[1], 1e-12)
	assert.InEpsilon(t, got[0], got[3], 1e-12)
	assert.InDelta(t, 1, got[0]+got[1]+got[2]+got[3], 1e-12)
	assert.Equal(t, []float64{1}, unequal([]Law{l}, nil))
}
