package export

import (
	"math"

	"springrib/internal/plane"
)

// arcSpan is the largest turn, as a bulge, that one arc in an SVG has: 120 degrees.
//
// SVG gives an arc by its ends and radius. With all three on the grid the centre
// is off by dR/cos(turn/2): a half circle of radius 50 could come out 0.2 mm too
// tall, whereas at 120 degrees the error is at most two half steps.
const arcSpan = 0.57735026919 // tan 30 degrees

// flat is the height of an arc over its chord below which it is written as a line,
// mm: half a Step, which the grid cannot show.
const flat = Step / 2

// arcRadius returns the radius of the arc with bulge b on a chord of length c.
func arcRadius(c, b float64) float64 { return c * (1 + b*b) / (4 * math.Abs(b)) }

// fileSegments returns the segments of p as they go into files: ends on the grid,
// arcs of at most the bulge span, arcs too flat to show as lines, and nothing that
// the grid shrinks to a point. Bulges are kept; control points are rounded.
func fileSegments(p plane.Path, span float64) []plane.Segment {
	out := make([]plane.Segment, 0, len(p.Segs))
	for _, s := range p.Segs {
		out = appendFileSegment(out, s, span)
	}
	return out
}

func appendFileSegment(out []plane.Segment, s plane.Segment, span float64) []plane.Segment {
	if s.Kind == plane.Arc && math.Abs(s.Bulge) > span {
		return appendFileSegment(appendFileSegment(out, s.Split(0, 0.5), span), s.Split(0.5, 1), span)
	}
	s.A, s.B = RoundPoint(s.A), RoundPoint(s.B)
	switch s.Kind {
	case plane.Arc:
		if s.A == s.B {
			return out
		}
		if math.Abs(s.Bulge)*s.A.Dist(s.B)/2 < flat {
			s = plane.Segment{A: s.A, B: s.B}
		}
	case plane.Cubic:
		s.C, s.D = RoundPoint(s.C), RoundPoint(s.D)
		if s.A == s.B && s.A == s.C && s.A == s.D {
			return out
		}
	default:
		if s.A == s.B {
			return out
		}
	}
	return append(out, s)
}
