package trial_test

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/part"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// piece is one copy of a part where it should lie, and what of a file is its.
type piece struct {
	part  part.Part
	name  string
	move  plane.Affine
	outer *chain   // the finished outline
	holes []*chain // the finished holes
	cut   []trace  // outer cuts of the file that are its
	inner []trace
	path  *chain // its outer cuts, joined over bridges
	gaps  [][2]xy
	// shared tells that a cut runs along this piece and another alike, as where no gap is left.
	shared bool
}

// finished are the outlines of the piece as it should come out.
func (pc *piece) finished() []*chain { return append([]*chain{pc.outer}, pc.holes...) }

// laid returns the pieces of each sheet, in the order of the files.
func (j *judge) laid() [][]*piece {
	var out [][]*piece
	for gi := range j.p.Sheets {
		g := &j.p.Sheets[gi]
		for s := range g.Layout.Sheets {
			var on []*piece
			for _, at := range g.Layout.Placed {
				if at.Sheet != s {
					continue
				}
				src := g.Parts[at.Piece]
				pc := &piece{part: src, move: at.Move(), name: src.ID + " " + strconv.Itoa(at.Copy+1)}
				pc.outer = newChain(traceOf(src.Outline.Outer, pc.move).chords(chordError), true)
				for _, h := range src.Outline.Holes {
					pc.holes = append(pc.holes, newChain(traceOf(h, pc.move).chords(chordError), true))
				}
				on = append(on, pc)
			}
			if len(on) > 0 {
				out = append(out, on)
			}
		}
	}
	return out
}

// sheet judges one cut file against what should lie on it.
func (j *judge) sheet(f *drawing, laid []*piece, n int) {
	j.segments(f)
	var outer, inner []layer = f.kind("outer-cuts"), f.kind("inner-cuts")
	j.repeated(f)
	if len(outer) == 0 {
		j.say("part-missing", "sheet %d has no outer cuts", n+1)
		return
	}
	var cutOut []trace
	cutOut = append(cutOut, outer[0].paths...)
	if j.v.Cut.CutOuts { // parts in cut-outs are cut with the inner cuts
		cutOut = nil
	}
	if len(inner) > 0 {
		j.assign(inner[0].paths, laid, true)
	}
	if cutOut != nil {
		j.assign(cutOut, laid, false)
	} else {
		j.assign(outer[0].paths, laid, false)
	}
	for _, pc := range laid {
		j.outline(pc)
	}
	j.scores(f, laid)
	j.marks(f, laid)
	j.apart(f, laid)
	j.onBed(f, laid, n)
}

// segments looks at every segment of the file.
func (j *judge) segments(f *drawing) {
	const least = 0.01 // mm: below what any machine steps
	for _, l := range f.layers {
		for _, p := range l.paths {
			for _, s := range p.runs {
				if d := s.length(); d < least-1e-9 {
					j.say("short-segment", "%s: %.4f mm at %.3f %.3f", l.id, d, s.a.x, s.a.y)
					return
				}
			}
		}
	}
	j.seen["segments"]++
}

// repeated looks whether each pass written as a layer of its own is the whole of it.
func (j *judge) repeated(f *drawing) {
	for _, kind := range []string{"score", "mark", "inner-cuts", "outer-cuts"} {
		layers := f.kind(kind)
		for i := 1; i < len(layers); i++ {
			j.seen["repeated"]++
			if a, b := layers[0], layers[i]; math.Abs(total(a)-total(b)) > 1e-6*(1+total(a)) || len(a.paths) != len(b.paths) {
				j.say("pass-differs", "%s has %d paths of %.3f mm, %s %d of %.3f", a.id, len(a.paths), total(a), b.id, len(b.paths), total(b))
			}
		}
	}
}

func total(l layer) float64 {
	sum := 0.0
	for _, p := range l.paths {
		sum += p.length()
	}
	return sum
}

