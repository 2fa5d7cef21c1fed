package design

import (
	"math"
	"slices"
	"strings"

	"springrib/internal/unit"
)

// Drawing is what was taken from a file drawn elsewhere. Paths are in the text form of
// package plane, in mm whatever the person's unit, Y up, where the file had them.
type Drawing struct {
	Source  string   `json:"source"`            // name of the file
	Outline string   `json:"outline,omitempty"` // of a panel, one closed path
	Holes   []string `json:"holes,omitempty"`   // one closed path each
	Marks   []string `json:"marks,omitempty"`   // one path each, on the scored face
	Line    string   `json:"line,omitempty"`    // of a curve, one path
}

// IsZero reports whether nothing was taken; a document without a drawing is saved
// without a word of it.
func (d Drawing) IsZero() bool {
	return d.Source == "" && d.Outline == "" && d.Line == "" && len(d.Holes) == 0 && len(d.Marks) == 0
}

// DrawnValues is a drawing and how it is laid: mirrored, turned and scaled, in this
// order. Its paths are still text.
type DrawnValues struct {
	Drawing
	Length Opt // left open: as drawn
	Turn   float64
	Mirror bool
	Back   bool // a curve runs from its last point to its first
	Seam   Opt  // of a closed curve, along it as drawn; left open: where it bends least
}

// MaxDrawn is the longest drawing that a document takes, in bytes of its paths.
const MaxDrawn = 600_000

// Size returns the bytes of a drawing's paths.
func (d Drawing) Size() int {
	n := len(d.Outline) + len(d.Line)
	for _, p := range slices.Concat(d.Holes, d.Marks) {
		n += len(p)
	}
	return n
}

// drawing reads a drawing, or asks for one. Whether its paths can be read is not asked
// here.
func (r *reader) drawing(f *Field, st *State) reading {
	if !st.Shown {
		return reading{}
	}
	d := memberAt(&r.doc, f.Path).Interface().(Drawing)
	line := f.Card == "curve"
	switch {
	case line && strings.TrimSpace(d.Line) == "", !line && strings.TrimSpace(d.Outline) == "":
		r.missing(st, f.Ask, f.Ask)
	case d.Size() > MaxDrawn:
		st.Problem = "This drawing is too long to work with."
		r.stop("field-range", f.Path, f.Label+": "+st.Problem)
	default:
		st.Means = d.holds(line)
		d.Holes, d.Marks = slices.Clone(d.Holes), slices.Clone(d.Marks)
		return reading{drawn: &d, typed: true}
	}
	return reading{}
}

// holds says in words what a drawing holds.
func (d Drawing) holds(line bool) string {
	what := "the outline"
	if line {
		what = "a line"
	}
	for _, part := range []struct {
		n    int
		word string
	}{{len(d.Holes), "hole"}, {len(d.Marks), "mark"}} {
		if part.n > 0 && !line {
			what += ", " + unit.Plural(part.n, part.word)
		}
	}
	if d.Source == "" {
		return what
	}
	return what + " from " + d.Source
}

// drawnFields ask for an outline drawn elsewhere and how it is laid.
func drawnFields() []Field {
	drawn := is("panel.shape", Drawn)
	return []Field{
		{Path: "panel.drawn", Label: "The drawing", Kind: Drawings, When: drawn,
			Help: "A file of lines, SVG or DXF, from whatever it was drawn with.", Ask: "Open a drawing and choose the outline in it.", to: "Panel.Drawn.Drawing"},
		{Path: "panel.drawnLength", Label: "Length of the outline", Kind: Length, Min: 1, Max: 50000, When: drawn,
			Help: "Along the bend, from its first point to its last; all of it is scaled with that.", Auto: "as drawn", to: "Panel.Drawn.Length"},
		{Path: "panel.drawnTurn", Label: "Turned by", Kind: Angle, Min: -2 * math.Pi, Max: 2 * math.Pi, preset: always(0), When: drawn,
			Help: "Counter-clockwise; 90 lets what stood upright lie along the bend.", to: "Panel.Drawn.Turn"},
		{Path: "panel.drawnMirror", Label: "Mirrored", Kind: Check, When: drawn, Help: "Left and right swapped, before it is turned.", to: "Panel.Drawn.Mirror"},
	}
}

// withDrawnLine puts the fields of a curve drawn elsewhere after those of points.
func withDrawnLine(fields []Field) []Field {
	open := is("curve.kind", Drawn)
	drawn := is("curve.kind", Drawn, DrawnRound)
	at := 1 + slices.IndexFunc(fields, func(f Field) bool { return f.Path == "curve.points" })
	return slices.Insert(fields, at, []Field{
		{Path: "curve.drawn", Label: "The drawing", Kind: Drawings, When: drawn,
			Help: "A file of lines, SVG or DXF, from whatever it was drawn with.", Ask: "Open a drawing and choose the line in it that the panel is to follow.",
			to: "Curve.Drawn.Drawing"},
		{Path: "curve.drawnLength", Label: "Length of the line", Kind: Length, Min: 5, Max: 50000, When: drawn,
			Help: "Along the line itself, without the straight foot and tip; all of it is scaled with that.", Auto: "as drawn", to: "Curve.Drawn.Length"},
		{Path: "curve.drawnBack", Label: "The foot is at its other end", Kind: Check, When: open,
			Help: "Which end of the line the panel starts at.", to: "Curve.Drawn.Back"},
		{Path: "curve.drawnSeam", Label: "Seam along the line at", Kind: Length, Min: 0, Max: 50000, When: is("curve.kind", DrawnRound),
			Help: "From its first point, the way it was drawn, to where the panel's ends meet, once it has its length.",
			Auto: "the middle of its longest straight, or where it bends least", to: "Curve.Drawn.Seam"},
		{Path: "curve.drawnMirror", Label: "Mirrored", Kind: Check, More: true, When: drawn,
			Help: "Left and right swapped, before it is turned.", to: "Curve.Drawn.Mirror"},
		{Path: "curve.drawnTurn", Label: "Turned by", Kind: Angle, Min: -2 * math.Pi, Max: 2 * math.Pi, preset: always(0), More: true, When: drawn,
			Help: "Counter-clockwise, as the side view shows it.", to: "Curve.Drawn.Turn"},
	}...)
}

// MostDrawn is the largest that a drawing from elsewhere is taken for, mm: beyond it a file was
// read in the wrong unit.
const MostDrawn = 50_000.0

// Unreadable is said of paths of a drawing that can't be read, which a design that was saved
// here never comes to; its id is drawn-unreadable.
const Unreadable = "What this design keeps of the drawing can't be read. Open the drawing again."
