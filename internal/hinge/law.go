package hinge

import (
	"fmt"
	"math"

	"springrib/internal/solve"
)

// Bottom is the shape of the bottom of a score.
type Bottom uint8

// The shapes of finite-element table. Round is a full radius across the root width,
// as a laser leaves it; Flat is a saw's or a square cutter's; Vee tapers from the mouth
// to a small rounded root.
const (
	Round Bottom = iota
	Flat
	Vee
)

// Score is one score and the sheet it is cut in, mm.
type Score struct {
	Thickness float64 // of the sheet
	Depth     float64 // of the score, less than Thickness
	Width     float64 // of the mouth
	// RootWidth is the width at the bottom of a Vee, or of a Round narrower than its
	// mouth; 0 means Width/3 for a Vee (as in the finite-element table) and Width for
	// a Round. Unused for a Flat.
	RootWidth float64
	Bottom    Bottom
}

// Law is the law of a panel with equal scores, ready to be asked about spacings. Its
// methods take a spacing p in mm, centre to centre, or +Inf for a score on its own.
type Law struct {
	mat   Material
	score Score

	eprime, plain float64 // MPa; E' t^3/12, N mm per mm of width
	web           float64 // modulus of the web over EPrime: 1/(1-nu^2) in a narrow strip, else 1
	bent, turned  float64 // strain of the web per moment and per turn, against an even sheet's

	// Over t:
	eta, w, a, b float64
	// Functions of eta alone:
	cube     float64 // eta^-3/s - 1
	ye0, ye1 float64 // centre of elastic rotation: isolated, touching
	lx0, lx1 float64 // lever of the elastic rotation: isolated, touching
	k0       float64 // strain factor, isolated
	lam, rho float64
	reachYe  float64 // decay lengths of the blends below, over t
	reachLx  float64
	reachKt  float64
	growth   float64 // 1.384/lam
}

// Constants of the law, fitted to the finite-element table
// testdata/reference/scored-cell-fe.csv (this project): those of the strain to all its
// rows, the others to the isotropic ones. With them the law meets the table as the package
// comment says; the fit is flat, so the last digit of each is not significant ("go run
// ./build law" fits again).
const (
	rootFlat   = 0.865
	rootRound  = 0.447
	rootShrink = 0.09
	// deepRotation is theory within the fit: 12 * 1.317 = 15.8 in rotation =
	// 15.8 M/(E' h^2) (Tada, Paris & Irwin).
	deepRotation = 1.317

	arraySharp  = 0.584
	arrayGrowth = 1.384
	arrayMost   = 20

	neutral0     = 0.700
	neutral1     = 0.602
	neutral2     = 0.254
	reachNeutral = 0.494 // with the power 1.5, which neutral has as r sqrt r

	lever0      = 0.724
	lever1      = 1.10
	lever2      = 0.517
	lever4      = 1.66
	reachLever  = 0.5415
	powerLever  = 2.28
	reachStrain = 0.559
	powerStrain = 1.822

	strainPlain   = 1.019
	strainRelief  = 0.200
	reliefStretch = 1.72
	reliefReach   = 1.072
	reliefSkin    = 0.0852
	bluntFlat     = 2.783
	bluntRound    = 1.487
)

