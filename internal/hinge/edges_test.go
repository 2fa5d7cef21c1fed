package hinge

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a sheet and a score may be, just inside each limit and just outside. The limits of a
// solid are those of elasticity: moduli above 0, Poisson's ratios between -1 and 1 (of an
// even sheet), and nu_xz^2 < E/E_z. Those of the faces are of this project.
func TestFiguresAtTheirLimits(t *testing.T) {
	inf := math.Inf(1)
	sheet := func(edit func(m *Material)) func() {
		return func() {
			m := Material{E: 4000, NuXY: .3, NuXZ: .3, EZ: 200, GXZ: 240}
			edit(&m)
			New(m, laserScore())
		}
	}
	score := func(edit func(s *Score)) func() {
		return func() {
			s := Score{Thickness: 3, Depth: 2, Width: .2}
			edit(&s)
			New(mdf(), s)
		}
	}
	for _, c := range []struct {
		name string
		make func()
		fine bool
	}{
		{"endless modulus", sheet(func(m *Material) { m.E = inf }), false},
		{"no Poisson's ratio", sheet(func(m *Material) { m.NuXY, m.NuXZ = 0, 0 }), true},
		{"nu_xy near -1", sheet(func(m *Material) { m.NuXY = -.99 }), true},
		{"nu_xy -1", sheet(func(m *Material) { m.NuXY = -1 }), false},
		{"nu_xy near 1", sheet(func(m *Material) { m.NuXY = .99 }), true},
		{"nu_xy 1", sheet(func(m *Material) { m.NuXY = 1 }), false},
		{"nu_xz near -1", sheet(func(m *Material) { m.NuXZ = -.99 }), true},
		{"nu_xz -1", sheet(func(m *Material) { m.NuXZ = -1 }), false},
		{"nu_xz near 1", sheet(func(m *Material) { m.NuXZ = .99 }), true},
		{"nu_xz 1", sheet(func(m *Material) { m.NuXZ = 1 }), false},
		{"softest faces", sheet(func(m *Material) { m.Face = LeastFace }), true},
		{"softer faces", sheet(func(m *Material) { m.Face = LeastFace - 1e-9 }), false},
		{"stiffest faces", sheet(func(m *Material) { m.Face = MostFace }), true},
		{"stiffer faces", sheet(func(m *Material) { m.Face = MostFace + 1e-9 }), false},
		{"no modulus through", sheet(func(m *Material) { m.EZ = 0 }), false},
		{"endless modulus through", sheet(func(m *Material) { m.EZ = inf }), false},
		{"no shear modulus", sheet(func(m *Material) { m.GXZ = 0 }), false},
		{"endless shear modulus", sheet(func(m *Material) { m.GXZ = inf }), false},
		{"nu_xz^2 just under E/E_z", sheet(func(m *Material) { m.NuXZ, m.EZ = .5, 15999 }), true},
		{"nu_xz^2 = E/E_z", sheet(func(m *Material) { m.NuXZ, m.EZ = .5, 16000 }), false},

		{"endless thickness", score(func(s *Score) { s.Thickness = inf }), false},
		{"nearly through", score(func(s *Score) { s.Depth = 2.999 }), true},
		{"no width", score(func(s *Score) { s.Width = 0 }), true},
		{"endless width", score(func(s *Score) { s.Width = inf }), false},
		{"root as wide as the mouth", score(func(s *Score) { s.RootWidth = .2 }), true},
		{"root below 0", score(func(s *Score) { s.RootWidth = -.01 }), false},
		{"the last bottom", score(func(s *Score) { s.Bottom = Vee }), true},
		{"no such bottom", score(func(s *Score) { s.Bottom = Vee + 1 }), false},
	} {
		if c.fine {
			assert.NotPanics(t, c.make, c.name)
		} else {
			assert.Panics(t, c.make, c.name)
		}
	}
}

