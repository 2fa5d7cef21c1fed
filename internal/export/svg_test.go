package export

import (
	"bytes"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

func TestSVGGolden(t *testing.T) {
	golden(t, "small.svg", SVG(smallJob(), SVGOptions{}))
	golden(t, "small-repeated-check.svg", SVG(smallJob(), SVGOptions{RepeatPasses: true, ScaleCheck: 10}))
}

func TestSVGIsTrueSizeAndInOrder(t *testing.T) {
	job := smallJob()
	f, err := readSVG(SVG(job, SVGOptions{}))
	require.NoError(t, err)
	assert.Equal(t, "120mm", f.Width)
	assert.Equal(t, "80mm", f.Height)
	assert.Equal(t, [4]float64{0, 0, 120, 80}, f.ViewBox)
	assert.Equal(t, "Not sound: the skin may crack. Reading lamp, revision 2, sheet 1 of 2. The kerf of 0.2 mm is already allowed for: cut on the line.", f.Title)
	require.Len(t, f.Groups, 4)
	for i, op := range job.Operations {
		assert.Equal(t, op.Name, f.Groups[i].Title)
		assert.Equal(t, op.Kind.String(), f.Groups[i].ID)
		assert.Equal(t, strings.ToLower(op.Colour), f.Groups[i].Stroke)
		assert.Len(t, f.Groups[i].Paths, len(op.Strokes))
	}
}

// Every place of every stroke must be within a thousandth of a millimetre of the
// job, along the whole of each path and not at its nodes only.
func TestSVGKeepsEveryPlace(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		job := randomJob(r)
		f, err := readSVG(SVG(job, SVGOptions{}))
		require.NoError(t, err)
		require.Len(t, f.Groups, len(job.Operations))
		for i, op := range job.Operations {
			require.Len(t, f.Groups[i].Paths, len(op.Strokes))
			for k, s := range op.Strokes {
				got := f.Groups[i].Paths[k]
				assert.Equal(t, s.Path.Closed, got.Closed)
				samePlaces(t, s.Path, got, 0.0015)
			}
		}
	}
}

func TestSVGKeepsScoresWithinTheGrid(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	op := cut.Operation{Kind: cut.Score, Name: "1 score", Colour: "#E69F00"}
	for range 500 {
		x := 600 * r.Float64()
		op.Strokes = append(op.Strokes, cut.Stroke{Path: line(x, 400*r.Float64(), x, 400*r.Float64())})
	}
	job := cut.Job{Title: "scores", Width: 600, Height: 400, Operations: []cut.Operation{op}}
	f, err := readSVG(SVG(job, SVGOptions{}))
	require.NoError(t, err)
	for i, p := range f.Groups[0].Paths {
		want := op.Strokes[i].Path.Segs[0]
		assert.InDelta(t, want.A.X, p.Segs[0].A.X, 0.0005+1e-9)
		assert.InDelta(t, want.A.Y, p.Segs[0].A.Y, 0.0005+1e-9)
		assert.Equal(t, p.Segs[0].A.X, p.Segs[0].B.X, "an upright score stays upright")
		assert.Equal(t, Round(want.A.X), p.Segs[0].A.X, "Round says what the file holds")
	}
}

func TestSVGArcsStayArcs(t *testing.T) {
	f, err := readSVG(SVG(smallJob(), SVGOptions{}))
	require.NoError(t, err)
	for _, p := range f.Groups[2].Paths {
		for _, s := range p.Segs {
			assert.Equal(t, plane.Arc, s.Kind)
		}
	}
	assert.InDelta(t, math.Pi*11, pathLength(f.Groups[2].Paths[0]), 0.003, "a circle's circumference")
	assert.InDelta(t, 2*70+60+math.Pi*30, pathLength(f.Groups[3].Paths[0]), 0.003)
}

// A half circle of an odd radius is where rounded radii go wrong most.
func TestSVGHalfCirclesKeepTheirHeight(t *testing.T) {
	for _, r := range []float64{0.7333, 5.00049, 49.99951, 50.0003, 333.33349} {
		p := circle(400, 400, r)
		job := cut.Job{Width: 800, Height: 800, Operations: []cut.Operation{{Kind: cut.Outer, Strokes: []cut.Stroke{{Path: p}}}}}
		f, err := readSVG(SVG(job, SVGOptions{}))
		require.NoError(t, err)
		samePlaces(t, p, f.Groups[0].Paths[0], 0.0015)
	}
}

