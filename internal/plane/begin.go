package plane

import "math"

// Begin returns a closed path that begins at a place along it.
func (p Path) Begin(at float64) Path {
	s := 0.0
	for i, g := range p.Segs {
		l := g.Length()
		if at >= s+l && i+1 < len(p.Segs) {
			s += l
			continue
		}
		t := partAt(g, math.Max(0, math.Min(l, at-s)))
		var segs []Segment
		if t < 1 {
			segs = append(segs, g.Split(t, 1))
		}
		segs = append(append(segs, p.Segs[i+1:]...), p.Segs[:i]...)
		if t > 0 {
			segs = append(segs, g.Split(0, t))
		}
		return Path{Segs: segs, Closed: true}
	}
	return p
}

// partAt returns the parameter of a segment at a length along it, by halving; an end within
// a thousandth of a millimetre is the end itself.
func partAt(g Segment, l float64) float64 {
	total := g.Length()
	switch {
	case l < 1e-3:
		return 0
	case l > total-1e-3:
		return 1
	}
	lo, hi := 0.0, 1.0
	for range 50 {
		m := (lo + hi) / 2
		if g.Split(0, m).Length() < l {
			lo = m
		} else {
			hi = m
		}
	}
	return (lo + hi) / 2
}
