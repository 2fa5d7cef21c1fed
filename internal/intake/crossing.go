package intake

import (
	"fmt"
	"math"
	"sort"

	"springrib/internal/plane"
)

const (
	// flatWithin is how closely curves are followed when looking for crossings: two
	// that come nearer than that may be reported as crossing.
	flatWithin = 0.01
	// touchWithin is how near a corner comes to a line that it touches.
	touchWithin = 1e-6
	// maxShown bounds how many places of one kind are listed.
	maxShown = 50
	// maxTests bounds the pairs of edges that are looked at, maxHits the meetings among
	// them that are kept: a scribble of a few thousand lines has millions.
	maxTests = 2_000_000
	maxHits  = 20_000
	// maxEdges bounds the straight pieces among which crossings are looked for.
	maxEdges = 150_000
)

// edge is a straight piece of a flattened path.
type edge struct {
	a, b  plane.Point
	piece int
	from  float64 // length from the start of the path to a
}

func (e edge) len() float64 { return e.a.Dist(e.b) }

// hit is a place where two edges meet.
type hit struct {
	kind ChangeKind
	i, j int // pieces
	at   plane.Point
}

// pointAtCrossings points at places where a path meets itself, or two closed paths
// cross.
func (m *mender) pointAtCrossings() {
	tol := flatTolerance(m.pieces, flatWithin)
	f := crossings{total: make([]float64, len(m.pieces)), closed: make([]bool, len(m.pieces))}
	all := true
	for i := range m.pieces {
		p := &m.pieces[i]
		f.closed[i] = p.Path.Closed
		if len(p.Path.Segs) == 1 && p.Path.Segs[0].Kind == plane.Line {
			continue // crosses nothing that is told of
		}
		if len(f.edges)+len(p.Path.Segs) > maxEdges {
			all = false
			continue
		}
		pts := p.Path.Flatten(tol)
		for k := 1; k < len(pts); k++ {
			e := edge{pts[k-1], pts[k], i, f.total[i]}
			f.total[i] += e.len()
			f.edges = append(f.edges, e)
		}
	}
	f.find()
	shown := map[ChangeKind]int{}
	for _, h := range f.distinct() {
		if shown[h.kind]++; shown[h.kind] > maxShown {
			continue
		}
		items := m.pieces[h.i].from
		if h.i != h.j {
			items = merge(items, m.pieces[h.j].from)
		}
		m.note(h.kind, items, h.at, 0, fmt.Sprintf(phrase(h.kind), h.at.X, h.at.Y))
	}
	if f.tests > maxTests || len(f.hits) >= maxHits || !all {
		m.note(Unchecked, nil, plane.Point{}, 0, "Too many lines lie too close together to look at every crossing.")
	}
}

func phrase(k ChangeKind) string {
	switch k {
	case Touching:
		return "Touches itself at x %.2f, y %.2f mm."
	case Overlapping:
		return "Two closed paths cross at x %.2f, y %.2f mm."
	}
	return "Crosses itself at x %.2f, y %.2f mm."
}

// crossings finds where edges meet by a grid of squares about as large as the mean
// edge, so that the work grows with the number of edges.
type crossings struct {
	edges  []edge
	total  []float64 // length of each path
	closed []bool
	hits   []hit
	tests  int
}

// An edge in a cell is one number: from the top 20 bits each for that of the cell along both
// sides, 22 for that of the edge.
const edgeBits = 22

func cellIn(entry int) int { return entry >> edgeBits }
func edgeIn(entry int) int { return entry & (1<<edgeBits - 1) }

func (f *crossings) find() {
	if len(f.edges) == 0 {
		return
	}
	box, sum := plane.EmptyBox(), 0.0
	for _, e := range f.edges {
		box = box.Add(e.a).Add(e.b)
		sum += e.len()
	}
	// Fewer than 2^20 - 3 cells along a side, so that all fits one number.
	size := math.Max(sum/float64(len(f.edges)), math.Max(box.W(), box.H())/(1<<19))
	size = math.Max(size, joined)
	var list []int
	for i, e := range f.edges {
		list = cells(list, i, e, box.Min, size)
	}
	sort.Ints(list)
	for lo := 0; lo < len(list); {
		hi := lo + 1
		for hi < len(list) && cellIn(list[hi]) == cellIn(list[lo]) {
			hi++
		}
		for i := lo; i < hi; i++ {
			for j := i + 1; j < hi; j++ {
				if f.tests++; f.tests > maxTests || len(f.hits) >= maxHits {
					return
				}
				f.test(&f.edges[edgeIn(list[i])], &f.edges[edgeIn(list[j])])
			}
		}
		lo = hi
	}
}

