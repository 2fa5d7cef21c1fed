package plane

import (
	"math"

	"springrib/internal/solve"
)

// lengthAccuracy is the relative accuracy of Segment.Length and Path.Length: well
// under what rounding in a file keeps, and still reached in two to four panels.
const lengthAccuracy = 1e-12

// Length returns the length of s in mm: exact for lines and arcs, and for cubics
// to 1e-12 of the length of the control polygon.
func (s Segment) Length() float64 { return s.LengthWithin(lengthAccuracy) }

// LengthWithin returns the length of s with an error of at most accuracy times the
// length of its control polygon; accuracy only concerns cubics.
func (s Segment) LengthWithin(accuracy float64) float64 {
	ch := s.A.Dist(s.B)
	switch {
	case s.Kind == Arc && s.Bulge != 0:
		half := s.Sweep() / 2
		return ch * half / math.Sin(half)
	case s.Kind == Cubic:
		return s.cubicLength(0, 1, accuracy)
	}
	return ch
}

func (s Segment) cubicLength(t0, t1, accuracy float64) float64 {
	speed := func(t float64) float64 { return s.Deriv(t).Len() }
	whole := s.A.Dist(s.C) + s.C.Dist(s.D) + s.D.Dist(s.B)
	sum, from := 0.0, t0
	for _, t := range s.slowest() {
		if t > t0 && t < t1 {
			sum += solve.Integrate(speed, from, t, accuracy*whole)
			from = t
		}
	}
	return sum + solve.Integrate(speed, from, t1, accuracy*whole)
}

// slowest returns the parameters in (0, 1) where the speed of a cubic is least or
// greatest, if it may come near a stop there. The speed has a kink at a cusp, which
// quadrature could step over unseen; at a seam of two panels it does no harm.
func (s Segment) slowest() []float64 {
	p, q, r := s.C.Sub(s.A), s.D.Sub(s.C), s.B.Sub(s.D)
	ch := s.B.Sub(s.A).Unit()
	least := 0.2 * math.Max(p.Len(), math.Max(q.Len(), r.Len()))
	if p.Dot(ch) > least && q.Dot(ch) > least && r.Dot(ch) > least {
		return nil
	}
	// P'/3 = p + 2 b t + c t^2, and its product with its own derivative vanishes.
	b, c := q.Sub(p), p.Add(r).Sub(q.Mul(2))
	f := func(t float64) float64 {
		return p.Add(b.Mul(2 * t)).Add(c.Mul(t * t)).Dot(b.Add(c.Mul(t)))
	}
	// f = p.b + (2 b.b + p.c) t + 3 b.c t^2 + c.c t^3 is monotone between these:
	cuts := []float64{0}
	roots, n := solve.Quadratic(3*c.Dot(c), 6*b.Dot(c), 2*b.Dot(b)+p.Dot(c))
	for _, t := range roots[:n] {
		if t > 0 && t < 1 {
			cuts = append(cuts, t)
		}
	}
	cuts = append(cuts, 1)
	var out []float64
	for i := 1; i < len(cuts); i++ {
		if t, ok := bisect(f, cuts[i-1], cuts[i]); ok {
			out = append(out, t)
		}
	}
	return out
}

// bisect returns a root of f between lo and hi to the last digit, if f changes sign.
func bisect(f func(float64) float64, lo, hi float64) (root float64, ok bool) {
	up := f(lo) < 0
	if up == (f(hi) < 0) {
		return 0, false
	}
	for range 60 {
		m := (lo + hi) / 2
		if (f(m) < 0) == up {
			lo = m
		} else {
			hi = m
		}
	}
	return (lo + hi) / 2, true
}

// ParamAt returns the parameter at which s has run l mm from A; l is clamped to
// the segment.
func (s Segment) ParamAt(l float64) float64 {
	total := s.Length()
	switch {
	case total == 0 || l <= 0:
		return 0
	case l >= total:
		return 1
	case s.Kind != Cubic:
		return l / total
	}
	// Newton on the length, kept inside a shrinking bracket; each step only
	// integrates over the stretch since the last one.
	lo, hi := 0.0, 1.0
	t, at := 0.0, 0.0
	next := l / total
	for range 60 {
		at += s.cubicLength(math.Min(t, next), math.Max(t, next), lengthAccuracy) * solve.Sign(next-t)
		t = next
		if at < l {
			lo = t
		} else {
			hi = t
		}
		if math.Abs(at-l) <= 1e-12*total || hi-lo < 1e-15 {
			break
		}
		next = t + (l-at)/s.Deriv(t).Len()
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
	}
	return t
}
