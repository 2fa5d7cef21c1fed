package design

import (
	"cmp"
	"errors"
	"math"
	"reflect"
	"strconv"
	"strings"

	"springrib/internal/finding"
	"springrib/internal/unit"
)

// State is what a field says of itself now, for the form.
type State struct {
	Path    string
	Label   string // what it is called now, where that is not the word of its row
	Shown   bool   // its condition holds
	Default string // what an empty field means
	Problem string // why its text can't be used, and what to write
	Means   string // how its text was understood, where that is not plain from it
}

// Read turns a document into values and gathers a finding for every field that is
// unreadable, out of range or missing. The ids it gives are "field-missing",
// "field-unreadable", "field-range", "field-order" (all of them stops),
// "thickness-odd", "readings-scatter", "colours-alike" (warnings), "first-bend" and
// "colour-faint" (notes).
func Read(doc Document) (Values, []finding.Finding) {
	v, found, _ := ReadStates(doc)
	return v, found
}

// ReadStates is Read with the state of every field, in the order of Fields, those of the
// entries of a list after it.
func ReadStates(doc Document) (Values, []finding.Finding, []State) {
	r := &reader{doc: doc, texts: textsOf(&doc), chosen: map[string]string{}, states: make([]State, 0, len(table())+16)}
	r.read()
	return r.v, r.found, r.states
}

// reader walks the table of fields once, top down.
type reader struct {
	doc    Document
	texts  map[string]string // of doc, by path
	v      Values
	chosen map[string]string // path of a choice -> what it came to
	row    int               // of the list that is being read
	found  []finding.Finding
	states []State
}

func (r *reader) read() {
	sys, ok := unit.SystemOf(r.doc.Units)
	if !ok && r.doc.Units != "" {
		r.stop("field-unreadable", "units", "The unit "+short(r.doc.Units)+" is not known. Choose mm or in.",
			finding.Remedy{Text: "Use millimetres", Set: map[string]string{"units": "mm"}}, finding.Remedy{Text: "Use inches", Set: map[string]string{"units": "in"}})
	}
	r.v.Units = sys
	v := reflect.ValueOf(&r.v).Elem()
	for i := range table() {
		switch f := &table()[i]; f.Kind {
		case Lengths:
			f.list(r, f)
		case Rows:
			r.rows(f, f.in(v))
		default:
			r.field(f, "", v)
		}
	}
	r.v.coneRims()
	switch p := &r.v.Panel; p.Shape {
	case Taper:
		p.Width = max(p.FootWidth, p.WidestWidth, p.TipWidth)
		if !p.Bulges && !p.WidestAt.OK { // straight from the wider end to the other
			p.WidestAt = Opt{OK: true}
			if p.TipWidth > p.FootWidth {
				p.WidestAt.V = 1e6
			}
		}
	case Polygon:
		lo, hi := p.Corners[0].Across, p.Corners[0].Across
		for _, c := range p.Corners {
			lo, hi = min(lo, c.Across), max(hi, c.Across)
		}
		p.Width = hi - lo
	}
	r.ownIsKnown()
	r.turnFits()
	r.coloursDiffer()
	r.coloursShow()
}

// lookup returns what counts at a path for a condition: what a choice came to, or a text.
func (r *reader) lookup(path string) string {
	if c, ok := r.chosen[path]; ok {
		return c
	}
	return r.texts[path]
}

// field reads one field into the values, or the column of the row at a path, which ends
// in a dot.
func (r *reader) field(f *Field, row string, into reflect.Value) {
	st := State{Path: row + f.Path, Shown: f.When.holds(func(path string) string { return r.lookup(row + path) })}
	text := ""
	if st.Shown { // what is typed elsewhere stays in the document and counts for nothing
		text = strings.TrimSpace(r.texts[st.Path])
	}
	var got reading
	switch f.Kind {
	case Check:
		got.on = text == "true"
	case Text:
		st.Default = f.text
		got = reading{text: cmp.Or(text, f.text), typed: text != ""}
	case Choose:
		got = r.choice(f, text, &st)
	case Colour:
		got = r.colour(f, text, &st)
	case Drawings:
		got = r.drawing(f, &st)
	default:
		got = r.figure(f, text, &st)
	}
	got.shown, got.row = st.Shown, r.row
	f.put(&r.v, into, got)
	if f.tells != nil && !got.typed {
		st.Default = f.tells(&r.v)
	}
	r.states = append(r.states, st)
}

