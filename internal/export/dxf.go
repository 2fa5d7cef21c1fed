package export

import (
	"fmt"
	"strconv"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

// DXFOptions are the choices of a DXF file. The zero value is R2000 with each stroke one
// entity, cubics as arcs within Tolerance.
type DXFOptions struct {
	// R12 writes the oldest form that everything reads: no unit field (a layer name
	// and a comment state millimetres), POLYLINE instead of LWPOLYLINE, layer names in
	// capitals, numbered colours only.
	R12 bool
	// Splines writes each cubic as a SPLINE of its own, which breaks its outline up. R12
	// has none.
	Splines bool
	// Tolerance is how far arcs may stray from a cubic, mm, before their ends are rounded
	// to Step; 0 takes 0.004.
	Tolerance float64
	// RepeatPasses writes an operation of n passes as n layers one after another.
	RepeatPasses bool
}

// arcTolerance is DXFOptions.Tolerance unless set. With the rounding of both ends, 0.0007
// at most, arcs stay within 0.005 mm: half of that within which outlines are fitted.
const arcTolerance = 0.004

// DXF returns job as a DXF file, R2000 (AC1015) in mm unless R12 is asked for: one
// layer for each operation in the order given, named as the person calls it, with
// its colour and the nearest number of the colour index. A stroke is one entity: a LINE,
// or a polyline with bulges, closed where the stroke is. Names of layers may differ from
// those of operations: see Findings.
func DXF(job cut.Job, o DXFOptions) []byte {
	if o.Tolerance <= 0 {
		o.Tolerance = arcTolerance
	}
	o.Tolerance = max(o.Tolerance, Step)
	ls := dxfLayers(job, o)
	w := &dxfWriter{o: o}
	for _, s := range []string{fault(job), jobTitle(job), job.Note, "Units: millimetres, true size"} {
		if s != "" {
			w.comment(s)
		}
	}
	if o.R12 {
		w.fileR12(job, ls)
	} else {
		w.fileR2000(job, ls)
	}
	return w.b
}

// dxfLayer is a layer with its name and colour as DXF can hold them.
type dxfLayer struct {
	layer
	name  string
	index int // of the colour
}

// dxfWriter writes groups: a code on one line, its value on the next.
type dxfWriter struct {
	b       []byte
	o       DXFOptions
	handles int
}

// text writes a group with a string that is known to be one line.
func (w *dxfWriter) text(code int, s string) {
	for i := range len(s) {
		if s[i] < ' ' || s[i] == 0x7f {
			panic(fmt.Sprintf("export: %q is no DXF text", s))
		}
	}
	w.b = strconv.AppendInt(w.b, int64(code), 10)
	w.b = append(w.b, '\n')
	w.b = append(w.b, s...)
	w.b = append(w.b, '\n')
}

func (w *dxfWriter) integer(code, v int) { w.text(code, strconv.Itoa(v)) }

// real writes a number with the decimals of a ratio, or of a length if it is one.
func (w *dxfWriter) real(code int, v float64, form func([]byte, float64) []byte) {
	w.b = strconv.AppendInt(w.b, int64(code), 10)
	w.b = append(w.b, '\n')
	w.b = form(w.b, v)
	w.b = append(w.b, '\n')
}

func (w *dxfWriter) length(code int, v float64) { w.real(code, v, appendLength) }
func (w *dxfWriter) ratio(code int, v float64)  { w.real(code, v, appendRatio) }

// point writes X, Y and Z as code, code+10 and code+20.
func (w *dxfWriter) point(code int, p plane.Point) {
	w.flatPoint(code, p)
	w.length(code+20, 0)
}

func (w *dxfWriter) flatPoint(code int, p plane.Point) {
	w.length(code, p.X)
	w.length(code+10, p.Y)
}

func (w *dxfWriter) comment(s string) { w.text(999, dxfText(cleanLine(s))) }

// handle returns the next handle, a hexadecimal number that names an object.
func (w *dxfWriter) handle() string {
	w.handles++
	return strconv.FormatInt(int64(w.handles), 16)
}

// entity starts an entity of the given type on layer l.
func (w *dxfWriter) entity(kind, class string, l dxfLayer) {
	w.text(0, kind)
	if w.o.R12 {
		w.text(8, l.name)
		return
	}
	w.text(5, w.handle())
	w.text(330, modelSpace)
	w.text(100, "AcDbEntity")
	w.text(8, l.name)
	w.text(100, class)
}

// entities writes every stroke, layer by layer.
func (w *dxfWriter) entities(ls []dxfLayer) {
	for _, l := range ls {
		for _, s := range l.strokes {
			w.stroke(s.Path, l)
		}
	}
}

// halfCircle is the most one bulge stands for: beyond, the chord gets short and the
// grid at its ends moves the middle.
const halfCircle = 1.0000001

// stroke writes one path: as one polyline, or cubics each as a spline and what lies
// between as polylines.
func (w *dxfWriter) stroke(p plane.Path, l dxfLayer) {
	if w.o.R12 || !w.o.Splines {
		p = withArcs(p, w.o.Tolerance)
	}
	segs := fileSegments(p, halfCircle)
	closed := p.Closed && len(segs) > 0 && segs[0].A == segs[len(segs)-1].B
	start := 0
	for i := 0; i <= len(segs); i++ {
		if i < len(segs) && segs[i].Kind != plane.Cubic {
			continue
		}
		if run := segs[start:i]; len(run) > 0 {
			w.chain(run, closed && len(run) == len(segs), l)
		}
		if i < len(segs) {
			w.spline(segs[i], l)
		}
		start = i + 1
	}
}

// withArcs returns p with its cubics as arcs within tol, none of them too short for a head to follow.
func withArcs(p plane.Path, tol float64) plane.Path {
	out, had := plane.Path{Closed: p.Closed}, len(p.Segs)
	for _, s := range p.Segs {
		if s.Kind == plane.Cubic {
			out.Segs = append(out.Segs, arcsOf(s, tol)...)
		} else {
			out.Segs = append(out.Segs, s)
		}
	}
	if len(out.Segs) == had {
		return out
	}
	return plane.Tidy(out)
}

// chain writes lines and arcs that follow each other.
func (w *dxfWriter) chain(segs []plane.Segment, closed bool, l dxfLayer) {
	if len(segs) == 1 && segs[0].Kind == plane.Line {
		w.entity("LINE", "AcDbLine", l)
		w.point(10, segs[0].A)
		w.point(11, segs[0].B)
		return
	}
	if w.o.R12 {
		w.polyline(segs, closed, l)
		return
	}
	w.entity("LWPOLYLINE", "AcDbPolyline", l)
	n := len(segs)
	if !closed {
		n++
	}
	w.integer(90, n)
	w.integer(70, bit(closed))
	w.length(43, 0)
	for _, s := range segs {
		w.flatPoint(10, s.A)
		if s.Kind == plane.Arc {
			w.ratio(42, s.Bulge)
		}
	}
	if !closed {
		w.flatPoint(10, segs[len(segs)-1].B)
	}
}

// polyline writes the R12 form of a chain.
func (w *dxfWriter) polyline(segs []plane.Segment, closed bool, l dxfLayer) {
	w.entity("POLYLINE", "", l)
	w.integer(66, 1) // vertices follow
	w.point(10, plane.Point{})
	w.integer(70, bit(closed))
	vertex := func(p plane.Point, bulge float64) {
		w.entity("VERTEX", "", l)
		w.point(10, p)
		if bulge != 0 {
			w.ratio(42, bulge)
		}
	}
	for _, s := range segs {
		vertex(s.A, s.Bulge)
	}
	if !closed {
		vertex(segs[len(segs)-1].B, 0)
	}
	w.entity("SEQEND", "", l)
}

// spline writes a cubic Bézier as a B-spline of four control points.
func (w *dxfWriter) spline(s plane.Segment, l dxfLayer) {
	w.entity("SPLINE", "AcDbSpline", l)
	w.integer(70, 8) // planar
	w.integer(71, 3) // degree
	w.integer(72, 8) // knots
	w.integer(73, 4) // control points
	w.integer(74, 0) // fit points
	for i := range 8 {
		w.integer(40, i/4)
	}
	for _, p := range []plane.Point{s.A, s.C, s.D, s.B} {
		w.point(10, p)
	}
}

func bit(on bool) int {
	if on {
		return 1
	}
	return 0
}
