package trial_test

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/plane"
)

// The judge of panels between two sections. From the file it has the lines of the scores, from the
// design the figures of both sections, of which it makes its own edges. It folds the panel up about the
// lines as they are written, each score by as much as the page says that it folds, and looks where that
// leaves every flat over both edges. It shares nothing with packages skin, section, form and
// surface.

// arc is a piece of an edge: so long, turning by so much, left positive.
type arc struct{ long, turn float64 }

// skinAsked is the two edges by places where both head alike, near and far, and the distance between.
type skinAsked struct {
	near, far []xy
	phi       []float64
	apart     float64
	closed    bool
}

func typed(ps []design.PieceValues) (out []arc) {
	for _, p := range ps {
		switch p.Turn {
		case design.Straight:
			out = append(out, arc{p.Length, 0})
		case design.Over:
			out = append(out, arc{p.Length, -p.Length / p.Radius})
		default:
			out = append(out, arc{p.Length, p.Length / p.Radius})
		}
	}
	return out
}

func boxed(w, h, r float64) []arc {
	r = math.Min(r, math.Min(w, h)/2)
	q := arc{r * math.Pi / 2, -math.Pi / 2}
	a, b := arc{w - 2*r, 0}, arc{h - 2*r, 0}
	half := arc{a.long / 2, 0}
	return []arc{half, q, b, q, a, q, b, q, half}
}

// ovalled is an oval from its lowest point round to the right, in small arcs.
func ovalled(w, h float64) (out []arc) {
	const n = 1440
	at := func(i float64) xy { a := 2 * math.Pi * i / n; return xy{-w / 2 * math.Sin(a), -h / 2 * math.Cos(a)} }
	head := func(i float64) float64 {
		a := 2 * math.Pi * i / n
		return math.Atan2(h/2*math.Sin(a), -w/2*math.Cos(a))
	}
	for i := range n {
		turn := math.Remainder(head(float64(i+1))-head(float64(i)), 2*math.Pi)
		chord := at(float64(i)).to(at(float64(i + 1)))
		out = append(out, arc{chord * (turn / 2) / math.Sin(turn/2), turn})
	}
	return out
}

// asked makes both edges of the design.
func (j *judge) asked() *skinAsked {
	c := &j.v.Curve
	var near, far []arc
	switch c.Kind {
	case design.RadiusAngle:
		near = []arc{{c.Radius * c.Angle, -c.Angle}}
	case design.SpanRise:
		half := 2 * math.Atan(2*c.Rise/c.Span)
		near = []arc{{c.Span / 2 / math.Sin(half) * 2 * half, -2 * half}}
	case design.Chain:
		near = typed(c.Pieces)
	case design.Box:
		near = boxed(c.BoxWidth, c.BoxHeight, c.Corner)
	case design.Oval:
		near = ovalled(c.BoxWidth, c.BoxHeight)
	}
	s := &skinAsked{apart: c.Apart, closed: c.Kind == design.Box || c.Kind == design.Oval}
	ends := func(p []arc, k float64) []arc {
		if s.closed {
			return p
		}
		return append(append([]arc{{k * c.Foot, 0}}, p...), arc{k * c.Tip, 0})
	}
	total := 0.0
	for _, a := range near {
		total += a.turn
	}
	near = ends(near, 1)
	switch c.Far {
	case design.Scaled:
		for _, a := range near {
			far = append(far, arc{c.FarScale * a.long, a.turn})
		}
	case design.FarArc:
		far = ends([]arc{{-total * c.FarRadius, total}}, 1)
	case design.Chain:
		far = ends(typed(c.FarPieces), 1)
	case design.Box:
		far = boxed(c.FarWidth, c.FarHeight, c.FarCorner)
	default:
		far = ovalled(c.FarWidth, c.FarHeight)
	}
	s.pair(near, far)
	s.place(c.FarRight, c.FarUp)
	return s
}

