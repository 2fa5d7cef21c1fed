package hinge

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sample is a random law inside the checked domain, and a spacing for it.
func sample(r *rand.Rand) (Law, float64) {
	t := math.Exp(3.5*r.Float64() - .5)
	s := Score{Thickness: t, Depth: t * (.3 + .6*r.Float64()), Width: t * (.03 + .27*r.Float64()), Bottom: Bottom(r.Intn(3))}
	e := 1000 + 9000*r.Float64()
	m := Material{E: e, NuXY: .4 * r.Float64()}
	if r.Intn(2) == 0 {
		m.NuXZ = .3 * r.Float64()
		m.EZ = e * (.05 + .3*r.Float64())
		m.GXZ = e * (.05 + .2*r.Float64())
	}
	p := s.Width + t*math.Exp(4*r.Float64()-2)
	return New(m, s), p
}

func TestNoSizeInTheLaw(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	for range 300 {
		l, p := sample(r)
		f := math.Exp(4*r.Float64() - 2)
		s := l.Score()
		s.Thickness, s.Depth, s.Width, s.RootWidth = f*s.Thickness, f*s.Depth, f*s.Width, f*s.RootWidth
		m := l.Material()
		m.E, m.EZ, m.GXZ = 3*m.E, 3*m.EZ, 3*m.GXZ
		a, b := l.At(p), New(m, s).At(f*p)
		assert.InEpsilon(t, a.Softening, b.Softening, 1e-12)
		assert.InEpsilon(t, 3*f*f*f*a.Stiffness, b.Stiffness, 1e-12)
		assert.InEpsilon(t, f*a.HingeLength, b.HingeLength, 1e-12)
		assert.InEpsilon(t, f*a.Neutral, b.Neutral, 1e-12)
		assert.InEpsilon(t, f*a.MouthLever, b.MouthLever, 1e-12)
		assert.InEpsilon(t, a.ClosingAngle, b.ClosingAngle, 1e-12)
		assert.InEpsilon(t, a.StrainFactor, b.StrainFactor, 1e-12)
	}
}

func TestCellAgreesWithTheMethods(t *testing.T) {
	r := rand.New(rand.NewSource(12))
	for range 100 {
		l, p := sample(r)
		c := l.At(p)
		assert.Equal(t, c.HingeLength, l.HingeLength(p))
		assert.Equal(t, c.Softening, l.Softening(p))
		assert.Equal(t, c.Stiffness, l.Stiffness(p))
		assert.Equal(t, c.Neutral, l.Neutral(p))
		assert.Equal(t, c.Lx, l.Lx(p))
		assert.Equal(t, c.MouthLever, l.MouthLever(p))
		assert.Equal(t, c.ClosingAngle, l.ClosingAngle(p))
		assert.Equal(t, c.StrainFactor, l.StrainFactor(p))
		assert.InEpsilon(t, .02, l.Strain(p, 1/l.CrackingRadius(p, .02)), 1e-12)
		assert.InEpsilon(t, p, l.ClosingAngle(p)*l.ClosingRadius(p), 1e-12)
	}
}

// Rotations and fibres must stay where mechanics puts them, for any figures.
func TestBounds(t *testing.T) {
	r := rand.New(rand.NewSource(13))
	for range 2000 {
		l, p := sample(r)
		c := l.At(p)
		th := l.Score().Thickness
		name := []any{"%+v p %g", l.Score(), p}
		web := th / l.Skin()
		assert.Greater(t, c.Softening, 1.0, name...)
		assert.LessOrEqual(t, c.Softening, web*web*web*(1+1e-12), "never softer than the bare web")
		assert.LessOrEqual(t, c.HingeLength, p*(1+1e-12), name...)
		assert.Greater(t, c.Neutral, l.Skin()*.35, name...)
		assert.Less(t, c.Neutral, th/2, name...)
		assert.Greater(t, c.Lx, .4*th, name...)
		assert.Less(t, c.StrainFactor, 1.05, name...)
		assert.Greater(t, c.StrainFactor, .75, name...)
	}
}

