package check

import (
	"maps"
	"math"
	"sort"
	"strconv"
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// NothingWorks tells of a design for which no number of passes is sound: which limit
// binds, and the smallest changes that would do, each found by planning again.
func NothingWorks(doc design.Document, p *plan.Plan) []finding.Finding {
	if !p.NothingWorks() {
		return evenFollowing(doc, p)
	}
	near := p.Nearest()
	f := found("nothing-works", finding.Warn, whatBinds(p, near), map[string]float64{"passes": float64(near.Passes), "over": near.Over()})
	m := mender{doc: doc, p: p, near: near}
	all := mostInAll
	for _, look := range []func() finding.Remedy{m.depth, m.curve, m.side, m.looks, m.land, m.sheet} {
		m.left = min(mostLaid, all)
		all -= m.left
		f = with(f, look())
		all += m.left // what was not spent, or what was overdrawn
	}
	switch {
	case m.short:
		f.Text += " With so many scores not every change of depth, curve, side or sheet could be tried."
	case len(f.Remedies) == 0:
		f.Text += " No single change of depth, curve, side or sheet is enough."
	}
	return one(at(on(f, "panel.passes"), p, max(p.Cracking.Score, p.Pinching.Score)))
}

// evenFollowing tells of a number of scores, or a distance between them, that does not
// work when no other would either: with the spacing left open, and what would do then.
func evenFollowing(doc design.Document, p *plan.Plan) []finding.Finding {
	if !p.NothingWorksAsTyped() {
		return nil
	}
	open, _ := design.Set(doc, "panel.spacing", design.Follow)
	v, found := design.Read(open)
	if finding.Worst(found) == finding.Stop {
		return nil
	}
	q := plan.Make(v)
	if !q.NothingWorks() {
		return nil
	}
	fs := NothingWorks(open, &q)
	for i := range fs {
		for _, r := range fs[i].Remedies {
			r.Set["panel.spacing"] = design.Follow
		}
		fs[i].Text = "With the spacing that you set nothing works, and with no other. Left open: " + fs[i].Text
	}
	return fs
}

// whatBinds names the limit that even the nearest number of passes is over.
func whatBinds(p *plan.Plan, t plan.Try) string {
	lead := "Nothing works as it stands, of " + num(len(p.Tries)) + " numbers of passes. The nearest, with " + num(t.Passes) + ", "
	if len(p.Tries) == 1 {
		lead = "Nothing works as it stands. One pass "
	}
	switch t.Out {
	case "cracks":
		return lead + "strains the skin to " + unit.Ratio(math.Max(t.Cracking.Value/t.Cracking.Allowed, t.Cracking.Bad)) + " of what is allowed, even with the scores as close as they may be."
	case "pinches":
		return lead + "shuts the mouths to " + unit.Ratio(math.Max(t.Pinching.Value/t.Pinching.Allowed, t.Pinching.Bad)) + " of what is allowed, even with the scores as close as they may be."
	case "skin too thin to handle":
		return lead + "leaves only " + mm(p, t.Skin) + " of skin, too little to handle."
	case plan.TooTight:
		return lead + "has its neutral line further inside a bend than the bend is wide."
	case "hardly scored":
		return lead + "hardly scores the sheet."
	case "cuts through":
		return lead + "cuts through."
	case "flats too high":
		return lead + "leaves flats higher than the " + mm(p, p.V.Panel.StandOff) + " you accept, even with the scores as close as they may be."
	case "folds too visible":
		return lead + "folds each score by more than the finish hides, even with the scores as close as they may be."
	}
	return lead + "leaves less sound land between the scores than you set."
}

// mender looks for single changes that would do.
type mender struct {
	doc   design.Document
	p     *plan.Plan
	near  plan.Try
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

// sound tells whether the design with some texts changed has a sound number of passes.
// When too much was tried already it says no.
func (m *mender) sound(set map[string]string) bool {
	if m.left <= 0 {
		m.short = true
		return false
	}
	v, ok := m.read(set)
	if !ok {
		return false
	}
	for path := range set {
		if strings.HasPrefix(path, "curve.") {
			return m.works(v, false)
		}
	}
	return m.works(v, m.p.Edge.Length() > 0)
}

// works tells the same of a design that was read, known if its curve is that of the plan.
func (m *mender) works(v design.Values, known bool) bool {
	if m.left <= 0 {
		m.short = true
		return false
	}
	ok, laid := plan.Workable(v, known)
	m.left -= laid
	return ok
}

// read reads the design with some texts changed; ok is false where a field stops.
func (m *mender) read(set map[string]string) (design.Values, bool) {
	doc := m.doc
	for path, text := range set {
		var ok bool
		if doc, ok = design.Set(doc, path, text); !ok {
			return design.Values{}, false
		}
	}
	v, found := design.Read(doc)
	if m.p.Learned != nil && !touchesStrips(set) {
		// What strips said holds as it did; learning it anew for every trial takes its time.
		v.Sheet, v.Machine, v.Strips = m.p.V.Sheet, m.p.V.Machine, m.p.V.Strips
	}
	return v, finding.Worst(found) != finding.Stop
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
	p := plan.Make(v)
	m.left -= wholePlan * len(p.Layout.Folds)
	if along := m.along(&p, set); len(along) > 0 {
		maps.Copy(set, along)
		if v, ok = m.read(set); !ok {
			return finding.Remedy{}
		}
		p = plan.Make(v)
		m.left -= wholePlan * len(p.Layout.Folds)
	}
	if !p.Drawn || !p.Try().Sound {
		return finding.Remedy{}
	}
	return finding.Remedy{Text: text, Set: set}
}

// along returns what takes the panel along where a change of the curve would leave some of
// that without it.
func (m *mender) along(p *plan.Plan, set map[string]string) map[string]string {
	if !m.p.Drawn || len(p.Layout.Flats) == 0 {
		return nil
	}
	for path := range set {
		if strings.HasPrefix(path, "curve.") {
			q := *p
			return m.p.Follow(&q)
		}
	}
	return nil
}

func (m *mender) bare(mm float64) string { return unit.Bare(mm, m.p.V.Units) }

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
		if m.works(w, m.p.Edge.Length() > 0) {
			best, off = skin, away
		}
	}
	if best == 0 {
		return finding.Remedy{}
	}
	skin := math.Round(best*100) / 100
	set := map[string]string{}
	depths := append([]float64{m.setting(skin)}, v.Machine.Depths...)
	sort.Slice(depths, func(i, j int) bool { // as passes go deeper
		return (depths[i] < depths[j]) != m.p.FixedSkin()
	})
	for i, d := range depths {
		set["machine.depths."+strconv.Itoa(i)] = m.bare(d)
	}
	return m.offer("Score to a skin of "+mm(m.p, skin)+", "+mm(m.p, v.Sheet.T-skin)+" deep: find its setting with a depth strip", set)
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
	c := m.p.V.Curve
	widen := map[string]func(f float64) (string, map[string]string){
		design.RadiusAngle:  m.radius,
		design.LengthRadius: m.radius,
		design.SpanRise: func(f float64) (string, map[string]string) {
			r := f * (c.Span*c.Span/4 + c.Rise*c.Rise) / (2 * c.Rise)
			rise := math.Floor(10*(r-math.Sqrt(r*r-c.Span*c.Span/4))) / 10
			return "Let it rise no more than " + mm(m.p, rise), map[string]string{"curve.rise": m.bare(rise)}
		},
		design.Chain: m.pieces,
		design.Box: func(f float64) (string, map[string]string) {
			r := math.Ceil(10*f*c.Corner) / 10
			return "Round the corners to " + mm(m.p, r), map[string]string{"curve.corner": m.bare(r)}
		},
	}[c.Kind]
	if widen == nil {
		return finding.Remedy{}
	}
	sound := func(f float64) bool {
		_, set := widen(f)
		return m.sound(set)
	}
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
		text, set := widen(hi)
		return m.offer(text, set)
	}
	return finding.Remedy{}
}

