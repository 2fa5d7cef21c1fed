package view

import (
	"math"
	"strings"

	"springrib/internal/design"
	"springrib/internal/plane"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// knob is one figure of a design that a handle moves.
type knob struct {
	path      string
	kind      design.Kind // Length or Angle
	value     float64     // now, mm or radians
	low, high float64
	// put writes the figure into values; only a handle on a track of its own needs it.
	put func(*design.Values, float64)
}

// clamp keeps a figure within its bounds.
func (k knob) clamp(x float64) float64 { return math.Max(k.low, math.Min(k.high, x)) }

// grip is a handle together with how it moves. Places are in the section or the flat
// panel, Y up.
type grip struct {
	id, label, drawing string
	ways               string
	knobs              []knob
	at                 plane.Point
	// pull returns the figures of the knobs that bring the handle to a place, or as near
	// as it comes, and how far it moves for a unit of the first.
	pull func(to plane.Point) (figures []float64, rate float64)
	// rest are texts that are written along with those of the knobs.
	rest map[string]string
}

// handle returns the grip as the page has it.
func (g grip) handle(sys unit.System) wire.Handle {
	h := wire.Handle{ID: g.id, Label: g.label, X: g.at.X, Y: -g.at.Y, Ways: g.ways}
	var texts []string
	for _, k := range g.knobs {
		h.Fields = append(h.Fields, k.path)
		texts = append(texts, k.show(sys))
	}
	k, scale := g.knobs[0], 1.0
	switch k.kind {
	case design.Angle:
		scale = 180 / math.Pi
	case design.Percent:
		scale = 100
	}
	h.Text = strings.Join(texts, ", ")
	h.Value, h.Low, h.High = k.value*scale, k.low*scale, k.high*scale
	return h
}

func (k knob) show(sys unit.System) string {
	switch k.kind {
	case design.Angle:
		return unit.Angle(k.value)
	case design.Percent:
		return unit.Decimal(100*k.value, 1) + " %"
	}
	return unit.Length(k.value, sys)
}

// along returns how a handle moves on a track: the figure of k that brings place, as a
// function of the design, nearest to where it is pulled, starting from the present one.
// A place that can't be worked out is infinitely far.
func along(v *design.Values, k knob, place func(*design.Values) (plane.Point, bool)) func(plane.Point) ([]float64, float64) {
	at := func(x float64) (plane.Point, bool) {
		w := *v
		k.put(&w, x)
		return place(&w)
	}
	return func(to plane.Point) ([]float64, float64) {
		x := k.value
		p, ok := at(x)
		if !ok {
			return []float64{x}, 1
		}
		rate := 1.0
		for range 40 {
			d, ok := slope(at, k, x)
			if !ok || d.Len() == 0 {
				break
			}
			rate = d.Len()
			next, q, ok := nearer(at, k, x, to.Sub(p).Dot(d)/d.Dot(d), to.Sub(p).Len(), to)
			if !ok {
				break
			}
			moved := math.Abs(next - x)
			x, p = next, q
			if moved*rate < 1e-7 {
				break
			}
		}
		return []float64{x}, rate
	}
}

// slope returns the derivative of a place, by a difference that stays within bounds.
func slope(at func(float64) (plane.Point, bool), k knob, x float64) (plane.Point, bool) {
	h := 1e-6 * math.Max(1, math.Abs(x))
	a, okA := at(k.clamp(x - h))
	b, okB := at(k.clamp(x + h))
	width := k.clamp(x+h) - k.clamp(x-h)
	if !okA || !okB || width == 0 {
		return plane.Point{}, false
	}
	return b.Sub(a).Mul(1 / width), true
}

// nearer takes the step, or as much of it as brings the place nearer than far.
func nearer(at func(float64) (plane.Point, bool), k knob, x, step, far float64, to plane.Point) (float64, plane.Point, bool) {
	for range 30 {
		next := k.clamp(x + step)
		if p, ok := at(next); ok && next != x && p.Dist(to) < far {
			return next, p, true
		}
		step /= 2
	}
	return x, plane.Point{}, false
}

// write prints a figure as a person would have typed it, in the unit that the former
// text names or else in the design's. rate is how far the handle moves for a unit of the
// figure: rounding moves it by half a millimetre at most, or by a twentieth when fine.
func (k knob) write(x, rate float64, former string, sys unit.System, fine bool) string {
	former = strings.TrimSpace(former)
	switch k.kind {
	case design.Angle:
		return writeAngle(x, rate, former, fine)
	case design.Percent:
		return writePercent(x, rate, former, fine)
	}
	suffix := ""
	if other, named := namedUnit(former, sys); named {
		sys, suffix = other, " "+other.String()
	}
	step := lengthStep(rate, sys, fine)
	if coarse := k.round(x, unit.MMPerInch/64); sys == unit.Inch && math.Abs(coarse-x) < 0.01 {
		step = unit.MMPerInch / 64 // a fraction that is as good
	}
	x = k.round(x, step)
	if sys == unit.Inch {
		return unit.Bare(x, sys) + suffix
	}
	return unit.Decimal(x, 3) + suffix
}

// lengthStep is 0.1 mm or 1/64 in, and less when fine or where the handle moves by much
// more than the figure.
func lengthStep(rate float64, sys unit.System, fine bool) float64 {
	step, most := 0.1, 0.5
	if sys == unit.Inch {
		step = unit.MMPerInch / 64
	}
	if fine {
		step, most = 0.01, 0.05
		if sys == unit.Inch {
			step = unit.MMPerInch / 1000
		}
	}
	for range 3 {
		if step*rate > most {
			step /= 10
		}
	}
	return step
}

// round brings a figure to a whole number of steps within its bounds, or to a bound when
// there is none.
func (k knob) round(x, step float64) float64 {
	x = math.Round(x/step) * step
	switch {
	case x < k.low:
		x = math.Ceil(k.low/step-1e-9) * step
	case x > k.high:
		x = math.Floor(k.high/step+1e-9) * step
	}
	return k.clamp(x)
}

func writeAngle(x, rate float64, former string, fine bool) string {
	const degree = math.Pi / 180
	most, places := 0.5, 0
	if fine {
		most = 0.05
	}
	for step := degree; places < 3 && step*rate > most; places++ {
		step /= 10
	}
	if strings.Contains(former, "rad") {
		return unit.Decimal(x, places+2) + " rad"
	}
	text := unit.Decimal(x/degree, places)
	for _, suffix := range []string{"°", " deg"} {
		if strings.HasSuffix(former, suffix) {
			return text + suffix
		}
	}
	return text
}

// writePercent prints a share in whole percents, or as closely as the handle needs.
func writePercent(x, rate float64, former string, fine bool) string {
	most, places := 0.5, 0
	if fine {
		most = 0.05
	}
	for step := 0.01; places < 2 && step*rate > most; places++ {
		step /= 10
	}
	text := unit.Decimal(100*x, places)
	if strings.HasSuffix(former, "%") {
		return text + " %"
	}
	return text
}

// namedUnit tells which system a text names by itself, if it does.
func namedUnit(text string, sys unit.System) (unit.System, bool) {
	if text == "" {
		return sys, false
	}
	mm, errMM := unit.ParseLength(text, unit.MM)
	in, errIn := unit.ParseLength(text, unit.Inch)
	if errMM != nil || errIn != nil || mm != in || mm == 0 {
		return sys, false
	}
	if strings.Contains(text, "m") { // mm, cm, m
		return unit.MM, true
	}
	return unit.Inch, true
}
