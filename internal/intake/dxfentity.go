package intake

import (
	"springrib/internal/plane"
)

// entity is one thing drawn, or a block inserted.
type entity struct {
	kind   string
	layer  string
	colour colour
	hidden bool
	normal vec3
	height float64 // elevation of object coordinates
	shape  shape   // nil for an insert
	insert *insert
}

// insert puts a block, or rows and columns of it.
type insert struct {
	block      string
	at         plane.Point
	sx, sy     float64
	turn       float64 // radians
	cols, rows int
	dx, dy     float64
}

// list reads entities up to the given end mark.
func (r *dxfReader) list(end string) ([]entity, error) {
	var out []entity
	for {
		p, ok, err := r.next()
		if err != nil || !ok {
			return out, err
		}
		if p.code != 0 {
			continue
		}
		kind := string(p.value[:min(len(p.value), 64)])
		switch kind {
		case end:
			return out, nil
		case "ENDSEC", "EOF": // the end mark is missing
			r.back(p)
			return out, nil
		}
		if r.buf, err = r.rest(r.buf[:0]); err != nil {
			return out, err
		}
		e, ok, err := r.entity(kind)
		if err != nil {
			return out, err
		}
		if r.count++; r.count > MaxElements {
			return out, refuse(TooMany, "The drawing has more than %d elements. Leave out what isn't cut.", MaxElements)
		}
		if ok {
			out = append(out, e)
		}
	}
}

// entity makes sense of the groups in r.buf; ok is false for what isn't taken.
func (r *dxfReader) entity(kind string) (e entity, ok bool, err error) {
	f := &figures{list: r.buf}
	e = entity{
		kind: kind, layer: dxfName(f.text(8)), colour: colour{index: f.int(62, byLayer)},
		hidden: f.int(60, 0) == 1 || f.int(62, 0) < 0,
		normal: vec3{f.float(210, 0), f.float(220, 0), f.float(230, 1)}.unit(),
	}
	if f.has(420) {
		e.colour = colour{rgb: f.int(420, 0), exact: true}
	}
	paper := f.int(67, 0) == 1
	point := func(c int32) plane.Point { return plane.Pt(f.float(c, 0), f.float(c+10, 0)) }
	point3 := func(c int32) vec3 { return vec3{f.float(c, 0), f.float(c+10, 0), f.float(c+20, 0)} }
	flat := vec3{0, 0, 1} // of entities in world coordinates
	broken := false
	if (kind == "LWPOLYLINE" || kind == "SPLINE" || kind == "HELIX") && !r.points(f.count(10)+f.count(11)) {
		return e, false, tooManySegments()
	}
	switch kind {
	case "LINE":
		e.normal, e.shape = flat, lineShape{point(10), point(11)}
	case "CIRCLE":
		e.height, e.shape = f.float(30, 0), newArc(point(10), f.float(40, 0), 0, 0)
		broken = !(f.float(40, 0) > 0)
	case "ARC":
		e.height, e.shape = f.float(30, 0), newArc(point(10), f.float(40, 0), f.float(50, 0), f.float(51, 360))
		broken = !(f.float(40, 0) > 0)
	case "ELLIPSE":
		major, ratio := point3(11), f.float(40, 1)
		broken = !(major.len() > 0) || ratio == 0
		e.shape = newEllipse(point3(10), major, e.normal, ratio, f.float(41, 0), f.float(42, 0))
		if e.normal.z < 0.999999 && e.normal.z > -0.999999 {
			r.notes.add(noteTilted, 1)
		}
		e.normal = flat
	case "LWPOLYLINE":
		e.height = f.float(38, 0)
		if f.float(43, 0) != 0 || f.float(40, 0) != 0 || f.float(41, 0) != 0 {
			r.notes.add(noteWidth, 1)
		}
		e.shape = r.lightPolyline(f)
	case "POLYLINE":
		return r.polyline(e, f, paper)
	case "SOLID", "TRACE", "3DFACE":
		order := [4]int32{10, 11, 13, 12} // corners go zigzag
		e.height = f.float(30, 0)
		if kind == "3DFACE" {
			order, e.normal, e.height = [4]int32{10, 11, 12, 13}, flat, 0
		}
		e.shape = face(f, order)
	case "SPLINE", "HELIX":
		f.endAt("AcDbHelix") // what follows describes the helix again
		e.normal = flat
		e.shape = r.spline(f)
		broken = e.shape == nil
	case "INSERT":
		e.height = f.float(30, 0)
		e.insert = &insert{
			block: key(f.text(2)), at: point(10), sx: f.float(41, 1), sy: f.float(42, 1), turn: radians(f.float(50, 0)),
			cols: max(1, f.int(70, 1)), rows: max(1, f.int(71, 1)), dx: f.float(44, 0), dy: f.float(45, 0),
		}
		if f.int(66, 0) == 1 {
			if err := r.skipSequence(); err != nil {
				return e, false, err
			}
		}
	case "VERTEX", "SEQEND", "ATTRIB": // strays
		return e, false, nil
	case "TEXT", "MTEXT", "ATTDEF":
		r.notes.add(noteText, 1)
		return e, false, nil
	case "IMAGE", "OLE2FRAME", "OLEFRAME", "WIPEOUT":
		r.notes.add(noteImage, 1)
		return e, false, nil
	case "VIEWPORT":
		return e, false, nil
	default:
		r.notes.other(plainName(kind))
		return e, false, nil
	}
	return r.accept(e, f, paper, broken)
}

