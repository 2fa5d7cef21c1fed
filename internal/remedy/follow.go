package remedy

import (
	"maps"
	"math"
	"slices"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/support"
)

// An outline that is left to be as long as the curve follows it by itself. One given by
// its corners, drawn elsewhere, or of a typed length stays as it is when the curve grows;
// what changes the curve then has to take it along.

// follows tells whether the outline is as long as the curve whatever that is.
func follows(p *plan.Plan) bool {
	return p.Section.Closed || sized(p) && !p.V.Panel.Length.OK
}

// sized tells whether the panel has a length that can be typed or left open.
func sized(p *plan.Plan) bool {
	return p.V.Panel.Shape != design.Polygon && p.V.Panel.Shape != design.Drawn
}

// atEnd is how near a place of the outline lies to the curve's end to go with it, mm.
const atEnd = 1

// alike returns where a place along the outline of p, as given, comes to lie on q when each
// place keeps its share of the straight foot, of all between the straights, or of the
// straight tip. Past the ends it keeps its distance.
func alike(p, q *plan.Plan) (func(along float64) float64, bool) {
	marks := func(p *plan.Plan) [4]float64 {
		last := p.Section.LastBend()
		return [4]float64{0, p.Place(math.Min(p.Section.Foot(), last)), p.Place(last), p.Scores.Layout.Length}
	}
	from, ok := p.Gives()
	to, ok2 := q.Gives()
	was, is := marks(p), marks(q)
	return func(along float64) float64 {
		u := from.U(along)
		switch {
		case u <= 0:
		case u >= was[3]-atEnd:
			u += is[3] - was[3]
		default:
			i := 0
			for i < 2 && (u > was[i+1] || was[i+1] == was[i]) {
				i++
			}
			u = is[i] + (u-was[i])*(is[i+1]-is[i])/(was[i+1]-was[i])
		}
		return to.Along(u)
	}, ok && ok2
}

// takeAlong lays the outline of p on the curve of q, whose scores are laid, and returns what
// that sets; nothing where the outline follows by itself.
func takeAlong(p, q *plan.Plan) map[string]string {
	if follows(p) {
		return map[string]string{}
	}
	place, ok := alike(p, q)
	if !ok {
		return map[string]string{}
	}
	start := p.V.Panel.Along
	return stretch(p, q, func(along float64) float64 { return place(along+start) - start })
}

// stretch moves each place along the outline of p, from its own foot edge, for q, and
// returns what that sets.
func stretch(p, q *plan.Plan, place func(along float64) float64) map[string]string {
	was, is, sets := &p.V.Panel, &q.V.Panel, map[string]string{}
	put := func(field string, old, new float64) float64 {
		if math.Abs(new-old) < 0.005 {
			return old
		}
		new = math.Ceil(100*new-1e-6) / 100
		sets[field] = bare(p, new)
		return new
	}
	switch was.Shape {
	case design.Polygon:
		is.Corners = slices.Clone(was.Corners)
		for i, c := range was.Corners {
			is.Corners[i].Along = put("panel.corners."+num(c.Row)+".along", c.Along, place(c.Along))
		}
	case design.Drawn:
		long := p.Size.DrawnLength()
		is.Drawn.Length = design.Opt{V: put("panel.drawnLength", long, place(long)), OK: true}
	default:
		if was.Length.OK {
			is.Length.V = put("panel.length", was.Length.V, place(was.Length.V))
		}
	}
	return sets
}

// likeTo returns a plan anew that takes over the scores of p and all before them.
func likeTo(p *plan.Plan) *plan.Plan {
	q := p.Anew()
	q.Line, q.Section, q.Size, q.Scores = p.Line, p.Section, p.Size, p.Scores
	return q
}

// redrawn makes the outline of q, which has the scores of p, and its ribs if stands; it is
// false where that is no sound outline, or leaves no room for the ribs.
func redrawn(p, q *plan.Plan, stands bool) bool {
	if q.V.Panel.Drawn.Length != p.V.Panel.Drawn.Length && !q.Run(plan.StageSize) || !q.Run(plan.StageOutline) {
		return false
	}
	return !stands || q.Run(plan.StageAcross, plan.StageSupports) && allStand(q)
}

// allStand tells whether the panel covers every rib and none runs into itself.
func allStand(p *plan.Plan) bool {
	return !slices.ContainsFunc(p.Supports.All, func(s support.Support) bool { return s.Narrow || !p.Fits(s.Task) })
}