// choice reads a choice by its value.
func (r *reader) choice(f *Field, text string, st *State) reading {
	if f.other != nil {
		if got, ok := f.other(text); ok {
			r.chosen[st.Path] = "typed"
			return got
		}
	}
	got := reading{text: f.text}
	if f.usual != nil {
		got.text = f.usual(&r.v)
	}
	def := got.text
	for _, c := range f.Choices {
		if c.Value == def {
			st.Default = c.Label
		}
		if c.Value == text {
			got = reading{text: text, typed: true}
		}
	}
	if text != "" && !got.typed {
		r.unreadable(f, st, short(text)+" is none of the choices here. Choose from the list.", finding.Remedy{Text: "Use " + st.Default, Set: map[string]string{st.Path: def}})
	}
	r.chosen[st.Path] = got.text
	return got
}

func (r *reader) colour(f *Field, text string, st *State) reading {
	st.Default = f.text
	up := strings.ToUpper(text)
	switch {
	case text == "":
	case len(up) == 7 && up[0] == '#' && strings.Trim(up[1:], "0123456789ABCDEF") == "":
		return reading{text: up, typed: true}
	default:
		r.unreadable(f, st, short(text)+" is not a colour. Write it as "+f.text+".", finding.Remedy{Text: "Use " + f.text, Set: map[string]string{st.Path: f.text}})
	}
	return reading{text: f.text}
}

// unreadable stops a text that can't be used.
func (r *reader) unreadable(f *Field, st *State, problem string, remedies ...finding.Remedy) {
	st.Problem = problem
	r.stop("field-unreadable", st.Path, f.Label+": "+problem, remedies...)
}

// figure reads a number with its unit, or takes the default of the field.
func (r *reader) figure(f *Field, text string, st *State) reading {
	got := reading{}
	if f.preset != nil {
		got.num = f.preset(&r.v)
	}
	switch {
	case f.Auto != "":
		st.Default = f.Auto
	case f.Ask == "" && f.preset != nil:
		st.Default = f.Kind.show(got.num, r.v.Units)
	}
	if text == "" || f.Auto != "" && strings.EqualFold(text, "auto") {
		if f.Ask != "" && st.Shown {
			r.missing(st, f.Ask, f.Ask)
		}
		return got
	}
	v, err := f.Kind.read(text, r.v.Units)
	if err != nil {
		r.unreadable(f, st, err.Error(), append(spelledOut(st.Path, text, err), leftOpen(f, st)...)...)
		return got
	}
	if bound, word := f.outside(v); word != "" {
		shown := f.Kind.show(bound, r.v.Units)
		st.Problem = f.Kind.show(v, r.v.Units) + " is too " + word + " here. Write " + shown + " or " + map[string]string{"small": "more", "large": "less"}[word] + "."
		r.say(finding.Stop, "field-range", st.Path, f.Label+": "+st.Problem, map[string]float64{"value": v, "min": f.Min, "max": f.Max},
			finding.Remedy{Text: "Use " + shown, Set: map[string]string{st.Path: f.store(bound)}})
		return got
	}
	if means := f.Kind.show(v, r.v.Units); text != means && text+" "+r.v.Units.String() != means && strings.ContainsAny(text, "/'\"½¼¾⅛⅜⅝⅞ abcdefghijklmnopqrstuvwxyz") {
		st.Means = means
	}
	return reading{num: v, typed: true}
}

// missing stops a field that has to be filled in: problem is said beside it, text of the design.
func (r *reader) missing(st *State, problem, text string, remedies ...finding.Remedy) {
	st.Problem = problem
	r.stop("field-missing", st.Path, text, remedies...)
}

// outside returns the bound that v is beyond, and whether v is too small or too large.
func (f *Field) outside(v float64) (bound float64, word string) {
	const slack = 1e-9 // a bound typed in inches or degrees must count as within
	switch {
	case f.Min == 0 && f.Max == 0:
	case v < f.Min-slack*(1+math.Abs(f.Min)):
		return f.Min, "small"
	case v > f.Max+slack*(1+math.Abs(f.Max)):
		return f.Max, "large"
	}
	return 0, ""
}

