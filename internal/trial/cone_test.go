package trial_test

import (
	"math"
	"sort"

	"springrib/internal/design"
	"springrib/internal/plane"
	"springrib/internal/support"
)

// The judge of cones. From the file it has the lines of the scores and the cut outline; from the
// design the two rims, the height and how far round the panel goes. It folds the panel up about the
// lines as they are written, every score by the angle at which flats are tangent to a cone, and
// looks where they come to lie. It shares nothing with packages form and surface.

// xyz is a place in space, mm.
type xyz struct{ x, y, z float64 }

func (a xyz) add(b xyz) xyz     { return xyz{a.x + b.x, a.y + b.y, a.z + b.z} }
func (a xyz) sub(b xyz) xyz     { return xyz{a.x - b.x, a.y - b.y, a.z - b.z} }
func (a xyz) mul(k float64) xyz { return xyz{k * a.x, k * a.y, k * a.z} }
func (a xyz) dot(b xyz) float64 { return a.x*b.x + a.y*b.y + a.z*b.z }
func (a xyz) len() float64      { return math.Sqrt(a.dot(a)) }
func (a xyz) turned(by xyz) xyz {
	return xyz{a.y*by.z - a.z*by.y, a.z*by.x - a.x*by.z, a.x*by.y - a.y*by.x}
}
func (a xyz) about(axis xyz, angle float64) xyz { // right-handed; axis of length 1
	si, co := math.Sincos(angle)
	return a.mul(co).add(axis.turned(a).mul(si)).add(axis.mul(axis.dot(a) * (1 - co)))
}

// frustum is the contact face of a cone that a design asks for.
type frustum struct {
	r     [2]float64 // at the narrow rim and the wide one
	h     float64
	sweep float64
	foot  float64 // straight before the bend
	whole bool
	gores int // equal parts that a whole one is cut in; sweep is that of one
}

// cone returns the cone of the design; ok is false for any other curve.
func (j *judge) cone() (k frustum, ok bool) {
	c := &j.v.Curve
	k = frustum{[2]float64{c.Small / 2, c.Large / 2}, c.RimHeight, 2 * math.Pi, 0, c.Kind == design.Cone, 1}
	switch c.Kind {
	case design.ConePart:
		k.sweep, k.foot = c.Sweep, c.Foot
	case design.Cone:
		k.gores = max(1, c.Gores)
		k.sweep /= float64(k.gores)
	default:
		return k, false
	}
	slope := (k.r[1] - k.r[0]) / k.h
	switch c.Sizes {
	case design.Outside:
		in := j.v.Sheet.T / math.Sqrt(1+slope*slope)
		k.r[0], k.r[1] = k.r[0]-in, k.r[1]-in
	case design.RingCut: // the wide ring has its size at its upper face
		k.r[1] = k.r[0] + (k.r[1]-k.r[0])/(k.h-j.v.Rib.Thickness)*k.h
	}
	return k, true
}

func (k frustum) slant() float64 { return math.Hypot(k.r[1]-k.r[0], k.h) }
func (k frustum) lean() float64  { return math.Atan2(k.r[1]-k.r[0], k.h) }

// fan is what the scores of one flat cone have in common, in the panel's own places.
type fan struct {
	frustum
	apex   xy
	up     float64   // 1 where it opens toward +Y, -1 toward -Y
	at     []float64 // of each score, from +Y toward +X, rad; rising
	flats  []float64 // where each flat touches the cone
	own    int       // scores, those over a lap on the next part left out
	bend   float64   // along the narrow rim, as the plan counts it
	in     float64   // from the apex to the narrow edge
	lines  [][2]xy   // of each score from edge to edge, narrow end first
	across []float64 // how far each score's line passes by the apex
}

// dir is the way from the apex at an angle.
func (f *fan) dir(a float64) xy { return xy{math.Sin(a), f.up * math.Cos(a)} }

