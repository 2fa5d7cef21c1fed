package trial_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// A reader of cut files as another program has it, written from the SVG 1.1
// recommendation (W3C, 2011: 8.3 path data, F.6 arcs). It shares nothing with the writer
// or with package plane, and takes no more of SVG than a cut file may hold: any other
// element, attribute or command is an error.

// xy is a point, mm, Y up, from the lower left corner of the bed.
type xy struct{ x, y float64 }

func (a xy) sub(b xy) xy              { return xy{a.x - b.x, a.y - b.y} }
func (a xy) add(b xy) xy              { return xy{a.x + b.x, a.y + b.y} }
func (a xy) mul(k float64) xy         { return xy{k * a.x, k * a.y} }
func (a xy) dot(b xy) float64         { return a.x*b.x + a.y*b.y }
func (a xy) cross(b xy) float64       { return a.x*b.y - a.y*b.x }
func (a xy) len() float64             { return math.Sqrt(a.dot(a)) }
func (a xy) to(b xy) float64          { return b.sub(a).len() }
func (a xy) mid(b xy) xy              { return xy{(a.x + b.x) / 2, (a.y + b.y) / 2} }
func (a xy) along(b xy, t float64) xy { return a.add(b.sub(a).mul(t)) }

// run is one segment of a path.
type run struct {
	kind    byte // 'L', 'A', 'C'
	a, b    xy
	c, d    xy      // of 'C'
	centre  xy      // of 'A'
	r, turn float64 // of 'A': turn is signed, counter-clockwise positive
}

// length of a segment; of a cubic that of its chords.
func (s run) length() float64 {
	switch s.kind {
	case 'A':
		return s.r * math.Abs(s.turn)
	case 'C':
		l, last := 0.0, s.a
		for i := 1; i <= 32; i++ {
			q := s.at(float64(i) / 32)
			l, last = l+last.to(q), q
		}
		return l
	}
	return s.a.to(s.b)
}

func (s run) at(t float64) xy {
	switch s.kind {
	case 'A':
		v := s.a.sub(s.centre)
		si, co := math.Sincos(t * s.turn)
		return s.centre.add(xy{v.x*co - v.y*si, v.x*si + v.y*co})
	case 'C':
		u := 1 - t
		return s.a.mul(u * u * u).add(s.c.mul(3 * u * u * t)).add(s.d.mul(3 * u * t * t)).add(s.b.mul(t * t * t))
	}
	return s.a.along(s.b, t)
}

// trace is one path.
type trace struct {
	runs   []run
	closed bool // written as closed: it ends with Z
}

func (p trace) start() xy { return p.runs[0].a }
func (p trace) end() xy   { return p.runs[len(p.runs)-1].b }

func (p trace) length() float64 {
	l := 0.0
	for _, s := range p.runs {
		l += s.length()
	}
	return l
}

// chords returns the path as points, no chord further from it than tol; a closed one does
// not repeat its first point.
func (p trace) chords(tol float64) []xy {
	out := []xy{p.start()}
	for _, s := range p.runs {
		n := 1.0
		switch s.kind {
		case 'A':
			n = math.Ceil(math.Abs(s.turn) * math.Sqrt(s.r/(8*tol)))
		case 'C':
			bend := math.Max(s.a.sub(s.c.mul(2)).add(s.d).len(), s.c.sub(s.d.mul(2)).add(s.b).len())
			n = math.Ceil(math.Sqrt(6 * bend / (8 * tol)))
		}
		for i := 1.0; i < n; i++ {
			out = append(out, s.at(i/n))
		}
		out = append(out, s.b)
	}
	if p.closed && len(out) > 1 && out[0].to(out[len(out)-1]) < 1e-9 {
		out = out[:len(out)-1]
	}
	return out
}

func (p trace) moved(move func(xy) xy) trace {
	out := trace{closed: p.closed}
	for _, s := range p.runs {
		s.a, s.b, s.c, s.d, s.centre = move(s.a), move(s.b), move(s.c), move(s.d), move(s.centre)
		out.runs = append(out.runs, s)
	}
	return out
}

func (p trace) reversed() trace {
	out := trace{closed: p.closed}
	for i := len(p.runs) - 1; i >= 0; i-- {
		s := p.runs[i]
		s.a, s.b, s.c, s.d, s.turn = s.b, s.a, s.d, s.c, -s.turn
		out.runs = append(out.runs, s)
	}
	return out
}

// layer is one group of a file.
type layer struct {
	id, title, stroke string
	paths             []trace
}

// drawing is a cut file.
type drawing struct {
	w, h        float64
	title, desc string
	layers      []layer
}

// kind returns the layers of an operation, one a pass where each is written.
func (f *drawing) kind(id string) []layer {
	var out []layer
	for _, l := range f.layers {
		if l.id == id || strings.HasPrefix(l.id, id+"-") {
			out = append(out, l)
		}
	}
	return out
}

