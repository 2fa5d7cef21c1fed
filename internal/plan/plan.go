// Package plan is the whole road from what a person wants to what is cut, in one
// function: Make. Each stage of it is a field of Plan, so that a reader can follow
// the design through, and a test can look in anywhere.
package plan

import (
	"springrib/internal/brace"
	"springrib/internal/coupon"
	"springrib/internal/curve"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/form"
	"springrib/internal/hinge"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/score"
	"springrib/internal/sheet"
	"springrib/internal/stock"
	"springrib/internal/surface"
)

// Plan is a design worked out. The stages stand in the order they are made; when one
// can't go on, it adds a stop to Findings, Drawn stays false and the later stages are
// empty.
type Plan struct {
	V        design.Values
	Findings []finding.Finding // from the stages themselves; package check adds the rest
	Drawn    bool
	// What was believed before test strips and after; nil without readings. V holds what
	// they said already.
	Believed *coupon.Belief
	Learned  *coupon.Learned

	// The section.
	Edge      curve.Curve // contact edge with its straight ends, foot first
	PanelLeft bool        // the panel lies to the left of the edge
	Towards   bool        // the scored face meets the rib
	Closed    bool        // the edge goes all round; the panel's ends meet or lap

	// The scores.
	Tries  []Try // one a number of passes
	Chosen int   // index in Tries
	Layout score.Layout
	Cases  []score.Case

	// The parts.
	Outline plane.Region // of the panel, flat, seen from the show face
	// DrawnMarks came with an outline drawn elsewhere and lie on the flat panel likewise.
	DrawnMarks []plane.Path
	From, To   float64       // its ends along the bend, from the foot of the curve
	Length     float64       // between them, mm
	Strip      surface.Strip // rulings with places as rounded in the file
	Bent       surface.Strip // the same as the panel lies: straight past the ribs
	Panel      part.Panel
	Mirror     bool      // the panel is drawn turned over
	Supports   []Support // ribs at their places, in order across the panel
	Ribs       []RibPart // different ribs that are cut
	Caul       *RibPart  // the block that presses the panel on, nil for none
	Base       *BasePart // the plate that ribs stand in, nil for none
	Longest    int       // index in Supports of the one that the side view shows: RibTask, Rib and Mark are its
	RibTask    part.RibTask
	Rib        part.Rib
	Mark       Mark
	// FootEnd and TipEnd are the panel's ends past all ribs.
	FootEnd, TipEnd End

	// What comes of it.
	Fit      form.Fit
	Cracking Use
	Pinching Use
	Flats    Use
	Hold     Hold
	Ranges   Ranges
	Bond     Bond
	Settled  Settled

	// What is cut.
	Overrun float64
	Sheets  []Group
	Jobs    []cut.Job
	Times   []cut.Estimate // of Jobs, index by index
	Beds    []plane.Region // of Jobs: the outline of a scrap, empty for a whole sheet
	Froms   []stock.Sheet  // of Jobs: what is cut from

	memory   *Memory
	draft    bool    // see Draft
	ring     float64 // radius that the panels of a ring stand at
	simple   bool    // the wanted curve is known to run into itself nowhere
	places   score.Places
	drawn    drawing // the panel's, when it was drawn elsewhere
	sections sections
	flats    []surface.Frame        // of Bent
	works    map[string][]part.Work // as cut, by part
	stiff    func(s float64) float64
	trying   bool // a change is being tried: none is offered for what stops it
}

// Try is what one number of passes would give.
type Try struct {
	Passes           int
	Skin             float64 // left, mm
	Law              hinge.Law
	Layout           score.Layout
	Cracking         Use
	Pinching         Use
	Least, Most      float64 // spacing as laid, mm
	StandOff         float64 // of the flats, mm
	Seconds          float64 // scoring time, 0 when no speed is known
	Sound            bool
	Out              string // why not, "" when sound
	Moment, EndForce float64

	cases []score.Case // the limits that the scores lie at
	laid  int          // how many scores were laid to find them
}

// Law returns the law of the chosen scores.
func (p *Plan) Law() hinge.Law { return p.Tries[p.Chosen].Law }

// Try returns the chosen try.
func (p *Plan) Try() Try { return p.Tries[p.Chosen] }

// Use is how near the worst score comes to a limit: Value 1 is the limit itself.
type Use struct {
	Value   float64
	Low     float64 // at the good end of the range
	Bad     float64 // at the bad end of the range
	Allowed float64 // value at which the safety factor is used up
	Score   int     // the worst score, from 1; 0 when there is none
}

// Sound tells whether the factor holds on the nominal value and one at the bad end.
func (u Use) Sound() bool { return u.Value <= u.Allowed+1e-9 && u.Bad <= 1+1e-9 }

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

// Group is the sheets of one stock and thickness.
type Group struct {
	From   stock.Sheet
	Job    sheet.Job
	Parts  []part.Part // of Job.Pieces, index by index
	Layout sheet.Layout
	Packed bool // by their real outlines; else in rows
}

// Memory is what one plan found out that the next, of much the same design, asks for again.
// It changes no answer. One is for one plan at a time.
type Memory struct{ laws score.Laws }

// Make works the design out.
func Make(v design.Values) Plan { return new(Memory).Make(v) }

// Make is the same with what was found out before.
func (m *Memory) Make(v design.Values) Plan { return m.make(Plan{V: v, memory: m}) }

// Draft is Make for what is only looked at, and will be another design in a moment: edges
// are fitted within the same tolerance, but sooner and in more pieces, and what is cut is
// in no order and has no times.
func (m *Memory) Draft(v design.Values) Plan { return m.make(Plan{V: v, memory: m, draft: true}) }

func (m *Memory) make(p Plan) Plan {
	for _, stage := range []func(*Plan) bool{
		learn, section, size, scores, outline, supports, panel, rib, caul, base, hold, settles, refold, ranges, compare, lay,
	} {
		if !stage(&p) {
			return p
		}
	}
	p.Drawn = true
	return p
}
