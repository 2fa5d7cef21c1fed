// Package brace works out how hard a bent panel pulls and whether rib and glue hold
// it: the moment of the panel, the force that keeps its free end down, the stress in
// the rib and how far it gives when the clamps come off, and the pull on the glue.
//
// Everything is linear elastic beam theory (Timoshenko, Strength of Materials, part
// I: bending of bars; part II: beams on an elastic foundation). A rib is taken as a
// straight beam of its local depth; the correction for its curvature is below 10 %
// of the stress while the depth stays under a third of the radius.
package brace

import (
	"math"

	"springrib/internal/plane"
)

// Pull is what the panel asks of its rib at one place along the edge.
type Pull struct {
	S      float64 // arc length of the contact edge, mm
	P      plane.Point
	Moment float64 // N mm, over the rib's share of the panel's width
	Depth  float64 // of the rib there, mm
}

// Beam is the rib's stuff.
type Beam struct {
	Thickness float64 // mm
	E         float64 // MPa
}

// Strength is how the rib stands it.
type Strength struct {
	Stress   float64 // greatest bending stress, MPa
	StressAt float64 // arc length where
	// Movement is how far the rib's free end goes when the panel is let go, foot held
	// fast, mm.
	Movement float64
}

// Moment returns what a panel of bending stiffness ei (per mm of width, N mm) and
// width w pulls with at curvature kappa of its neutral fibre: N mm.
func Moment(kappa, ei, w float64) float64 { return kappa * ei * w }

// Hold works out stress 6 M/(b d^2) and release movement, the vector sum of the
// rotations M/(E I) ds of each place about the lever to the last one, by the
// trapezoid rule over the pulls. They come in order from the foot; the last one is
// the rib's free end.
func Hold(pulls []Pull, b Beam) Strength {
	var out Strength
	if len(pulls) == 0 {
		return out
	}
	tip := pulls[len(pulls)-1].P
	bend := func(p Pull) plane.Point {
		i := b.Thickness * p.Depth * p.Depth * p.Depth / 12
		return tip.Sub(p.P).Left().Mul(p.Moment / (b.E * i))
	}
	var move plane.Point
	for i, p := range pulls {
		if s := 6 * math.Abs(p.Moment) / (b.Thickness * p.Depth * p.Depth); s > out.Stress {
			out.Stress, out.StressAt = s, p.S
		}
		if i > 0 {
			q := pulls[i-1]
			move = move.Add(bend(p).Add(bend(q)).Mul((p.S - q.S) / 2))
		}
	}
	out.Movement = move.Len()
	return out
}

// EndForce returns the force in N that holds the free end of the panel to the curve:
// the moment over a straight tail of length tail; without one (tail = 0), over the
// length sqrt(6 gap/kappa) along which an end that stands off by gap lifts.
//
// For the second case the end beyond the last held place is a cantilever that must
// gain the curvature again: an end force F bends it by F l^3/(3 EI) against the
// sagitta kappa l^2/2, and the gap that remains is kappa l^2/6 with F = kappa EI/l.
func EndForce(kappa, ei, w, tail, gap float64) float64 {
	l := tail
	if l <= 0 {
		l = math.Sqrt(6 * gap / kappa)
	}
	return Moment(kappa, ei, w) / l
}

// FreeLength returns how far into a bend the glue may end so that the gap is reached at the
// end of a straight tail after it: kappa s^2/2 over the bend, and the slope kappa s that is
// gained there over the tail.
func FreeLength(kappa, gap, tail float64) float64 {
	return math.Sqrt(tail*tail+2*gap/kappa) - tail
}

// Glue is the line that joins panel and rib.
type Glue struct {
	Width float64 // of the glued face, mm
	Bond  float64 // strength across the weaker sheet, MPa (internal bond)
}

// Peel is what the end of a glue line sees.
type Peel struct {
	// Stress is an upper bound of the peel stress at the line's end, MPa: the panel as
	// a beam of stiffness EI w on the elastic bed k = E_z b/t, which takes the moment
	// as a line load of at most kappa sqrt(k EI w).
	Stress float64
	Use    float64 // Stress over Bond
	// Length is about how much of the line the moment takes at the bond's strength,
	// sqrt(M/(bond b)), mm: a straight tail at least this long would carry it.
	Length float64
}

// PeelAt returns the peel at an end of the glue line where the panel (thickness t,
// through-thickness modulus ez) has curvature kappa, stiffness ei per width, width w.
func PeelAt(kappa, ei, w, t, ez float64, g Glue) Peel {
	k := ez * g.Width / t
	stress := kappa * math.Sqrt(k*ei*w) / g.Width
	return Peel{
		Stress: stress,
		Use:    stress / g.Bond,
		Length: math.Sqrt(Moment(kappa, ei, w) / (g.Bond * g.Width)),
	}
}
