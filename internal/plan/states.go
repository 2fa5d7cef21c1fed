package plan

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/hinge"
	"springrib/internal/machine"
	"springrib/internal/score"
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
	quantities
)

// moved is one state of sheet and machine: how far each quantity lies from its nominal
// value, in halves of its range, +1 at the high end and -1 at the low one.
type moved [quantities]float64

// scoring is a sheet with the machine that scores it. They are pointers because states are
// asked for by the thousand.
type scoring struct {
	sheet   *design.SheetValues
	machine *design.MachineValues
}

func (p *Plan) scoring() scoring { return scoring{&p.V.Sheet, &p.V.Machine} }

// state returns law and rupture strain after passes with the quantities moved. Lengths
// measured from a face move in proportion, all else by ratios, so that half way to a
// low end of 1/4 lies at 1/2.
func (g scoring) state(passes int, x moved) (hinge.Law, float64) {
	s, m := g.sheet, g.machine
	t := s.T + x[Thickness]*s.TSpread
	off := -x[Depth] * m.Spread(passes)
	if m.Reference == machine.Top {
		off += x[Thickness] * s.TSpread
	}
	skin := m.Skin(passes, s.T, 0).Value + off
	half := math.Min(m.WidthSpread, 0.9*m.ScoreWidth)
	w := m.ScoreWidth + x[Width]*half
	e, ez, gxz := within(s.E, x[Modulus]), within(s.EZ, x[Through]), within(s.GXZ, x[Shear])
	return g.lawOf(t, skin, w, solid(e, s.NuXY.Value, s.NuXZ.Value, ez, gxz, within(s.Face, x[Faces]))), within(s.Rupture, x[Rupture])
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

// solid returns the material, with E_z and G_xz held to what a solid can have: the law
// panics on less, and a person may type anything. The bounds keep 1/E_z over
// nu_xz^2/E and rho over 0 (see hinge.Material). Faces are held to what the law knows.
func solid(e, nuXY, nuXZ, ez, gxz, face float64) hinge.Material {
	if nuXZ > 0 {
		ez = math.Min(ez, 0.9*e/(nuXZ*nuXZ))
		gxz = math.Min(gxz, e/(2*nuXZ*(1+nuXY)))
	}
	if face > 0 {
		face = math.Min(math.Max(face, hinge.LeastFace), hinge.MostFace)
	}
	return hinge.Material{E: e, NuXY: nuXY, NuXZ: nuXZ, EZ: ez, GXZ: gxz, Face: face}
}

// lawOf builds the law; the skin is held to what has a law at all.
func (g scoring) lawOf(t, skin, w float64, mat hinge.Material) hinge.Law {
	skin = math.Min(math.Max(skin, 0.02*t), 0.98*t)
	sc := hinge.Score{Thickness: t, Depth: t - skin, Width: w, Bottom: bottomOf(g.machine.Bottom)}
	if g.machine.Bottom == machine.Vee {
		sc.RootWidth = w / 3
	}
	return hinge.New(mat, sc)
}

// swing is how a positive figure answers to the range of every quantity.
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
type swing struct {
	up, down   moved
	sizes      [quantities]float64 // d_j upward
	falls      [quantities]float64 // d_j downward
	rise, fall float64             // their roots of sums of squares
}

// figure is something that a state of sheet and machine decides; it must be positive.
type figure func(law hinge.Law, rupture float64) float64

// swings returns the swing of every figure after passes.
func (g scoring) swings(passes int, figures ...figure) []swing {
	law, rupture := g.state(passes, moved{})
	nominal := make([]float64, len(figures))
	for i, f := range figures {
		nominal[i] = math.Log(f(law, rupture))
	}
	out := make([]swing, len(figures))
	for q := range quantities {
		if q == Faces && g.sheet.Face.Low == g.sheet.Face.High {
			continue // nothing to ask, as of most sheets
		}
		for _, end := range [2]float64{1, -1} {
			var x moved
			x[q] = end
			law, rupture := g.state(passes, x)
			for i, f := range figures {
				out[i].take(q, end, math.Log(f(law, rupture))-nominal[i])
			}
		}
	}
	for i := range out {
		out[i].settle()
	}
	return out
}

// take notes what moving q to an end does.
func (s *swing) take(q Quantity, end, d float64) {
	if d > s.sizes[q] {
		s.sizes[q], s.up[q] = d, end
	}
	if -d > s.falls[q] {
		s.falls[q], s.down[q] = -d, end
	}
}

func (s *swing) settle() {
	s.rise, s.fall = norm(s.sizes), norm(s.falls)
	for q := range quantities {
		s.up[q] *= s.sizes[q] / math.Max(s.rise, 1e-300)
		s.down[q] *= s.falls[q] / math.Max(s.fall, 1e-300)
	}
}

func norm(v [quantities]float64) float64 {
	sum := 0.0
	for _, d := range v {
		sum += d * d
	}
	return math.Sqrt(sum)
}

// ends are the bad and the good ends of how near cracking and pinching are, as states.
type ends struct{ crack, pinch swing }

// ends finds them before there is a layout, at the spacing that the nominal state asks
// for where the edge bends most. The spacing that comes of it is narrower at most by
// what the bad ends ask; that turns the point on the sphere a little, which changes the
// figure there little. So does taking the spacing from a ladder, by less than 3e-4 of the
// figure: curves that differ little then share their ends, and the tables made of them.
// What is told of a layout asks its own worst fold anew.
func (p *Plan) ends(passes int) ends {
	pitch := rung(p.referencePitch(passes))
	s := p.scoring().swings(passes,
		func(l hinge.Law, rupture float64) float64 { return l.Strain(pitch, 1) / rupture },
		func(l hinge.Law, _ float64) float64 { return l.MouthLever(pitch) / l.Score().Width })
	return ends{s[0], s[1]}
}

// rung returns the power of 1.03 nearest to a length.
func rung(x float64) float64 {
	const step = 0.0295588022415444 // ln 1.03
	return solve.Exp(step * math.Round(math.Log(x)/step))
}

func (p *Plan) referencePitch(passes int) float64 {
	v := p.V.Panel
	law, rupture := p.scoring().state(passes, moved{})
	t := p.V.Sheet.T
	if v.Spacing == design.FixedPitch {
		return v.Pitch
	}
	if v.Spacing == design.FixedCount {
		return math.Max(p.Section.bent()/float64(max(1, v.Count)), 0.05*t)
	}
	lim := p.Limits([]score.Case{{Law: law, Strain: p.strainAllowed(rupture), Closing: v.ClosingSafe}})
	k, sign := 0.0, 0
	for _, st := range p.Section.Edge.Stretches() {
		if tight, _ := st.Shape.Tightest(); st.Sign != 0 && tight > k {
			k, sign = tight, st.Sign
		}
	}
	if k <= 0 {
		return t
	}
	return lim.Wanted(k, (sign > 0) != p.Section.PanelLeft, p.Section.Towards).Pitch
}
