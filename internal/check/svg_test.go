package check

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// A small reader of the cut files, written from the SVG 1.1 recommendation: what another
// program would find in them.

// stroke is one path of a file, Y up again.
type stroke struct {
	plane.Path
	pts   []plane.Point // within 0.002 mm
	box   plane.Box
	taken bool // matched with something that was promised
}

// cutFile is the paths of a file by the first word of the group they are in.
type cutFile map[string][]*stroke

// readCutFile reads a file; groups that repeat one for a further pass are left out.
func readCutFile(t *testing.T, data []byte) cutFile {
	t.Helper()
	out := cutFile{}
	height, group := 0.0, ""
	for d := xml.NewDecoder(bytes.NewReader(data)); ; {
		tok, err := d.Token()
		if err == io.EOF {
			return out
		}
		require.NoError(t, err)
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		attr := map[string]string{}
		for _, a := range el.Attr {
			attr[a.Name.Local] = a.Value
		}
		switch el.Name.Local {
		case "svg":
			height, err = strconv.ParseFloat(strings.Fields(attr["viewBox"])[3], 64)
			require.NoError(t, err)
		case "g":
			group = attr["id"]
		case "path":
			out[group] = append(out[group], pathOf(t, attr["d"], height))
		}
	}
}

func pathOf(t *testing.T, d string, height float64) *stroke {
	t.Helper()
	p := &stroke{}
	fields := strings.Fields(d)
	next := func() float64 {
		v, err := strconv.ParseFloat(fields[0], 64)
		require.NoError(t, err)
		fields = fields[1:]
		return v
	}
	point := func() plane.Point { x := next(); return plane.Pt(x, height-next()) }
	var start, at plane.Point
	for len(fields) > 0 {
		cmd := fields[0]
		fields = fields[1:]
		switch cmd {
		case "M":
			start = point()
			at = start
			continue
		case "L":
			p.Segs = append(p.Segs, plane.LineSeg(at, point()))
		case "C":
			c, e, b := point(), point(), point()
			p.Segs = append(p.Segs, plane.CubicSeg(at, c, e, b))
		case "A":
			rx, _, _, large, sweep := next(), next(), next(), next(), next()
			b := point()
			turn := 2 * math.Asin(math.Min(1, at.Dist(b)/2/rx))
			require.Zero(t, large)
			if sweep == 1 { // clockwise when Y points up
				turn = -turn
			}
			p.Segs = append(p.Segs, plane.BulgeSeg(at, b, math.Tan(turn/4)))
		case "Z":
			if at != start {
				p.Segs = append(p.Segs, plane.LineSeg(at, start))
			}
			p.Closed = true
			continue
		default:
			require.Fail(t, "a command that no file of ours has", cmd)
		}
		at = p.Segs[len(p.Segs)-1].B
	}
	p.pts, p.box = p.Flatten(0.002), p.Box()
	return p
}

// toLine is how far a point lies from a polyline.
func toLine(pts []plane.Point, q plane.Point) float64 {
	best := math.Inf(1)
	for i := 0; i+1 < len(pts); i++ {
		d := pts[i+1].Sub(pts[i])
		t := 0.0
		if l := d.Dot(d); l > 0 {
			t = math.Max(0, math.Min(1, q.Sub(pts[i]).Dot(d)/l))
		}
		best = math.Min(best, q.Dist(pts[i].Add(d.Mul(t))))
	}
	return best
}

// alongX returns where the line X = x runs inside a closed outline, by even and odd.
func alongX(r plane.Region, x float64) [][2]float64 {
	var ys []float64
	for _, p := range r.Paths() {
		pts := p.Flatten(0.001)
		for i := 0; i+1 < len(pts); i++ {
			if a, b := pts[i], pts[i+1]; (a.X > x) != (b.X > x) {
				ys = append(ys, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
			}
		}
	}
	var out [][2]float64
	for len(ys) > 1 {
		lo, hi := 0, 0
		for i, y := range ys { // the two lowest
			if y < ys[lo] {
				lo = i
			}
		}
		low := ys[lo]
		ys = append(ys[:lo], ys[lo+1:]...)
		hi = 0
		for i, y := range ys {
			if y < ys[hi] {
				hi = i
			}
		}
		out = append(out, [2]float64{low, ys[hi]})
		ys = append(ys[:hi], ys[hi+1:]...)
	}
	return out
}

// crossesItself tells whether a polyline properly crosses itself.
func crossesItself(pts []plane.Point) (plane.Point, bool) {
	side := func(a, b, c plane.Point) float64 { return b.Sub(a).Cross(c.Sub(a)) }
	for i := 0; i+1 < len(pts); i++ {
		a, b := pts[i], pts[i+1]
		lo, hi := math.Min(a.X, b.X), math.Max(a.X, b.X)
		for k := i + 2; k+1 < len(pts); k++ {
			c, d := pts[k], pts[k+1]
			if c.X < lo && d.X < lo || c.X > hi && d.X > hi {
				continue
			}
			if side(a, b, c)*side(a, b, d) < -1e-12 && side(c, d, a)*side(c, d, b) < -1e-12 {
				return a, true
			}
		}
	}
	return plane.Point{}, false
}
