package wire

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"

	"springrib/internal/design"
	"springrib/internal/finding"
)

// MaxRequest is the longest request that is read, in bytes: a file of MaxDrawing as base64
// with a design beside it. One without such a file has at most MaxDesign: a design by hand
// is a few kilobytes, and the room above that is for outlines drawn elsewhere.
const (
	MaxRequest = 32 << 20
	MaxDesign  = 8 << 20
)

// Core does the work behind the messages. Its methods may be called in any order and
// keep nothing between calls, so that a restarted core answers as the old one did.
//
// A person's mistake comes back inside a PlanView or as findings. An error is a plain
// sentence for the person and means that there is nothing to show at all.
type Core interface {
	// Controls describes the form, the stocks and the examples.
	Controls() (Controls, error)
	// Plan works out a whole plan; the arrays belong to PlanView.Drawings, index by index,
	// and those after them to PlanView.Space.
	Plan(design []byte, show Show) (PlanView, [][]float32, error)
	// Drag returns the texts that a moved handle writes, by path, and the design with them.
	Drag(design []byte, drag Drag) (set map[string]string, changed []byte, err error)
	// Open reads a saved design of any version and returns the document of this one.
	Open(text string) ([]byte, []finding.Finding, error)
	// Save writes the design as a file that Open reads.
	Save(design []byte) (FileBody, error)
	// Bench returns the bench sheet; the arrays belong to its figures.
	Bench(design []byte) (BenchSheet, [][]float32, error)
	// Machine returns the design with the settings of a machine from a file.
	Machine(design []byte, text string) ([]byte, []finding.Finding, error)
	// Stock returns the design with the sheet of a file and its readings.
	Stock(design []byte, text string) ([]byte, []finding.Finding, error)
	// Pack lays the parts of a design closer and returns the design that keeps it and what
	// it came to so far.
	Pack(design []byte, work Work) (changed []byte, packed Packed, err error)
	// File writes one of the files that the design's PlanView lists; faces is the typeface of
	// PDFs, as export.ReadFaces takes it.
	File(design []byte, name string, faces []byte) (FileBody, error)
	// Job writes everything that leaves of a saved job, designs that are cut together, as one file,
	// and what there is to say of its members.
	Job(text string, faces []byte) (FileBody, []finding.Finding, error)
	// Intake shows what a file drawn elsewhere holds; the array belongs to its Drawing.
	Intake(design []byte, in Intake) (IntakeView, []float32, error)
	// Take returns the design with what was chosen of that file.
	Take(design []byte, in Intake) ([]byte, error)
}

// Show is what of a plan is wanted besides the usual: see Request.
type Show struct {
	Kind   string
	Folded float64
	// Brief leaves out what can wait until the rest is shown: test strips and files.
	Brief bool
	// Held leaves out what takes long and can wait until a hand lets go as well: the search
	// for what would do where nothing works.
	Held bool
	// Untried leaves out what would mend the findings, which plans the design many times over.
	Untried bool
}

// Answer answers one request. It always returns a Reply as JSON, whatever the request
// holds: what could not be answered at all has Error set, with a sentence to show.
// The arrays are the numbers of the plan's drawings, index by index, of the one of an
// intake, or of the figures of a bench sheet.
func Answer(core Core, request []byte) (reply []byte, arrays [][]float32) {
	var id int
	defer func() {
		if p := recover(); p != nil {
			reply, arrays = refuse(id, broke(p)), nil
		}
	}()
	long := func() []byte {
		return refuse(id, fmt.Sprintf("This design is %d MB long; at most %d MB can be read. Is it the right file?", len(request)>>20, MaxDesign>>20))
	}
	if len(request) > MaxRequest {
		return long(), nil
	}
	var q Request
	err := json.Unmarshal(request, &q)
	switch {
	case q.Intake == nil && len(request) > MaxDesign:
		return long(), nil
	case err != nil:
		return refuse(id, "The core could not read what the page sent. Reload the page; your design is kept."), nil
	}
	id = q.ID
	var r Reply
	r, arrays, err = answer(core, q)
	if err != nil {
		return refuse(id, err.Error()), nil
	}
	r.ID = id
	fill(reflect.ValueOf(&r).Elem())
	out, err := json.Marshal(r)
	if err != nil {
		return refuse(id, broke(err)), nil
	}
	return out, arrays
}

