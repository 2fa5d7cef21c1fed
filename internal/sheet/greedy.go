package sheet

import (
	"math"
	"slices"
	"sort"

	"springrib/internal/plane"
)

// fill lays the items in the given order, each as far left as it goes on the first
// sheet that has room for it, and returns those left over.
func (p *packer) fill(order []int) (left []int) {
	lists := map[int][]int{}
	for i := range p.items {
		if s := p.items[i].sheet; s >= 0 {
			lists[s] = append(lists[s], i)
		}
	}
	from := make([]int, len(p.job.Pieces))
	for _, i := range order {
		it := &p.items[i]
		laid := false
		for n := from[it.piece]; p.job.bedOf(n) >= 0 && !laid; n++ {
			from[it.piece] = n
			k, at, ok := p.leftmost(i, n, lists[n])
			if !ok {
				if len(lists[n]) == 0 && p.job.Beds[p.job.bedOf(n)].Count == 0 {
					break // nor will it fit on those that follow
				}
				continue
			}
			it.kind, it.sheet, it.at, laid = k, n, at, true
			lists[n] = append(lists[n], i)
		}
		if !laid {
			from[it.piece] = MaxSheets
			left = append(left, i)
		}
	}
	return left
}

// leftmost returns the kind and place of item i beside the others of a sheet where
// its right end comes least far to the right; the lowest of equals. It looks along
// level lines: those on which parts come to rest against each other, and some
// between.
func (p *packer) leftmost(i, sheet int, others []int) (k int, at plane.Point, ok bool) {
	bed := p.job.bedOf(sheet)
	best := math.Inf(1)
	for _, kk := range p.items[i].kinds {
		room, fits := p.span(bed, kk, math.Inf(1))
		if !fits {
			continue
		}
		right := p.kinds[kk].box.Max.X
		for _, y := range p.heights(kk, bed, others, room) {
			hi := min(room.Max.X, best-right)
			if hi < room.Min.X {
				break
			}
			x, free := p.freeLevel(kk, bed, others, y, room.Min.X, hi, room.Min.X)
			if free && x+right < best-touch {
				best, k, at, ok = x+right, kk, plane.Pt(x, y), true
			}
		}
	}
	if ok {
		at = p.settle(k, bed, others, at)
	}
	return k, at, ok
}

// heights lists the level lines to try for a kind, from the bottom up: at most a
// number that grows less as the parts grow more.
func (p *packer) heights(k, bed int, others []int, room plane.Box) []float64 {
	ys := []float64{room.Min.Y, room.Max.Y}
	add := func(f *nofit, sign, dy float64) {
		ys = append(ys, sign*f.box.y0+dy, sign*f.box.y1+dy)
		for _, z := range f.zones[:min(len(f.zones), 6)] {
			ys = append(ys, sign*z.box.y0+dy, sign*z.box.y1+dy)
		}
	}
	for _, j := range others {
		f, sign := p.between(p.items[j].kind, k)
		add(f, sign, p.items[j].at.Y)
	}
	if w := p.wall(bed, k); w != nil {
		add(w, 1, 0)
	}
	for i := 1; i < 16; i++ {
		ys = append(ys, room.Min.Y+room.H()*float64(i)/16)
	}
	slices.Sort(ys)
	var out []float64
	for _, y := range ys {
		if y >= room.Min.Y && y <= room.Max.Y && (len(out) == 0 || y > out[len(out)-1]+touch) {
			out = append(out, y)
		}
	}
	most := max(24, 4000/(len(p.items)+1))
	if len(out) > most {
		thin := out[:0:0]
		for i := range most {
			thin = append(thin, out[i*(len(out)-1)/(most-1)])
		}
		out = thin
	}
	return out
}

