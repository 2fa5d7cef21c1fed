package export

import (
	"math"
	"testing"

	"springrib/internal/plane"
)

// Plain measures of paths for tests: sampled, so that they share nothing with the
// closed forms they check.

// at returns the point of s at parameter f in 0..1.
func at(s plane.Segment, f float64) plane.Point {
	switch s.Kind {
	case plane.Arc:
		c := centre(s)
		turn := 4 * math.Atan(s.Bulge) * f
		v := s.A.Sub(c)
		return c.Add(plane.Pt(v.X*math.Cos(turn)-v.Y*math.Sin(turn), v.X*math.Sin(turn)+v.Y*math.Cos(turn)))
	case plane.Cubic:
		ab, cd, db := s.A.Lerp(s.C, f), s.C.Lerp(s.D, f), s.D.Lerp(s.B, f)
		return ab.Lerp(cd, f).Lerp(cd.Lerp(db, f), f)
	}
	return s.A.Lerp(s.B, f)
}

// centre returns the centre of an arc from its chord and bulge.
func centre(s plane.Segment) plane.Point {
	return s.A.Lerp(s.B, 0.5).Add(s.B.Sub(s.A).Left().Mul((1/s.Bulge - s.Bulge) / 4))
}

func samples(p plane.Path, n int) []plane.Point {
	var out []plane.Point
	for _, s := range p.Segs {
		for i := range n + 1 {
			out = append(out, at(s, float64(i)/float64(n)))
		}
	}
	return out
}

func pathLength(p plane.Path) float64 {
	pts, l := samples(p, 2000), 0.0
	for i := 1; i < len(pts); i++ {
		l += pts[i].Dist(pts[i-1])
	}
	return l
}

// samePlaces checks that every point of want lies within tol of got. Both run the
// same way, so the nearest place is looked for on the pieces of got in turn.
func samePlaces(t *testing.T, want, got plane.Path, tol float64) {
	t.Helper()
	hint := 0
	for _, q := range samples(want, 16) {
		if d := distance(got, q, tol, &hint); d > tol {
			t.Errorf("%v is %.5f mm from the path in the file", q, d)
			return
		}
	}
	each := 16
	if len(got.Segs) > 4*len(want.Segs) {
		each = 3 // many short arcs stand for few cubics
	}
	hint = 0
	for _, q := range samples(got, each) {
		if d := distance(want, q, tol, &hint); d > tol {
			t.Errorf("the file's %v is %.5f mm from the path", q, d)
			return
		}
	}
}

// distance returns how far q is from p, or some distance that is no more than
// enough. It looks at segment *hint first and leaves there the one it took: places
// asked for in order are then found at once.
func distance(p plane.Path, q plane.Point, enough float64, hint *int) float64 {
	best, n := math.Inf(1), len(p.Segs)
	for i := range n {
		k := (*hint + i) % n
		if d := segmentDistance(p.Segs[k], q, best, enough); d < best {
			best = d
			if best <= enough {
				*hint = k
				break
			}
		}
	}
	return best
}

// beyond returns how far q is outside the box of the control points, which holds s.
func beyond(s plane.Segment, q plane.Point) float64 {
	b := plane.BoxOf(s.A, s.B, s.C, s.D)
	dx := max(0, b.Min.X-q.X, q.X-b.Max.X)
	dy := max(0, b.Min.Y-q.Y, q.Y-b.Max.Y)
	return math.Hypot(dx, dy)
}

// segmentDistance returns the least of best and the distance from s to q.
func segmentDistance(s plane.Segment, q plane.Point, best, enough float64) float64 {
	ends := min(best, q.Dist(s.A), q.Dist(s.B))
	switch s.Kind {
	case plane.Line:
		v := s.B.Sub(s.A)
		f := q.Sub(s.A).Dot(v) / v.Dot(v)
		if f > 0 && f < 1 {
			return min(best, q.Dist(s.A.Lerp(s.B, f)))
		}
		return ends
	case plane.Arc:
		c := centre(s)
		a, v := s.A.Sub(c), q.Sub(c)
		turn := math.Atan2(a.Cross(v), a.Dot(v))
		full := 4 * math.Atan(s.Bulge)
		if full < 0 {
			turn, full = -turn, -full
		}
		if turn < 0 {
			turn += 2 * math.Pi
		}
		if turn <= full {
			return min(best, math.Abs(v.Len()-a.Len()))
		}
		return ends
	}
	return cubicDistance(s, q, ends, enough)
}

// cubicDistance returns the least of best and the distance from s to q to a
// hundredth of a micrometre: it halves whatever could still be nearer, so that cusps and loops
// can't deceive it.
func cubicDistance(s plane.Segment, q plane.Point, best, enough float64) float64 {
	if best <= enough || beyond(s, q) >= best-1e-5 {
		return best
	}
	ab, bc, cd := s.A.Lerp(s.C, 0.5), s.C.Lerp(s.D, 0.5), s.D.Lerp(s.B, 0.5)
	abc, bcd := ab.Lerp(bc, 0.5), bc.Lerp(cd, 0.5)
	mid := abc.Lerp(bcd, 0.5)
	best = math.Min(best, mid.Dist(q))
	l, r := plane.CubicSeg(s.A, ab, abc, mid), plane.CubicSeg(mid, bcd, cd, s.B)
	if beyond(r, q) < beyond(l, q) {
		l, r = r, l
	}
	return cubicDistance(r, q, cubicDistance(l, q, best, enough), enough)
}
