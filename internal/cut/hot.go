package cut

import (
	"fmt"
	"math"

	"springrib/internal/finding"
)

// Overrun returns how far past a part's edge a score must run for the head to have
// its full speed inside the part: v²/(2a), from rest at v mm/s and a mm/s²; 0 when
// either is unknown. At 120 mm/s and 1500 mm/s² it is 4.8 mm.
func Overrun(v, a float64) float64 {
	if v <= 0 || a <= 0 {
		return 0
	}
	return v * v / (2 * a)
}

// FullSpeedLength returns the length below which a line never reaches its speed:
// v²/a, both ramps; 0 when either is unknown. A beam of steady power burns such a
// line deeper than the rest.
func FullSpeedLength(v, a float64) float64 { return 2 * Overrun(v, a) }

// HotLine is a score too short to reach its speed.
type HotLine struct {
	Operation, Stroke int // indices
	Part              string
	Length, Needed    float64 // mm
	Reached           float64 // the speed it does reach, mm/s
}

// HotLines returns the scores of ops that never reach their speed with acceleration
// a, in their order.
func HotLines(ops []Operation, a float64) []HotLine {
	var out []HotLine
	for i, op := range ops {
		needed := FullSpeedLength(op.Speed, a)
		if op.Kind != Score || needed == 0 {
			continue
		}
		for k, s := range op.Strokes {
			if l := s.Path.Length(); l < needed*(1-1e-9) {
				out = append(out, HotLine{i, k, s.Part, l, needed, math.Sqrt(l * a)})
			}
		}
	}
	return out
}

// Findings returns what a person should know about the operations as a machine of
// acceleration a runs them: one "short-hot-line" for each part and operation.
func Findings(ops []Operation, a float64) []finding.Finding {
	type key struct {
		operation int
		part      string
	}
	var out []finding.Finding
	index := map[key]int{}
	for _, h := range HotLines(ops, a) {
		k := key{h.Operation, h.Part}
		n, ok := index[k]
		if !ok {
			n = len(out)
			index[k] = n
			out = append(out, finding.Finding{ID: "short-hot-line", Severity: finding.Warn, Place: finding.Place{Part: h.Part, Field: "machine.speed"},
				Numbers: map[string]float64{"lines": 0, "shortest": h.Length, "needed": h.Needed, "speed": ops[h.Operation].Speed, "reached": h.Reached}})
		}
		num := out[n].Numbers
		num["lines"]++
		if h.Length < num["shortest"] {
			num["shortest"], num["reached"] = h.Length, h.Reached
		}
	}
	for i := range out {
		out[i] = worded(out[i])
	}
	return out
}

// worded adds the sentence and the remedies of a short hot line.
func worded(f finding.Finding) finding.Finding {
	n := f.Numbers
	f.Text = fmt.Sprintf("%s too short to reach %.0f mm/s: the shortest is %.1f mm and gets to %.0f mm/s. The head is slow there and a beam of steady power burns deeper.",
		lines(n["lines"]), n["speed"], n["shortest"], n["reached"])
	f.Remedies = []finding.Remedy{
		{Text: fmt.Sprintf("Score at %.0f mm/s and measure the depth again at that speed.", n["reached"])},
		{Text: fmt.Sprintf("Let the score run out further: %.1f mm from end to end is enough.", n["needed"])},
	}
	return f
}

func lines(n float64) string {
	if n == 1 {
		return "1 score line is"
	}
	return fmt.Sprintf("%.0f score lines are", n)
}