// between returns the nofit of kind b beside kind a; sign is -1 when it is the one
// of a beside b, mirrored through the origin.
func (p *packer) between(a, b int) (f *nofit, sign float64) {
	sign = 1
	if a > b {
		a, b, sign = b, a, -1
	}
	if f = p.pairs[a*len(p.kinds)+b]; f == nil {
		f = p.pair(a, b)
	}
	if !f.paid && !p.uncounted {
		f.paid = true
		p.budget.spent += 20 * int64(len(f.zones))
	}
	return f, sign
}

// freeLevel returns the x in [lo, hi] nearest to want at which kind k is clear of the
// others on the level line y.
func (p *packer) freeLevel(k, bed int, others []int, y, lo, hi, want float64) (float64, bool) {
	var spans []span
	if w := p.wall(bed, k); w != nil {
		spans = w.level(spans, y)
		p.budget.spent += int64(len(w.zones))
	}
	for _, j := range others {
		f, sign := p.between(p.items[j].kind, k)
		at := p.items[j].at
		p.budget.spent++
		if dy := sign * (y - at.Y); dy > f.box.y0 && dy < f.box.y1 {
			p.budget.spent += int64(len(f.zones))
			if beyond(f.box.x0, f.box.x1, sign, at.X, lo, hi) {
				continue
			}
			n := len(spans)
			spans = f.level(spans, dy)
			moved(spans[n:], sign, at.X)
		}
	}
	return nearest(spans, lo, hi, want)
}

// freeUpright is freeLevel along an upright line.
func (p *packer) freeUpright(k, bed int, others []int, x, lo, hi, want float64) (float64, bool) {
	var spans []span
	if w := p.wall(bed, k); w != nil {
		spans = w.upright(spans, x)
		p.budget.spent += int64(len(w.zones))
	}
	for _, j := range others {
		f, sign := p.between(p.items[j].kind, k)
		at := p.items[j].at
		p.budget.spent++
		if dx := sign * (x - at.X); dx > f.box.x0 && dx < f.box.x1 {
			p.budget.spent += int64(len(f.zones))
			if beyond(f.box.y0, f.box.y1, sign, at.Y, lo, hi) {
				continue
			}
			n := len(spans)
			spans = f.upright(spans, dx)
			moved(spans[n:], sign, at.Y)
		}
	}
	return nearest(spans, lo, hi, want)
}

// beyond tells that spans from a to b about a part's origin, moved to the sheet, lie clear
// of all places from lo to hi.
func beyond(a, b, sign, by, lo, hi float64) bool {
	if sign < 0 {
		a, b = -b, -a
	}
	return b+by < lo-touch || a+by > hi+touch
}

// moved takes spans about a part's origin to the sheet.
func moved(spans []span, sign, by float64) {
	for i, s := range spans {
		if sign < 0 {
			s = span{-s.hi, -s.lo}
		}
		spans[i] = span{s.lo + by, s.hi + by}
	}
}

// settle moves a free part down, then left, as long as that brings it on.
func (p *packer) settle(k, bed int, others []int, at plane.Point) plane.Point {
	room, _ := p.span(bed, k, math.Inf(1))
	for range 8 {
		was := at
		if y, ok := p.freeUpright(k, bed, others, at.X, room.Min.Y, at.Y, room.Min.Y); ok {
			at.Y = y
		}
		if x, ok := p.freeLevel(k, bed, others, at.Y, room.Min.X, at.X, room.Min.X); ok {
			at.X = x
		}
		if was.Dist(at) < 1e-3 {
			break
		}
	}
	return at
}

// fromLeft orders items by their left ends, then from below.
func (p *packer) fromLeft(list []int) []int {
	out := slices.Clone(list)
	corner := func(i int) plane.Point { return p.items[i].at.Add(p.kinds[p.items[i].kind].box.Min) }
	sort.SliceStable(out, func(i, j int) bool {
		a, b := corner(out[i]), corner(out[j])
		if a.X != b.X {
			return a.X < b.X
		}
		return a.Y < b.Y
	})
	return out
}