// pair walks along both edges in steps of a quarter of a degree and less, straights on their own.
func (s *skinAsked) pair(near, far []arc) {
	const step = math.Pi / 720
	at := [2]xy{}
	start := 0.0
	if s.closed {
		start = math.Pi
	}
	phi := start
	put := func() { s.near, s.far, s.phi = append(s.near, at[0]), append(s.far, at[1]), append(s.phi, phi) }
	put()
	lists := [2][]arc{near, far}
	walk := func(k int, long, turn float64) {
		chord := long
		if math.Abs(turn) > 1e-12 {
			chord *= math.Sin(turn/2) / (turn / 2)
		}
		at[k] = at[k].add(xy{math.Cos(phi + turn/2), math.Sin(phi + turn/2)}.mul(chord))
	}
	for len(lists[0]) > 0 || len(lists[1]) > 0 {
		straight := false
		for k := range lists {
			if len(lists[k]) > 0 && math.Abs(lists[k][0].turn) < 1e-7 {
				walk(k, lists[k][0].long, 0)
				lists[k] = lists[k][1:]
				straight = true
			}
		}
		if straight {
			put()
			continue
		}
		if len(lists[0]) == 0 || len(lists[1]) == 0 {
			return // what rounding leaves
		}
		turn := lists[0][0].turn
		if b := lists[1][0].turn; math.Abs(b) < math.Abs(turn) {
			turn = b
		}
		n := math.Ceil(math.Abs(turn) / step)
		long := [2]float64{}
		for k := range lists {
			a := &lists[k][0]
			long[k] = a.long * turn / a.turn
			a.long, a.turn = a.long-long[k], a.turn-turn
			if math.Abs(a.turn) < 2e-5 { // rounded figures turn by so much more or less
				if len(lists[k]) > 1 && lists[k][1].turn != 0 { // of an oval in small arcs it adds up
					next := &lists[k][1]
					next.long, next.turn = next.long+a.long, next.turn+a.turn
				}
				lists[k] = lists[k][1:]
			}
		}
		for range int(n) {
			for k := range long {
				walk(k, long[k]/n, turn/n)
			}
			phi += turn / n
			put()
		}
	}
}

// place moves the far edge over against the near one.
func (s *skinAsked) place(along, up float64) {
	mid := func(p []xy) xy { return p[0].mid(p[len(p)-1]) }
	x := s.near[len(s.near)-1].sub(s.near[0])
	if x = x.mul(1 / math.Max(x.len(), 1e-12)); s.closed {
		x = xy{1, 0}
		mid = func(p []xy) xy { b := boxOf(p); return b.lo.mid(b.hi) }
	}
	by := mid(s.near).sub(mid(s.far)).add(x.mul(along)).add(xy{-x.y, x.x}.mul(up))
	for i := range s.far {
		s.far[i] = s.far[i].add(by)
	}
}

// at is the edge of a rib so high over the near one.
func (s *skinAsked) at(height float64) []xy {
	out := make([]xy, len(s.near))
	for i := range out {
		out[i] = s.near[i].along(s.far[i], height/s.apart)
	}
	return out
}

// long is the length of a chain.
func (c *chain) long() (sum float64) {
	for i := range c.edges() {
		a, b := c.edge(i)
		sum += a.to(b)
	}
	return sum
}

// off is how far a place lies off an edge on the panel's side, its left.
func off(edge *chain, q xy) float64 {
	d, i := edge.near(q, 1e4)
	a, b := edge.edge(i)
	if b.sub(a).cross(q.sub(a)) < 0 {
		return -d
	}
	return d
}

