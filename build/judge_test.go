package main

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"math/rand"
	"os"
	"os/exec"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/tdewolff/canvas"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/fit"
	"springrib/internal/offset"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// The geometry library tdewolff/canvas as an independent judge of plane: it was written
// by others, from other formulas. What it is known to do wrong is in
// TestFaultsOfTheJudge, which fails when a newer version does better; the other tests
// ask only for what it does right.

// toCanvas returns p as the library's path. Both have Y up and angles
// counter-clockwise.
func toCanvas(paths ...plane.Path) *canvas.Path {
	out := &canvas.Path{}
	for _, p := range paths {
		out.MoveTo(p.Start().X, p.Start().Y)
		for _, s := range p.Segs {
			switch s.Kind {
			case plane.Line:
				out.LineTo(s.B.X, s.B.Y)
			case plane.Arc:
				_, r := s.Centre()
				out.ArcTo(r, r, 0, math.Abs(s.Bulge) > 1, s.Bulge > 0, s.B.X, s.B.Y)
			case plane.Cubic:
				out.CubeTo(s.C.X, s.C.Y, s.D.X, s.D.Y, s.B.X, s.B.Y)
			}
		}
		if p.Closed {
			out.Close()
		}
	}
	return out
}

// somewhere is a random point of a square of 100 mm about the origin.
func somewhere(rnd *rand.Rand) plane.Point {
	return plane.Pt(100*rnd.Float64()-50, 100*rnd.Float64()-50)
}

// wild is a closed path of n random pieces, which may cross itself.
func wild(rnd *rand.Rand, n int, kinds ...plane.Kind) plane.Path {
	p := plane.Path{Closed: true}
	first := somewhere(rnd)
	at := first
	for i := range n {
		to := somewhere(rnd)
		if i == n-1 {
			to = first
		}
		switch kinds[rnd.Intn(len(kinds))] {
		case plane.Line:
			p.Segs = append(p.Segs, plane.LineSeg(at, to))
		case plane.Arc:
			p.Segs = append(p.Segs, plane.BulgeSeg(at, to, math.Copysign(0.05+2*rnd.Float64(), rnd.Float64()-0.5)))
		case plane.Cubic:
			p.Segs = append(p.Segs, plane.CubicSeg(at, somewhere(rnd), somewhere(rnd), to))
		}
		at = to
	}
	return p
}

// star is an outline about c that doesn't cross itself, of lines, arcs and cubics.
func star(rnd *rand.Rand, c plane.Point, r float64, n int) plane.Path {
	pts := make([]plane.Point, n)
	for i := range pts {
		pts[i] = c.Add(plane.Dir(2 * math.Pi * (float64(i) + 0.3*rnd.Float64()) / float64(n)).Mul(r * (0.6 + 0.4*rnd.Float64())))
	}
	p := plane.Path{Closed: true}
	for i, a := range pts {
		b := pts[(i+1)%n]
		h := b.Sub(a).Left().Mul(0.1 * (rnd.Float64() - 0.5))
		p.Segs = append(p.Segs, []plane.Segment{
			plane.LineSeg(a, b), plane.BulgeSeg(a, b, 0.4*rnd.Float64()-0.2), plane.CubicSeg(a, a.Lerp(b, .3).Add(h), a.Lerp(b, .7).Sub(h), b),
		}[rnd.Intn(3)])
	}
	return p
}

var every = []plane.Kind{plane.Line, plane.Arc, plane.Cubic}

// shoelace is the area of a flat path of the library, by its points.
func shoelace(p *canvas.Path) float64 {
	sum := 0.0
	for _, q := range p.Split() {
		pts := q.Coords()
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			sum += (a.X*b.Y - a.Y*b.X) / 2
		}
	}
	return sum
}