func (f *fan) place(a, from float64) xy { return f.apex.add(f.dir(a).mul(f.in + from)) }

// place of a spot u along the narrow rim and so far past it.
func (f *fan) spot(u, past float64) xy {
	last := f.flats[f.own]
	on, bend := u-f.foot, f.bend
	a := f.flats[0] + (last-f.flats[0])*on/bend
	off := 0.0
	if !f.whole {
		a = math.Max(f.flats[0], math.Min(last, a))
		off = math.Min(on, 0) + math.Max(on-bend, 0)
	}
	side := xy{math.Cos(a), -f.up * math.Sin(a)}
	return f.place(a, past).add(side.mul(off))
}

// coneScores looks for the scores of every panel of a cone, and folds one up.
func (j *judge) coneScores(f *drawing, laid []*piece, k frustum) {
	layers := f.kind("score")
	var strokes []trace
	if len(layers) > 0 {
		strokes = layers[0].paths
	}
	used, folded := make([]bool, len(strokes)), false
	for _, pc := range laid {
		if pc.part.ID != "panel" {
			continue
		}
		var own [][2]xy
		for i, s := range strokes {
			if used[i] || !pc.outer.inside(s.start().mid(s.end())) {
				continue
			}
			used[i] = true
			own = append(own, [2]xy{s.start(), s.end()})
			j.onBridge(pc, s, i)
		}
		j.seen["score"] += len(own)
		all := len(j.p.Scores.Layout.Folds)
		if least := all / k.gores; len(own) < max(1, least) || k.gores == 1 && len(own) != least+j.overLap(all) || least*k.gores != all {
			j.say("score-missing", "%s has %d scores, the plan %d in %d parts", pc.name, len(own), all, k.gores)
			return
		}
		if len(own) == 1 { // of which nothing tells where the cone's point is
			j.lone = true
			continue
		}
		g := j.fanOf(pc, own, k)
		if g == nil {
			return
		}
		// A lap is scored too.
		g.own = all / k.gores
		g.bend = j.p.Scores.Layout.Length / float64(k.gores)
		if !k.whole {
			g.bend -= j.v.Curve.Foot + j.v.Curve.Tip
		}
		g.sweep *= float64(len(own)) / float64(g.own)
		j.runs(pc, own, g)
		if !folded {
			j.refold(g)
			folded = true
		}
		j.corners(pc, g)
		pc.fan = g
	}
	for i, s := range strokes {
		if !used[i] {
			j.say("stray-score", "a score from %.3f %.3f to %.3f %.3f lies on no panel", s.start().x, s.start().y, s.end().x, s.end().y)
			return
		}
	}
}

// overLap is how many of the scores of a whole cone come again over the lap of its seam: all but
// for land and a score's width at its end.
func (j *judge) overLap(all int) (n int) {
	if c := &j.v.Curve; j.p.Section.Closed && c.Seam == design.Lap {
		room := c.Lap - j.v.Panel.MinLand - j.v.Machine.ScoreWidth
		for n < all && (float64(n)+0.5)*j.p.Scores.Layout.Length/float64(all) <= room {
			n++
		}
	}
	return n
}

