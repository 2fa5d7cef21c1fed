package hinge

import "math"

// The rules of the trade, for comparison only. They treat a score as a rigid hinge and
// know nothing of stiffness, strain or the distance between scores. Lengths in mm.

// DeflectionSpacing returns the spacing of saw kerfs by the deflection rule: the board
// is bent until one kerf shuts, and its deflection at the distance of the radius is the
// spacing, R sin(phi) with tan(phi) = width/depth. Building Construction, vol. 3, art.
// 13, Curved Risers, fig. 11 (technical-school text); B. Culhane, A Measured Approach
// to Kerfing, in Technical Design Solutions for Theatre.
func DeflectionSpacing(outerRadius, width, depth float64) float64 {
	return outerRadius * width / math.Hypot(width, depth)
}

// ArcDifferenceSpacing returns the spacing by the arc-difference rule: as many kerfs as
// the outer arc is longer than the inner, over their width. It counts the full
// thickness, not the depth, so it asks for more kerfs than shut. Common in trade texts.
func ArcDifferenceSpacing(outerRadius, width, thickness float64) float64 {
	return outerRadius * width / thickness
}

// MidplaneClosingAngle returns the angle at which a kerf, or a V of the same mouth and
// depth, shuts if it turns about its bottom: 2 atan(width/(2 depth)).
func MidplaneClosingAngle(width, depth float64) float64 { return 2 * math.Atan(width/(2*depth)) }

// MidplaneSpacing returns the spacing at which rigid hinges in the middle of the web
// just shut on an outer radius.
func MidplaneSpacing(outerRadius, thickness, width, depth float64) float64 {
	return MidplaneClosingAngle(width, depth) * (outerRadius - (thickness-depth)/2)
}

// KerfWidthSoftening returns C as if the hinge were as long as the kerf is wide, the
// usual guess; it is far too stiff for narrow scores.
func KerfWidthSoftening(s Score, p float64) float64 {
	eta := (s.Thickness - s.Depth) / s.Thickness
	return 1 + s.Width/p*(1/(eta*eta*eta)-1)
}