// skinScores looks for the scores of every panel between two sections, and folds one up.
func (j *judge) skinScores(f *drawing, laid []*piece) {
	layers := f.kind("score")
	var strokes []trace
	if len(layers) > 0 {
		strokes = layers[0].paths
	}
	used, folded := make([]bool, len(strokes)), false
	flip := 1.0
	if j.p.Panel.Mirror {
		flip = -1
	}
	for _, pc := range laid {
		if pc.part.ID != "panel" {
			continue
		}
		inv, ok := pc.move.Inverse()
		if !ok {
			panic("a move that can't be undone")
		}
		local := func(q xy) xy { m := inv.Apply(plane.Pt(q.x, q.y)); return xy{m.X, flip * m.Y} }
		var own [][2]xy
		for i, s := range strokes {
			if !used[i] && pc.outer.inside(s.start().mid(s.end())) {
				used[i] = true
				own = append(own, [2]xy{local(s.start()), local(s.end())})
				j.onBridge(pc, s, i)
			}
		}
		j.seen["score"] += len(own)
		pc.lines = nil
		taken := make([]bool, len(own))
		// The page's order, from where it says that each lies; all else is from the file.
		for n, r := range j.p.Panel.Strip.Rulings {
			a, b := xy{r.Flat[0].X, r.Flat[0].Y}, xy{r.Flat[1].X, r.Flat[1].Y}
			found := false
			for i, l := range own {
				if taken[i] || fromEdge(a.mid(b), l[0], l[1]) > 0.01 || math.Abs(l[1].sub(l[0]).cross(b.sub(a))) > 2e-4*l[0].to(l[1])*a.to(b) {
					continue
				}
				if l[1].sub(l[0]).dot(b.sub(a)) < 0 {
					l[0], l[1] = l[1], l[0]
				}
				taken[i], found = true, true
				pc.lines = append(pc.lines, l)
				break
			}
			if !found {
				j.say("score-missing", "%s: score %d", pc.name, n+1)
				return
			}
		}
		lapped := 0
		for i := range own {
			if !taken[i] {
				lapped++
			}
		}
		if lapped != j.p.Panel.Flat.Lapped {
			j.say("stray-score", "%d scores more than the curve takes, %d over the lap", lapped, j.p.Panel.Flat.Lapped)
		}
		if !folded && len(pc.lines) > 1 {
			folded = true
			j.foldSkin(pc)
		}
	}
	for i, s := range strokes {
		if !used[i] {
			j.say("stray-score", "a score from %.3f %.3f lies on no panel", s.start().x, s.start().y)
			return
		}
	}
}

// Where a flat may lie in an edge, mm: what folding makes of rounded places.
const inEdge = 0.03

