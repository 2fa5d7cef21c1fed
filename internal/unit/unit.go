// Package unit reads quantities as people type them and prints them back.
//
// Inside the program lengths are millimetres, angles radians, stresses MPa
// (N/mm²), forces newtons, densities kg/m³; every Parse function
// returns those and every formatter takes them. A typed text is a decimal with a
// point or a comma, or a fraction, with or without a unit:
//
//	3   3.2 mm   6,35 mm   2 1/4 in   2-1/4"   ½ ″   1 ft 3 in   90°   1.57 rad
//
// What can't be read gives an *Error whose text tells the person what to write
// instead. There are no exponents, no hexadecimal, no infinities, and no marks
// between thousands, neither read nor printed.
package unit

import "math"

// System is the person's unit of length. A length typed without a unit is in it.
type System uint8

// The systems of length.
const (
	MM   System = iota // millimetres
	Inch               // inches, 25.4 mm exactly (international inch, 1959)
)

// String returns "mm" or "in".
func (s System) String() string {
	if s == Inch {
		return "in"
	}
	return "mm"
}

// SystemOf returns the System that a document calls name: "mm" or "in".
func SystemOf(name string) (System, bool) {
	switch name {
	case "mm":
		return MM, true
	case "in":
		return Inch, true
	}
	return MM, false
}

// Conversions to the units used inside.
const (
	MMPerInch = 25.4                      // exact, international yard and pound agreement, 1959
	Gravity   = 9.80665                   // m/s², exact, 3rd General Conference on Weights and Measures, 1901
	NPerGram  = Gravity / 1000            // weight of a gram, N
	NPerOunce = 28.349523125 * NPerGram   // avoirdupois ounce, 28.349523125 g exact, 1959
	NPerPound = 453.59237 * NPerGram      // 453.59237 g exact, 1959
	MPaPerPSI = NPerPound / (25.4 * 25.4) // 0.00689476
	degree    = math.Pi / 180
)

// Limit is the largest magnitude read, in the unit that was typed. Nothing on a
// bench comes near it, and with it no sum or product of typed figures overflows.
const Limit = 1e9

// Kind says what is wrong with a text.
type Kind uint8

// The kinds of Error.
const (
	Empty      Kind = iota // nothing typed
	Unfinished             // "2 1/", "-", "."
	NotNumber              // "abc", "inf"
	NeedsUnit              // "1/16" where bare figures are millimetres
	WrongUnit              // "3 kg" as a length
	Ambiguous              // "1,234"
	TooBig                 // over Limit
	TooLong                // more text than a figure needs
	NotWhole               // "2.5" as a count
)

// Error says why a text could not be read. It is meant for the person who typed it.
type Error struct {
	Kind  Kind
	Typed string // what was typed, shortened when long
	Text  string // one or two plain sentences: what is wrong, what to write
}

// Error returns Text.
func (e *Error) Error() string { return e.Text }
