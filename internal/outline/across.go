package outline

import (
	"math"

	"springrib/internal/curve"
	"springrib/internal/plane"
	"springrib/internal/score"
	"springrib/internal/solve"
)

// Across is the panel's cross-sections, along the scores, at places along the edge: what of it is material there.
type Across struct {
	S     []float64 // arc lengths, rising
	Spans [][]plane.Span
}

// NewAcross cuts an outline that lies on an edge.
func NewAcross(outline plane.Region, edge curve.Curve, places score.Places) Across {
	return sectionsAt(stations(edge), outline, places)
}

// sectionsAt cuts the outline at arc lengths, each a hair off so that none runs along
// an edge.
func sectionsAt(s []float64, outline plane.Region, places score.Places) Across {
	out := Across{}
	var offsets []float64
	for i, at := range s {
		if i > 0 && at-out.S[len(out.S)-1] < 1e-6 {
			continue
		}
		out.S = append(out.S, at)
		u := places.U(at)
		if at == 0 {
			u += 1e-4
		} else if i+1 == len(s) {
			u -= 1e-4
		}
		offsets = append(offsets, u)
	}
	// Lines along +Y lie to the right of their offset: the left of -Y is +X.
	out.Spans = append(out.Spans, outline.ClipLines(plane.Pt(0, 0), plane.Pt(0, -1), offsets)...)
	return out
}

// stations returns arc lengths close enough together for sums along the edge: the ends
// of all stretches, a degree of turning and a hundredth of the length apart at most.
func stations(edge curve.Curve) []float64 {
	turned := edge.Samples(math.Pi / 180)
	step := edge.Length() / 100
	var out []float64
	for i, s := range turned {
		if i > 0 {
			a := turned[i-1]
			n := math.Ceil((s-a)/step - 1e-9)
			for j := 1.0; j < n; j++ {
				out = append(out, a+(s-a)*j/n)
			}
		}
		out = append(out, s)
	}
	return out
}

// Widths returns how much material lies between lo and hi across as a function of arc
// length, linear between the sections.
func (c Across) Widths(lo, hi float64) func(s float64) float64 {
	at := make([]float64, len(c.S))
	for i, spans := range c.Spans {
		at[i] = overlap(spans, lo, hi)
	}
	i := 0 // places come near each other
	return func(s float64) float64 {
		i = solve.SearchFrom(c.S, s, i)
		return c.along(s, i, func(i int) float64 { return at[i] })
	}
}

// along returns what at says of sections at s, where i is the first section from s on.
func (c Across) along(s float64, i int, at func(i int) float64) float64 {
	switch {
	case len(c.S) == 0:
		return 0
	case i == 0:
		return at(0)
	case i == len(c.S):
		return at(i - 1)
	}
	f := (s - c.S[i-1]) / (c.S[i] - c.S[i-1])
	return (1-f)*at(i-1) + f*at(i)
}

// overlap sums what of the spans lies between lo and hi; they count along -Y.
func overlap(spans []plane.Span, lo, hi float64) float64 {
	sum := 0.0
	for _, s := range spans {
		if s.Graze {
			continue
		}
		from, to := -s.To, -s.From
		if from < lo {
			from = lo
		}
		if to > hi {
			to = hi
		}
		if to > from {
			sum += to - from
		}
	}
	return sum
}
