package score

import (
	"sort"

	"springrib/internal/curve"
)

// Places is the smooth map between the arc length s of the contact edge and the place u
// along the flat panel that comes to lie there: exact where flats touch the edge,
// monotone cubics between, and straight on past the ends. At, in contrast, follows the
// flats themselves and so steps by a hair at each fold.
type Places struct {
	s, u    []float64 // at the ends of the stretches
	forward []monotone
	back    []monotone
}

// Places returns the map of a layout along its edge.
func (l Layout) Places(edge curve.Curve) Places {
	var p Places
	u, next := 0.0, 0
	// touching returns the flat that touches the edge at s, if there is one, and leaves
	// next behind it.
	touching := func(s float64) (Flat, bool) {
		for next < len(l.Flats) && l.Flats[next].S < s-1e-9 {
			next++
		}
		var f Flat
		ok := false
		for ; next < len(l.Flats) && l.Flats[next].S <= s+1e-9; next++ {
			f, ok = l.Flats[next], true
		}
		return f, ok
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
		if st.Sign != 0 {
			end = l.Flats[min(next, len(l.Flats)-1)].U
		}
		if i+1 == len(stretches) {
			end = l.Length
		}
		x, y = append(x, st.End), append(y, end)
		p.forward, p.back = append(p.forward, newMonotone(x, y)), append(p.back, newMonotone(y, x))
		u = end
	}
	p.s, p.u = append(p.s, edge.Length()), append(p.u, l.Length)
	return p
}

// U returns the place along the flat panel over arc length s.
func (p Places) U(s float64) float64 { return along(p.s, p.u, p.forward, s) }

// S returns the arc length under the place u of the flat panel.
func (p Places) S(u float64) float64 { return along(p.u, p.s, p.back, u) }

// Knots returns the places u where the curvature of the edge may step, ends included.
// The caller must not change them.
func (p Places) Knots() []float64 { return p.u }

func along(x, y []float64, parts []monotone, at float64) float64 {
	last := len(x) - 1
	switch {
	case at <= x[0]:
		return y[0] + at - x[0]
	case at >= x[last]:
		return y[last] + at - x[last]
	}
	i := sort.SearchFloat64s(x, at)
	return parts[i-1].at(at)
}
