package section

import (
	"math"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/offset"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// drawnRound returns the curve all round a closed line drawn elsewhere, from the seam on
// and turning right, so that inside is the hollow side as it is of a box. It may bend in
// as well as out, but has no corner, nor one at the seam.
func (l *lining) drawnRound() (c curve.Curve, ok bool) {
	d := l.c.Drawn
	line, err := plane.Parse(d.Line)
	if err != nil || len(line.Segs) > maxLine || !(line.Length() > 0) {
		return c, l.Stop("drawn-unreadable", "curve.drawn", design.Unreadable, nil)
	}
	if !line.Closed {
		return c, l.Stop("curve-open", "curve.drawn", "The line is open by "+l.Len(line.Start().Dist(line.End()))+", so that it can't be wrapped all round. Close it where it was drawn, or let the panel follow it from end to end.", nil)
	}
	line = line.Apply(LineMap(line, d))
	if length := line.Length(); length < 5 || length > design.MostDrawn {
		return c, l.Stop("drawn-size", "curve.drawnLength", "The line is "+l.Len(length)+" long. Say how long it is to be, or open the drawing again with the right unit.",
			map[string]float64{"length": length})
	}
	if cross := offset.Crossings(line); len(cross) > 0 {
		return c, l.Stop("curve-crosses", "curve.drawn", "The line crosses or touches itself, so that it has no inside to put a rib in. Mend it where it was drawn.",
			map[string]float64{"x": cross[0].X, "y": cross[0].Y, "crossings": float64(len(cross))})
	}
	at := math.Mod(d.Seam.V, line.Length())
	if !d.Seam.OK {
		at = calmest(line)
	}
	right := line.IsCCW()
	line = merged(line.Begin(at))
	if right {
		line = line.Reverse()
	}
	if c, err = curve.FromPath(plane.Path{Segs: line.Segs}); err != nil {
		return c, l.Stop("drawn-unreadable", "curve.drawn", design.Unreadable, nil)
	}
	a, b := c.At(0), c.At(c.Length())
	if step := math.Abs(math.Remainder(a.Phi-b.Phi, 2*math.Pi)); step > kinkSeen {
		return c, l.Stop("curve-kinked", "curve.drawnSeam", "The seam lies on a corner of "+unit.Angle(step)+". Round the corner, and let the panel's ends meet where the line runs straight on.",
			map[string]float64{"at": 0, "degrees": step * 180 / math.Pi})
	}
	return c, true
}

// calmest returns the place of a closed line, along it, where its ends best meet: the
// middle of its longest straight, or where it bends least, the first of several.
func calmest(line plane.Path) float64 {
	best, long, s := -1.0, 0.0, 0.0
	run, start := 0.0, 0.0 // of straights that run on in one line
	var was plane.Point
	for _, g := range append(append([]plane.Segment{}, line.Segs...), line.Segs...) {
		l := g.Length()
		if straight := g.Kind == plane.Line || g.Kind == plane.Arc && g.Bulge == 0; straight {
			if t := g.Tangent(0); run > 0 && math.Abs(was.Cross(t)) > kinkSeen {
				run = 0
			}
			if run == 0 {
				start = s
			}
			run += l
			if run > long*(1+1e-9) {
				long, best = run, start+run/2
			}
			was = g.Tangent(1)
		} else {
			run = 0
		}
		s += l
	}
	total := line.Length()
	if long > 0 {
		return math.Mod(best, total)
	}
	// A curve all the way: how much the heading changes over a fiftieth of it, all turns
	// added up, tells how it bends.
	const steps, reach = 200, 2
	var turns [steps]float64 // from the place before to each
	_, was = line.At(total * (steps - 0.5) / steps)
	for i := range turns {
		_, is := line.At(total * (float64(i) + 0.5) / steps)
		turns[i] = math.Abs(math.Atan2(was.Cross(is), was.Dot(is)))
		was = is
	}
	least, place := math.Inf(1), 0.0
	for i := range steps {
		turn := 0.0
		for k := i + 1 - reach; k <= i+reach; k++ {
			turn += turns[(k+steps)%steps]
		}
		if turn < least-1e-9 {
			least, place = turn, total*(float64(i)+0.5)/steps
		}
	}
	return place
}

// merged joins arcs of one circle that follow each other into one, which then takes a whole
// number of flats: a line may begin in the middle of a bend.
func merged(line plane.Path) plane.Path {
	var out []plane.Segment
	for _, g := range line.Segs {
		if n := len(out); n > 0 {
			if j, ok := oneArc(out[n-1], g); ok {
				out[n-1] = j
				continue
			}
		}
		out = append(out, g)
	}
	return plane.Path{Segs: out, Closed: true}
}

// oneArc joins two arcs of one circle where both together are well short of all of it.
func oneArc(a, b plane.Segment) (plane.Segment, bool) {
	if a.Kind != plane.Arc || b.Kind != plane.Arc || a.Bulge*b.Bulge <= 0 {
		return a, false
	}
	turn := 4 * (math.Atan(a.Bulge) + math.Atan(b.Bulge))
	ra, rb := a.Length()/math.Abs(4*math.Atan(a.Bulge)), b.Length()/math.Abs(4*math.Atan(b.Bulge))
	if math.Abs(turn) > 1.9*math.Pi || math.Abs(ra-rb) > 1e-6*ra || math.Abs(a.Tangent(1).Cross(b.Tangent(0))) > 1e-6 {
		return a, false
	}
	return plane.BulgeSeg(a.A, b.B, math.Tan(turn/4)), true
}

// closesOutside stops a panel whose outer faces would run into each other in an inlet of
// a closed line.
func closesOutside(t *finding.Notes, edge curve.Curve, thickness float64) bool {
	outer, err := edge.Parallel(thickness)
	if err != nil {
		return true // a bend too tight for that: what the scores say of it comes later
	}
	if c, ok := outer.Crossing(); ok {
		return t.Stop("curve-crosses", "curve.drawn", "Where the line comes close to itself, "+t.Len(c.S1)+" and "+t.Len(c.S2)+
			" from the seam, the sheet has no room between: its outer faces run into each other. Open the line up there, or make it larger.",
			map[string]float64{"first": c.S1, "second": c.S2})
	}
	return true
}
