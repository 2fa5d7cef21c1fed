package intake

import (
	"fmt"
	"math"
	"sort"

	"springrib/internal/plane"
)

// An end of a piece is numbered 2i for the start of piece i and 2i+1 for its end.
type end int

func (e end) piece() int { return int(e) / 2 }

// other is the end at the far side of the piece.
func (e end) other() end { return e ^ 1 }

// meeting is two ends within the gap.
type meeting struct {
	a, b end
	dist float64
	step int64   // dist in steps that count as equal
	bend float64 // 0 when the one piece goes straight on into the other, 2 when it turns back
}

// maxNear bounds how many other ends one end is compared with, maxMeetings the pairs
// in all.
const (
	maxNear     = 64
	maxMeetings = 200_000
)

// chain joins open pieces of one layer and colour where their ends meet. The
// nearest ends are joined first; among equally near ones those that go straight on.
func (m *mender) chain() {
	met, crowded := m.meetings()
	sort.Slice(met, func(i, j int) bool {
		p, q := met[i], met[j]
		switch {
		case p.step != q.step:
			return p.step < q.step
		case math.Abs(p.bend-q.bend) > 1e-9:
			return p.bend < q.bend
		case p.a != q.a:
			return p.a < q.a
		}
		return p.b < q.b
	})
	link := make([]end, 2*len(m.pieces))
	for i := range link {
		link[i] = -1
	}
	for _, t := range met {
		if link[t.a] < 0 && link[t.b] < 0 {
			link[t.a], link[t.b] = t.b, t.a
		}
	}
	for _, e := range crowded {
		p := m.pieces[e.piece()]
		m.note(Junction, p.from, m.at(e), 0, "More than two ends meet here: see whether the right ones were joined.")
	}
	m.follow(link)
}

func (m *mender) at(e end) plane.Point {
	if e&1 == 0 {
		return m.pieces[e.piece()].Path.Start()
	}
	return m.pieces[e.piece()].Path.End()
}

// away is the direction in which a piece leaves its end outwards.
func (m *mender) away(e end) plane.Point {
	segs := m.pieces[e.piece()].Path.Segs
	if e&1 == 0 {
		return segs[0].Tangent(0).Mul(-1)
	}
	return segs[len(segs)-1].Tangent(1)
}

// meetings returns the pairs of ends within the gap, and one end of each place where
// more than two meet.
func (m *mender) meetings() (met []meeting, crowded []end) {
	size := math.Max(m.gap, joined)
	open, place := m.openEnds(size)
	ends := newGrid(len(open))
	for i := len(open) - 1; i >= 0; i-- { // the first in a cell is then found first
		ends.add(place[i], int32(open[i]))
	}
	shown := map[cell]bool{}
	var near []int32
	for i, e := range open {
		near = ends.round(near[:0], place[i], maxNear)
		count := 0
		for _, n := range near {
			f := end(n)
			dist := m.at(e).Dist(m.at(f))
			if f == e || dist > size || f == e.other() && m.pieces[e.piece()].Length() <= 3*dist {
				continue
			}
			if count++; f > e && len(met) < maxMeetings {
				met = append(met, meeting{e, f, dist, int64(dist / 1e-6), 1 + m.away(e).Dot(m.away(f))})
			}
		}
		if count > 1 && len(crowded) < maxShown && !shown[place[i]] {
			crowded = append(crowded, e)
			for dx := int64(-1); dx <= 1; dx++ {
				for dy := int64(-1); dy <= 1; dy++ {
					shown[cell{place[i].group, place[i].x + dx, place[i].y + dy}] = true
				}
			}
		}
	}
	return met, crowded
}

// openEnds returns the ends of open pieces and the cell of each: one group for each layer and
// colour, where colours that nobody tells apart are one.
func (m *mender) openEnds(size float64) (open []end, place []cell) {
	type kind struct{ layer, stroke string }
	groups := map[kind]int64{}
	var colours shades
	for i := range m.pieces {
		p := &m.pieces[i]
		if p.Path.Closed {
			continue
		}
		k := kind{p.Layer, colours.of(p.Stroke)}
		if _, ok := groups[k]; !ok {
			groups[k] = int64(len(groups))
		}
		for _, e := range [2]end{end(2 * i), end(2*i + 1)} {
			c := gridCell(m.at(e), size)
			c.group = groups[k]
			open, place = append(open, e), append(place, c)
		}
	}
	return open, place
}

