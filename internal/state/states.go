// Package state is a sheet and the machine that scores it in every state that they may be in.
//
// Nobody knows depth, width, thickness and the sheet's figures exactly: each is a likely value
// with a range. Scoring.At takes how far each lies from its likely value, and returns the law of
// the scored panel and the strain that breaks its skin. Swings asks how a figure answers to all
// ranges together, and Spread and Drift what comes of it at both ends. Stiffness is that of
// the scored panel, in which the skin of plywood may be stiffer or softer than the whole sheet.
package state

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/hinge"
	"springrib/internal/machine"
	"springrib/internal/solve"
	"springrib/internal/stock"
)

// Quantity is one of what nobody knows exactly.
type Quantity uint8

// The quantities, in the order in which equal shares are told.
const (
	Depth     Quantity = iota // of a score: depth, or the skin where it is set from the table
	Width                     // of a score at its mouth
	Thickness                 // of the sheet
	Modulus                   // E of the sheet in bending
	Through                   // E_z, modulus through the thickness
	Shear                     // G_xz, transverse shear modulus
	Rupture                   // strain at which the skin breaks
	Faces                     // stiffness of the faces over the mean
	Quantities
)

// Moved is one state of sheet and machine: how far each quantity lies from its nominal
// value, in halves of its range, +1 at the high end and -1 at the low one.
type Moved [Quantities]float64

// Scoring is a sheet with the machine that scores it. They are pointers because states are
// asked for by the thousand.
type Scoring struct {
	Sheet   *design.SheetValues
	Machine *design.MachineValues
}

// At returns law and rupture strain after passes with the quantities moved. Lengths
// measured from a face move in proportion, all else by ratios, so that half way to a
// low end of 1/4 lies at 1/2.
func (g Scoring) At(passes int, x Moved) (hinge.Law, float64) {
	s, m := g.Sheet, g.Machine
	t := s.T + x[Thickness]*s.TSpread
	off := -x[Depth] * m.Spread(passes)
	if m.Reference == machine.Top {
		off += x[Thickness] * s.TSpread
	}
	skin := m.Skin(passes, s.T, 0).Value + off
	half := math.Min(m.WidthSpread, 0.9*m.ScoreWidth)
	w := m.ScoreWidth + x[Width]*half
	e, ez, gxz := within(s.E, x[Modulus]), within(s.EZ, x[Through]), within(s.GXZ, x[Shear])
	return g.LawOf(t, skin, w, Solid(e, s.NuXY.Value, s.NuXZ.Value, ez, gxz, within(s.Face, x[Faces]))), within(s.Rupture, x[Rupture])
}

// within returns a figure at x: its value at 0, its ends at -1 and 1.
func within(f stock.Figure, x float64) float64 {
	switch {
	case x > 0 && f.High > f.Value:
		return f.Value * solve.Pow(f.High/f.Value, x)
	case x < 0 && f.Low > 0 && f.Low < f.Value:
		return f.Value * solve.Pow(f.Low/f.Value, -x)
	}
	return f.Value
}

// Solid returns the material, with E_z and G_xz held to what a solid can have: the law
// panics on less, and a person may type anything. The bounds keep 1/E_z over
// nu_xz^2/E and rho over 0 (see hinge.Material). Faces are held to what the law knows.
func Solid(e, nuXY, nuXZ, ez, gxz, face float64) hinge.Material {
	if nuXZ > 0 {
		ez = math.Min(ez, 0.9*e/(nuXZ*nuXZ))
		gxz = math.Min(gxz, e/(2*nuXZ*(1+nuXY)))
	}
	if face > 0 {
		face = math.Min(math.Max(face, hinge.LeastFace), hinge.MostFace)
	}
	return hinge.Material{E: e, NuXY: nuXY, NuXZ: nuXZ, EZ: ez, GXZ: gxz, Face: face}
}

// LawOf builds the law; the skin is held to what has a law at all.
func (g Scoring) LawOf(t, skin, w float64, mat hinge.Material) hinge.Law {
	skin = math.Min(math.Max(skin, 0.02*t), 0.98*t)
	sc := hinge.Score{Thickness: t, Depth: t - skin, Width: w, Bottom: BottomOf(g.Machine.Bottom)}
	if g.Machine.Bottom == machine.Vee {
		sc.RootWidth = w / 3
	}
	return hinge.New(mat, sc)
}

