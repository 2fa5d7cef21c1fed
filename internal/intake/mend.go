package intake

import (
	"fmt"
	"math"
	"sort"

	"springrib/internal/plane"
)

// Lengths in mm by which Mend judges. None is a matter of taste alone: a laser spot
// is a tenth of a millimetre wide and more, so that half of that can't be seen.
const (
	// sameWithin is how near two paths lie that are the same one drawn twice.
	sameWithin = 0.01
	// snapWithin is the widest gap that is closed by moving both ends to its middle;
	// a wider one is bridged by a line.
	snapWithin = 0.05
)

// ChangeKind tells what Mend did, or only points at.
type ChangeKind string

// What Mend does.
const (
	Joined    ChangeKind = "joined"    // pieces chained, the ends still apart
	Closed    ChangeKind = "closed"    // pieces chained, or one piece closed, to a closed path
	Filled    ChangeKind = "filled"    // open, but filled and not drawn: closed the way the filling is
	Duplicate ChangeKind = "duplicate" // dropped, the same as another of its layer
	Speck     ChangeKind = "speck"     // dropped, no larger than a point
	Turned    ChangeKind = "turned"    // run the other way: outlines counter-clockwise, holes clockwise
)

// What Mend points at and leaves alone.
const (
	Doubled     ChangeKind = "doubled"     // the same as one on another layer
	Junction    ChangeKind = "junction"    // more than two ends meet
	StillOpen   ChangeKind = "still-open"  // the ends nearly meet, but not within the gap
	NearMiss    ChangeKind = "near-miss"   // ends of two paths nearly meet, but not within the gap
	Apart       ChangeKind = "apart"       // they meet, but on two layers or in two colours
	Crossing    ChangeKind = "crossing"    // a path crosses itself
	Touching    ChangeKind = "touching"    // a path touches itself
	Overlapping ChangeKind = "overlapping" // two closed paths cross
	Unchecked   ChangeKind = "unchecked"   // too crowded to look at every crossing
)

// Change is one thing that Mend did or found. Items are numbers of the items given
// to Mend.
type Change struct {
	Kind  ChangeKind
	Items []int
	At    plane.Point
	Gap   float64 // mm: the widest gap closed, or the one left
	Text  string
	Left  bool // not done, since the caller asked to leave it
}

// Done reports whether the change alters the drawing, rather than pointing at
// something.
func (c Change) Done() bool {
	switch c.Kind {
	case Joined, Closed, Filled, Duplicate, Speck, Turned:
		return !c.Left
	}
	return false
}

// Optional reports whether Mend can be asked to leave the change.
func (c Change) Optional() bool {
	switch c.Kind {
	case Joined, Closed, Filled, Duplicate:
		return true
	}
	return false
}

// Key names a change among those of one drawing and gap.
func (c Change) Key() string { return keyOf(c.Kind, c.Items) }

func keyOf(kind ChangeKind, items []int) string {
	if len(items) == 0 {
		return string(kind)
	}
	return fmt.Sprintf("%s %d-%d", kind, items[0], items[len(items)-1])
}

// Mended is a drawing after mending. From tells for each item which of the given
// ones it was made of.
type Mended struct {
	Items []Item
	From  [][]int
}

// piece is an item on its way through Mend.
type piece struct {
	Item
	from []int
}

// Mend makes closed paths of what was drawn in pieces: it drops what is drawn twice,
// chains open paths of one layer and colour whose ends meet within gap mm, and turns
// closed paths the right way round. It points at places where paths cross. The
// given items are left as they are; nothing is taken until the caller takes it.
// Optional changes whose keys are in leave are told but not done.
func Mend(items []Item, gap float64, leave ...string) (Mended, []Change) {
	if !(gap >= 0) || math.IsInf(gap, 0) {
		panic("intake: Mend needs a gap of 0 or more")
	}
	m := mender{gap: gap, leave: map[string]bool{}}
	for _, key := range leave {
		m.leave[key] = false
	}
	m.pieces = make([]piece, 0, len(items))
	numbers := make([]int, len(items))
	for i, it := range items {
		it.Box()
		numbers[i] = i
		p := piece{Item: it, from: numbers[i : i+1 : i+1]}
		switch {
		case len(it.Path.Segs) == 0 || p.box.W() <= joined && p.box.H() <= joined:
			m.note(Speck, p.from, p.box.Min, 0, "No larger than a point: dropped.")
		default:
			m.pieces = append(m.pieces, p)
		}
	}
	m.dropDuplicates(false)
	m.closeFilled()
	m.chain()
	m.dropDuplicates(true)
	m.turn()
	m.pointAtOpen()
	m.pointAtNearMisses()
	m.pointAtCrossings()
	out := Mended{Items: make([]Item, 0, len(m.pieces)), From: make([][]int, 0, len(m.pieces))}
	for _, p := range m.pieces {
		out.Items = append(out.Items, p.Item)
		out.From = append(out.From, p.from)
	}
	return out, m.changes
}

