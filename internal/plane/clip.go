package plane

import (
	"math"
	"sort"
)

// Span is a stretch of a straight line inside a region, or where it only touches
// the region's edge. From and To are mm along the line.
type Span struct {
	From, To float64
	// Graze marks a contact without passage: the line touches the edge at a point
	// (To == From) or runs along it. A graze may lie outside the region, between its
	// spans, or within one, as where the line touches a hole.
	Graze bool
	// FromSine and ToSine are the sines, in [0, 1], of the angles between the line
	// and the edge at the two ends: 1 is a square crossing, near 0 a slanting one.
	// Both are 0 for a graze.
	FromSine, ToSine float64
}

// Len returns the length of the span.
func (s Span) Len() float64 { return s.To - s.From }

// touchTolerance is how near, in mm, the line must come to an edge that it does not
// cross to count as touching it. It lies above the rounding of coordinates of a few
// metres after a turn (1e-12) and far under what a machine resolves.
const touchTolerance = 1e-7

// ClipLine returns where the infinite line through a and b (which must differ) lies
// in r, as mm from a towards b, in rising order. Crossings are exact roots for
// lines, arcs and cubics. Where the line runs along an edge that stretch is a graze
// and no part of a proper span.
func (r Region) ClipLine(a, b Point) []Span {
	return r.ClipLines(a, b, []float64{0})[0]
}

// ClipSegment is ClipLine kept to the stretch from a to b.
func (r Region) ClipSegment(a, b Point) []Span {
	var out []Span
	l := a.Dist(b)
	for _, s := range r.ClipLine(a, b) {
		if s.To < 0 || s.From > l || !s.Graze && (s.To == 0 || s.From == l) {
			continue
		}
		if s.From < 0 {
			s.From, s.FromSine = 0, 0
		}
		if s.To > l {
			s.To, s.ToSine = l, 0
		}
		out = append(out, s)
	}
	return out
}

// ClipLines clips many parallel lines at once: line i is the one through a and b
// moved by offsets[i] mm to its left; result i is as by ClipLine, measured from the
// foot of a on it. The time grows with the segments plus the crossings.
func (r Region) ClipLines(a, b Point, offsets []float64) [][]Span {
	u := b.Sub(a).Unit()
	if u == (Point{}) {
		panic("plane: ClipLines needs two different points")
	}
	c := newClipper(a, u, offsets)
	for _, p := range r.Paths() {
		c.path(p)
	}
	out := make([][]Span, len(offsets))
	room := make([]Span, len(offsets)) // for the one span that most lines have
	for rank, i := range c.order {
		out[i] = spans(room[i:i:i+1], c.crossings[rank], c.touches[rank])
	}
	return out
}

// crossing is a place where a line passes through the edge.
type crossing struct{ at, sine float64 }

func (x crossing) before(y crossing) bool {
	return x.at < y.at || x.at == y.at && x.sine < y.sine
}

// clipper gathers crossings and touches of parallel lines, sorted by offset.
type clipper struct {
	origin, u, n Point
	order        []int     // order[rank] is the caller's index
	offsets      []float64 // rising
	crossings    [][]crossing
	touches      [][]Span
}

func newClipper(a, u Point, offsets []float64) *clipper {
	n := len(offsets)
	c := &clipper{origin: a, u: u, n: u.Left(), order: make([]int, n), offsets: make([]float64, n),
		crossings: make([][]crossing, n), touches: make([][]Span, n)}
	for i := range n {
		c.order[i] = i
	}
	if !sort.Float64sAreSorted(offsets) {
		sort.SliceStable(c.order, func(i, j int) bool { return offsets[c.order[i]] < offsets[c.order[j]] })
	}
	pairs := make([]crossing, 2*n) // room for a line that goes through and out again
	for i := range c.crossings {
		c.crossings[i] = pairs[2*i : 2*i : 2*i+2]
	}
	for rank, i := range c.order {
		c.offsets[rank] = offsets[i]
	}
	return c
}