// Each ratio of the checked domain on either side of each of its limits.
func TestDomainAtItsLimits(t *testing.T) {
	of := func(depth, width, ez, gxz float64) Law {
		return New(Material{E: 1000, NuXY: .3, EZ: 1000 * ez, GXZ: 1000 * gxz}, Score{Thickness: 1, Depth: depth, Width: width})
	}
	for _, c := range []struct {
		ratio     Ratio
		low, high float64
		at        func(v float64) []Departure
	}{
		{DepthRatio, .3, .9, func(v float64) []Departure { return of(v, .1, .1, .1).Domain(1) }},
		{WidthRatio, .03, .3, func(v float64) []Departure { return of(.7, v, .1, .1).Domain(1) }},
		{SpacingRatio, .25, 8, func(v float64) []Departure { return of(.7, .1, .1, .1).Domain(v) }},
		{EZRatio, .02, 1, func(v float64) []Departure { return of(.7, .1, v, .1).Domain(1) }},
		{GXZRatio, .025, .5, func(v float64) []Departure { return of(.7, .1, .1, v).Domain(1) }},
	} {
		for _, v := range []float64{c.low, c.low * 1.01, c.high * .99, c.high} {
			assert.Empty(t, c.at(v), "%s %g", c.ratio, v)
		}
		for _, v := range []float64{c.low * .99, c.high * 1.01} {
			if got := c.at(v); assert.Len(t, got, 1, "%s %g", c.ratio, v) {
				assert.Equal(t, c.ratio, got[0].Ratio)
				assert.InDelta(t, v, got[0].Value, 1e-12)
				assert.Equal(t, [2]float64{c.low, c.high}, [2]float64{got[0].Low, got[0].High})
			}
		}
	}
}

// Parts are lengths of plain sheet: the score's is its hinge times the softness of the web
// beyond the land's, the lands' are half of each spacing; and a fold is shared in proportion.
func TestPartsShareAFold(t *testing.T) {
	inf := math.Inf(1)
	for _, narrow := range []bool{false, true} {
		m := mdf()
		m.Narrow = narrow
		l := New(m, laserScore())
		th, eta := l.Score().Thickness, l.Skin()/l.Score().Thickness
		web := 1.0
		if narrow {
			web = 1 / (1 - m.NuXY*m.NuXY) // stiffer than the land by that
		}
		for _, p := range [][2]float64{{1.6, 1.6}, {1.6, 4}, {2, inf}, {inf, inf}} {
			a, b := l.Beside(p[0]), l.Beside(p[1])
			score, lands := l.Parts(a, b)
			mean := (l.HingeLength(p[0]) + l.HingeLength(p[1])) / 2
			assert.InEpsilon(t, mean/th*(1/(eta*eta*eta)-1)/web, score, 1e-9, "%v narrow %v", p, narrow)
			want := 0.0
			for _, q := range p {
				if !math.IsInf(q, 1) {
					want += q / 2 / th
				}
			}
			assert.InDelta(t, want, lands, 1e-12, "%v", p)
			f := l.FoldBetween(.03, a, b, false)
			assert.InEpsilon(t, .03*score/(score+lands), f.Elastic, 1e-12, "%v narrow %v", p, narrow)
		}
		// The strain of the web by the curvature of the array and by the fold of one score.
		f := l.Fold(.03, 1.6, 1.6, false)
		assert.InEpsilon(t, f.NetStrain, l.NetSectionStrain(1.6, .03/1.6), 1e-9, "narrow %v", narrow)
	}
}

// Far neighbours of another skin take nothing; near the end of their reach they still do.
func TestTakesEnds(t *testing.T) {
	at := func(u float64) float64 { return Takes(1, 1/1.1, 1.2/1.1, u) } // a fifth apart, 1 in the mean
	assert.Equal(t, 1.0, at(3.51))
	assert.NotEqual(t, 1.0, at(3.49))
	assert.InDelta(t, 1, at(3.49), 2e-4)
	assert.Greater(t, at(1), 1.0, "the deeper score takes")
	assert.InDelta(t, 2, at(1)+Takes(1, 1.2/1.1, 1/1.1, 1), 1e-12, "what the other gives: 1 + tanh and 1 - tanh")
	assert.InEpsilon(t, 1+math.Tanh(takeMost*math.Exp(-takeFall)*math.Log(1.2)), at(1), 1e-9, "as documented")
}

// Scores whose bottoms just meet have the spacing as their hinge; further apart less is added
// than the land between them.
func TestHingeWhereBottomsMeet(t *testing.T) {
	l := New(mdf(), Score{Thickness: 3, Depth: 2, Width: .3})
	meet := l.a * 3
	assert.InDelta(t, meet, l.HingeLength(meet), 1e-12)
	for _, more := range []float64{.05, .5, 5} {
		assert.Less(t, l.HingeLength(meet+more), meet+more)
		assert.Greater(t, l.HingeLength(meet+more), meet)
	}
}
