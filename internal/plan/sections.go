package plan

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// Across is the panel's cross-sections, along the scores, at places along the edge: what of it is material there.
type Across struct {
	s     []float64 // arc lengths, rising
	spans [][]plane.Span
}

// across cuts the outline.
func across(p *Plan) bool {
	p.Across = p.sectionsAt(p.Joined(), p.stations())
	return true
}

// sectionsAt cuts an outline at arc lengths, each a hair off so that none runs along
// an edge.
func (p *Plan) sectionsAt(outline plane.Region, s []float64) Across {
	out := Across{}
	var offsets []float64
	for i, at := range s {
		if i > 0 && at-out.s[len(out.s)-1] < 1e-6 {
			continue
		}
		out.s = append(out.s, at)
		u := p.Scores.places.U(at)
		if at == 0 {
			u += 1e-4
		} else if i+1 == len(s) {
			u -= 1e-4
		}
		offsets = append(offsets, u)
	}
	// Lines along +Y lie to the right of their offset: the left of -Y is +X.
	out.spans = append(out.spans, outline.ClipLines(pt(0, 0), pt(0, -1), offsets)...)
	return out
}

// stations returns arc lengths close enough together for sums along the edge: the ends
// of all stretches, a degree of turning and a hundredth of the length apart at most.
func (p *Plan) stations() []float64 {
	turned := p.Section.Edge.Samples(math.Pi / 180)
	step := p.Section.Edge.Length() / 100
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

// widths returns how much material lies between lo and hi across as a function of arc
// length, linear between the sections.
func (c Across) widths(lo, hi float64) func(s float64) float64 {
	at := make([]float64, len(c.s))
	for i, spans := range c.spans {
		at[i] = overlap(spans, lo, hi)
	}
	i := 0 // places come near each other
	return func(s float64) float64 {
		i = searchFrom(c.s, s, i)
		return c.along(s, i, func(i int) float64 { return at[i] })
	}
}

// along returns what at says of sections at s, where i is the first section from s on.
func (c Across) along(s float64, i int, at func(i int) float64) float64 {
	switch {
	case len(c.s) == 0:
		return 0
	case i == 0:
		return at(0)
	case i == len(c.s):
		return at(i - 1)
	}
	f := (s - c.s[i-1]) / (c.s[i] - c.s[i-1])
	return (1-f)*at(i-1) + f*at(i)
}

// searchFrom is sort.SearchFloat64s(a, x), which looks next to i first.
func searchFrom(a []float64, x float64, i int) int {
	for near := max(i-1, 0); near <= i+1 && near <= len(a); near++ {
		if (near == len(a) || a[near] >= x) && (near == 0 || a[near-1] < x) {
			return near
		}
	}
	return sort.SearchFloat64s(a, x)
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
