package plane

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// The text form of a path is the path data of SVG 1.1 cut down to absolute
// coordinates and six commands, in mm with Y up:
//
//	M x y            start
//	L x y            line
//	A r large sweep x y   circular arc; large and sweep are 0 or 1, sweep 1 is counter-clockwise
//	B bulge x y      circular arc by its bulge, where A would lose digits (near half circles)
//	C x y x y x y    cubic Bézier
//	Z                close, with a line if the end isn't yet at the start
//
// Repeated arguments repeat the command; after M they are lines. Numbers are apart
// by spaces or commas.

// Parse reads the text form of one path.
func Parse(text string) (Path, error) {
	ps, err := parsePaths(text)
	if err != nil {
		return Path{}, err
	}
	if len(ps) != 1 {
		return Path{}, fmt.Errorf("plane: %d paths where one was expected", len(ps))
	}
	return ps[0], nil
}

// MustParse is Parse for shapes written in code; it panics where Parse fails.
func MustParse(text string) Path {
	p, err := Parse(text)
	if err != nil {
		panic(err)
	}
	return p
}

// pathReader reads the text form from the front of rest.
type pathReader struct {
	rest string
	size int // of the whole text, to tell places
	out  []Path
	cur  Path
	at   Point
	open bool // M was read
}

func parsePaths(text string) ([]Path, error) {
	r := &pathReader{rest: text, size: len(text)}
	var cmd byte
	for {
		r.skip()
		if r.rest == "" {
			break
		}
		if c := r.rest[0]; strings.IndexByte("MLABCZ", c) >= 0 {
			cmd = c
			r.rest = r.rest[1:]
		} else if cmd == 0 || cmd == 'Z' {
			return nil, r.fail("expected a command")
		}
		if err := r.command(cmd); err != nil {
			return nil, err
		}
		if cmd == 'M' {
			cmd = 'L'
		}
	}
	r.finish()
	if len(r.out) == 0 {
		return nil, r.fail("no path")
	}
	return r.out, nil
}

func (r *pathReader) fail(what string) error {
	return fmt.Errorf("plane: path text at byte %d: %s", r.size-len(r.rest), what)
}

func (r *pathReader) skip() { r.rest = strings.TrimLeft(r.rest, " ,\t\r\n") }

func (r *pathReader) finish() {
	if len(r.cur.Segs) > 0 {
		r.out = append(r.out, r.cur)
	}
	r.cur = Path{}
}

func (r *pathReader) command(cmd byte) error {
	if cmd != 'M' && !r.open {
		return r.fail("expected M first")
	}
	switch cmd {
	case 'M':
		v, err := r.numbers(2)
		if err != nil {
			return err
		}
		r.finish()
		r.at, r.open = Point{v[0], v[1]}, true
	case 'L':
		v, err := r.numbers(2)
		if err != nil {
			return err
		}
		r.add(LineSeg(r.at, Point{v[0], v[1]}))
	case 'A':
		return r.arc()
	case 'B':
		v, err := r.numbers(3)
		if err != nil {
			return err
		}
		r.add(BulgeSeg(r.at, Point{v[1], v[2]}, v[0]))
	case 'C':
		v, err := r.numbers(6)
		if err != nil {
			return err
		}
		r.add(CubicSeg(r.at, Point{v[0], v[1]}, Point{v[2], v[3]}, Point{v[4], v[5]}))
	case 'Z':
		return r.close()
	}
	return nil
}

func (r *pathReader) add(s Segment) {
	r.cur.Segs = append(r.cur.Segs, s)
	r.at = s.B
}

func (r *pathReader) close() error {
	if len(r.cur.Segs) == 0 {
		return r.fail("nothing to close")
	}
	if start := r.cur.Start(); r.at != start {
		r.add(LineSeg(r.at, start))
	}
	r.cur.Closed = true
	r.finish()
	r.open = false
	return nil
}

func (r *pathReader) arc() error {
	v, err := r.numbers(5)
	if err != nil {
		return err
	}
	large, sweep := v[1] == 1, v[2] == 1
	if v[1] != 0 && !large || v[2] != 0 && !sweep {
		return r.fail("flags of A must be 0 or 1")
	}
	to := Point{v[3], v[4]}
	b, ok := bulgeOfRadius(v[0], r.at.Dist(to), large, sweep)
	if !ok {
		return r.fail("radius of A shorter than half the chord, or no chord")
	}
	r.add(BulgeSeg(r.at, to, b))
	return nil
}

