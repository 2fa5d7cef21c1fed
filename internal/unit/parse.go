package unit

import "math"

// ParseLength reads a length in millimetres. Without a unit it is in sys; a bare
// fraction where millimetres are meant is refused, since nobody writes 1/16 mm.
// Feet may be followed by inches. Units: mm, cm, m, in, ft, thou.
func ParseLength(s string, sys System) (float64, error) {
	terms, negative, err := scan(s, lengthExample(sys))
	if err != nil {
		return 0, err
	}
	sum := 0.0
	for i, t := range terms {
		f, ok := lengthFactor(t.unit)
		switch {
		case t.unit == "" && i == 1 && isFeet(terms[0].unit):
			f = MMPerInch
		case t.unit == "" && sys == MM && t.fraction && len(terms) == 1:
			return 0, ofWhat(shorten(s), t)
		case t.unit == "" && len(terms) == 1:
			f = factorOf(sys)
		case !ok || len(terms) > 2 || i == 1 && !(isFeet(terms[0].unit) && isInch(t.unit)):
			return 0, oddUnit(shorten(s), terms, t, "Write a length such as "+lengthExample(sys)+".")
		}
		if i == 0 && len(terms) == 2 && !isFeet(t.unit) {
			return 0, oddUnit(shorten(s), terms, t, "Write a length such as "+lengthExample(sys)+".")
		}
		sum += t.value * f
	}
	if sum > Limit {
		return 0, &Error{TooBig, shorten(s), shorten(s) + " is beyond anything that fits on a bench."}
	}
	return signed(sum, negative), nil
}

// ParseAngle reads an angle in radians; without a unit it is in degrees. Units:
// deg, °, rad.
func ParseAngle(s string) (float64, error) {
	return parse(s, "90 or 1.57 rad", func(u string) (float64, bool) {
		switch u {
		case "", "°", "º", "deg", "deg.", "degree", "degrees":
			return degree, true
		case "rad", "rad.", "radian", "radians":
			return 1, true
		}
		return 0, false
	})
}

// ParseNumber reads a plain number, which may be a fraction.
func ParseNumber(s string) (float64, error) {
	return parse(s, "a plain number such as 1.5", func(u string) (float64, bool) { return 1, u == "" })
}

// ParsePercent reads a share given in percent, with or without the sign: "1.2" and
// "1.2 %" are 0.012.
func ParsePercent(s string) (float64, error) {
	return parse(s, "a percentage such as 1.2", func(u string) (float64, bool) {
		return 0.01, u == "" || u == "%" || u == "percent"
	})
}

// ParseCount reads a whole number.
func ParseCount(s string) (int, error) {
	v, err := ParseNumber(s)
	if err != nil {
		return 0, err
	}
	if v != math.Trunc(v) {
		return 0, &Error{NotWhole, shorten(s), shorten(s) + " is not a whole number. Write " + Decimal(math.Floor(v), 0) + " or " + Decimal(math.Ceil(v), 0) + "."}
	}
	return int(v), nil
}

// ParseStress reads a stress or modulus in MPa (N/mm²), which is also the unit of a
// bare figure. Units: MPa, N/mm², GPa, kPa, psi, ksi.
func ParseStress(s string) (float64, error) {
	return parse(s, "a figure in MPa such as 3600, or 3.6 GPa", func(u string) (float64, bool) {
		switch u {
		case "", "mpa", "n/mm2", "n/mm^2":
			return 1, true
		case "gpa", "kn/mm2", "kn/mm^2":
			return 1e3, true
		case "kpa":
			return 1e-3, true
		case "psi":
			return MPaPerPSI, true
		case "ksi":
			return 1e3 * MPaPerPSI, true
		}
		return 0, false
	})
}

// ParseDensity reads a density in kg/m³, which is also the unit of a bare figure.
// Units: kg/m³, g/cm³, lb/ft³.
func ParseDensity(s string) (float64, error) {
	return parse(s, "a density in kg/m³ such as 750", func(u string) (float64, bool) {
		switch u {
		case "", "kg/m3", "kg/m^3":
			return 1, true
		case "g/cm3", "g/cm^3", "g/cc":
			return 1e3, true
		case "lb/ft3", "lb/ft^3", "pcf":
			return 0.45359237 / (0.3048 * 0.3048 * 0.3048), true
		}
		return 0, false
	})
}