// fanOf finds where the scores of a panel meet, puts them in order and cuts each off at the panel's edges.
func (j *judge) fanOf(pc *piece, own [][2]xy, k frustum) *fan {
	inv, ok := pc.move.Inverse()
	if !ok {
		panic("a move that can't be undone")
	}
	local := func(q xy) xy { m := inv.Apply(plane.Pt(q.x, q.y)); return xy{m.X, m.Y} }
	g := &fan{frustum: k, up: 1}
	// The apex is the place that is nearest to all lines: of the normals n, sum n n' p = sum n n' a.
	var xx, xo, yy float64
	var right, mid xy
	for i := range own {
		a, b := local(own[i][0]), local(own[i][1])
		own[i] = [2]xy{a, b}
		n := b.sub(a).mul(1 / a.to(b))
		n = xy{-n.y, n.x}
		xx, xo, yy = xx+n.x*n.x, xo+n.x*n.y, yy+n.y*n.y
		right, mid = right.add(n.mul(n.dot(a))), mid.add(a.mid(b).mul(1/float64(len(own))))
	}
	det := xx*yy - xo*xo
	g.apex = xy{(yy*right.x - xo*right.y) / det, (xx*right.y - xo*right.x) / det}
	if mid.y < g.apex.y {
		g.up = -1
	}
	angle := func(l [2]xy) float64 {
		d := l[0].mid(l[1]).sub(g.apex)
		return math.Atan2(d.x, g.up*d.y)
	}
	sort.Slice(own, func(i, k int) bool { return angle(own[i]) < angle(own[k]) })
	var loops []*chain
	for _, c := range pc.finished() {
		pts := make([]xy, len(c.pts))
		for i, q := range c.pts {
			pts[i] = local(q)
		}
		loops = append(loops, newChain(pts, true))
	}
	n := len(own)
	for i := range own {
		if own[i][0].to(g.apex) > own[i][1].to(g.apex) {
			own[i][0], own[i][1] = own[i][1], own[i][0]
		}
		a, along := own[i][0], own[i][1].sub(own[i][0]).mul(1/own[i][0].to(own[i][1]))
		var on [2]float64
		for _, span := range slices(loops, a, along) {
			if l := own[i][0].to(own[i][1]); math.Min(span[1], l)-math.Max(span[0], 0) > math.Min(on[1], l)-math.Max(on[0], 0) {
				on = span
			}
		}
		if on[1] <= on[0] {
			j.say("score-missing", "%s: a score lies beside its material", pc.name)
			return nil
		}
		g.lines = append(g.lines, [2]xy{a.add(along.mul(on[0])), a.add(along.mul(on[1]))})
		g.at = append(g.at, angle(g.lines[i]))
		g.across = append(g.across, math.Abs(along.cross(a.sub(g.apex))))
	}
	step := (g.at[n-1] - g.at[0]) / float64(n-1)
	g.flats = append(g.flats, g.at[0]-step/2)
	for i := 1; i < n; i++ {
		g.flats = append(g.flats, (g.at[i-1]+g.at[i])/2)
	}
	g.flats = append(g.flats, g.at[n-1]+step/2)
	for _, l := range g.lines {
		g.in += l[0].to(g.apex) / float64(n)
	}
	return g
}

// runs looks whether every score goes over all of its panel, and keeps off its neighbours.
func (j *judge) runs(pc *piece, own [][2]xy, g *fan) {
	for i, l := range g.lines {
		whole := own[i][0].to(own[i][1])
		d := own[i][1].sub(own[i][0]).mul(1 / whole)
		if from, to := l[0].sub(own[i][0]).dot(d), l[1].sub(own[i][0]).dot(d); from < -placeError || to > whole+placeError {
			j.say("score-missing", "score %d of %s is cut from %.2f to %.2f of %.2f", i+1, pc.name, 0.0, whole, to-from)
			return
		}
		if math.Abs(l[0].to(l[1])-g.slant()) > placeError {
			j.say("cone-edge", "score %d of %s is %.3f from rim to rim, the slant is %.3f", i+1, pc.name, l[0].to(l[1]), g.slant())
			return
		}
		if i == 0 || j.has("land-narrow") {
			continue
		}
		if d := apart(own[i-1][0], own[i-1][1], own[i][0], own[i][1]); d < j.v.Machine.ScoreWidth+j.v.Panel.MinLand-placeError {
			j.say("scores-meet", "scores %d and %d of %s come as near as %.3f, with %.3f of land asked for", i, i+1, pc.name, d, j.v.Panel.MinLand)
			return
		}
	}
}

// flat is where one flat of a bent panel lies: its own origin, ways along, across and out of it.
type flat struct{ o, x, y, n xyz }

