// Package lay puts parts on sheets and says what is cut.
//
// New takes the parts with the values that were typed of machine and cuts. It returns the parts
// on their sheets, those of one stock and thickness together, each sheet's operations in cutting
// order with their times, and what there is to say: pins without a part, a scrap that crosses
// itself, small parts that nothing holds. Pack lays the same parts closer.
package lay

import (
	"strconv"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/sheet"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// Lay is the parts on their sheets, and what is cut.
type Lay struct {
	Sheets []Group
	Jobs   []cut.Job
	Times  []cut.Estimate // of Jobs, index by index
	Beds   []plane.Region // of Jobs: the outline of a scrap, empty for a whole sheet
	Froms  []stock.Sheet  // of Jobs: what is cut from

	Works map[string][]part.Work // as cut, by part
	task  Task
}

// Group is the sheets of one stock and thickness.
type Group struct {
	From   stock.Sheet
	Job    sheet.Job
	Parts  []part.Part // of Job.Pieces, index by index
	Layout sheet.Layout
	Packed bool // by their real outlines; else in rows
}

// Task is what is laid, and how.
type Task struct {
	Values *design.Values
	Parts  []Item // in the order in which their sheets are listed: the panel first
	Passes int    // that a score is run where the person says nothing else
	Closed bool   // the panel goes all round: its ribs have no foot to stand on
	Draft  bool   // what is cut is in no order and has no times
}

// Item is a part with what its cuts must know of it.
type Item struct {
	part.Part
	Joint bool         // it has slots, a tenon or a stub
	Glued []plane.Path // edges that are glued, go into a slot or stand on its rim
	Lines []part.Spare // glue lines, which no bridge crosses
}

// New puts the parts on sheets, those of one sheet's kind together, and lists what is cut.
func New(t Task) (Lay, []finding.Finding) {
	v := *t.Values // its own copy: a lay outlives the values that it was made of
	t.Values = &v
	l := &laid{&Lay{task: t, Works: map[string][]part.Work{}}, finding.Notes{Units: v.Units}}
	l.scrap()
	for i := range t.Parts {
		l.group(t.Parts[i].Part)
	}
	l.strayPins()
	l.place()
	for i := range t.Parts {
		l.Works[t.Parts[i].ID] = l.work(&t.Parts[i], &v.Cut)
	}
	l.holding()
	l.jobs()
	return *l.Lay, l.All
}

// laid is a lay in the making.
type laid struct {
	*Lay
	finding.Notes
}

// Beside returns what is cut from besides the panel's own sheet.
func (l *Lay) Beside() []stock.Sheet {
	var out []stock.Sheet
	for _, g := range l.Sheets {
		if !g.From.Own {
			out = append(out, g.From)
		}
	}
	return out
}

// group adds a part to the group of its stock and thickness.
func (l *laid) group(pt part.Part) {
	i := 0
	for i < len(l.Sheets) && !l.Sheets[i].From.Same(pt.From) {
		i++
	}
	if i == len(l.Sheets) {
		l.Sheets = append(l.Sheets, Group{From: pt.From, Job: sheet.Job{Beds: l.beds(pt.From), Gap: l.task.Values.Cut.Gap, CutOuts: l.task.Values.Cut.CutOuts}})
	}
	g := &l.Sheets[i]
	g.Parts = append(g.Parts, pt)
	piece := sheet.Piece{ID: pt.ID, Name: pt.Name, Outline: pt.Free(), Quantity: pt.Quantity, Turns: l.turns(g.From)}
	for _, w := range pt.Work {
		if w.Kind == cut.Score || w.Kind == cut.Mark {
			piece.Reach = append(piece.Reach, w.Path)
		}
	}
	piece.Pins = l.pins(pt, &piece)
	g.Job.Pieces = append(g.Job.Pieces, piece)
}

// jobs writes down every sheet's operations in cutting order: all scores, all marks,
// inner cuts before outer cuts.
func (l *Lay) jobs() {
	total := 0
	for _, g := range l.Sheets {
		for _, s := range g.Layout.Sheets {
			if s.Parts > 0 { // a scrap too small for anything stays empty
				total++
			}
		}
	}
	for _, g := range l.Sheets {
		for i, s := range g.Layout.Sheets {
			if s.Parts > 0 {
				l.Jobs = append(l.Jobs, l.job(g, i, len(l.Jobs)+1, total))
				l.Beds = append(l.Beds, g.Job.Beds[s.Bed].Outline)
				l.Froms = append(l.Froms, g.From)
			}
		}
	}
}

// job writes down one sheet: its parts' work, moved to their places, in the order that
// package cut finds.
func (l *Lay) job(g Group, s, n, total int) cut.Job {
	m := l.task.Values.Machine
	out := cut.Job{
		Title: l.task.Values.Name, Revision: l.task.Values.Revision, Note: KerfNote(l.task.Values),
		Sheet: n, Sheets: total, Width: m.BedWidth, Height: m.BedHeight,
	}
	var parts []cut.Part
	for _, placed := range g.Layout.Placed {
		if placed.Sheet != s {
			continue
		}
		src := g.Parts[placed.Piece]
		cp := cut.Part{ID: src.ID}
		if src.Quantity > 1 {
			cp.ID += " " + strconv.Itoa(placed.Copy+1)
		}
		move := placed.Move()
		for _, w := range l.Works[src.ID] {
			cp.Strokes[w.Kind] = append(cp.Strokes[w.Kind], w.Path.Apply(move))
		}
		parts = append(parts, cp)
	}
	if l.task.Draft {
		out.Operations = cut.Unordered(parts, Settings(l.task.Values, l.task.Passes))
		return out
	}
	out.Operations = cut.Order(parts, Settings(l.task.Values, l.task.Passes))
	l.Times = append(l.Times, cut.Times(out.Operations, cut.Machine{TravelSpeed: l.task.Values.Cut.TravelSpeed, Acceleration: m.Acceleration}, plane.Point{}))
	return out
}

// KerfNote says what was done about the kerf. Where no allowance could be made the files are
// withheld.
func KerfNote(v *design.Values) string {
	kerf := v.Machine.Kerf
	if kerf <= 0 {
		return "No kerf is allowed for: the lines are the finished edges."
	}
	return "The kerf of " + unit.LengthFine(kerf, v.Units) + " is already allowed for: cut on the line."
}

// Settings are the operations as the person names them; scores run as often as said where
// nothing else was typed.
func Settings(v *design.Values, passes int) cut.Settings {
	c := &v.Cut
	out := cut.Settings{EveryThird: c.EveryThird, RepeatLayers: c.RepeatLayers}
	for i, k := range cut.Kinds() {
		o := c.Operations[i]
		out.Kinds[k] = cut.Setting{Name: o.Name, Colour: o.Colour, Passes: max(1, o.Passes), Speed: o.Speed}
		if k == cut.Score {
			if o.Passes == 0 {
				out.Kinds[k].Passes = passes
			}
			if o.Speed == 0 {
				out.Kinds[k].Speed = v.Machine.Speed
			}
		}
	}
	return out
}

// Operations returns the operations that occur in any of the jobs, in cutting order.
func (l *Lay) Operations() []cut.Operation {
	var out []cut.Operation
	for _, k := range cut.Kinds() {
		for _, j := range l.Jobs {
			done := false
			for _, o := range j.Operations {
				if o.Kind == k && !done {
					out, done = append(out, o), true
				}
			}
			if done {
				break
			}
		}
	}
	return out
}
