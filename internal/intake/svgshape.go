package intake

import (
	"math"

	"springrib/internal/plane"
)

// length reads a length attribute in user units; ok is false when it is absent or
// can't be read. One that can't be read costs the shape, or what is in the element.
func (r *svgReader) length(n *node, name string, a axis, s scope) (v float64, ok bool) {
	text := n.get(name)
	if text == "" || text == "auto" {
		return 0, false
	}
	l, ok, huge := parseLength(text)
	if ok {
		v, ok = l.user(r.units.PerInch, s.view, a)
	}
	r.pen.bad = r.pen.bad || huge
	r.wrong = r.wrong || !ok
	return v, ok
}

// spoilt tells whether a figure read since the last time could not be, and notes it.
func (r *svgReader) spoilt() bool {
	bad, wrong := r.pen.bad, r.wrong
	r.pen.bad, r.wrong = false, false
	switch {
	case bad:
		r.notes.add(noteFar, 1)
	case wrong:
		r.notes.add(noteBrokenShape, 1)
	}
	return bad || wrong
}

// draw draws a basic shape or path and keeps its paths as items.
func (r *svgReader) draw(n *node, s scope) error {
	p := &r.pen
	p.m, p.paths, p.segs = s.m, nil, nil
	r.shape++
	if err := r.spend(len(n.get("d")) + len(n.get("points"))); err != nil {
		return err
	}
	r.wrong = !r.outline(n, s) || r.wrong
	p.lift()
	if p.full() {
		return tooManySegments()
	}
	if r.spoilt() {
		return nil
	}
	name := plainName(n.get("id"))
	for _, path := range p.paths {
		r.add(Item{Layer: s.layer, Name: name, Stroke: s.stroke, Fill: s.fill, Source: n.name, Element: r.shape, Path: path})
	}
	return nil
}

// outline draws the shape of n with the pen; false when a needed figure is missing.
// A size of 0 draws nothing (SVG 1.1, chapter 9), a negative one is an error.
func (r *svgReader) outline(n *node, s scope) bool {
	num := func(name string, a axis) float64 {
		v, _ := r.length(n, name, a, s)
		return v
	}
	p := &r.pen
	switch n.name {
	case "path":
		ok, huge := drawPathData(n.get("d"), p)
		p.bad = p.bad || huge
		if !ok && !p.bad {
			r.notes.add(noteBrokenPath, 1)
		}
	case "line":
		p.moveTo(plane.Pt(num("x1", alongX), num("y1", alongY)))
		p.lineTo(plane.Pt(num("x2", alongX), num("y2", alongY)))
	case "polyline", "polygon":
		r.points(n)
	case "rect":
		return r.rect(n, s)
	case "circle":
		rad, ok := r.length(n, "r", alongBoth, s)
		return r.round(num("cx", alongX), num("cy", alongY), rad, rad, ok)
	case "ellipse":
		rx, okX := r.length(n, "rx", alongX, s)
		ry, okY := r.length(n, "ry", alongY, s)
		if !okX {
			rx = ry // SVG 2, section 10.4: auto takes the other
		}
		if !okY {
			ry = rx
		}
		return r.round(num("cx", alongX), num("cy", alongY), rx, ry, okX || okY)
	}
	return true
}

func (r *svgReader) round(cx, cy, rx, ry float64, ok bool) bool {
	if ok && rx > 0 && ry > 0 {
		r.pen.wholeEllipse(ellipse{plane.Pt(cx, cy), plane.Pt(rx, 0), plane.Pt(0, ry)})
	}
	return ok && rx >= 0 && ry >= 0
}

func (r *svgReader) points(n *node) {
	s := scanner{text: n.get("points")}
	for first := true; !s.done() && !r.pen.full(); first = false {
		x, okX := s.number()
		y, okY := s.number()
		if !okX || !okY {
			r.notes.add(noteBrokenPath, 1) // drawn up to the fault, as the standard wants
			break
		}
		if first {
			r.pen.moveTo(plane.Pt(x, y))
		} else {
			r.pen.lineTo(plane.Pt(x, y))
		}
	}
	r.pen.bad = r.pen.bad || s.huge
	if n.name == "polygon" {
		r.pen.close()
	}
}

// rect draws a rectangle with rounded corners (SVG 1.1, section 9.2).
func (r *svgReader) rect(n *node, s scope) bool {
	x, _ := r.length(n, "x", alongX, s)
	y, _ := r.length(n, "y", alongY, s)
	w, okW := r.length(n, "width", alongX, s)
	h, okH := r.length(n, "height", alongY, s)
	if !okW || !okH || w < 0 || h < 0 {
		return false
	}
	if w == 0 || h == 0 {
		return true
	}
	rx, okX := r.length(n, "rx", alongX, s)
	ry, okY := r.length(n, "ry", alongY, s)
	if !okX || rx < 0 {
		rx = ry
	}
	if !okY || ry < 0 {
		ry = rx
	}
	rx, ry = math.Max(0, math.Min(rx, w/2)), math.Max(0, math.Min(ry, h/2))
	p := &r.pen
	if rx == 0 || ry == 0 {
		p.moveTo(plane.Pt(x, y))
		p.lineTo(plane.Pt(x+w, y))
		p.lineTo(plane.Pt(x+w, y+h))
		p.lineTo(plane.Pt(x, y+h))
		p.close()
		return true
	}
	quarter := func(cx, cy float64, turns int, qx, qy float64) {
		e := ellipse{plane.Pt(cx, cy), plane.Pt(rx, 0), plane.Pt(0, ry)}
		p.ellipseTo(e, float64(turns)*math.Pi/2, math.Pi/2, plane.Pt(qx, qy))
	}
	p.moveTo(plane.Pt(x+rx, y))
	p.lineTo(plane.Pt(x+w-rx, y))
	quarter(x+w-rx, y+ry, -1, x+w, y+ry)
	p.lineTo(plane.Pt(x+w, y+h-ry))
	quarter(x+w-rx, y+h-ry, 0, x+w-rx, y+h)
	p.lineTo(plane.Pt(x+rx, y+h))
	quarter(x+rx, y+h-ry, 1, x, y+h-ry)
	p.lineTo(plane.Pt(x, y+ry))
	quarter(x+rx, y+ry, 2, x+rx, y)
	p.close()
	return true
}