func (f flat) at(q xy, z float64) xyz {
	return f.o.add(f.x.mul(q.x)).add(f.y.mul(q.y)).add(f.n.mul(z))
}

// Where a flat may stand off a rim, and by how much the ends of a seam may miss, mm.
const (
	offRim  = 0.02
	offSeam = 0.05
)

// refold bends the panel about its scores and holds it to both rims.
func (j *judge) refold(g *fan) {
	j.seen["refold"]++
	n := float64(len(g.lines))
	round := g.sweep / n
	fold := 2 * math.Asin(math.Cos(g.lean())*math.Sin(round/2))
	var fibre [2]float64 // over the contact face, which is scored or not
	step := (g.flats[len(g.flats)-1] - g.flats[0]) / n
	for e := range g.r {
		fibre[e] = j.p.Law().Neutral(step * (g.in + g.slant()*float64(e)))
		if j.v.Panel.ScoredFace == design.Hollow {
			fibre[e] = j.v.Sheet.T - fibre[e]
		}
	}
	now := flat{x: xyz{x: 1}, y: xyz{y: 1}, n: xyz{z: 1}}
	flats := []flat{now}
	for _, l := range g.lines {
		a, b := now.at(l[0], fibre[0]), now.at(l[1], fibre[1])
		axis := b.sub(a)
		axis = axis.mul(1 / axis.len())
		turn := fold * g.up // the next flat goes down from this one
		now = flat{a.add(now.o.sub(a).about(axis, turn)), now.x.about(axis, turn), now.y.about(axis, turn), now.n.about(axis, turn)}
		flats = append(flats, now)
	}
	// The rings stand where the middle flat touches them.
	m := len(flats) / 2
	e, out := flats[m].x.mul(g.dir(g.flats[m]).x).add(flats[m].y.mul(g.dir(g.flats[m]).y)), flats[m].n
	si, co := math.Sincos(g.lean())
	axis, beside := e.mul(co).sub(out.mul(si)), e.mul(si).add(out.mul(co))
	head := flats[m].at(g.place(g.flats[m], 0), 0).sub(beside.mul(g.r[0]))
	right := axis.turned(beside).mul(g.up)
	worst, where := 0.0, ""
	for i, f := range flats {
		for rim, r := range g.r {
			centre := head.add(axis.mul(g.h * float64(rim)))
			at := f.at(g.place(g.flats[i], g.slant()*float64(rim)), 0).sub(centre)
			a := round * float64(i-m)
			want := beside.mul(r * math.Cos(a)).add(right.mul(r * math.Sin(a)))
			lean := f.n.dot(axis)
			gap := math.Abs(f.n.dot(at) - r*math.Sqrt(1-lean*lean))
			if off := at.sub(want).len(); math.Max(off, gap) > worst {
				worst = math.Max(off, gap)
				where = "flat " + short(float64(i)) + " at rim " + short(float64(rim))
			}
		}
	}
	limit := offRim
	if n > 100 { // what is rounded off adds up
		limit *= n / 100
	}
	if worst > limit {
		j.say("cone-off-rim", "folded up again, %s lies %.4f off where it should touch", where, worst)
	}
	if g.whole && g.gores == 1 {
		for rim := range g.r {
			past := g.slant() * float64(rim)
			a, b := flats[0].at(g.place(g.flats[0], past), 0), flats[g.own].at(g.place(g.flats[g.own], past), 0)
			if d := a.sub(b).len(); d > offSeam {
				j.say("cone-seam", "the seam's ends come to lie %.4f apart at rim %d", d, rim+1)
			}
		}
	}
	for i, a := range g.at {
		if off := (a - g.at[0] - step*float64(i)) * (g.in + g.slant()); math.Abs(off) > placeError {
			j.say("cone-uneven", "score %d lies %.4f from its place at the wide rim", i+1, off)
			break
		}
	}
	for i, d := range g.across {
		if d > 0.01*g.in/g.slant()+0.01 {
			j.say("cone-apex", "score %d passes by the others' meeting place at %.4f", i+1, d)
			return
		}
	}
}