func (m *mender) radius(f float64) (string, map[string]string) {
	r := math.Ceil(10*f*m.p.V.Curve.Radius) / 10
	return "Bend no tighter than a radius of " + mm(m.p, r), map[string]string{"curve.radius": m.bare(r)}
}

// pieces widens those bends of a chain that are tighter than f times the tightest.
func (m *mender) pieces(f float64) (string, map[string]string) {
	least := math.Inf(1)
	for _, pc := range m.p.V.Curve.Pieces {
		if pc.Turn != design.Straight {
			least = math.Min(least, pc.Radius)
		}
	}
	r := math.Ceil(10*f*least) / 10
	set := map[string]string{}
	for i, pc := range m.p.V.Curve.Pieces {
		if pc.Turn != design.Straight && pc.Radius < r {
			set["curve.pieces."+strconv.Itoa(i)+".radius"] = m.bare(r)
		}
	}
	return "Bend no tighter than a radius of " + mm(m.p, r), set
}

// side scores the other face.
func (m *mender) side() finding.Remedy {
	other := map[string]string{design.Hollow: design.Round, design.Round: design.Hollow}[m.p.V.Panel.ScoredFace]
	set := map[string]string{"panel.scoredFace": other}
	if !m.sound(set) {
		return finding.Remedy{}
	}
	return m.offer("Score the "+other+" side", set)
}

// looks accepts a coarser finish or higher flats where these bind.
func (m *mender) looks() finding.Remedy {
	switch m.near.Out {
	case "folds too visible":
		for _, c := range []string{"satin", "hidden", "any"} {
			if set := (map[string]string{"panel.finish": c}); m.sound(set) {
				return m.offer(map[string]string{"satin": "Take a satin finish", "hidden": "Take a finish that hides 3° a score", "any": "Let the folds show"}[c], set)
			}
		}
	case "flats too high":
		for so := m.p.V.Panel.StandOff * 1.25; so < 2; so *= 1.25 {
			set := map[string]string{"panel.standOff": m.bare(math.Ceil(100*so) / 100)}
			if m.sound(set) {
				return m.offer("Accept flats "+mm(m.p, math.Ceil(100*so)/100)+" high", set)
			}
		}
	}
	return finding.Remedy{}
}

// land lets the scores come closer, down to a quarter of a millimetre between them:
// what a laser leaves whole; common practice, no source.
func (m *mender) land() finding.Remedy {
	for land := m.p.V.Panel.MinLand * 0.8; land >= 0.25; land *= 0.8 {
		set := map[string]string{"panel.minLand": m.bare(math.Floor(100*land) / 100)}
		if m.sound(set) {
			return m.offer("Leave "+mm(m.p, math.Floor(100*land)/100)+" of land between scores", set)
		}
	}
	return finding.Remedy{}
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
		set := map[string]string{"sheet.stock": s.ID, "sheet.grain": ""}
		for i := range m.doc.Sheet.Readings {
			set["sheet.readings."+strconv.Itoa(i)] = ""
		}
		for i := range m.doc.Machine.Depths {
			set["machine.depths."+strconv.Itoa(i)] = ""
		}
		if m.sound(set) {
			if r := m.offer("Take "+s.Name+", with depths still to be tested", set); r.Text != "" {
				return r
			}
		}
	}
	return finding.Remedy{}
}
