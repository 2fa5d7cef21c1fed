// Package plan is the whole road from what a person wants to what is cut, in one
// function: Make. Each stage of it is a field of Plan, so that a reader can follow
// the design through, and a test can look in anywhere.
package plan

import (
	"springrib/internal/chance"
	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/form"
	"springrib/internal/hinge"
	"springrib/internal/lay"
	"springrib/internal/learn"
	"springrib/internal/outline"
	"springrib/internal/part"
	"springrib/internal/score"
	"springrib/internal/section"
	"springrib/internal/stand"
	"springrib/internal/support"
	"springrib/internal/surface"
)

// Plan is a design worked out: the results of its stages in the order they are made.
// When one can't go on, it adds a stop to Findings, Drawn stays false and the later
// results are empty.
type Plan struct {
	Asked    *design.Values    // by the person; nothing is written to it
	V        design.Values     // Asked, with what test strips said: what is worked with
	Findings []finding.Finding // from the stages themselves; package check adds the rest
	Drawn    bool

	Readings learn.Readings
	Line     curve.Curve // the line that the person asks for, its straight ends included
	Section  section.Section
	Size     outline.Size
	Scores   Scores
	Outline  outline.Outline
	Across   outline.Across
	Supports support.Supports
	Panel    Panel
	Ribs     Ribs
	Caul     *RibPart    // the block that presses the panel on, nil for none
	Base     *stand.Base // the plate that ribs stand in, nil for none
	Strength Strength
	Proof    Proof
	Lay      lay.Lay

	memory *Memory
	draft  bool // see Draft
	alone  bool // see Alone
}

// Scores is where the scores lie, and how near they come to their limits.
type Scores struct {
	Tries    []Try // one a number of passes
	Chosen   int   // index in Tries
	Layout   score.Layout
	Cases    []score.Case
	Cracking Use
	Pinching Use

	places score.Places
	stiff  func(s float64) float64
	told   int // how many findings there were before any were chosen
}

// Panel is the panel with its scores, flat and bent.
type Panel struct {
	Overrun float64
	Strip   surface.Strip // rulings with places as rounded in the file
	Bent    surface.Strip // the same as the panel lies: straight past the ribs
	Flat    part.Panel
	Mirror  bool // the panel is drawn turned over

	// Fan is where a cone lies flat, nil for a cylinder.
	Fan *surface.Fan
	// Net is where a panel between two sections lies flat, nil for any other.
	Net *surface.Net

	frames []surface.Frame // of Bent
}

// Ribs are the different ribs that are cut.
type Ribs struct {
	Kinds []RibPart
	// Task and Rib are those of the longest, which the side view shows.
	Task part.RibTask
	Rib  part.Rib
}

// Strength is whether ribs and glue stand the panel's pull.
type Strength struct {
	Hold    support.Hold
	Bond    support.Bond
	Settled support.Settled
}

// Proof is the panel folded up again and measured, and what its figures may be off by.
type Proof struct {
	Fit    form.Fit
	Flats  Use
	Ranges Ranges
	Chance Chance
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
	Out              Reason  // why it won't do
	Against          Reason  // what speaks against a sound one once it is glued, where that was asked
	Moment, EndForce float64
	// Chance is that of a sound one, with scores as long as the panel is wide, where Asked.
	Chance chance.Chances
	Asked  bool

	Limits []score.Case // that the scores lie at
	Laid   int          // how many scores were laid to find them
}

// Sound tells whether nothing speaks against it.
func (t *Try) Sound() bool { return t.Out == Sound }

// Law returns the law of the chosen scores.
func (p *Plan) Law() hinge.Law { return p.Scores.Tries[p.Scores.Chosen].Law }

// Try returns the chosen try.
func (p *Plan) Try() *Try { return &p.Scores.Tries[p.Scores.Chosen] }

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

// Make works the design out.
func Make(v design.Values) Plan { return new(Memory).Make(v) }

// Make is the same with what was found out before.
func (m *Memory) Make(v design.Values) Plan { return m.make(Plan{Asked: &v, memory: m}) }

// Draft is Make for what is only looked at, and will be another design in a moment: edges
// are fitted within the same tolerance, but sooner and in more pieces, and what is cut is
// in no order and has no times.
func (m *Memory) Draft(v design.Values) Plan { return m.make(Plan{Asked: &v, memory: m, draft: true}) }

// Alone is Make without what the numbers of passes that are not taken would come to.
func (m *Memory) Alone(v design.Values) Plan { return m.make(Plan{Asked: &v, memory: m, alone: true}) }

func (m *Memory) make(p Plan) Plan {
	for s := range Stages {
		if !p.Run(s) {
			return p
		}
		if s == StageSettled {
			p = *p.easier()
		}
	}
	p.Drawn = true
	return p
}

// Stage is one step on the way. Each leaves its result in a field of Plan, and asks for
// those that stand before it.
type Stage int

// The stages, in the order in which they are made.
const (
	StageReadings Stage = iota // Readings, and V
	StageLine
	StageSection
	StageSize
	StageScores
	StageOutline
	StageAcross
	StageSupports
	StagePanel
	StageRibs
	StageCaul
	StageBase
	StageHold    // the first part of Strength
	StageSettled // the rest of it
	StageProof
	StageRanges
	StageChance
	StageTries // what else a person chooses by, added to Scores.Tries
	StageLay
	Stages // how many there are
)

// Run makes stages, and tells whether none of them stops.
func (p *Plan) Run(stages ...Stage) bool {
	make := [Stages]func(*Plan) bool{
		learns, lines, sections, sizes, scores, outlines, acrosses, supports, panel, rib, caul, bases, holds, settles, refold, ranges, likely, compare, lays,
	}
	for _, s := range stages {
		if !make[s](p) {
			return false
		}
	}
	return true
}

// Other works another design out, with what this one found out.
func (p *Plan) Other(v design.Values) Plan {
	if p.memory == nil {
		return Make(v)
	}
	return p.memory.Make(v)
}

// Anew returns a plan of the same values that nothing is made of yet. V can be changed, and
// what stays as it is in p taken over, result by result, before the stages that differ run.
func (p *Plan) Anew() *Plan {
	return &Plan{Asked: p.Asked, V: p.V, memory: p.memory, draft: p.draft, alone: p.alone}
}
