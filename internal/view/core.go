// Package view turns a plan into what a person sees: sentences, figures in their
// unit, drawings as streams of numbers, files. It is the Core of package wire.
package view

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"springrib/internal/bench"
	"springrib/internal/check"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/strips"
	"springrib/internal/wire"
)

// Core answers the page. The zero Core keeps nothing between calls; what New gives keeps
// the handles it found last, what the last plans found out and the last whole plan, of which
// one file after the other is asked for, and the packing under way. It answers the same, but for
// how far that packing is.
type Core struct {
	last    *grips
	memory  *plan.Memory
	offered *[]finding.Finding // those of the last answer
	whole   *whole
	packing *packing
}

// whole is a design as it was asked for, and what was worked out of it.
type whole struct {
	raw []byte
	*worked
}

// New returns a Core for one page, to be asked by one at a time.
func New() Core {
	return Core{last: new(grips), memory: new(plan.Memory), offered: new([]finding.Finding), whole: new(whole), packing: new(packing)}
}

var _ wire.Core = Core{}

// worked is a design read and planned.
type worked struct {
	doc      design.Document
	states   []design.State
	plan     plan.Plan
	strips   strips.Set
	findings []finding.Finding
	read     []finding.Finding // those of the fields alone
	mended   bool              // or can't be
	held     bool              // a hand moves a handle of it
	faces    *export.Faces     // of PDFs
}

// work reads a document and plans it. A field that can't be used keeps the plan from
// being drawn, but not from being made: its default stands in, and the other findings
// are still worth reading.
func work(doc design.Document) *worked {
	w := workOut(doc, wire.Show{}, new(plan.Memory))
	w.mend()
	return w
}

// workOut is work without what would mend its findings, which plans the design many times
// over; brief, it leaves out the test strips too.
func workOut(doc design.Document, show wire.Show, memory *plan.Memory) *worked {
	v, found, states := design.ReadStates(doc)
	w := &worked{doc: doc, states: states, held: show.Held}
	if finding.Worst(found) == finding.Stop {
		w.plan = plan.Plan{V: v}
		w.findings, w.mended = found, true
		finding.Sort(w.findings)
		return w
	}
	if show.Brief {
		w.plan = memory.Draft(v)
	} else {
		w.plan = memory.Make(v)
	}
	if !show.Brief && w.plan.Drawn {
		w.strips = w.plan.TestStrips()
	}
	w.read = found
	w.tell(check.Judged(&w.plan))
	return w
}

// tell puts together what is found of the fields, of the plan and of its files.
func (w *worked) tell(said []finding.Finding) {
	w.findings = slices.Concat(w.read, said, fileFindings(&w.plan))
	finding.Sort(w.findings)
}

// mend looks for what would mend the findings, once.
func (w *worked) mend() {
	if !w.mended {
		w.mended = true
		w.tell(check.Tried(w.doc, &w.plan))
	}
}

func document(raw []byte) (design.Document, error) {
	var doc design.Document
	if err := json.Unmarshal(raw, &doc); err != nil {
		return doc, fmt.Errorf("the page sent something that is not a design: %w", err)
	}
	return doc, nil
}

// Plan works the design out for the page.
func (c Core) Plan(raw []byte, show wire.Show) (wire.PlanView, [][]float32, error) {
	doc, err := document(raw)
	if err != nil {
		return wire.PlanView{}, nil, err
	}
	w := workOut(doc, show, c.remembered())
	if !show.Brief && !show.Untried {
		w.mend()
	}
	c.offer(w.findings, show.Brief || show.Untried)
	if !show.Brief {
		c.keep(raw, w)
	}
	out := wire.PlanView{
		Drawn:    w.plan.Drawn,
		Verdict:  w.verdict(),
		Cards:    w.cards(),
		Fields:   w.fields(),
		Findings: w.findings,
		Cautions: bench.Cautions(&w.plan),
		Withheld: w.release().withheld(),
	}
	if !w.plan.Drawn {
		return out, nil, nil
	}
	out.Numbers = w.numbers()
	out.Options = w.options()
	out.Scores = w.scores()
	sketches := w.designSketches()
	if out.Partial = show.Brief; !out.Partial {
		out.Files = w.files()
		out.Corners = w.corners()
		sketches = w.sketches()
	}
	var arrays [][]float32
	for _, s := range sketches {
		d, a := s.done(4)
		out.Drawings = append(out.Drawings, d)
		arrays = append(arrays, a)
	}
	w.handles(out.Drawings)
	w.show(&out, &arrays, show)
	return out, arrays, nil
}

