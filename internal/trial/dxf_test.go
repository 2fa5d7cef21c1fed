package trial_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// readDXF reads the entities of a DXF by layer, in the order of their layers' first: pairs
// of lines, a group code and a value (AutoCAD DXF reference, "ENTITIES section"). A spline
// or a loose arc is an error: an outline is one entity, and a score a line.
func readDXF(data []byte) ([]layer, error) {
	lines := strings.Split(strings.ReplaceAll(strings.TrimSuffix(string(data), "\n"), "\r", ""), "\n")
	if len(lines)%2 != 0 {
		return nil, fmt.Errorf("%d lines, which are no pairs", len(lines))
	}
	var out []layer
	var e *entity
	section, kind := "", ""
	finish := func() error {
		if e == nil {
			return nil
		}
		p, err := e.path()
		if err != nil {
			return err
		}
		at := -1
		for i, l := range out {
			if l.title == e.layer {
				at = i
			}
		}
		if at < 0 {
			at, out = len(out), append(out, layer{title: e.layer})
		}
		out[at].paths = append(out[at].paths, p)
		e = nil
		return nil
	}
	for i := 0; i < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		value := lines[i+1]
		switch {
		case code == 0:
			if kind = value; kind == "VERTEX" && e != nil {
				e.vertex = true
				continue
			}
			if kind == "SEQEND" {
				continue
			}
			if err := finish(); err != nil {
				return nil, err
			}
			if kind == "ENDSEC" {
				section = ""
			} else if section == "ENTITIES" {
				e = &entity{kind: kind}
			}
		case code == 2 && kind == "SECTION":
			section = value
		case e != nil && (kind != "SEQEND"):
			if err := e.set(code, value); err != nil {
				return nil, err
			}
		}
	}
	return out, finish()
}

// entity is one entity being read.
type entity struct {
	kind, layer string
	vertex      bool // the codes are those of a VERTEX
	closed      bool
	pts         []xy
	bulge       []float64
	end         xy // of a LINE
	r           float64
}

func (e *entity) set(code int, value string) error {
	v, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
	number := func() error {
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("%s: group %d is %q", e.kind, code, value)
		}
		return nil
	}
	last := len(e.pts) - 1
	switch code {
	case 8:
		if !e.vertex {
			e.layer = value
		}
	case 70:
		if !e.vertex {
			e.closed = int(v)&1 == 1
		}
	case 10:
		if e.kind == "POLYLINE" && !e.vertex { // a dummy
			return number()
		}
		e.pts, e.bulge = append(e.pts, xy{x: v}), append(e.bulge, 0)
		return number()
	case 20:
		if last >= 0 {
			e.pts[last].y = v
		}
		return number()
	case 11:
		e.end.x = v
		return number()
	case 21:
		e.end.y = v
		return number()
	case 40:
		e.r = v
		return number()
	case 42:
		if last >= 0 {
			e.bulge[last] = v
		}
		return number()
	}
	return nil
}

func (e *entity) path() (trace, error) {
	p := trace{closed: e.closed}
	switch e.kind {
	case "LINE":
		if len(e.pts) != 1 {
			return p, fmt.Errorf("a line of %d points", len(e.pts))
		}
		p.runs = []run{{kind: 'L', a: e.pts[0], b: e.end}}
	case "CIRCLE":
		c := e.pts[0]
		for i := range 2 {
			side := xy{e.r * float64(1-2*i), 0}
			p.runs = append(p.runs, run{kind: 'A', a: c.add(side), b: c.sub(side), centre: c, r: e.r, turn: math.Pi})
		}
		p.closed = true
	case "LWPOLYLINE", "POLYLINE":
		n := len(e.pts)
		for i, a := range e.pts {
			if i == n-1 && !e.closed {
				break
			}
			s := run{kind: 'L', a: a, b: e.pts[(i+1)%n]}
			if b := e.bulge[i]; b != 0 {
				turn := 4 * math.Atan(b)
				s.kind = 'A'
				s.arc(a.to(s.b)/2/math.Abs(math.Sin(turn/2)), math.Abs(turn) > math.Pi, turn > 0)
			}
			p.runs = append(p.runs, s)
		}
	default:
		return p, fmt.Errorf("an entity %s", e.kind)
	}
	if len(p.runs) == 0 {
		return p, fmt.Errorf("a %s of nothing", e.kind)
	}
	return p, nil
}

// sameAsDXF holds a DXF to the SVG of the same sheet: layer by layer as many entities as
// paths, closed where they are, and nowhere further off than what both may be rounded by.
func (j *judge) sameAsDXF(f *drawing, name string) {
	const fitted = 0.005 // mm: a free curve as arcs
	layers, err := readDXF(j.file(name))
	if err != nil {
		j.say("dxf-unreadable", "%s: %v", name, err)
		return
	}
	j.seen["dxf"]++
	if len(layers) != len(f.layers) {
		j.say("dxf-differs", "%s has %d layers, the SVG %d", name, len(layers), len(f.layers))
		return
	}
	for i, l := range layers {
		want := f.layers[i].paths
		if len(l.paths) != len(want) {
			j.say("dxf-differs", "%s, %q: %d entities for %d paths", name, l.title, len(l.paths), len(want))
			return
		}
		for k, p := range l.paths {
			w := want[k]
			if p.closed != w.closed {
				j.say("dxf-open", "%s, %q: closed is %v, in the SVG %v", name, l.title, p.closed, w.closed)
				return
			}
			a, b := newChain(p.chords(chordError), p.closed), newChain(w.chords(chordError), w.closed)
			for _, pair := range [][2]*chain{{a, b}, {b, a}} {
				for _, q := range pair[0].spaced(4) {
					if d, _ := pair[1].near(q, 1e3); d > fitted+0.003 {
						j.say("dxf-differs", "%s, %q: %.4f mm off at %.3f %.3f", name, l.title, d, q.x, q.y)
						return
					}
				}
			}
			for _, s := range p.runs {
				if d := s.length(); d < 0.01-1e-9 {
					j.say("short-segment", "%s, %q: %.4f mm at %.3f %.3f", name, l.title, d, s.a.x, s.a.y)
					return
				}
			}
		}
	}
}
