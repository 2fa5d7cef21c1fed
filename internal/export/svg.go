package export

import (
	"fmt"
	"strconv"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

// svgStroke is the width of a drawn line, mm. Laser programs take any stroke as a
// path; some take one as a hairline to follow only when it is thin.
const svgStroke = 0.1

// SVGOptions are the choices of an SVG file. The zero value is the plain file.
type SVGOptions struct {
	// RepeatPasses writes an operation of n passes as n groups one after another,
	// for machines that cannot be told to repeat.
	RepeatPasses bool
	// ScaleCheck adds a square of this side in mm as a last group of its own, to
	// measure whether a reading program kept the size. 0 adds nothing. It is not
	// to be cut, so the group says so.
	ScaleCheck float64
}

// SVG returns job as an SVG 1.1 file of true size: width and height in mm and a
// viewBox in mm, one titled group for each operation in the order given, stroked
// in its colour, filled with nothing.
//
// Lines are written as L, arcs as A, cubics as C, with coordinates rounded to Step
// and no exponents. Operations without strokes are left out.
func SVG(job cut.Job, o SVGOptions) []byte {
	w := svgWriter{height: Round(job.Height), ids: map[string]int{}}
	width := length(job.Width)
	height := length(job.Height)
	w.printf(`<?xml version="1.0" encoding="UTF-8"?>`+"\n"+
		`<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="%smm" height="%smm" viewBox="0 0 %s %s">`+"\n",
		width, height, width, height)
	w.printf("<title>%s</title>\n", xmlEscaper().Replace(headline(job)))
	w.printf("<desc>True size: one unit is one millimetre.</desc>\n")
	for _, l := range layers(job, o.RepeatPasses) {
		w.group(l.id, l.title, l.colour, l.strokes)
	}
	if o.ScaleCheck > 0 {
		w.group("scale-check", fmt.Sprintf("Scale check, %s mm square, do not cut", length(o.ScaleCheck)),
			RGB{}, []cut.Stroke{{Path: plane.RectPath(plane.Box{Max: plane.Pt(o.ScaleCheck, o.ScaleCheck)})}})
	}
	w.printf("</svg>\n")
	return w.b
}

type svgWriter struct {
	b      []byte
	height float64
	ids    map[string]int
}

func (w *svgWriter) printf(format string, args ...any) { w.b = fmt.Appendf(w.b, format, args...) }

func (w *svgWriter) group(id, title string, c RGB, strokes []cut.Stroke) {
	w.printf(`<g id="%s" fill="none" stroke="%s" stroke-width="%s">`+"\n", id, c, length(svgStroke))
	w.printf("<title>%s</title>\n", xmlText(title))
	for _, s := range strokes {
		w.path(s.Path)
	}
	w.printf("</g>\n")
}

// path writes one path element, or nothing for a path that the grid swallows.
func (w *svgWriter) path(p plane.Path) {
	segs := fileSegments(p, arcSpan)
	if len(segs) == 0 {
		return
	}
	w.b = append(w.b, `<path d="M`...)
	w.point(segs[0].A)
	closed := p.Closed && segs[0].A == segs[len(segs)-1].B
	if closed && segs[len(segs)-1].Kind == plane.Line {
		segs = segs[:len(segs)-1] // Z draws it
	}
	for _, s := range segs {
		w.segment(s)
	}
	if closed {
		w.b = append(w.b, " Z"...)
	}
	w.b = append(w.b, `"/>`+"\n"...)
}

func (w *svgWriter) segment(s plane.Segment) {
	switch s.Kind {
	case plane.Arc:
		r := arcRadius(s.A.Dist(s.B), s.Bulge)
		if r > Far { // flatter than any radius can say: a cubic does as well
			c := s.Cubics()[0]
			c.C, c.D = RoundPoint(c.C), RoundPoint(c.D)
			w.segment(c)
			return
		}
		w.b = append(w.b, " A"...)
		w.number(r)
		w.number(r)
		// No arc here exceeds 120 degrees: never the large one. Counter-clockwise
		// with Y up is counter-clockwise on the screen, which SVG calls sweep 0.
		sweep := 0
		if s.Bulge < 0 {
			sweep = 1
		}
		w.b = append(w.b, " 0 0 "...)
		w.b = strconv.AppendInt(w.b, int64(sweep), 10)
	case plane.Cubic:
		w.b = append(w.b, " C"...)
		w.point(s.C)
		w.point(s.D)
	default:
		w.b = append(w.b, " L"...)
	}
	w.point(s.B)
}

// point writes a place. This is the one place where SVG's Y is flipped.
func (w *svgWriter) point(p plane.Point) {
	w.number(p.X)
	w.number(w.height - p.Y)
}

func (w *svgWriter) number(v float64) {
	w.b = append(w.b, ' ')
	w.b = appendLength(w.b, v)
}
