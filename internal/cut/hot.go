package cut

import "math"

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