// follow replaces the pieces by the chains that link makes of them.
func (m *mender) follow(link []end) {
	done := make([]bool, len(m.pieces))
	var out []piece
	for i, p := range m.pieces {
		if done[i] {
			continue
		}
		// Back to the beginning of the chain, or all the way round.
		e := end(2 * i)
		for link[e] >= 0 {
			e = link[e].other()
			if e == end(2*i) {
				break
			}
		}
		run := []end{e} // the end at which each piece is entered
		for f := link[e.other()]; f >= 0 && f != e; f = link[f.other()] {
			run = append(run, f)
		}
		for _, f := range run {
			done[f.piece()] = true
		}
		if ring := link[e] >= 0; len(run) > 1 || ring {
			if welded, ok := m.weld(run, ring, i); ok {
				out = append(out, welded)
				continue
			}
			sort.Slice(run, func(a, b int) bool { return run[a] < run[b] })
			for _, f := range run[:len(run)-1] {
				out = append(out, m.pieces[f.piece()])
			}
			p = m.pieces[run[len(run)-1].piece()]
		}
		out = append(out, p)
	}
	m.pieces = out
}

// weld makes one path of the pieces entered at the ends of run, and names it after
// piece first, whose direction it takes; ok is false when that is to be left.
func (m *mender) weld(run []end, ring bool, first int) (out piece, ok bool) {
	var w welder
	var from []int
	source := m.pieces[first].Source
	backwards := false
	for _, e := range run {
		p := m.pieces[e.piece()]
		path := p.Path
		if e&1 == 1 {
			path = path.Reverse()
			backwards = backwards || e.piece() == first
		}
		w.add(path.Segs)
		from = append(from, p.from...)
		if p.Source != source {
			source = "several"
		}
	}
	if ring {
		w.closeUp()
	}
	path := plane.Path{Segs: w.segs, Closed: ring}
	if backwards {
		path = path.Reverse()
	}
	sort.Ints(from)
	out = m.pieces[first]
	out.Path, out.from, out.box, out.length, out.Source = path, from, path.Box(), 0, source
	kind, what := Joined, "chained, still open"
	if ring {
		kind, what = Closed, "chained to a closed path"
	}
	text := fmt.Sprintf("%d pieces %s; widest gap %.3f mm.", len(run), what, w.gap)
	if len(run) == 1 {
		text = fmt.Sprintf("Closed over a gap of %.3f mm.", w.gap)
	}
	if m.leaves(kind, from, w.at, w.gap, text) {
		return piece{}, false
	}
	m.note(kind, from, w.at, w.gap, text)
	return out, true
}

// welder joins runs of segments whose ends don't quite meet.
type welder struct {
	segs []plane.Segment
	gap  float64 // widest so far
	at   plane.Point
}

func (w *welder) add(segs []plane.Segment) {
	from := len(w.segs)
	w.segs = append(w.segs, segs...)
	if from > 0 {
		w.join(from-1, from)
	}
	if from == 0 && len(segs) > 0 {
		w.at = segs[0].A
	}
}

func (w *welder) closeUp() { w.join(len(w.segs)-1, 0) }

// join lets segment i end where segment j starts: both move to the middle of a
// narrow gap, a line bridges a wide one.
func (w *welder) join(i, j int) {
	a, b := w.segs[i].B, w.segs[j].A
	d := a.Dist(b)
	if d > w.gap {
		w.gap, w.at = d, a.Lerp(b, 0.5)
	}
	if d == 0 {
		return
	}
	short := math.Min(w.segs[i].A.Dist(a), w.segs[j].B.Dist(b)) < 4*d
	if d > joined && (d > snapWithin || short || i == j) {
		bridge := plane.LineSeg(a, b)
		if j == 0 {
			w.segs = append(w.segs, bridge)
			return
		}
		w.segs = append(w.segs[:j], append([]plane.Segment{bridge}, w.segs[j:]...)...)
		return
	}
	mid := a.Lerp(b, 0.5)
	p, q := &w.segs[i], &w.segs[j]
	p.B, p.D = mid, p.D.Add(mid.Sub(a))
	q.A, q.C = mid, q.C.Add(mid.Sub(b))
}