// assign gives each cut to the piece, and of inner cuts to the hole, beside which it runs.
func (j *judge) assign(paths []trace, laid []*piece, inner bool) {
	k := j.v.Machine.Kerf
	for _, p := range paths {
		at := p.chords(0.05)
		b := boxOf(at)
		step := max(1, len(at)/24)
		var best, next *piece
		bestInner := false
		least, second := math.Inf(1), math.Inf(1)
		for _, pc := range laid {
			if !pc.outer.box.grown(2*k + 1).meets(b) {
				continue
			}
			for i, loop := range pc.finished() {
				isHole := i > 0
				if isHole != inner && !(inner && j.v.Cut.CutOuts) {
					continue
				}
				off := 0.0
				for q := 0; q < len(at); q += step {
					d, _ := loop.near(at[q], 1e3)
					if d < 1e-9 && k > 0 {
						d = 0
					}
					if in := loop.inside(at[q]); in != isHole { // on the wrong side of it
						d = -d
					}
					off += math.Abs(d - k/2)
				}
				if off < least {
					if best != pc {
						second, next = least, best
					}
					least, best, bestInner = off, pc, isHole
				} else if off < second && best != pc {
					second, next = off, pc
				}
			}
		}
		if tie := placeError * float64((len(at)+step-1)/step); next != nil && second < tie && least < tie {
			best.shared, next.shared = true, true
		}
		switch {
		case best == nil || least/float64((len(at)+step-1)/step) > math.Max(1, k):
			j.say("stray-cut", "a cut of %.2f mm at %.2f %.2f belongs to no part", p.length(), p.start().x, p.start().y)
		case bestInner:
			best.inner = append(best.inner, p)
		default:
			best.cut = append(best.cut, p)
		}
	}
}

// outline judges the cuts that free one piece.
func (j *judge) outline(pc *piece) {
	if len(pc.cut) == 0 {
		j.say("part-missing", "%s is not cut", pc.name)
		return
	}
	j.seen["part "+pc.part.ID]++
	whole := len(pc.cut) == 1 && pc.cut[0].closed
	switch {
	case pc.shared:
		j.seen["shared"]++
		if !j.has("cuts-shared") {
			j.say("shared-cut", "%s has a cut in common with another part, and nothing says so", pc.name)
		}
		return // whose it is can't be told
	case whole:
		pc.path = newChain(pc.cut[0].chords(chordError), true)
	case j.bridged(pc):
		j.seen["bridged"]++
		j.join(pc)
	default:
		j.say("open-outline", "%s is cut in %d pieces, and no bridges were asked for it", pc.name, len(pc.cut))
		return
	}
	if pc.path == nil {
		return
	}
	if at, ok := crossings(pc.path, pc.path); ok {
		j.say("self-crossing", "the outer cut of %s at %.3f %.3f", pc.name, at.x, at.y)
	}
	relief := j.v.Cut.Relief
	if problem, kind := j.beside(pc.path, pc.outer, false, relief, pc.gaps); problem != "" {
		j.say("outline-"+kind, "%s: %s", pc.name, problem)
	} else if whole && !relief {
		j.area(pc.name, pc.path, pc.outer, false)
	}
	j.cutOuts(pc, relief)
}

// bridged tells whether a piece was to be held by bridges.
func (j *judge) bridged(pc *piece) bool {
	if t := j.v.Machine.Tool; t == machine.Saw || t == machine.Knife {
		return false
	}
	b := pc.part.Outline.Box()
	return j.v.Cut.Bridges == design.BridgeAll || j.v.Cut.Bridges == design.BridgeSmall && math.Min(b.W(), b.H()) < j.v.Cut.BridgeBelow
}

