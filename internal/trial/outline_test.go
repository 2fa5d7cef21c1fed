package trial_test

import (
	"math"

	"springrib/internal/plane"
)

// How near a chord lies to its curve, and how near a path must lie to where it should, mm.
// Outlines are rounded to a thousandth, and moved free curves may stray by two.
const (
	chordError = 0.001
	placeError = 0.01
)

// traceOf takes over a path of a plan, segment by segment.
func traceOf(p plane.Path, move plane.Affine) trace {
	out := trace{closed: p.Closed}
	at := func(q plane.Point) xy { m := move.Apply(q); return xy{m.X, m.Y} }
	for _, s := range p.Segs {
		r := run{kind: 'L', a: at(s.A), b: at(s.B)}
		switch s.Kind {
		case plane.Arc:
			r.kind = 'A'
			turn := 4 * math.Atan(s.Bulge)
			r.arc(r.a.to(r.b)/2/math.Abs(math.Sin(turn/2)), math.Abs(turn) > math.Pi, turn > 0)
		case plane.Cubic:
			r.kind, r.c, r.d = 'C', at(s.C), at(s.D)
		}
		out.runs = append(out.runs, r)
	}
	return out
}

// box is an upright rectangle.
type box struct{ lo, hi xy }

func boxOf(pts []xy) box {
	b := box{xy{math.Inf(1), math.Inf(1)}, xy{math.Inf(-1), math.Inf(-1)}}
	for _, q := range pts {
		b.lo = xy{math.Min(b.lo.x, q.x), math.Min(b.lo.y, q.y)}
		b.hi = xy{math.Max(b.hi.x, q.x), math.Max(b.hi.y, q.y)}
	}
	return b
}

func (b box) grown(by float64) box {
	return box{xy{b.lo.x - by, b.lo.y - by}, xy{b.hi.x + by, b.hi.y + by}}
}

func (b box) meets(c box) bool {
	return b.lo.x <= c.hi.x && c.lo.x <= b.hi.x && b.lo.y <= c.hi.y && c.lo.y <= b.hi.y
}

func (b box) holds(q xy) bool {
	return q.x >= b.lo.x && q.x <= b.hi.x && q.y >= b.lo.y && q.y <= b.hi.y
}

// chain is a polyline, closed or open, with a grid over its edges.
type chain struct {
	pts    []xy
	closed bool
	box    box
	cell   float64
	nx, ny int
	cells  [][]int32
	rows   [][]int32 // edges by the rows of cells that they go through
}

func newChain(pts []xy, closed bool) *chain {
	c := &chain{pts: pts, closed: closed, box: boxOf(pts)}
	c.cell = math.Max(math.Max(c.box.hi.x-c.box.lo.x, c.box.hi.y-c.box.lo.y)/40, 0.01)
	c.nx, c.ny = int((c.box.hi.x-c.box.lo.x)/c.cell)+1, int((c.box.hi.y-c.box.lo.y)/c.cell)+1
	c.cells, c.rows = make([][]int32, c.nx*c.ny), make([][]int32, c.ny)
	for i := range c.edges() {
		a, b := c.edge(i)
		x0, y0 := c.cellOf(xy{math.Min(a.x, b.x), math.Min(a.y, b.y)})
		x1, y1 := c.cellOf(xy{math.Max(a.x, b.x), math.Max(a.y, b.y)})
		for y := y0; y <= y1; y++ {
			c.rows[y] = append(c.rows[y], int32(i))
			for x := x0; x <= x1; x++ {
				c.cells[y*c.nx+x] = append(c.cells[y*c.nx+x], int32(i))
			}
		}
	}
	return c
}

func (c *chain) edges() int {
	if c.closed {
		return len(c.pts)
	}
	return len(c.pts) - 1
}

func (c *chain) edge(i int) (a, b xy) { return c.pts[i], c.pts[(i+1)%len(c.pts)] }

func (c *chain) cellOf(q xy) (x, y int) {
	x = min(max(int((q.x-c.box.lo.x)/c.cell), 0), c.nx-1)
	y = min(max(int((q.y-c.box.lo.y)/c.cell), 0), c.ny-1)
	return x, y
}