// ParseForce reads a weight or force in newtons; a bare figure is grams, or ounces
// where sys is Inch. Units: N, g, kg, oz, lb.
func ParseForce(s string, sys System) (float64, error) {
	return parse(s, "a weight such as 20 g or 1 oz", func(u string) (float64, bool) {
		switch u {
		case "":
			if sys == Inch {
				return NPerOunce, true
			}
			return NPerGram, true
		case "n":
			return 1, true
		case "g", "gram", "grams":
			return NPerGram, true
		case "kg":
			return 1000 * NPerGram, true
		case "oz":
			return NPerOunce, true
		case "lb", "lbs":
			return NPerPound, true
		}
		return 0, false
	})
}

// ParseSpeed reads a speed in mm/s; a bare figure is in sys per second. Units:
// mm/s, mm/min, m/min, in/s, in/min.
func ParseSpeed(s string, sys System) (float64, error) {
	return parse(s, "a speed such as 120 mm/s or 5 in/s", func(u string) (float64, bool) {
		switch u {
		case "":
			return factorOf(sys), true
		case "mm/s", "mm/sec":
			return 1, true
		case "mm/min":
			return 1.0 / 60, true
		case "m/min":
			return 1000.0 / 60, true
		case "in/s", "ips", "\"/s":
			return MMPerInch, true
		case "in/min", "ipm":
			return MMPerInch / 60, true
		}
		return 0, false
	})
}

// ParseAcceleration reads an acceleration in mm/s²; a bare figure is in sys per
// second squared. Units: mm/s², m/s², in/s², g.
func ParseAcceleration(s string, sys System) (float64, error) {
	return parse(s, "an acceleration such as 1500 mm/s²", func(u string) (float64, bool) {
		switch u {
		case "":
			return factorOf(sys), true
		case "mm/s2", "mm/s^2":
			return 1, true
		case "m/s2", "m/s^2":
			return 1000, true
		case "in/s2", "in/s^2":
			return MMPerInch, true
		case "g":
			return 1000 * Gravity, true
		}
		return 0, false
	})
}

// parse reads one figure with at most one unit; factor turns the unit into ours.
func parse(s, example string, factor func(string) (float64, bool)) (float64, error) {
	terms, negative, err := scan(s, example)
	if err != nil {
		return 0, err
	}
	f, ok := factor(terms[0].unit)
	if len(terms) > 1 || !ok {
		return 0, oddUnit(shorten(s), terms, terms[len(terms)-1], "Write "+example+".")
	}
	return signed(terms[0].value*f, negative), nil
}

func signed(v float64, negative bool) float64 {
	if negative && v != 0 {
		return -v
	}
	return v
}

func ofWhat(typed string, t term) *Error {
	mm := Decimal(t.value*MMPerInch, 1)
	if t.value < 1.0/16 {
		mm = Decimal(t.value*MMPerInch, 2)
	}
	return &Error{NeedsUnit, typed, t.text + " of what? Write " + t.text + " in or " + mm + " mm."}
}

// oddUnit explains a unit that does not belong, or figures that stand side by side.
func oddUnit(typed string, terms []term, t term, do string) *Error {
	if len(terms) > 1 {
		return &Error{Ambiguous, typed, typed + " is more than one figure. " + do}
	}
	if t.unit == "" {
		return &Error{NeedsUnit, typed, typed + " of what? " + do}
	}
	return &Error{WrongUnit, typed, quote(shorten(t.unit)) + " does not belong here. " + do}
}

func lengthExample(sys System) string {
	if sys == Inch {
		return "2 1/4 in or 57 mm"
	}
	return "3 mm or 1/8 in"
}

func factorOf(sys System) float64 {
	if sys == Inch {
		return MMPerInch
	}
	return 1
}

func isFeet(u string) bool {
	f, _ := lengthFactor(u)
	return f == 12*MMPerInch
}

func isInch(u string) bool {
	f, _ := lengthFactor(u)
	return f == MMPerInch
}

func lengthFactor(u string) (float64, bool) {
	switch u {
	case "mm", "mm.", "millimetre", "millimetres", "millimeter", "millimeters":
		return 1, true
	case "cm":
		return 10, true
	case "m":
		return 1000, true
	case "in", "in.", "\"", "inch", "inches":
		return MMPerInch, true
	case "ft", "ft.", "'", "foot", "feet":
		return 12 * MMPerInch, true
	case "thou":
		return MMPerInch / 1000, true
	}
	return 0, false
}