// foldSkin bends the panel about its scores and holds it to both edges.
func (j *judge) foldSkin(pc *piece) {
	j.seen["refold"]++
	s := j.asked()
	if len(s.near) != len(s.far) {
		j.say("skin-edges", "the edges don't pair")
		return
	}
	edges := [2]*chain{newChain(s.near, false), newChain(s.far, false)}
	// The ends of the panel over the two edges, flat, as the page has them; its outline is looked at elsewhere.
	spot := func(u float64, e int) xy {
		q := j.p.InFlat(u, (float64(e)-0.5)*j.p.Width())
		return xy{q.X, q.Y}
	}
	length := j.p.Scores.Layout.Length
	var lines [][2]xy // as far as both edges
	lines = append(lines, [2]xy{spot(0, 0), spot(0, 1)})
	for i, l := range pc.lines {
		u := j.p.Scores.Layout.Folds[i].U
		d := l[1].sub(l[0]).mul(1 / l[0].to(l[1]))
		on := func(q xy) xy { return l[0].add(d.mul(q.sub(l[0]).dot(d))) }
		lines = append(lines, [2]xy{on(spot(u, 0)), on(spot(u, 1))})
	}
	lines = append(lines, [2]xy{spot(length, 0), spot(length, 1)})
	n := len(lines)
	wide := func(i, e int) float64 { // square to the scores
		d := lines[i][1].sub(lines[i][0]).mul(1 / lines[i][0].to(lines[i][1])).add(lines[i+1][1].sub(lines[i+1][0]).mul(1 / lines[i+1][0].to(lines[i+1][1])))
		return math.Abs(d.mul(1 / d.len()).cross(lines[i+1][e].sub(lines[i][e])))
	}
	fibre := func(i, e int) float64 { // of the score between flats i-1 and i
		a, b := wide(i-1, e), wide(i, e)
		p := (a + b) / 2
		if a > 1.5*b || b > 1.5*a { // a plane piece, or an end, on one side
			p = math.Min(a, b)
		}
		y := j.p.Law().Neutral(p)
		if j.v.Panel.ScoredFace == design.Hollow {
			y = j.v.Sheet.T - y
		}
		return y
	}
	// In space the near edge lies in the plane z = 0, the far one above it.
	a0, b0 := xyz{s.near[0].x, s.near[0].y, 0}, xyz{s.far[0].x, s.far[0].y, s.apart}
	head := xyz{math.Cos(s.phi[0]), math.Sin(s.phi[0]), 0}
	e := b0.sub(a0).mul(1 / b0.sub(a0).len())
	out := e.turned(head)
	out = out.mul(1 / out.len())
	if out.dot(xyz{-head.y, head.x, 0}) < 0 {
		out = out.mul(-1)
	}
	across := out.turned(e)
	if across.dot(head) < 0 {
		across = across.mul(-1)
	}
	// The flat's own ways: the first line upward is e, what lies on its side of the next line is across.
	l0 := lines[0]
	v := l0[1].sub(l0[0]).mul(1 / l0[0].to(l0[1]))
	w := xy{v.y, -v.x}
	if lines[1][0].mid(lines[1][1]).sub(l0[0].mid(l0[1])).dot(w) < 0 {
		w = w.mul(-1)
	}
	now := flat{x: across.mul(w.x).add(e.mul(v.x)), y: across.mul(w.y).add(e.mul(v.y)), n: out}
	now.o = a0.sub(now.x.mul(l0[0].x)).sub(now.y.mul(l0[0].y))
	// A fold over the edge brings the next flat down: by its axis, which goes up along the scores.
	hand := 1.0
	if across.turned(e).dot(out) < 0 {
		hand = -1
	}
	worst, most, past, inPlane, where := 0.0, 0.0, 0.0, 0.0, 0
	heights := func(f flat, i, e int) (least, high float64) {
		least = math.Inf(1)
		for k := range 17 { // a flat touches anywhere between its scores
			p := f.at(lines[i][e].along(lines[i+1][e], 0.02+0.06*float64(k)), 0)
			// The panel's edge lies a hair before or behind the rib's plane: along the flat to there.
			up := f.at(lines[i][1], 0).sub(f.at(lines[i][0], 0))
			slid := (s.apart*float64(e) - p.z) / up.z
			past = math.Max(past, math.Abs(slid)*up.len())
			p = p.add(up.mul(slid))
			d := off(edges[e], xy{p.x, p.y})
			square := math.Sqrt(math.Max(0, 1-f.n.z*f.n.z)) // a flat stands off square to the panel
			least, high, inPlane = math.Min(least, d), math.Max(high, square*d), math.Max(inPlane, d)
		}
		return least, high
	}
	limit := inEdge*math.Max(1, float64(n)/100) + 1.5e-5*edges[0].long() // rounded off, it adds up along a panel
	for i := 0; i+1 < n; i++ {
		if i > 0 {
			a, b := now.at(lines[i][0], fibre(i, 0)), now.at(lines[i][1], fibre(i, 1))
			axis := b.sub(a)
			axis = axis.mul(1 / axis.len())
			by := hand * j.p.Panel.Strip.Rulings[i-1].Turn
			now = flat{a.add(now.o.sub(a).about(axis, by)), now.x.about(axis, by), now.y.about(axis, by), now.n.about(axis, by)}
		}
		for e := range edges {
			least, high := heights(now, i, e)
			if math.Abs(math.Min(least, 0)) > worst || least > limit && least > worst {
				worst, where = math.Abs(least), i
			}
			most = math.Max(most, high)
		}
	}
	if worst > limit {
		j.say("skin-off-edge", "folded up again, flat %d of %d lies %.4f in or off an edge", where+1, n-1, worst)
	}
	if so := j.v.Panel.StandOff; so > 0 && most > so+limit && !j.has("flats-visible") && !j.has("rib-too-narrow") {
		j.say("skin-flats", "flats stand off by %.3f, %.3f is accepted", most, so)
	}
	if past > 0.1+inPlane+limit {
		j.say("skin-edge", "the panel ends up to %.3f before or past the outer faces of its end ribs", past)
	}
	for e, edge := range [2][]xy{s.near, s.far} {
		p := now.at(lines[n-1][e], 0)
		if d := (xy{p.x, p.y}).to(edge[len(edge)-1]); d > 3*limit {
			j.say("skin-end", "the end comes to lie %.4f from the end of edge %d", d, e+1)
		}
	}
}