// answer calls the one method of the core that the request's kind asks for.
func answer(core Core, q Request) (r Reply, arrays [][]float32, err error) {
	switch q.Kind {
	case "fields":
		var c Controls
		c, err = core.Controls()
		r.Controls = &c
	case "plan":
		return planned(core, q)
	case "open":
		r.Design, r.Findings, err = core.Open(q.Text)
	case "convert":
		r.Design, err = convert(q.Design, q.Text)
	case "bench":
		var b BenchSheet
		b, arrays, err = core.Bench(q.Design)
		r.Bench = &b
	case "machine":
		r.Design, r.Findings, err = core.Machine(q.Design, q.Text)
	case "stock":
		r.Design, r.Findings, err = core.Stock(q.Design, q.Text)
	case "pack":
		var p Packed
		r.Design, p, err = core.Pack(q.Design, Work{int64(q.Effort), int64(q.Slice), uint64(q.Seed)})
		r.Packed = &p
	case "save":
		var f FileBody
		f, err = core.Save(q.Design)
		r.File = &f
	case "file":
		var f FileBody
		f, err = core.File(q.Design, q.File, q.Faces)
		r.File = &f
	case "job":
		var f FileBody
		f, r.Findings, err = core.Job(q.Text, q.Faces)
		r.File = &f
	case "intake", "take":
		return drawnElsewhere(core, q)
	default:
		err = fmt.Errorf("the page asked for %q, which this core does not know; reload the page", clip(q.Kind))
	}
	return r, arrays, err
}

// drawnElsewhere answers a request about a file drawn elsewhere.
func drawnElsewhere(core Core, q Request) (r Reply, arrays [][]float32, err error) {
	if q.Intake == nil {
		return r, nil, errors.New("the page named no drawing; open it again")
	}
	if q.Kind == "take" {
		r.Design, err = core.Take(q.Design, *q.Intake)
		return r, nil, err
	}
	v, numbers, err := core.Intake(q.Design, *q.Intake)
	r.Intake = &v
	return r, [][]float32{numbers}, err
}

// planned answers a request for a plan, of a design with a moved handle when it says so.
func planned(core Core, q Request) (r Reply, arrays [][]float32, err error) {
	if q.Drag != nil {
		if r.Set, q.Design, err = core.Drag(q.Design, *q.Drag); err != nil {
			return r, nil, err
		}
	}
	var v PlanView
	v, arrays, err = core.Plan(q.Design, Show{Kind: q.Show, Folded: q.Folded, Brief: q.Brief || q.Drag != nil, Held: q.Drag != nil, Untried: q.Untried})
	r.Plan = &v
	if wanted := len(v.Drawings) + spaceArrays(v.Space); err == nil && len(arrays) != wanted {
		panic(fmt.Sprintf("%d arrays where drawings and space need %d", len(arrays), wanted))
	}
	return r, arrays, err
}

// spaceArrays is how many arrays a Space has.
func spaceArrays(s *Space) int {
	if s == nil {
		return 0
	}
	return SpaceArrays
}

// convert writes every length of a design in other units.
func convert(raw []byte, units string) ([]byte, error) {
	if units != "mm" && units != "in" {
		return nil, fmt.Errorf("the page asked for the units %q; there are mm and in", clip(units))
	}
	var doc design.Document
	if err := json.Unmarshal(raw, &doc); err != nil {
		return nil, fmt.Errorf("the page sent something that is not a design: %w", err)
	}
	return json.Marshal(design.Convert(doc, units))
}

// refuse makes a reply that holds nothing but a sentence.
func refuse(id int, sentence string) []byte {
	out, err := json.Marshal(Reply{ID: id, Error: sentence})
	if err != nil {
		panic(err) // an int and a string can always be written
	}
	return out
}

// broke turns a panic's value into a sentence for the person.
func broke(p any) string {
	return fmt.Sprintf("Something broke inside (%s). Your design is safe; undo the last change, or save the design and reload the page.",
		clip(fmt.Sprint(p)))
}

// clip keeps a quoted text short enough to stand in a sentence.
func clip(s string) string {
	const most = 200
	s = string(bytes.ToValidUTF8([]byte(s), []byte("?")))
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "..."
	}
	return s
}

// fill puts an empty list or table in the place of each nil one that JSON would write
// as null, so that the page can go through every list without asking first. Members
// with omitempty stay out as before, since an empty list is left out like a nil one.
func fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			fill(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i))
		}
	case reflect.Slice:
		fillSlice(v)
	case reflect.Map:
		if v.IsNil() {
			v.Set(reflect.MakeMap(v.Type()))
		}
	}
}

func fillSlice(v reflect.Value) {
	switch v.Type().Elem().Kind() {
	case reflect.Uint8:
		return // json.RawMessage: nil is the word null, on purpose
	case reflect.Struct, reflect.Slice, reflect.Map, reflect.Pointer:
		for i := range v.Len() {
			fill(v.Index(i))
		}
	}
	if v.IsNil() {
		v.Set(reflect.MakeSlice(v.Type(), 0, 0))
	}
}
