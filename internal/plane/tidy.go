package plane

// Tidy returns p without pieces shorter than 0.01 mm, which make a head stutter and which
// some readers drop. Neighbours of a short piece run on to where they cross, if that is
// near, else to its middle, so that the path moves by less than 0.005 mm for each piece
// taken out; one so little longer that the grid of a file could make it short is
// stretched. Both ends of an open path may be drawn in by as much as their short piece.
func Tidy(p Path) Path {
	if shortest(p) < 0 {
		return p
	}
	p.Segs = append([]Segment{}, p.Segs...)
	for range 4 * len(p.Segs) {
		i := shortest(p)
		if i < 0 {
			break
		}
		merge(&p, i)
	}
	return p
}

const (
	// leastPiece is the length under which a piece is taken out, mm.
	leastPiece = 0.01
	// leastRounded is the length that stays above leastPiece when both ends are rounded to
	// a grid of 0.001 mm, each by half the diagonal of a square of it at most.
	leastRounded = 0.0115
)

// shortest returns the index of the shortest piece that is too short, -1 for none or where
// nothing is left to join it to.
func shortest(p Path) int {
	least := 2 // a closed path of two pieces is a circle, or nothing
	if !p.Closed {
		least = 1
	}
	if len(p.Segs) <= least {
		return -1
	}
	best, length := -1, leastRounded-1e-6
	for i, s := range p.Segs {
		if s.A.Dist(s.B) < length {
			if l := s.Length(); l < length {
				best, length = i, l
			}
		}
	}
	return best
}

// merge takes piece i out, or stretches it.
func merge(p *Path, i int) {
	n := len(p.Segs)
	s := p.Segs[i]
	first, last := !p.Closed && i == 0, !p.Closed && i == n-1
	prev, next := &p.Segs[(i+n-1)%n], &p.Segs[(i+1)%n]
	if l := s.Length(); l >= leastPiece && !first && !last {
		grow := s.B.Sub(s.A).Mul((leastRounded/l - 1) / 2)
		startAt(&p.Segs[i], s.A.Sub(grow))
		endAt(&p.Segs[i], s.B.Add(grow))
		endAt(prev, p.Segs[i].A)
		startAt(next, p.Segs[i].B)
		return
	}
	if !first && !last {
		mid := s.A.Lerp(s.B, 0.5)
		t, u, ok := CrossingOf(prev, next)
		near := func(a Point) bool { return prev.Point(t).Dist(a) < leastPiece/2 }
		if ok && near(mid) && (t >= 1 || near(s.A)) && (u <= 0 || near(s.B)) {
			*prev, *next = prev.Split(0, t), next.Split(u, 1)
			mid = prev.B.Lerp(next.A, 0.5)
			prev.B, next.A = mid, mid
		} else {
			endAt(prev, mid)
			startAt(next, mid)
		}
	}
	p.Segs = append(p.Segs[:i], p.Segs[i+1:]...)
}

// CrossingOf finds where two pieces in a row cross, or would if they ran on, by Newton's method
// from the end of p and the start of q; ok is false when that leads nowhere near.
func CrossingOf(p, q *Segment) (t, u float64, ok bool) {
	t = 1
	for range 20 {
		off := p.Point(t).Sub(q.Point(u))
		if off.Len() < 1e-10 {
			return t, u, true
		}
		a, b := p.Deriv(t), q.Deriv(u) // these go on past the ends
		den := a.Cross(b)
		if den*den < 1e-18*a.Dot(a)*b.Dot(b) {
			break
		}
		t, u = t-off.Cross(b)/den, u-off.Cross(a)/den
		if !(t > 0.2 && t < 1.5 && u < 0.8 && u > -0.5) {
			break
		}
	}
	return 0, 0, false
}

// startAt moves the start of s, and what of it hangs on its start.
func startAt(s *Segment, p Point) {
	if s.Kind == Cubic {
		s.C = s.C.Add(p.Sub(s.A))
	}
	s.A = p
}

// endAt moves the end likewise.
func endAt(s *Segment, p Point) {
	if s.Kind == Cubic {
		s.D = s.D.Add(p.Sub(s.B))
	}
	s.B = p
}

// TidyRegion returns r with all its paths so.
func TidyRegion(r Region) Region {
	out := Region{Outer: Tidy(r.Outer)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, Tidy(h))
	}
	return out
}
