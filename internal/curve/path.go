package curve

import (
	"math"

	"springrib/internal/plane"
)

// Segments returns the stretch from s0 to s1 as exact lines and arcs, and ok = false
// when some part of it is neither. Straights past the ends are lines.
func (c Curve) Segments(s0, s1 float64) (segs []plane.Segment, ok bool) {
	for _, b := range c.bounds(s0, s1) {
		mid := c.At((b[0] + b[1]) / 2)
		if st := c.stretchAt((b[0] + b[1]) / 2); st != nil {
			if _, plain := st.Shape.(arc); !plain {
				return nil, false
			}
		}
		segs = append(segs, c.arcs(b[0], b[1], mid.Kappa*(b[1]-b[0]))...)
	}
	return segs, true
}

// bounds cuts s0..s1 at the ends of the stretches.
func (c Curve) bounds(s0, s1 float64) [][2]float64 {
	var out [][2]float64
	at := s0
	cut := func(s float64) {
		if s > at+1e-9 && s <= s1 {
			out = append(out, [2]float64{at, s})
			at = s
		}
	}
	cut(0)
	for _, st := range c.stretches {
		cut(st.End)
	}
	if s1 > at+1e-9 {
		out = append(out, [2]float64{at, s1})
	}
	return out
}

func (c Curve) stretchAt(s float64) *Stretch {
	for i := range c.stretches {
		if st := &c.stretches[i]; s >= st.Start && s <= st.End {
			return st
		}
	}
	return nil
}

// arcs returns the arc between two arc lengths that turns by turn; a turn of more than three quarters
// of a circle becomes two arcs, each well under the full one. Where they meet the curve itself says:
// the ends of a whole circle lie in one place, and the chord between them says nothing.
func (c Curve) arcs(s0, s1, turn float64) []plane.Segment {
	if math.Abs(turn) > 1.5*math.Pi {
		mid := (s0 + s1) / 2
		return append(c.arcs(s0, mid, turn/2), c.arcs(mid, s1, turn/2)...)
	}
	a, b := c.At(s0).P, c.At(s1).P
	if turn == 0 {
		return []plane.Segment{plane.LineSeg(a, b)}
	}
	return []plane.Segment{plane.BulgeSeg(a, b, math.Tan(turn/4))}
}
