package check

import (
	"math"
	"strings"

	"springrib/internal/cut"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// through is one through cut of one part, as straight edges.
type through struct {
	part string
	box  plane.Box
	pts  []plane.Point
}

// sharing is two parts whose cuts run nearer to each other than the kerf is wide.
type sharing struct {
	a, b          string
	length, apart float64 // how far, and how near at the least
}

// cutsShared tells of two parts laid so close that one stretch is cut for both. A saw or a
// knife takes it as one cut; a beam burns it twice, and a router's second run cuts air.
func cutsShared(p *plan.Plan) []finding.Finding {
	kerf, c, tool := p.V.Machine.Kerf, p.V.Cut, p.V.Machine.Tool
	near := kerf - 1e-3 // the layout keeps its gap to within this
	if tool != machine.Laser && tool != machine.Router || near <= 0 || c.Gap >= near && len(c.Pins) == 0 {
		return nil
	}
	worst, pairs, strips := sharing{}, 0, false
	look := func(cuts []through, ofStrips bool) {
		for _, s := range shared(cuts, near) {
			if pairs++; s.length > worst.length {
				worst, strips = s, ofStrips
			}
		}
	}
	for _, j := range p.Lay.Jobs {
		look(cutsOf(j), false)
	}
	if c.Gap < near {
		s := p.TestStrips()
		for n := range s.Sheets() {
			look(cutsOfParts(s.Cuts(n)), true)
		}
	}
	if pairs == 0 {
		return nil
	}
	a, b := p.Lay.CopyName(worst.a), p.Lay.CopyName(worst.b)
	if strips {
		a, b = "test strip "+worst.a, "test strip "+worst.b
	}
	text := "The cuts of " + a + " and " + b + " run " + mm(p, worst.apart) + " apart over " + mm(p, worst.length) + ", nearer than the kerf of " + mm(p, kerf) + " is wide."
	if worst.apart < 0.005 {
		text = "The cuts of " + a + " and " + b + " are one line over " + mm(p, worst.length) + "."
	}
	text += " That stretch is cut twice and comes out wider"
	if tool == machine.Laser {
		text += ", and its edges char"
	}
	text += "."
	if pairs > 1 {
		text += " " + num(pairs) + " pairs of parts lie like this; this one shares most."
	}
	f := found("cuts-shared", finding.Warn, text, map[string]float64{"length": worst.length, "apart": worst.apart, "kerf": kerf, "pairs": float64(pairs)})
	f.Place.Part, _, _ = strings.Cut(worst.a, " ")
	return one(on(f, "cut.gap"))
}

// cutsOf returns the through cuts of a job, each once however often it is run.
func cutsOf(j cut.Job) []through {
	var out []through
	done := map[cut.Kind]bool{}
	for _, o := range j.Operations {
		if o.Kind != cut.Inner && o.Kind != cut.Outer || done[o.Kind] {
			continue
		}
		done[o.Kind] = true
		for _, s := range o.Strokes {
			out = append(out, throughCut(s.Part, s.Path))
		}
	}
	return out
}

func cutsOfParts(parts []cut.Part) []through {
	var out []through
	for _, pt := range parts {
		for _, k := range []cut.Kind{cut.Inner, cut.Outer} {
			for _, path := range pt.Strokes[k] {
				out = append(out, throughCut(pt.ID, path))
			}
		}
	}
	return out
}

// throughCut flattens a cut to within a hundredth of a millimetre.
func throughCut(part string, path plane.Path) through {
	pts := path.Flatten(0.01)
	return through{part, plane.BoxOf(pts...), pts}
}

// shared returns the pairs of parts with cuts that run within near of each other, and as
// good as parallel, over more than where two corners meet.
func shared(cuts []through, near float64) []sharing {
	var out []sharing
	index := map[[2]string]int{}
	for i, a := range cuts {
		for _, b := range cuts[:i] {
			if a.part == b.part || !a.box.Grow(near).Overlaps(b.box) {
				continue
			}
			length, apart := along(b, a, near)
			if length == 0 {
				continue
			}
			key := [2]string{b.part, a.part}
			if _, ok := index[[2]string{a.part, b.part}]; ok { // cuts in pieces come in any order
				key = [2]string{a.part, b.part}
			}
			k, ok := index[key]
			if !ok {
				k, index[key] = len(out), len(out)
				out = append(out, sharing{key[0], key[1], 0, math.Inf(1)})
			}
			out[k].length += length
			out[k].apart = math.Min(out[k].apart, apart)
		}
	}
	n := 0
	for _, s := range out {
		if s.length > 2*near+1 { // near a corner that touches another, twice the kerf is that near
			out[n], n = s, n+1
		}
	}
	return out[:n]
}

// along returns how much of the edges of a lies within near of edges of b that run the
// same way or the opposite, and the least distance there.
func along(a, b through, near float64) (length, apart float64) {
	apart = math.Inf(1)
	reach := a.box.Grow(near)
	for k := 0; k+1 < len(b.pts); k++ {
		from, to := b.pts[k], b.pts[k+1]
		box := plane.BoxOf(from, to)
		if !reach.Overlaps(box) {
			continue
		}
		box = box.Grow(near)
		long := from.Dist(to)
		dir := to.Sub(from).Unit()
		for i := 0; i+1 < len(a.pts); i++ {
			p, q := a.pts[i], a.pts[i+1]
			if long < 1e-9 || !box.Overlaps(plane.BoxOf(p, q)) {
				continue
			}
			if l, d := beside(p.Sub(from), q.Sub(from), dir, long, near); l > 0 {
				length, apart = length+l, math.Min(apart, d)
			}
		}
	}
	return length, apart
}

// beside returns how much of the edge from p to q lies over an edge from the origin along
// dir, long mm long, within near of it, and how near it comes; nothing where they are
// more than ten degrees off parallel.
func beside(p, q, dir plane.Point, long, near float64) (length, apart float64) {
	d := q.Sub(p)
	l := d.Len()
	if l < 1e-9 || math.Abs(dir.Cross(d)) > math.Sin(10*math.Pi/180)*l {
		return 0, 0
	}
	lo, hi := 0.0, 1.0 // of the way from p to q
	within := func(at, change, least, most float64) {
		if math.Abs(change) < 1e-12 {
			if at < least || at > most {
				hi = lo
			}
			return
		}
		t0, t1 := (least-at)/change, (most-at)/change
		lo, hi = math.Max(lo, math.Min(t0, t1)), math.Min(hi, math.Max(t0, t1))
	}
	within(dir.Dot(p), dir.Dot(d), 0, long)
	off, slope := dir.Cross(p), dir.Cross(d)
	within(off, slope, -near, near)
	if hi <= lo {
		return 0, 0
	}
	a, b := off+lo*slope, off+hi*slope
	if a*b < 0 {
		return (hi - lo) * l, 0
	}
	return (hi - lo) * l, math.Min(math.Abs(a), math.Abs(b))
}
