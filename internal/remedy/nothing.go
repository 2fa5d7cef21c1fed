package remedy

import (
	"maps"
	"math"
	"sort"
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/stock"
)

// Search looks for single changes with which some number of passes is sound, for a design
// of which none is; short tells that the search ended for want of scores to lay.
func Search(doc design.Document, p *plan.Plan) (out []finding.Remedy, short bool) {
	m := mender{doc: doc, p: p, near: p.Nearest()}
	all := mostInAll
	for _, look := range []func() finding.Remedy{m.depth, m.curve, m.side, m.looks, m.land, m.sheet} {
		m.left = min(mostLaid, all)
		all -= m.left
		if r := look(); r.Text != "" {
			out = append(out, r)
		}
		all += m.left // what was not spent, or what was overdrawn
	}
	return out, m.short
}

// WithSpacingOpen returns a design with its spacing left open, and its plan, where no number
// of passes is sound either way.
func WithSpacingOpen(doc design.Document, p *plan.Plan) (open design.Document, q plan.Plan, ok bool) {
	if !p.NothingWorksAsTyped() {
		return doc, q, false
	}
	open, _ = design.Set(doc, "panel.spacing", design.Follow)
	v, ok := applied(open, nil)
	if !ok {
		return open, q, false
	}
	q = p.Other(v)
	return open, q, q.NothingWorks()
}

// mender looks for single changes that would do.
type mender struct {
	doc   design.Document
	p     *plan.Plan
	near  *plan.Try
	left  int  // how many scores may still be laid for the change that is looked for
	short bool // a search ended for want of these
}

// mostLaid bounds the search for each kind of change, in scores laid: some hundred trials
// of an ordinary panel, a few of one with ten thousand scores.
const (
	mostLaid  = 40000
	mostInAll = 120000
)

// wholePlan is about how many times longer than laying its scores once a plan takes.
const wholePlan = 4

// bends tells whether a change is one of the curve.
func bends(set map[string]string) bool {
	for path := range set {
		if strings.HasPrefix(path, "curve.") {
			return true
		}
	}
	return false
}

// sound tells whether the design with some texts changed has a sound number of passes.
// When too much was tried already it says no.
func (m *mender) sound(set map[string]string) bool {
	if m.left <= 0 {
		m.short = true
		return false
	}
	v, ok := m.read(set)
	return ok && m.works(v, !bends(set))
}

// works tells the same of a design that was read, known if its curve is that of the plan.
func (m *mender) works(v design.Values, known bool) bool {
	if m.left <= 0 {
		m.short = true
		return false
	}
	like := m.p
	if !known || m.p.Section.Edge.Length() == 0 {
		like = nil
	}
	ok, laid := Workable(&v, like)
	m.left -= laid
	return ok
}

// read reads the design with some texts changed; ok is false where a field stops.
func (m *mender) read(set map[string]string) (design.Values, bool) {
	v, ok := applied(m.doc, set)
	if ok && m.p.Readings.Learned != nil && !touchesStrips(set) {
		// What strips said holds as it did; learning it anew for every trial takes its time.
		v.Sheet, v.Machine, v.Strips = m.p.V.Sheet, m.p.V.Machine, m.p.V.Strips
	}
	return v, ok
}

// touchesStrips tells whether a change asks what strips said anew.
func touchesStrips(set map[string]string) bool {
	for path := range set {
		switch card, _, _ := strings.Cut(path, "."); card {
		case "sheet", "machine", "strips":
			return true
		}
	}
	return false
}

