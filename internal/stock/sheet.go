package stock

import "math"

// Sheet is what a part is cut from.
type Sheet struct {
	Stock     *Stock  // never written to; nil only on a part that nobody planned
	Thickness float64 // that the part is worked with, mm
	Own       bool    // the panel's own sheet
	Grained   bool    // its face grain matters
	Field     string  // of the design that says so, "rib.places.1.stock"
}

// oneSheet is how far thicknesses measured on one sheet lie apart at most, mm. Common
// practice, no source.
const oneSheet = 0.05

// Same tells whether parts of the two are cut from one sheet: of one stock, and as thick.
func (s Sheet) Same(o Sheet) bool {
	return s.Stock.ID == o.Stock.ID && math.Abs(s.Thickness-o.Thickness) <= oneSheet
}
