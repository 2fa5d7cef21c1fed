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

func (d Drawing) clone() Drawing {
	d.Holes, d.Marks = slices.Clone(d.Holes), slices.Clone(d.Marks)
	return d
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
func (r *reader) drawing(f Field, st *State) reading {
	if !st.Shown {
		return reading{}
	}
	d, main := r.doc.Panel.Drawn, r.doc.Panel.Drawn.Outline
	if f.Path == "curve.drawn" {
		d, main = r.doc.Curve.Drawn, r.doc.Curve.Drawn.Line
	}
	switch {
	case strings.TrimSpace(main) == "":
		st.Problem = f.Ask
		r.stop("field-missing", f.Path, f.Ask)
	case d.Size() > MaxDrawn:
		st.Problem = "This drawing is too long to work with."
		r.stop("field-range", f.Path, f.Label+": "+st.Problem)
	default:
		st.Means = d.holds(f.Path == "curve.drawn")
		return reading{drawn: d.clone(), typed: true}
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
	drawn := "panel.shape=" + Drawn
	return []Field{
		{
			Path: "panel.drawn", Card: "panel", Label: "The drawing", Kind: Drawings, When: drawn,
			Help: "A file of lines, SVG or DXF, from whatever it was drawn with.", Ask: "Open a drawing and choose the outline in it.",
			into: func(v *Values, r reading) { v.Panel.Drawn.Drawing = r.drawn },
		}, {
			Path: "panel.drawnLength", Card: "panel", Label: "Length of the outline", Kind: Length, When: drawn, Min: 1, Max: 50000,
			Help: "Along the bend, from its first point to its last; all of it is scaled with that.", Auto: "as drawn",
			into: func(v *Values, r reading) { v.Panel.Drawn.Length = Opt{r.num, r.typed} },
		}, {
			Path: "panel.drawnTurn", Card: "panel", Label: "Turned by", Kind: Angle, When: drawn, Min: -2 * math.Pi, Max: 2 * math.Pi,
			Help: "Counter-clockwise; 90 lets what stood upright lie along the bend.", preset: always(0),
			into: func(v *Values, r reading) { v.Panel.Drawn.Turn = r.num },
		}, {
			Path: "panel.drawnMirror", Card: "panel", Label: "Mirrored", Kind: Check, When: drawn,
			Help: "Left and right swapped, before it is turned.",
			into: func(v *Values, r reading) { v.Panel.Drawn.Mirror = r.on },
		},
	}
}

// withDrawnLine puts the fields of a curve drawn elsewhere after those of points.
func withDrawnLine(fields []Field) []Field {
	open := "curve.kind=" + Drawn
	drawn := open + "|" + DrawnRound
	at := 1 + slices.IndexFunc(fields, func(f Field) bool { return f.Path == "curve.points" })
	return slices.Insert(fields, at, []Field{
		{
			Path: "curve.drawn", Card: "curve", Label: "The drawing", Kind: Drawings, When: drawn,
			Help: "A file of lines, SVG or DXF, from whatever it was drawn with.", Ask: "Open a drawing and choose the line in it that the panel is to follow.",
			into: func(v *Values, r reading) { v.Curve.Drawn.Drawing = r.drawn },
		}, {
			Path: "curve.drawnLength", Card: "curve", Label: "Length of the line", Kind: Length, When: drawn, Min: 5, Max: 50000,
			Help: "Along the line itself, without the straight foot and tip; all of it is scaled with that.", Auto: "as drawn",
			into: func(v *Values, r reading) { v.Curve.Drawn.Length = Opt{r.num, r.typed} },
		}, {
			Path: "curve.drawnBack", Card: "curve", Label: "The foot is at its other end", Kind: Check, When: open,
			Help: "Which end of the line the panel starts at.",
			into: func(v *Values, r reading) { v.Curve.Drawn.Back = r.on },
		}, {
			Path: "curve.drawnSeam", Card: "curve", Label: "Seam along the line at", Kind: Length, When: "curve.kind=" + DrawnRound, Min: 0, Max: 50000,
			Help: "From its first point, the way it was drawn, to where the panel's ends meet, once it has its length.", Auto: "the middle of its longest straight, or where it bends least",
			into: func(v *Values, r reading) { v.Curve.Drawn.Seam = Opt{r.num, r.typed} },
		}, {
			Path: "curve.drawnMirror", Card: "curve", Label: "Mirrored", Kind: Check, When: drawn, More: true,
			Help: "Left and right swapped, before it is turned.",
			into: func(v *Values, r reading) { v.Curve.Drawn.Mirror = r.on },
		}, {
			Path: "curve.drawnTurn", Card: "curve", Label: "Turned by", Kind: Angle, When: drawn, Min: -2 * math.Pi, Max: 2 * math.Pi, More: true,
			Help: "Counter-clockwise, as the side view shows it.", preset: always(0),
			into: func(v *Values, r reading) { v.Curve.Drawn.Turn = r.num },
		},
	}...)
}
