package plan

import (
	"math"
	"slices"
	"strconv"

	"springrib/internal/brace"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/outline"
	"springrib/internal/part"
	"springrib/internal/solve"
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
	// Of a ring in a cone: how high over the narrow rim its narrow face lies, along the axis, and
	// what its square edge leaves open at the other face, square to the panel, mm.
	Height, Wedge float64
	share         func(s float64) float64 // width held at arc length s, mm
	// Of a rib in part of a cone: how many times as long as the panel's edge its own is, where that
	// bends: from foot on over bend. 0 where the two are one.
	wider, foot, bend float64
}

// along returns the place along the rib's own edge that lies at arc length s of the panel's.
func (s *Support) along(arc float64) float64 {
	if s.wider == 0 {
		return arc
	}
	return arc + (s.wider-1)*math.Max(0, math.Min(arc-s.foot, s.bend))
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
	if p.Section.Cone != nil {
		return rings(p)
	}
	places := p.ribPlaces()
	for i, at := range places {
		s := Support{RibPlaceValues: at, Lo: math.Inf(-1), Hi: math.Inf(1)}
		if i > 0 {
			s.Lo = (places[i-1].Across + at.Across) / 2
		}
		if i+1 < len(places) {
			s.Hi = (at.Across + places[i+1].Across) / 2
		}
		s.share = p.Across.Widths(s.Lo, s.Hi)
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
	case kappa == 0 || tip >= p.pull().peelAt(s, kappa, total-tip, r.GlueBond.Value).Length+ShortOfTip:
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
		From: p.V.From(s.Stock, s.Thickness, s.StockAt), Edge: p.Section.Edge, PanelLeft: p.Section.PanelLeft, Start: start, End: end,
		FootDepth: r.FootDepth, TipDepth: r.TipDepth, TipRound: r.TipRound, Kerf: p.V.Machine.Kerf, Tolerance: outline.Tolerance, Quick: p.draft,
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

// ScoresCut returns how many scores are cut: those of the curve that the panel reaches.
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
		if p.Section.Cone != nil && p.Section.Closed {
			t.Name = "ring"
		}
		if len(p.Supports.All) > 1 {
			t.Name += " " + strconv.Itoa(s.Kind+1)
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
	return (a.Task.Hub == nil) == (b.Task.Hub == nil) && a.Task.From.Same(b.Task.From) && a.Thickness == b.Thickness && a.Foot == b.Foot &&
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

// shoulders tells of a stub or tenon that leaves too little of its foot, or none: it is then
// cut no wider than the foot. A shoulder narrower than half the rib's thickness breaks off.
// Common practice, no source.
func (p *Plan) shoulders() {
	r := p.V.Rib
	on := slices.IndexFunc(p.Supports.All, func(s Support) bool { return s.Task.Stub != nil })
	shoulder := (r.FootDepth - r.StubWidth) / 2
	if on < 0 || shoulder >= r.Thickness/2-1e-9 {
		return
	}
	s := p.Supports.All[on]
	what := "tenon"
	if s.Foot == design.Stub {
		what = "stub"
	}
	f := finding.Finding{ID: "tenon-wide", Severity: finding.Warn, Place: finding.Place{Part: p.Ribs.Kinds[s.Kind].ID, Field: "rib.stubWidth"},
		Text: "The " + what + " leaves shoulders of only " + p.len(math.Max(0, shoulder)) + " on the foot.", Numbers: map[string]float64{"shoulder": shoulder}}
	if shoulder < 0 {
		f.Text = "The " + what + " is wider than the foot, so it is cut as wide as the foot and has no shoulders to stand on."
	}
	p.Findings = append(p.Findings, f)
}