// join strings the pieces of a bridged cut together and finds the bridges between them.
func (j *judge) join(pc *piece) {
	gap := j.v.Cut.BridgeWidth + j.v.Machine.Kerf
	left := append([]trace{}, pc.cut...)
	first := left[0].start()
	pts := left[0].chords(chordError)
	left = left[1:]
	for {
		end := pts[len(pts)-1]
		next, at := first, -1
		for i, p := range left { // which may be cut either way
			if end.to(p.end()) < end.to(p.start()) {
				left[i] = p.reversed()
			}
			if q := left[i].start(); end.to(q) < end.to(next) {
				next, at = q, i
			}
		}
		pc.gaps = append(pc.gaps, [2]xy{end, next})
		if d := end.to(next); math.Abs(d-gap) > 0.02*gap+0.005 {
			j.say("open-outline", "%s: a gap of %.3f mm where bridges leave %.3f", pc.name, d, gap)
			return
		}
		if at < 0 {
			break
		}
		pts = append(pts, left[at].chords(chordError)...)
		left = append(left[:at], left[at+1:]...)
	}
	if len(left) > 0 {
		j.say("open-outline", "%s: %d pieces that join nothing", pc.name, len(left))
		return
	}
	pc.path = newChain(pts, true)
}

// cutOuts judges the holes and slots of one piece.
func (j *judge) cutOuts(pc *piece, relief bool) {
	left := append([]trace{}, pc.inner...)
	for i, h := range pc.holes {
		at := -1
		for k, p := range left {
			if mid := boxOf(p.chords(0.05)); h.box.grown(1).holds(mid.lo) && h.box.grown(1).holds(mid.hi) &&
				mid.lo.mid(mid.hi).to(h.box.lo.mid(h.box.hi)) < 0.05+0.02*mid.lo.to(mid.hi) {
				at = k
				break
			}
		}
		if at < 0 {
			j.say("hole-missing", "%s: hole %d of %d, %.2f by %.2f", pc.name, i+1, len(pc.holes), h.box.hi.x-h.box.lo.x, h.box.hi.y-h.box.lo.y)
			continue
		}
		j.seen["hole of "+pc.part.ID]++
		p := left[at]
		left = append(left[:at], left[at+1:]...)
		if !p.closed {
			j.say("open-outline", "%s: the cut of hole %d is open", pc.name, i+1)
			continue
		}
		path := newChain(p.chords(chordError), true)
		if q, ok := crossings(path, path); ok {
			j.say("self-crossing", "the cut of a hole of %s at %.3f %.3f", pc.name, q.x, q.y)
		}
		if q, ok := crossings(path, pc.path); ok {
			j.say("self-crossing", "a hole of %s meets its outline at %.3f %.3f", pc.name, q.x, q.y)
		}
		if problem, kind := j.beside(path, h, true, relief, nil); problem != "" {
			j.say("outline-"+kind, "hole %d of %s: %s", i+1, pc.name, problem)
		} else if !relief {
			j.area(pc.name, path, h, true)
		}
	}
	if len(left) > 0 {
		j.say("stray-cut", "%s: %d inner cuts of no hole", pc.name, len(left))
	}
}

