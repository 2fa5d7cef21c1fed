package plan

import (
	"math"
	"strconv"

	"springrib/internal/brace"
	"springrib/internal/design"
	"springrib/internal/part"
	"springrib/internal/solve"
	"springrib/internal/stock"
)

// Support is one rib at its place across the panel.
type Support struct {
	design.RibPlaceValues
	Lo, Hi float64 // the part of the panel's width that it holds, half way to its neighbours
	Kind   int     // index in Plan.Ribs of the part that it is
	Task   part.RibTask
	Mark   Mark
	Hold   Hold
	// Narrow tells that the panel is nowhere as wide here as the rib is thick.
	Narrow bool
	share  func(s float64) float64 // width held at arc length s, mm
}

// RibPart is one kind of rib as it is cut, and how many of it.
type RibPart struct {
	part.Rib
	Task part.RibTask
}

// RibFactor is what a rib's strength is usually more than its stress by. Common practice,
// no source.
const RibFactor = 1.5

// ribsAlike is how far the ends of two ribs may lie apart along the edge and they are
// still cut as one part, mm: the same place of a mirrored outline, fitted.
const ribsAlike = 0.05

// supports finds where ribs stand, what each holds and how far each reaches.
func supports(p *Plan) bool {
	places := p.ribPlaces()
	for i, at := range places {
		s := Support{RibPlaceValues: at, Lo: math.Inf(-1), Hi: math.Inf(1)}
		if i > 0 {
			s.Lo = (places[i-1].Across + at.Across) / 2
		}
		if i+1 < len(places) {
			s.Hi = (at.Across + places[i+1].Across) / 2
		}
		s.share = p.Across.widths(s.Lo, s.Hi)
		u0, u1, ok := p.Covers(at.Across, at.Thickness)
		if !ok {
			s.Narrow = true
			if u0, u1, ok = p.Covers(at.Across, 0); !ok {
				return p.stop("rib-off-panel", p.ribField(at, "across"), "The rib "+p.len(at.Across)+
					" across lies off the panel. Move it onto the panel.", map[string]float64{"across": at.Across})
			}
		}
		if on := math.Min(p.Section.Edge.Length(), p.Scores.places.S(u1)) - math.Max(0, p.Scores.places.S(u0)); on < 1 && !p.Section.Closed {
			how := "none"
			if on > 0.01 {
				how = "only " + p.len(on)
			}
			return p.stop("rib-off-panel", p.ribField(at, "across"), "The rib "+p.len(at.Across)+
				" across has "+how+" of the curve under the panel to stand on. Move it, or the panel along the curve.", map[string]float64{"across": at.Across, "on": on})
		}
		p.placeMark(&s, u0, u1)
		p.Supports.All = append(p.Supports.All, s)
	}
	// The side view shows the longest, the first of equal ones.
	for i, s := range p.Supports.All {
		if long := p.Supports.All[p.Supports.Longest].Task; s.Task.End-s.Task.Start > long.End-long.Start+ribsAlike {
			p.Supports.Longest = i
		}
	}
	p.Supports.Mark = p.Supports.All[p.Supports.Longest].Mark
	p.freeEnds()
	return true
}

// ribField returns the field of a rib with a place of its own, else that of all ribs.
func (p *Plan) ribField(at design.RibPlaceValues, name string) string {
	if at.Row < 0 {
		return map[string]string{"across": "panel.across", "thickness": "rib.thickness"}[name]
	}
	return "rib.places." + strconv.Itoa(at.Row) + "." + name
}

