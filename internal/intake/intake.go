// Package intake reads outlines and curves drawn elsewhere, from SVG and DXF, and
// makes them fit to use: chained, closed, turned the right way, placed.
//
// What comes out is numbers in millimetres with Y up, and short names reduced to
// harmless characters; no markup of the file passes through. What the file holds
// that can't be taken is told in Drawing.Notes; a file that can't be read at all is
// a FileError. Sizes and work are bounded: reading, mending and guessing of any file take
// at most two seconds of processor and 512 MB.
package intake

import (
	"math"

	"springrib/internal/finding"
	"springrib/internal/plane"
)

// Limits on what is read. An honest drawing of a panel stays two orders below.
const (
	// MaxBytes is the longest file taken. The page looks at the size before it loads
	// the file.
	MaxBytes = 16 << 20
	// MaxSegments is the largest number of lines, arcs and curves in a drawing.
	MaxSegments = 300_000
	// MaxElements is the largest number of elements in a drawing, each repetition
	// of a symbol or block counted.
	MaxElements = 100_000
	// MaxDepth is how deep groups, symbols and blocks may be nested.
	MaxDepth = 256

	// farthest is the largest coordinate in mm: 1,000 km. Doubles still resolve a
	// tenth of a micrometre there.
	farthest = 1e9
	// maxWork bounds the bytes of path data, styles and so on that are gone through,
	// repeats included. A file of MaxBytes goes through itself once or twice.
	maxWork = 64 << 20
)

// accuracy is how far, in mm, a curve that Segment can't hold (part of an ellipse,
// a rational or high-degree spline) may lie from the cubics that stand for it: a
// tenth of what leaving files are fitted to.
const accuracy = 0.001

// Format names a kind of file.
type Format string

// The formats that are read.
const (
	SVG Format = "svg"
	DXF Format = "dxf"
)

// Options steer reading.
type Options struct {
	// PerInch is how many units of the file make an inch, for a file that doesn't
	// say; 0 leaves the question open and reads with the first of Units.Choices.
	PerInch float64
}

// Item is one path of a drawing.
type Item struct {
	Layer  string // layer, or the nearest named group
	Name   string // name of the element, if it has one
	Stroke string // colour of the line, "#rrggbb"; empty when not drawn
	Fill   string // colour of the inside, "#rrggbb"; empty when not filled
	Source string // what it was in the file: "path", "circle", "LWPOLYLINE"
	// Element counts the drawn elements of the file from 1. Paths that one element
	// holds, an outline and its holes, share the number.
	Element int
	Path    plane.Path // mm, Y up

	box    plane.Box // of Path, once asked for
	length float64
}

// Painted reports whether the file shows the item at all.
func (it Item) Painted() bool { return it.Stroke != "" || it.Fill != "" }

// Units says what one unit of the file was taken for.
type Units struct {
	Stated  bool    // the file says it itself
	Name    string  // "mm", "in"; empty when not stated
	PerInch float64 // units of the file to an inch, as read
	// Choices are the readings offered when nothing is stated, each with the size
	// that it would give to all that the drawing holds.
	Choices []Choice
}

// Choice is one reading of a file without units.
type Choice struct {
	Label         string
	PerInch       float64
	Width, Height float64 // mm
}

// Drawing is what a file holds.
type Drawing struct {
	Format Format
	Items  []Item
	Page   plane.Box // mm, of an SVG that has a size; empty otherwise
	Units  Units
	Notes  []finding.Finding
}

// Box returns the smallest box that holds every item.
func (d Drawing) Box() plane.Box { return Bounds(d.Items) }

// Bounds returns the smallest box that holds the items.
func Bounds(items []Item) plane.Box {
	b := plane.EmptyBox()
	for i := range items {
		b = b.Union(items[i].Box())
	}
	return b
}

// Read reads a drawing in whichever format it is.
func Read(data []byte, opt Options) (Drawing, error) {
	if err := checkSize(data); err != nil {
		return Drawing{}, err
	}
	data = utf8Text(data)
	format, err := sniff(data)
	switch {
	case err != nil:
		return Drawing{}, err
	case format == DXF:
		return ReadDXF(data, opt)
	}
	return ReadSVG(data, opt)
}

// checkOptions panics on options that no page can send.
func checkOptions(opt Options) {
	if !(opt.PerInch >= 0) || math.IsInf(opt.PerInch, 0) {
		panic("intake: PerInch must be 0 or more")
	}
}

// finish fills in what is known once all items are read: the sizes of the choices
// and the notes about the whole.
func (d *Drawing) finish(n *notes, opt Options) {
	box := d.Box()
	for i := range d.Units.Choices {
		c := &d.Units.Choices[i]
		c.Width = box.W() * d.Units.PerInch / c.PerInch
		c.Height = box.H() * d.Units.PerInch / c.PerInch
	}
	unpainted := 0
	for _, it := range d.Items {
		if !it.Painted() {
			unpainted++
		}
	}
	if unpainted > 0 {
		n.add(noteUnpainted, unpainted)
	}
	if len(d.Items) == 0 {
		n.add(noteEmpty, 1)
	}
	d.Notes = n.findings()
	if !d.Units.Stated && opt.PerInch == 0 && len(d.Items) > 0 {
		d.Notes = append(d.Notes, d.Units.question())
	}
	finding.Sort(d.Notes)
}
