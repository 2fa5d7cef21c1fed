package skin

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/curve"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

func rail(c curve.Curve, z float64) Rail {
	return Rail{c, surface.Vec{Z: z}, surface.Vec{X: 1}, surface.Vec{Y: 1}}
}

// row is a row of arcs and straights that turns so far in all, by its own radii and lengths.
func row(r *rand.Rand, at plane.Point, heading, turn float64) curve.Curve {
	n := 1 + r.IntN(4)
	var shares []float64
	sum := 0.0
	for range n {
		shares = append(shares, 0.2+r.Float64())
		sum += shares[len(shares)-1]
	}
	var ps []curve.Piece
	for _, s := range shares {
		if r.IntN(2) == 0 {
			ps = append(ps, curve.Piece{Length: 5 + 60*r.Float64()})
		}
		radius := 20 + 200*r.Float64()
		ps = append(ps, curve.Piece{Length: radius * turn * s / sum, Kappa: -1 / radius})
	}
	if r.IntN(2) == 0 {
		ps = append(ps, curve.Piece{Length: 5 + 60*r.Float64()})
	}
	return curve.Chain(at, heading, ps...)
}

// Along each ruling one plane touches both rails, whatever their shape; the rulings run forward along
// both, from their starts to their ends. det(A', B', B-A) is the volume of what would be a twist.
func TestOnePlaneTouchesBothRails(t *testing.T) {
	r := rand.New(rand.NewPCG(171, 1))
	for n := range 300 {
		var a, b curve.Curve
		switch n % 3 {
		case 0:
			turn := 0.2 + 3*r.Float64()
			heading := 6 * r.Float64()
			a, b = row(r, plane.Pt(0, 0), heading, turn), row(r, plane.Pt(100*r.Float64(), 50*r.Float64()), heading, turn)
		case 1:
			w, h := 60+200*r.Float64(), 60+200*r.Float64()
			a = curve.Chain(plane.Pt(10, 20), math.Pi, curve.RoundedBox(w, h, 10+20*r.Float64(), false)...)
			b = curve.Ellipse(20+80*r.Float64(), 20+80*r.Float64(), false)
		default:
			a, b = curve.Ellipse(20+80*r.Float64(), 20+80*r.Float64(), false), curve.Ellipse(20+80*r.Float64(), 20+80*r.Float64(), false)
		}
		high := 20 + 300*r.Float64()
		s, no := Parallel(rail(a, 0), rail(b, high), true)
		require.Nil(t, no, "pair %d", n)
		assert.Equal(t, Ruling{0, 0, s.At(0).N}, s.At(0))
		last := s.At(s.Length())
		assert.InDelta(t, a.Length(), last.A, 1e-9)
		assert.InDelta(t, b.Length(), last.B, 1e-9)
		was := Ruling{}
		for i := range 201 {
			now := s.At(s.Length() * float64(i) / 200)
			require.GreaterOrEqual(t, now.A, was.A-1e-9)
			require.GreaterOrEqual(t, now.B, was.B-1e-9)
			was = now
			e := s.B.At(now.B).Sub(s.A.At(now.A)).Unit()
			assert.InDelta(t, 1, now.N.Len(), 1e-12)
			assert.InDelta(t, 0, now.N.Dot(e), 1e-12)
			ta, tb := a.At(now.A).Tangent(), b.At(now.B).Tangent()
			assert.InDelta(t, 0, surface.Vec{X: ta.X, Y: ta.Y}.Dot(now.N), 1e-9, "pair %d at %d", n, i)
			assert.InDelta(t, 0, surface.Vec{X: tb.X, Y: tb.Y}.Dot(now.N), 1e-9, "pair %d at %d", n, i)
			left := a.At(now.A).Tangent().Left()
			assert.Positive(t, now.N.Dot(surface.Vec{X: left.X, Y: left.Y}))
		}
	}
}

// A section scaled about a line is a cone: all rulings meet in its point. Moved, it is a cylinder.
func TestScaledIsAConeAndMovedACylinder(t *testing.T) {
	r := rand.New(rand.NewPCG(172, 1))
	for range 50 {
		k, high := 0.2+0.7*r.Float64(), 100.0
		seed := r.Uint64()
		turn := 0.5 + 2*r.Float64()
		a := row(rand.New(rand.NewPCG(seed, 1)), plane.Pt(0, 0), 1, turn)
		var ps []curve.Piece
		for _, st := range a.Stretches() {
			ps = append(ps, curve.Piece{Length: k * (st.End - st.Start), Kappa: a.Kappa((st.Start+st.End)/2) / k})
		}
		s, no := Parallel(rail(a, 0), rail(curve.Chain(plane.Pt(0, 0), 1, ps...), high), true)
		require.Nil(t, no)
		apex := surface.Vec{Z: high / (1 - k)}
		m, no := Parallel(rail(a, 0), rail(row(rand.New(rand.NewPCG(seed, 1)), plane.Pt(30, 40), 1, turn), high), true)
		require.Nil(t, no)
		for i := range 50 {
			q := s.Touch(s.Length() * float64(i) / 49)
			e := q.B.Sub(q.A).Unit()
			assert.InDelta(t, 0, apex.Sub(q.A).Cross(e).Len(), 1e-8)
			q = m.Touch(m.Length() * float64(i) / 49)
			assert.InDelta(t, 0, q.B.Sub(q.A).Sub(surface.Vec{X: 30, Y: 40, Z: high}).Len(), 1e-8)
		}
	}
}

// Rails that turn by another angle, or head another way, or turn back where the other goes on, have no
// skin without a twist.
func TestUnlikeRailsAreRefused(t *testing.T) {
	arc := func(heading, turn float64) curve.Curve {
		return curve.Chain(plane.Pt(0, 0), heading, curve.Piece{Length: 100 * math.Abs(turn), Kappa: math.Copysign(0.01, turn)})
	}
	back := curve.Chain(plane.Pt(0, 0), 1, curve.Piece{Length: 150, Kappa: -0.01}, curve.Piece{Length: 50, Kappa: 0.01})
	for name, b := range map[string]curve.Curve{"less": arc(1, -0.9), "more": arc(1, -1.1), "otherwise": arc(1.01, -1), "the other way": arc(1, 1), "back": back} {
		_, no := Parallel(rail(arc(1, -1), 0), rail(b, 50), true)
		assert.NotNil(t, no, name)
	}
	_, no := Parallel(rail(back, 0), rail(back, 50), true)
	assert.Nil(t, no, "both turn back alike")
}