// beside holds a tool's path to a finished outline: half a kerf from it on the waste's side
// everywhere, but for outward corners, which may come to a point, and inward ones, which a
// round tool can't get into and, for relief, runs into.
func (j *judge) beside(path, loop *chain, hole, relief bool, gaps [][2]xy) (problem, kind string) {
	k := j.v.Machine.Kerf
	waste := func(q xy) bool { return loop.inside(q) == hole }
	// Corners of the finished outline; positive where the material stands out.
	type corner struct {
		at   xy
		turn float64
	}
	var corners []corner
	sense := 1.0
	if (area(loop.pts) > 0) == hole {
		sense = -1
	}
	for i := range loop.pts {
		if turn := sense * loop.turnAt(i); math.Abs(turn) > 0.15 {
			corners = append(corners, corner{loop.pts[i], turn})
		}
	}
	for _, q := range path.spaced(1.5) {
		d, _ := loop.near(q, 1e3)
		if !waste(q) {
			d = -d
		}
		if math.Abs(d-k/2) <= placeError {
			continue
		}
		ok := false
		for _, c := range corners {
			from := q.to(c.at)
			ok = ok || d > k/2 && c.turn > 0 && c.turn < 2.2 && from <= k/2/math.Cos(c.turn/2)+placeError ||
				d < k/2 && relief && c.turn < -0.4 && from >= k/2-placeError && from <= k/2/math.Cos(c.turn/2)+placeError
		}
		for _, g := range gaps { // a chord over a bridge lies nearer than its arc
			ok = ok || fromEdge(q, g[0], g[1]) < placeError && math.Abs(d-k/2) < 0.05*g[0].to(g[1])
		}
		if !ok && d < k/2 {
			return "the tool cuts " + short(k/2-d) + " into it at " + short(q.x) + " " + short(q.y), "cut-into"
		}
		if !ok {
			return "the cut runs " + short(d-k/2) + " too far off at " + short(q.x) + " " + short(q.y), "off"
		}
	}
	for _, q := range loop.spaced(1.5) {
		d, _ := path.near(q, 1e3)
		if d <= k/2+placeError {
			continue
		}
		ok := false
		for _, c := range corners {
			ok = ok || c.turn < 0 && q.to(c.at) <= k/2*math.Tan(-c.turn/2)+placeError
		}
		for _, g := range gaps {
			ok = ok || d < k/2+0.05*g[0].to(g[1]) && fromEdge(q, g[0], g[1]) < d+placeError
		}
		if !ok {
			return "nothing is cut along it at " + short(q.x) + " " + short(q.y) + ", " + short(d) + " away", "lost"
		}
	}
	return "", ""
}

func short(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) }

// area compares what the tool's path encloses with the finished outline grown by half a
// kerf: A + L k/2, and at corners between a round and a point of them (Steiner's formula).
func (j *judge) area(name string, path, loop *chain, hole bool) {
	r := j.v.Machine.Kerf / 2
	if hole {
		r = -r
	}
	round, pointed, l := 0.0, 0.0, 0.0
	ccw := 1.0
	if area(loop.pts) < 0 {
		ccw = -1
	}
	for i := range loop.pts {
		a, b := loop.edge(i)
		l += a.to(b)
		turn := ccw * loop.turnAt(i)
		if turn*r < 0 { // the tool goes inside this corner, to where its sides meet
			round, pointed = round+math.Tan(turn/2), pointed+math.Tan(turn/2)
			continue
		}
		round, pointed = round+turn/2, pointed+math.Tan(math.Min(turn, 2.2)/2)
	}
	base := math.Abs(area(loop.pts)) + l*r
	lo, hi := base+r*r*math.Min(round, pointed), base+r*r*math.Max(round, pointed)
	got, room := math.Abs(area(path.pts)), 0.004*l+0.01
	if got < lo-room || got > hi+room {
		j.say("outline-area", "%s: the cut encloses %.3f mm2, the finished outline grown by half a kerf %.3f to %.3f", name, got, lo, hi)
	}
}

// apart looks for pieces that are cut out of each other.
func (j *judge) apart(f *drawing, laid []*piece) {
	for i, a := range laid {
		for _, b := range laid[:i] {
			if a.path == nil || b.path == nil || !a.path.box.meets(b.path.box) {
				continue
			}
			if d := math.Max(deepest(a.path, b), deepest(b.path, a)); d > 0.01 {
				j.say("parts-overlap", "%s and %s by %.3f mm", a.name, b.name, d)
				return
			}
		}
	}
	for _, l := range f.kind("score") {
		for _, p := range l.paths {
			stroke := newChain(p.chords(chordError), false)
			for _, pc := range laid {
				if pc.path == nil || !pc.path.box.meets(stroke.box) || pc.part.ID == "panel" {
					continue
				}
				if d := deepest(stroke, pc); d > 0.01 {
					j.say("score-on-other", "a score runs %.3f mm into %s", d, pc.name)
					return
				}
			}
		}
	}
}