// placeMark finds from where to where rib and glue run, and the line that marks it,
// where the panel is there for it from u0 to u1.
//
// By rule the glue runs to just short of the tip where the straight tip is long enough
// to take the panel's pull without peeling, as far as the glue's likely strength goes;
// else the end stays free over the straight tip and as far into the bend as leaves the
// accepted gap at the panel's end.
func (p *Plan) placeMark(s *Support, u0, u1 float64) {
	r := p.V.Rib
	start := math.Max(0, p.Scores.places.S(u0))
	total := math.Min(p.Section.Edge.Length(), p.Scores.places.S(u1))
	if p.Section.Closed {
		start, total = 0, p.Section.Edge.Length()
	}
	tip := math.Max(0, total-p.Section.LastBend())
	kappa := p.Section.curvatureBefore(total)
	free := r.Short.Or(0)
	switch {
	case p.Section.Closed:
		free = 0
	case r.Short.OK:
	case kappa == 0 || tip >= p.peelAt(*s, kappa, total-tip, r.GlueBond.Value).Length+ShortOfTip:
		free = p.within(total, ShortOfTip)
	default:
		free = p.within(total, tip+math.Min(brace.FreeLength(kappa, r.EndGap, tip), (total-start-tip)/3))
	}
	free = math.Min(math.Max(free, 0), 0.9*(total-start))
	end := total - free
	s.Mark = Mark{Across: s.Across, From: u0 - r.MarkStart, To: p.Scores.Layout.At(p.Section.Edge, end), Turned: !p.Section.Towards}
	if p.Section.Closed { // the former goes all round, the panel perhaps not
		s.Mark.To = math.Min(s.Mark.To, u1)
	}
	s.Mark.End = p.strays(end, p.panelEnd())
	s.Task = part.RibTask{
		From: p.from(s.Stock, s.Thickness, s.StockAt), Edge: p.Section.Edge, PanelLeft: p.Section.PanelLeft, Start: start, End: end,
		FootDepth: r.FootDepth, TipDepth: r.TipDepth, TipRound: r.TipRound, Kerf: p.V.Machine.Kerf, Tolerance: outlineTolerance, Quick: p.draft,
	}
	if s.Foot == design.Stub || s.Foot == design.Tenon {
		s.Task.Stub = &part.Stub{Depth: r.StubDepth, Width: math.Min(r.StubWidth, r.FootDepth)}
		if s.Foot == design.Tenon && r.Foot == design.Plain { // of this rib alone, and so not asked for: flush
			s.Task.Stub.Depth = s.Thickness
		}
	}
}

// within returns how far short of arc length s a rib may stop, at most so far, and the
// panel's end still stands off no more than is accepted; 0 where it does in any case.
func (p *Plan) within(s, most float64) float64 {
	if end := p.panelEnd(); p.over(p.strays(s-most, end)) {
		least, _ := solve.Root(func(f float64) float64 { return p.strays(s-f, end).Gap - p.V.Rib.EndGap }, 0, most, 1e-9)
		return math.Max(0, least)
	}
	return most
}

// ShortOfTip keeps glue and rib out of sight at the tip, mm. Common practice, no
// source.
const ShortOfTip = 2

// peelAt returns what the end of a rib's glue line sees from the bend of curvature kappa
// that ends or begins at arc length s, where it holds so much.
func (p *Plan) peelAt(sup Support, kappa, s, bond float64) brace.Peel {
	v := p.V
	return brace.PeelAt(kappa, p.stiffness()(s), sup.share(s), v.Sheet.T, p.softness(),
		brace.Glue{Width: sup.Thickness, Bond: bond})
}

// badEnd returns the low end of a strength, where one is known.
func badEnd(f stock.Figure) float64 {
	if f.Low > 0 && f.Low < f.Value {
		return f.Low
	}
	return f.Value
}

// badBond is what the glue line holds at the bad end of what is known.
func (p *Plan) badBond() float64 { return badEnd(p.V.Rib.GlueBond) }

// Scores returns how many scores are cut: those of the curve that the panel reaches.
func (p *Plan) ScoresCut() int { return len(p.Scores.Layout.Folds) - len(p.Panel.Flat.Outside) }

// Place returns the place along the flat panel over arc length s of the edge.
func (p *Plan) Place(s float64) float64 { return p.Scores.places.U(s) }

