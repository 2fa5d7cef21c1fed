package score

import (
	"sort"

	"springrib/internal/curve"
	"springrib/internal/solve"
)

// Places is the smooth map between the arc length s of the contact edge and the place u
// along the flat panel that comes to lie there: exact where flats touch the edge,
// monotone cubics between, and straight on past the ends. At, in contrast, follows the
// flats themselves and so steps by a hair at each fold.
type Places struct {
	s, u  []float64 // at the ends of the stretches
	parts []monotone
}

// Places returns the map of a layout along its edge.
func (l Layout) Places(edge curve.Curve) Places {
	var p Places
	u, next := 0.0, 0
	// touching returns the first flat that touches the edge at s, if there is one, and
	// leaves next behind the last.
	touching := func(s float64) (Flat, bool) {
		for next < len(l.Flats) && l.Flats[next].S < s-1e-9 {
			next++
		}
		first := next
		for next < len(l.Flats) && l.Flats[next].S <= s+1e-9 {
			next++
		}
		if first == next {
			return Flat{}, false
		}
		return l.Flats[first], true
	}
	stretches := edge.Stretches()
	for i, st := range stretches {
		if f, ok := touching(st.Start); ok {
			u = f.U
		}
		x, y := []float64{st.Start}, []float64{u}
		for ; next < len(l.Flats) && l.Flats[next].S < st.End-1e-9; next++ {
			x, y = append(x, l.Flats[next].S), append(y, l.Flats[next].U)
		}
		p.s, p.u = append(p.s, st.Start), append(p.u, u)
		end := u + st.End - st.Start
		switch {
		case i+1 == len(stretches):
			end = l.Length
		case next < len(l.Flats) && l.Flats[next].S <= st.End+1e-9:
			end = l.Flats[next].U
		}
		x, y = append(x, st.End), append(y, end)
		p.parts = append(p.parts, newMonotone(x, y))
		u = end
	}
	p.s, p.u = append(p.s, edge.Length()), append(p.u, l.Length)
	return p
}

// U returns the place along the flat panel over arc length s.
func (p Places) U(s float64) float64 {
	last := len(p.s) - 1
	switch {
	case s <= p.s[0]:
		return p.u[0] + s - p.s[0]
	case s >= p.s[last]:
		return p.u[last] + s - p.s[last]
	}
	return p.parts[sort.SearchFloat64s(p.s, s)-1].at(s)
}

// Slope returns du/ds at s, that of the stretch which ends there where two meet.
func (p Places) Slope(s float64) float64 {
	if s <= p.s[0] || s >= p.s[len(p.s)-1] {
		return 1
	}
	return p.parts[sort.SearchFloat64s(p.s, s)-1].slope(s)
}

// S returns the arc length under the place u of the flat panel.
func (p Places) S(u float64) float64 {
	last := len(p.u) - 1
	switch {
	case u <= p.u[0]:
		return p.s[0] + u - p.u[0]
	case u >= p.u[last]:
		return p.s[last] + u - p.u[last]
	}
	f := p.parts[sort.SearchFloat64s(p.u, u)-1]
	i := min(max(sort.SearchFloat64s(f.y, u), 1), len(f.y)-1)
	s, _ := solve.Root(func(s float64) float64 { return f.at(s) - u }, f.x[i-1], f.x[i], 1e-10)
	return s
}

// Knots returns the places u where the curvature of the edge may step, ends included.
// The caller must not change them.
func (p Places) Knots() []float64 { return p.u }