// offer is a remedy when the whole plan with it can be drawn and is sound; the choice of
// passes is left open with it.
func (m *mender) offer(text string, set map[string]string) finding.Remedy {
	set["panel.passes"] = "auto"
	v, ok := m.read(set)
	if !ok {
		return finding.Remedy{}
	}
	if m.left <= -mostLaid/2 { // the search may have ended with what it found, but not long ago
		m.short = true
		return finding.Remedy{}
	}
	p := m.plan(v)
	if _, tight := plan.Roomless(p.Scores.Layout); m.p.Drawn && !tight && len(p.Scores.Layout.Flats) > 0 && bends(set) {
		// Where the change would leave some of the curve without panel, that is taken along.
		if along := takeAlong(m.p, likeTo(&p)); len(along) > 0 {
			maps.Copy(set, along)
			if v, ok = m.read(set); !ok {
				return finding.Remedy{}
			}
			p = m.plan(v)
		}
	}
	if !p.Drawn || !p.Try().Sound() {
		return finding.Remedy{}
	}
	return finding.Remedy{Text: text, Set: set}
}

func (m *mender) plan(v design.Values) plan.Plan {
	p := m.p.Other(v)
	m.left -= wholePlan * len(p.Scores.Layout.Folds)
	return p
}

// depth looks for a skin that would do, nearest to one that a number of passes leaves.
func (m *mender) depth() finding.Remedy {
	v := m.p.V
	best, off := 0.0, math.Inf(1)
	for share := 0.9; share > plan.LeastSkin; share -= 0.04 {
		skin := share * v.Sheet.T
		away := math.Inf(1)
		for n := range v.Machine.Depths {
			away = math.Min(away, math.Abs(v.Machine.Skin(n+1, v.Sheet.T, 0).Value-skin))
		}
		if away >= off || away < 0.01 {
			continue
		}
		w := v
		w.Machine.Depths = []float64{m.setting(skin)}
		if m.works(w, true) {
			best, off = skin, away
		}
	}
	if best == 0 {
		return finding.Remedy{}
	}
	skin := math.Round(best*100) / 100
	sets := map[string]string{}
	depths := append([]float64{m.setting(skin)}, v.Machine.Depths...)
	sort.Slice(depths, func(i, j int) bool { // as passes go deeper
		return (depths[i] < depths[j]) != m.p.FixedSkin()
	})
	for i, d := range depths {
		sets["machine.depths."+num(i)] = bare(m.p, d)
	}
	return m.offer("Score to a skin of "+mm(m.p, skin)+", "+mm(m.p, v.Sheet.T-skin)+" deep: find its setting with a depth strip", sets)
}

// setting returns what is typed for a skin: it, or the depth.
func (m *mender) setting(skin float64) float64 {
	if m.p.FixedSkin() {
		return skin
	}
	return m.p.V.Sheet.T - skin
}

// curve looks for the least widening of the bends that would do.
func (m *mender) curve() finding.Remedy {
	var widen func(f float64) finding.Remedy
	switch m.p.V.Curve.Kind {
	case design.RadiusAngle, design.LengthRadius:
		widen = m.radius
	case design.SpanRise:
		widen = m.rise
	case design.Chain:
		widen = m.pieces
	case design.Box:
		widen = m.corner
	case design.Cone, design.ConePart:
		widen = func(f float64) finding.Remedy { return rims(m.p, math.Ceil(10*f*m.p.V.Curve.Small)/10) }
	default:
		return finding.Remedy{}
	}
	sound := func(f float64) bool { return m.sound(widen(f).Set) }
	lo := 1.0
	for hi := math.Max(1.03, math.Min(m.near.Over(), 3)); hi < 12; lo, hi = hi, hi*1.25 {
		if !sound(hi) {
			continue
		}
		for hi/lo > 1.02 {
			if mid := math.Sqrt(lo * hi); sound(mid) {
				hi = mid
			} else {
				lo = mid
			}
		}
		r := widen(hi)
		return m.offer(r.Text, r.Set)
	}
	return finding.Remedy{}
}

func (m *mender) radius(f float64) finding.Remedy {
	r := math.Ceil(10*f*m.p.V.Curve.Radius) / 10
	return set("Bend no tighter than a radius of "+mm(m.p, r), "curve.radius", bare(m.p, r))
}

func (m *mender) rise(f float64) finding.Remedy {
	c := m.p.V.Curve
	rise := riseOf(c.Span, f*(c.Span*c.Span/4+c.Rise*c.Rise)/(2*c.Rise))
	return set("Let it rise no more than "+mm(m.p, rise), "curve.rise", bare(m.p, rise))
}