func readDrawing(data []byte) (f drawing, err error) {
	d := xml.NewDecoder(bytes.NewReader(data))
	var stack []string
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			if len(stack) > 0 {
				return f, errors.New("elements are left open")
			}
			return f, nil
		}
		if err != nil {
			return f, err
		}
		switch el := tok.(type) {
		case xml.StartElement:
			stack = append(stack, el.Name.Local)
			if err := f.open(el, len(stack)); err != nil {
				return f, err
			}
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		case xml.CharData:
			f.words(stack, string(el))
		}
	}
}

func (f *drawing) words(stack []string, text string) {
	if len(stack) < 2 {
		return
	}
	switch stack[len(stack)-1] {
	case "title":
		if len(stack) == 2 {
			f.title += text
		} else if len(f.layers) > 0 {
			f.layers[len(f.layers)-1].title += text
		}
	case "desc":
		f.desc += text
	}
}

func (f *drawing) open(el xml.StartElement, depth int) (err error) {
	attr := map[string]string{}
	for _, a := range el.Attr {
		attr[a.Name.Local] = a.Value
	}
	if attr["transform"] != "" {
		return errors.New("a transform")
	}
	switch el.Name.Local {
	case "svg":
		box := strings.Fields(attr["viewBox"])
		if len(box) != 4 || box[0] != "0" || box[1] != "0" || attr["width"] != box[2]+"mm" || attr["height"] != box[3]+"mm" {
			return fmt.Errorf("not in true size: %v", el.Attr)
		}
		if f.w, err = decimal(box[2]); err == nil {
			f.h, err = decimal(box[3])
		}
		return err
	case "g":
		if depth != 2 {
			return errors.New("a group in a group")
		}
		f.layers = append(f.layers, layer{id: attr["id"], stroke: attr["stroke"]})
	case "path":
		if len(f.layers) == 0 {
			return errors.New("a path of no group")
		}
		p, err := readPath(attr["d"])
		if err != nil {
			return err
		}
		l := &f.layers[len(f.layers)-1]
		flip := func(q xy) xy { return xy{q.x, f.h - q.y} }
		p = p.moved(flip)
		for i := range p.runs {
			p.runs[i].turn = -p.runs[i].turn
		}
		l.paths = append(l.paths, p)
	case "title", "desc":
	default:
		return fmt.Errorf("an element %s", el.Name.Local)
	}
	return nil
}

// decimal reads a plain finite number.
func decimal(s string) (float64, error) {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || strings.ContainsAny(s, "eExXpP") {
		return 0, fmt.Errorf("%q is no plain number", s)
	}
	return v, nil
}

// takes is how many numbers each command of a path takes.
var takes = map[string]int{"M": 2, "L": 2, "A": 7, "C": 6, "Z": 0}

// readPath reads one path of absolute commands, by the signs of its own axes: an arc of
// sweep 1 turns from X to Y.
func readPath(d string) (p trace, err error) {
	words := strings.Fields(d)
	at, start := xy{}, xy{}
	for i := 0; i < len(words); {
		cmd := words[i]
		n, ok := takes[cmd]
		if !ok || p.closed || i+1+n > len(words) || (cmd == "M") != (i == 0) {
			return p, fmt.Errorf("path data: %q in %.60s", cmd, d)
		}
		i++
		v := make([]float64, n)
		for k := range v {
			if v[k], err = decimal(words[i+k]); err != nil {
				return p, err
			}
		}
		i += n
		s := run{kind: cmd[0], a: at}
		switch cmd {
		case "M":
			at = xy{v[0], v[1]}
			start = at
			continue
		case "L":
			s.b = xy{v[0], v[1]}
		case "C":
			s.c, s.d, s.b = xy{v[0], v[1]}, xy{v[2], v[3]}, xy{v[4], v[5]}
		case "A":
			s.b = xy{v[5], v[6]}
			if v[0] != v[1] || v[2] != 0 || !(v[0] > 0) {
				return p, fmt.Errorf("an arc of no circle: %v", v)
			}
			s.arc(v[0], v[3] == 1, v[4] == 1)
		case "Z":
			p.closed = true
			if at == start {
				continue
			}
			s.kind, s.b = 'L', start
		}
		at = s.b
		p.runs = append(p.runs, s)
	}
	if len(p.runs) == 0 {
		return p, errors.New("a path of nothing")
	}
	return p, nil
}

// arc finds centre and turn (F.6.5, and F.6.6: a radius too small is grown).
func (s *run) arc(r float64, large, sweep bool) {
	half := s.a.to(s.b) / 2
	r = math.Max(r, half)
	turn := 2 * math.Asin(math.Min(1, half/r))
	if large {
		turn = 2*math.Pi - turn
	}
	up := math.Sqrt(math.Max(0, r*r-half*half))
	n := s.b.sub(s.a).mul(0.5 / math.Max(half, 1e-300))
	n = xy{-n.y, n.x} // to the left
	if !sweep {
		turn, up = -turn, -up
	}
	if large {
		up = -up
	}
	s.r, s.turn, s.centre = r, turn, s.a.mid(s.b).add(n.mul(up))
}
