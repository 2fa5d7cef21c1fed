package hinge

import "math"

// Material is a sheet as its bending across the scores feels it; x is along the bend,
// y along the scores, z through the thickness. Moduli in MPa.
type Material struct {
	E    float64 // bending modulus along x
	NuXY float64 // Poisson's ratio, strain along y for stress along x
	NuXZ float64 // the same through the thickness; unused for an isotropic sheet
	// EZ is the modulus through the thickness and GXZ the transverse shear modulus.
	// Both zero: the sheet is taken as isotropic.
	EZ, GXZ float64
	// Face is the modulus at either face over E, for a sheet that is stiffer there than
	// inside; 0 or 1 for one that is even. See layers.go for what lies between.
	Face float64
	// Narrow says that the piece is a strip about as narrow as the sheet is thick, or
	// a few times that: its plain stretches bend with E instead of E/(1-NuXY^2). The
	// web under a score is thin, and stays in plane strain all the same.
	Narrow bool
}

// Isotropic reports whether the sheet is taken as equally stiff in all directions.
func (m Material) Isotropic() bool { return m.EZ == 0 && m.GXZ == 0 }

// EPrime returns the modulus that a plain stretch bends with, MPa.
func (m Material) EPrime() float64 {
	if m.Narrow {
		return m.E
	}
	return m.E / (1 - m.NuXY*m.NuXY)
}

// Anisotropy returns the two numbers that carry softness through the thickness:
//
//	b11 = (1-nu_xy^2)/E_x, b22 = 1/E_z - nu_xz^2/E_x, b12 = -(nu_xz + nu_xy nu_xz)/E_x
//	lam = (b22/b11)^(1/4)                 how far a disturbance reaches along the panel
//	rho = (b12 + 1/(2 G_xz))/sqrt(b11 b22)
//
// The stress of one score dies away along the panel over a length that grows as
// lam sqrt((1+rho)/2) (Suo, as below, for the end of a delaminated beam).
//
// They are 1 and 1 for an isotropic sheet. Z. Suo, Delamination specimens for
// orthotropic materials, J. Appl. Mech. 57 (1990), plane strain; cited from memory, and
// confirmed by the orthotropic rows of testdata/reference/scored-cell-fe.csv.
func (m Material) Anisotropy() (lam, rho float64) {
	if m.Isotropic() {
		return 1, 1
	}
	b11 := (1 - m.NuXY*m.NuXY) / m.E
	b22 := 1/m.EZ - m.NuXZ*m.NuXZ/m.E
	b12 := -(m.NuXZ + m.NuXY*m.NuXZ) / m.E
	lam = math.Sqrt(math.Sqrt(b22 / b11))
	rho = (b12 + 1/(2*m.GXZ)) / math.Sqrt(b11*b22)
	return lam, rho
}

// crackFactor returns G, by which the rotation of an isolated score grows:
// lam Y(rho)^2 with the edge-notch factor
// Y = 1 + 0.1(rho-1) - 0.016(rho-1)^2 + 0.002(rho-1)^3.
//
// G. Bao, S. Ho, Z. Suo, B. Fan, The role of material orthotropy in fracture specimens
// for composites, Int. J. Solids Structures 29 (1992), for 0 <= rho <= 4; from memory,
// confirmed by the finite-element table.
func crackFactor(lam, rho float64) float64 {
	r := rho - 1
	y := 1 + r*(0.1+r*(-0.016+r*0.002))
	return lam * y * y
}

// mustBeSound panics unless the figures describe an elastic solid.
func (m Material) mustBeSound() {
	switch {
	case !(m.E > 0) || math.IsInf(m.E, 0):
		bad("modulus", m.E)
	case !(m.NuXY > -1 && m.NuXY < 1):
		bad("Poisson's ratio xy", m.NuXY)
	case !(m.NuXZ > -1 && m.NuXZ < 1):
		bad("Poisson's ratio xz", m.NuXZ)
	case !m.Even() && !(m.Face >= LeastFace && m.Face <= MostFace):
		bad("stiffness of the faces over the mean", m.Face)
	case m.Isotropic():
		return
	case !(m.EZ > 0) || math.IsInf(m.EZ, 0):
		bad("modulus through the thickness", m.EZ)
	case !(m.GXZ > 0) || math.IsInf(m.GXZ, 0):
		bad("transverse shear modulus", m.GXZ)
	case !(1/m.EZ > m.NuXZ*m.NuXZ/m.E):
		bad("Poisson's ratio xz too large for the two moduli:", m.NuXZ)
	}
	if _, rho := m.Anisotropy(); !(rho > -1) {
		bad("no elastic solid has the anisotropy number rho", rho)
	}
}
