package sheet

import (
	"slices"
	"sort"

	"springrib/internal/plane"
)

// solid is a part for the packer: convex pieces that hold it with at most slack mm
// to spare beyond their own edges.
type solid struct {
	body  []convex // the outline's area
	reach []convex // tool paths that leave it
	slack float64  // the true part lies within this distance of the pieces
	holed bool     // something may lie in its holes
}

// partLimit is the most convex pieces that an outline is cut into. Ribs and panels
// take 1 to 15; what takes more is covered a little more loosely.
const partLimit = 16

// newSolid covers a piece. Holes smaller than least both ways are filled: nothing
// fits in them.
func newSolid(p *Piece, cutOuts bool, least float64) *solid {
	paths := []plane.Path{p.Outline.Outer}
	for _, h := range p.Outline.Holes {
		if b := h.Box(); cutOuts && min(b.W(), b.H()) > least {
			paths = append(paths, h)
		}
	}
	s := &solid{holed: len(paths) > 1}
	rings, slack := coarse(paths)
	s.slack = slack
	if slices.ContainsFunc(p.Reach, curved) {
		s.slack = max(slack, 0.05)
	}
	s.body = decompose(rings, partLimit)
	s.reach = bands(outside(p.Reach, rings, s.slack), 2*least+10)
	return s
}

// coarse returns the paths as polygons and how far they may stand off the truth:
// nothing for polygons of few vertices, else as little as it takes to bring the
// vertices down to a number that can be packed in good time: as a rule no more than
// 1/400 of the part's width and height together. An outline that is still jagged at
// ten times that is replaced by its convex hull.
func coarse(paths []plane.Path) ([][]plane.Point, float64) {
	const most, mostCurved = 48, 28
	if !slices.ContainsFunc(paths, curved) {
		if rings, n := flatten(paths, 0); n <= most {
			return rings, 0
		}
	}
	box := plane.EmptyBox()
	for _, p := range paths {
		box = box.Union(p.Box())
	}
	size := box.W() + box.H()
	fine := min(0.02, size/4000)
	rings, _ := flatten(paths, fine)
	for tol := fine; ; {
		out, n := make([][]plane.Point, len(rings)), 0
		for i, r := range rings {
			out[i] = thinned(r, tol)
			n += len(out[i])
		}
		switch {
		case n <= mostCurved || n <= 2*most && tol*1.25 > size/400:
			return out, fine + tol
		case tol > size/40:
			return [][]plane.Point{hull(rings[0])}, fine
		case n > 2*most:
			tol *= 2
		default:
			tol *= 1.25
		}
	}
}

func curved(p plane.Path) bool {
	return slices.ContainsFunc(p.Segs, func(s plane.Segment) bool { return s.Kind != plane.Line })
}

// flatten returns rings without the closing point, within tol of the paths.
func flatten(paths []plane.Path, tol float64) (rings [][]plane.Point, n int) {
	for _, p := range paths {
		r := p.Flatten(max(tol, 1e-9))
		if len(r) > 0 && r[0] == r[len(r)-1] {
			r = r[:len(r)-1]
		}
		rings = append(rings, r)
		n += len(r)
	}
	return rings, n
}

// thinned leaves out vertices of a ring that lie within tol of what remains (Douglas
// & Peucker, "Algorithms for the reduction of the number of points required to
// represent a digitized line or its caricature", Cartographica 10(2), 1973). It
// splits the ring at its first vertex and the one farthest from it.
func thinned(r []plane.Point, tol float64) []plane.Point {
	far := 0
	for i, p := range r {
		if p.Dist(r[0]) > r[far].Dist(r[0]) {
			far = i
		}
	}
	closed := append(slices.Clone(r), r[0])
	out := thin(nil, closed[:far+1], tol)
	return thin(out, closed[far:], tol)
}

// thin appends the kept points of a polyline except its last.
func thin(out, p []plane.Point, tol float64) []plane.Point {
	if len(p) < 2 {
		return out
	}
	e := edge{p[0], p[len(p)-1]}
	far, d := -1, tol
	for i := 1; i < len(p)-1; i++ {
		di := p[i].Dist(e.a)
		if e.a != e.b {
			di = e.dist(p[i])
		}
		if di > d {
			far, d = i, di
		}
	}
	if far < 0 {
		return append(out, p[0])
	}
	return thin(thin(out, p[:far+1], tol), p[far:], tol)
}

// outside returns the straight pieces of the paths that are not wholly inside the
// rings. They stand off the paths by at most slack.
func outside(paths []plane.Path, rings [][]plane.Point, slack float64) []edge {
	body := &figure{}
	for _, r := range rings {
		for i := range r {
			body.edges = append(body.edges, edge{r[i], r[(i+1)%len(r)]})
		}
	}
	body.bound()
	var out []edge
	for _, p := range paths {
		pts := p.Flatten(max(slack, 1e-9))
		for i := 1; i < len(pts); i++ {
			e := edge{pts[i-1], pts[i]}
			free := false
			e.runs(body, func(run edge) {
				free = free || !body.inside(run.at(0.5)) && body.farthest(run, false) > touch
			})
			if free && e.a != e.b {
				out = append(out, e)
			}
		}
	}
	return out
}

// bands joins strokes that lie side by side, nearer than next to each other, into
// convex pieces as long as the hull of a band is little more than the strips between
// its strokes: nothing could lie between them anyway.
func bands(strokes []edge, next float64) []convex {
	if len(strokes) == 0 {
		return nil
	}
	across := strokes[0].b.Sub(strokes[0].a).Left().Unit()
	station := func(e edge) float64 { return e.at(0.5).Dot(across) }
	sort.SliceStable(strokes, func(i, j int) bool { return station(strokes[i]) < station(strokes[j]) })
	var out []convex
	var band convex
	var last edge
	strips := 0.0
	for i, e := range strokes {
		if i > 0 {
			if e.a.Dist(last.a)+e.b.Dist(last.b) > e.a.Dist(last.b)+e.b.Dist(last.a) {
				e.a, e.b = e.b, e.a
			}
			wider := hull(slices.Concat(band, convex{e.a, e.b}))
			strips += hull([]plane.Point{last.a, last.b, e.a, e.b}).area()
			if max(e.a.Dist(last.a), e.b.Dist(last.b)) <= next && wider.area() <= 1.01*strips {
				band, last = wider, e
				continue
			}
			out = append(out, band)
			strips = 0
		}
		band, last = hull([]plane.Point{e.a, e.b}), e
	}
	out = append(out, band)
	for len(out) > 4*partLimit { // strokes in disorder: by twos
		half := out[:0:0]
		for i := 0; i < len(out); i += 2 {
			half = append(half, hull(slices.Concat(out[i], out[min(i+1, len(out)-1)])))
		}
		out = half
	}
	return join(out, partLimit)
}