// New prepares the law. It panics if the material or the score is impossible: a figure
// that is not a positive number, a depth not below the thickness, a root wider than
// the mouth. A score outside the checked domain is computed; ask Domain.
func New(m Material, s Score) Law {
	m.mustBeSound()
	s = s.mustBeSound()
	t := s.Thickness
	l := Law{mat: m, score: s, eprime: m.EPrime(), web: 1}
	l.plain = l.eprime * t * t * t / 12
	if m.Narrow {
		l.web = 1 / (1 - m.NuXY*m.NuXY)
	}
	l.lam, l.rho = m.Anisotropy()
	l.eta = (t - s.Depth) / t
	l.w = s.Width / t

	e := l.eta
	e2, e3 := e*e, e*e*e
	l.a = s.rootLength(e, l.lam)
	reach, peak := m.graded()
	l.b = deepRotation * e * (1 - e2 + (1-e)*e3*e3) * crackFactor(l.lam, l.rho) * reach
	stiff, arm := m.skin(e)
	l.cube = 1/(e3*stiff) - 1
	l.bent = arm / stiff
	l.turned = l.bent * ((1/e3 - 1) / l.cube)
	l.ye0 = e * (neutral0 - neutral1*e + neutral2*e2) * arm
	l.ye1 = e * (arm - e2*stiff) / (2 * (1 - e3*stiff))
	l.lx0 = 1 - e*(lever0-lever1*e+lever2*e2-lever4*e2*e2)*arm
	l.lx1 = (1 - e*arm/2) / (1 - e3*stiff)
	stretch := math.Sqrt((1 + l.rho) / 2)
	l.k0 = s.strainAlone(e, l.lam, stretch) * peak
	l.reachYe = reachNeutral * l.lam
	l.reachLx = reachLever * l.lam
	l.reachKt = reachStrain * e * l.lam
	l.growth = arrayGrowth / (l.lam * stretch)
	return l
}

// rootLength is the length over t by which a blunt bottom adds to the hinge. Seen with
// the panel shortened by lam, a rounded bottom of an orthotropic sheet is a pointed
// ellipse, so it adds less: as lam^(-1/2), fitted to the orthotropic rows of the table.
func (s Score) rootLength(eta, lam float64) float64 {
	if s.Bottom == Flat {
		return rootFlat * s.Width / s.Thickness
	}
	wr := s.RootWidth / s.Thickness
	return rootRound * wr / ((1 + rootShrink*wr/eta) * math.Sqrt(lam))
}

// strainAlone is k_t of a score on its own. A crack-like one spreads rotation round its
// root and so spares the far face, a blunt one less; shear softness takes the relief away.
// Its constants and those of the blend (reachStrain, powerStrain) were fitted to all rows of
// the table together, each bottom with a bluntness of its own: before, flat bottoms of
// sheets soft through their thickness came out 4 to 6 % low where scores lie apart.
func (s Score) strainAlone(eta, lam, stretch float64) float64 {
	blunt := bluntRound
	if s.Bottom == Flat {
		blunt = bluntFlat
	}
	sharp := solve.Exp(-blunt * s.rootLength(eta, 1) / (eta * solve.Power(lam, reliefReach)))
	return strainPlain - strainRelief*solve.Power(stretch, -reliefStretch)*sharp*solve.Power(eta, reliefSkin)
}

// bad is a call of its own: put in where it is called it would cost a kilobyte of download.
//
//go:noinline
func bad(what string, v float64) { panic(fmt.Sprintf("hinge: %s %v", what, v)) }

// mustBeSound panics on impossible figures and fills in the root width.
func (s Score) mustBeSound() Score {
	switch {
	case !(s.Thickness > 0) || math.IsInf(s.Thickness, 0):
		bad("thickness", s.Thickness)
	case !(s.Depth > 0 && s.Depth < s.Thickness):
		bad("depth not between 0 and the thickness:", s.Depth)
	case !(s.Width >= 0) || math.IsInf(s.Width, 0):
		bad("score width", s.Width)
	case !(s.RootWidth >= 0 && s.RootWidth <= s.Width):
		bad("root width not between 0 and the mouth:", s.RootWidth)
	case s.Bottom > Vee:
		bad("bottom", float64(s.Bottom))
	}
	if s.RootWidth == 0 {
		switch s.Bottom {
		case Vee:
			s.RootWidth = s.Width / 3
		default:
			s.RootWidth = s.Width
		}
	}
	return s
}

// Material returns what New was given.
func (l Law) Material() Material { return l.mat }

// Score returns what New was given, with the root width filled in.
func (l Law) Score() Score { return l.score }

// Skin returns the web h = t - d, mm.
func (l Law) Skin() float64 { return l.score.Thickness - l.score.Depth }

// EPrime returns the modulus of plain bending, MPa: E/(1-nu^2), or E in a narrow strip.
func (l Law) EPrime() float64 { return l.eprime }

// PlainStiffness returns E' t^3/12 of the unscored panel, N mm^2 per mm of width.
func (l Law) PlainStiffness() float64 { return l.plain }