// deepest returns how deep a polyline lies in the material of a piece, as its tool's path
// bounds it.
func deepest(c *chain, pc *piece) float64 {
	loops := []*chain{pc.path}
	for _, h := range pc.inner {
		loops = append(loops, newChain(h.chords(chordError), true))
	}
	most := 0.0
	for i := range c.edges() {
		a, b := c.edge(i)
		if !boxOf([]xy{a, b}).meets(pc.path.box) {
			continue
		}
		d, l := b.sub(a), a.to(b)
		if l == 0 {
			continue
		}
		for _, s := range slices(loops, a, d.mul(1/l)) {
			from, to := math.Max(s[0], 0), math.Min(s[1], l)
			for t := 1.0; t < 8 && to > from; t++ {
				q := a.add(d.mul((from + (to-from)*t/8) / l))
				deep := math.Inf(1)
				for _, loop := range loops {
					off, _ := loop.near(q, deep)
					deep = math.Min(deep, off)
				}
				most = math.Max(most, deep)
			}
		}
	}
	return most
}

// onBed looks whether every stroke keeps to the sheet and off its margin.
func (j *judge) onBed(f *drawing, laid []*piece, n int) {
	m := j.v.Cut.Margin
	bed := box{xy{}, xy{f.w, f.h}}
	if f.w != round3(j.v.Machine.BedWidth) || f.h != round3(j.v.Machine.BedHeight) {
		j.say("bed-size", "the file is %v by %v", f.w, f.h)
	}
	var scrap *chain
	if n < len(j.p.Beds) && len(j.p.Beds[n].Outer.Segs) > 0 {
		var pts []xy
		for _, s := range j.v.Cut.Scrap {
			pts = append(pts, xy{s.X, s.Y})
		}
		scrap = newChain(pts, true)
		j.seen["scrap"]++
	}
	for _, l := range f.layers {
		for _, p := range l.paths {
			c := newChain(p.chords(chordError), false)
			at := boxOf(c.pts)
			if in := bed.grown(-m + 0.003); !in.holds(at.lo) || !in.holds(at.hi) {
				if out := bed.grown(0.003); !out.holds(at.lo) || !out.holds(at.hi) {
					j.say("off-bed", "%s leaves the bed: %.3f %.3f to %.3f %.3f", l.id, at.lo.x, at.lo.y, at.hi.x, at.hi.y)
				} else {
					j.say("in-margin", "%s comes nearer to the bed's edge than %.3f: %.3f %.3f to %.3f %.3f of %.3f %.3f", l.id, m, at.lo.x, at.lo.y, at.hi.x, at.hi.y, f.w, f.h)
				}
				return
			}
			if scrap == nil {
				continue
			}
			for _, q := range c.spaced(3) {
				if d, _ := scrap.near(q, 1e6); !scrap.inside(q) || d < m-0.003 {
					j.say("off-scrap", "%s leaves the scrap, or its margin, at %.3f %.3f", l.id, q.x, q.y)
					return
				}
			}
		}
	}
}

func round3(v float64) float64 { return math.Round(v*1000) / 1000 }

// scores looks for every score that the page lists on every panel, over all of its
// material, and for scores that it does not list.
func (j *judge) scores(f *drawing, laid []*piece) {
	layers := f.kind("score")
	var strokes []trace
	if len(layers) > 0 {
		strokes = layers[0].paths
	}
	used := make([]bool, len(strokes))
	for _, pc := range laid {
		if pc.part.ID != "panel" {
			continue
		}
		inv, ok := pc.move.Inverse()
		if !ok {
			panic("a move that can't be undone")
		}
		own := map[int64][]int{} // strokes of this panel, by their place along it in tenths
		local := func(q xy) xy { m := inv.Apply(plane.Pt(q.x, q.y)); return xy{m.X, m.Y} }
		for i, s := range strokes {
			mid := s.start().mid(s.end())
			if !used[i] && pc.outer.box.grown(1e-6).holds(mid) {
				u := local(mid).x
				own[int64(math.Round(10*u))] = append(own[int64(math.Round(10*u))], i)
			}
		}
		for _, sc := range j.view.Scores {
			j.score(pc, strokes, own, used, sc.N, sc.U)
		}
	}
	for i, s := range strokes {
		if !used[i] {
			j.say("stray-score", "a score from %.3f %.3f to %.3f %.3f that the page does not list", s.start().x, s.start().y, s.end().x, s.end().y)
			return
		}
	}
}

