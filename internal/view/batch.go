package view

import (
	"bytes"
	"encoding/json"
	"errors"
	"strconv"
	"strings"

	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/lay"
	"springrib/internal/plan"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// batch is designs that are cut together: each is planned alone, and what leaves of them is laid as one.
type batch struct {
	name    string
	members []*member
	whole   *worked   // the parts of all as one plan's, for its files; nil where none is left
	sheetOf [][][]int // by lay, group and its sheet: the number of the sheet, from 1; 0 where it is empty
	lays    []lay.Lay // one for each number of passes
}

// member is one design of a batch.
type member struct {
	letter   string
	quantity int
	*worked
	out   string         // why its parts are not cut, "" where they are
	notes []string       // what is to be known of it among the others
	items map[string]int // how many of each part, by ID in the batch
}

// BatchFiles is what leaves of a batch: its files, a line for each thing to know, and why members are
// left out.
type BatchFiles struct {
	Files []wire.FileBody
	Said  []string
	Out   []string
}

// Batch works out the files of designs that are cut together. A member that must not be cut is left
// out, and the others go on.
func (c Core) Batch(b design.Batch, faces []byte) (BatchFiles, error) {
	printed, err := export.ReadFaces(faces)
	if err != nil {
		return BatchFiles{}, err
	}
	w := gathered(b, c.remembered(), printed)
	var out BatchFiles
	for _, m := range w.members {
		if m.out != "" {
			out.Out = append(out.Out, m.title()+" is left out: "+m.out)
		}
		for _, n := range m.notes {
			out.Said = append(out.Said, m.title()+": "+n)
		}
	}
	if lost := w.missing(); len(lost) > 0 {
		out.Out = append(out.Out, "The sheets have no room for "+unit.List(lost)+". Nothing is cut until there are more sheets, or fewer parts.")
	}
	for _, f := range w.files(b) {
		out.Files = append(out.Files, wire.Body(f.name, f.media, f.body()))
	}
	return out, nil
}

// Job writes what leaves of a saved job as one file, and says what there is to know of its members.
func (c Core) Job(text string, faces []byte) (wire.FileBody, []finding.Finding, error) {
	b, err := design.OpenBatch([]byte(text))
	if err != nil {
		return wire.FileBody{}, nil, err
	}
	if len(b.Members) == 0 {
		return wire.FileBody{}, nil, errors.New("This job holds no design. Put a number beside each design that you want.")
	}
	out, err := c.Batch(b, faces)
	if err != nil {
		return wire.FileBody{}, nil, err
	}
	var said []finding.Finding
	for _, text := range out.Out {
		said = append(said, finding.Finding{ID: "job-left-out", Severity: finding.Stop, Text: text})
	}
	for _, text := range out.Said {
		said = append(said, finding.Finding{ID: "job-member", Severity: finding.Note, Text: text})
	}
	return out.Files[len(out.Files)-1], said, nil
}

// gathered plans the members and lays what is cut.
func gathered(b design.Batch, memory *plan.Memory, faces *export.Faces) *batch {
	out := &batch{name: b.Name}
	for i, m := range b.Members {
		one := &member{letter: letterOf(i), quantity: m.Quantity, out: m.Problem, items: map[string]int{}}
		out.members = append(out.members, one)
		if m.Problem != "" {
			one.worked = &worked{doc: m.Design}
			continue
		}
		one.worked = workOut(times(m.Design, m.Quantity), wire.Show{}, memory)
		one.faces = faces
		one.out = strings.Join(one.release().withheld(), " ")
		if one.out == "" && !one.plan.Drawn {
			one.out = "It can't be planned as it is."
		}
	}
	out.alike()
	out.lay()
	return out
}

// times is a design of which so many are made.
func times(d design.Document, n int) design.Document {
	v, _ := design.Read(d)
	d.Panel.Quantity = strconv.Itoa(n * max(1, v.Panel.Quantity))
	return d
}

// letterOf is what the parts of a member are told apart by: A to Z, AA and so on.
func letterOf(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return letterOf(i/26-1) + letterOf(i%26)
}

// title is how a member is told of.
func (m *member) title() string {
	name := m.doc.Name
	if name == "" {
		name = "the design without a name"
	}
	return m.letter + ", " + name
}

// first is the first member that is cut.
func (b *batch) first() *member {
	for _, m := range b.members {
		if m.out == "" {
			return m
		}
	}
	return nil
}

// alike leaves out members that are set to another machine than the first, and tells of those whose
// other settings give way.
func (b *batch) alike() {
	one := b.first()
	for _, m := range b.members {
		if m.out != "" || m == one {
			continue
		}
		u, v := &one.plan.V, &m.plan.V
		if !bytes.Equal(machineOf(one.doc), machineOf(m.doc)) {
			m.out = "It is set to another machine than " + one.letter + ". Save the machine settings of " + one.letter + " and open them into it."
			continue
		}
		if m.plan.Try().Passes != one.plan.Try().Passes {
			m.notes = append(m.notes, "Its scores take "+unit.Plural(m.plan.Try().Passes, "pass")+", those of "+one.letter+" "+strconv.Itoa(one.plan.Try().Passes)+
				". It is laid on sheets of its own.")
		}
		if s, t := u.Sheet, v.Sheet; s.Stock.ID == t.Stock.ID && !one.plan.Panel.Flat.From.Same(m.plan.Panel.Flat.From) {
			m.notes = append(m.notes, "Its sheet is "+unit.Length(t.T, v.Units)+" thick, that of "+one.letter+" "+unit.Length(s.T, u.Units)+". It is laid on sheets of its own.")
		}
		if !bytes.Equal(cutsOf(one.doc), cutsOf(m.doc)) {
			m.notes = append(m.notes, "Gap, bridges, operations, offcuts and paper are those of "+one.letter+" for all.")
		}
	}
}

// machineOf is the machine of a design and cutsOf what is asked of its cuts, places on sheets left
// aside, each as a text to compare.
func machineOf(d design.Document) []byte {
	out, _ := json.Marshal(d.Machine)
	return out
}

func cutsOf(d design.Document) []byte {
	d.Cut.Pins, d.Cut.Places = nil, nil
	out, _ := json.Marshal(d.Cut)
	return out
}

// lay lays the parts of all members, those with one number of passes together.
func (b *batch) lay() {
	one := b.first()
	if one == nil {
		return
	}
	v := one.plan.V
	v.Name, v.Revision = b.title(), ""
	if len(b.members) == 1 {
		v.Revision = one.plan.V.Revision
	} else {
		v.Cut.Pins, v.Cut.Places = nil, nil // which name parts of one design
	}
	merged := lay.Lay{}
	var found []finding.Finding
	for _, passes := range b.passes() {
		var items []lay.Item
		for _, m := range b.members {
			if m.out == "" && m.plan.Try().Passes == passes {
				items = append(items, m.parts(len(b.members) > 1)...)
				found = append(found, m.findings...)
			}
		}
		l, _ := lay.New(lay.Task{Values: &v, Parts: items, Passes: passes, Closed: one.plan.Section.Closed})
		b.lays = append(b.lays, l)
		b.sheetOf = append(b.sheetOf, numbered(&l, len(merged.Jobs)))
		merged.Sheets, merged.Jobs = append(merged.Sheets, l.Sheets...), append(merged.Jobs, l.Jobs...)
		merged.Times, merged.Beds, merged.Froms = append(merged.Times, l.Times...), append(merged.Beds, l.Beds...), append(merged.Froms, l.Froms...)
	}
	for i := range merged.Jobs {
		merged.Jobs[i].Sheet, merged.Jobs[i].Sheets = i+1, len(merged.Jobs)
	}
	p := one.plan
	p.V, p.Lay = v, merged
	doc := one.doc
	doc.Name, doc.Revision = v.Name, v.Revision
	b.whole = &worked{doc: doc, plan: p, findings: found, faces: one.faces}
}

// title is what the batch is called: after its first design where it has no name.
func (b *batch) title() string {
	switch {
	case b.name != "":
		return b.name
	case len(b.members) == 1:
		return b.members[0].doc.Name
	}
	return b.members[0].doc.Name + " and others"
}

// passes are the numbers of passes that scores of the members take, in the order of the members.
func (b *batch) passes() []int {
	var out []int
	seen := map[int]bool{}
	for _, m := range b.members {
		if m.out == "" && !seen[m.plan.Try().Passes] {
			seen[m.plan.Try().Passes] = true
			out = append(out, m.plan.Try().Passes)
		}
	}
	return out
}

// parts are what is cut of a member, with its letter in front where there are others.
func (m *member) parts(others bool) []lay.Item {
	items := m.plan.CutParts()
	for i := range items {
		if others {
			items[i].ID, items[i].Name = m.letter+"-"+items[i].ID, m.letter+" "+items[i].Name
		}
		m.items[items[i].ID] += items[i].Quantity
	}
	return items
}

// numbered gives every sheet of a lay that something lies on its number, after so many.
func numbered(l *lay.Lay, after int) [][]int {
	var out [][]int
	for _, g := range l.Sheets {
		var ns []int
		for _, s := range g.Layout.Sheets {
			n := 0
			if s.Parts > 0 {
				after++
				n = after
			}
			ns = append(ns, n)
		}
		out = append(out, ns)
	}
	return out
}

// missing are the parts that found no room on the sheets there are.
func (b *batch) missing() []string {
	var out []string
	for i := range b.lays {
		for _, g := range b.lays[i].Sheets {
			for _, m := range g.Layout.Missing {
				out = append(out, g.Parts[m.Piece].Name)
			}
		}
	}
	return out
}