func TestJudgeLength(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	for range 2000 {
		p := wild(rnd, 2+rnd.Intn(8), plane.Line, plane.Arc)
		require.InEpsilon(t, toCanvas(p).Length(), p.Length(), 1e-6, p)
	}
	// Its length of a cubic is not to be trusted, its points on one are. A chord c over a
	// bow h is shorter than the curve by 8 h^2 / 3 c, to first order in h / c.
	for range 100 {
		p := wild(rnd, 2+rnd.Intn(4), plane.Cubic)
		flat := toCanvas(p).Flatten(1e-5).Length()
		require.InEpsilon(t, flat, p.Length(), 2e-5, p)
	}
}

func TestJudgeBounds(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	for range 3000 {
		p := wild(rnd, 2+rnd.Intn(8), every...)
		want, got := toCanvas(p).Bounds(), p.Box()
		for _, c := range [][2]float64{{want.X0, got.Min.X}, {want.Y0, got.Min.Y}, {want.X1, got.Max.X}, {want.Y1, got.Max.Y}} {
			require.InDelta(t, c[0], c[1], 1e-6, p)
		}
	}
}

func TestJudgeArea(t *testing.T) {
	rnd := rand.New(rand.NewSource(3))
	for range 500 {
		p := wild(rnd, 2+rnd.Intn(8), every...)
		require.InDelta(t, shoelace(toCanvas(p).Flatten(1e-4)), p.Area(), 1e-4*p.Length(), p)
	}
	// A region's area, by what the library leaves of the outline when it takes the holes
	// off, all at once.
	settled(t)
	for range 100 {
		holes := []plane.Path{star(rnd, plane.Pt(5, 8), 10, 7), plane.CirclePath(plane.Pt(-12, -8), 6)}
		r := plane.Region{Outer: star(rnd, plane.Pt(0, 0), 50, 6+rnd.Intn(20)), Holes: holes}.Normal()
		left := toCanvas(r.Outer).Not(toCanvas(holes...))
		require.InDelta(t, shoelace(left), r.Area(), 1e-3*(r.Outer.Length()+100), r)
	}
}

// settled makes the library flatten curves within 0.001 mm in this test: for its set
// operations this is no argument but a variable of the package.
func settled(t *testing.T) {
	was := canvas.Tolerance
	canvas.Tolerance = 1e-3
	t.Cleanup(func() { canvas.Tolerance = was })
}

func TestJudgeWinding(t *testing.T) {
	rnd := rand.New(rand.NewSource(4))
	asked := 0
	for range 500 {
		p := wild(rnd, 2+rnd.Intn(8), every...)
		c := toCanvas(p)
		for range 10 {
			q := somewhere(rnd)
			n, edge := c.Windings(q.X, q.Y)
			require.False(t, edge)
			require.Equal(t, n, p.Winding(q), "%v of %v", q, p)
			asked++
		}
	}
	require.Equal(t, 5000, asked)
}

// Where a level line crosses a path: the library's ray from far left against the spans
// of the region, by roots of its own.
func TestJudgeCrossingsWithALine(t *testing.T) {
	rnd := rand.New(rand.NewSource(5))
	for range 1000 {
		p := star(rnd, plane.Pt(0, 0), 50, 5+rnd.Intn(25))
		y := 90*rnd.Float64() - 45
		var want, got []float64
		for _, z := range toCanvas(p).RayIntersections(-1000, y) {
			want = append(want, z.X)
		}
		for _, s := range (plane.Region{Outer: p}).ClipLine(plane.Pt(0, y), plane.Pt(1, y)) {
			require.False(t, s.Graze)
			got = append(got, s.From, s.To)
		}
		sort.Float64s(want)
		require.Len(t, got, len(want), "at %v of %v", y, p)
		for i := range got {
			require.InDelta(t, want[i], got[i], 1e-6, "at %v of %v", y, p)
		}
	}
}