// corners looks for the four corners of the flat panel, what is left to lap or to trim included.
func (j *judge) corners(pc *piece, g *fan) {
	to := g.bend
	c := &j.v.Curve
	switch {
	case !g.whole:
		to += c.Foot + c.Tip
	case c.Seam == design.Lap:
		to += c.Lap
	default:
		to += c.Trim
	}
	if past := to/g.bend*float64(g.own) + 0.5; g.gores > 1 && math.Abs(past-math.Round(past)) > 0.1 && len(g.lines) != int(past) {
		j.say("score-missing", "%s has %d scores and room for %d", pc.name, len(g.lines), int(past))
	}
	for _, u := range []float64{0, to} {
		for _, past := range []float64{0, g.slant()} {
			q := g.spot(u, past)
			at := pc.move.Apply(plane.Pt(q.x, q.y))
			least := math.Inf(1)
			for _, v := range pc.outer.pts {
				least = math.Min(least, v.to(xy{at.X, at.Y}))
			}
			if least > 0.02 {
				j.say("cone-edge", "%s has no corner %.2f along and %.2f past its narrow rim: the nearest lies %.3f off", pc.name, u, past, least)
				return
			}
		}
	}
}

// ringMarks are the lines of the rings on a panel.
func (j *judge) ringMarks(pc *piece) (want []trace) {
	g := pc.fan
	if g == nil {
		return nil
	}
	for _, s := range j.p.Supports.All {
		up := (s.Across+g.slant()/2)*math.Cos(g.lean()) - s.Thickness/2 // of its narrow face
		switch {
		case s.Mark.Turned:
			j.seen["mark by hand"]++
			if !j.has("mark-turned") {
				j.say("mark-missing", "the ring's line is left to the hand, and nothing says so")
			}
			continue
		case up < 0.5 || g.h-up < 0.5: // the rim is the line
			if s.Mark.To > s.Mark.From {
				j.say("stray-mark", "a mark for a ring at a rim")
			}
			continue
		case s.Mark.To <= s.Mark.From:
			j.say("mark-missing", "no mark for the ring %.2f up", up)
			continue
		}
		var pts []xy
		const pieces = 2000
		for i := range pieces + 1 {
			q := g.spot(s.Mark.From+(s.Mark.To-s.Mark.From)*float64(i)/pieces, up/math.Cos(g.lean()))
			m := pc.move.Apply(plane.Pt(q.x, q.y))
			pts = append(pts, xy{m.X, m.Y})
		}
		t := trace{}
		for i := 1; i < len(pts); i++ {
			t.runs = append(t.runs, run{kind: 'L', a: pts[i-1], b: pts[i]})
		}
		want = append(want, t)
	}
	return want
}

// onLine tells whether a stroke runs along the points of another and ends with it.
func onLine(want, s trace) bool {
	near := func(p, q xy) bool { return p.to(q) < placeError }
	if !(near(want.start(), s.start()) && near(want.end(), s.end()) || near(want.start(), s.end()) && near(want.end(), s.start())) {
		return false
	}
	line := newChain(want.chords(0.01), false)
	for _, q := range s.chords(0.05) {
		if d, _ := line.near(q, 10); d > placeError {
			return false
		}
	}
	return true
}

