package coupon

import (
	"math"

	"springrib/internal/finding"
	"springrib/internal/hinge"
	"springrib/internal/unit"
)

// Measured is a figure with its standard deviation.
type Measured struct {
	Value, Sigma float64
	N            int // readings it rests on; 0: as typed or from the handbook
}

// Belief is what is held to be true of a sheet and of the machine that scores it.
// Learn turns one belief into the next.
type Belief struct {
	Material hinge.Material // of the sheet across the scores; Narrow is ignored
	SpreadE  float64        // standard deviation of ln E
	SpreadZ  float64        // of the logarithm of a factor common to EZ/E and GXZ/E
	// SpreadFace is the standard deviation of Material.Face; 0 where it is not asked.
	SpreadFace float64
	Thickness  Measured
	Density    float64 // kg/m^3
	Bottom     hinge.Bottom
	Width      Measured   // of a score at its mouth
	Skins      []Measured // left after 1, 2, 3... passes
	// Apart is the standard deviation of the skin from score to score, as typed or, with N
	// over 0, as skins of one strip told; its Sigma is how well it is known.
	Apart     Measured
	Rupture   Measured // strain of the skin at rupture; Sigma is of its logarithm
	Kerf      Measured
	Clearance Measured
	// Softness is the factor on EZ/E and GXZ/E that the readings found; its Sigma is of the
	// logarithm. The factor is already in Material.
	Softness Measured
	// Units are the person's, for what is said of readings.
	Units unit.System
}

// Law returns the law of the wide panel after passes, counted from 1. It panics if
// there is no such depth, or if it leaves no skin.
func (b Belief) Law(passes int) hinge.Law { return b.law(passes, false) }

func (b Belief) law(passes int, narrow bool) hinge.Law {
	m := b.Material
	m.Narrow = narrow
	return hinge.New(m, b.score(b.Skins[passes-1].Value, b.Width.Value))
}

func (b Belief) score(skin, width float64) hinge.Score {
	t := b.Thickness.Value
	return hinge.Score{Thickness: t, Depth: t - skin, Width: width, Bottom: b.Bottom}
}

// deepEnough tells whether there is a depth for passes that a law can be made of.
func (b Belief) deepEnough(passes int) bool {
	if passes < 1 || passes > len(b.Skins) {
		return false
	}
	h := b.Skins[passes-1].Value
	return h > 0 && h < b.Thickness.Value
}

// copy returns a belief whose skins can be changed without changing b.
func (b Belief) copy() Belief {
	b.Skins = append([]Measured(nil), b.Skins...)
	return b
}

// TongueResult is one tongue of the sag test as the fit sees it, for a picture of
// points and fit.
type TongueResult struct {
	Passes  int // 0: no scores
	Spacing float64
	Spot    string
	EI      float64 // measured, N mm^2 for the tongue
	SigmaLn float64 // standard deviation of ln EI, law included
	Fitted  float64 // EI by the fit
	Offset  float64 // where the ruler's zero turned out to lie, mm
	First   int     // index of its first reading
}

// BendResult is one strip bent round a gauge whose mouths stayed open.
type BendResult struct {
	Radius float64 // of the gauge, mm
	Strain float64 // of the skin
	Broke  bool
}

// Learned is a belief with what led to it.
type Learned struct {
	Belief
	// RuptureKnown tells that a strip has broken: Rupture is a limit, not only a strain
	// that was borne.
	RuptureKnown bool
	Tongues      []TongueResult
	Bends        []BendResult
	Findings     []finding.Finding
	// OverBed is how much the skin differs from place to place on the bed: its standard
	// deviation over the spots, less what the readings themselves may be off by. N is the
	// number of spots; 0 with fewer than three, which tell nothing.
	OverBed Measured
	// Spots are the places that scored tongues were cut at, where there are several.
	Spots []SpotResult
	// Names and Covariance are of the joint fit of the sag test: "ln t", "ln E",
	// "ln softness", "logit skin 1"... for ln(h/(t-h)), "spot a"... in mm, and "face" where
	// the stiffness of the faces is asked.
	Names      []string
	Covariance [][]float64
}

// SigmaHingeLength returns the relative standard deviation of the hinge length at
// spacing p after passes, by the covariance of the joint fit, law not included; NaN
// when no tongue of that many passes was measured.
func (l Learned) SigmaHingeLength(passes int, p float64) float64 {
	if len(l.Names) == 0 {
		return math.NaN()
	}
	fit := newDepthFit(l.Belief, nil, nil)
	fit.passes = passesOf(l.Names)
	for _, s := range l.Spots {
		fit.spots = append(fit.spots, s.Spot)
	}
	k := fit.index(passes)
	if k < 0 {
		return math.NaN()
	}
	x := fit.start()
	at := func(x []float64) float64 { return math.Log(fit.law(x, passes, false).HingeLength(p)) }
	return math.Sqrt(variance(l.Covariance, gradient(at, x)))
}

// gradient is by central differences.
func gradient(f func([]float64) float64, x []float64) []float64 {
	const h = 1e-5
	g := make([]float64, len(x))
	at := append([]float64(nil), x...)
	for i := range x {
		at[i] = x[i] + h
		up := f(at)
		at[i] = x[i] - h
		g[i] = (up - f(at)) / (2 * h)
		at[i] = x[i]
	}
	return g
}

// variance is g' cov g.
func variance(cov [][]float64, g []float64) float64 {
	v := 0.0
	for i := range g {
		for j := range g {
			v += g[i] * cov[i][j] * g[j]
		}
	}
	return v
}
