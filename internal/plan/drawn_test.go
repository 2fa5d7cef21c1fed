package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/fit"
	"springrib/internal/plane"
)

// drawnDesign is the arch with an outline drawn elsewhere, about 200 long.
func drawnDesign(outline string, edit func(p *design.Panel)) design.Document {
	return shaped("drawn", func(p *design.Panel) {
		p.Drawn = design.Drawing{Source: "tray.svg", Outline: outline}
		if edit != nil {
			edit(p)
		}
	})
}

func made(t *testing.T, d design.Document) Plan {
	t.Helper()
	v, found := design.Read(d)
	require.Empty(t, found)
	p := Make(v)
	mend(&p)
	return p
}

func stopOf(t *testing.T, d design.Document) finding.Finding {
	t.Helper()
	p := made(t, d)
	require.False(t, p.Drawn)
	require.NotEmpty(t, p.Findings)
	last := p.Findings[len(p.Findings)-1]
	require.Equal(t, finding.Stop, last.Severity)
	return last
}

// An outline drawn elsewhere comes to what the same outline comes to when typed,
// wherever in its file it lay.
func TestDrawnIsAsTyped(t *testing.T) {
	for _, view := range []string{design.FlatView, design.SeenView} {
		typed := made(t, shaped("rectangle", func(p *design.Panel) {
			p.Length, p.Width, p.View, p.Along, p.Across = "180", "90", view, "15", "-7"
			p.Holes = []design.Hole{{Kind: "slot", Along: "60", Across: "10", Width: "20", Length: "60", Turn: "0"}}
		}))
		drawn := made(t, drawnDesign("M 1000 -300 L 1180 -300 L 1180 -210 L 1000 -210 Z", func(p *design.Panel) {
			p.Drawn.Holes = []string{"M 1040 -255 L 1080 -255 A 10 0 1 1080 -235 L 1040 -235 A 10 0 1 1040 -255 Z"}
			p.View, p.Along, p.Across = view, "15", "-7"
		}))
		require.True(t, typed.Drawn && drawn.Drawn)
		assert.InDelta(t, typed.Outline.Region.Area(), drawn.Outline.Region.Area(), 0.5)
		assert.InDelta(t, typed.Outline.From, drawn.Outline.From, 1e-6)
		assert.InDelta(t, typed.Outline.To, drawn.Outline.To, 1e-3)
		require.Len(t, drawn.Panel.Flat.Segments, len(typed.Panel.Flat.Segments))
		for i, s := range typed.Panel.Flat.Segments {
			assert.InDelta(t, 0, s.A.Dist(drawn.Panel.Flat.Segments[i].A), 0.02, "%s score %d", view, s.Score)
			assert.InDelta(t, 0, s.B.Dist(drawn.Panel.Flat.Segments[i].B), 0.02, "%s score %d", view, s.Score)
		}
	}
}

// However a drawing lies in its file, what says how it is laid puts it back.
func TestDrawnIsLaidAsAsked(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	base := plane.MustParse("M 0 0 L 170 -20 A 40 0 1 170 60 C 120 70 60 20 10 45 Z")
	want := made(t, drawnDesign(base.String(), nil)).Outline.Region
	require.Greater(t, want.Area(), 1000.0)
	for range 40 {
		turn := rng.Float64()*2*math.Pi - math.Pi
		k := 0.2 + 3*rng.Float64()
		mirror := rng.IntN(2) == 1
		m := plane.Rotate(-turn)
		if mirror { // undone by mirroring before the turn
			m = plane.Scale(-1, 1).Mul(m)
		}
		m = plane.Translate(rng.Float64()*500, rng.Float64()*500).Mul(plane.Scale(1/k, 1/k)).Mul(m)
		got := made(t, drawnDesign(base.Apply(m).String(), func(p *design.Panel) {
			p.DrawnLength = fmt.Sprintf("%.9f mm", base.Box().W())
			p.DrawnTurn = fmt.Sprintf("%.9f deg", turn*180/math.Pi)
			p.DrawnMirror = mirror
		}))
		require.True(t, got.Drawn)
		assert.InDelta(t, want.Area(), got.Outline.Region.Area(), 1e-3)
		_, far := fit.Deviation(want.Outer, got.Outline.Region.Outer, 1e-4)
		assert.Less(t, far, 3e-4)
		assert.True(t, got.Outline.Region.Outer.IsCCW())
	}
}

