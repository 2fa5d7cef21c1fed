package trial_test

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/machine"
)

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
		off := func(q xy) float64 { return math.Abs(end.to(q) - gap) }
		for i, p := range left { // which may be cut either way
			if off(p.end()) < off(p.start()) {
				left[i] = p.reversed()
			}
			if q := left[i].start(); off(q) < off(next) {
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
		for _, g := range gaps { // nothing is cut over a bridge
			ok = ok || fromEdge(q, g[0], g[1]) < placeError
		}
		if !ok && d < k/2 {
			return "the tool cuts " + short(k/2-d) + " into it at " + short(q.x) + " " + short(q.y), "cut-into"
		}
		if !ok {
			return "the cut runs " + short(d-k/2) + " too far off at " + short(q.x) + " " + short(q.y), "off"
		}
	}
	var inward []corner // of the tool's path
	sense *= math.Copysign(1, area(path.pts)*area(loop.pts))
	for i := range path.pts {
		if turn := sense * path.turnAt(i); turn < -0.05 && turn > -3 {
			inward = append(inward, corner{path.pts[i], turn})
		}
	}
	for _, q := range loop.spaced(1.5) {
		d, _ := path.near(q, 1e3)
		if d <= k/2+placeError {
			continue
		}
		ok := false
		for _, c := range inward { // no round tool comes nearer
			ok = ok || q.to(c.at) <= k/2/math.Cos(c.turn/2)+placeError
		}
		for _, c := range corners { // the same of a corner that the path turns in two steps
			ok = ok || c.turn < -0.4 && q.to(c.at) <= k/2*math.Tan(-c.turn/2)+placeError && d <= k/2/math.Cos(c.turn/2)+placeError
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