// Many lines at once: what the library cuts out of them with the outline.
func TestJudgeClippedLines(t *testing.T) {
	rnd := rand.New(rand.NewSource(6))
	for range 100 {
		r := plane.Region{Outer: poly(star(rnd, plane.Pt(0, 0), 50, 5+rnd.Intn(25))), Holes: []plane.Path{poly(star(rnd, plane.Pt(0, 0), 20, 8)).Reverse()}}
		lines, offsets := &canvas.Path{}, []float64{}
		for range 20 {
			x := 110*rnd.Float64() - 55
			offsets = append(offsets, -x)
			lines.MoveTo(x, -100)
			lines.LineTo(x, 100)
		}
		want := 0.0
		for _, l := range lines.And(toCanvas(r.Paths()...)).Split() {
			want += l.Length()
		}
		got := 0.0
		for _, spans := range r.ClipLines(plane.Pt(0, -100), plane.Pt(0, 0), offsets) {
			for _, s := range spans {
				got += s.Len()
			}
		}
		require.InDelta(t, want, got, 1e-5, r)
	}
}

// poly is the polygon of p's corners.
func poly(p plane.Path) plane.Path {
	var pts []plane.Point
	for _, s := range p.Segs {
		pts = append(pts, s.A)
	}
	return plane.Poly(pts...)
}

// Where two polygons cross: the corners of what they have in common that are corners
// of neither.
func TestJudgeCrossings(t *testing.T) {
	rnd := rand.New(rand.NewSource(7))
	found := 0
	for range 500 {
		a, b := poly(star(rnd, plane.Pt(0, 0), 50, 4+rnd.Intn(12))), poly(star(rnd, plane.Pt(30*rnd.Float64(), 5), 50, 4+rnd.Intn(12)))
		var want []plane.Point
		for _, part := range toCanvas(a).And(toCanvas(b)).Split() {
			for _, c := range part.Coords() {
				if q := plane.Pt(c.X, c.Y); nearest(q, append(corners(a), corners(b)...)) > 1e-6 && nearest(q, want) > 1e-6 {
					want = append(want, q)
				}
			}
		}
		got := offset.Crossings(a, b)
		require.Len(t, got, len(want), "%v and %v", a, b)
		for _, q := range got {
			require.Less(t, nearest(q, want), 1e-6)
		}
		found += len(got)
	}
	require.Greater(t, found, 1000)
}

func corners(p plane.Path) (pts []plane.Point) {
	for _, s := range p.Segs {
		pts = append(pts, s.A)
	}
	return pts
}

func nearest(q plane.Point, among []plane.Point) float64 {
	d := math.Inf(1)
	for _, p := range among {
		d = math.Min(d, q.Dist(p))
	}
	return d
}

// Grown and shrunk outlines: what ours and the library's have not in common is no more
// than a thin skin. The library is given flat outlines, where its offset is right.
func TestJudgeOffset(t *testing.T) {
	rnd := rand.New(rand.NewSource(8))
	const tol = 0.01
	for range 40 {
		r := plane.Region{Outer: star(rnd, plane.Pt(0, 0), 50, 5+rnd.Intn(12))}
		d := 8*rnd.Float64() - 4
		got, err := offset.Region(r, d, tol)
		require.NoError(t, err)
		ours := &canvas.Path{}
		for _, g := range got {
			ours = ours.Append(toCanvas(g.Paths()...).Flatten(1e-3))
		}
		theirs := toCanvas(r.Outer).Flatten(1e-3).Offset(d, 1e-3)
		apart := shoelace(ours.Not(theirs)) + shoelace(theirs.Not(ours))
		require.Less(t, apart, 2*tol*r.Outer.Length(), "by %v: %v", d, r)
	}
}