// stretch is part of a segment over which its height above the line is monotone.
type stretch struct {
	seg    *Segment
	t0, t1 float64
	p0, p1 Point
	v0, v1 float64 // heights of p0 and p1 above the line of offset 0
	sine   float64 // of its angle with the lines, when it is straight
}

// path adds the crossings and touches of one closed path.
func (c *clipper) path(p Path) {
	all := make([]stretch, 0, len(p.Segs)*5/4+4)
	for i := range p.Segs {
		all = c.stretches(all, &p.Segs[i])
	}
	for i := range all {
		before := &all[(i+len(all)-1)%len(all)]
		c.stretch(&all[i])
		c.knot(before, &all[i])
	}
}

func (c *clipper) stretches(all []stretch, s *Segment) []stretch {
	if s.Kind == Line {
		return append(all, stretch{s, 0, 1, s.A, s.B, c.height(s.A), c.height(s.B), math.Abs(s.B.Sub(s.A).Unit().Dot(c.n))})
	}
	cuts := s.extrema(c.n)
	t0, p0, v0 := 0.0, s.A, c.height(s.A)
	for i := range len(cuts) + 1 {
		t1, p1 := 1.0, s.B
		if i < len(cuts) {
			t1 = cuts[i]
			p1 = s.Point(t1)
		}
		v1 := c.height(p1)
		all = append(all, stretch{s, t0, t1, p0, p1, v0, v1, 0})
		t0, p0, v0 = t1, p1, v1
	}
	return all
}

func (c *clipper) height(p Point) float64 { return p.Sub(c.origin).Dot(c.n) }

func (c *clipper) along(p Point) float64 { return p.Sub(c.origin).Dot(c.u) }

// side returns -1, 0 or 1 for a height below, at or above the line of that offset.
func side(v, offset float64) int {
	switch d := v - offset; {
	case d < -touchTolerance:
		return -1
	case d > touchTolerance:
		return 1
	}
	return 0
}

// stretch adds the crossings of one stretch, and a graze where it lies on a line.
// Ends that lie on a line count as above it, so that a vertex is counted once.
func (c *clipper) stretch(s *stretch) {
	lo, hi := math.Min(s.v0, s.v1), math.Max(s.v0, s.v1)
	i := sort.SearchFloat64s(c.offsets, lo-2*touchTolerance)
	for ; i < len(c.offsets) && c.offsets[i] <= hi+2*touchTolerance; i++ {
		a, b := side(s.v0, c.offsets[i]), side(s.v1, c.offsets[i])
		if a == 0 && b == 0 {
			c.lying(i, s)
		} else if (a < 0) != (b < 0) {
			c.crossings[i] = append(c.crossings[i], c.cross(s, a, b, c.offsets[i]))
		}
	}
}

// lying adds a graze for a stretch that lies within tolerance of line i.
func (c *clipper) lying(i int, s *stretch) {
	from, to := c.along(s.p0), c.along(s.p1)
	if from > to {
		from, to = to, from
	}
	c.touches[i] = append(c.touches[i], Span{From: from, To: to, Graze: true})
}

// cross returns where the stretch with ends on the sides a and b meets the line.
func (c *clipper) cross(s *stretch, a, b int, offset float64) crossing {
	at, t := s.p0, s.t0
	switch {
	case a == 0:
	case b == 0:
		at, t = s.p1, s.t1
	case s.seg.Kind == Line:
		at = s.p0.Lerp(s.p1, (offset-s.v0)/(s.v1-s.v0))
	case s.seg.Kind == Arc:
		if x, ok := c.onCircle(s, offset); ok {
			return x
		}
		fallthrough
	default:
		t = s.seg.solve(s.t0, s.t1, c.n, offset+c.origin.Dot(c.n))
		at = s.seg.Point(t)
	}
	if s.seg.Kind == Line {
		return crossing{c.along(at), s.sine}
	}
	return crossing{c.along(at), math.Abs(s.seg.Tangent(t).Dot(c.n))}
}

