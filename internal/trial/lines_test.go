package trial_test

import (
	"math"
	"springrib/internal/design"

	"springrib/internal/plan"
	"springrib/internal/plane"
)

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
			if !used[i] && pc.outer.box.grown(1e-6).meets(boxOf([]xy{s.start(), s.end()})) {
				u := local(s.start()).x
				own[int64(math.Round(10*u))] = append(own[int64(math.Round(10*u))], i)
			}
		}
		for _, sc := range j.view.Scores {
			j.score(pc, strokes, own, used, sc.N, sc.U)
		}
		// Over a lap the scores go on as they begin, but for land and a score's width at its end.
		if c := &j.v.Curve; j.p.Section.Closed && c.Seam == design.Lap {
			round := math.Round(1000*j.p.Scores.Layout.Length) / 1000
			for _, sc := range j.view.Scores {
				if sc.U <= j.p.Outline.Length-j.p.Scores.Layout.Length-j.v.Panel.MinLand-j.v.Machine.ScoreWidth {
					j.score(pc, strokes, own, used, len(j.view.Scores)+sc.N, sc.U+round)
				}
			}
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
	spans := slices(pc.finished(), foot, along)
	var runs [][2]float64
	for d := int64(-1); d <= 1; d++ {
		for _, i := range own[int64(math.Round(10*u))+d] {
			s := strokes[i]
			if math.Abs(along.cross(s.start().sub(foot))) > 0.002 || math.Abs(along.cross(s.end().sub(foot))) > 0.002 || used[i] {
				continue
			}
			a, b := s.start().sub(foot).dot(along), s.end().sub(foot).dot(along)
			a, b = math.Min(a, b), math.Max(a, b)
			over := len(spans) == 0 // one that only touches the panel
			for _, span := range spans {
				over = over || math.Min(b, span[1])-math.Max(a, span[0]) > 1e-3
			}
			if !over { // of another panel beside this one
				continue
			}
			used[i] = true
			runs = append(runs, [2]float64{a, b})
			j.onBridge(pc, s, n)
		}
	}
	for _, span := range spans {
		if span[1]-span[0] < 0.02 {
			continue
		}
		j.seen["score"]++
		ok := covers(runs, span)
		// Along a round end of a hole a hair's breadth moves the ends of a score far.
		for _, hair := range []float64{-placeError, placeError} {
			for _, near := range slices(pc.finished(), foot.along(foot.add(xy{along.y, -along.x}), hair), along) {
				ok = ok || math.Min(near[1], span[1]) > math.Max(near[0], span[0]) && covers(runs, near)
			}
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

// covers tells whether one of the runs goes over all of a span.
func covers(runs [][2]float64, span [2]float64) bool {
	for _, r := range runs {
		if r[0] <= span[0]+placeError && r[1] >= span[1]-placeError {
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
				d := math.Inf(1) // the cut itself runs half a kerf from an edge
				for i := range e.edges() {
					p, q := e.edge(i)
					d = math.Min(d, apart(b[0], b[1], p, q))
				}
				if d < k/2+0.04 {
					j.say("bridge-on-glue", "%s: a bridge at %.3f %.3f, %.3f from an edge that is glued or goes into a slot", pc.name, b[0].x, b[0].y, d)
				}
			}
		}
		if pc.part.ID != "panel" {
			continue
		}
		flip := 1.0
		if j.p.Panel.Mirror {
			flip = -1
		}
		want, alike := []trace{}, sameEnds
		_, coned := j.cone()
		if coned {
			want, alike = j.ringMarks(pc), onLine
		}
		if j.v.Curve.Skinned() {
			want, alike, coned = j.skinMarks(pc), alongside, true
		}
		for _, s := range j.p.Supports.All {
			if coned {
				break
			}
			if s.Mark.Turned {
				j.seen["mark by hand"]++
				if !j.has("mark-turned") {
					j.say("mark-missing", "the rib's line is left to the hand, and nothing says so")
				}
				continue
			}
			want = append(want, traceOf(plane.Open(plane.Pt(s.Mark.From, flip*s.Across), plane.Pt(s.Mark.To, flip*s.Across)), pc.move))
		}
		for _, m := range j.p.Outline.Marks {
			want = append(want, traceOf(m, pc.move.Mul(plane.Scale(1, flip))))
		}
		for i, w := range want {
			found := false
			for q, s := range strokes {
				if !used[q] && alike(w, s) {
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
		if !used[i] && !j.lone {
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
	for _, r := range j.p.Ribs.Kinds {
		if r.ID == pc.part.ID {
			add(r)
		}
	}
	if c := j.p.Caul; c != nil && c.ID == pc.part.ID {
		add(*c)
	}
	return out
}