// The text form of a path, which report.json and saved designs hold, is path data of SVG
// but for the radius that an arc names once. The library reads it as what it was.
func TestJudgeReadsPathText(t *testing.T) {
	rnd := rand.New(rand.NewSource(9))
	for range 500 {
		p := wild(rnd, 2+rnd.Intn(8), every...)
		text := p.String()
		if strings.Contains(text, "B") {
			continue // a bulge, which SVG has no word for
		}
		c, err := canvas.ParseSVGPath(svgArcs(text))
		require.NoError(t, err, text)
		requireSame(t, p, c, 1e-6)
	}
}

// svgArcs writes both radii and the turn of each arc of a path's text.
func svgArcs(text string) string {
	var out []string
	cmd, arg := "", 0
	for _, f := range strings.Fields(text) {
		if strings.Contains("MLACZ", f) {
			cmd, arg = f, 0
		} else {
			if cmd == "A" && arg%5 == 0 {
				f += " " + f + " 0"
			}
			arg++
		}
		out = append(out, f)
	}
	return strings.Join(out, " ")
}

// requireSame asks for the same ends, bounds, length and area of a path of ours and one
// of the library.
func requireSame(t *testing.T, p plane.Path, c *canvas.Path, tol float64) {
	t.Helper()
	require.Equal(t, p.Closed, c.Closed(), p)
	at, to := c.StartPos(), c.Pos()
	require.Less(t, p.Start().Dist(plane.Pt(at.X, at.Y)), 2*tol, p)
	require.Less(t, p.End().Dist(plane.Pt(to.X, to.Y)), 2*tol, p)
	have, want := p.Box(), c.Bounds()
	for _, v := range [][2]float64{{want.X0, have.Min.X}, {want.Y0, have.Min.Y}, {want.X1, have.Max.X}, {want.Y1, have.Max.Y}} {
		require.InDelta(t, v[0], v[1], 20*tol, p)
	}
	flat := c.Flatten(1e-4)
	require.InDelta(t, flat.Length(), p.Length(), 20*tol+1e-4*(1+p.Length()), p)
	if p.Closed {
		require.InDelta(t, shoelace(flat), p.Area(), (20*tol+1e-4)*(1+p.Length()), p)
	}
}

// Every stroke of every example, and random strokes, as the library reads them in our
// SVG file. Coordinates there are rounded to export.Step.
func TestJudgeReadsOurSVG(t *testing.T) {
	read := 0
	check := func(j cut.Job) {
		var want []plane.Path
		for _, o := range j.Operations {
			for _, s := range o.Strokes {
				want = append(want, s.Path)
			}
		}
		got := svgPaths(t, export.SVG(j, export.SVGOptions{}))
		require.Len(t, got, len(want), j.Title)
		for i, d := range got {
			c, err := canvas.ParseSVGPath(d)
			require.NoError(t, err)
			// Y points down in the file.
			requireSame(t, want[i], c.Transform(canvas.Identity.Translate(0, export.Round(j.Height)).Scale(1, -1)), export.Step)
			read++
		}
	}
	for _, e := range design.Examples() {
		v, _ := design.Read(e.Design)
		for _, j := range plan.Make(v).Lay.Jobs {
			check(j)
		}
	}
	rnd := rand.New(rand.NewSource(10))
	for range 100 {
		j := cut.Job{Title: "random", Width: 300, Height: 300, Sheet: 1, Sheets: 1}
		o := cut.Operation{Kind: cut.Outer, Passes: 1, Colour: "#CC79A7"}
		for range 5 {
			o.Strokes = append(o.Strokes, cut.Stroke{Path: wild(rnd, 2+rnd.Intn(6), every...).Apply(plane.Translate(150, 150))})
		}
		j.Operations = []cut.Operation{o}
		check(j)
	}
	require.Greater(t, read, 900)
}

// svgPaths returns the data of all paths of an SVG file.
func svgPaths(t *testing.T, file []byte) (data []string) {
	t.Helper()
	for d := xml.NewDecoder(bytes.NewReader(file)); ; {
		token, err := d.Token()
		if err == io.EOF {
			return data
		}
		require.NoError(t, err)
		if e, ok := token.(xml.StartElement); ok && e.Name.Local == "path" {
			for _, a := range e.Attr {
				if a.Name.Local == "d" {
					data = append(data, a.Value)
				}
			}
		}
	}
}