// keep keeps a whole plan for the files that are asked of it next.
func (c Core) keep(raw []byte, w *worked) {
	if c.whole != nil {
		*c.whole = whole{bytes.Clone(raw), w}
	}
}

// kept returns the whole plan of a design, worked out if it is not the last one.
func (c Core) kept(raw []byte) (*worked, error) {
	if c.whole != nil && c.whole.worked != nil && bytes.Equal(raw, c.whole.raw) {
		return c.whole.worked, nil
	}
	doc, err := document(raw)
	if err != nil {
		return nil, err
	}
	w := workOut(doc, wire.Show{}, c.remembered())
	c.keep(raw, w)
	return w, nil
}

// remembered is what the last plans found out, where that is kept.
func (c Core) remembered() *plan.Memory {
	if c.memory == nil {
		return new(plan.Memory)
	}
	return c.memory
}

// offer notes what mends the findings. In an answer for which nothing is tried they keep
// what mended them before, so that nothing on the page comes and goes.
func (c Core) offer(fs []finding.Finding, untried bool) {
	if c.offered == nil {
		return
	}
	if !untried {
		*c.offered = fs
		return
	}
	for i := range fs {
		for _, was := range *c.offered {
			if was.ID == fs[i].ID && was.Place.Field == fs[i].Place.Field {
				fs[i].Remedies = was.Remedies
			}
		}
	}
}

// Open reads a saved design.
func (Core) Open(text string) ([]byte, []finding.Finding, error) {
	doc, found, err := design.Open([]byte(text))
	if err != nil {
		return nil, nil, err
	}
	out, err := json.Marshal(doc)
	return out, found, err
}

// Save writes the design as a file.
func (Core) Save(raw []byte) (wire.FileBody, error) {
	doc, err := document(raw)
	if err != nil {
		return wire.FileBody{}, err
	}
	return wire.Body(plainName(doc, "", "json"), "application/json", design.Save(doc)), nil
}

// File writes one of the files that Plan lists, PDFs in the typeface of faces.
func (c Core) File(raw []byte, name string, faces []byte) (wire.FileBody, error) {
	w, err := c.kept(raw)
	if err != nil {
		return wire.FileBody{}, err
	}
	if w.faces, err = export.ReadFaces(faces); err != nil {
		return wire.FileBody{}, err
	}
	for _, f := range w.all() {
		if f.name == name {
			return wire.Body(f.name, f.media, f.body()), nil
		}
	}
	return wire.FileBody{}, errors.New("this design has no file of the name " + name + " now; see what the list of files says")
}

// Controls describes the form.
func (Core) Controls() (wire.Controls, error) {
	var out wire.Controls
	for _, c := range design.Cards() {
		out.Cards = append(out.Cards, wire.Card{ID: c.ID, Title: c.Title, Help: c.Help})
	}
	for _, f := range design.Fields() {
		out.Controls = append(out.Controls, control(f))
	}
	for _, e := range design.Examples() {
		raw, err := json.Marshal(e.Design)
		if err != nil {
			return out, err
		}
		out.Examples = append(out.Examples, wire.Example{ID: e.ID, Title: e.Title, About: e.About, Design: raw})
	}
	raw, err := json.Marshal(design.Empty())
	out.Empty = raw
	return out, err
}

func terms(c design.Condition) []wire.Term {
	var out []wire.Term
	for _, t := range c {
		out = append(out, wire.Term{Path: t.Path, Values: t.Values, Or: terms(t.Or)})
	}
	return out
}

func control(f design.Field) wire.Control {
	c := wire.Control{
		Path: f.Path, Card: f.Card, Label: f.Label, Help: f.Help, Kind: f.Kind.Control(), More: f.More,
	}
	c.When = terms(f.When)
	for _, col := range f.Columns {
		c.Columns = append(c.Columns, control(col))
	}
	c.Row = f.Row
	for _, ch := range f.Choices {
		c.Choices = append(c.Choices, wire.Choice{Value: ch.Value, Label: ch.Label})
	}
	return c
}

func (w *worked) fields() map[string]wire.Field {
	out := map[string]wire.Field{}
	for _, s := range w.states {
		out[s.Path] = wire.Field{Label: s.Label, Default: s.Default, Problem: s.Problem, Means: s.Means}
	}
	w.told(out)
	w.toldWhere(out)
	return out
}
