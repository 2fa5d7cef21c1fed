package part

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// A slit that is narrower than the kerf, in the edge or in a hole, is not reached, however
// wide it is behind; a corner of 60 degrees and a slit wide enough are.
func TestWhatTheToolDoesNotReach(t *testing.T) {
	slit := func(width, deep float64) plane.Region {
		return plane.Region{Outer: plane.Poly(plane.Pt(0, 0), plane.Pt(60, 0), plane.Pt(60, 40), plane.Pt(30+width/2, 40),
			plane.Pt(30+width/2, 40-deep), plane.Pt(30-width/2, 40-deep), plane.Pt(30-width/2, 40), plane.Pt(0, 40))}
	}
	for _, c := range []struct {
		name  string
		r     plane.Region
		least float64 // left uncut, at least; 0 for none
	}{
		{"slit of half a kerf", slit(1, 15), 13},
		{"slit of two kerfs", slit(4, 15), 0},
		{"shallow slit", slit(1, 3), 1},
		{"keyhole", plane.Region{Outer: plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(60, 40))), Holes: []plane.Path{plane.Poly(
			plane.Pt(10, 10), plane.Pt(20, 10), plane.Pt(20, 14), plane.Pt(40, 14), plane.Pt(40, 15), plane.Pt(20, 15), plane.Pt(20, 20), plane.Pt(10, 20))}}, 18},
		{"notch of 60 degrees", plane.Region{Outer: plane.Poly(plane.Pt(0, 0), plane.Pt(60, 0), plane.Pt(60, 40), plane.Pt(40, 40),
			plane.Pt(30, 40-10*math.Sqrt(3)), plane.Pt(20, 40), plane.Pt(0, 40))}, 0},
		{"notch of 10 degrees", plane.Region{Outer: plane.Poly(plane.Pt(0, -40), plane.Pt(60, -40), plane.Pt(60, 40), plane.Pt(33, 40),
			plane.Pt(30, 40-3/math.Tan(5*math.Pi/180)), plane.Pt(27, 40), plane.Pt(0, 40))}, 1/math.Sin(5*math.Pi/180) - 1 - 1e-3},
	} {
		a := Allow(c.r, 2)
		require.False(t, a.Failed, c.name)
		assert.GreaterOrEqual(t, a.Left, c.least, c.name)
		if c.least == 0 {
			assert.Zero(t, a.Left, c.name)
		}
		assert.Zero(t, Allow(c.r, 0).Left, c.name)
	}
	bow := plane.Region{Outer: plane.Poly(plane.Pt(0, 0), plane.Pt(10, 10), plane.Pt(10, 0), plane.Pt(0, 12))}
	assert.True(t, Allow(bow, 0.2).Crosses)
	assert.True(t, Allow(bow, 0).Crosses)
}

// Beside a shoulder narrower than the tool the arc about its corner runs into the tenon's
// side: the side stays where it is, half a kerf off.
func TestNarrowShoulderKeepsTheTenon(t *testing.T) {
	a := Allow(plane.Region{Outer: plane.Poly(plane.Pt(0, 0), plane.Pt(0.5, 0), plane.Pt(0.5, -3), plane.Pt(4.5, -3),
		plane.Pt(4.5, 0), plane.Pt(5, 0), plane.Pt(5, 30), plane.Pt(0, 30))}, 3)
	var at []float64
	for _, s := range a.Outline.Outer.Segs {
		if y := -2.5; (s.A.Y > y) != (s.B.Y > y) {
			at = append(at, s.A.Lerp(s.B, (y-s.A.Y)/(s.B.Y-s.A.Y)).X)
		}
	}
	require.Len(t, at, 2)
	assert.InDelta(t, 4+3, math.Abs(at[0]-at[1]), 1e-9)
}

// A tenon whose shoulders the cutter has no room beside keeps its corners, cleared or not.
func TestCornersLeft(t *testing.T) {
	foot := func(shoulder, radius float64) (left, usual float64) {
		p := Part{Outline: plane.Region{Outer: plane.Poly(plane.Pt(0, 0), plane.Pt(shoulder, 0), plane.Pt(shoulder, -6), plane.Pt(20-shoulder, -6),
			plane.Pt(20-shoulder, 0), plane.Pt(20, 0), plane.Pt(20, 30), plane.Pt(0, 30))}}
		p.free(2 * radius)
		p.Relieve(radius)
		return p.CornersLeft(p.Work, radius)
	}
	left, _ := foot(6, 1.5)
	assert.Less(t, left, 0.021, "cleared")
	left, usual := foot(0.7, 1.5)
	assert.Greater(t, left, 0.2, "the cutter does not get in")
	assert.InDelta(t, 1.5*(math.Sqrt2-1), usual, 1e-9)
}

// Bridges keep off what crosses the path, however thickly it lies; where it leaves no room
// there are none.
func TestBridgesSpareScores(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	none := 0
	for range 200 {
		l, w := 60+200*rng.Float64(), 20+60*rng.Float64()
		width, kerf, half := 0.3+3*rng.Float64(), 0.1+2*rng.Float64(), 0.1+rng.Float64()
		path := plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(l, w)))
		var scores []plane.Path
		pitch := 0.5 + 8*rng.Float64()
		for x := 1.0; x < l; x += pitch {
			scores = append(scores, plane.Open(plane.Pt(x, -3), plane.Pt(x, w+3)))
		}
		foot := []plane.Path{plane.Open(plane.Pt(0, 0), plane.Pt(0, w)), plane.Open(plane.Pt(l, 0), plane.Pt(l, w))}
		got := Bridged(path, []Spare{{Paths: scores, Clear: half}, {Paths: foot, Beside: true}}, width, kerf, 6)
		if len(got) == 1 && got[0].Closed {
			none++
			continue
		}
		for i, g := range got {
			a, b := g.End(), got[(i+1)%len(got)].Start()
			for _, s := range scores {
				require.GreaterOrEqual(t, apart(a, b, s.Start(), s.End()), half+kerf/2)
			}
		}
	}
	assert.Greater(t, none, 5)
	assert.Less(t, none, 150)
}
