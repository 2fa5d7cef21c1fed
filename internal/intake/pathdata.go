package intake

import (
	"math"
	"strconv"

	"springrib/internal/plane"
)

// scanner walks over numbers and commands of SVG attribute text.
type scanner struct {
	text string
	at   int
	huge bool // a number overflowed, or was written as infinity
}

func (s *scanner) skip() {
	for s.at < len(s.text) {
		switch s.text[s.at] {
		case ' ', '\t', '\r', '\n', '\f', ',':
			s.at++
		default:
			return
		}
	}
}

func (s *scanner) done() bool {
	s.skip()
	return s.at >= len(s.text)
}

// number reads one number by the grammar of SVG 1.1, section 8.3.9; ok is false
// when none stands here.
func (s *scanner) number() (v float64, ok bool) {
	s.skip()
	i, t := s.at, s.text
	if i < len(t) && (t[i] == '+' || t[i] == '-') {
		i++
	}
	from := i
	i = digits(t, i)
	n := i - from
	if i < len(t) && t[i] == '.' {
		end := digits(t, i+1)
		n += end - i - 1
		i = end
	}
	if n == 0 {
		s.huge = s.huge || isHuge(t[from:])
		return 0, false
	}
	if j := exponent(t, i); j > i {
		i = j
	}
	v, err := strconv.ParseFloat(t[s.at:i], 64)
	s.at = i
	if err != nil {
		s.huge = true
	}
	return v, err == nil
}

func digits(t string, i int) int {
	for i < len(t) && t[i] >= '0' && t[i] <= '9' {
		i++
	}
	return i
}

// exponent returns the end of an exponent at i, or i. "1em" has none.
func exponent(t string, i int) int {
	if i >= len(t) || t[i] != 'e' && t[i] != 'E' {
		return i
	}
	j := i + 1
	if j < len(t) && (t[j] == '+' || t[j] == '-') {
		j++
	}
	if end := digits(t, j); end > j {
		return end
	}
	return i
}

// isHuge reports whether a number is spelt out as infinite or undefined, as some
// programs do that went wrong.
func isHuge(t string) bool {
	if len(t) < 3 {
		return false
	}
	switch string([]byte{t[0] | 0x20, t[1] | 0x20, t[2] | 0x20}) {
	case "inf", "nan":
		return true
	}
	return false
}

// flag reads an arc flag: one character, which may stand right before a number.
func (s *scanner) flag() (on, ok bool) {
	s.skip()
	if s.at < len(s.text) && (s.text[s.at] == '0' || s.text[s.at] == '1') {
		s.at++
		return s.text[s.at-1] == '1', true
	}
	return false, false
}

// pathData draws SVG path data (SVG 1.1, section 8.3). It reports false when the
// data is broken; what stands before the fault has then been drawn, as the standard
// wants.
type pathData struct {
	scanner
	pen  *pen
	ctrl plane.Point // last control point, for the smooth commands
	last byte        // last command, upper case
	args [6]float64
}

// drawPathData draws text with p. huge tells that a number overflowed.
func drawPathData(text string, p *pen) (ok, huge bool) {
	p.at = plane.Point{} // what a relative command at the start is relative to
	d := pathData{scanner: scanner{text: text}, pen: p}
	ok = d.run()
	p.lift()
	return ok, d.huge
}

func (d *pathData) run() bool {
	if d.done() || d.text[d.at:] == "none" {
		return true
	}
	if c := d.text[d.at]; c != 'M' && c != 'm' {
		return false
	}
	for !d.done() && !d.pen.full() && !d.pen.bad {
		cmd := d.text[d.at]
		d.at++
		if !d.command(cmd) {
			return false
		}
	}
	return true
}

// count returns how many numbers a command takes; -1 when there is no such command.
func count(upper byte) int {
	switch upper {
	case 'Z':
		return 0
	case 'H', 'V':
		return 1
	case 'M', 'L', 'T':
		return 2
	case 'S', 'Q':
		return 4
	case 'C':
		return 6
	case 'A':
		return 7
	}
	return -1
}