// cells appends the cells that e passes through, row by row, with a little to spare.
func cells(list []int, i int, e edge, o plane.Point, size float64) []int {
	a, b := e.a.Sub(o).Mul(1/size), e.b.Sub(o).Mul(1/size)
	if a.Y > b.Y {
		a, b = b, a
	}
	const spare = 1e-6
	for y := math.Floor(a.Y - spare); y <= b.Y+spare; y++ {
		x0, x1 := a.X, b.X
		if dy := b.Y - a.Y; dy > spare {
			x0 = a.X + (b.X-a.X)*math.Max(0, math.Min(1, (y-spare-a.Y)/dy))
			x1 = a.X + (b.X-a.X)*math.Max(0, math.Min(1, (y+1+spare-a.Y)/dy))
		}
		for x := math.Floor(math.Min(x0, x1) - spare); x <= math.Max(x0, x1)+spare; x++ {
			list = append(list, int(x+1)<<(20+edgeBits)|int(y+1)<<edgeBits|i)
		}
	}
	return list
}

// apartAlong tells that two stretches of an axis, given by their ends, do not touch.
func apartAlong(a0, a1, b0, b1 float64) bool {
	return math.Max(a0, a1) < math.Min(b0, b1)-touchWithin || math.Max(b0, b1) < math.Min(a0, a1)-touchWithin
}

// test looks whether two edges meet in a way that matters.
func (f *crossings) test(p, q *edge) {
	same := p.piece == q.piece
	if !same && !(f.closed[p.piece] && f.closed[q.piece]) || same && f.neighbours(p, q) {
		return
	}
	if apartAlong(p.a.X, p.b.X, q.a.X, q.b.X) || apartAlong(p.a.Y, p.b.Y, q.a.Y, q.b.Y) {
		return
	}
	u, v := p.b.Sub(p.a), q.b.Sub(q.a)
	lu, lv := u.Len(), v.Len()
	// Distances of the ends of each edge from the line of the other.
	qa, qb := u.Cross(q.a.Sub(p.a))/lu, u.Cross(q.b.Sub(p.a))/lu
	pa, pb := v.Cross(p.a.Sub(q.a))/lv, v.Cross(p.b.Sub(q.a))/lv
	apart := func(x, y float64) bool {
		return x > touchWithin && y < -touchWithin || x < -touchWithin && y > touchWithin
	}
	h := hit{kind: Crossing, i: p.piece, j: q.piece}
	switch {
	case apart(qa, qb) && apart(pa, pb):
		h.at = p.a.Lerp(p.b, pa/(pa-pb))
		if !same {
			h.kind = Overlapping
		}
	case same:
		at, touches := touch(p, q)
		if !touches {
			return
		}
		h.kind, h.at = Touching, at
	default:
		return
	}
	f.hits = append(f.hits, h)
}

// touch returns the end of one edge that lies on the other.
func touch(p, q *edge) (plane.Point, bool) {
	for _, t := range [4]struct {
		at   plane.Point
		a, b plane.Point
	}{{p.a, q.a, q.b}, {p.b, q.a, q.b}, {q.a, p.a, p.b}, {q.b, p.a, p.b}} {
		if plane.LineDistance(t.at, t.a, t.b) <= touchWithin {
			return t.at, true
		}
	}
	return plane.Point{}, false
}

// neighbours reports whether two edges of a path follow one another.
func (f *crossings) neighbours(p, q *edge) bool {
	if q.from < p.from {
		p, q = q, p
	}
	gap := q.from - (p.from + p.len())
	if f.closed[p.piece] {
		gap = math.Min(gap, p.from+f.total[p.piece]-(q.from+q.len()))
	}
	return gap <= 10*touchWithin
}

// distinct returns the hits in order of piece and place, each place once.
func (f *crossings) distinct() []hit {
	sort.SliceStable(f.hits, func(a, b int) bool {
		p, q := f.hits[a], f.hits[b]
		switch {
		case p.i != q.i:
			return p.i < q.i
		case p.j != q.j:
			return p.j < q.j
		case p.kind != q.kind:
			return p.kind < q.kind
		case p.at.X != q.at.X:
			return p.at.X < q.at.X
		}
		return p.at.Y < q.at.Y
	})
	var out []hit
	for _, h := range f.hits {
		if n := len(out); n > 0 && out[n-1].i == h.i && out[n-1].j == h.j && out[n-1].kind == h.kind && out[n-1].at.Dist(h.at) <= 10*joined {
			continue
		}
		out = append(out, h)
	}
	return out
}