// Scores stop at the holes of a drawing, and its marks are drawn on the panel.
func TestDrawnHolesAndMarksAreWorked(t *testing.T) {
	d := drawnDesign("M 0 0 L 200 0 L 200 90 L 0 90 Z", func(p *design.Panel) {
		p.Drawn.Holes = []string{"M 80 30 L 120 30 L 120 60 L 80 60 Z"}
		p.Drawn.Marks = []string{"M 20 20 L 40 25", "M 150 20 L 160 20 L 155 30 Z"}
		p.Holes = []design.Hole{{Along: "150", Across: "20", Width: "12"}}
	})
	p := made(t, d)
	require.True(t, p.Drawn)
	assert.Equal(t, 1, p.Size.DrawnHoles())
	assert.Equal(t, "panel.drawn", p.Size.HoleField(&p.V.Panel, 0, "across"))
	assert.Equal(t, "panel.holes.0.across", p.Size.HoleField(&p.V.Panel, 1, "across"))
	twice := 0
	for _, s := range p.Panel.Flat.Segments {
		mid := s.A.Lerp(s.B, 0.5)
		assert.True(t, p.Panel.Flat.Outline.Contains(mid), "a score in the material")
		if s.A.X > 81 && s.A.X < 119 {
			twice++
			assert.InDelta(t, 30, s.Len(), 1e-6)
		}
	}
	assert.Greater(t, twice, 10)
	kinds := map[cut.Kind]int{}
	for _, w := range p.Panel.Flat.Work {
		kinds[w.Kind]++
	}
	assert.Equal(t, 2, kinds[cut.Inner])
	assert.Equal(t, 3, kinds[cut.Mark], "two of the drawing, one of the rib")
	assert.Empty(t, byID(p.Findings, "mark-outside"))

	d.Panel.Drawn.Marks = append(d.Panel.Drawn.Marks, "M 190 10 L 230 10", "M 90 40 L 95 50")
	off := byID(made(t, d).Findings, "mark-outside")
	require.Len(t, off, 1)
	assert.Equal(t, 2.0, off[0].Numbers["count"], "one past the edge, one in the hole")
}

func byID(found []finding.Finding, id string) []finding.Finding {
	var out []finding.Finding
	for _, f := range found {
		if f.ID == id {
			out = append(out, f)
		}
	}
	return out
}

// What keeps a drawing from being cut as one piece is told with its place.
func TestDrawnFaultsHaveAPlace(t *testing.T) {
	whole := "M 0 0 L 200 0 L 200 90 L 0 90 Z"
	for _, c := range []struct {
		outline, holes, id string
		along, across      float64
	}{
		{"M 0 0 L 200 90 L 200 0 L 0 90 Z", "", "outline-crosses", 100, 0},
		{"M 0 0 L 100 40 L 200 0 L 200 90 L 100 40 L 0 90 Z", "", "outline-splits", 100, -5},
		{"M 0 0 L 200 0 L 200 90 Z", "M 20 60 L 20 80 L 40 80 Z", "hole-outside", math.NaN(), 0},
		{whole, "M 180 20 L 220 20 L 220 40 L 180 40 Z", "hole-at-edge", 200, math.NaN()},
		{whole, "M 20 20 L 60 20 L 60 60 L 20 60 Z|M 50 30 L 80 30 L 80 40 L 50 40 Z", "holes-meet", 60, math.NaN()},
	} {
		f := stopOf(t, drawnDesign(c.outline, func(p *design.Panel) {
			if c.holes != "" {
				p.Drawn.Holes = strings.Split(c.holes, "|")
			}
		}))
		assert.Equal(t, c.id, f.ID, c.outline)
		assert.Equal(t, "panel.drawn", f.Place.Field)
		if !math.IsNaN(c.along) {
			assert.InDelta(t, c.along, f.Numbers["along"], 0.1, c.id)
		}
		if !math.IsNaN(c.across) && c.id != "hole-outside" {
			assert.InDelta(t, c.across, f.Numbers["across"], 0.1, c.id)
		}
	}
	near := made(t, drawnDesign(whole, func(p *design.Panel) { p.Drawn.Holes = []string{"M 20 1 L 60 1 L 60 40 Z"} }))
	require.True(t, near.Drawn)
	f := byID(near.Findings, "hole-near")
	require.Len(t, f, 1)
	assert.Equal(t, "panel.drawn", f[0].Place.Field)
	assert.InDelta(t, 1, f[0].Numbers["left"], 1e-6)
}

func TestDrawnThatCantBeUsed(t *testing.T) {
	for text, id := range map[string]string{
		"M 0 0 L 9 9": "drawn-unreadable", "rubbish": "drawn-unreadable", "M 0 0 L 1e9 0 L 1e9 1e9 Z": "drawn-unreadable",
		"M 0 0 L 0.5 0 L 0.5 0.5 Z": "drawn-size", "M 0 0 L 60000 0 L 60000 90 Z": "drawn-size",
	} {
		if id == "drawn-unreadable" && strings.Contains(text, "1e9") {
			id = "drawn-size"
		}
		assert.Equal(t, id, stopOf(t, drawnDesign(text, nil)).ID, text)
	}
	f := stopOf(t, drawnDesign("M 0 0 L 200 0 L 200 90 Z", func(p *design.Panel) { p.Drawn.Holes = []string{"M 0 0 L"} }))
	assert.Equal(t, "drawn-unreadable", f.ID)
	f = stopOf(t, drawnDesign("M 0 0 L 200 0 L 200 90 Z", func(p *design.Panel) { p.Drawn.Marks = []string{"?"} }))
	assert.Equal(t, "panel.drawn", f.Place.Field)
}