type mender struct {
	gap     float64
	leave   map[string]bool // keys of changes to leave, and whether they were told
	pieces  []piece
	changes []Change
	alike   int // points compared to find out which paths are the same
}

// leaves reports whether an optional change is not to be done, and then notes it.
func (m *mender) leaves(kind ChangeKind, items []int, at plane.Point, gap float64, text string) bool {
	if len(m.leave) == 0 {
		return false
	}
	told, asked := m.leave[keyOf(kind, items)]
	if asked && !told {
		m.leave[keyOf(kind, items)] = true
		m.changes = append(m.changes, Change{Kind: kind, Items: items, At: at, Gap: gap, Text: text, Left: true})
	}
	return asked
}

func (m *mender) note(kind ChangeKind, items []int, at plane.Point, gap float64, text string) {
	m.changes = append(m.changes, Change{Kind: kind, Items: items, At: at, Gap: gap, Text: text})
}

// closeFilled closes open paths that the file shows by their filling alone: the
// filled shape ends along the straight line between the ends.
func (m *mender) closeFilled() {
	for i := range m.pieces {
		p := &m.pieces[i]
		area := math.Abs(p.Path.Area())
		if p.Path.Closed || p.Fill == "" || p.Stroke != "" || area <= sameWithin*(p.box.W()+p.box.H()) {
			continue
		}
		a, b := p.Path.End(), p.Path.Start()
		p.length = 0
		text := fmt.Sprintf("Filled but open: closed by a line of %.2f mm, as the filling shows.", a.Dist(b))
		if m.leaves(Filled, p.from, a, a.Dist(b), text) {
			continue
		}
		segs := append([]plane.Segment(nil), p.Path.Segs...)
		p.Path = plane.Path{Segs: append(segs, plane.LineSeg(a, b)), Closed: true}
		m.note(Filled, p.from, a, a.Dist(b), text)
	}
}

// turn lets outlines run counter-clockwise and holes clockwise, by how deep they lie
// in one another.
func (m *mender) turn() {
	ins, all := nest(m.pieces)
	if !all {
		m.note(Unchecked, nil, plane.Point{}, 0, "Too many closed paths lie in one another to tell outlines from holes.")
	}
	for i, n := range ins {
		p := &m.pieces[i]
		area := p.Path.Area()
		// Drawn there and back, it has no inside, and neither sense is right.
		flat := math.Abs(area) <= joined*(p.box.W()+p.box.H())
		if !p.Path.Closed || flat || area > 0 == (n.depth%2 == 0) {
			continue
		}
		p.Path = p.Path.Reverse()
		what := "Outline turned counter-clockwise."
		if n.depth%2 == 1 {
			what = "Hole turned clockwise."
		}
		m.note(Turned, p.from, p.Path.Start(), 0, what)
	}
}

// pointAtOpen points at open paths whose ends are near each other against their
// length, which probably were meant to be closed.
func (m *mender) pointAtOpen() {
	for i := range m.pieces {
		p := &m.pieces[i]
		if p.Path.Closed {
			continue
		}
		if d := p.Path.Start().Dist(p.Path.End()); d > 0 && d <= 0.05*p.Length() {
			m.note(StillOpen, p.from, p.Path.End(), d, fmt.Sprintf("Open by %.3f mm.", d))
		}
	}
}

func merge(a, b []int) []int {
	out := append(append([]int(nil), a...), b...)
	sort.Ints(out)
	return out
}
