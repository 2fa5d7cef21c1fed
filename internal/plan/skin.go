package plan

import (
	"math"
	"slices"
	"strconv"

	"springrib/internal/export"
	"springrib/internal/fit"
	"springrib/internal/form"
	"springrib/internal/outline"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/score"
	"springrib/internal/surface"
)

// A panel that goes over from one section to another (section.Pair) is worked out as a cone is: its
// scores are laid along the edge that stands in for it, at the rib where they lie closer together,
// and what is cut comes from the chain of planes that touch both ribs. Outline and scores have the
// coordinates of the stand-in's flat, u along and v from rib to rib; surface.Net has where that lies.

// Ruled tells whether the scores of the panel need not run parallel.
func (p *Plan) Ruled() bool { return p.Section.Ruled() }

// touches returns where the flats of the layout touch both edges: a straight at both of its ends.
func (p *Plan) touches() []surface.Touch {
	pair, edge := p.Section.Pair, p.Section.Edge
	var out []surface.Touch
	last, chord := -1.0, false
	add := func(u float64) { // a tangent where one lies already is the same
		if u > last+1e-9 || chord {
			out, last, chord = append(out, pair.Touch(u)), u, false
		}
	}
	flats := p.Scores.Layout.Flats
	for i, f := range flats {
		for _, st := range edge.Stretches() {
			if st.Sign == 0 && f.S >= st.Start-1e-9 && f.S < st.End-1e-9 {
				add(st.Start)
				n := out[len(out)-1].N
				add(st.End)
				out[len(out)-1].N = n // one plane, to the last digit
			}
		}
		if !f.Chord {
			add(f.S)
			continue
		}
		end := f.S
		if r := p.Scores.Layout.RunAt(f.S + 1e-5); r != nil { // a chord to the next one, or to the end of its bend
			end = r.End
		}
		if i+1 < len(flats) && flats[i+1].Chord {
			end = math.Min(end, flats[i+1].S)
		}
		c := pair.Chord(f.S, end)
		out, last, chord = append(out, c[:]...), end, true
	}
	if !chord {
		add(edge.Length())
	}
	return out
}

// pivots returns the heights at which the panel folds at each score: by the spacing of the scores at
// either edge.
func (p *Plan) pivots() [][2]float64 {
	law, towards, l := p.Law(), p.Section.Towards, &p.Scores.Layout
	out := make([][2]float64, len(l.Folds))
	for i, f := range l.Folds {
		for j, q := range p.Section.Pair.Ratios(f.S) {
			out[i][j] = score.StandIn(law, q*spacingAt(*l, i), towards)
		}
	}
	return out
}

// net makes strip and net of a skin, or says why there is none.
func (p *Plan) net() bool {
	l, w := &p.Scores.Layout, p.Width()
	touches := p.touches()
	heights, next := p.pivots(), 0
	strip, lain := surface.Chain(touches, func(i int) [2]float64 {
		if next == len(heights) || touches[i].N.Cross(touches[i+1].N).Len() < surface.Flush {
			return [2]float64{} // they lie in one plane
		}
		next++
		return heights[next-1]
	})
	if len(strip.Rulings) != len(l.Folds) {
		panic("plan: a fold of the layout has no ruling: " + strconv.Itoa(len(strip.Rulings)) + " " + strconv.Itoa(len(l.Folds)))
	}
	n := surface.Net{U: []float64{0}, Width: w}
	mid := lain[len(lain)/2].Flat
	up, middle := mid[1].Sub(mid[0]), mid[0].Lerp(mid[1], 0.5)
	lay := plane.Rotate(math.Atan2(up.X, up.Y)).Mul(plane.Translate(-middle.X, -middle.Y)) // the middle line upright
	strip = strip.Laid(lay)
	line := func(a, b plane.Point) [2]plane.Point { return [2]plane.Point{a, b} }
	first, last := lain[0].Flat, lain[len(lain)-1].Flat
	n.Lines = append(n.Lines, line(lay.Apply(first[0]), lay.Apply(first[1])))
	for i := range strip.Rulings {
		f := &strip.Rulings[i].Flat
		f[0], f[1] = export.RoundPoint(f[0]), export.RoundPoint(f[1])
		n.U, n.Lines = append(n.U, l.Folds[i].U), append(n.Lines, line(f[0], f[1]))
	}
	n.U, n.Lines = append(n.U, l.Length), append(n.Lines, line(lay.Apply(last[0]), lay.Apply(last[1])))
	n.Bends = bends(l)
	p.Panel.Net, p.Panel.Strip = &n, strip
	return true
}

