package export

import (
	"fmt"
	"math"
	"strconv"

	"springrib/internal/plane"
)

// Step is the grid all coordinates in files lie on, mm. It is a tenth of the
// 0.01 mm within which outlines are fitted and far below what any cutter repeats.
const Step = 0.001

// Far is the largest coordinate a writer takes, mm: a kilometre. Anything beyond
// is a mistake of the caller.
const Far = 1e6

// decimals of the two kinds of number in files.
const (
	lengthDecimals = 3 // lengths in mm: Step
	// ratioDecimals is for bulges, knots and scale factors. A bulge b on a chord c
	// puts the middle of an arc at b c/2 from the chord, so half a unit in the
	// ninth decimal moves the middle of a 2 m chord by 0.5 nm.
	ratioDecimals = 9
)

// Round returns v rounded to the grid that files use, never -0.
//
// Every coordinate in every file is Round of a coordinate of the job (or of the
// sheet's height less it, where Y points down), so a plan that wants to know what
// a machine will get rounds with this.
func Round(v float64) float64 {
	checkFinite(v)
	return math.Round(v*1000)/1000 + 0 // -0 + 0 is +0
}

// RoundPoint returns p with both coordinates rounded.
func RoundPoint(p plane.Point) plane.Point { return plane.Pt(Round(p.X), Round(p.Y)) }

func checkFinite(v float64) {
	if !(math.Abs(v) <= Far) {
		panic(fmt.Sprintf("export: %v is not a length on a sheet", v))
	}
}

// appendLength appends v rounded to Step as a plain decimal: no exponent, no "-0",
// no zeros at the end.
func appendLength(b []byte, v float64) []byte { return appendDecimal(b, v, lengthDecimals) }

// appendRatio appends v with ratioDecimals decimals in the same form.
func appendRatio(b []byte, v float64) []byte { return appendDecimal(b, v, ratioDecimals) }

// length is appendLength as a string.
func length(v float64) string { return string(appendLength(nil, v)) }

// appendDecimal is the one place where a number becomes text. It works on the
// scaled integer, which up to Far and nine decimals is exact in a float64.
func appendDecimal(b []byte, v float64, decimals int) []byte {
	checkFinite(v)
	scale := 1.0
	for range decimals {
		scale *= 10
	}
	n := int64(math.Round(v * scale))
	if n < 0 {
		b = append(b, '-')
		n = -n
	}
	unit := int64(scale)
	b = strconv.AppendInt(b, n/unit, 10)
	frac := n % unit
	if frac == 0 {
		return b
	}
	b = append(b, '.')
	for frac > 0 {
		unit /= 10
		b = append(b, byte('0'+frac/unit))
		frac %= unit
	}
	return b
}
