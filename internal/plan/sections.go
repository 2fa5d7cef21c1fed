package plan

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// sections are the panel's cross-sections, along the scores, at places along the edge:
// what of it is material there.
type sections struct {
	s     []float64 // arc lengths, rising
	spans [][]plane.Span
}

// sectionsAt cuts the outline at arc lengths, each a hair off so that none runs along
// an edge.
func (p *Plan) sectionsAt(s []float64) sections {
	out := sections{}
	var offsets []float64
	for i, at := range s {
		if i > 0 && at-out.s[len(out.s)-1] < 1e-6 {
			continue
		}
		out.s = append(out.s, at)
		u := p.places.U(at)
		if at == 0 {
			u += 1e-4
		} else if i+1 == len(s) {
			u -= 1e-4
		}
		offsets = append(offsets, u)
	}
	// Lines along +Y lie to the right of their offset: the left of -Y is +X.
	for _, spans := range p.Outline.ClipLines(pt(0, 0), pt(0, -1), offsets) {
		out.spans = append(out.spans, spans)
	}
	return out
}

// stations returns arc lengths close enough together for sums along the edge: the ends
// of all stretches, a degree of turning and a hundredth of the length apart at most.
func (p *Plan) stations() []float64 {
	turned := p.Edge.Samples(math.Pi / 180)
	step := p.Edge.Length() / 100
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

// width returns how much material lies between lo and hi across at arc length s,
// linear between the sections.
func (c sections) width(s, lo, hi float64) float64 {
	i := sort.SearchFloat64s(c.s, s)
	switch {
	case len(c.s) == 0:
		return 0
	case i == 0:
		return overlap(c.spans[0], lo, hi)
	case i == len(c.s):
		return overlap(c.spans[i-1], lo, hi)
	}
	f := (s - c.s[i-1]) / (c.s[i] - c.s[i-1])
	return (1-f)*overlap(c.spans[i-1], lo, hi) + f*overlap(c.spans[i], lo, hi)
}

// overlap sums what of the spans lies between lo and hi; they count along -Y.
func overlap(spans []plane.Span, lo, hi float64) float64 {
	sum := 0.0
	for _, s := range spans {
		if !s.Graze {
			sum += math.Max(0, math.Min(-s.From, hi)-math.Max(-s.To, lo))
		}
	}
	return sum
}
