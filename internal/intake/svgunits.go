package intake

import (
	"math"
	"strings"

	"springrib/internal/plane"
)

// pxPerInch is the CSS pixel, the unit of SVG coordinates: 96 to an inch (CSS Values
// and Units Module Level 3, section 6.2).
const pxPerInch = 96

// perInch returns how many of a unit make an inch; ok is false for a unit without
// fixed length.
func perInch(unit string) (n float64, ok bool) {
	switch unit {
	case "mm":
		return 25.4, true
	case "cm":
		return 2.54, true
	case "q":
		return 101.6, true
	case "in":
		return 1, true
	case "pt":
		return 72, true
	case "pc":
		return 6, true
	}
	return 0, false
}

// axis tells what a percentage is of.
type axis uint8

const (
	alongX axis = iota
	alongY
	alongBoth // of the diagonal over the square root of two
)

// viewport is the size that percentages refer to, in the coordinates inside it.
type viewport struct{ w, h float64 }

func (v viewport) extent(a axis) float64 {
	switch a {
	case alongX:
		return v.w
	case alongY:
		return v.h
	}
	return math.Hypot(v.w, v.h) / math.Sqrt2
}

// length is a number with its unit as written.
type length struct {
	value float64
	unit  string // lower case
}

// parseLength reads a number and a unit, and nothing after.
func parseLength(text string) (l length, ok, huge bool) {
	s := scanner{text: text}
	v, ok := s.number()
	if !ok {
		return l, false, s.huge
	}
	return length{v, strings.ToLower(strings.TrimSpace(text[s.at:]))}, true, false
}

// user returns l in user units, of which there are px to an inch; ok is false when
// the unit is unknown.
func (l length) user(px float64, v viewport, a axis) (float64, bool) {
	switch l.unit {
	case "", "px":
		return l.value, true
	case "%":
		return l.value / 100 * v.extent(a), true
	case "em", "rem":
		return l.value * 16, true // the usual size of text where none is set
	case "ex", "ch":
		return l.value * 8, true
	}
	n, ok := perInch(l.unit)
	if !ok {
		return 0, false
	}
	return l.value * px / n, true
}

// viewBox is the rectangle of inner coordinates that fills a viewport.
type viewBox struct{ x, y, w, h float64 }

func parseViewBox(text string) (b viewBox, ok bool) {
	s := scanner{text: text}
	for _, f := range []*float64{&b.x, &b.y, &b.w, &b.h} {
		v, ok := s.number()
		if !ok {
			return b, false
		}
		*f = v
	}
	return b, s.done() && b.w >= 0 && b.h >= 0
}

// fit maps b into a viewport of the given size by the rule of preserveAspectRatio
// (SVG 1.1, section 7.8).
func (b viewBox) fit(v viewport, rule string) plane.Affine {
	sx, sy := v.w/b.w, v.h/b.h
	words := strings.Fields(rule)
	if len(words) > 0 && words[0] == "defer" {
		words = words[1:]
	}
	align := "xMidYMid"
	if len(words) > 0 {
		align = words[0]
	}
	var dx, dy float64
	if align != "none" {
		s := math.Min(sx, sy)
		if len(words) > 1 && words[1] == "slice" {
			s = math.Max(sx, sy)
		}
		sx, sy = s, s
		dx = (v.w - b.w*s) * share(align, "xMin", "xMax")
		dy = (v.h - b.h*s) * share(align, "YMin", "YMax")
	}
	return plane.Translate(dx, dy).Mul(plane.Scale(sx, sy)).Mul(plane.Translate(-b.x, -b.y))
}

func share(align, low, high string) float64 {
	switch {
	case strings.Contains(align, low):
		return 0
	case strings.Contains(align, high):
		return 1
	}
	return 0.5
}

// parseTransform reads a list of transforms: those of SVG 1.1, section 7.6, with the
// units that CSS allows. ok is false when some of it can't be read.
func parseTransform(text string, px float64) (m plane.Affine, ok bool) {
	m = plane.Identity()
	for {
		text = strings.TrimLeft(text, " \t\r\n,")
		if text == "" || text == "none" {
			return m, true
		}
		name, rest, found := strings.Cut(text, "(")
		list, after, closed := strings.Cut(rest, ")")
		if !found || !closed {
			return m, false
		}
		args, ok := transformArgs(list, px)
		if !ok {
			return m, false
		}
		t, ok := transform(strings.ToLower(strings.TrimSpace(name)), args)
		if !ok {
			return m, false
		}
		m, text = m.Mul(t), after
	}
}

// transformArgs reads up to six numbers; angles come out in degrees.
func transformArgs(list string, px float64) ([]float64, bool) {
	s := scanner{text: list}
	var out []float64
	for !s.done() {
		v, ok := s.number()
		if !ok || len(out) == 6 {
			return nil, false
		}
		end := s.at
		for end < len(list) && (list[end]|0x20 >= 'a' && list[end]|0x20 <= 'z' || list[end] == '%') {
			end++
		}
		switch unit := strings.ToLower(list[s.at:end]); unit {
		case "", "px", "deg":
		case "rad":
			v *= 180 / math.Pi
		case "turn":
			v *= 360
		case "grad":
			v *= 0.9
		default:
			n, ok := perInch(unit)
			if !ok {
				return nil, false
			}
			v *= px / n
		}
		s.at = end
		out = append(out, v)
	}
	return out, true
}

// rad is the first argument, degrees, in radians.
func rad(a []float64) float64 { return a[0] * math.Pi / 180 }

// transforms are those of SVG and CSS in a plane, by name and number of arguments.
var transforms = [...]struct {
	name string
	args int
	of   func(a []float64) plane.Affine
}{
	{"matrix", 6, func(a []float64) plane.Affine { return plane.Affine(a) }},
	{"translate", 1, func(a []float64) plane.Affine { return plane.Translate(a[0], 0) }},
	{"translate", 2, func(a []float64) plane.Affine { return plane.Translate(a[0], a[1]) }},
	{"translatex", 1, func(a []float64) plane.Affine { return plane.Translate(a[0], 0) }},
	{"translatey", 1, func(a []float64) plane.Affine { return plane.Translate(0, a[0]) }},
	{"scale", 1, func(a []float64) plane.Affine { return plane.Scale(a[0], a[0]) }},
	{"scale", 2, func(a []float64) plane.Affine { return plane.Scale(a[0], a[1]) }},
	{"scalex", 1, func(a []float64) plane.Affine { return plane.Scale(a[0], 1) }},
	{"scaley", 1, func(a []float64) plane.Affine { return plane.Scale(1, a[0]) }},
	{"rotate", 1, func(a []float64) plane.Affine { return plane.RotateAbout(plane.Pt(0, 0), rad(a)) }},
	{"rotate", 3, func(a []float64) plane.Affine { return plane.RotateAbout(plane.Pt(a[1], a[2]), rad(a)) }},
	{"skewx", 1, func(a []float64) plane.Affine { return plane.Affine{1, 0, math.Tan(rad(a)), 1, 0, 0} }},
	{"skewy", 1, func(a []float64) plane.Affine { return plane.Affine{1, math.Tan(rad(a)), 0, 1, 0, 0} }},
}

func transform(name string, a []float64) (m plane.Affine, ok bool) {
	for i := range transforms {
		if t := &transforms[i]; t.name == name && t.args == len(a) {
			return t.of(a), true
		}
	}
	return plane.Identity(), false
}
