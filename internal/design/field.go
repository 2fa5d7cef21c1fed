package design

import (
	"math"
	"slices"
	"sync"

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
	Path    string // dotted path in the document
	Card    string // "sheet", "machine", "strips", "curve", "panel", "rib", "cut"
	Label   string
	Help    string // one plain sentence
	Kind    Kind
	Choices []Choice
	Columns []Field // of Rows: the fields of one row, by their paths within it
	Row     string  // of Rows: what one row is called
	// Min and Max bound a figure, both allowed; in mm, radians, MPa, mm/s... They are
	// ignored when both are zero.
	Min, Max float64
	More     bool      // not among the first questions of its card
	When     Condition // asked only then
	Ask      string    // what to say when it is empty though nothing can stand in for it
	Auto     string    // what the program does when it is empty or "auto"

	text   string                 // the default of a choice or text
	preset func(*Values) float64  // the default of a figure
	tells  func(*Values) string   // what Auto came to, once the field is in place
	into   func(*Values, reading) // puts what was read in its place
	row    func(*Values, int)     // of Rows: makes room for row i of the document, which its columns then fill
	whole  func(*reader, *State)  // of Rows: looks at the rows together
}

// reading is what a field came to.
type reading struct {
	num   float64
	text  string
	on    bool
	drawn Drawing
	typed bool // by the person; otherwise the default
	shown bool // the field is asked for at all
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

// table makes the table of fields, once: it is half of what reading a design takes.
var table = sync.OnceValue(func() []Field {
	stocks := stock.All()
	return slices.Concat(sheetFields(stocks), machineFields(), stripsFields(), withDrawnLine(curveFields()), panelFields(), ribFields(stocks), baseFields(stocks), cutFields())
})

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

func degrees(d float64) float64 { return d * math.Pi / 180 }
