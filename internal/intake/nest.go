package intake

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// nested tells how a closed path lies in the others.
type nested struct {
	depth int // how many paths run round it
	in    int // the innermost of those, -1 for none
}

// maxNestTests bounds the pairs of paths, and the segments of them, that nest looks at.
const maxNestTests = 2_000_000

// nest finds for each piece which closed paths run round it; open ones count too,
// but nothing lies in them. all is false when there were too many to look at.
func nest(pieces []piece) (out []nested, all bool) {
	g := levels{boxes: newGrid(2 * len(pieces))}
	areas := make([]float64, len(pieces))
	out = make([]nested, len(pieces))
	for i := range pieces {
		out[i].in = -1
		if p := &pieces[i]; p.Path.Closed {
			areas[i] = math.Abs(p.Path.Area())
			g.add(i, p.box)
		}
	}
	tests := 0
	var near []int32
	index := make([]*windings, len(pieces))
	for i := range pieces {
		p := &pieces[i]
		near = g.at(near[:0], p.Path.Start())
		for _, n := range near {
			j := int(n)
			q := &pieces[j]
			if tests++; tests > maxNestTests {
				return out, false
			}
			if i == j || areas[j] <= areas[i]*(1+1e-6) || !q.box.Grow(sameWithin).ContainsBox(p.box) {
				continue
			}
			if index[j] == nil {
				index[j] = newWindings(q.Path, q.box)
				tests += len(q.Path.Segs)
			}
			in, looked := index[j].holds(p.Path)
			if tests += looked; !in {
				continue
			}
			out[i].depth++
			if k := out[i].in; k < 0 || areas[j] < areas[k] {
				out[i].in = j
			}
		}
	}
	return out, true
}

// levels finds the boxes that hold a point. Each box is kept in a grid of squares of
// about its own size, so that it takes at most four of them.
type levels struct {
	boxes *grid // a group for each level
	used  []int // levels in use, rising
}

func (g *levels) add(i int, b plane.Box) {
	_, level := math.Frexp(math.Max(math.Max(b.W(), b.H())+2*sameWithin, joined))
	if k := sort.SearchInts(g.used, level); k == len(g.used) || g.used[k] != level {
		g.used = append(g.used, level)
		sort.Ints(g.used)
	}
	b = b.Grow(sameWithin)
	lo, hi := levelCell(b.Min, level), levelCell(b.Max, level)
	for x := lo.x; x <= hi.x; x++ {
		for y := lo.y; y <= hi.y; y++ {
			g.boxes.add(cell{int64(level), x, y}, int32(i))
		}
	}
}

func levelCell(p plane.Point, level int) cell {
	c := gridCell(p, math.Ldexp(1, level))
	c.group = int64(level)
	return c
}

// at appends what may hold p to out, small boxes first.
func (g *levels) at(out []int32, p plane.Point) []int32 {
	for _, level := range g.used {
		out = g.boxes.in(out, levelCell(p, level), maxNestTests)
	}
	return out
}

// windings answers whether a path runs round a point from the few segments at the
// height of the point.
type windings struct {
	y0, step float64
	segs     []plane.Segment
	first    []int32 // of each row in list, and the end
	list     []int32 // segments by row
}

func newWindings(p plane.Path, b plane.Box) *windings {
	// Few enough rows that a segment lies in three of them in the mean.
	climb := 0.0
	low, high := make([]float64, len(p.Segs)), make([]float64, len(p.Segs))
	for i := range p.Segs {
		box := p.Segs[i].Box()
		low[i], high[i] = box.Min.Y, box.Max.Y
		climb += box.H()
	}
	n := 1 + int(math.Min(float64(len(p.Segs))/4, 2*float64(len(p.Segs))*b.H()/math.Max(climb, joined)))
	w := &windings{y0: b.Min.Y, step: math.Max(b.H(), joined) / float64(n), segs: p.Segs, first: make([]int32, n+1)}
	for i := range p.Segs {
		for r := w.row(low[i]); r <= w.row(high[i]); r++ {
			w.first[r+1]++
		}
	}
	for r := range n {
		w.first[r+1] += w.first[r]
	}
	w.list = make([]int32, w.first[n])
	next := append([]int32(nil), w.first...)
	for i := range p.Segs {
		for r := w.row(low[i]); r <= w.row(high[i]); r++ {
			w.list[next[r]] = int32(i)
			next[r]++
		}
	}
	return w
}

func (w *windings) row(y float64) int {
	return max(0, min(len(w.first)-2, int((y-w.y0)/w.step)))
}

// holds reports whether most of three points of p lie inside; where paths touch,
// one alone may fall either way. looked is what that took, in segments.
func (w *windings) holds(p plane.Path) (in bool, looked int) {
	inside := 0
	n := len(p.Segs)
	for _, q := range [3]plane.Point{p.Start(), p.Segs[n/3].Point(0.5), p.Segs[2*n/3].Point(0.3)} {
		r := w.row(q.Y)
		row := w.list[w.first[r]:w.first[r+1]]
		looked += 100 + 2*len(row)
		turns := 0
		for _, i := range row {
			turns += plane.Path{Segs: w.segs[i : i+1]}.Winding(q)
		}
		if turns != 0 {
			inside++
		}
	}
	return inside >= 2, looked
}