// lined is the arch with its curve drawn elsewhere.
func lined(line string, edit func(c *design.Curve)) design.Document {
	d := archDesign()
	d.Curve.Kind, d.Curve.Drawn = "drawn", design.Drawing{Source: "side.dxf", Line: line}
	if edit != nil {
		edit(&d.Curve)
	}
	return d
}

// arc200 is an arc of 60 degrees over radius 200, as the arch's own.
func arc200() plane.Path {
	return plane.Chain(false, plane.ArcSeg(plane.Pt(30, 70), 200, 2*math.Pi/3, math.Pi/3))
}

// A line drawn elsewhere comes to what the same curve comes to when typed; so does its
// mirror image, and the line from its other end or at another size, once told so.
func TestDrawnLineIsAsTyped(t *testing.T) {
	typed := made(t, archDesign())
	small := arc200().Apply(plane.Scale(0.25, 0.25))
	for name, d := range map[string]design.Document{
		"as it is": lined(arc200().String(), nil),
		"mirrored": lined(arc200().Apply(plane.Scale(-1, 1)).String(), func(c *design.Curve) { c.DrawnMirror = true }),
		"turned":   lined(arc200().Apply(plane.Rotate(-1)).String(), func(c *design.Curve) { c.DrawnTurn = "57.29577951308232" }),
		"back":     lined(arc200().Reverse().String(), func(c *design.Curve) { c.DrawnBack = true }),
		"scaled":   lined(small.String(), func(c *design.Curve) { c.DrawnLength = fmt.Sprintf("%.9f", 200*math.Pi/3) }),
		"left":     lined(arc200().Apply(plane.Scale(1, -1)).String(), nil),
	} {
		p := made(t, d)
		require.True(t, p.Drawn, name)
		assert.InDelta(t, typed.Scores.Layout.Length, p.Scores.Layout.Length, 1e-6, name)
		require.Len(t, p.Scores.Layout.Folds, len(typed.Scores.Layout.Folds), name)
		for i, f := range typed.Scores.Layout.Folds {
			assert.InDelta(t, f.U, p.Scores.Layout.Folds[i].U, 1e-6, name)
			assert.InDelta(t, math.Abs(f.Theta), math.Abs(p.Scores.Layout.Folds[i].Theta), 1e-9, name)
		}
		assert.InDelta(t, typed.Ribs.Rib.Outline.Area(), p.Ribs.Rib.Outline.Area(), 0.5, name)
	}
}

func TestDrawnLineThatCantBeUsed(t *testing.T) {
	for text, id := range map[string]string{
		"M 0 0": "drawn-unreadable", "M 0 0 L 300 0": "curve-straight", "M 0 0 L 300 0 L 300 200 Z": "curve-closed",
		"M 0 0 L 200 0 L 200 200": "curve-kinked", "M 0 0 B 0.2 1 0": "drawn-size",
		"M 0 0 L 300 0 A 60 1 1 240 60 L 240 -300": "curve-crosses",
	} {
		f := stopOf(t, lined(text, nil))
		assert.Equal(t, id, f.ID, text)
		assert.True(t, strings.HasPrefix(f.Place.Field, "curve.drawn"), f.Place.Field)
	}
}

// An outline from inside a frame was turned as if it were a hole, and its holes as if they
// were outlines: whichever way round they run, the panel is the same.
func TestDrawnEitherWayRound(t *testing.T) {
	outline, hole := plane.RectPath(plane.Box{Max: plane.Pt(180, 90)}), plane.CirclePath(plane.Pt(60, 45), 10)
	want := made(t, drawnDesign(outline.String(), func(p *design.Panel) { p.Drawn.Holes = []string{hole.Reverse().String()} }))
	got := made(t, drawnDesign(outline.Reverse().String(), func(p *design.Panel) { p.Drawn.Holes = []string{hole.String()} }))
	require.True(t, want.Drawn && got.Drawn)
	for _, p := range []Plan{want, got} {
		assert.InDelta(t, 180*90, p.Panel.Flat.Outline.Outer.Area(), 1)
		require.Len(t, p.Panel.Flat.Outline.Holes, 1)
		assert.InDelta(t, -math.Pi*100, p.Panel.Flat.Outline.Holes[0].Area(), 0.5)
	}
}
