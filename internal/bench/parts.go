package bench

import (
	"math"
	"strconv"
	"strings"

	"springrib/internal/design"
	"springrib/internal/machine"
	"springrib/internal/unit"
)

// parts says what is cut from what, with a picture of each.
func (w writer) parts() Section {
	s := Section{ID: "parts", Title: "What to cut from what", Table: &Table{Head: []string{"Part", "How many", "From", "Thickness", "Size, laid flat"}}}
	for _, g := range w.Sheets {
		for _, pt := range g.Parts {
			b := pt.Outline.Box()
			s.Table.Rows = append(s.Table.Rows, []string{pt.Name, strconv.Itoa(max(1, pt.Quantity)), stockOf(w.V, g.Stock).Name, w.fit(w.thickness(pt.ID)), w.mm(b.W()) + " by " + w.mm(b.H())})
			s.Figures = append(s.Figures, w.partFigure(pt))
		}
	}
	s.Lines = append([]string{"On " + unit.Plural(len(w.Jobs), "sheet") + " of " + w.mm(w.V.Machine.BedWidth) + " by " + w.mm(w.V.Machine.BedHeight) + "."}, w.laying()...)
	s.Lines = append(s.Lines, w.faceUp())
	return s
}

// faceUp says which face of the panel's sheet the tool works on.
func (w writer) faceUp() string {
	show := w.V.Panel.ShowFace
	scored := show
	if w.Mirror {
		scored = other(show)
	}
	switch {
	case w.tool() == machine.Saw:
		return "The " + scored + " face is scored: turn it to the blade."
	case w.Mirror:
		return "The panel is drawn turned over: lay the " + show + " face, which will show, down."
	}
	return "Lay the " + show + " face up: it is scored, and it will show."
}

// laying says how the sheets lie on the bed.
func (w writer) laying() []string {
	var out []string
	for i, b := range w.Beds {
		if len(b.Outer.Segs) > 0 && !w.byHand() {
			box := b.Outer.Box()
			out = append(out, "Sheet "+strconv.Itoa(i+1)+" is the scrap: its corner lies "+w.mm(box.Min.X)+" from the left and "+w.mm(box.Min.Y)+" from the front of the bed.")
		}
	}
	s := w.V.Sheet
	if !s.Grained || w.V.Cut.Turns == design.TurnQuarter {
		return out
	}
	along, across := s.GrainToScores < 10*deg, s.GrainToScores > 80*deg
	switch {
	case !along && !across:
		return append(out, "Mind the face grain of the "+s.Stock.Name+": it lies at "+unit.Angle(s.GrainToScores)+" to the scores.")
	case w.byHand() && across:
		return append(out, "Cut the panel with the face grain of the "+s.Stock.Name+" across the scores.")
	case w.byHand():
		return append(out, "Cut the panel with the face grain of the "+s.Stock.Name+" along the scores.")
	case across: // the panel lies with its bend along the bed, so its scores run from front to back
		return append(out, "Lay the sheet of "+s.Stock.Name+" with its face grain from left to right: across the scores.")
	}
	return append(out, "Lay the sheet of "+s.Stock.Name+" with its face grain from front to back: along the scores.")
}

const deg = math.Pi / 180

// machine is what is set at the tool.
func (w writer) machine() Section {
	v, m, t := w.V, w.V.Machine, w.Try()
	s := Section{ID: "machine", Title: "The machine"}
	if w.byHand() {
		s.Title = "The tool"
	}
	cuts := ", through cut " + w.kerfWidth() + " wide."
	if m.Kerf <= 0 {
		cuts = "."
	}
	name := map[machine.Tool]string{machine.Laser: "a laser", machine.Router: "a router", machine.Saw: "a saw", machine.Knife: "a knife"}[m.Tool]
	s.Lines = []string{
		"Set for " + name + ": score " + w.fit(m.ScoreWidth) + " wide" + cuts,
		"Scores go " + w.fit(v.Sheet.T-t.Skin) + " deep in " + unit.Plural(t.Passes, "pass") + " and leave " + w.fit(t.Skin) + " of skin in a sheet of " + w.fit(v.Sheet.T) + ".",
	}
	switch {
	case w.tool() == machine.Saw:
		s.Lines = append(s.Lines, "Run every score right across the blank.")
	case w.Overrun < 0.005:
		s.Lines = append(s.Lines, "Every score ends at the edge.")
	default:
		s.Lines = append(s.Lines, "Every score runs "+w.mm(w.Overrun)+" past the edge at both ends.")
	}
	s.Lines = append(s.Lines, w.allowed()...)
	if !w.byHand() {
		s.Table = w.operations()
	}
	total := 0.0
	for _, e := range w.Times {
		total += e.All.Total()
	}
	if total > 0 && !w.byHand() {
		s.Lines = append(s.Lines, "About "+unit.Time(total)+" of machine time for all sheets.")
	}
	if c := v.Cut; c.SheetPrice > 0 || c.HourPrice > 0 {
		n := w.bought()
		s.Lines = append(s.Lines, "At your prices: "+strings.TrimSpace(c.Currency+" "+unit.Decimal(c.SheetPrice*float64(n)+c.HourPrice*total/3600, 2))+
			" for "+unit.Plural(n, "sheet")+" and the machine's time.")
	}
	return s
}

