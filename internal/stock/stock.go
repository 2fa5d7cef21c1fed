// Package stock holds sheet goods: how thick, how stiff, how far they bend before
// they break, each figure with its spread and where it comes from.
//
// Units are mm, MPa (N/mm²), kg/m³; strains and ratios are plain numbers. Handbook
// figures describe a material, not the sheet in hand: EN 622-5:2009, "Fibreboards -
// Specifications - Part 5: Requirements for dry process boards (MDF)", says of its own
// that they are not characteristic values for design calculations. A test strip
// of the sheet is worth more than anything in here.
package stock

import (
	"math"
	"strings"
)

// Grade says how far a figure can be trusted.
type Grade string

// The grades, best first.
const (
	Tested    Grade = "tested"          // from test strips of the person's own sheet
	Typed     Grade = "typed"           // entered by the person
	Published Grade = "published"       // read in the source, or in a copy of it
	Computed  Grade = "computed"        // worked out from other figures here
	MemoryOK  Grade = "memory, high"    // from memory, confidence high
	MemoryMid Grade = "memory, fair"    // from memory, confidence medium
	MemoryLow Grade = "memory, low"     // from memory, confidence low: within a factor of two
	Practice  Grade = "common practice" // common practice, no source
)

// Handbook tells whether the figure describes the material in general and not the
// sheet in hand.
func (g Grade) Handbook() bool { return g != Tested && g != Typed }

// Figure is a property with its spread. Low and High are where a sheet bought under
// the name may well lie, about nine in ten, not absolute limits. The zero Figure
// means that the stock has no such property.
type Figure struct {
	Value, Low, High float64
	Source           string
	Grade            Grade
}

// Given tells whether the figure is there at all.
func (f Figure) Given() bool { return f.Value != 0 }

// Times returns f with value and spread scaled by k > 0.
func (f Figure) Times(k float64) Figure {
	f.Value, f.Low, f.High = f.Value*k, f.Low*k, f.High*k
	return f
}

// Bad returns the low end of a strength, where one is known.
func (f Figure) Bad() float64 {
	if f.Low > 0 && f.Low < f.Value {
		return f.Low
	}
	return f.Value
}

// Spread returns the larger relative distance from Value to an end.
func (f Figure) Spread() float64 {
	if f.Value == 0 {
		return 0
	}
	return math.Max(f.High-f.Value, f.Value-f.Low) / math.Abs(f.Value)
}

// Family groups stocks that behave alike.
type Family string

// The families.
const (
	Fibreboard Family = "fibreboard"
	Plywood    Family = "plywood"
	Plastic    Family = "plastic"
	Paper      Family = "paper"
)

// Stock is one kind of sheet. "Along" is along the face grain (of paper: the machine
// direction), "Cross" across it, both in the plane of the sheet; a stock without
// grain has only the Along figures and Grain false.
type Stock struct {
	ID, Name  string
	Unsized   bool // of no thickness by name: Thickness is one that is usual
	Family    Family
	Grain     bool
	Thickness Figure // nominal; Low and High are the tolerance as sold

	EAlong, ECross     Figure // bending modulus, MPa
	MORAlong, MORCross Figure // bending strength, MPa
	RuptureAlong       Figure // outer strain at rupture when bent along the grain
	RuptureCross       Figure
	GInPlane           Figure // shear modulus in the plane, MPa
	EZ                 Figure // modulus through the thickness, MPa
	GXZAlong, GXZCross Figure // transverse shear modulus when bent along or across the grain, MPa
	NuXY, NuXZ         Figure // Poisson's ratio in the plane, and through the thickness
	Face               Figure // modulus at the faces over that in bending; none for a sheet taken as even
	Density            Figure // kg/m³
	InternalBond       Figure // strength across the thickness, MPa: what a glue line on the face can pull
	KDef1, KDef2       Figure // creep factor in service class 1 (heated room) and 2 (covered outdoors)
	Sustained          Figure // outer strain not to be held for long

	Plies []float64 // thickness of each ply from the top face as sold, mm; nil when not built of plies
	Laser Laser
	// Notes belong beside whatever cuts this stock, BeamNotes beside a laser alone.
	Notes, BeamNotes []string
}

// Laser says whether a stock may go under a laser.
type Laser struct {
	Never bool
	Why   string
}

// Lookup returns the stock called id.
func Lookup(id string) (Stock, bool) {
	for _, s := range table() {
		if s.ID == id {
			return s, true
		}
		if material, _, _ := strings.Cut(s.ID, "-"); material == id {
			return anyThickness(s), true
		}
	}
	return Stock{}, false
}

// Bent returns the elastic figures for bending in a direction at angle theta
// (radians) to the face grain: E by the orthotropic transformation, G_xz by the
// rotation of transverse shear stiffness (cos², sin²), and strength and rupture
// strain on the way from one direction to the other by Hankinson's formula. A stock
// without grain is the same at every angle.
func (s Stock) Bent(theta float64) (e, gxz, mor, rupture Figure) {
	if !s.Grain {
		return s.EAlong, s.GXZAlong, s.MORAlong, s.RuptureAlong
	}
	c := math.Cos(theta)
	c2 := c * c
	e = both(s.EAlong, s.ECross, func(a, b float64) float64 {
		return OffAxis(a, b, s.GInPlane.Value, s.NuXY.Value, theta)
	})
	gxz = both(s.GXZAlong, s.GXZCross, func(a, b float64) float64 { return a*c2 + b*(1-c2) })
	mor = both(s.MORAlong, s.MORCross, func(a, b float64) float64 { return Hankinson(a, b, theta) })
	rupture = both(s.RuptureAlong, s.RuptureCross, func(a, b float64) float64 { return Hankinson(a, b, theta) })
	return e, gxz, mor, rupture
}

// both combines two figures end by end; the poorer source speaks for the result.
func both(a, b Figure, f func(a, b float64) float64) Figure {
	r := Figure{Value: f(a.Value, b.Value), Low: f(a.Low, b.Low), High: f(a.High, b.High), Source: a.Source, Grade: a.Grade}
	if b.Spread() > a.Spread() && f(0, 1) > 1e-6 {
		r.Source, r.Grade = b.Source, b.Grade
	}
	return r
}
