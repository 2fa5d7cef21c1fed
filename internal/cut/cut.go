// Package cut holds what a machine is to do: operations in their order, each a list
// of strokes, on one sheet.
package cut

import "springrib/internal/plane"

// Kind is the purpose of an operation. Kinds are cut in the order of their values.
type Kind uint8

// The kinds of operation, in cutting order.
const (
	Score Kind = iota // part-way through, along a ruling
	Mark              // on the surface: glue line, names
	Inner             // through: holes and slots
	Outer             // through: the outline that frees the part
)

// Stroke is one continuous run of the tool, in sheet coordinates: mm, Y up, origin
// at the lower left corner of the bed.
type Stroke struct {
	Part string // id of the part it belongs to
	Path plane.Path
}

// Operation is all strokes of one kind on one sheet.
type Operation struct {
	Kind    Kind
	Name    string  // what the person calls it, "1 score"
	Colour  string  // "#rrggbb"
	Passes  int     // how often the machine runs each stroke, at least 1
	Speed   float64 // mm/s; 0 when unknown
	Strokes []Stroke
}

// Job is everything to be cut from one sheet.
type Job struct {
	Title         string // the design's name as the person typed it
	Revision      string // likewise
	Note          string // one sentence that every file of the sheet says: what was done about the kerf
	Fault         string // what is wrong with the design, in a few words; empty for nothing
	Sheet, Sheets int    // this sheet's number from 1, and how many there are
	Width, Height float64
	Operations    []Operation
}
