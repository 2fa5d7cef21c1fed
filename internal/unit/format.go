package unit

import (
	"math"
	"strconv"
	"strings"
)

// Decimal prints v with at most places decimals, trailing zeros dropped, never with
// an exponent. What is no ordinary figure is said in words.
func Decimal(v float64, places int) string {
	switch {
	case math.IsNaN(v):
		return "unknown"
	case v > 1e15:
		return "without limit"
	case v < -1e15:
		return "below any limit"
	}
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.IndexByte(s, '.') >= 0 {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

func ordinary(v float64) bool { return math.Abs(v) <= 1e15 } // false for NaN

// Length prints a length to the figures that matter at a bench. Millimetres: 0.01
// under 10 mm, 0.1 above. Inches: a fraction down to 64ths where one lies within
// 0.05 mm and the length is at least 1/16 in; otherwise 0.001.
func Length(mm float64, sys System) string {
	if !ordinary(mm) {
		return Decimal(mm, 0)
	}
	if sys == Inch {
		if f, ok := fraction(mm/MMPerInch, 0.05/MMPerInch); ok && math.Abs(mm) >= MMPerInch/16-0.05 {
			return f + " in"
		}
		return Decimal(mm/MMPerInch, 3) + " in"
	}
	if math.Abs(mm) < 9.995 {
		return Decimal(mm, 2) + " mm"
	}
	return Decimal(mm, 1) + " mm"
}

// LengthFine prints a length for a caliper or a table of positions: 0.001 mm or
// 0.0001 in, always decimal.
func LengthFine(mm float64, sys System) string {
	if !ordinary(mm) {
		return Decimal(mm, 0)
	}
	if sys == Inch {
		return Decimal(mm/MMPerInch, 4) + " in"
	}
	return Decimal(mm, 3) + " mm"
}

// LengthFit prints a length where a fit decides, for a caliper: 0.01 mm or 0.001 in,
// always decimal.
func LengthFit(mm float64, sys System) string {
	if !ordinary(mm) {
		return Decimal(mm, 0)
	}
	if sys == Inch {
		return Decimal(mm/MMPerInch, 3) + " in"
	}
	return Decimal(mm, 2) + " mm"
}

// Plural counts things: "1 score", "2 scores", "2 passes".
func Plural(n int, thing string) string {
	if n != 1 && strings.HasSuffix(thing, "s") {
		thing += "e"
	}
	if n != 1 {
		thing += "s"
	}
	return strconv.Itoa(n) + " " + thing
}

// The puts "the" before the name of a part, unless it has a number: "the panel", "rib 1".
func The(name string) string {
	if name != "" && name[len(name)-1] >= '0' && name[len(name)-1] <= '9' || strings.HasSuffix(name, ")") {
		return name
	}
	return "the " + name
}

// Upper begins a sentence with text, which is plain English.
func Upper(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// List joins words as a sentence does: "a", "a and b", "a, b and c".
func List(words []string) string {
	n := len(words) - 1
	if n < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n], ", ") + " and " + words[n]
}

// fraction writes v as a whole number and a fraction in lowest terms, denominators
// 2 to 64, when one lies within tol of it. Ties and near misses go to the smaller
// denominator: the coarsest that serves is what a rule shows.
func fraction(v, tol float64) (string, bool) {
	sign := ""
	if v < 0 {
		sign, v = "-", -v
	}
	if v > 1e6 {
		return "", false
	}
	for den := 1; den <= 64; den *= 2 {
		n := math.Round(v * float64(den))
		if n == 0 || math.Abs(n/float64(den)-v) > tol {
			continue
		}
		whole, top := int(n)/den, int(n)%den
		switch {
		case top == 0:
			return sign + strconv.Itoa(whole), true
		case whole == 0:
			return sign + strconv.Itoa(top) + "/" + strconv.Itoa(den), true
		}
		return sign + strconv.Itoa(whole) + " " + strconv.Itoa(top) + "/" + strconv.Itoa(den), true
	}
	return "", false
}

// How far Bare may be from the length it writes, mm: a hundredth of the closest
// tolerance anywhere in the program. Inches are written closer than millimetres are
// read back, so that a figure of three decimals returns unchanged from a trip through
// the other unit, and a fraction likewise.
const (
	bareMM       = 2e-5
	bareInch     = 0.8e-5
	bareFraction = 2.2e-5
)

// Bare prints a length without its unit, as a person would have typed it in sys, to
// within 0.000022 mm: the fewest decimals that hold it, or a fraction of an inch.
func Bare(mm float64, sys System) string {
	if sys == MM {
		return shortest(mm, bareMM)
	}
	if f, ok := fraction(mm/MMPerInch, bareFraction/MMPerInch); ok {
		return f
	}
	return shortest(mm/MMPerInch, bareInch/MMPerInch)
}

// shortest prints v with the fewest decimals, at most 9, that stay within tol.
func shortest(v, tol float64) string {
	if !ordinary(v) {
		return Decimal(v, 0)
	}
	for places := 0; places < 9; places++ {
		s := Decimal(v, places)
		if got, err := strconv.ParseFloat(s, 64); err == nil && math.Abs(got-v) <= tol {
			return s
		}
	}
	return Decimal(v, 9)
}

// Angle prints radians as degrees: 0.01° under 10°, 0.1° above.
func Angle(rad float64) string {
	if !ordinary(rad) {
		return Decimal(rad, 0)
	}
	d := rad / degree
	if math.Abs(d) < 9.995 {
		return Decimal(d, 2) + "°"
	}
	return Decimal(d, 1) + "°"
}

// Ratio prints a share of a limit, "0.78": two decimals kept, fewer from 10 up.
func Ratio(x float64) string {
	switch {
	case !ordinary(x):
		return Decimal(x, 0)
	case math.Abs(x) >= 99.5:
		return strconv.FormatFloat(x, 'f', 0, 64)
	case math.Abs(x) >= 9.95:
		return strconv.FormatFloat(x, 'f', 1, 64)
	}
	if s := strconv.FormatFloat(x, 'f', 2, 64); s != "-0.00" {
		return s
	}
	return "0.00"
}

// Range prints two ratios, "0.66-0.91", or one where both read the same.
func Range(low, high float64) string {
	a, b := Ratio(low), Ratio(high)
	if a == b {
		return a
	}
	if high > 1e15 {
		return "above " + a
	}
	return a + "-" + b
}

// LengthRange prints two lengths with one unit, "2.4-2.7 mm".
func LengthRange(low, high float64, sys System) string {
	a, b := Length(low, sys), Length(high, sys)
	if a == b {
		return a
	}
	if high > 1e15 {
		return "above " + a
	}
	return strings.TrimSuffix(a, " "+sys.String()) + "-" + b
}

// Percent prints a share as a percentage, "0.99 %", three significant figures.
func Percent(share float64) string {
	if !ordinary(share) {
		return Decimal(share, 0)
	}
	return Figures(100*share, 3) + " %"
}

// Figures prints v rounded to n significant figures, in full.
func Figures(v float64, n int) string {
	if !ordinary(v) || v == 0 {
		return Decimal(v, 0)
	}
	places := n - 1
	for m := math.Abs(v); m >= 9.9999999 && places > 0; m /= 10 {
		places--
	}
	for m := math.Abs(v); m < 0.99999999 && places < 12; m *= 10 {
		places++
	}
	return Decimal(v, places)
}

// Mass prints a force in newtons as the weight that pulls as hard: grams and
// kilograms, or ounces and pounds, to two or three figures.
func Mass(newton float64, sys System) string {
	if !ordinary(newton) {
		return Decimal(newton, 0)
	}
	if sys == Inch {
		if oz := newton / NPerOunce; math.Abs(oz) < 15.95 {
			return Figures(oz, 2) + " oz"
		}
		return Figures(newton/NPerPound, 3) + " lb"
	}
	if g := newton / NPerGram; math.Abs(g) < 999.5 {
		return Figures(g, 2) + " g"
	}
	return Figures(newton/NPerGram/1000, 3) + " kg"
}

// Stress prints MPa.
func Stress(mpa float64) string {
	if !ordinary(mpa) {
		return Decimal(mpa, 0)
	}
	return Figures(mpa, 3) + " MPa"
}

// Speed prints mm/s in sys per second.
func Speed(mms float64, sys System) string {
	if !ordinary(mms) {
		return Decimal(mms, 0)
	}
	return Figures(mms/factorOf(sys), 3) + " " + sys.String() + "/s"
}

// Time prints seconds, as minutes and seconds from two minutes up.
func Time(seconds float64) string {
	if !ordinary(seconds) {
		return Decimal(seconds, 0)
	}
	if math.Abs(seconds) < 119.5 {
		return Figures(seconds, 2) + " s"
	}
	m, s := math.Floor(math.Round(seconds)/60), math.Mod(math.Round(seconds), 60)
	if s == 0 {
		return Decimal(m, 0) + " min"
	}
	return Decimal(m, 0) + " min " + Decimal(s, 0) + " s"
}
