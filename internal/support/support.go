// Package support is where ribs stand under the panel, and whether they and their glue hold it.
//
// New takes the panel on its curve, with its outline, its scores and its stiffness along the
// edge. It returns each rib at its place across, how far it reaches, the width that it holds, and
// the panel's ends past all ribs. Holds asks what panel, ribs and glue come to while the panel
// pulls, and Settles once the clamps are off; the mechanics are those of package brace.
package support

import (
	"math"
	"strconv"

	"springrib/internal/brace"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/outline"
	"springrib/internal/part"
	"springrib/internal/score"
	"springrib/internal/section"
	"springrib/internal/solve"
	"springrib/internal/state"
)

// Task is the panel that ribs are to hold, and what was typed of them.
type Task struct {
	Values  *design.Values
	Section *section.Section
	Layout  *score.Layout
	Places  score.Places
	Outline *outline.Outline
	Width   float64 // of the panel, mm
	Across  outline.Across
	Stiff   func(s float64) float64 // EI per width of the panel along the edge
	Draft   bool
}

func (p *Task) scoring() state.Scoring {
	return state.Scoring{Sheet: &p.Values.Sheet, Machine: &p.Values.Machine}
}

// making is supports in the making.
type making struct {
	*Task
	finding.Notes
	out Supports
}

// New finds where ribs stand, what each holds and how far each reaches; ok is false where
// one has no place on the panel.
func New(t *Task) (out Supports, said []finding.Finding, ok bool) {
	p := making{Task: t, Notes: finding.Notes{Units: t.Values.Units}}
	ok = p.make()
	return p.out, p.All, ok
}

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
	// Seat is that of a rib whose panel's scores run apart.
	section.Seat
	Share func(s float64) float64 // width held at arc length s, mm
}

// Along returns the place along the rib's own edge that lies at arc length s of the panel's.
func (s *Support) Along(arc float64) float64 {
	if s.Seat.Along == nil {
		return arc
	}
	return s.Seat.Along(arc)
}

// Alike is how far the ends of two ribs may lie apart along the edge and they are
// still cut as one part, mm: the same place of a mirrored outline, fitted.
const Alike = 0.05

// make finds where ribs stand, what each holds and how far each reaches.
func (p *making) make() bool {
	if p.Section.Ruled() {
		return p.rings()
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
		s.Share = p.Across.Widths(s.Lo, s.Hi)
		u0, u1, ok := p.Covers(at.Across, at.Thickness)
		if !ok {
			s.Narrow = true
			if u0, u1, ok = p.Covers(at.Across, 0); !ok {
				return p.Stop("rib-off-panel", p.ribField(at, "across"), "The rib "+p.Len(at.Across)+
					" across lies off the panel. Move it onto the panel.", map[string]float64{"across": at.Across})
			}
		}
		if on := math.Min(p.Section.Edge.Length(), p.Places.S(u1)) - math.Max(0, p.Places.S(u0)); on < 1 && !p.Section.Closed {
			how := "none"
			if on > 0.01 {
				how = "only " + p.Len(on)
			}
			return p.Stop("rib-off-panel", p.ribField(at, "across"), "The rib "+p.Len(at.Across)+
				" across has "+how+" of the curve under the panel to stand on. Move it, or the panel along the curve.", map[string]float64{"across": at.Across, "on": on})
		}
		p.placeMark(&s, u0, u1)
		p.out.All = append(p.out.All, s)
	}
	// The side view shows the longest, the first of equal ones.
	for i, s := range p.out.All {
		if long := p.out.All[p.out.Longest].Task; s.Task.End-s.Task.Start > long.End-long.Start+Alike {
			p.out.Longest = i
		}
	}
	p.out.Mark = p.out.All[p.out.Longest].Mark
	p.freeEnds()
	return true
}

// ribField returns the field of a rib with a place of its own, else that of all ribs.
func (p *Task) ribField(at design.RibPlaceValues, name string) string {
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
func (p *making) placeMark(s *Support, u0, u1 float64) {
	r := p.Values.Rib
	start := math.Max(0, p.Places.S(u0))
	total := math.Min(p.Section.Edge.Length(), p.Places.S(u1))
	if p.Section.Closed {
		start, total = 0, p.Section.Edge.Length()
	}
	tip := math.Max(0, total-p.Section.LastBend())
	kappa := p.Section.CurvatureBefore(total)
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
	s.Mark = Mark{Across: s.Across, From: u0 - r.MarkStart, To: p.Layout.At(p.Section.Edge, end), Turned: !p.Section.Towards}
	if p.Section.Closed { // the former goes all round, the panel perhaps not
		s.Mark.To = math.Min(s.Mark.To, u1)
	}
	s.Mark.End = p.Strays(end, p.PanelEnd())
	s.Task = part.RibTask{
		From: p.Values.From(s.Stock, s.Thickness, s.StockAt), Edge: p.Section.Edge, PanelLeft: p.Section.PanelLeft, Start: start, End: end,
		FootDepth: r.FootDepth, TipDepth: r.TipDepth, TipRound: r.TipRound, Kerf: p.Values.Machine.Kerf, Tolerance: outline.Tolerance, Quick: p.Draft,
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
func (p *Task) within(s, most float64) float64 {
	if end := p.PanelEnd(); p.TooFar(p.Strays(s-most, end)) {
		least, _ := solve.Root(func(f float64) float64 { return p.Strays(s-f, end).Gap - p.Values.Rib.EndGap }, 0, most, 1e-9)
		return math.Max(0, least)
	}
	return most
}

// ShortOfTip keeps glue and rib out of sight at the tip, mm. Common practice, no
// source.
const ShortOfTip = 2

// Supports are the ribs at their places.
type Supports struct {
	All []Support // in order across the panel
	// Longest is the index of the one that the side view shows; Mark is its.
	Longest int
	Mark    Mark
	// FootEnd and TipEnd are the panel's ends past all ribs.
	FootEnd, TipEnd End
}

// Mark is the line on the panel that shows where a rib goes. Its End is the panel past
// the rib's tip.
type Mark struct {
	Across   float64 // of the line, mm
	From, To float64 // along the flat panel, mm
	Turned   bool    // it lies on the unscored face: mark by hand, or turn the sheet over
	End
}

// Hold is how hard the panel pulls and whether a rib holds it; that of a Plan is the
// worst of all ribs, figure by figure.
type Hold struct {
	Moment   float64 // greatest, N mm over one rib's share of the width
	EndForce float64 // N at the free end, over the whole width; only of a Plan
	Rib      brace.Strength
	RibUse   float64 // stress over strength
	RibBad   float64 // the same at the low end of its strength
	// Weakest and Softest are indices in Supports; only of a Plan.
	Weakest, Softest  int
	Peel              brace.Peel // the worse of the two ends
	FootPeel, TipPeel brace.Peel
	// FootStraight and TipStraight are the straight lengths that are glued at the ends.
	FootStraight, TipStraight float64
}
