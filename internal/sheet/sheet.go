// Package sheet lays parts on sheets: in rows (Rows), or close together by their
// real outlines (Search). Verify checks a layout by other means than those that made it.
//
// A part is its outline and everything else that the tool runs over for it, such as
// scores that run out past the edge. Between any two parts on a sheet stays the gap,
// a sound bridge of material: neither the outline nor a tool path of one part comes
// nearer than the gap to the area of another. Overruns of two neighbours may share
// the strip between them. Everything, overruns too, stays off the sheet's margin.
//
// A Job is about one kind of sheet goods; a design cut from two has two jobs.
package sheet

import (
	"math"

	"springrib/internal/plane"
)

// MaxParts is the largest number of parts that a job lays; copies beyond it are
// reported as missing. It keeps a slip of the keyboard from using up the memory.
const MaxParts = 2000

// MaxSheets is the largest number of sheets of a layout.
const MaxSheets = 500

// Place says where a part lies: turned by Turn radians counter-clockwise about its
// own origin, then moved by (X, Y) mm from the sheet's origin. Sheet counts from 0.
type Place struct {
	Sheet      int
	X, Y, Turn float64
}

// Move returns the map from the part's coordinates to the sheet's.
func (p Place) Move() plane.Affine {
	return plane.Translate(p.X, p.Y).Mul(plane.Rotate(p.Turn))
}

func (p Place) at() plane.Point { return plane.Pt(p.X, p.Y) }

// Piece is a part to lay, in mm about an origin of its own.
type Piece struct {
	ID      string
	Name    string       // what the person calls it; its ID where empty
	Outline plane.Region // what is cut free; holes are cut out
	// Reach is every tool path that may leave the outline: scores with their
	// overrun, marks that start outside. Paths inside the outline do no harm.
	Reach    []plane.Path
	Quantity int
	// Turns are the allowed turns in radians, nil for 0 only. Where grain counts,
	// these are 0 and pi; a part is never turned over.
	Turns []float64
	// Pins are the places of the first len(Pins) copies, which stay where they are
	// at whatever turn.
	Pins []Place
}

func (p *Piece) turns() []float64 {
	if len(p.Turns) == 0 {
		return []float64{0}
	}
	return p.Turns
}

// Bed is a sheet, or a number of equal sheets.
type Bed struct {
	// Outline is the usable shape, such as a scrap's; when its outer path is empty
	// the sheet is the rectangle from the origin to (W, H).
	Outline plane.Region
	W, H    float64
	Margin  float64 // kept free along the edge, mm
	Count   int     // how many there are; 0 for as many as are needed
}

// Region returns the outline of b.
func (b *Bed) Region() plane.Region {
	if len(b.Outline.Outer.Segs) > 0 {
		return b.Outline
	}
	return plane.Region{Outer: plane.RectPath(plane.BoxOf(plane.Point{}, plane.Pt(b.W, b.H)))}
}

// rectangle reports whether b is given by W and H.
func (b *Bed) rectangle() bool { return len(b.Outline.Outer.Segs) == 0 }

// room returns the box that all tool paths must keep to.
func (b *Bed) room() plane.Box { return b.Region().Box().Grow(-b.Margin) }

// Job is what to lay on what.
type Job struct {
	Pieces []Piece
	// Beds are used in order: put scraps first. A bed after one with Count 0 is
	// never reached.
	Beds []Bed
	Gap  float64 // sound bridge between parts, mm
	// CutOuts allows parts in the holes of other parts.
	CutOuts bool
}

// Placed is one copy of a piece on a sheet.
type Placed struct {
	Piece, Copy int // index in Job.Pieces; copies count from 0
	Place
}

// Why says why copies are missing from a layout.
type Why string

// The reasons for which copies are missing.
const (
	TooLarge Why = "large" // no allowed turn fits on any of the sheets, even alone
	NoRoom   Why = "full"  // the sheets are used up
	NoSheet  Why = "pin"   // pinned on a sheet that there is not
	TooMany  Why = "many"  // beyond MaxParts
	NoShape  Why = "shape" // the outline encloses nothing
)

