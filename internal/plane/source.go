package plane

import (
	"math"

	"springrib/internal/solve"
)

// Source is a curve to be fitted or measured: smooth stretches joined end to end.
// Path is a Source; so are what Func, Points and Parallel return.
type Source interface {
	// Stretches returns the smooth parts in order. Where one ends and the next
	// begins the direction may jump: that is a corner, and fitting keeps it.
	Stretches() []Stretch
	// Loop reports whether the last stretch ends where the first begins.
	Loop() bool
}

// Stretch is a smooth curve over the parameter t in [0, 1].
type Stretch struct {
	// At returns the point at t and the derivative by t.
	At func(t float64) (p, d Point)
	// Bend returns the second derivative.
	Bend func(t float64) Point
	// Exact is set when the stretch is this line or arc.
	Exact *Segment
}

// Stretch returns s as a Stretch.
func (s Segment) Stretch() Stretch {
	out := Stretch{At: func(t float64) (p, d Point) { return s.Point(t), s.Deriv(t) }, Bend: s.Deriv2}
	if s.Kind != Cubic {
		out.Exact = &s
	}
	return out
}

// Stretches returns one stretch for each segment of p; cubics are cut at cusps, where
// the direction turns back.
func (p Path) Stretches() []Stretch {
	var out []Stretch
	for _, s := range p.Segs {
		for _, part := range s.smoothParts() {
			out = append(out, part.Stretch())
		}
	}
	return out
}

// Loop reports whether p is closed.
func (p Path) Loop() bool { return p.Closed }

// smoothParts cuts a cubic at its cusps and leaves out what has no length.
func (s Segment) smoothParts() []Segment {
	size := s.A.Dist(s.B)
	if s.Kind == Cubic {
		size = s.A.Dist(s.C) + s.C.Dist(s.D) + s.D.Dist(s.B)
	}
	if size == 0 {
		return nil
	}
	var out []Segment
	t0 := 0.0
	if s.Kind == Cubic {
		for _, t := range s.slowest() {
			// Slower than 1e-6 of the mean, the turn takes place within 1e-12 of the
			// size: a cusp for every purpose.
			if s.Deriv(t).Len() < 1e-6*size && t > 1e-6 && t < 1-1e-6 {
				out = append(out, s.Split(t0, t))
				t0 = t
			}
		}
	}
	if t0 == 0 {
		return append(out, s)
	}
	return append(out, s.Split(t0, 1))
}

// funcSource is what Func returns.
type funcSource struct {
	at     func(t float64) (p, d Point)
	knots  []float64
	closed bool
}

// Func returns the curve at(t), which gives the point and its derivative by t, over
// the rising knots: first and last are its ends, and at those between its direction
// or curvature may jump. At a jump of direction at must be right on both sides of
// the knot; it is asked 1e-9 of the interval away from it. A closed curve ends where
// it begins.
func Func(closed bool, at func(t float64) (p, d Point), knots ...float64) Source {
	if len(knots) < 2 {
		panic("plane: Func needs two knots")
	}
	for i := 1; i < len(knots); i++ {
		if !(knots[i] > knots[i-1]) {
			panic("plane: knots of Func must rise")
		}
	}
	return funcSource{at, knots, closed}
}

func (f funcSource) Loop() bool { return f.closed }

func (f funcSource) Stretches() []Stretch {
	var out []Stretch
	for i := 1; i < len(f.knots); i++ {
		out = append(out, f.between(f.knots[i-1], f.knots[i]))
	}
	return out
}

func (f funcSource) between(a, b float64) Stretch {
	w := b - a
	const inside = 1e-9
	first := func(t float64) (p, d Point) {
		p, d = f.at(a + w*solve.Clamp(t, inside, 1-inside))
		return p, d.Mul(w)
	}
	return Stretch{At: func(t float64) (p, d Point) {
		p, d = first(t)
		if t < inside || t > 1-inside { // the exact ends, so that stretches join
			p, _ = f.at(a + w*solve.Clamp(t, 0, 1))
		}
		return p, d
	}, Bend: func(t float64) Point {
		// Central difference: the third derivative times 1e-10 is lost, and 1e-11 of d.
		const h = 1e-5
		t0, t1 := math.Max(t-h, inside), math.Min(t+h, 1-inside)
		_, d0 := first(t0)
		_, d1 := first(t1)
		return d1.Sub(d0).Mul(1 / (t1 - t0))
	}}
}
