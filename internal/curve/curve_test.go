package curve

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// randomChain is a chain of one to six pieces that never turn tighter than 20 mm.
func randomChain(r *rand.Rand) []Piece {
	var ps []Piece
	for range 1 + r.IntN(6) {
		p := Piece{Length: 5 + 100*r.Float64()}
		if r.IntN(4) > 0 {
			p.Kappa = (r.Float64()*2 - 1) / 20
		}
		ps = append(ps, p)
	}
	return ps
}

func TestArcByHand(t *testing.T) {
	c := Chain(plane.Pt(0, 0), 0, Piece{50 * math.Pi, 1.0 / 50}) // half circle to the left
	end := c.At(c.Length())
	assert.InDelta(t, 0, end.P.X, 1e-12)
	assert.InDelta(t, 100, end.P.Y, 1e-12)
	assert.InDelta(t, math.Pi, end.Phi, 1e-12)
	assert.InDelta(t, 50, c.At(25*math.Pi).P.X, 1e-12)
}

func TestNearlyStraightArcKeepsItsDigits(t *testing.T) {
	for _, k := range []float64{1e-3, 1e-5, 1e-7, 1e-9, 1e-12} {
		p := Chain(plane.Point{}, 0, Piece{100, k}).At(100).P
		// series of sin(ks)/k and (1-cos(ks))/k
		ks := 100 * k
		assert.InDelta(t, 100*(1-ks*ks/6+ks*ks*ks*ks/120-ks*ks*ks*ks*ks*ks/5040), p.X, 1e-11)
		assert.InDelta(t, 100*(ks/2-ks*ks*ks/24+ks*ks*ks*ks*ks/720), p.Y, 1e-8*ks+1e-15)
	}
}

// Span 200 and rise 40: R = 200^2/(8*40) + 40/2 = 145 (intersecting chords theorem,
// any geometry text).
func TestSpanRise(t *testing.T) {
	span := func(a Arc) float64 { return 2 * a.Radius * math.Sin(a.Angle/2) }
	rise := func(a Arc) float64 { return a.Radius * (1 - math.Cos(a.Angle/2)) }
	a := FromSpanRise(200, 40)
	assert.InDelta(t, 145, a.Radius, 1e-12)
	assert.InDelta(t, 200, span(a), 1e-10)
	assert.InDelta(t, 40, rise(a), 1e-10)
	deep := FromSpanRise(100, 80) // more than a half circle
	assert.Greater(t, deep.Angle, math.Pi)
	assert.InDelta(t, 100, span(deep), 1e-10)
	assert.InDelta(t, 80, rise(deep), 1e-10)
}

func TestChainIsContinuous(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		c := Chain(plane.Pt(3, 4), 1, randomChain(r)...)
		require.Empty(t, c.Kinks(1e-9))
		for _, st := range c.Stretches() {
			a, b := c.At(st.End-1e-7), c.At(st.End+1e-7)
			assert.InDelta(t, 2e-7, a.P.Dist(b.P), 1e-9)
			assert.InDelta(t, a.Phi, b.Phi, 1e-7)
		}
		// The curvature is the derivative of the heading, the tangent that of the place.
		s := c.Length() * r.Float64()
		at := c.At(s)
		const h = 1e-4
		if st := c.stretchAt(s); s-st.Start > 2*h && st.End-s > 2*h {
			assert.InDelta(t, at.Kappa, (c.At(s+h).Phi-c.At(s-h).Phi)/(2*h), 1e-8)
			d := c.At(s + h).P.Sub(c.At(s - h).P).Mul(1 / (2 * h))
			assert.InDelta(t, 0, d.Dist(at.Tangent()), 1e-7)
		}
	}
}

// Steiner's formula for open curves: a parallel at distance d to the left is shorter
// by d times the total turning.
func TestParallelLength(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		c := Chain(plane.Point{}, 0.3, randomChain(r)...)
		d := (r.Float64()*2 - 1) * 15
		p, err := c.Parallel(d)
		require.NoError(t, err)
		assert.InDelta(t, c.Length()-d*c.Turning(), p.Length(), 1e-9)
		back, err := p.Parallel(-d)
		require.NoError(t, err)
		assert.InDelta(t, 0, back.At(back.Length()).P.Dist(c.At(c.Length()).P), 1e-9)
		// Every point of it is d from the curve.
		s := p.Length() * r.Float64()
		q := p.At(s).P
		n := c.Nearest(q, s/p.Length()*c.Length())
		assert.InDelta(t, math.Abs(d), q.Dist(c.At(n).P), 1e-6)
	}
}

