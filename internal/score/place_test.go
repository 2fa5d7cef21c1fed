package score

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// There and back is the same place, both ways rise, and the flats' own places are met.
func TestPlaces(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	for n := range 80 {
		task := randomTask(r)
		if n%4 == 0 {
			task.Edge = swing(1 + 3*r.Float64())
		}
		l := Lay(task)
		p := l.Places(task.Edge)
		last := math.Inf(-1)
		for i := range 400 {
			s := task.Edge.Length() * (float64(i)/398 - 0.001)
			u := p.U(s)
			require.Greater(t, u, last)
			last = u
			require.InDelta(t, s, p.S(u), 1e-8)
			// At steps by up to D theta at a fold.
			if s > 0 && s < task.Edge.Length() {
				require.InDelta(t, l.At(task.Edge, s), u, 0.01+task.Limits.Cases[0].Law.Score().Thickness*0.15)
			}
		}
		for _, f := range l.Flats {
			require.InDelta(t, f.U, p.U(f.S), 0.2, "a corner of a cradle belongs to two flats")
		}
	}
}

// On an arc the map is linear, with slope 1 + k D.
func TestPlacesOfAnArc(t *testing.T) {
	task := arch(60)
	l := Lay(task)
	p := l.Places(task.Edge)
	assert.InDelta(t, 3, p.U(3), 1e-12)
	assert.InDelta(t, -2, p.U(-2), 1e-12)
	end := task.Edge.Length()
	assert.InDelta(t, l.Length+5, p.U(end+5), 1e-9)
	slope := (p.U(end-6) - p.U(6)) / (end - 12)
	assert.InDelta(t, 1+l.Folds[0].D/60, slope, 1e-3)
	for s := 6.0; s < end-6; s += 7 {
		assert.InDelta(t, p.U(6)+slope*(s-6), p.U(s), 1e-9)
	}
	assert.InDeltaSlice(t, []float64{0, 6, l.Length - 6, l.Length}, p.Knots(), 1e-9)
}
