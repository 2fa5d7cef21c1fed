package sheet

import "math"

// Cells of a table, each way.
const (
	pairCells = 32
	fineCells = 64 // where there are holes, and for what lies round a bed
)

// Shares of the larger part's size: the overlap below which all count alike (Gardeyn,
// Vanden Berghe & Wauters, arXiv 2509.13329, 2025), and what a touch costs of that,
// measured on public instances.
const (
	slightOverlap = 0.01
	touchShare    = 0.3
)

// cellMargin is how far in mm a cell must be from a side so that it is not cut by it, for rounding.
const cellMargin = 1e-9

// newLoss makes the table of a nofit with n x n cells, for parts of which the larger one's
// size is given.
func newLoss(f *nofit, n int, size, scale float64) *loss {
	w, h := f.box.x1-f.box.x0, f.box.y1-f.box.y0
	t := &loss{box: f.box, n: n, end: float64(n), sx: float64(n) / w, sy: float64(n) / h, first: touchShare * slightOverlap * size, scale: scale}
	b := newLossBuilder(t, f)
	for i := range f.zones {
		b.add(&f.zones[i])
	}
	t.cuts, t.sides = b.list(), b.kept
	t.way = wayOut(b.in, n+1, w/float64(n), h/float64(n))
	return t
}

// lossBuilder fills the cells of a table, zone by zone, large ones first.
type lossBuilder struct {
	*loss
	f      *nofit
	in     []bool // by node
	lo, hi []int  // by row of nodes: which of them the zone holds, lo > hi for none
	sides  []side // of the zone, its box's too
	index  []int32
	kept   []side // those that cut a cell
	// What was found of the cells, from the last back: the sides, and which came before.
	found []cutCell
	last  []int32 // by cell, -1 for none
	cuts  []int32
}

// cutCell is a zone that meets a cell: cuts[from:to].
type cutCell struct {
	before   int32
	from, to int32
}

func newLossBuilder(t *loss, f *nofit) *lossBuilder {
	n := t.n
	t.cells = make([]int32, n*n)
	b := &lossBuilder{loss: t, f: f, in: make([]bool, (n+1)*(n+1)), lo: make([]int, n+1), hi: make([]int, n+1), last: make([]int32, n*n)}
	for k := range t.cells {
		t.cells[k], b.last[k] = free, -1
	}
	return b
}

func (b *lossBuilder) x(i int) float64 { return b.box.x0 + float64(i)/b.sx }
func (b *lossBuilder) y(j int) float64 { return b.box.y0 + float64(j)/b.sy }

// add brings in a zone.
func (b *lossBuilder) add(z *zone) {
	b.sides = append(b.sides[:0], b.f.sides[z.from:z.to]...)
	b.sides = append(b.sides, side{1, 0, z.box.x1}, side{-1, 0, -z.box.x0}, side{0, 1, z.box.y1}, side{0, -1, -z.box.y0})
	b.index = b.index[:0]
	for k := range b.sides {
		b.sides[k].c -= touch // a touch does not count
		b.index = append(b.index, -1)
	}
	j0 := max(0, int((z.box.y0-b.box.y0)*b.sy))
	j1 := min(b.n-1, int((z.box.y1-b.box.y0)*b.sy))
	b.row(j0, z)
	for j := j0; j <= j1; j++ {
		b.row(j+1, z)
		b.fill(j, z)
	}
}

// row marks the nodes of row j that lie in the zone.
func (b *lossBuilder) row(j int, z *zone) {
	y := b.y(j)
	s := span{z.box.x0 + touch, z.box.x1 - touch}
	if y <= z.box.y0+touch+cellMargin || y >= z.box.y1-touch-cellMargin {
		s.hi = s.lo
	}
	for k := 0; k < len(b.sides)-4 && s.hi > s.lo; k++ {
		e := &b.sides[k]
		s.cut(e.nx, e.c-cellMargin-e.ny*y)
	}
	b.lo[j], b.hi[j] = 1, 0
	if s.hi <= s.lo {
		return
	}
	lo, hi := int((s.lo-b.box.x0)*b.sx)+1, int((s.hi-b.box.x0)*b.sx)
	for lo <= hi && b.x(lo) <= s.lo+cellMargin {
		lo++
	}
	for lo <= hi && b.x(hi) >= s.hi-cellMargin {
		hi--
	}
	b.lo[j], b.hi[j] = lo, hi
	for i := lo; i <= hi; i++ {
		b.in[j*(b.n+1)+i] = true
	}
}