// rib makes the ribs; those alike are one part.
func rib(p *Plan) bool {
	for i := range p.Supports.All {
		s := &p.Supports.All[i]
		s.Kind = p.kindOf(*s)
		if s.Kind < len(p.Ribs.Kinds) {
			p.Ribs.Kinds[s.Kind].Quantity += p.V.Panel.Quantity
			s.Task = p.Ribs.Kinds[s.Kind].Task
			continue
		}
		t := &s.Task
		t.ID = "rib" + strconv.Itoa(s.Kind+1)
		t.Name = "rib"
		if len(p.Supports.All) > 1 {
			t.Name = "rib " + strconv.Itoa(s.Kind+1)
		}
		t.Quantity = p.V.Panel.Quantity
		if !p.deepEnough(*t) {
			return false
		}
		for k := range p.Ribs.Kinds { // one that differs in its foot or stock alone
			if o := p.Ribs.Kinds[k].Task; math.Abs(o.Start-t.Start) <= ribsAlike && math.Abs(o.End-t.End) <= ribsAlike {
				t.Start, t.End, t.Like = o.Start, o.End, &p.Ribs.Kinds[k].Rib
			}
		}
		made := RibPart{Task: *t}
		if p.Section.Closed {
			made.Rib = part.NewFormer(*t)
		} else {
			made.Rib = part.NewRib(*t)
		}
		p.Ribs.Kinds = append(p.Ribs.Kinds, made)
	}
	shown := p.Ribs.Kinds[p.Supports.All[p.Supports.Longest].Kind]
	p.Ribs.Rib, p.Ribs.Task = shown.Rib, shown.Task
	p.shoulders()
	return true
}

// kindOf returns the kind of rib that a support can be cut as, or a new one.
func (p *Plan) kindOf(s Support) int {
	for k, r := range p.Ribs.Kinds {
		for _, o := range p.Supports.All {
			if o.Task.ID == r.Task.ID && o.Task.ID != "" && alikeRibs(s, o) {
				return k
			}
		}
	}
	return len(p.Ribs.Kinds)
}

func alikeRibs(a, b Support) bool {
	return a.Task.From.Same(b.Task.From) && a.Thickness == b.Thickness && a.Foot == b.Foot &&
		math.Abs(a.Task.Start-b.Task.Start) <= ribsAlike && math.Abs(a.Task.End-b.Task.End) <= ribsAlike
}

// Fits tells whether no rib's back edge runs into itself.
func (p *Plan) Fits(t part.RibTask) bool {
	share, _ := t.Deepest()
	return p.Section.Closed || share <= 0.95
}

// deepEnough stops a rib whose back edge would run into itself.
func (p *Plan) deepEnough(t part.RibTask) bool {
	if p.Fits(t) {
		return true
	}
	share, s := t.Deepest()
	deep := t.DepthAt(s)
	return p.stop("rib-too-deep", "rib.footDepth",
		"The rib is "+p.len(deep)+" deep where its edge bends at a radius of "+p.len(deep/share)+
			", "+p.len(s)+" from the foot: its back edge would run into itself. Make it shallower there.",
		map[string]float64{"depth": deep, "radius": deep / share, "at": s})
}

// hold works out how hard the panel pulls and whether ribs and glue stand it.
func hold(p *Plan) bool {
	for i := range p.Supports.All {
		p.Supports.All[i].Hold = p.holds(p.Supports.All[i])
	}
	p.Strength.Hold = p.Supports.All[0].Hold
	for i, s := range p.Supports.All[1:] {
		h, n := &p.Strength.Hold, s.Hold
		h.Moment = math.Max(h.Moment, n.Moment)
		h.RibBad = math.Max(h.RibBad, n.RibBad)
		if n.RibUse > h.RibUse {
			h.RibUse, h.Rib.Stress, h.Rib.StressAt, h.Weakest = n.RibUse, n.Rib.Stress, n.Rib.StressAt, i+1
		}
		if n.Rib.Movement > h.Rib.Movement {
			h.Rib.Movement, h.Softest = n.Rib.Movement, i+1
		}
		if n.Peel.Use > h.Peel.Use {
			h.Peel = n.Peel
		}
		h.FootStraight, h.TipStraight = math.Min(h.FootStraight, n.FootStraight), math.Min(h.TipStraight, n.TipStraight)
	}
	p.Strength.Hold.EndForce = p.endForce()
	return true
}

