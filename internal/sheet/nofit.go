package sheet

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// nofit is where a moving part may not be: the places p of its origin at which it
// would come nearer than the clearance to a fixed part with its origin at (0, 0). It
// is the union of convex zones, the Minkowski sums of the pieces of the fixed part
// and the mirrored pieces of the moving one, grown by the clearance.
//
// A zone grown by d is bounded by its edges moved out by d and, at sharp corners, by
// lines that touch the circle of radius d about the corner: more than the truth by
// at most 0.155 d and there only.
type nofit struct {
	box   bounds
	zones []zone
	sides []side // of all zones, one after another
	bands []band // even parts of the box's height, made when first asked
	paid  bool   // counted as work of the search
}

// zone is a convex part of a nofit: its box, and its sloping sides sides[from:to].
type zone struct {
	box      bounds
	from, to int32
}

// side is the line n·p = c, n pointing out of the zone.
type side struct{ nx, ny, c float64 }

// add adds the zones of each fixed with each moving piece.
func (f *nofit) add(fixed, moving []convex, clearance float64) {
	for _, m := range moving {
		back := m.apply(plane.Affine{-1, 0, 0, -1, 0, 0})
		for _, a := range fixed {
			f.addZone(sum(a, back), clearance)
		}
	}
}

func (f *nofit) addZone(c convex, d float64) {
	z := zone{box: c.bounds(d), from: int32(len(f.sides))}
	n := len(c)
	normal := func(i int) plane.Point { return c[(i+1)%n].Sub(c[i%n]).Left().Mul(-1).Unit() }
	next := normal(0)
	for i := range c {
		out := next
		next = normal(i + 1)
		f.addSide(c, out, d)
		if d == 0 || out.Dot(next) > 0.5 {
			continue
		}
		// No more than 60 degrees from one side to the next.
		w := math.Abs(math.Atan2(out.Cross(next), out.Dot(next)))
		for k, more := 1., math.Ceil(w/(math.Pi/3)-1e-9); k < more; k++ {
			f.addSide(c, plane.Rotate(w*k/more).Apply(out), d)
		}
	}
	z.to = int32(len(f.sides))
	if len(f.zones) == 0 {
		f.box = z.box
	}
	f.box = bounds{min(f.box.x0, z.box.x0), min(f.box.y0, z.box.y0), max(f.box.x1, z.box.x1), max(f.box.y1, z.box.y1)}
	f.zones = append(f.zones, z)
}

// addSide adds the side of c that faces n, moved out by d, unless the box has it.
// It asks all vertices: an edge that is nothing but rounding may face anywhere.
func (f *nofit) addSide(c convex, n plane.Point, d float64) {
	if math.Max(math.Abs(n.X), math.Abs(n.Y)) > 1-1e-12 || n == (plane.Point{}) {
		return
	}
	far := math.Inf(-1)
	for _, v := range c {
		far = max(far, n.Dot(v))
	}
	f.sides = append(f.sides, side{n.X, n.Y, far + d})
}

// newNofit returns where a part of kind b may not be beside one of kind a.
func newNofit(a, b *kind, gap float64) *nofit {
	f := &nofit{}
	d := gap + a.slack + b.slack
	zones := len(a.body)*len(b.body) + len(a.reach)*len(b.body) + len(a.body)*len(b.reach)
	f.zones, f.sides = make([]zone, 0, zones), make([]side, 0, 10*zones)
	f.add(a.body, b.body, d)
	f.add(a.reach, b.body, d)
	f.add(a.body, b.reach, d)
	f.sort()
	return f
}

// sort puts large zones first, for what looks at the main ones only.
func (f *nofit) sort() {
	narrow := func(b bounds) float64 { return min(b.x1-b.x0, b.y1-b.y0) }
	sort.SliceStable(f.zones, func(i, j int) bool { return narrow(f.zones[i].box) > narrow(f.zones[j].box) })
}

// bounds is a box of a nofit. Plain comparisons make the tests quick.
type bounds struct{ x0, y0, x1, y1 float64 }

// bounds returns the box of c grown by d.
func (c convex) bounds(d float64) bounds {
	b := bounds{c[0].X, c[0].Y, c[0].X, c[0].Y}
	for _, p := range c[1:] {
		b = bounds{min(b.x0, p.X), min(b.y0, p.Y), max(b.x1, p.X), max(b.y1, p.Y)}
	}
	return bounds{b.x0 - d, b.y0 - d, b.x1 + d, b.y1 + d}
}

// span is a stretch of a level or upright line.
type span struct{ lo, hi float64 }

