package plane

import (
	"math"

	"springrib/internal/solve"
)

// parallelSource is what Parallel returns.
type parallelSource struct {
	of         Source
	start, end float64
}

// Parallel returns the curve at a distance to the left of src (negative: to the
// right) that goes in proportion to arc length from start to end. With start equal
// to end it is the parallel or offset curve. It is exact and raw: at a corner of src
// an arc about the corner joins the two sides, also on the inner side, and where the
// distance is more than the radius of curvature the curve turns back in cusps.
// Offset is the one that keeps clear of src. A closed src takes one distance only.
//
// With distance h(s) the point is p + h n and its derivative by arc length
// (1 - kappa h) t + h' n, t and n the unit tangent and left normal of src.
func Parallel(src Source, start, end float64) Source {
	if src.Loop() && start != end {
		panic("plane: Parallel of a closed curve at a changing distance")
	}
	return parallelSource{src, start, end}
}

func (q parallelSource) Loop() bool { return q.of.Loop() }

func (q parallelSource) Stretches() []Stretch {
	in := q.of.Stretches()
	lengths := make([]float64, len(in))
	total := 0.0
	for i, s := range in {
		lengths[i] = s.length()
		total += lengths[i]
	}
	var parts [][]Stretch
	run := 0.0
	for i, s := range in {
		h0 := q.start + (q.end-q.start)*run/total
		run += lengths[i]
		h1 := q.start + (q.end-q.start)*run/total
		parts = append(parts, s.parallel(h0, h1, lengths[i]))
	}
	var out []Stretch
	for i, part := range parts {
		out = append(out, part...)
		if next := (i + 1) % len(parts); next > 0 || q.of.Loop() {
			h := q.start + (q.end-q.start)*lengthUpTo(lengths, i)/total
			out = append(out, cornerJoin(in[i], in[next], h)...)
		}
	}
	return out
}

func lengthUpTo(lengths []float64, i int) float64 {
	sum := 0.0
	for _, l := range lengths[:i+1] {
		sum += l
	}
	return sum
}

// length returns the length of s to 1e-10 of itself.
func (s Stretch) length() float64 {
	if s.Exact != nil {
		return s.Exact.Length()
	}
	speed := func(t float64) float64 {
		_, d := s.At(t)
		return d.Len()
	}
	_, d := s.At(0.5)
	return solve.Integrate(speed, 0, 1, 1e-10*(1e-3+d.Len()))
}

// cornerJoin returns the arc about the corner between a and b at distance h, or
// nothing where the direction doesn't jump.
func cornerJoin(a, b Stretch, h float64) []Stretch {
	at, d0 := a.End(1)
	_, d1 := b.End(0)
	w := math.Atan2(d0.Cross(d1), d0.Dot(d1))
	if math.Abs(w) < 1e-9 || h == 0 {
		return nil
	}
	if w > math.Pi-1e-9 && h > 0 || w < 1e-9-math.Pi && h < 0 {
		w = -w // turning straight back: go round the outer side
	}
	r := d0.Left().Mul(h)
	from, to := at.Add(r), at.Add(turn(r, w))
	return []Stretch{BulgeSeg(from, to, math.Tan(w/4)).Stretch()}
}

// End returns the point and the unit tangent at the end t = 0 or 1, the latter as
// the limit from inside where the derivative vanishes.
func (s Stretch) End(t float64) (at, tangent Point) {
	p, d := s.At(t)
	for in := 1e-7; d.Len() < 1e-7*s.size() && in < 0.1; in *= 10 {
		_, d = s.At(math.Abs(t - in))
	}
	return p, d.Unit()
}

// size returns a rough measure of the speed of s.
func (s Stretch) size() float64 {
	_, d0 := s.At(0.3)
	_, d1 := s.At(0.6)
	return math.Max(d0.Len(), d1.Len())
}