// What the library does wrong, in figures found by hand or from ours. Where this fails a
// newer version does better, and the tests above may ask it for more.
func TestFaultsOfTheJudge(t *testing.T) {
	path := canvas.MustParseSVGPath
	square := func(x, y, side float64) *canvas.Path { return canvas.Rectangle(side, side).Translate(x, y) }

	// The length of a cubic that turns sharply: seven points of Gauss are too few.
	sharp := path("M0 0C100 0 -60 1 40 0")
	assert.InDelta(t, plane.MustParse("M 0 0 C 100 0 -60 1 40 0").Length(), sharp.Flatten(1e-5).Length(), 1e-3)
	assert.Greater(t, math.Abs(sharp.Length()-sharp.Flatten(1e-5).Length()), 0.3)

	// A clockwise circle is called counter-clockwise, so its offset has the wrong side
	// and the hole of a ring is gone.
	assert.Negative(t, shoelace(canvas.Circle(10).Reverse().Flatten(0.01)))
	assert.True(t, canvas.Circle(10).Reverse().CCW())
	ring := canvas.Circle(10).Append(canvas.Circle(5).Reverse()).Offset(1, 0.01)
	assert.InDelta(t, math.Pi*11*11, shoelace(ring.Flatten(0.001)), 1, "and not pi (11^2 - 4^2)")

	// Points of an ellipse flattened at 0.01 mm stand off it by five times that.
	off := 0.0
	for _, q := range canvas.Ellipse(30, 15).Flatten(0.01).Coords() {
		a := math.Atan2(q.Y/15, q.X/30)
		off = math.Max(off, math.Hypot(q.X-30*math.Cos(a), q.Y-15*math.Sin(a)))
	}
	assert.Greater(t, off, 0.04)

	// A second hole turns the first one round, so that it counts as filled.
	holed := square(0, 0, 10).Not(square(2, 2, 2))
	assert.InDelta(t, 96, shoelace(holed), 1e-9)
	assert.InDelta(t, 96-4+2*4, shoelace(holed.Not(square(6, 6, 2))), 1e-9, "and not 92")

	// An open line along an edge is lost; ours calls it a graze.
	along := &canvas.Path{}
	along.MoveTo(-5, 0)
	along.LineTo(15, 0)
	assert.True(t, along.And(square(0, 0, 10)).Empty())
	spans := plane.Region{Outer: plane.RectPath(plane.Box{Max: plane.Pt(10, 10)})}.ClipLine(plane.Pt(-5, 0), plane.Pt(15, 0))
	require.Len(t, spans, 1)
	assert.True(t, spans[0].Graze)

	// Parallels become short lines; ours keep arcs and few cubics.
	stroked := path("M0 0C10 20 30 20 40 0").Stroke(12.7, canvas.ButtCap, canvas.BevelJoin, 0.01)
	assert.Greater(t, stroked.Len(), 70)
	ours := fit.Fit(plane.Parallel(plane.MustParse("M 0 0 C 10 20 30 20 40 0"), 6.35, 6.35), fit.Options{Tolerance: 0.01})
	assert.LessOrEqual(t, len(ours.Path.Segs), 2)
}

// The wasm core is for the page to download, so it imports nothing from outside but
// these.
func TestCoreImportsNoLibrary(t *testing.T) {
	cmd := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{.Path}}{{end}}", "springrib/wasm")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := cmd.Output()
	require.NoError(t, err)
	modules := strings.Fields(string(out))
	sort.Strings(modules)
	assert.Equal(t, []string{"github.com/hack-pad/safejs", "golang.org/x/image", "springrib"}, slices.Compact(modules))
}