// score looks for one score of one panel.
func (j *judge) score(pc *piece, strokes []trace, own map[int64][]int, used []bool, n int, u float64) {
	at := pc.move.Apply(plane.Pt(u, 0))
	dir := pc.move.ApplyVector(plane.Pt(0, 1))
	foot, along := xy{at.X, at.Y}, xy{dir.X, dir.Y}
	var runs [][2]float64
	for d := int64(-1); d <= 1; d++ {
		for _, i := range own[int64(math.Round(10*u))+d] {
			s := strokes[i]
			if math.Abs(along.cross(s.start().sub(foot))) > 0.002 || math.Abs(along.cross(s.end().sub(foot))) > 0.002 || used[i] {
				continue
			}
			used[i] = true
			a, b := s.start().sub(foot).dot(along), s.end().sub(foot).dot(along)
			runs = append(runs, [2]float64{math.Min(a, b), math.Max(a, b)})
			j.onBridge(pc, s, n)
		}
	}
	for _, span := range slices(pc.finished(), foot, along) {
		if span[1]-span[0] < 0.02 {
			continue
		}
		j.seen["score"]++
		ok := false
		for _, r := range runs {
			ok = ok || r[0] <= span[0]+placeError && r[1] >= span[1]-placeError
		}
		if !ok && !j.grazes(n) {
			j.say("score-missing", "score %d of %s, %.3f along, is not cut from %.2f to %.2f across", n, pc.name, u, span[0], span[1])
			return
		}
	}
}

func (j *judge) grazes(n int) bool {
	for _, f := range j.view.Findings {
		if f.ID == "score-grazes" && f.Place.Score == n {
			return true
		}
	}
	return false
}

// onBridge looks whether a score, as wide as it is, runs over a bridge of its panel.
func (j *judge) onBridge(pc *piece, s trace, n int) {
	for _, b := range pc.bridges(j.v.Machine.Kerf) {
		if d := apart(s.start(), s.end(), b[0], b[1]); d < j.v.Machine.ScoreWidth/2-1e-6 {
			j.say("score-on-bridge", "score %d of %s at %.3f %.3f, %.3f from its middle", n, pc.name, b[0].x, b[0].y, d)
		}
	}
}

// bridges are the sound parts of the gaps.
func (pc *piece) bridges(kerf float64) [][2]xy {
	var out [][2]xy
	for _, g := range pc.gaps {
		l := g[0].to(g[1])
		if l <= kerf {
			continue
		}
		out = append(out, [2]xy{g[0].along(g[1], kerf/2/l), g[0].along(g[1], 1-kerf/2/l)})
	}
	return out
}