// level appends the stretches of the line at height y that lie in the zones.
func (f *nofit) level(out []span, y float64) []span {
	b := f.band(y)
	for i := range b.zones {
		z := &b.zones[i]
		if y <= z.box.y0+touch/2 || y >= z.box.y1-touch/2 {
			continue
		}
		s := span{z.box.x0, z.box.x1}
		for k := z.from; k < z.to && s.hi-s.lo > touch; k++ {
			e := &b.sides[k]
			s.cut(e.nx, e.c-e.ny*y)
		}
		if s.hi-s.lo > touch {
			out = append(out, s)
		}
	}
	return out
}

// band is what of a nofit a level line between two heights may meet: its zones in order,
// and of each the sides that bound it there.
type band struct {
	zones []zone
	sides []side
}

// bandCount is how many there are: with more, each has fewer sides and all of them more.
const bandCount = 24

func (f *nofit) band(y float64) *band {
	high := f.box.y1 - f.box.y0
	if f.bands == nil {
		f.bands = make([]band, bandCount)
		for k := range f.bands {
			f.bands[k] = f.between(f.box.y0+high*float64(k)/bandCount, f.box.y0+high*float64(k+1)/bandCount)
		}
	}
	return &f.bands[min(max(int((y-f.box.y0)/high*bandCount), 0), bandCount-1)]
}

// between gathers the band from the height lo to hi.
func (f *nofit) between(lo, hi float64) band {
	var b band
	lo, hi = lo-touch, hi+touch // where y falls is rounded
	for i := range f.zones {
		z := f.zones[i]
		if z.box.y1 <= lo || z.box.y0 >= hi {
			continue
		}
		all := f.sides[z.from:z.to]
		z.from = int32(len(b.sides))
		for k := range all {
			if !all[k].idle(all, k, lo, hi) {
				b.sides = append(b.sides, all[k])
			}
		}
		z.to = int32(len(b.sides))
		b.zones = append(b.zones, z)
	}
	return b
}

// idle tells that side k of a zone bounds nothing between two heights: another on the same
// hand is tighter at both.
func (e *side) idle(all []side, k int, lo, hi float64) bool {
	if math.Abs(e.nx) <= 1e-12 {
		return false
	}
	at := func(e *side, y float64) float64 { return (e.c - e.ny*y) / math.Abs(e.nx) } // the room it leaves
	a, b := at(e, lo), at(e, hi)
	for j := range all {
		o := &all[j]
		if j == k || math.Abs(o.nx) <= 1e-12 || (o.nx > 0) != (e.nx > 0) {
			continue
		}
		c, d := at(o, lo), at(o, hi)
		if c <= a && d <= b && (c < a || d < b || j < k) {
			return true
		}
	}
	return false
}

// upright appends the stretches of the line at x that lie in the zones.
func (f *nofit) upright(out []span, x float64) []span {
	for i := range f.zones {
		z := &f.zones[i]
		if x <= z.box.x0+touch/2 || x >= z.box.x1-touch/2 {
			continue
		}
		s := span{z.box.y0, z.box.y1}
		for k := z.from; k < z.to && s.hi-s.lo > touch; k++ {
			e := &f.sides[k]
			s.cut(e.ny, e.c-e.nx*x)
		}
		if s.hi-s.lo > touch {
			out = append(out, s)
		}
	}
	return out
}

// cut keeps what satisfies n·t <= c. Plain comparisons make it quick.
func (s *span) cut(n, c float64) {
	switch {
	case n > 1e-12:
		if t := c / n; t < s.hi {
			s.hi = t
		}
	case n < -1e-12:
		if t := c / n; t > s.lo {
			s.lo = t
		}
	case c <= 0:
		s.hi = s.lo
	}
}

// nearest returns the place in [lo, hi] outside the spans that is nearest to t, the
// lower of two; the spans are spoilt. Places within touch/2 of a
// span's end count as outside.
func nearest(spans []span, lo, hi, t float64) (float64, bool) {
	t = max(lo, min(hi, t))
	up, okUp := climb(spans, t, hi)
	if okUp && up == t {
		return t, true
	}
	for i, s := range spans {
		spans[i] = span{-s.hi, -s.lo}
	}
	down, okDown := climb(spans, -t, -lo)
	if okDown && (!okUp || t+down <= up-t) {
		return -down, true
	}
	return up, okUp
}

// climb returns the first place from t up, at most hi, outside the spans. It drops
// spans that lie behind as it goes.
func climb(spans []span, t, hi float64) (float64, bool) {
	for moved := true; moved; {
		moved = false
		for i := 0; i < len(spans); {
			s := spans[i]
			switch {
			case s.hi <= t+touch/2:
				last := len(spans) - 1
				spans[i], spans[last] = spans[last], s
				spans = spans[:last]
				continue
			case s.lo < t-touch/2:
				t, moved = s.hi, true
				if t > hi+touch/2 {
					return t, false
				}
				continue
			}
			i++
		}
	}
	return min(t, hi), true
}