// holds is hold for one rib.
func (p *Plan) holds(s Support) Hold {
	var h Hold
	stiff := p.stiffness()
	pulls := make([]brace.Pull, 0, len(p.Across.s))
	t := s.Task
	for _, arc := range p.Across.s {
		if arc < t.Start || arc > t.End {
			continue
		}
		st := p.Section.Edge.At(arc)
		m := brace.Moment(math.Abs(st.Kappa), stiff(arc), s.share(arc))
		pulls = append(pulls, brace.Pull{S: arc, P: st.P, Moment: m, Depth: t.DepthAt(arc)})
		h.Moment = math.Max(h.Moment, m)
	}
	if p.Section.Closed {
		pulls = nil // a former is a plate: it does not bend
	}
	h.Rib = brace.Hold(pulls, brace.Beam{Thickness: s.Thickness, E: s.E.Value})
	if s.MOR.Value > 0 {
		h.RibUse, h.RibBad = h.Rib.Stress/s.MOR.Value, h.Rib.Stress/badEnd(s.MOR)
	}
	foot, tip := math.Max(t.Start, p.Section.Foot()), math.Min(t.End, p.Section.LastBend())
	bond := p.badBond()
	h.FootPeel, h.TipPeel = p.peelAt(s, p.Section.curvatureAfter(foot), foot, bond), p.peelAt(s, p.Section.curvatureBefore(tip), tip, bond)
	h.Peel = h.FootPeel
	if h.TipPeel.Use > h.Peel.Use {
		h.Peel = h.TipPeel
	}
	h.FootStraight, h.TipStraight = foot-t.Start, math.Max(0, t.End-p.Section.LastBend())
	return h
}

// endForce is the pull at the panel's tip: where the last rib that holds it ends, or
// where the last bend does before that. Of the whole last bend the place counts that needs
// most: its moment, over the whole width there, over what is left of the panel as lever. On
// an arc that is the bend's end; a smooth curve may run out straight there.
func (p *Plan) endForce() float64 {
	end := 0.0
	for _, s := range p.Supports.All {
		end = math.Max(end, s.Task.End)
	}
	at := math.Min(math.Max(end, p.panelEnd()-p.Section.Tip()), p.Section.LastBend())
	tail := math.Max(0, p.panelEnd()-p.Section.LastBend())
	stiff, whole := p.stiffness(), p.Across.widths(math.Inf(-1), math.Inf(1))
	most := 0.0
	for _, s := range p.lastBendTo(at) {
		k := p.Section.curvatureBefore(s)
		if k == 0 {
			continue
		}
		lever := tail + at - s
		if tail == 0 && lever*lever*k < 6*p.V.Rib.EndGap {
			lever = 0 // so near the end it is the accepted gap that counts
		}
		most = math.Max(most, brace.EndForce(k, stiff(s), whole(s), lever, p.V.Rib.EndGap))
	}
	return most
}

// lastBendTo returns at, and the scores before it in the last bend: in all that turns one
// way.
func (p *Plan) lastBendTo(at float64) []float64 {
	all := p.Section.Edge.Stretches()
	first, sign := at, 0
	for i := len(all) - 1; i >= 0 && (sign == 0 || all[i].Sign == sign); i-- {
		if st := all[i]; st.Sign != 0 && st.Start < at {
			first, sign = st.Start, st.Sign
		}
	}
	out := []float64{at}
	for i := len(p.Scores.Layout.Folds) - 1; i >= 0 && p.Scores.Layout.Folds[i].S >= first; i-- {
		if s := p.Scores.Layout.Folds[i].S; s < at {
			out = append(out, s)
		}
	}
	return out
}
