// Package score decides where the scores of a panel fall, and how far each folds.
//
// A scored panel bent on a rib is a chain of flats. The package builds that chain
// exactly: each flat is the line that the panel's contact face lies on, each fold
// the intersection of two such lines shifted to the fibre that keeps its length.
// Nothing is laid off along an offset curve, so the panel ends where it should.
//
// Positive turning means that the contact edge bulges toward the panel (the panel
// wraps the rib); negative, that the panel lies in a cradle.
package score

import (
	"math"

	"springrib/internal/curve"
	"springrib/internal/hinge"
	"springrib/internal/plane"
)

// Rule says how the spacing is chosen.
type Rule uint8

// The rules.
const (
	Follow Rule = iota // the widest spacing allowed at each place
	Even               // one spacing that is allowed everywhere
	Count              // Task.Number scores, spread evenly
	Pitch              // Task.Pitch, or a little less so that a whole number fits
)

// Case is one state of sheet and machine that the spacing must be sound for: the
// nominal one with its safety factors, the bad end of the range with factor one.
type Case struct {
	Law     hinge.Law
	Strain  float64 // strain the skin may reach, factor used up; 0 = not limited
	Closing float64 // factor on closing: theta_e * lx * Closing <= w; 0 = not limited
}

// Limits holds what bounds the spacing at each place. Cases[0] is the nominal state,
// whose law also places the folds.
type Limits struct {
	Cases    []Case
	StandOff float64 // height of the flats over the rib edge, mm; 0 = not limited
	Fold     float64 // turning of one score, rad; 0 = not limited
	Land     float64 // least sound land between two scores, mm
	// Wider is how many times as far apart the scores are at their other end than on the edge,
	// and as many times as large the radius that they bend to there: 1 and more on a cone,
	// whose edge is the narrow one. 0 stands for 1: scores that run parallel.
	Wider float64
}

// ends returns by how much the spacing is wider at the ends that differ.
func (lim *Limits) ends() []float64 {
	if lim.Wider > 1 {
		return []float64{1, lim.Wider}
	}
	return []float64{1}
}

// StandIn returns how far the fibre that keeps its length lies from the contact face, among
// scores p apart. towards says that the scored face is the contact face.
func StandIn(l hinge.Law, p float64, towards bool) float64 {
	return side{towards: towards}.standIn(l, p)
}

// wider returns how many times as far apart scores are at their other end at arc length s.
func (t *Task) wider(s float64) float64 {
	if t.Wider == nil {
		return t.Limits.Wider
	}
	return t.Wider(s)
}

// Task is what Lay needs to know.
type Task struct {
	Edge          curve.Curve // the contact edge, foot first, straight ends included
	PanelLeft     bool        // the panel lies to the left of the edge as it runs
	ScoredTowards bool        // the scored face is the one that meets the rib
	Limits        Limits
	Rule          Rule
	Number        int     // for Count
	Multiple      int     // where above 1, each bend that wraps gets a multiple of so many folds
	Pitch         float64 // for Pitch, mm
	// Wider is Limits.Wider where that changes along the edge; nil for nowhere.
	Wider func(s float64) float64
	Laws  *Laws // what was asked of the laws before; nil for nothing
}

// Bound names what holds the spacing down at a place.
type Bound string

// The bounds.
const (
	ByStrain   Bound = "cracking"
	ByClosing  Bound = "pinching"
	ByStandOff Bound = "flats"
	ByFold     Bound = "finish"
	ByLand     Bound = "land"   // nothing wider than the least land is sound
	ByChoice   Bound = "choice" // the person fixed it
	ByLaw      Bound = "law"    // nothing binds up to the widest spacing the law is checked for
)

// Spacing is the spacing at one curvature.
type Spacing struct {
	Pitch   float64 // in developed length, centre to centre, mm
	D       float64 // contact face to neutral fibre, mm
	Bound   Bound
	Reached bool // false: even the least spacing breaks the bound Failed
	Failed  Bound
}

// Fold is one score, bent.
type Fold struct {
	U           float64 // place along the flat panel from the foot edge, mm
	S           float64 // arc length of the contact edge under it, mm
	Theta       float64 // what it turns, positive when the edge bulges to the panel
	D           float64 // contact face to the fibre it pivots about, mm
	Pivot       plane.Point
	Left, Right float64 // to the next scores along the panel; +Inf at a straight end
	Wider       float64 // how many times as far apart they are at the other end of the score; 1 or 0 as far
	Closing     bool    // the mouth closes as it bends
	State       hinge.FoldState
}

// Flat is the line that one flat's contact face lies on.
type Flat struct {
	P     plane.Point // a point of the contact face
	Dir   float64     // heading of the line
	S     float64     // arc length of the edge that it belongs to
	Chord bool        // touches the edge with its corners, not with its middle
	U     float64     // developed place of P
	run   int         // the curved stretch it turns in, -1 for a straight
}

// Layout is the whole chain.
type Layout struct {
	Folds  []Fold
	Flats  []Flat  // one more than Folds
	Length float64 // developed length of the whole edge, mm
	Runs   []Run
}

// Run is what became of one curved stretch.
type Run struct {
	Start, End float64 // arc length of the contact edge
	Count      int     // flats turned within it
	Spacing    Spacing // as wanted at its tightest place
	Pitch      float64 // as laid, the mean over the run, mm
	Radius     float64 // least radius of the contact edge, mm
	Wraps      bool    // the panel wraps the rib here
	Closing    bool    // scores close here
}

// runEnd is how far past its ends a place still belongs to a run, mm: the ends are sums.
const runEnd = 1e-6

// Holds tells whether a place of the edge lies in the run, its ends included.
func (r *Run) Holds(s float64) bool { return s >= r.Start-runEnd && s <= r.End+runEnd }

// Inside returns the place of the run nearest to s at which the edge bends as the run does,
// and not as what is next to it.
func (r *Run) Inside(s float64) float64 {
	return math.Min(math.Max(s, r.Start+runEnd), r.End-runEnd)
}

// RunAt returns the first run that holds a place of the edge, nil on a straight.
func (l *Layout) RunAt(s float64) *Run {
	for i := range l.Runs {
		if r := &l.Runs[i]; r.Holds(s) {
			return r
		}
	}
	return nil
}