// near returns how far q lies from the polyline, and the edge that is nearest. What lies
// further than most comes back as most.
func (c *chain) near(q xy, most float64) (float64, int) {
	best, at := most, -1
	cx, cy := c.cellOf(q)
	try := func(x, y int) {
		for _, i := range c.cells[y*c.nx+x] {
			a, b := c.edge(int(i))
			if d := fromEdge(q, a, b); d < best {
				best, at = d, int(i)
			}
		}
	}
	// From outside the box the first ring is the nearest cells only by and by: go on until
	// a whole ring is further off than the best.
	for ring := 0; ring <= c.nx+c.ny; ring++ {
		if float64(ring-1)*c.cell > best {
			break
		}
		for y := max(cy-ring, 0); y <= min(cy+ring, c.ny-1); y++ {
			whole := y == cy-ring || y == cy+ring
			for x := max(cx-ring, 0); x <= min(cx+ring, c.nx-1); x++ {
				if whole || x == cx-ring || x == cx+ring {
					try(x, y)
				}
			}
		}
	}
	return best, at
}

// fromEdge returns the distance of q from the segment ab.
func fromEdge(q, a, b xy) float64 {
	d := b.sub(a)
	t := 0.0
	if l := d.dot(d); l > 0 {
		t = math.Max(0, math.Min(1, q.sub(a).dot(d)/l))
	}
	return q.to(a.add(d.mul(t)))
}

// inside tells whether q lies in a closed polyline, by the crossings of a ray.
func (c *chain) inside(q xy) bool {
	if !c.box.holds(q) {
		return false
	}
	in := false
	_, y := c.cellOf(q)
	for _, i := range c.rows[y] { // the others lie above q or below it
		a, b := c.edge(int(i))
		if (a.y > q.y) != (b.y > q.y) && q.x < a.x+(b.x-a.x)*(q.y-a.y)/(b.y-a.y) {
			in = !in
		}
	}
	return in
}

// area is counter-clockwise positive.
func area(pts []xy) float64 {
	s := 0.0
	for i, a := range pts {
		s += a.cross(pts[(i+1)%len(pts)])
	}
	return s / 2
}

// cross tells whether two segments cross in their insides.
func cross(a, b, c, d xy) bool {
	side := func(p, q, r xy) float64 { return q.sub(p).cross(r.sub(p)) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// crossings returns a place where two polylines cross, or one crosses itself where they
// are the same.
func crossings(a, b *chain) (xy, bool) {
	if !a.box.meets(b.box) {
		return xy{}, false
	}
	for i := range a.edges() {
		p, q := a.edge(i)
		x0, y0 := b.cellOf(xy{math.Min(p.x, q.x), math.Min(p.y, q.y)})
		x1, y1 := b.cellOf(xy{math.Max(p.x, q.x), math.Max(p.y, q.y)})
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				for _, k := range b.cells[y*b.nx+x] {
					r, s := b.edge(int(k))
					if !(a == b && int(k) == i) && cross(p, q, r, s) {
						return p.mid(q), true
					}
				}
			}
		}
	}
	return xy{}, false
}

// apart returns the distance between two segments.
func apart(a, b, c, d xy) float64 {
	if cross(a, b, c, d) {
		return 0
	}
	return math.Min(math.Min(fromEdge(a, c, d), fromEdge(b, c, d)), math.Min(fromEdge(c, a, b), fromEdge(d, a, b)))
}

// spaced returns places along a polyline, its points and more between them, no further
// apart than step.
func (c *chain) spaced(step float64) []xy {
	var out []xy
	for i := range c.edges() {
		a, b := c.edge(i)
		n := math.Ceil(a.to(b)/step + 1e-9)
		for k := 0.0; k < n; k++ {
			out = append(out, a.along(b, k/n))
		}
	}
	return append(out, c.pts[len(c.pts)-1])
}

// turnAt is how far a closed polyline turns at a point, counter-clockwise positive.
func (c *chain) turnAt(i int) float64 {
	n := len(c.pts)
	a, b := c.pts[i].sub(c.pts[(i+n-1)%n]), c.pts[(i+1)%n].sub(c.pts[i])
	return math.Atan2(a.cross(b), a.dot(b))
}

// slices returns where a line crosses closed polylines, as pairs of places from in to out:
// the line through at along dir, by the distance from at.
func slices(loops []*chain, at, dir xy) [][2]float64 {
	var hits []float64
	for _, c := range loops {
		for i := range c.edges() {
			a, b := c.edge(i)
			sa, sb := dir.cross(a.sub(at)), dir.cross(b.sub(at))
			if (sa > 0) != (sb > 0) {
				hits = append(hits, a.along(b, sa/(sa-sb)).sub(at).dot(dir))
			}
		}
	}
	sortFloats(hits)
	var out [][2]float64
	for i := 0; i+1 < len(hits); i += 2 {
		out = append(out, [2]float64{hits[i], hits[i+1]})
	}
	return out
}

func sortFloats(v []float64) {
	for i := range v { // few: by insertion
		for k := i; k > 0 && v[k] < v[k-1]; k-- {
			v[k], v[k-1] = v[k-1], v[k]
		}
	}
}