// parallel returns s moved left by a distance from h0 to h1 in proportion to arc
// length, cut where it turns back.
func (s Stretch) parallel(h0, h1, length float64) []Stretch {
	if s.Exact != nil {
		if e, ok := s.Exact.Parallel(h0, h1); ok {
			if e.A == e.B {
				return nil
			}
			return []Stretch{e.Stretch()}
		}
	}
	along := s.arcLengthTable(h0, h1, length)
	first := func(t float64) (p, d Point) { return s.shifted(t, h0+(h1-h0)*along(t)/length, (h1-h0)/length) }
	whole := Stretch{At: first, Bend: func(t float64) Point {
		const h = 1e-5
		a, b := math.Max(t-h, 0), math.Min(t+h, 1)
		_, da := first(a)
		_, db := first(b)
		return db.Sub(da).Mul(1 / (b - a))
	}}
	if h0 != h1 {
		return []Stretch{whole}
	}
	return whole.cutAt(s.focal(h0))
}

// shifted returns the point at distance h left of s(t) and its derivative by t,
// where h grows by slope per mm.
func (s Stretch) shifted(t, h, slope float64) (p, d Point) {
	p, d = s.At(t)
	v := d.Len()
	u := d.Unit()
	if v < 1e-9*s.size() {
		_, u = s.End(math.Round(t))
		return p.Add(u.Left().Mul(h)), d
	}
	kv := d.Cross(s.Bend(t)) / (v * v) // curvature times speed
	n := u.Left()
	return p.Add(n.Mul(h)), u.Mul(v - kv*h).Add(n.Mul(slope * v))
}

// Parallel returns the parallel on the left of a line (also with the distance changing in
// proportion from h0 to h1) or of an arc (only constant); ok is false for all others. An
// arc may shrink through its centre, and is then run the same way about it.
func (s Segment) Parallel(h0, h1 float64) (q Segment, ok bool) {
	if s.Kind == Line || s.Kind == Arc && s.Bulge == 0 {
		n := s.B.Sub(s.A).Unit().Left()
		return LineSeg(s.A.Add(n.Mul(h0)), s.B.Add(n.Mul(h1))), true
	}
	if h0 != h1 || s.Kind != Arc {
		return s, false
	}
	a := s.A.Add(s.Tangent(0).Left().Mul(h0))
	b := s.B.Add(s.Tangent(1).Left().Mul(h0))
	return BulgeSeg(a, b, s.Bulge), true
}

// focal returns where the parallel at h turns back: 1 = curvature times h.
func (s Stretch) focal(h float64) []float64 {
	f := func(t float64) float64 {
		_, d := s.At(t)
		v := d.Len()
		return v*v*v - h*d.Cross(s.Bend(t))
	}
	const n = 64 // two turning points closer than this are as good as none
	var cuts []float64
	for i := range n {
		if t, ok := bisect(f, float64(i)/n, float64(i+1)/n); ok && t > 1e-9 && t < 1-1e-9 {
			cuts = append(cuts, t)
		}
	}
	return cuts
}

func (s Stretch) cutAt(cuts []float64) []Stretch {
	if len(cuts) == 0 {
		return []Stretch{s}
	}
	var out []Stretch
	t0 := 0.0
	for _, t1 := range append(cuts, 1) {
		a, w := t0, t1-t0
		out = append(out, Stretch{At: func(t float64) (p, d Point) {
			p, d = s.At(a + w*t)
			return p, d.Mul(w)
		}, Bend: func(t float64) Point { return s.Bend(a + w*t).Mul(w * w) }})
		t0 = t1
	}
	return out
}

// arcLengthTable returns the length of s up to t as a function, to 1e-9 of it; it is
// only worked out when the distance changes.
func (s Stretch) arcLengthTable(h0, h1, length float64) func(float64) float64 {
	if h0 == h1 {
		return func(float64) float64 { return 0 }
	}
	if s.Exact != nil {
		return func(t float64) float64 { return length * t }
	}
	const n = 32
	speed := func(t float64) float64 {
		_, d := s.At(t)
		return d.Len()
	}
	var upTo [n + 1]float64
	for i := range n {
		upTo[i+1] = upTo[i] + solve.Integrate(speed, float64(i)/n, float64(i+1)/n, 1e-11*length)
	}
	return func(t float64) float64 {
		i := int(solve.Clamp(math.Floor(t*n), 0, n-1))
		a := float64(i) / n
		return upTo[i] + solve.Gauss5(speed, a, t)
	}
}