// store writes a figure as a document keeps it, unit included where there is one, so
// that it means the same whatever the person's unit.
func (f *Field) store(v float64) string {
	switch f.Kind {
	case Length, Lengths:
		return unit.Bare(v, unit.MM) + " mm"
	case Angle:
		return unit.Decimal(v/degrees(1), 6) + " deg"
	case Percent:
		return unit.Decimal(100*v, 6)
	case Speed:
		return unit.Decimal(v, 6) + " mm/s"
	case Acceleration:
		return unit.Decimal(v, 6) + " mm/s²"
	}
	return unit.Decimal(v, 6)
}

// spelledOut offers the two readings of a bare fraction as remedies.
func spelledOut(path, text string, err error) []finding.Remedy {
	var e *unit.Error
	if !errors.As(err, &e) || e.Kind != unit.NeedsUnit {
		return nil
	}
	inches := text + " in"
	mm, err := unit.ParseLength(inches, unit.MM)
	if err != nil {
		return nil
	}
	return []finding.Remedy{
		{Text: "Write " + inches, Set: map[string]string{path: inches}},
		{Text: "Write " + unit.Length(mm, unit.MM), Set: map[string]string{path: unit.Length(mm, unit.MM)}},
	}
}

// leftOpen offers to clear a field that needs no answer.
func leftOpen(f *Field, st *State) []finding.Remedy {
	switch {
	case st.Default == "":
		return nil
	case f.Auto != "":
		return []finding.Remedy{{Text: "Leave it open", Set: map[string]string{st.Path: ""}}}
	}
	return []finding.Remedy{{Text: "Use " + st.Default, Set: map[string]string{st.Path: ""}}}
}

func (r *reader) stop(id, path, text string, remedies ...finding.Remedy) {
	r.say(finding.Stop, id, path, text, nil, remedies...)
}

func (r *reader) say(sev finding.Severity, id, path, text string, numbers map[string]float64, remedies ...finding.Remedy) {
	r.found = append(r.found, finding.Finding{ID: id, Severity: sev, Place: finding.Place{Field: path}, Text: text, Numbers: numbers, Remedies: remedies})
}

// ownIsKnown asks for the one figure that nothing can stand in for in a sheet that is
// in no handbook.
func (r *reader) ownIsKnown() {
	if r.v.Sheet.Own && r.v.Sheet.Kind == "unknown" && strings.TrimSpace(r.doc.Sheet.E) == "" {
		r.stop("field-missing", "sheet.ownKind", "Say what your sheet is made of: its stiffness is then a guess until you know better.")
	}
}

// turnFits stops an arc given by length and radius that closes on itself.
func (r *reader) turnFits() {
	c := &r.v.Curve
	if c.Kind != LengthRadius || c.Length <= c.Radius*degrees(maxTurn) {
		return
	}
	most := math.Floor(10*c.Radius*degrees(maxTurn)) / 10 // never rounded up
	f := Field{Kind: Length}
	r.say(finding.Stop, "field-range", "curve.length", "Length along the curve: at this radius "+unit.Length(c.Length, r.v.Units)+" goes more than once around. Write "+unit.Length(most, r.v.Units)+" or less.",
		map[string]float64{"value": c.Length, "max": most}, finding.Remedy{Text: "Use " + unit.Length(most, r.v.Units), Set: map[string]string{"curve.length": f.store(most)}})
	c.Length = most
}

// coloursDiffer warns when a machine that goes by colour could not tell two
// operations apart.
func (r *reader) coloursDiffer() {
	ops, ids := r.v.Cut.Operations, OperationIDs()
	for i := range ops {
		for j := range i {
			if ops[i].Colour == ops[j].Colour {
				path := "cut.operations." + ids[i] + ".colour"
				r.say(finding.Warn, "colours-alike", path, ops[i].Name+" and "+ops[j].Name+" are drawn in the same colour, so a machine that goes by colour can't tell them apart.", nil,
					finding.Remedy{Text: "Use the usual colours", Set: map[string]string{path: "", "cut.operations." + ids[j] + ".colour": ""}})
				break
			}
		}
	}
}

func short(s string) string {
	if rs := []rune(s); len(rs) > 24 {
		return "\"" + string(rs[:24]) + "...\""
	}
	return "\"" + s + "\""
}

func index(path string, i int) string { return path + "." + strconv.Itoa(i) }