func TestParallelPastTheCentre(t *testing.T) {
	c := Chain(plane.Point{}, 0, Piece{20, 0}, Piece{30, 1.0 / 12})
	_, err := c.Parallel(12)
	var tight *ErrTooTight
	require.True(t, errors.As(err, &tight))
	assert.InDelta(t, 12, tight.Radius, 1e-9)
	assert.InDelta(t, 20, tight.At, 1e-9)
	_, err = c.Parallel(-12)
	assert.NoError(t, err, "the outside has room")
}

func TestMirrorAndScale(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 100 {
		ps := randomChain(r)
		var mirrored, scaled []Piece
		for _, p := range ps {
			mirrored = append(mirrored, Piece{p.Length, -p.Kappa})
			scaled = append(scaled, Piece{p.Length * 3, p.Kappa / 3})
		}
		c := Chain(plane.Point{}, 0, ps...)
		m := Chain(plane.Point{}, 0, mirrored...)
		k := Chain(plane.Point{}, 0, scaled...)
		s := c.Length() * r.Float64()
		p := c.At(s).P
		assert.InDelta(t, 0, plane.Pt(p.X, -p.Y).Dist(m.At(s).P), 1e-10)
		assert.InDelta(t, 0, p.Mul(3).Dist(k.At(3*s).P), 1e-9)
	}
}

func TestLevelEndsOnOneHeight(t *testing.T) {
	c := Level(Piece{6, 0}, Piece{140, -1.0 / 90}, Piece{6, 0})
	end := c.At(c.Length()).P
	assert.InDelta(t, 0, end.Y, 1e-9)
	assert.Greater(t, end.X, 0.0)
	assert.Greater(t, c.At(c.Length()/2).P.Y, 0.0, "a curve that turns right rises first")
}

func TestCrossing(t *testing.T) {
	_, ok := Chain(plane.Point{}, 0, Piece{200, -1.0 / 90}).Crossing()
	assert.False(t, ok)
	_, ok = Chain(plane.Point{}, 0, Piece{50, 0}, Piece{5.5 * 20, 1.0 / 20}, Piece{80, 0}).Crossing()
	assert.True(t, ok, "a loop")
	c, ok := Chain(plane.Point{}, 0, Piece{60, 0}, Piece{1.5 * math.Pi * 20, 1.0 / 20}, Piece{60, 0}).Crossing()
	require.True(t, ok)
	assert.InDelta(t, 0, Chain(plane.Point{}, 0, Piece{60, 0}).At(c.S1).P.Dist(
		Chain(plane.Point{}, 0, Piece{60, 0}, Piece{1.5 * math.Pi * 20, 1.0 / 20}, Piece{60, 0}).At(c.S2).P), 0.02)
}

func TestKinks(t *testing.T) {
	a := Chain(plane.Point{}, 0, Piece{10, 0}).stretches[0].Shape
	b := Chain(plane.Pt(10, 0), 0.2, Piece{10, 0}).stretches[0].Shape
	k := Join(a, b).Kinks(1e-3)
	require.Len(t, k, 1)
	assert.InDelta(t, 10, k[0].S, 1e-12)
	assert.InDelta(t, 0.2, k[0].Angle, 1e-12)
}

func TestSegmentsFollowTheCurve(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 100 {
		c := Chain(plane.Pt(1, 2), 0.5, randomChain(r)...)
		s0, s1 := -5.0, c.Length()*(0.5+0.5*r.Float64())
		segs, ok := c.Segments(s0, s1)
		require.True(t, ok)
		p := plane.Path{Segs: segs}
		assert.InDelta(t, s1-s0, p.Length(), 1e-7)
		at, tan := p.At((s1 - s0) * 0.37)
		want := c.At(s0 + (s1-s0)*0.37)
		assert.InDelta(t, 0, at.Dist(want.P), 1e-6)
		assert.InDelta(t, 0, tan.Dist(want.Tangent()), 1e-6)
	}
}

func TestSegmentsOfAnArcAreOnePiece(t *testing.T) {
	segs, ok := Chain(plane.Point{}, 0, Piece{6, 0}, Piece{100, 0.01}, Piece{6, 0}).Segments(0, 112)
	require.True(t, ok)
	assert.Len(t, segs, 3)
}