// Scores so close that nothing is left between them are one thin panel, whose own
// middle keeps its length and whose face strain is kappa h/2.
func TestTouchingScoresAreAThinPanel(t *testing.T) {
	for _, m := range []Material{mdf(), mdfSoft()} {
		l := New(m, Score{Thickness: 3, Depth: 2.2, Width: 1e-9})
		h := l.Skin()
		for _, p := range []float64{1e-5, 1e-7} {
			assert.InEpsilon(t, p, l.HingeLength(p), 2*math.Sqrt(p))
			assert.InEpsilon(t, l.EPrime()*h*h*h/12, l.Stiffness(p), .01)
			assert.InEpsilon(t, h/2, l.Neutral(p), .01)
			assert.InEpsilon(t, h/2, l.Strain(p, 1), .01)
			assert.InEpsilon(t, 3-h/2, l.MouthLever(p), .01)
		}
		assert.Equal(t, l.HingeLength(1e-10), 1e-10, "bottoms that overlap: the hinge is the spacing")
	}
}

func TestFarScoresAreAPlainPanelWithHinges(t *testing.T) {
	for _, m := range []Material{mdf(), mdfSoft()} {
		l := New(m, laserScore())
		alone := l.HingeLength(math.Inf(1))
		assert.InEpsilon(t, alone, l.HingeLength(3*8), .001)
		c := l.At(1e6)
		assert.InDelta(t, 1, c.Softening, 2e-4)
		assert.InDelta(t, 1.5, c.Neutral, 1e-3)
		c = l.At(math.Inf(1))
		assert.Equal(t, 1.0, c.Softening)
		assert.Equal(t, 1.5, c.Neutral)
		assert.Equal(t, alone, c.HingeLength)
		assert.True(t, math.IsInf(c.ClosingAngle, 1), "the lands give way first")
	}
}

// An orthotropic sheet with the constants of an isotropic one is that sheet.
func TestOrthotropicLawMeetsIsotropic(t *testing.T) {
	for _, nu := range []float64{0, .2, .3, .45} {
		iso := Material{E: 3000, NuXY: nu}
		same := Material{E: 3000, NuXY: nu, NuXZ: nu, EZ: 3000, GXZ: 3000 / (2 * (1 + nu))}
		lam, rho := same.Anisotropy()
		assert.InDelta(t, 1, lam, 1e-12)
		assert.InDelta(t, 1, rho, 1e-12)
		assert.InDelta(t, 1, crackFactor(lam, rho), 1e-12)
		a, b := New(iso, laserScore()).At(1.6), New(same, laserScore()).At(1.6)
		assert.InEpsilon(t, a.Softening, b.Softening, 1e-10)
		assert.InEpsilon(t, a.StrainFactor, b.StrainFactor, 1e-10)
		assert.InEpsilon(t, a.MouthLever, b.MouthLever, 1e-10)
	}
}

// Lam, rho and G of three sheets, worked out by hand from Suo's formulae.
func TestAnisotropyNumbers(t *testing.T) {
	for _, c := range []struct{ ez, gxz, lam, rho, g float64 }{
		{.1, .06, 1.82, 2.65, 2.32}, {.05, .06, 2.16, 1.87, 2.50}, {.05, .05, 2.16, 2.26, 2.64},
	} {
		lam, rho := Material{E: 1, NuXY: .3, NuXZ: .3, EZ: c.ez, GXZ: c.gxz}.Anisotropy()
		assert.InDelta(t, c.lam, lam, .005)
		assert.InDelta(t, c.rho, rho, .005)
		assert.InDelta(t, c.g, crackFactor(lam, rho), .005)
	}
}