// onCircle returns where an arc's stretch meets the line, straight from the circle. ok is
// false for an arc so flat that the rounding of its centre would be felt.
func (c *clipper) onCircle(s *stretch, offset float64) (x crossing, ok bool) {
	centre, r := s.seg.Centre()
	if !(r < 1e5) {
		return x, false
	}
	d := offset - c.height(centre)
	half := math.Sqrt(math.Max(0, (r-d)*(r+d)))
	middle := c.along(centre)
	if (s.v1 > s.v0) != (s.seg.Bulge > 0) { // falling while it turns left: behind its centre
		half = -half
	}
	return crossing{middle + half, math.Abs(half) / r}, true
}

// knot adds a touch where two stretches meet on a line and stay on one side of it.
func (c *clipper) knot(before, after *stretch) {
	i := sort.SearchFloat64s(c.offsets, after.v0-2*touchTolerance)
	for ; i < len(c.offsets) && c.offsets[i] <= after.v0+2*touchTolerance; i++ {
		o := c.offsets[i]
		if side(after.v0, o) == 0 && side(before.v0, o)*side(after.v1, o) > 0 {
			u := c.along(after.p0)
			c.touches[i] = append(c.touches[i], Span{From: u, To: u, Graze: true})
		}
	}
}

// spans pairs crossings by the even-odd rule and takes the touches into account. It may
// put a single span into room.
func spans(room []Span, xs []crossing, touches []Span) []Span {
	if len(xs) == 2 && len(touches) == 0 { // through and out again, as most lines go
		if xs[1].before(xs[0]) {
			xs[0], xs[1] = xs[1], xs[0]
		}
		s := Span{From: xs[0].at, To: xs[1].at, FromSine: xs[0].sine, ToSine: xs[1].sine}
		if s.Len() <= touchTolerance {
			return nil
		}
		return append(room, s)
	}
	sort.Slice(xs, func(i, j int) bool {
		return xs[i].before(xs[j])
	})
	touches = joinTouches(touches)
	var out []Span
	for i := 0; i+1 < len(xs); i += 2 {
		s := Span{From: xs[i].at, To: xs[i+1].at, FromSine: xs[i].sine, ToSine: xs[i+1].sine}
		if n := len(out); n > 0 && s.From-out[n-1].To <= touchTolerance {
			// Two spans that meet at a vertex are one, touched there.
			out[n-1].To, out[n-1].ToSine = s.To, s.ToSine
			continue
		}
		out = append(out, s)
	}
	out = withoutEdges(out, touches)
	out = append(out, touches...)
	sort.SliceStable(out, func(i, j int) bool { return out[i].From < out[j].From })
	return out
}

// joinTouches sorts grazes and joins those that meet.
func joinTouches(ts []Span) []Span {
	sort.Slice(ts, func(i, j int) bool {
		return ts[i].From < ts[j].From || ts[i].From == ts[j].From && ts[i].To < ts[j].To
	})
	var out []Span
	for _, t := range ts {
		if n := len(out); n > 0 && t.From <= out[n-1].To+touchTolerance {
			out[n-1].To = math.Max(out[n-1].To, t.To)
			continue
		}
		out = append(out, t)
	}
	return out
}

// withoutEdges takes the stretches along edges off the proper spans, and drops
// spans that are no more than a point.
func withoutEdges(in, touches []Span) []Span {
	var out []Span
	for _, s := range in {
		for _, t := range touches {
			if t.Len() <= touchTolerance || t.To <= s.From || t.From >= s.To {
				continue
			}
			if head := (Span{From: s.From, To: t.From, FromSine: s.FromSine}); head.Len() > touchTolerance {
				out = append(out, head)
			}
			s.From, s.FromSine = t.To, 0
		}
		if s.Len() > touchTolerance {
			out = append(out, s)
		}
	}
	return out
}