// allowed says what the lines of file or template stand for.
func (w writer) allowed() []string {
	kerf, file := w.V.Machine.Kerf, "files"
	if w.byHand() {
		file = "template"
	}
	if kerf <= 0 {
		return []string{"Nothing is allowed for a kerf, as yours is 0: cut on the line."}
	}
	out := []string{"The kerf of " + w.kerfWidth() + " is already allowed for in the " + file + ": cut on the line."}
	var not []string
	for _, g := range w.Sheets {
		for _, pt := range g.Parts {
			if pt.Allowance.Failed {
				not = append(not, pt.Name)
			}
		}
	}
	if len(not) > 0 {
		out = append(out, "It could not be allowed for on "+listed(not)+": cut half a kerf outside the line there.")
	}
	return out
}

// operations is the table that is set at a laser or a router.
func (w writer) operations() *Table {
	speed := "Speed"
	if w.tool() == machine.Router {
		speed = "Feed"
	}
	t := &Table{Head: []string{"Operation", "How often", speed, "Colour in the file"}}
	for _, o := range w.Operations() {
		value := "as you know it"
		if o.Speed > 0 {
			value = unit.Speed(o.Speed, w.V.Units)
		}
		t.Rows = append(t.Rows, []string{o.Name, strconv.Itoa(max(1, o.Passes)), value, o.Colour})
	}
	return t
}

// bought is how many whole sheets are used up: a scrap costs nothing.
func (w writer) bought() int {
	n := 0
	for _, b := range w.Beds {
		if len(b.Outer.Segs) == 0 {
			n++
		}
	}
	return n
}

// place is a score as measured from the foot edge of the panel, mm.
type place struct {
	score int
	from  float64
}

// mirroredWithin is how far two scores that one setting of the fence cuts may lie from
// where each should be, mm: half of what a fence is set to.
const mirroredWithin = 0.05

// settings lists the places to score. Where the panel is the same from both ends it lists
// the half nearer the foot, and mirrored tells that each is also scored from the tip edge.
func (w writer) settings() (out []place, mirrored bool) {
	out = w.all()
	n := len(out)
	for i, a := range out {
		if math.Abs(a.from+out[n-1-i].from-w.Length) > mirroredWithin {
			return out, false
		}
	}
	return out[:(n+1)/2], n > 1
}

// positions is the table of fence positions for a saw, of score positions for a knife.
func (w writer) positions() []Section {
	if !w.byHand() || w.Scores() == 0 {
		return nil
	}
	at, mirrored := w.settings()
	unitName := w.V.Units.String()
	s := Section{ID: "positions", Title: "Score positions"}
	head := []string{"Score", "Middle, " + unitName}
	row := func(p place) []string { return []string{strconv.Itoa(p.score), w.figure(p.from)} }
	edge, _ := w.ends()
	s.Lines = []string{unit.Plural(w.Scores(), "score") + ". Every figure is measured from the " + edge + " to the middle of the score, so that no error adds up."}
	if w.tool() == machine.Saw {
		s.Title = "Fence positions"
		half := w.V.Machine.ScoreWidth / 2
		head = append(head, "Fence, "+unitName)
		row = func(p place) []string {
			return []string{strconv.Itoa(p.score), w.figure(p.from), w.figure(p.from - half)}
		}
		s.Lines = append(s.Lines, "“Fence” is from the fence to the near side of a blade "+w.fit(2*half)+" wide.")
		if mirrored {
			s.Lines = append(s.Lines, unit.Plural(len(at), "setting")+" cut them all: the panel is the same from both ends, so turn it end for end at each setting.")
			if w.Scores()%2 == 1 {
				s.Lines = append(s.Lines, "The last setting is the middle and cuts one score.")
			}
		}
	} else {
		at = w.all()
	}
	s.Table = columns(head, row, at)
	return []Section{s}
}

// all lists every score from the foot edge.
func (w writer) all() []place {
	var out []place
	for i, f := range w.Layout.Folds {
		if f.U > w.From && f.U < w.To {
			out = append(out, place{i + 1, f.U - w.From})
		}
	}
	return out
}

// columns sets places in columns of rows side by side, read downward.
func columns(head []string, row func(place) []string, at []place) *Table {
	if len(at) < 8 {
		t := &Table{Head: head}
		for _, p := range at {
			t.Rows = append(t.Rows, row(p))
		}
		return t
	}
	groups := 8 / len(head)
	t := &Table{}
	for range groups {
		t.Head = append(t.Head, head...)
	}
	down := (len(at) + groups - 1) / groups
	for i := range down {
		var cells []string
		for k := i; k < len(at); k += down {
			cells = append(cells, row(at[k])...)
		}
		for len(cells) < len(t.Head) {
			cells = append(cells, "")
		}
		t.Rows = append(t.Rows, cells)
	}
	return t
}
