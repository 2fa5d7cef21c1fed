package plane

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAffineMovesPoints(t *testing.T) {
	for _, c := range []struct {
		name string
		m    Affine
		p, q Point
	}{
		{"identity", Identity(), Pt(3, 4), Pt(3, 4)},
		{"translate", Translate(1, -2), Pt(3, 4), Pt(4, 2)},
		{"quarter turn", Rotate(math.Pi / 2), Pt(3, 4), Pt(-4, 3)},
		{"turn about", RotateAbout(Pt(1, 1), math.Pi), Pt(3, 4), Pt(-1, -2)},
		{"scale", Scale(2, 3), Pt(3, 4), Pt(6, 12)},
		{"mirror in y = x", mirror(Pt(0, 0), Pt(2, 2)), Pt(3, 4), Pt(4, 3)},
		{"mirror in x = 5", mirror(Pt(5, -1), Pt(5, 7)), Pt(3, 4), Pt(7, 4)},
		{"first turn, then shift", Translate(10, 0).Mul(Rotate(math.Pi / 2)), Pt(1, 0), Pt(10, 1)},
	} {
		assert.InDelta(t, 0, c.m.Apply(c.p).Dist(c.q), 1e-12, c.name)
	}
}

func TestAffineGroup(t *testing.T) {
	rng := rand.New(rand.NewSource(20))
	for range 100 {
		var m, n Affine
		for i := range m {
			m[i], n[i] = rng.NormFloat64(), rng.NormFloat64()
		}
		p := Pt(rng.NormFloat64(), rng.NormFloat64())
		assert.InDelta(t, 0, m.Mul(n).Apply(p).Dist(m.Apply(n.Apply(p))), 1e-12)
		assert.InDelta(t, m.Det()*n.Det(), m.Mul(n).Det(), 1e-9)
		inv, ok := m.Inverse()
		if assert.True(t, ok) && math.Abs(m.Det()) > 1e-3 {
			assert.InDelta(t, 0, inv.Apply(m.Apply(p)).Dist(p), 1e-9)
		}
		a, b := Pt(1, 2), Pt(rng.NormFloat64(), 5)
		mir := mirror(a, b)
		assert.InDelta(t, -1, mir.Det(), 1e-12)
		assert.InDelta(t, 0, mir.Apply(mir.Apply(p)).Dist(p), 1e-12, "twice is nothing")
		assert.InDelta(t, 0, mir.Apply(a.Lerp(b, 0.3)).Dist(a.Lerp(b, 0.3)), 1e-12, "its line stays")
		assert.InDelta(t, 0, m.ApplyVector(p).Dist(m.Apply(p).Sub(m.Apply(Point{}))), 1e-12)
	}
	assert.True(t, Rotate(1).Mul(Scale(-2, 2)).similar())
	assert.False(t, Scale(1, 1.001).similar())
	assert.False(t, Affine{1, 0, 0.5, 1, 0, 0}.similar())
}

func TestPointArithmetic(t *testing.T) {
	p, q := Pt(3, 4), Pt(-1, 2)
	assert.Equal(t, 5.0, p.Len())
	assert.Equal(t, 5.0, p.Dot(q))
	assert.Equal(t, 10.0, p.Cross(q))
	assert.Equal(t, Pt(-4, 3), p.Left())
	assert.Equal(t, Pt(1, 3), p.Lerp(q, 0.5))
	assert.Equal(t, Point{}, Point{}.Unit())
	assert.InDelta(t, 1, Pt(1e-200, 0).Unit().X, 1e-12)
	assert.Positive(t, Pt(1, 0).Cross(Pt(1, 0).Left()), "left is left")
}
