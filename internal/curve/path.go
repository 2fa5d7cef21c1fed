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
		segs = append(segs, arcSegments(c.At(b[0]).P, c.At(b[1]).P, mid.Kappa*(b[1]-b[0]))...)
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

// arcSegments returns the arc from a to b that turns by turn; a turn of more than
// three quarters of a circle becomes two arcs, each well under the full one.
func arcSegments(a, b plane.Point, turn float64) []plane.Segment {
	if turn == 0 {
		return []plane.Segment{plane.LineSeg(a, b)}
	}
	if math.Abs(turn) <= 1.5*math.Pi {
		return []plane.Segment{plane.BulgeSeg(a, b, math.Tan(turn/4))}
	}
	s := plane.BulgeSeg(a, b, math.Tan(turn/4))
	m := s.Point(0.5)
	return append(arcSegments(a, m, turn/2), arcSegments(m, b, turn/2)...)
}