// held is what a ring of a cone must hold at its ends.
func (j *judge) held(k frustum, s support.Support) (moment, kappa, glued, share float64) {
	up := (s.Across+k.slant()/2)*math.Cos(k.lean()) - s.Thickness/2
	r := k.r[0] + (k.r[1]-k.r[0])*up/k.h
	half := k.slant() / 2
	lo, hi := math.Max(s.Lo, -half), math.Min(s.Hi, half)
	share, kappa = hi-lo, math.Cos(k.lean())/r
	n := float64(len(j.p.Scores.Layout.Folds) / k.gores)
	moment = kappa * j.p.Law().Stiffness(k.sweep*r/n) * share
	glued = s.Thickness
	if wedge := s.Thickness * math.Sin(k.lean()); wedge > j.v.Panel.StandOff && j.v.Panel.StandOff > 0 {
		glued *= j.v.Panel.StandOff / wedge
	}
	return moment, kappa, glued, share
}

// coneHolds holds a sound cone to what its glue and its ribs bear at the low end of what is known.
func (j *judge) coneHolds(k frustum) {
	bond, ez := j.v.Rib.GlueBond.Value, j.v.Sheet.EZ.Value
	if l := j.v.Rib.GlueBond.Low; l > 0 {
		bond = math.Min(bond, l)
	}
	if ez == 0 {
		ez = j.v.Sheet.E.Value
	}
	for _, s := range j.p.Supports.All {
		if len(j.v.Sheet.Stock.Plies) > 0 {
			continue // how stiff a score through plies leaves them only the plan knows
		}
		m, kappa, glued, share := j.held(k, s)
		peel := math.Sqrt(m*kappa*ez*glued/j.v.Sheet.T) / glued / bond
		need, has := math.Sqrt(m/(bond*glued)), math.Min(j.v.Curve.Foot, j.v.Curve.Tip-support.ShortOfTip)
		if k.whole {
			need, has = math.Sqrt(m/(bond*share)), 0
			if j.v.Curve.Seam == design.Lap {
				has = j.v.Curve.Lap
			}
		}
		if peel > 1.02 && has < 0.98*need-0.01 {
			j.say("sound-glue", "at its end %.2f is glued flat, %.2f needed at the low bond of %.3f MPa; peel %.2f of what it holds (ring %.1f across)", has, need, bond, peel, s.Across)
		}
		if k.whole {
			continue
		}
		mor := s.MOR.Value
		if s.MOR.Low > 0 {
			mor = math.Min(mor, s.MOR.Low)
		}
		least := math.Min(s.Task.FootDepth, s.Task.TipDepth)
		for i := range 41 {
			if d := s.Task.DepthAt(s.Task.Start + (s.Task.End-s.Task.Start)*(float64(i)+0.5)/41); d > 0 {
				least = math.Min(least, d)
			}
		}
		if use := 6 * m / (s.Thickness * least * least) / mor; use > 1.02 && j.p.Supports.All[0].Task.TipRound == 0 {
			j.say("sound-rib", "the rib %.1f across is at %.2f of its low strength", s.Across, use)
		}
	}
}

// rings looks at every ring of a cone.
func (j *judge) rings() {
	k, ok := j.cone()
	if !ok {
		return
	}
	for _, s := range j.p.Supports.All {
		j.seen["ring"]++
		j.ringEdge(k, s, k.r[0]+(k.r[1]-k.r[0])*((s.Across+k.slant()/2)*math.Cos(k.lean())-s.Thickness/2)/k.h)
	}
}

// ringEdge looks whether a ring is as wide as the cone is where its narrow face lies.
func (j *judge) ringEdge(k frustum, s support.Support, r float64) {
	turned := 0.0
	for _, seg := range traceOf(j.p.Ribs.Kinds[s.Kind].Outline.Outer, identity).runs {
		if seg.kind == 'A' && math.Abs(seg.r-r) < 0.003 {
			turned += math.Abs(seg.turn)
		}
	}
	if turned < k.sweep*float64(k.gores)-0.01 {
		b := j.p.Ribs.Kinds[s.Kind].Outline.Box()
		j.say("ring-size", "the ring %.1f across should have a radius of %.3f over %.3f, and has it over %.3f; it is %.3f by %.3f", s.Across, r, k.sweep, turned, b.W(), b.H())
	}
}
