package design

import (
	"strconv"

	"springrib/internal/finding"
	"springrib/internal/solve"
)

// leastContrast is how much a line must stand out from white paper, as a ratio. The
// guideline for drawings is 3 (WCAG 2.1, 1.4.11), which two of our own colours miss at 2.2:
// those that are told apart with any colour vision are light. Yellow has 1.1, cyan 1.3,
// pure green 1.4. Between: common practice, no source.
const leastContrast = 1.6

// contrast returns the contrast ratio of a colour, "#RRGGBB", against white, 1 to 21
// (WCAG 2.1, "contrast ratio", "relative luminance").
func contrast(colour string) float64 {
	v, _ := strconv.ParseUint(colour[1:], 16, 32)
	l := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		c := float64(v>>(16-8*i)&0xff) / 255
		if c <= 0.03928 {
			c /= 12.92
		} else {
			c = solve.Pow((c+0.055)/1.055, 2.4)
		}
		l += weight * c
	}
	return 1.05 / (l + 0.05)
}

// coloursShow tells of operations that are hardly seen on paper and on the screen, with a
// colour that no other has.
func (r *reader) coloursShow() {
	ops, ids := r.v.Cut.Operations, OperationIDs()
	for i, o := range ops {
		got := contrast(o.Colour)
		if got >= leastContrast {
			continue
		}
		path := "cut.operations." + ids[i] + ".colour"
		field, _ := At(path)
		free := field.text
		for _, c := range []string{field.text, "#0072B2", "#D55E00", "#000000", "#CC79A7"} { // of the same palette
			taken := false
			for _, other := range ops {
				taken = taken || other.Colour == c
			}
			if free = c; !taken {
				break
			}
		}
		r.say(finding.Note, "colour-faint", path, o.Name+" is drawn in "+o.Colour+", which can hardly be seen on white. A machine still tells it apart; your eyes may not.",
			map[string]float64{"contrast": got, "least": leastContrast}, finding.Remedy{Text: "Use " + free, Set: map[string]string{path: free}})
	}
}