// skinMarks are the lines of the ribs on a panel between two sections.
func (j *judge) skinMarks(pc *piece) (want []trace) {
	for _, s := range j.p.Supports.All {
		switch {
		case s.Mark.Turned:
			j.seen["mark by hand"]++
			if at := s.Height; at >= 0.5 && j.v.Curve.Apart-at >= 0.5 && !j.has("mark-turned") {
				j.say("mark-missing", "the rib's line is left to the hand, and nothing says so")
			}
			continue
		case s.Height < 0.5 || j.v.Curve.Apart-s.Height < 0.5:
			if s.Mark.To > s.Mark.From {
				j.say("stray-mark", "a mark for a rib at an edge")
			}
			continue
		}
		share := s.Height / j.v.Curve.Apart
		flip := 1.0
		if j.p.Panel.Mirror {
			flip = -1
		}
		t := trace{}
		var last xy
		for i := range j.p.Scores.Layout.Folds {
			f := j.p.Scores.Layout.Folds[i]
			if f.U < s.Mark.From || f.U > s.Mark.To {
				continue
			}
			a, b := j.p.InFlat(f.U, -j.p.Width()/2), j.p.InFlat(f.U, j.p.Width()/2)
			m := pc.move.Apply(plane.Pt(a.X+(b.X-a.X)*share, flip*(a.Y+(b.Y-a.Y)*share)))
			q := xy{m.X, m.Y}
			if last != (xy{}) {
				t.runs = append(t.runs, run{kind: 'L', a: last, b: q})
			}
			last = q
		}
		if len(t.runs) > 0 {
			want = append(want, t)
		}
	}
	return want
}

// alongside tells whether a stroke passes by all places of another, which has one at each score: at the
// corner of a wide flat it is rounded.
func alongside(want, s trace) bool {
	line, wide := newChain(s.chords(0.005), false), 0.0
	for _, r := range want.runs {
		wide = math.Max(wide, r.length())
	}
	for _, r := range want.runs {
		if d, _ := line.near(r.a, 10); d > 0.03+0.002*wide {
			return false
		}
	}
	return true
}

// skinRibs looks at every rib of a panel between two sections: its edge is the section at one of its
// faces, and where that is cut square it nowhere stands into the panel at the other.
func (j *judge) skinRibs() {
	if !j.v.Curve.Skinned() {
		return
	}
	a := j.asked()
	// The plan lays the near edge where its drawing has it: both edges are laid there as one.
	st := j.p.Section.Edge.At(0)
	si, co := math.Sincos(st.Phi - a.phi[0])
	for _, pts := range [2][]xy{a.near, a.far} {
		for i, q := range pts {
			pts[i] = xy{co*q.x - si*q.y + st.P.X, si*q.x + co*q.y + st.P.Y}
		}
	}
	first := map[int]xy{} // where the edge begins at the first rib of each kind: the others are moved
	for _, s := range j.p.Supports.All {
		j.seen["skin rib"]++
		low := s.Across + j.v.Curve.Apart/2 - s.Thickness/2
		start := a.at(low)[0]
		if _, ok := first[s.Kind]; !ok {
			first[s.Kind] = start
		}
		moved := start.sub(first[s.Kind])
		var pts []xy
		for _, p := range j.p.Ribs.Kinds[s.Kind].Contact.Segs {
			for _, t := range []float64{0, 0.25, 0.5, 0.75} {
				q := p.Point(t)
				pts = append(pts, xy{q.X, q.Y}.add(moved))
			}
		}
		best, into := math.Inf(1), [2]float64{}
		for face := range 2 {
			edge, d := newChain(a.at(low+s.Thickness*float64(face)), false), 0.0
			for _, q := range pts[2 : len(pts)-2] {
				h := off(edge, q)
				d, into[face] = math.Max(d, math.Abs(h)), math.Max(into[face], h)
			}
			best = math.Min(best, d)
		}
		if best > 0.02+1e-5*newChain(a.near, false).long() { // edges are fitted, and the judge's are of chords
			j.say("rib-edge", "the rib %.1f across lies up to %.3f off the section at either of its faces", s.Across, best)
		}
		if poke := math.Max(into[0], into[1]); j.v.Rib.Edge != design.Bevel && poke > 0.07 && !j.has("rib-leans-both") {
			j.say("rib-pokes", "the rib %.1f across stands %.3f into the panel at one face, and nothing says so", s.Across, poke)
		}
	}
}