func (m *mender) corner(f float64) finding.Remedy {
	r := math.Ceil(10*f*m.p.V.Curve.Corner) / 10
	return set("Round the corners to "+mm(m.p, r), "curve.corner", bare(m.p, r))
}

// pieces widens those bends of a chain that are tighter than f times the tightest.
func (m *mender) pieces(f float64) finding.Remedy {
	least := math.Inf(1)
	for _, pc := range m.p.V.Curve.Pieces {
		if pc.Turn != design.Straight {
			least = math.Min(least, pc.Radius)
		}
	}
	r := math.Ceil(10*f*least) / 10
	out := set("Bend no tighter than a radius of " + mm(m.p, r))
	for i, pc := range m.p.V.Curve.Pieces {
		if pc.Turn != design.Straight && pc.Radius < r {
			out.Set["curve.pieces."+num(i)+".radius"] = bare(m.p, r)
		}
	}
	return out
}

// side scores the other face.
func (m *mender) side() finding.Remedy {
	face := other(m.p.V.Panel.ScoredFace)
	return m.first([]finding.Remedy{set("Score the "+face+" side", "panel.scoredFace", face)})
}

// first offers the first change that is sound.
func (m *mender) first(changes []finding.Remedy) finding.Remedy {
	for _, c := range changes {
		if m.sound(c.Set) {
			return m.offer(c.Text, c.Set)
		}
	}
	return finding.Remedy{}
}

// looks accepts a coarser finish or higher flats where these bind.
func (m *mender) looks() finding.Remedy {
	var all []finding.Remedy
	switch m.near.Out {
	case plan.FoldsVisible:
		all = []finding.Remedy{
			set("Take a satin finish", "panel.finish", "satin"),
			set("Take a finish that hides 3° a score", "panel.finish", "hidden"),
			set("Let the folds show", "panel.finish", "any"),
		}
	case plan.FlatsHigh:
		for so := m.p.V.Panel.StandOff * 1.25; so < 2; so *= 1.25 {
			high := math.Ceil(100*so) / 100
			all = append(all, set("Accept flats "+mm(m.p, high)+" high", "panel.standOff", bare(m.p, high)))
		}
	}
	return m.first(all)
}

// land lets the scores come closer, down to a quarter of a millimetre between them:
// what a laser leaves whole; common practice, no source.
func (m *mender) land() finding.Remedy {
	var all []finding.Remedy
	for land := m.p.V.Panel.MinLand * 0.8; land >= 0.25; land *= 0.8 {
		least := math.Floor(100*land) / 100
		all = append(all, set("Leave "+mm(m.p, least)+" of land between scores", "panel.minLand", bare(m.p, least)))
	}
	return m.first(all)
}

// sheet looks for another stock, the nearest in thickness first, of the same family where
// two are as near.
func (m *mender) sheet() finding.Remedy {
	now := m.p.V.Sheet
	all := stock.All()
	sort.SliceStable(all, func(i, j int) bool {
		away := func(s stock.Stock) float64 {
			d := math.Abs(s.Thickness.Value - now.T)
			if s.Family != now.Stock.Family {
				d += 0.5
			}
			return d
		}
		return away(all[i]) < away(all[j])
	})
	for _, s := range all {
		if s.ID == now.Stock.ID || s.Laser.Never {
			continue
		}
		r := set("Take "+s.Name+", with depths still to be tested", "sheet.stock", s.ID, "sheet.grain", "")
		for i := range m.doc.Sheet.Readings {
			r.Set["sheet.readings."+num(i)] = ""
		}
		for i := range m.doc.Machine.Depths {
			r.Set["machine.depths."+num(i)] = ""
		}
		if m.sound(r.Set) {
			if r = m.offer(r.Text, r.Set); r.Text != "" {
				return r
			}
		}
	}
	return finding.Remedy{}
}