// face is the outline of a SOLID, TRACE or 3DFACE by the codes of its corners, the last
// of which may be missing.
func face(f *figures, codes [4]int32) shape {
	s := polyShape{closed: true}
	for _, c := range codes {
		if c != 13 || f.has(13) {
			s.pts = append(s.pts, vertex{at: plane.Pt(f.float(c, 0), f.float(c+10, 0))})
		}
	}
	return s
}

func (r *dxfReader) accept(e entity, f *figures, paper, broken bool) (entity, bool, error) {
	f.bad = f.bad || broken
	switch {
	case f.spoilt(&r.notes):
		return e, false, nil
	case paper:
		r.notes.add(notePaper, 1)
		return e, false, nil
	}
	if e.normal.z < 0.999999 && e.normal.z > -0.999999 {
		r.notes.add(noteTilted, 1)
	}
	return e, true, nil
}

// points counts vertices and control points, all of which are kept until drawn.
func (r *dxfReader) points(n int) bool {
	r.vertices += n
	return r.vertices <= 2*MaxSegments
}

func (r *dxfReader) lightPolyline(f *figures) shape {
	s := polyShape{closed: f.int(70, 0)&1 != 0}
	n := f.count(10)
	s.pts = make([]vertex, 0, n)
	for _, p := range f.list {
		last := len(s.pts) - 1
		switch {
		case p.code == 10:
			s.pts = append(s.pts, vertex{at: plane.Pt(f.number(p), 0)})
		case p.code == 20 && last >= 0:
			s.pts[last].at.Y = f.number(p)
		case p.code == 42 && last >= 0:
			s.pts[last].bulge = f.number(p)
		}
	}
	return s
}

// Flags of POLYLINE and VERTEX (group 70).
const (
	polyClosed  = 1
	poly3D      = 8
	polyMesh    = 16 | 64
	vertexFrame = 16 // a point of the frame of a spline, not of the line
)

// polyline reads the vertices that follow a POLYLINE.
func (r *dxfReader) polyline(e entity, f *figures, paper bool) (entity, bool, error) {
	flags := f.int(70, 0)
	e.height = f.float(30, 0)
	if f.float(40, 0) != 0 || f.float(41, 0) != 0 {
		r.notes.add(noteWidth, 1)
	}
	s := polyShape{closed: flags&polyClosed != 0}
	var buf []pair
	for {
		p, ok, err := r.next()
		if err != nil {
			return e, false, err
		}
		if !ok {
			break
		}
		if kind := string(p.value); p.code != 0 || kind != "VERTEX" && kind != "SEQEND" {
			r.back(p) // the end of the sequence is missing
			break
		}
		if buf, err = r.rest(buf[:0]); err != nil {
			return e, false, err
		}
		if string(p.value) == "SEQEND" {
			break
		}
		v := figures{list: buf}
		if v.int(70, 0)&vertexFrame != 0 {
			continue
		}
		if !r.points(1) {
			return e, false, tooManySegments()
		}
		s.pts = append(s.pts, vertex{plane.Pt(v.float(10, 0), v.float(20, 0)), v.float(42, 0)})
		f.bad, f.far = f.bad || v.bad, f.far || v.far
	}
	if flags&polyMesh != 0 {
		r.notes.other("POLYLINE mesh")
		return e, false, nil
	}
	if flags&poly3D != 0 {
		e.normal, e.height = vec3{0, 0, 1}, 0
	}
	e.shape = s
	return r.accept(e, f, paper, false)
}

// skipSequence passes over the attributes that follow an INSERT.
func (r *dxfReader) skipSequence() error {
	var buf []pair
	for {
		p, ok, err := r.next()
		if err != nil || !ok {
			return err
		}
		if p.code == 0 && string(p.value) != "ATTRIB" && string(p.value) != "SEQEND" {
			r.back(p)
			return nil
		}
		if buf, err = r.rest(buf[:0]); err != nil {
			return err
		}
		if string(p.value) == "SEQEND" {
			return nil
		}
	}
}

// spline reads the groups of a SPLINE; nil when it isn't one.
func (r *dxfReader) spline(f *figures) shape {
	s := spline{degree: f.int(71, 3)}
	n := f.count(10)
	s.ctrl, s.knots = make([]plane.Point, 0, n), make([]float64, 0, n+maxDegree+1)
	var fit []plane.Point
	for _, p := range f.list {
		switch p.code {
		case 40:
			s.knots = append(s.knots, f.number(p))
		case 41:
			s.weights = append(s.weights, f.number(p))
		case 10:
			s.ctrl = append(s.ctrl, plane.Pt(f.number(p), 0))
		case 20:
			if n := len(s.ctrl); n > 0 {
				s.ctrl[n-1].Y = f.number(p)
			}
		case 11:
			fit = append(fit, plane.Pt(f.number(p), 0))
		case 21:
			if n := len(fit); n > 0 {
				fit[n-1].Y = f.number(p)
			}
		}
	}
	if len(s.ctrl) > 0 || len(fit) < 2 {
		if !s.valid() {
			return nil
		}
		return s
	}
	r.notes.add(noteFitPoints, 1)
	return fitShape{through(distinct(fit), f.tangent(12), f.tangent(13))}
}

// tangent returns the direction at an end of a spline, if given.
func (f *figures) tangent(code int32) *plane.Point {
	t := plane.Pt(f.float(code, 0), f.float(code+10, 0))
	if t.Len() == 0 {
		return nil
	}
	return &t
}

func distinct(pts []plane.Point) []plane.Point {
	out := pts[:1]
	for _, p := range pts[1:] {
		if p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	return out
}
