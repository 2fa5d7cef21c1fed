package brace

import "math"

// Bed is the panel on its glue line, seen as a beam on an elastic bed: what of the
// panel's thickness gives under a pull of the glue.
type Bed struct {
	EI    float64 // of the panel over the width that the rib holds, N mm^2
	T     float64 // thickness of the panel, mm
	EZ    float64 // its modulus through the thickness, MPa
	Width float64 // of the glued face, mm
}

// stiffness is k = E_z b/t, N/mm per mm of length.
func (b Bed) stiffness() float64 { return b.EZ * b.Width / b.T }

// Reach returns 1/lambda = (4 EI/k)^(1/4), the length over which the bed evens out a
// disturbance, mm.
func (b Bed) Reach() float64 { return math.Sqrt(math.Sqrt(4 * b.EI / b.stiffness())) }

// stepShare is exp(-pi/4)/(2 sqrt 2): where the moment that bends the panel changes at once
// by dm, with glue on for some reaches either way - the end of an arc that a glued straight
// follows, a step from one radius to another - the greatest pull on the glue is
//
//	stepShare |dm| sqrt(k/EI)/b
//
// With z = lambda s the panel lifts by B exp(-z) sin z on one side of the step and sinks
// by as much on the other; its curvature makes up the step, 4 lambda^2 B EI = dm, and
// the greatest of exp(-z) sin z is exp(-pi/4)/sqrt 2 (M. Hetenyi, Beams on Elastic
// Foundation, 1946, chapter 2, the beam of unlimited length; worked out here).
//
// It is 0.161 of what the same step does at a free end of the line, kappa sqrt(k EI)
// (PeelAt).
const stepShare = 0.16119709889606

// Along returns the pull on the glue at s, MPa, where m is the panel's moment over the
// line: its second derivative, taken over h to either side. Over Span a step of the
// moment comes out as stepShare says; over a longer h it is spread as a glue line spreads it
// that gives before it lets go, with the block of pull on one side of the step and of
// pressure on the other that sqrt(M/(bond b)) counts with at a straight end. What varies
// over more than h comes out as its true derivative either way.
func (b Bed) Along(m func(s float64) float64, s, h float64) float64 {
	return math.Abs(m(s-h)-2*m(s)+m(s+h)) / (h * h * b.Width)
}

// Span returns the h over which Along gives for a step what stepShare says, mm.
func (b Bed) Span() float64 { return b.Reach() / math.Sqrt(2*stepShare) }

// Released returns the curvature that a glued panel and rib settle at when the clamps
// come off: the panel's pull kappa ei bends both, which are taken as two beams that share
// it, kappa_final = kappa rib/(rib + ei). The glue makes them one beam and stiffer than
// that, which is not counted on.
func Released(kappa, ei, rib float64) float64 { return kappa * rib / (rib + ei) }