// marks looks for the line of every rib and for drawn marks, and keeps bridges off them
// and off glued edges.
func (j *judge) marks(f *drawing, laid []*piece) {
	layers := f.kind("mark")
	var strokes []trace
	if len(layers) > 0 {
		strokes = layers[0].paths
	}
	used := make([]bool, len(strokes))
	k := j.v.Machine.Kerf
	for _, pc := range laid {
		for _, e := range j.keep(pc) {
			for _, b := range pc.bridges(k) {
				if d, _ := e.near(b[0].mid(b[1]), 1e3); d < k/2+j.v.Cut.BridgeWidth/2 {
					j.say("bridge-on-glue", "%s: a bridge at %.3f %.3f, %.3f from an edge that is glued or goes into a slot", pc.name, b[0].x, b[0].y, d)
				}
			}
		}
		if pc.part.ID != "panel" {
			continue
		}
		flip := 1.0
		if j.p.Mirror {
			flip = -1
		}
		want := []trace{}
		for _, s := range j.p.Supports {
			if s.Mark.Turned {
				j.seen["mark by hand"]++
				if !j.has("mark-turned") {
					j.say("mark-missing", "the rib's line is left to the hand, and nothing says so")
				}
				continue
			}
			want = append(want, traceOf(plane.Open(plane.Pt(s.Mark.From, flip*s.Across), plane.Pt(s.Mark.To, flip*s.Across)), pc.move))
		}
		for _, m := range j.p.DrawnMarks {
			want = append(want, traceOf(m, pc.move.Mul(plane.Scale(1, flip))))
		}
		for i, w := range want {
			found := false
			for q, s := range strokes {
				if !used[q] && sameEnds(w, s) {
					used[q], found = true, true
					for _, b := range pc.bridges(k) {
						if d, _ := newChain(s.chords(0.01), false).near(b[0].mid(b[1]), 1e3); d < j.v.Cut.BridgeWidth/2 {
							j.say("mark-on-bridge", "%s: mark %d", pc.name, i+1)
						}
					}
					break
				}
			}
			j.seen["mark"]++
			if !found {
				j.say("mark-missing", "%s: mark %d of %d, %.2f %.2f to %.2f %.2f", pc.name, i+1, len(want), w.start().x, w.start().y, w.end().x, w.end().y)
			}
		}
	}
	for i, s := range strokes {
		if !used[i] {
			j.say("stray-mark", "a mark from %.3f %.3f that the plan does not name", s.start().x, s.start().y)
			return
		}
	}
}

func sameEnds(a, b trace) bool {
	near := func(p, q xy) bool { return p.to(q) < 0.003 }
	return near(a.start(), b.start()) && near(a.end(), b.end()) || near(a.start(), b.end()) && near(a.end(), b.start())
}

// keep are the edges of a piece that bridges must not mar: glued ones, and those that go
// into a slot or stand on its rim.
func (j *judge) keep(pc *piece) []*chain {
	var out []*chain
	add := func(r plan.RibPart) {
		for _, e := range []plane.Path{r.Contact, r.Seat} {
			if len(e.Segs) > 0 {
				out = append(out, newChain(traceOf(e, pc.move).chords(chordError), false))
			}
		}
	}
	for _, r := range j.p.Ribs {
		if r.ID == pc.part.ID {
			add(r)
		}
	}
	if c := j.p.Caul; c != nil && c.ID == pc.part.ID {
		add(*c)
	}
	return out
}

// bench holds what the bench sheet names to what the files hold.
func (j *judge) bench(laid [][]*piece) {
	cut := map[string]int{}
	for _, on := range laid {
		for _, pc := range on {
			if len(pc.cut) > 0 {
				cut[pc.part.Name]++
			}
		}
	}
	b, _, err := j.core.Bench(j.raw)
	if err != nil {
		j.say("no-bench", "%v", err)
		return
	}
	for _, sec := range b.Sections {
		if sec.ID != "parts" {
			continue
		}
		for _, row := range sec.Rows {
			j.seen["bench row"]++
			n, err := strconv.Atoi(row.Cells[1])
			if err != nil || n != cut[row.Cells[0]] {
				if !j.has("off-bed", finding.Stop) && !j.has("too-many-parts", finding.Stop) {
					j.say("bench-parts", "the bench sheet names %s of the %s, the files cut %d", row.Cells[1], row.Cells[0], cut[row.Cells[0]])
				}
			}
			if isStockID(row.Cells[2]) {
				j.say("bench-stock", "the bench sheet names a sheet %q", row.Cells[2])
			}
		}
	}
	j.tenons()
}
