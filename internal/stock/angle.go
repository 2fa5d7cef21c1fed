package stock

import "math"

// OffAxis returns Young's modulus in a direction at angle theta (radians) to the
// stiff axis of an orthotropic sheet,
//
//	1/E = cos⁴/E1 + (1/G12 - 2 nu12/E1) sin² cos² + sin⁴/E2
//
// (R. M. Jones, Mechanics of Composite Materials, 2nd ed., 1999, section 2.6; S. G.
// Lekhnitskii, Theory of Elasticity of an Anisotropic Body, 1963). Exact for a
// homogeneous orthotropic sheet; plywood follows it as one when its plies are many.
// All moduli must be positive. E1, E2 and G12 share a unit.
func OffAxis(e1, e2, g12, nu12, theta float64) float64 {
	if !(e1 > 0 && e2 > 0 && g12 > 0) {
		return 0
	}
	s, c := math.Sin(theta), math.Cos(theta)
	s2, c2 := s*s, c*c
	return 1 / (c2*c2/e1 + (1/g12-2*nu12/e1)*s2*c2 + s2*s2/e2)
}

// Hankinson returns a strength or modulus at angle theta to the grain from its values
// along and across,
//
//	N = P Q / (P sin² + Q cos²)
//
// (R. L. Hankinson, Investigation of crushing strength of spruce at varying angles of
// grain, Air Service Information Circular 259, 1921; Wood Handbook FPL-GTR-190, 2010,
// chapter 5, equation 5-1 with exponent 2). Used for strengths, where no shear modulus
// enters, and as a check on OffAxis.
func Hankinson(along, across, theta float64) float64 {
	s, c := math.Sin(theta), math.Cos(theta)
	d := along*s*s + across*c*c
	if d == 0 {
		return 0
	}
	return along * across / d
}

// Laminate returns the bending moduli of a cross-laminated sheet along and across the
// grain of its faces, from the ply thicknesses and the veneer's moduli along (el) and
// across (et) its own grain: each ply counts with its own modulus and its second
// moment about the middle of a symmetric sheet, shear left out.
func Laminate(plies []float64, el, et float64) (along, cross float64) {
	total := 0.0
	for _, t := range plies {
		total += t
	}
	y, all := -total/2, total*total*total
	for i, t := range plies {
		a, b := y, y+t
		y = b
		share := 4 * (b*b*b - a*a*a) / all
		if i%2 == 1 {
			along, cross = along+share*et, cross+share*el
		} else {
			along, cross = along+share*el, cross+share*et
		}
	}
	return along, cross
}

// Skin returns the bending modulus of the skin left under a score, h thick from the
// uncut face, for bending along and across the face grain, each about the skin's own
// neutral axis. The plies are counted from the uncut face; the veneer's moduli are
// el and et. A skin inside one ply bends with that veneer alone: in a scored plywood
// it is this and not the sheet's modulus that the holding force comes from.
func Skin(plies []float64, h, el, et float64) (along, cross float64) {
	return skinOne(plies, h, el, et), skinOne(plies, h, et, el)
}

func skinOne(plies []float64, h, odd, even float64) float64 {
	var ea, eas, y float64
	walk := func(f func(e, a, b float64)) {
		y = 0
		for i, t := range plies {
			b := math.Min(y+t, h)
			if b <= y {
				return
			}
			e := odd
			if i%2 == 1 {
				e = even
			}
			f(e, y, b)
			y = b
		}
	}
	walk(func(e, a, b float64) { ea += e * (b - a); eas += e * (b*b - a*a) / 2 })
	if ea == 0 {
		return 0
	}
	axis, ei, depth := eas/ea, 0.0, y
	walk(func(e, a, b float64) {
		a, b = a-axis, b-axis
		ei += e * (b*b*b - a*a*a) / 3
	})
	return 12 * ei / (depth * depth * depth)
}

// GlueLine returns the glue line nearest to a skin h thick, counted from the uncut
// face, and how far the bottom of the score lies from it; ok is false for a sheet
// without plies. The plies as sold are scaled to the measured thickness t.
func GlueLine(plies []float64, t, h float64) (at, off float64, ok bool) {
	if len(plies) < 2 {
		return 0, 0, false
	}
	total := 0.0
	for _, p := range plies {
		total += p
	}
	y, off := 0.0, math.Inf(1)
	for i := len(plies) - 1; i > 0; i-- {
		y += plies[i] * t / total
		if d := math.Abs(y - h); d < off {
			at, off = y, d
		}
	}
	return at, off, true
}

// Edge returns the modulus of a part cut from the stock and bent on edge, in the
// plane of the sheet. The plies of plywood then share the load by thickness; a curved
// part meets the face grain at every angle, so that Value is the mean of along and
// across, and Low and High reach from the softer to the stiffer of the two.
func (s Stock) Edge() Figure {
	if len(s.Plies) == 0 {
		return s.bothWays(s.EAlong, s.ECross)
	}
	along, cross := s.edgeShares()
	f := s.bothWays(s.EAlong.Times(along/s.EAlong.Value), s.ECross.Times(cross/s.ECross.Value))
	f.Source, f.Grade = "plies shared by thickness; "+s.EAlong.Source, Computed
	return f
}

// EdgeStrength returns the bending strength of such a part. In plywood it is taken in
// proportion to the modulus, with the face grain's strain at rupture.
func (s Stock) EdgeStrength() Figure {
	if len(s.Plies) == 0 {
		return s.bothWays(s.MORAlong, s.MORCross)
	}
	e := s.Edge()
	f := s.MORAlong.Times(e.Value / s.EAlong.Value)
	f.Low *= e.Low / e.Value
	f.Source, f.Grade = "in proportion to the modulus on edge; "+s.MORAlong.Source, Computed
	return f
}

func (s Stock) bothWays(a, b Figure) Figure {
	if !s.Grain || !b.Given() {
		return a
	}
	a.Value = (a.Value + b.Value) / 2
	a.Low, a.High = math.Min(a.Low, b.Low), math.Max(a.High, b.High)
	return a
}

// edgeShares returns the in-plane moduli along and across the face grain, nominally.
func (s Stock) edgeShares() (along, cross float64) {
	el, et := s.Veneer()
	var odd, all float64
	for i, t := range s.Plies {
		all += t
		if i%2 == 0 {
			odd += t
		}
	}
	q := odd / all
	return q*el + (1-q)*et, (1-q)*el + q*et
}