// bulgeOfRadius returns the bulge of an arc of radius rad over chord ch. A radius
// short of half the chord by rounding only (1e-9), or as long as it to the 13 digits
// that are written, makes a half circle.
func bulgeOfRadius(rad, ch float64, large, sweep bool) (bulge float64, ok bool) {
	k := ch / 2 / rad // sine of half the angle
	if !(rad > 0 && ch > 1e-12 && k <= 1+1e-9) || math.IsInf(ch, 0) {
		return 0, false
	}
	// tan of half of that angle
	bulge = 1.0
	if k < 1-1e-12 {
		bulge = k / (1 + math.Sqrt((1-k)*(1+k)))
	}
	if large {
		bulge = 1 / bulge
	}
	if !sweep {
		bulge = -bulge
	}
	return bulge, true
}

func (r *pathReader) numbers(n int) ([6]float64, error) {
	var v [6]float64
	for i := range n {
		r.skip()
		end := strings.IndexFunc(r.rest, func(c rune) bool { return !strings.ContainsRune("+-.0123456789eE", c) })
		if end < 0 {
			end = len(r.rest)
		}
		x, err := strconv.ParseFloat(r.rest[:end], 64)
		// 1e9 mm is past any sheet and keeps products of coordinates finite.
		if err != nil || math.Abs(x) > 1e9 {
			return v, r.fail("expected a number of at most 1e9")
		}
		v[i], r.rest = x, r.rest[end:]
	}
	return v, nil
}

// String returns the text form of p, each number with the fewest digits that read
// back the same.
func (p Path) String() string {
	var b strings.Builder
	for i, s := range p.Segs {
		if i == 0 {
			write(&b, "M", s.A.X, s.A.Y)
		}
		implied := p.Closed && i == len(p.Segs)-1 && s.A != p.Start() // by Z
		switch {
		case s.Kind == Arc:
			s.writeArc(&b)
		case s.Kind == Cubic:
			write(&b, "C", s.C.X, s.C.Y, s.D.X, s.D.Y, s.B.X, s.B.Y)
		case !implied:
			write(&b, "L", s.B.X, s.B.Y)
		}
	}
	if p.Closed {
		b.WriteString(" Z")
	}
	return b.String()
}

// writeArc uses A when its radius, kept to 13 digits so that the text is stable,
// reads back to the same bulge within 1e-11, and B otherwise.
func (s Segment) writeArc(b *strings.Builder) {
	_, r := s.Centre()
	if math.Abs(s.Bulge) == 1 {
		r = s.A.Dist(s.B) / 2
	}
	r, _ = strconv.ParseFloat(strconv.FormatFloat(r, 'g', 13, 64), 64)
	large, sweep := math.Abs(s.Bulge) > 1, s.Bulge > 0
	got, ok := bulgeOfRadius(r, s.A.Dist(s.B), large, sweep)
	if !ok || r > 1e9 || math.Abs(got-s.Bulge) > 1e-11*(1+s.Bulge*s.Bulge) && math.Abs(s.Bulge) != 1 {
		write(b, "B", s.Bulge, s.B.X, s.B.Y)
		return
	}
	write(b, "A", r, flag(large), flag(sweep), s.B.X, s.B.Y)
}

func flag(on bool) float64 {
	if on {
		return 1
	}
	return 0
}

func write(b *strings.Builder, cmd string, v ...float64) {
	if b.Len() > 0 {
		b.WriteByte(' ')
	}
	b.WriteString(cmd)
	for _, x := range v {
		b.WriteByte(' ')
		if x == 0 {
			x = 0 // no "-0"
		}
		b.WriteString(strconv.FormatFloat(x, 'f', -1, 64))
	}
}

// String returns the text forms of outline and holes, one after the other.
func (r Region) String() string {
	var parts []string
	for _, p := range r.Paths() {
		parts = append(parts, p.String())
	}
	return strings.Join(parts, " ")
}
