package sheet

import (
	"math"

	"springrib/internal/plane"
)

// Flaw says what is wrong with a layout.
type Flaw string

// The flaws that Verify finds.
const (
	Overlap  Flaw = "overlap" // two parts, or a tool path and a part, on one another
	Near     Flaw = "near"    // nearer to each other than the gap
	OffBed   Flaw = "off-bed" // a tool path on the margin or off the sheet
	Unpinned Flaw = "pin"     // a pinned copy lies elsewhere
	Turned   Flaw = "turn"    // at a turn that is not allowed
	Counted  Flaw = "count"   // a copy twice, or neither laid nor reported
)

// Fault is one thing wrong with a layout. A and B are indices in Layout.Placed, -1
// where there is none; By is how much, in mm (copies for Counted); an overlap is at
// least that deep.
type Fault struct {
	Flaw Flaw
	A, B int
	By   float64
}

// tolerance is the shortfall in mm up to which Verify says nothing: both figures are
// within flatness of the truth, and the layout is within touch of what it meant.
const tolerance = 2*flatness + 10*touch

// Verify checks a layout against its job by exact tests on polylines within 0.001 mm
// of the outlines: distances between all edges, and which pieces of an edge lie
// inside another outline. It shares nothing with the search that made the layout and
// finds every fault larger than 0.0021 mm.
func Verify(job *Job, l *Layout) []Fault {
	faults := verifyCounts(job, l)
	figures := make([]*figure, len(l.Placed))
	beds := map[int]*figure{}
	for i, p := range l.Placed {
		piece := &job.Pieces[p.Piece]
		outline := piece.Outline
		if !job.CutOuts {
			outline.Holes = nil
		}
		figures[i] = newFigure(outline, piece.Reach, p.Move())
		b := job.bedOf(p.Sheet)
		if beds[b] == nil {
			beds[b] = newFigure(job.Beds[b].Region(), nil, plane.Identity())
		}
		if by := beds[b].holds(figures[i], job.Beds[b].Margin); by > tolerance {
			faults = append(faults, Fault{OffBed, i, -1, by})
		}
	}
	for i, a := range figures {
		for j := range i {
			if l.Placed[i].Sheet == l.Placed[j].Sheet {
				faults = append(faults, crossing(figures[j], a, j, i, job.Gap)...)
			}
		}
	}
	return faults
}

// crossing checks one pair.
func crossing(a, b *figure, i, j int, gap float64) []Fault {
	if !a.box.Grow(gap).Overlaps(b.box) {
		return nil
	}
	in := math.Max(a.depth(b.edges), b.depth(a.edges))
	in = math.Max(in, math.Max(a.depth(b.reach), b.depth(a.reach)))
	// Two outlines that agree cross nowhere.
	if a.within && b.inside(a.core) {
		in = math.Max(in, off(a.core, b.edges))
	}
	if b.within && a.inside(b.core) {
		in = math.Max(in, off(b.core, a.edges))
	}
	if in > tolerance {
		return []Fault{{Overlap, i, j, in}}
	}
	d := math.Min(clear(a.edges, b.all(), gap), clear(a.reach, b.edges, gap))
	if gap-d > tolerance {
		return []Fault{{Near, i, j, gap - d}}
	}
	return nil
}

// verifyCounts checks that every copy is laid once or reported, pins are kept and
// turns allowed.
func verifyCounts(job *Job, l *Layout) []Fault {
	var faults []Fault
	seen := map[copyOf]bool{}
	got := make([]int, len(job.Pieces))
	for i, p := range l.Placed {
		piece := &job.Pieces[p.Piece]
		c := copyOf{p.Piece, p.Copy}
		if seen[c] || p.Copy < 0 || p.Copy >= piece.Quantity {
			faults = append(faults, Fault{Counted, i, -1, 1})
		}
		seen[c] = true
		got[p.Piece]++
		switch {
		case p.Copy < len(piece.Pins):
			if p.Place != piece.Pins[p.Copy] {
				faults = append(faults, Fault{Unpinned, i, -1, math.Hypot(p.X-piece.Pins[p.Copy].X, p.Y-piece.Pins[p.Copy].Y)})
			}
		case !piece.allows(p.Turn):
			faults = append(faults, Fault{Turned, i, -1, 0})
		}
	}
	for _, m := range l.Missing {
		got[m.Piece] += m.Copies
	}
	for i, n := range got {
		if want := max(0, job.Pieces[i].Quantity); n != want {
			faults = append(faults, Fault{Counted, -1, -1, math.Abs(float64(n - want))})
		}
	}
	return faults
}

func (p *Piece) allows(turn float64) bool {
	for _, t := range p.turns() {
		if t == turn {
			return true
		}
	}
	return false
}