func TestSVGHostileNames(t *testing.T) {
	for _, name := range hostileNames() {
		job := smallJob()
		job.Title = name
		job.Operations[0].Name = name
		job.Operations[1].Colour = name
		f, err := readSVG(SVG(job, SVGOptions{RepeatPasses: true}))
		require.NoError(t, err, "%q", name)
		require.Len(t, f.Groups, 5)
		assert.Equal(t, "#56b4e9", f.Groups[2].Stroke)
		assert.Contains(t, f.Title, "sheet 1 of 2")
		assert.NotContains(t, f.Title, "\u202E")
		assert.Regexp(t, regexp.QuoteMeta(cleanName(name))+".*pass 1 of 2$", f.Groups[0].Title)
	}
}

func TestSVGLeavesOutWhatTheGridSwallows(t *testing.T) {
	job := cut.Job{Width: 10, Height: 10, Operations: []cut.Operation{
		{Kind: cut.Mark},
		{Kind: cut.Inner, Strokes: []cut.Stroke{{Path: circle(5, 5, 0.0002)}, {Path: line(1, 1, 1.0001, 1)}, {Path: line(1, 1, 2, 1)}}},
	}}
	f, err := readSVG(SVG(job, SVGOptions{}))
	require.NoError(t, err)
	require.Len(t, f.Groups, 1)
	assert.Len(t, f.Groups[0].Paths, 1)
}

func TestSVGScaleCheckIsLastAndSaysSo(t *testing.T) {
	f, err := readSVG(SVG(smallJob(), SVGOptions{ScaleCheck: 50}))
	require.NoError(t, err)
	last := f.Groups[len(f.Groups)-1]
	assert.Equal(t, "scale-check", last.ID)
	assert.Contains(t, last.Title, "do not cut")
	assert.InDelta(t, 200, pathLength(last.Paths[0]), 1e-9)
}

func TestSVGIdsAreUnique(t *testing.T) {
	job := smallJob()
	job.Operations = append(job.Operations, job.Operations[0], job.Operations[0])
	f, err := readSVG(SVG(job, SVGOptions{RepeatPasses: true}))
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, g := range f.Groups {
		assert.False(t, seen[g.ID], g.ID)
		assert.Regexp(t, `^[a-z][a-z0-9-]*$`, g.ID)
		seen[g.ID] = true
	}
}

// The picture another program makes of the file must have the outline's extents.
func TestSVGExtentsInAPicture(t *testing.T) {
	const perMM = 10 // pixels
	img := rasterise(t, "rsvg-convert", SVG(smallJob(), SVGOptions{}), "--zoom="+zoomFor(perMM), "--background-color=white")
	b := inkBox(img)
	// Scores run from y 5 to 75, the mark starts at x 8 and the outline ends at 110,
	// each widened by half the stroke.
	assert.InDelta(t, 8-svgStroke/2, float64(b.Min.X)/perMM, 0.1)
	assert.InDelta(t, 110+svgStroke/2, float64(b.Max.X)/perMM, 0.1)
	assert.InDelta(t, 5, float64(b.Min.Y)/perMM, 0.1)
	assert.InDelta(t, 75, float64(b.Max.Y)/perMM, 0.1)
	assert.InDelta(t, 120*perMM, img.Bounds().Dx(), 1)
	assert.InDelta(t, 80*perMM, img.Bounds().Dy(), 1)
}

func FuzzSVGNames(f *testing.F) {
	for _, n := range hostileNames() {
		f.Add(n)
	}
	f.Fuzz(func(t *testing.T, name string) {
		job := smallJob()
		job.Title, job.Operations[0].Name, job.Operations[0].Colour = name, name, name
		a := SVG(job, SVGOptions{})
		if !bytes.Equal(a, SVG(job, SVGOptions{})) {
			t.Fatal("not deterministic")
		}
		if file, err := readSVG(a); err != nil || len(file.Groups) != 4 {
			t.Fatalf("%q: %v", name, err)
		}
	})
}

// An arc of a radius beyond any coordinate, as a fit may come to, is written as a cubic.
func TestAnArcFlatterThanAnyRadius(t *testing.T) {
	a, b := plane.Pt(100, 50), plane.Pt(105, 250)
	arc := plane.BulgeSeg(a, b, 4e-5)
	job := cut.Job{Title: "flat", Sheet: 1, Sheets: 1, Width: 600, Height: 400, Operations: []cut.Operation{{
		Kind: cut.Outer, Name: "cut", Colour: "#CC79A7",
		Strokes: []cut.Stroke{{Part: "a", Path: plane.Path{Segs: []plane.Segment{arc}}}},
	}}}
	assert.Contains(t, string(SVG(job, SVGOptions{})), "M 100 350 C 101.")
}
