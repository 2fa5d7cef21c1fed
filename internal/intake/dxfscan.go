package intake

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// pair is a group of a DXF file: a code that tells what the value is, and the value
// (DXF Reference, "Group Codes in Numerical Order").
type pair struct {
	value []byte
	code  int32
	line  int32 // of the value
}

// maxPairs bounds the groups of one entity: a polyline of MaxSegments has three for
// each vertex.
const maxPairs = 4 * MaxSegments

// groups reads the groups of a DXF file one after the other.
type groups struct {
	data   []byte
	line   int
	peeked *pair
}

// next returns the next group; ok is false at the end of the file.
func (g *groups) next() (p pair, ok bool, err error) {
	if g.peeked != nil {
		p, g.peeked = *g.peeked, nil
		return p, true, nil
	}
	head, ok := g.read()
	for ok && len(head) == 0 && len(bytes.TrimSpace(g.data)) > 0 {
		head, ok = g.read() // blank lines between groups
	}
	if !ok || len(head) == 0 {
		return p, false, nil
	}
	code, bad := strconv.Atoi(string(head[:min(len(head), 20)]))
	if bad != nil || code < -5 || code > 1071 {
		return p, false, refuse(Broken, "Line %d of the file should hold a group code.", g.line)
	}
	value, ok := g.read()
	if !ok {
		return p, false, refuse(Broken, "The file breaks off after line %d.", g.line)
	}
	return pair{value, int32(code), int32(g.line)}, true, nil
}

// back makes next return p again.
func (g *groups) back(p pair) { g.peeked = &p }

// read returns the next line without the white space round it.
func (g *groups) read() (line []byte, ok bool) {
	if len(g.data) == 0 {
		return nil, false
	}
	end := bytes.IndexAny(g.data, "\r\n")
	if end < 0 {
		line, g.data = g.data, nil
	} else {
		line = g.data[:end]
		step := 1
		if g.data[end] == '\r' && end+1 < len(g.data) && g.data[end+1] == '\n' {
			step = 2
		}
		g.data = g.data[end+step:]
	}
	g.line++
	return bytes.TrimSpace(line), true
}

// rest collects the groups up to the next group 0 into buf.
func (g *groups) rest(buf []pair) ([]pair, error) {
	for {
		p, ok, err := g.next()
		if err != nil || !ok {
			return buf, err
		}
		if p.code == 0 {
			g.back(p)
			return buf, nil
		}
		if len(buf) >= maxPairs {
			return buf, tooManySegments()
		}
		buf = append(buf, p)
	}
}

// figures gives access to the groups of one entity. bad is set by a number that can't
// be read, far by one that is not finite.
type figures struct {
	list     []pair
	bad, far bool
}

// endAt leaves out what follows the start of a subclass.
func (f *figures) endAt(subclass string) {
	for i, p := range f.list {
		if p.code == 100 && string(p.value) == subclass {
			f.list = f.list[:i]
			return
		}
	}
}

// number reads the value of p.
func (f *figures) number(p pair) float64 {
	v, err := strconv.ParseFloat(string(p.value[:min(len(p.value), 64)]), 64)
	switch {
	case err == nil && !math.IsInf(v, 0) && !math.IsNaN(v):
		return v
	case err != nil && !isRange(err):
		f.bad = true
	default:
		f.far = true
	}
	return 0
}

// spoilt tells whether a number could not be read, and notes it.
func (f *figures) spoilt(n *notes) bool {
	switch {
	case f.far:
		n.add(noteFar, 1)
	case f.bad:
		n.add(noteBrokenShape, 1)
	}
	return f.far || f.bad
}

func isRange(err error) bool {
	n, ok := err.(*strconv.NumError)
	return ok && n.Err == strconv.ErrRange
}

// float returns the first number of a code, or the default.
func (f *figures) float(code int32, def float64) float64 {
	for _, p := range f.list {
		if p.code == code {
			return f.number(p)
		}
	}
	return def
}

// has reports whether a code is given.
func (f *figures) has(code int32) bool {
	for _, p := range f.list {
		if p.code == code {
			return true
		}
	}
	return false
}

// int returns the first whole number of a code, or the default.
func (f *figures) int(code int32, def int) int {
	v := f.float(code, float64(def))
	if math.Abs(v) > math.MaxInt32 {
		return def
	}
	return int(v)
}

// count returns how often a code is given.
func (f *figures) count(code int32) int {
	n := 0
	for _, p := range f.list {
		if p.code == code {
			n++
		}
	}
	return n
}

// text returns the first text of a code.
func (f *figures) text(code int32) string {
	for _, p := range f.list {
		if p.code == code {
			return string(p.value[:min(len(p.value), 1024)])
		}
	}
	return ""
}

// dxfName decodes \U+XXXX, the way files before R2007 write characters outside
// their code page, and takes bytes that aren't UTF-8 for Latin-1.
func dxfName(s string) string {
	if !utf8.ValidString(s) {
		var b strings.Builder
		for i := range len(s) {
			b.WriteRune(rune(s[i]))
		}
		s = b.String()
	}
	var out strings.Builder
	for {
		before, after, found := strings.Cut(s, `\U+`)
		out.WriteString(before)
		if !found {
			return out.String()
		}
		n := min(4, len(after))
		if v, err := strconv.ParseUint(after[:n], 16, 32); err == nil && n == 4 {
			out.WriteRune(rune(v))
			after = after[n:]
		}
		s = after
	}
}