// Swing is how a positive figure answers to the range of every quantity.
//
// Each quantity is moved to both of its ends, the others staying nominal, and the
// logarithm of what that does to the figure is taken, d_j upward and downward. The
// quantities err independently, so the figure's range is what moving each by its share
// a_j = d_j/sqrt(sum d_j^2) does: the point on the unit sphere of all in which
// the figure is largest, or smallest, as far as logarithms add up (A. M. Hasofer, N. C.
// Lind, Exact and invariant second-moment code format, J. Eng. Mech. Div. ASCE 100
// (1974), 111-121, the first step of it). Where they do add up this is the sum in
// quadrature; the point is a state that a sheet could be in, so that a spacing can be
// asked to be sound in it.
type Swing struct {
	Up, Down   Moved
	sizes      [Quantities]float64 // d_j upward
	falls      [Quantities]float64 // d_j downward
	rise, fall float64             // their roots of sums of squares
	bend       [Quantities]float64 // half of what both ends of a quantity add up to: 0 where they are opposite
}

// Below is what the figure in the state Down is to be taken times for nine figures in ten to lie
// within its range: across the way to that state all quantities scatter too, and where both ends of
// one lower the figure that moves it by bend times their variance (K. Breitung, Asymptotic
// approximations for multinormal integrals, J. Eng. Mech. ASCE 110 (1984), to first order). At the
// upper end the same is left out: there it would only spare.
func (s *Swing) Below() float64 {
	sum := 0.0
	for q, b := range s.bend {
		sum += b * (1 - s.Down[q]*s.Down[q])
	}
	return solve.Exp(math.Min(0, sum) / (NineInTen * NineInTen))
}

// Figure is something that a state of sheet and machine decides; it must be positive.
type Figure func(law hinge.Law, rupture float64) float64

// Swings returns the swing of every figure after passes.
func (g Scoring) Swings(passes int, figures ...Figure) []Swing {
	law, rupture := g.At(passes, Moved{})
	nominal := make([]float64, len(figures))
	for i, f := range figures {
		nominal[i] = math.Log(f(law, rupture))
	}
	out := make([]Swing, len(figures))
	for q := range Quantities {
		if q == Faces && g.Sheet.Face.Low == g.Sheet.Face.High {
			continue // nothing to ask, as of most sheets
		}
		moved := func(to float64) func(i int) float64 {
			var x Moved
			x[q] = to
			law, rupture := g.At(passes, x)
			return func(i int) float64 { return math.Log(figures[i](law, rupture)) - nominal[i] }
		}
		up, down := moved(1), moved(-1)
		for i := range figures {
			a, b := up(i), down(i)
			out[i].take(q, 1, a)
			out[i].take(q, -1, b)
			out[i].bend[q] = (a + b) / 2
			if turn := -(a - b) / (2 * (a + b)); turn > -1 && turn < 1 { // it turns on the way
				out[i].take(q, turn, moved(turn)(i))
			}
		}
	}
	for i := range out {
		out[i].settle()
	}
	return out
}

// take notes what moving q to an end does.
func (s *Swing) take(q Quantity, end, d float64) {
	if d > s.sizes[q] {
		s.sizes[q], s.Up[q] = d, end
	}
	if -d > s.falls[q] {
		s.falls[q], s.Down[q] = -d, end
	}
}

func (s *Swing) settle() {
	s.rise, s.fall = norm(s.sizes), norm(s.falls)
	for q := range Quantities {
		s.Up[q] *= s.sizes[q] / math.Max(s.rise, 1e-300)
		s.Down[q] *= s.falls[q] / math.Max(s.fall, 1e-300)
	}
}

func norm(v [Quantities]float64) float64 {
	sum := 0.0
	for _, d := range v {
		sum += d * d
	}
	return math.Sqrt(sum)
}

// Law returns the law after a number of passes, all figures nominal.
func (g Scoring) Law(passes int) hinge.Law {
	law, _ := g.At(passes, Moved{})
	return law
}

// Narrow is the law of a strip.
func (g Scoring) Narrow(passes int) hinge.Law {
	law := g.Law(passes)
	m := law.Material()
	m.Narrow = true
	return hinge.New(m, law.Score())
}

// Softness is the modulus through the thickness, MPa.
func (g Scoring) Softness() float64 {
	if ez := g.Sheet.EZ.Value; ez > 0 {
		return ez
	}
	return g.Sheet.E.Value
}

// NineInTen turns a standard deviation into half the range that nine in ten lie in, as
// the ranges of package stock are meant (normal distribution).
const NineInTen = 1.645

func BottomOf(b machine.Bottom) hinge.Bottom {
	switch b {
	case machine.Flat:
		return hinge.Flat
	case machine.Vee:
		return hinge.Vee
	}
	return hinge.Round
}

// Nominal is the material of a sheet with all figures as they are likeliest.
func Nominal(s *design.SheetValues) hinge.Material {
	return Solid(s.E.Value, s.NuXY.Value, s.NuXZ.Value, s.EZ.Value, s.GXZ.Value, s.Face.Value)
}