// fill brings the zone into the cells of row j.
func (b *lossBuilder) fill(j int, z *zone) {
	y0, y1 := b.y(j), b.y(j+1)
	s := b.reach(z, y0, y1)
	i0 := max(0, int((s.lo-b.box.x0)*b.sx-cellMargin))
	i1 := min(b.n-1, int((s.hi-b.box.x0)*b.sx+cellMargin))
	lo, hi := max(b.lo[j], b.lo[j+1]), min(b.hi[j], b.hi[j+1])
	if b.lo[j] > b.hi[j] || b.lo[j+1] > b.hi[j+1] {
		lo, hi = 1, 0
	}
	for i := i0; i <= i1 && s.lo < s.hi; i++ {
		k := j*b.n + i
		switch {
		case b.cells[k] == full:
		case i >= lo && i+1 <= hi:
			b.cells[k] = full
		default:
			b.cut(k, bounds{b.x(i), y0, b.x(i + 1), y1})
		}
	}
}

// reach returns a stretch that holds what the zone has between two heights.
func (b *lossBuilder) reach(z *zone, y0, y1 float64) span {
	s := span{z.box.x0, z.box.x1}
	for k := range b.sides[:len(b.sides)-4] {
		e := &b.sides[k]
		if c := max(e.c-e.ny*y0, e.c-e.ny*y1); math.Abs(e.nx) > 1e-12 {
			s.cut(e.nx, c)
		}
	}
	return s
}

// cut notes which sides of the zone cut a cell, unless one keeps the zone off it.
func (b *lossBuilder) cut(cell int, c bounds) {
	from := len(b.cuts)
	for k := range b.sides {
		e := &b.sides[k]
		x0, x1, y0, y1 := e.nx*c.x0, e.nx*c.x1, e.ny*c.y0, e.ny*c.y1
		if min(x0, x1)+min(y0, y1) >= e.c+cellMargin {
			b.cuts = b.cuts[:from]
			return
		}
		if max(x0, x1)+max(y0, y1) >= e.c-cellMargin {
			b.cuts = append(b.cuts, int32(k))
		}
	}
	if len(b.cuts) == from {
		b.cells[cell] = full
		return
	}
	for i := from; i < len(b.cuts); i++ {
		k := b.cuts[i]
		if b.index[k] < 0 {
			b.index[k] = int32(len(b.kept))
			b.kept = append(b.kept, b.sides[k])
		}
		b.cuts[i] = 2 * b.index[k]
	}
	b.cuts[len(b.cuts)-1]++
	b.found = append(b.found, cutCell{b.last[cell], int32(from), int32(len(b.cuts))})
	b.last[cell] = int32(len(b.found) - 1)
}

// list puts the zones of each cell that is not full one after another.
func (b *lossBuilder) list() []int32 {
	var out []int32
	for k := range b.cells {
		if b.cells[k] == full || b.last[k] < 0 {
			continue
		}
		b.cells[k] = int32(len(out))
		for c := b.last[k]; c >= 0; c = b.found[c].before {
			out = append(out, b.cuts[b.found[c].from:b.found[c].to]...)
		}
		out = append(out, noZone)
	}
	return out
}

// wayOut returns for each of n x n nodes the distance to the nearest that is not in
// (Felzenszwalb & Huttenlocher, "Distance transforms of sampled functions", Theory of
// Computing 8(19), 2012: first along the columns, then the lower envelope of parabolas
// along each row). Those at the edge are out.
func wayOut(in []bool, n int, dx, dy float64) []float32 {
	up := make([]float64, n*n) // the way out along the column
	for i := range n {
		for j := 1; j < n; j++ {
			if in[j*n+i] {
				up[j*n+i] = up[(j-1)*n+i] + dy
			}
		}
		for j := n - 2; j >= 0; j-- {
			up[j*n+i] = min(up[j*n+i], up[(j+1)*n+i]+dy)
		}
	}
	out := make([]float32, n*n)
	e := envelope{at: make([]int, n), from: make([]float64, n)}
	for j := range n {
		e.row(out[j*n:(j+1)*n], up[j*n:(j+1)*n], dx)
	}
	return out
}

// envelope is the lower one of parabolas: which counts from where.
type envelope struct {
	at   []int
	from []float64
}

func (e *envelope) row(out []float32, up []float64, dx float64) {
	top := -1
	for i := range up {
		height := up[i]*up[i] + float64(i*i)*dx*dx
		from := math.Inf(-1)
		for top >= 0 {
			k := e.at[top]
			from = (height - up[k]*up[k] - float64(k*k)*dx*dx) / (2 * dx * dx * float64(i-k))
			if from > e.from[top] {
				break
			}
			top--
			from = math.Inf(-1)
		}
		top++
		e.at[top], e.from[top] = i, from
	}
	last := top
	top = 0
	for i := range out {
		for top < last && e.from[top+1] <= float64(i) {
			top++
		}
		k := e.at[top]
		d := float64(i-k) * dx
		out[i] = float32(math.Sqrt(d*d + up[k]*up[k]))
	}
}