// seen is the least length of bare curve, or of panel past it, that is told of, mm.
const seen = 0.05

// covering makes the panel cover the curve from its foot to where it ends now, or from where
// it starts to the tip.
func covering(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	foot, q := f.Place.Field == "panel.along", likeTo(p)
	r := set("Start at the foot")
	if foot {
		q.V.Panel.Along -= p.Outline.From
		if r.Set["panel.along"] = bare(p, q.V.Panel.Along); q.V.Panel.Along == 0 {
			r.Set["panel.along"] = "0"
		}
	}
	if !follows(p) && !reaches(p, q, foot, r.Set) || !redrawn(p, q, true) {
		return nil
	}
	bare, tip := q.Bares()
	if !foot {
		bare = tip
	}
	if bare.Length > seen || q.Outline.To > q.Scores.Layout.Length+seen || q.Outline.From < -seen {
		return nil
	}
	switch _, moves := r.Set["panel.along"]; {
	case !foot && sized(p):
		r.Text = "Make it as long as the curve"
	case !moves || p.V.Panel.Shape == design.Polygon:
		r.Text = "Stretch it over all of the curve"
	}
	return []finding.Remedy{r}
}

// reaches makes an outline that does not follow the curve so long for q that it ends where
// that of p does, if its foot is moved, or at the curve's tip. What that takes is added to
// sets; false where the outline can't be told as it is seen.
func reaches(p, q *plan.Plan, foot bool, sets map[string]string) bool {
	g, ok := p.Gives()
	if !ok {
		return false
	}
	was, is := p.V.Panel.Along, &q.V.Panel
	first, last := g.Along(p.Outline.From)-was, g.Along(p.Outline.To)-was
	end := g.Along(p.Scores.Layout.Length) - is.Along
	if foot {
		end = g.Along(p.Outline.To) - is.Along
	}
	switch {
	case !sized(p) || !is.Length.OK:
		maps.Copy(sets, stretch(p, q, func(along float64) float64 { return first + (along-first)*(end-first)/(last-first) }))
	case foot:
		is.Length = design.Opt{V: end, OK: true}
		sets["panel.length"] = bare(p, math.Ceil(100*end-1e-6)/100)
	default:
		is.Length = design.Opt{}
		sets["panel.length"] = ""
	}
	return true
}

// shorter makes a panel as long as its curve, or moves it onto the curve.
func shorter(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	length := p.Scores.Layout.Length
	if f.Place.Field == "panel.along" {
		if p.Outline.To-p.Outline.From < length || sized(p) && !p.V.Panel.Length.OK {
			return moved(p, ceil(-p.Outline.From, 100))
		}
		return nil
	}
	more := p.Outline.To - length
	switch {
	case sized(p) && p.V.Panel.Length.OK && asLongAsTheCurve(p):
		return one("Make it as long as the curve", "panel.length", "")
	case p.Outline.From-more > -seen:
		return moved(p, -ceil(more, 100))
	}
	return nil
}

// moved moves the outline along the curve, where it is a sound one there and does not stick
// out at its other end.
func moved(p *plan.Plan, by float64) []finding.Remedy {
	q := likeTo(p)
	q.V.Panel.Along += by
	if !redrawn(p, q, false) || by > 0 && q.Outline.From < -seen || by < 0 && q.Outline.To > p.Scores.Layout.Length+seen {
		return nil
	}
	return one("Move it "+mm(p, math.Abs(by)), "panel.along", bare(p, q.V.Panel.Along))
}

// asLongAsTheCurve tells whether the panel could be: a sound outline, with ribs that its
// whole length leaves room for.
func asLongAsTheCurve(p *plan.Plan) bool {
	q := likeTo(p)
	q.V.Panel.Length = design.Opt{}
	if !redrawn(p, q, false) {
		return false
	}
	for _, s := range p.Supports.All {
		t := s.Task
		t.End = p.Section.Edge.Length()
		if !p.Fits(t) {
			return false
		}
	}
	return true
}

// trim leaves as much to trim at the seam as the girth may be off.
func trim(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	if f.Severity != finding.Warn {
		return nil
	}
	more := math.Ceil(2 * f.Numbers["off"])
	return one("Leave "+mm(p, more)+" to trim", "curve.seam", design.Butt, "curve.trim", bare(p, more), "panel.length", "", "panel.along", "0")
}