// Missing is a number of copies of a piece that are not laid.
type Missing struct {
	Piece, Copies int
	Why           Why
	Need          plane.Box // extents, overruns included, at the first allowed turn
	Room          plane.Box // of the largest sheet, margin taken off
}

// Sheet tells how one sheet is used.
type Sheet struct {
	Bed    int // index in Job.Beds
	Parts  int
	Area   float64   // of the parts, mm²
	Used   plane.Box // extents of all tool paths
	Length float64   // from the left edge of the room to the right end of Used, mm
}

// Layout is where everything lies. Placed is in the order of pieces and copies.
type Layout struct {
	Sheets  []Sheet
	Placed  []Placed
	Missing []Missing
}

// Density returns the share of the area of sheet i, from its left edge to the right
// end of what is used, that is part.
func (l Layout) Density(job *Job, i int) float64 {
	s := l.Sheets[i]
	a := s.Length * job.Beds[s.Bed].room().H()
	if a <= 0 {
		return 0
	}
	return s.Area / a
}

// bedOf returns the bed of sheet number n, -1 when there are not so many.
func (job *Job) bedOf(n int) int {
	if n >= MaxSheets {
		return -1
	}
	for i, b := range job.Beds {
		if b.Count == 0 || n < b.Count {
			return i
		}
		n -= b.Count
	}
	return -1
}

// demand panics on a caller's mistake: what a person types must be read and checked
// before it comes here.
func (job *Job) demand() {
	finite := func(xs ...float64) {
		for _, x := range xs {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				panic("sheet: turns and pins must be finite")
			}
		}
	}
	for _, p := range job.Pieces {
		finite(p.Turns...)
		for _, at := range p.Pins {
			finite(at.X, at.Y, at.Turn)
		}
	}
	if !(job.Gap >= 0) || math.IsInf(job.Gap, 0) {
		panic("sheet: gap must be a length")
	}
	for _, b := range job.Beds {
		if !(b.Margin >= 0) || b.Count < 0 || b.rectangle() && !(b.W > 0 && b.H > 0) {
			panic("sheet: a bed needs a size, a margin and a count")
		}
		if !b.rectangle() && !b.Outline.Outer.Closed {
			panic("sheet: the outline of a bed must be closed")
		}
	}
}

// summary fills in how each sheet is used.
func (l *Layout) summary(job *Job) {
	n := 0
	for _, p := range l.Placed {
		n = max(n, p.Sheet+1)
	}
	l.Sheets = make([]Sheet, n)
	for i := range l.Sheets {
		l.Sheets[i] = Sheet{Bed: job.bedOf(i), Used: plane.EmptyBox()}
	}
	for _, p := range l.Placed {
		s, piece := &l.Sheets[p.Sheet], &job.Pieces[p.Piece]
		s.Parts++
		s.Area += piece.Outline.Area()
		s.Used = s.Used.Union(piece.extents(p.Move()))
	}
	for i := range l.Sheets {
		if s := &l.Sheets[i]; s.Parts > 0 {
			s.Length = s.Used.Max.X - job.Beds[s.Bed].room().Min.X
		}
	}
}

// extents returns the box of outline and reach under m.
func (p *Piece) extents(m plane.Affine) plane.Box {
	body, reach := p.boxes(m)
	return body.Union(reach)
}

// boxes returns the box of the outline and that of outline and reach, under m.
func (p *Piece) boxes(m plane.Affine) (body, reach plane.Box) {
	body = p.Outline.Outer.Apply(m).Box()
	reach = body
	for _, r := range p.Reach {
		reach = reach.Union(r.Apply(m).Box())
	}
	return body, reach
}

// sound reports whether the outline encloses something and all its figures are
// finite.
func (p *Piece) sound() bool {
	a, b := p.Outline.Area(), p.extents(plane.Identity())
	d := b.W() + b.H()
	return a > 0 && p.Outline.Outer.Closed && d > 0 && !math.IsInf(d, 0) && !math.IsNaN(d) && !math.IsInf(a, 0)
}