// command draws one command with all its repetitions.
func (d *pathData) command(cmd byte) bool {
	upper := cmd &^ 0x20
	relative := cmd != upper
	n := count(upper)
	switch {
	case n < 0 || cmd < 'A':
		return false
	case n == 0:
		d.pen.close()
		d.pen.moveTo(d.pen.at) // a command other than M goes on from here
		d.last = 'Z'
		return true
	}
	for first := true; ; first = false {
		if !first && (d.done() || !startsNumber(d.text[d.at])) {
			return true
		}
		var ok bool
		if upper == 'A' {
			ok = d.arc(relative)
		} else if ok = d.numbers(n); ok {
			d.draw(upper, relative)
		}
		if !ok {
			return false
		}
		d.last = upper
		if upper == 'M' {
			upper = 'L'
		}
		if d.pen.full() || d.pen.bad {
			return true
		}
	}
}

func startsNumber(c byte) bool {
	return c >= '0' && c <= '9' || c == '-' || c == '+' || c == '.'
}

func (d *pathData) numbers(n int) bool {
	for i := range n {
		v, ok := d.number()
		if !ok {
			return false
		}
		d.args[i] = v
	}
	return true
}

func (d *pathData) draw(upper byte, relative bool) {
	p, a := d.pen, d.args
	var o plane.Point
	if relative {
		o = p.at
	}
	pt := func(i int) plane.Point { return plane.Pt(a[i], a[i+1]).Add(o) }
	switch upper {
	case 'M':
		p.moveTo(pt(0))
	case 'L':
		p.lineTo(pt(0))
	case 'H':
		p.lineTo(plane.Pt(a[0]+o.X, p.at.Y))
	case 'V':
		p.lineTo(plane.Pt(p.at.X, a[0]+o.Y))
	case 'C':
		d.ctrl = pt(2)
		p.cubicTo(pt(0), pt(2), pt(4))
	case 'S':
		c := d.reflected('C', 'S')
		d.ctrl = pt(0)
		p.cubicTo(c, pt(0), pt(2))
	case 'Q':
		d.ctrl = pt(0)
		p.quadTo(pt(0), pt(2))
	case 'T':
		d.ctrl = d.reflected('Q', 'T')
		p.quadTo(d.ctrl, pt(0))
	}
}

// reflected returns the control point of a smooth command: the last one mirrored in
// the current point, or that point after any other command.
func (d *pathData) reflected(one, other byte) plane.Point {
	if d.last == one || d.last == other {
		return d.pen.at.Mul(2).Sub(d.ctrl)
	}
	return d.pen.at
}

func (d *pathData) arc(relative bool) bool {
	if !d.numbers(3) {
		return false
	}
	rx, ry, turn := d.args[0], d.args[1], d.args[2]
	large, ok := d.flag()
	if !ok {
		return false
	}
	sweep, ok := d.flag()
	if !ok || !d.numbers(2) {
		return false
	}
	q := plane.Pt(d.args[0], d.args[1])
	if relative {
		q = q.Add(d.pen.at)
	}
	d.pen.svgArc(rx, ry, turn*math.Pi/180, large, sweep, q)
	return true
}

// svgArc draws an elliptical arc given by its end points (SVG 1.1, appendix F.6.5
// and F.6.6).
func (p *pen) svgArc(rx, ry, turn float64, large, sweep bool, q plane.Point) {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if p.at == q {
		return
	}
	if rx == 0 || ry == 0 {
		p.lineTo(q)
		return
	}
	x, y := plane.Dir(turn), plane.Dir(turn).Left()
	// In the frame of the ellipse, scaled so that it is the unit circle, half the
	// chord is h and the centre lies square to it.
	half := p.at.Sub(q).Mul(0.5)
	h := plane.Pt(half.Dot(x)/rx, half.Dot(y)/ry)
	if l := h.Len(); l > 1 { // radii too small to reach: grown until they do
		rx, ry, h = rx*l, ry*l, h.Mul(1/l)
	}
	k := math.Sqrt(math.Max(0, 1/h.Dot(h)-1))
	if large == sweep {
		k = -k
	}
	c := plane.Pt(h.Y, -h.X).Mul(k)
	a, b := h.Sub(c), h.Mul(-1).Sub(c)
	e := ellipse{p.at.Lerp(q, 0.5).Add(x.Mul(c.X * rx)).Add(y.Mul(c.Y * ry)), x.Mul(rx), y.Mul(ry)}
	t0 := math.Atan2(a.Y, a.X)
	dt := math.Atan2(a.Cross(b), a.Dot(b))
	switch {
	case sweep && dt < 0:
		dt += 2 * math.Pi
	case !sweep && dt > 0:
		dt -= 2 * math.Pi
	}
	p.ellipseTo(e, t0, dt, q)
}