// bends returns the runs of lines of a net between which its rails are smooth: from the first fold of
// a bend to its last. A fold outside all bends is a run of its own.
func bends(l *score.Layout) [][2]int {
	var out [][2]int
	last := -1
	for i, f := range l.Folds {
		run := slices.IndexFunc(l.Runs, func(r score.Run) bool { return r.Holds(f.S) })
		if run >= 0 && run == last {
			out[len(out)-1][1] = i + 1
			continue
		}
		out, last = append(out, [2]int{i + 1, i + 1}), run
	}
	return out
}

// skinPanel makes the flat panel of a skin.
func skinPanel(p *Plan) bool {
	if !p.net() {
		return false
	}
	n, w := p.Panel.Net, p.Width()
	p.Panel.Bent, p.Panel.frames = p.Panel.Strip, form.Fold(p.Panel.Strip)
	p.Panel.Mirror = p.V.Panel.ScoredFace != p.V.Panel.ShowFace
	from, to := p.Outline.From, p.Outline.To
	edge := p.rail(0, from, to, fit.Any)
	edge.Segs = append(edge.Segs, plane.LineSeg(n.Place(to, 0), n.Place(to, w)))
	edge.Segs = append(edge.Segs, p.rail(w, to, from, fit.Any).Segs...)
	edge.Segs = append(edge.Segs, plane.LineSeg(n.Place(from, w), n.Place(from, 0)))
	edge.Closed = true
	task := part.PanelTask{
		ID: "panel", Name: "panel", From: p.V.Own(), Strip: p.Panel.Strip, Lap: p.lapped(n.Turn()), Overrun: p.Panel.Overrun,
		Outline: plane.Region{Outer: edge}.Normal(),
		Apart:   p.Law().Score().Width + p.V.Panel.MinLand,
		Mirror:  p.Panel.Mirror, Quantity: p.V.Panel.Quantity, Kerf: p.V.Machine.Kerf,
	}
	for _, s := range p.Supports.All {
		if m := s.Mark; !m.Turned && m.To > m.From {
			task.Marks = append(task.Marks, p.rail(m.Across+w/2, m.From, m.To, fit.Arcs)) // which every reader takes as they are
		}
	}
	p.Panel.Flat = part.NewPanel(task)
	return true
}

// rail is the line of a rib on the flat panel, in few pieces that begin and end where it does.
func (p *Plan) rail(past, from, to float64, mode fit.Mode) plane.Path {
	return fit.Fit(p.Panel.Net.Rail(past, from, to), fit.Options{Tolerance: outline.Tolerance, Mode: mode, Quick: p.draft}).Path
}

// skinFit refolds a skin and measures it along both edges: the worse of the two counts.
func (p *Plan) skinFit() form.Fit {
	pair, n := p.Section.Pair, p.Panel.Net
	line := func(u float64) [2]plane.Point { return [2]plane.Point{n.Place(u, 0), n.Place(u, n.Width)} }
	from, to := line(0), line(n.End())
	fit := form.Along(p.Panel.Strip, form.Across(pair.Near, true, 0), from, to)
	return worse(fit, form.Along(p.Panel.Strip, form.Across(pair.Far, true, pair.Up*pair.Apart), from, to))
}

// worse returns of two fits the worse, figure by figure.
func worse(a, b form.Fit) form.Fit {
	if b.Most > a.Most { // of which each flat is told
		a.Flats = b.Flats
	}
	a.Least, a.Most = min(a.Least, b.Least), max(a.Most, b.Most)
	if max(b.LeastFlat, -b.LeastFlat) > max(a.LeastFlat, -a.LeastFlat) {
		a.LeastFlat = b.LeastFlat
	}
	if b.EndMiss > a.EndMiss {
		a.End, a.EndMiss = b.End, b.EndMiss
	}
	return a
}

// Widest returns the widest spacing as laid, at the end of the scores where they lie further apart.
func (p *Plan) Widest() float64 {
	t := p.Try()
	if p.Section.Pair == nil {
		return p.Section.Wider() * t.Most
	}
	most := t.Most
	for i, f := range t.Layout.Folds[1:] {
		before := t.Layout.Folds[i]
		if r := t.Layout.RunAt(f.S); r != nil && r.Holds(before.S) {
			most = max(most, (f.U-before.U)*(f.Wider+before.Wider)/2)
		}
	}
	return most
}

// mostRulings is about how many scores a drawing of both sections shows: more would be a black wall.
const mostRulings = 60

// Rulings returns the scores of a skin as they lie between its edges, seen along the ribs.
func (p *Plan) Rulings() []plane.Path {
	var out []plane.Path
	n := len(p.Panel.Bent.Rulings)
	every := (n + mostRulings - 1) / mostRulings
	for i, r := range p.Panel.Bent.Rulings {
		if i%max(1, every) == 0 {
			out = append(out, plane.Open(inSection(r.Bent[0]), inSection(r.Bent[1])))
		}
	}
	return out
}