// Lands of a narrow strip bend with E, webs with E/(1-nu^2): C - 1 shrinks by 1-nu^2,
// and the fold of a given angle strains its web the same.
func TestNarrowStrip(t *testing.T) {
	m := mdf()
	wide := New(m, laserScore())
	m.Narrow = true
	strip := New(m, laserScore())
	for _, p := range []float64{.8, 1.6, 8} {
		assert.InEpsilon(t, 1+(wide.Softening(p)-1)*(1-.09), strip.Softening(p), 1e-12)
		assert.InEpsilon(t, wide.PlainStiffness()*(1-.09), strip.PlainStiffness(), 1e-12)
		a, b := wide.Fold(.03, p, p, true), strip.Fold(.03, p, p, true)
		assert.InEpsilon(t, a.Strain, b.Strain, 1e-12)
		assert.InEpsilon(t, a.Moment, b.Moment, 1e-12)
		assert.Greater(t, strip.Strain(p, .01)*1.0000001, wide.Strain(p, .01)*(1-.09))
	}
}

func TestNonsensePanics(t *testing.T) {
	good := laserScore()
	for name, f := range map[string]func(){
		"no thickness":      func() { New(mdf(), Score{Depth: 1}) },
		"through":           func() { New(mdf(), Score{Thickness: 3, Depth: 3}) },
		"no depth":          func() { New(mdf(), Score{Thickness: 3}) },
		"NaN depth":         func() { New(mdf(), Score{Thickness: 3, Depth: math.NaN()}) },
		"negative width":    func() { New(mdf(), Score{Thickness: 3, Depth: 2, Width: -1}) },
		"root wider":        func() { New(mdf(), Score{Thickness: 3, Depth: 2, Width: .2, RootWidth: .3}) },
		"bottom":            func() { New(mdf(), Score{Thickness: 3, Depth: 2, Width: .2, Bottom: 9}) },
		"no modulus":        func() { New(Material{}, good) },
		"Poisson's ratio":   func() { New(Material{E: 1, NuXY: 1}, good) },
		"half orthotropic":  func() { New(Material{E: 1, EZ: 1}, good) },
		"Poisson through":   func() { New(Material{E: 1, NuXZ: .9, EZ: 2, GXZ: 1}, good) },
		"negative spacing":  func() { New(mdf(), good).At(-1) },
		"zero spacing":      func() { New(mdf(), good).Softening(0) },
		"NaN spacing":       func() { New(mdf(), good).Lx(math.NaN()) },
		"negative fold":     func() { New(mdf(), good).Fold(-1, 1, 1, false) },
		"no strain allowed": func() { New(mdf(), good).CrackingRadius(1, 0) },
	} {
		assert.Panics(t, f, name)
	}
	require.NotPanics(t, func() { New(mdf(), good).Fold(0, 1, math.Inf(1), false) })
}

func TestDomain(t *testing.T) {
	l := New(mdfSoft(), laserScore())
	assert.Empty(t, l.Domain(1.6))
	assert.Empty(t, l.Domain(math.Inf(1)))
	assert.Equal(t, []Departure{{SpacingRatio, .5 / 3, .25, 8}}, l.Domain(.5))
	wide := New(Material{E: 1000, EZ: 15, GXZ: 20}, Score{Thickness: 3, Depth: 2.9, Width: 1})
	var names []Ratio
	for _, d := range wide.Domain(30) {
		names = append(names, d.Ratio)
		assert.True(t, d.Value < d.Low || d.Value > d.High)
	}
	assert.Equal(t, []Ratio{DepthRatio, WidthRatio, SpacingRatio, EZRatio, GXZRatio}, names)
	edge := New(mdf(), Score{Thickness: 3, Depth: 2.7, Width: .9, Bottom: Flat})
	assert.Empty(t, edge.Domain(.75), "the limits belong to the domain")
}

func BenchmarkNew(b *testing.B) {
	for range b.N {
		New(mdfSoft(), laserScore())
	}
}

func BenchmarkAt(b *testing.B) {
	l := New(mdfSoft(), laserScore())
	for i := range b.N {
		l.At(1.2 + float64(i&255)*.01)
	}
}

func BenchmarkSoftening(b *testing.B) {
	l := New(mdfSoft(), laserScore())
	for i := range b.N {
		l.Softening(1.2 + float64(i&255)*.01)
	}
}

func BenchmarkFoldUneven(b *testing.B) {
	l := New(mdfSoft(), laserScore())
	for i := range b.N {
		l.Fold(.03, 1.2+float64(i&255)*.01, 2, false)
	}
}
