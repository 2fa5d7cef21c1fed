package plan

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/unit"
)

// An outline that is left to be as long as the curve follows it by itself. One given by
// its corners, drawn elsewhere, or of a typed length stays as it is when the curve grows;
// what changes the curve then has to take it along.

// follows tells whether the outline is as long as the curve whatever that is.
func (p *Plan) follows() bool {
	v := p.V.Panel
	return p.Closed || v.Shape != design.Polygon && v.Shape != design.Drawn && !v.Length.OK
}

// alike returns where a place along the outline of p, as given, comes to lie when each
// place keeps its share of the straight foot, of all between the straights, or of the
// straight tip. Past the ends it keeps its distance.
func (p *Plan) alike(q *Plan) (func(along float64) float64, bool) {
	marks := func(p *Plan) [4]float64 {
		return [4]float64{0, p.places.U(math.Min(p.foot(), p.lastBend())), p.places.U(p.lastBend()), p.Layout.Length}
	}
	from, ok := p.developer()
	to, ok2 := q.developer()
	was, is := marks(p), marks(q)
	return func(along float64) float64 {
		u := Given{p: p, d: from}.U(along)
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
		return Given{p: q, d: to}.Along(u)
	}, ok && ok2
}

// atEnd is how near a place of the outline lies to the curve's end to go with it, mm.
const atEnd = 1

// Follow lays the outline of p on the curve of q, which has its scores, and returns what
// that sets; nothing where the outline follows by itself.
func (p *Plan) Follow(q *Plan) map[string]string {
	set := map[string]string{}
	if p.follows() {
		return set
	}
	q.places = q.Layout.Places(q.Edge)
	place, ok := p.alike(q)
	if !ok {
		return set
	}
	v := p.V.Panel
	q.stretch(p, set, func(along float64) float64 { return place(along+v.Along) - v.Along })
	return set
}

// stretch moves each place along the outline of p, from its own foot edge, for q, and adds
// what that sets.
func (q *Plan) stretch(p *Plan, set map[string]string, place func(along float64) float64) {
	v, w := p.V.Panel, &q.V.Panel
	put := func(field string, was, is float64) float64 {
		if math.Abs(is-was) < 0.005 {
			return was
		}
		is = math.Ceil(100*is-1e-6) / 100
		set[field] = unit.Bare(is, p.V.Units)
		return is
	}
	switch v.Shape {
	case design.Polygon:
		w.Corners = append([]design.CornerValues{}, v.Corners...)
		for i, c := range v.Corners {
			w.Corners[i].Along = put("panel.corners."+strconv.Itoa(c.Row)+".along", c.Along, place(c.Along))
		}
	case design.Drawn:
		long := p.drawn.region.Outer.Box().W()
		w.Drawn.Length = design.Opt{V: put("panel.drawnLength", long, place(long)), OK: true}
		q.drawn = drawing{}
		q.readDrawing()
	default:
		if v.Length.OK {
			w.Length.V = put("panel.length", v.Length.V, place(v.Length.V))
		}
	}
}

// Bare is what of the curve an end of the panel leaves uncovered.
type Bare struct {
	Length float64 // along the flat panel, mm
	Bent   float64 // how much of it is curved
	Scores int     // that fall there, of those that the curve asks for
}

// Bares returns that of the panel's foot and tip.
func (p *Plan) Bares() (foot, tip Bare) {
	foot, tip = p.bare(0, p.panelStart()), p.bare(p.panelEnd(), p.Edge.Length())
	foot.Length, tip.Length = math.Max(0, p.From), math.Max(0, p.Layout.Length-p.To)
	for _, f := range p.Layout.Folds {
		if f.U < p.From {
			foot.Scores++
		} else if f.U > p.To {
			tip.Scores++
		}
	}
	return foot, tip
}

func (p *Plan) bare(from, to float64) Bare {
	out := Bare{}
	for _, st := range p.Edge.Stretches() {
		if a, b := math.Max(from, st.Start), math.Min(to, st.End); b > a && st.Sign != 0 {
			out.Bent += b - a
		}
	}
	return out
}

// Covering returns what has to be set for the panel to cover the curve from its foot, from
// where it starts now, or from where it starts to the tip; ok is false where that gives no
// sound outline, or leaves no room for the ribs.
func (p *Plan) Covering(foot, tip bool) (set map[string]string, ok bool) {
	q := *p
	q.Findings, q.Supports, q.sections, q.trying = nil, nil, sections{}, true
	set = map[string]string{}
	v := p.V.Panel
	if foot {
		set["panel.along"] = unit.Bare(v.Along-p.From, p.V.Units)
		q.V.Panel.Along -= p.From
		if q.V.Panel.Along == 0 {
			set["panel.along"] = "0"
		}
	}
	if !p.follows() && (tip || foot) {
		d, seen := q.developer()
		if !seen {
			return nil, false
		}
		g := Given{p: p, d: d}
		first, last := g.Along(p.From)-v.Along, g.Along(p.To)-v.Along
		end := g.Along(p.Layout.Length) - q.V.Panel.Along
		if !tip {
			end = g.Along(p.To) - q.V.Panel.Along
		}
		if v.Length.OK && v.Shape != design.Polygon && v.Shape != design.Drawn {
			q.V.Panel.Length = design.Opt{}
			set["panel.length"] = ""
			if !tip {
				q.V.Panel.Length = design.Opt{V: end, OK: true}
				set["panel.length"] = unit.Bare(math.Ceil(100*end-1e-6)/100, p.V.Units)
			}
		} else {
			q.stretch(p, set, func(along float64) float64 { return first + (along-first)*(end-first)/(last-first) })
		}
	}
	if !outline(&q) || !supports(&q) || !q.allStand() {
		return nil, false
	}
	bareFoot, bareTip := q.Bares()
	return set, !(foot && bareFoot.Length > shortSeen || tip && bareTip.Length > shortSeen) && q.To <= q.Layout.Length+shortSeen && q.From >= -shortSeen
}

// shortSeen is the least length of bare curve, or of panel past it, that is told of, mm.
const shortSeen = 0.05
