// Package export writes what is to be cut as files: SVG, DXF, PDF, PNG, a table of
// fence positions, and one zip of everything.
//
// A writer gets a finished cut.Job and adds nothing to it: one unit of every file
// is one millimetre of the sheet. Coordinates are rounded to Step in round.go and
// nowhere else, so that all files of a job agree. Names that people typed are
// treated as hostile: each format cleans them in its own way (names.go), and what
// had to be changed is returned as findings.
//
// Bytes depend on the arguments only: no clock, no map order, no locale, and the
// same on amd64 and wasm.
package export
