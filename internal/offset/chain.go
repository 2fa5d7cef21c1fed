package offset

import (
	"errors"
	"math"
	"sort"

	"springrib/internal/plane"
)

// chainGap is how far apart, in mm, two ends that belong together may lie: above the
// rounding of meetings at a glancing angle, below any part worth keeping.
const chainGap = 1e-6

// ends finds ends of parts by place, in cells wider than chainGap.
type ends map[[2]int64][]int

func cellOf(p plane.Point) [2]int64 {
	const cell = 8 * chainGap
	return [2]int64{int64(math.Floor(p.X / cell)), int64(math.Floor(p.Y / cell))}
}

func (e ends) add(p plane.Point, i int) {
	c := cellOf(p)
	e[c] = append(e[c], i)
}

// near returns the parts whose start lies at p, in rising order.
func (e ends) near(p plane.Point, parts []part) []int {
	var out []int
	c := cellOf(p)
	for dx := int64(-1); dx <= 1; dx++ {
		for dy := int64(-1); dy <= 1; dy++ {
			for _, i := range e[[2]int64{c[0] + dx, c[1] + dy}] {
				if parts[i].seg.A.Dist(p) <= chainGap {
					out = append(out, i)
				}
			}
		}
	}
	sort.Ints(out)
	return out
}

// chain joins parts end to start into paths and fuses parts of one segment. Each end
// must find exactly one start, but for the end of an open path.
func chain(parts []part) ([]plane.Path, error) {
	next, taken, err := follow(parts)
	if err != nil {
		return nil, err
	}
	var out []plane.Path
	done := make([]bool, len(parts))
	walk := func(i int) {
		var run []part
		start := i
		for i >= 0 && !done[i] {
			done[i] = true
			run = append(run, parts[i])
			i = next[i]
		}
		if p := fused(run, i == start); len(p.Segs) > 0 {
			out = append(out, p)
		}
	}
	for i := range parts { // open ones first, from their starts
		if !taken[i] {
			walk(i)
		}
	}
	for i := range parts {
		if !done[i] {
			walk(i)
		}
	}
	return out, nil
}

// follow returns for each part the one that begins where it ends, or -1, and which parts
// are begun so.
func follow(parts []part) (next []int, taken []bool, err error) {
	starts := ends{}
	for i, p := range parts {
		starts.add(p.seg.A, i)
	}
	next, taken = make([]int, len(parts)), make([]bool, len(parts))
	for i, p := range parts {
		next[i] = -1
		near := starts.near(p.seg.B, parts)
		if len(near) == 1 && near[0] == i && p.seg.Length() < 10*chainGap {
			near = nil // a speck
		}
		switch {
		case len(near) > 1 || len(near) == 1 && taken[near[0]]:
			return nil, nil, errors.New("offset: more than two parts meet in a point")
		case len(near) == 1:
			next[i] = near[0]
			taken[near[0]] = true
		}
	}
	return next, taken, nil
}

// fused returns the parts as a path, with neighbours of one segment as one piece.
func fused(run []part, closed bool) plane.Path {
	if closed && len(run) > 1 { // begin where a new segment begins
		for k := range run {
			if run[k].of != run[(k+len(run)-1)%len(run)].of {
				run = append(append([]part(nil), run[k:]...), run[:k]...)
				break
			}
		}
	}
	p := plane.Path{Closed: closed}
	for k := 0; k < len(run); {
		s := run[k].seg
		sweep := s.Sweep()
		j := k + 1
		for j < len(run) && run[j].of == run[k].of && math.Abs(sweep+run[j].seg.Sweep()) < 1.9*math.Pi {
			sweep += run[j].seg.Sweep()
			s.B = run[j].seg.B
			j++
		}
		if s.Kind == plane.Arc {
			s.Bulge = math.Tan(sweep / 4)
		}
		if n := len(p.Segs); n > 0 {
			s.A = p.Segs[n-1].B
		}
		p.Segs = append(p.Segs, s)
		k = j
	}
	if n := len(p.Segs); closed && n > 0 {
		p.Segs[n-1].B = p.Segs[0].A
	}
	return p
}

// regionsOf sorts loops into outlines (counter-clockwise) and their holes, the
// outlines by their leftmost points.
func regionsOf(loops []plane.Path) []plane.Region {
	var out []plane.Region
	var holes []plane.Path
	for _, l := range loops {
		switch a := l.Area(); {
		case math.Abs(a) < chainGap*l.Length():
			// a sliver of no width
		case a > 0:
			out = append(out, plane.Region{Outer: l})
		default:
			holes = append(holes, l)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, b := out[i].Box().Min, out[j].Box().Min
		return a.X < b.X || a.X == b.X && a.Y < b.Y
	})
	for _, h := range holes {
		best := -1
		for i, r := range out {
			inside := r.Outer.Contains(h.Segs[0].Point(0.5))
			if inside && (best < 0 || r.Outer.Area() < out[best].Outer.Area()) {
				best = i
			}
		}
		if best >= 0 {
			out[best].Holes = append(out[best].Holes, h)
		}
	}
	return out
}