func TestNonsensePiecesPanic(t *testing.T) {
	assert.Panics(t, func() { Chain(plane.Point{}, 0, Piece{-1, 0}) })
	assert.Panics(t, func() { Chain(plane.Point{}, 0, Piece{1, math.NaN()}) })
	assert.Panics(t, func() { Chain(plane.Point{}, 0, Piece{math.Inf(1), 0}) })
}

// Found by runs of chords, a crossing is the same that every pair of chords tells.
func TestCrossingIsThatOfAllPairs(t *testing.T) {
	r := rand.New(rand.NewPCG(91, 92))
	found := 0
	for range 300 {
		var pieces []Piece
		for range 3 + r.IntN(9) {
			pieces = append(pieces, Piece{10 + 60*r.Float64(), (r.Float64() - 0.15) / 20})
		}
		c := Chain(plane.Point{}, 0, pieces...)
		got, ok := c.Crossing()
		want, crosses := allPairs(c)
		assert.Equal(t, crosses, ok)
		assert.Equal(t, want, got)
		if ok {
			found++
		}
	}
	assert.Greater(t, found, 50)
	assert.Less(t, found, 290)
}

func allPairs(c Curve) (Crossing, bool) {
	s := c.Samples(3 * math.Pi / 180)
	if c.totalTurning() < math.Pi {
		return Crossing{}, false
	}
	for i := 0; i+1 < len(s); i++ {
		for j := i + 2; j+1 < len(s); j++ {
			f, g, ok := meet(c.At(s[i]).P, c.At(s[i+1]).P, c.At(s[j]).P, c.At(s[j+1]).P)
			if ok {
				return Crossing{s[i] + f*(s[i+1]-s[i]), s[j] + g*(s[j+1]-s[j])}, true
			}
		}
	}
	return Crossing{}, false
}

// BenchmarkCrossing looks at a slender oval, of 9000 chords.
func BenchmarkCrossing(b *testing.B) {
	c := Ellipse(150, 14, false)
	for b.Loop() {
		c.Crossing()
	}
}

// The foot of a point is where the curve comes nearest to it, and the height over it is
// that distance: against the nearest of many places all along.
func TestFootIsTheNearestPlace(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 31))
	through, err := Through(plane.Pt(0, 0), plane.Pt(70, 22), plane.Pt(130, -14), plane.Pt(220, 30))
	require.NoError(t, err)
	curves := []Curve{
		Level(Piece{20, 0}, Piece{120, 1.0 / 90}, Piece{60, -1.0 / 150}, Piece{15, 0}),
		Chain(plane.Pt(3, 4), 0.3, Piece{300, 1.0 / 50}), // nearly round
		Chain(plane.Pt(0, 0), 0, RoundedBox(200, 140, 30, true)...),
		through,
	}
	for _, c := range curves {
		for range 300 {
			s := c.Length() * r.Float64()
			at := c.At(s)
			k := math.Abs(at.Kappa)
			h := (r.Float64() - 0.5) * 20
			if k > 0 {
				h = math.Copysign(math.Min(math.Abs(h), 0.5/k), h)
			}
			p := at.P.Add(at.Tangent().Left().Mul(h))
			guess := s + (r.Float64()-0.5)*math.Min(20, c.Length()/10)
			got, height := c.Foot(p, guess)
			assert.InDelta(t, s, got, 1e-7)
			assert.InDelta(t, h, height, 1e-9)
		}
		// Past the ends it runs on straight.
		for _, e := range []float64{-7, 12} {
			s := e
			if e > 0 {
				s += c.Length()
			}
			at := c.At(s)
			got, height := c.Foot(at.P.Add(at.Tangent().Left().Mul(3)), s-e/2)
			assert.InDelta(t, s, got, 1e-9)
			assert.InDelta(t, 3, height, 1e-9)
		}
	}
}

func TestKappaIsThatOfAt(t *testing.T) {
	c, err := Through(plane.Pt(0, 0), plane.Pt(70, 22), plane.Pt(130, -14), plane.Pt(220, 30))
	require.NoError(t, err)
	for _, c := range []Curve{c, Level(Piece{20, 0}, Piece{120, 1.0 / 90}, Piece{15, 0}), Ellipse(90, 60, true)} {
		for i := range 400 {
			s := c.Length() * (float64(i)/390 - 0.01)
			assert.Equal(t, c.At(s).Kappa, c.Kappa(s))
		}
	}
}
