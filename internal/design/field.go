package design

import (
	"cmp"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync"

	"springrib/internal/machine"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// Kind is what a field holds.
type Kind string

// The kinds of field.
const (
	Length       Kind = "length"
	Lengths      Kind = "lengths"
	Angle        Kind = "angle"
	Number       Kind = "number"
	Count        Kind = "count"
	Percent      Kind = "percent"
	Stress       Kind = "stress"
	Density      Kind = "density"
	Speed        Kind = "speed"
	Acceleration Kind = "acceleration"
	Choose       Kind = "choice"
	Check        Kind = "check"
	Text         Kind = "text"
	Colour       Kind = "colour"
	Rows         Kind = "rows"
	Force        Kind = "force"
	Drawings     Kind = "drawing"
)

// Control returns the kind of control that the page draws for it: every figure that
// is not a length or an angle is a "number".
func (k Kind) Control() string {
	switch k {
	case Percent, Stress, Density, Speed, Acceleration, Force:
		return string(Number)
	}
	return string(k)
}

// Choice is one value of a choice.
type Choice struct{ Value, Label string }

// Field is one row of the form: everything that is to be known of a parameter. A new
// parameter is a member of Document, a member of Values and one row.
type Field struct {
	Path    string // dotted path in the document; of a column, within its row
	Card    string // "sheet", "machine", "strips", "curve", "panel", "rib", "cut"
	Label   string
	Help    string // one plain sentence
	Kind    Kind
	Choices []Choice
	Columns []Field // of Rows: the fields of one row
	Row     string  // of Rows: what one row is called
	// Min and Max bound a figure, both allowed; in mm, radians, MPa, mm/s... They are
	// ignored when both are zero.
	Min, Max float64
	More     bool      // not among the first questions of its card
	When     Condition // asked only then; of a column, by the paths within its row
	Ask      string    // what to say when it is empty though nothing can stand in for it
	Auto     string    // what the program does when it is empty or "auto"

	text   string                       // the default of a choice or text
	usual  func(*Values) string         // the default of a choice that rests on fields before it
	preset func(*Values) float64        // the default of a figure
	other  func(string) (reading, bool) // of a choice: reads a text that is none of them
	tells  func(*Values) string         // what Auto came to, once the field is in place
	most   int                          // of a list: how many entries are read, maxList where it is 0
	every  bool                         // of Rows: a row counts even while nothing is typed in it
	job    bool                         // of one job alone: it is not saved with a machine's settings

	to    string                 // the member of Values, or of its row, that takes it, where that is not called as Path says
	into  func(*Values, reading) // puts what was read in its place, where that is more than one member
	list  func(*reader, *Field)  // of Lengths: reads them
	whole func(*reader, *State)  // of Rows: looks at the rows together

	member []int // where the member lies, one index a level
}

// reading is what a field came to.
type reading struct {
	num   float64
	text  string
	on    bool
	drawn *Drawing // none where there is none, or it is not asked for
	typed bool     // by the person; otherwise the default
	shown bool     // the field is asked for at all
	row   int      // of the document, where it is a column
}

// Card is one step of the job.
type Card struct{ ID, Title, Help string }

// Cards returns the steps of the job in order.
func Cards() []Card {
	return []Card{
		{"sheet", "The sheet", "What it is, and how thick it really is."},
		{"machine", "The machine", "What cuts, how wide and how deep it scores, and its bed."},
		{"strips", "Test strips", "Ten minutes that make the rest true: what strips of this sheet say."},
		{"curve", "The curve", "The bend you want, from the foot to the tip."},
		{"panel", "The panel", "The flat piece that bends, and its scores."},
		{"rib", "The rib", "The shaped piece that holds the curve."},
		{"cut", "The cut", "How the parts lie on the sheet, and what the file calls things."},
	}
}

// Fields returns every field in the order of the cards and of the questions. A field
// may rest its default only on fields before it.
func Fields() []Field { return slices.Clone(table()) }

var (
	once   sync.Once
	fields []Field
)

// table makes the table of fields, once: making it takes longer than reading a design.
func table() []Field {
	once.Do(func() {
		stocks := stock.All()
		fields = slices.Concat(on("sheet", sheetFields(stock.Choices())), on("machine", machineFields()), on("strips", stripsFields()), on("curve", withDrawnLine(curveFields())),
			on("panel", panelFields()), on("rib", ribFields(stocks)), on("rib", baseFields(stocks)), on("cut", cutFields()))
		for i := range fields {
			fields[i].settle(reflect.TypeFor[Values]())
		}
	})
	return fields
}

// on puts fields on a card.
func on(card string, fields []Field) []Field {
	for i := range fields {
		fields[i].Card = card
		on(card, fields[i].Columns)
	}
	return fields
}

// settle finds the member of t that takes the field, by the steps of its path: a member's
// name in whatever case, or the id of an operation. It panics where t has none.
func (f *Field) settle(t reflect.Type) {
	if f.into != nil || f.list != nil {
		return
	}
	for _, step := range strings.Split(cmp.Or(f.to, f.Path), ".") {
		if t.Kind() == reflect.Array {
			f.member, t = append(f.member, slices.Index(OperationIDs(), step)), t.Elem()
			continue
		}
		var at []int
		if at, t = called(t, step); at == nil {
			panic("design: nothing takes " + f.Path)
		}
		f.member = append(f.member, at...)
	}
	for i := range f.Columns {
		f.Columns[i].settle(t.Elem())
	}
}

// called returns where the member of t with a name lies, an embedded struct's among them,
// and its type.
func called(t reflect.Type, name string) ([]int, reflect.Type) {
	for i := range t.NumField() {
		m := t.Field(i)
		if strings.EqualFold(m.Name, name) {
			return []int{i}, m.Type
		}
		if m.Anonymous {
			if at, t := called(m.Type, name); at != nil {
				return append([]int{i}, at...), t
			}
		}
	}
	return nil, t
}

// in returns the field's member of v, which is a Values or a row of one.
func (f *Field) in(v reflect.Value) reflect.Value {
	for _, i := range f.member {
		if v.Kind() == reflect.Array {
			v = v.Index(i)
		} else {
			v = v.Field(i)
		}
	}
	return v
}

// put puts what was read in its place, in v or in the row of it.
func (f *Field) put(v *Values, row reflect.Value, got reading) {
	if f.into != nil {
		f.into(v, got)
		return
	}
	switch p := f.in(row).Addr().Interface().(type) {
	case *float64:
		*p = got.num
	case *int:
		*p = int(got.num)
	case *string:
		*p = got.text
	case *bool:
		*p = got.on
	case *Opt:
		*p = Opt{got.num, got.typed}
	case *Drawing:
		if got.drawn != nil {
			*p = *got.drawn
		}
	default:
		panic("design: no field reads into the member for " + f.Path)
	}
}

// read turns the text of a figure into mm, radians, MPa...
func (k Kind) read(text string, sys unit.System) (float64, error) {
	switch k {
	case Length, Lengths:
		return unit.ParseLength(text, sys)
	case Angle:
		return unit.ParseAngle(text)
	case Count:
		n, err := unit.ParseCount(text)
		return float64(n), err
	case Percent:
		return unit.ParsePercent(text)
	case Stress:
		return unit.ParseStress(text)
	case Force:
		return unit.ParseForce(text, sys)
	case Density:
		return unit.ParseDensity(text)
	case Speed:
		return unit.ParseSpeed(text, sys)
	case Acceleration:
		return unit.ParseAcceleration(text, sys)
	}
	return unit.ParseNumber(text)
}

// show prints a figure for the person.
func (k Kind) show(v float64, sys unit.System) string {
	switch k {
	case Length, Lengths:
		if math.Abs(v) < 1 && v != 0 {
			return unit.LengthFine(v, sys)
		}
		return unit.Length(v, sys)
	case Angle:
		return unit.Angle(v)
	case Percent:
		return unit.Percent(v)
	case Stress:
		return unit.Stress(v)
	case Force:
		return unit.Mass(v, sys)
	case Density:
		return unit.Figures(v, 3) + " kg/m³"
	case Speed:
		return unit.Speed(v, sys)
	case Acceleration:
		return unit.Speed(v, sys) + "²"
	}
	return unit.Figures(v, 4)
}

// sized rounds a default to 0.01 mm: what the page shows is then what is used.
func sized(v float64) float64 { return math.Round(v*100) / 100 }

func always(v float64) func(*Values) float64 { return func(*Values) float64 { return v } }

// practice is always for a figure that is common practice and has no source.
func practice(v float64) func(*Values) float64 { return always(v) }

// byTool is practice for each tool.
func byTool(laser, router, saw, knife float64) func(*Values) float64 {
	usual := [...]float64{machine.Laser: laser, machine.Router: router, machine.Saw: saw, machine.Knife: knife}
	return func(v *Values) float64 { return usual[v.Machine.Tool] }
}

func degrees(d float64) float64 { return d * math.Pi / 180 }
