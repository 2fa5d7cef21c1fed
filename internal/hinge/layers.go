package hinge

// Pressed board is denser, and so stiffer, at its faces than in its core, and the skin left
// under a score is a face. The sheet's modulus at height y is taken as
//
//	E(y)/E = 1 + b ((1 - 2y/t)^2 - 3/5),   b = 5/2 (r - 1),   r = E(0)/E
//
// a parabola with r at either face, E at 0.11 t below it and 1 - 3/2 (r - 1) in the middle. E
// is the modulus in bending, which the 3/5 keeps. Every other modulus goes along, so that
// E_z/E and G_xz/E are the same at all depths.
//
// The parabola is the simplest profile with one number that is known of boards: faces of
// about 1000 kg/m3, 1 to 2 mm deep in board of 16 to 19 mm, and 600 to 700 inside (a trade
// article on surface density, read; the profile comes from the hot press: Wang, Winistorfer,
// Young, Wood Fiber Sci., part III of their series, abstract read) make a mean of 770 as a
// parabola, which is that of such boards. A board with three plain layers is another thing:
// see layered-fe.csv, where with r 1.15 and layers of 0.15 t its C is up to 12 % above the
// law's, with r 1.3 up to 27 %. The ratio that a depth strip finds then is one that fits the
// skins it was found with.

// LeastFace and MostFace bound Material.Face: past them a core would be as stiff again as
// the sheet, or hardly stiff at all. Checked are 1 to 1.3.
const (
	LeastFace = 0.7
	MostFace  = 1.5
)

// Constants of layered sheets, fitted to the parabolas of testdata/reference/layered-fe.csv
// (this project): how much more hinge a lone score has, and strain factor, for each unit of
// r-1. Where the score ends the sheet is softer than the skin is, so that land beside it
// gives way further.
const (
	layerHinge  = 0.21
	layerStrain = 0.05
)

// skin returns what a skin of eta of the thickness is beside that of an even sheet, as a beam:
// its EI over E h^3/12, and where the fibre lies that bending leaves alone, from the uncut face
// and over h/2.
func (m Material) skin(eta float64) (stiff, arm float64) {
	if m.Even() {
		return 1, 1
	}
	b := 2.5 * (m.Face - 1)
	e2 := eta * eta
	area := m.Face - 2*b*eta + 4.0/3*b*e2 // moments of E/E about the face, over eta, eta^2, eta^3
	first := m.Face/2 - 4.0/3*b*eta + b*e2
	second := m.Face/3 - b*eta + 0.8*b*e2
	axis := first / area
	return 12 * (second - first*axis), 2 * axis
}

// graded returns the factors of layers on the hinge length of a lone score and on its strain.
func (m Material) graded() (hinge, strain float64) {
	if m.Even() {
		return 1, 1
	}
	return 1 + layerHinge*(m.Face-1), 1 + layerStrain*(m.Face-1)
}

// Even reports whether the sheet is taken as equally stiff at all depths.
func (m Material) Even() bool { return m.Face == 0 || m.Face == 1 }
