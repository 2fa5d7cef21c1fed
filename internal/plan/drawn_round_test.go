package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/offset"
	"springrib/internal/plane"
)

// wrapped is a design that goes round a line, in thin birch that bends at these sizes.
func wrapped(line string, edit func(*design.Curve)) design.Document {
	d := lined(line, func(c *design.Curve) {
		c.Kind, c.Trim = "drawn-round", "2"
		if edit != nil {
			edit(c)
		}
	})
	d.Panel.Length, d.Panel.Width = "", "60"
	return d
}

// closedBox is the outline of a rounded box from the middle of its bottom side.
func closedBox(w, h, r float64, left bool) plane.Path {
	heading := math.Pi
	if left {
		heading = 0
	}
	c := curve.Chain(plane.Point{}, heading, curve.RoundedBox(w, h, r, left)...)
	segs, _ := c.Segments(0, c.Length())
	return plane.Path{Segs: segs, Closed: true}
}

// bean is a closed line of tangent arcs about an upright axis: a straight, an end of radius
// 80 that turns half round and by dent more, and an inlet of radius r that turns by dent
// back. It closes where the straight is half (80 + r) sin dent long.
func bean(r, dent float64) (line plane.Path, neck float64) {
	const end = 80
	l := (end + r) * math.Sin(dent)
	half := []curve.Piece{{Length: l}, {Length: end * (math.Pi + dent), Kappa: -1.0 / end}, {Length: 2 * r * dent, Kappa: 1 / r}, {Length: end * (math.Pi + dent), Kappa: -1.0 / end}, {Length: l}}
	c := curve.Chain(plane.Point{}, math.Pi, half...)
	segs, _ := c.Segments(0, c.Length())
	return plane.Path{Segs: segs, Closed: true}, 2 * (l - end)
}

// A box and an oval drawn elsewhere, either way round, mirrored or turned, come to what
// the same shapes come to when typed: the seam lies in a long side by itself.
func TestDrawnRoundIsAsTyped(t *testing.T) {
	box := wrapped("M 0 0", nil)
	box.Curve.Kind, box.Curve.BoxWidth, box.Curve.BoxHeight, box.Curve.Corner = "box", "300", "200", "90"
	typed := made(t, box)
	require.True(t, typed.Drawn, "%+v", typed.Findings)
	path := closedBox(300, 200, 90, false)
	for name, d := range map[string]design.Document{
		"right round": wrapped(path.String(), nil),
		"left round":  wrapped(closedBox(300, 200, 90, true).String(), nil),
		"mirrored":    wrapped(path.String(), func(c *design.Curve) { c.DrawnMirror = true }),
		"turned":      wrapped(path.Apply(plane.Rotate(-1)).String(), func(c *design.Curve) { c.DrawnTurn = "57.29577951308232" }),
		"scaled":      wrapped(path.Apply(plane.Scale(.2, .2)).String(), func(c *design.Curve) { c.DrawnLength = f(path.Length()) }),
		"begun aside": wrapped(path.Begin(333).String(), nil),
		"seam typed":  wrapped(path.Begin(path.Length()-60).String(), func(c *design.Curve) { c.DrawnSeam = "60" }),
	} {
		p := made(t, d)
		require.True(t, p.Drawn, "%s: %+v", name, p.Findings)
		require.True(t, p.Section.Closed && p.Section.PanelLeft, name)
		assert.InDelta(t, typed.Scores.Layout.Length, p.Scores.Layout.Length, 2e-3, name)
		require.Equal(t, len(typed.Scores.Layout.Folds), len(p.Scores.Layout.Folds), name)
		for i, x := range typed.Scores.Layout.Folds {
			assert.InDelta(t, x.U, p.Scores.Layout.Folds[i].U, 2e-3, "%s fold %d", name, i)
			assert.InDelta(t, x.Theta, p.Scores.Layout.Folds[i].Theta, 1e-6, name)
		}
		assert.InDelta(t, typed.Outline.Length, p.Outline.Length, 2e-3, name)
		assert.InDelta(t, typed.Ribs.Kinds[0].Outline.Area(), p.Ribs.Kinds[0].Outline.Area(), 1, name)
		assert.InDelta(t, typed.Proof.Fit.Most, p.Proof.Fit.Most, 1e-3, name)
	}
	oval := box
	oval.Curve.Kind, oval.Curve.BoxWidth, oval.Curve.BoxHeight = "oval", "320", "240"
	round := made(t, oval)
	// As a drawing program writes it: four cubics, here from 20 degrees on, with the usual
	// 0.5523 (within 3e-4 of the radius; M. Goldapp, Approximation of circular arcs by cubic
	// polynomials, CAGD 8, 1991).
	line := plane.Path{Closed: true}
	for i := range 4 {
		at := func(i int) (p, d plane.Point) {
			s, c := math.Sincos(20*math.Pi/180 + float64(i%4)*math.Pi/2)
			return plane.Pt(160*c, 120*s), plane.Pt(-160*s, 120*c).Mul(0.5522847498)
		}
		p, d := at(i)
		q, e := at(i + 1)
		line.Segs = append(line.Segs, plane.CubicSeg(p, p.Add(d), q.Sub(e), q))
	}
	p := made(t, wrapped(line.String(), nil))
	require.True(t, p.Drawn, "%+v", p.Findings)
	assert.InEpsilon(t, round.Scores.Layout.Length, p.Scores.Layout.Length, 3e-4)
	// It bends least where the long sides have their middles.
	assert.InDelta(t, 120, math.Abs(p.Section.Edge.At(0).P.Y), 0.5)
}

// A line that bends in as well as out is wrapped as well: refolded from the places in the
// file the panel meets its edge all round and its ends meet each other.
func TestDrawnRoundBendsInAndOut(t *testing.T) {
	line, _ := bean(150, 40*math.Pi/180)
	require.Less(t, line.Start().Dist(line.End()), 1e-9)
	p := made(t, wrapped(line.String(), nil))
	require.True(t, p.Drawn, "%+v", p.Findings)
	in, out := 0, 0
	for _, st := range p.Section.Edge.Stretches() {
		switch st.Sign {
		case 1:
			in++
		case -1:
			out++
		}
	}
	assert.Positive(t, in, "it has an inlet")
	assert.Positive(t, out)
	assert.InDelta(t, -2*math.Pi, p.Section.Edge.Turning(), 1e-3, "once round to the right")
	assert.Less(t, p.Proof.Fit.EndMiss, 0.05)
	// Within a hundredth of a millimetre of the edge, but for the flats' own height.
	assert.Greater(t, p.Proof.Fit.Least, -0.03)
	assert.Less(t, p.Proof.Fit.Most, 1.2*p.V.Panel.StandOff+0.05)
	assert.Empty(t, offset.Crossings(p.Ribs.Kinds[0].Outline.Paths()...))
	assert.InDelta(t, line.Length(), p.Section.Edge.Length(), 0.5)
	// The seam lies where it was typed, whichever way the line was drawn.
	for _, way := range []plane.Path{line, line.Reverse()} {
		q := made(t, wrapped(way.String(), func(c *design.Curve) { c.DrawnSeam = "123" }))
		want, _ := way.At(123)
		assert.Less(t, q.Section.Edge.At(0).P.Dist(want), 0.01)
	}
}

func TestDrawnRoundThatCantBeUsed(t *testing.T) {
	box := closedBox(300, 200, 90, false)
	for name, c := range map[string]struct {
		line, id string
		edit     func(*design.Curve)
	}{
		"open":       {arc200().String(), "curve-open", nil},
		"eight":      {"M 0 0 L 300 300 L 300 0 L 0 300 Z", "curve-crosses", nil},
		"corner":     {"M 0 0 L 300 0 L 300 200 L 0 200 Z", "curve-kinked", nil},
		"at corner":  {"M 0 0 L 300 0 A 60 0 0 180 60 Z", "curve-kinked", func(c *design.Curve) { c.DrawnSeam = "0" }},
		"small":      {box.Apply(plane.Scale(1e-3, 1e-3)).String(), "drawn-size", nil},
		"unreadable": {"M 0 0", "drawn-unreadable", nil},
	} {
		if name == "at corner" {
			c.line = "M 0 0 L 300 0 L 150 200 Z"
		}
		got := stopOf(t, wrapped(c.line, c.edit))
		assert.Equal(t, c.id, got.ID, name)
	}
	// Remedies lead from the one kind to the other.
	open := stopOf(t, wrapped(arc200().String(), nil))
	require.Len(t, open.Remedies, 1)
	assert.Equal(t, "drawn", open.Remedies[0].Set["curve.kind"])
	shut := stopOf(t, lined(box.String(), nil))
	assert.Equal(t, "curve-closed", shut.ID)
	assert.Equal(t, "drawn-round", shut.Remedies[0].Set["curve.kind"])
	outside := wrapped(box.String(), nil)
	outside.Rib.Side = "round"
	assert.Equal(t, "rib-outside", stopOf(t, outside).ID)
}

// An inlet whose neck is narrower than two sheets leaves the panel no room.
func TestDrawnRoundNarrowInlet(t *testing.T) {
	for _, dent := range []float64{115, 128} {
		line, neck := bean(25, dent*math.Pi/180)
		d := wrapped(line.String(), nil)
		v, _ := design.Read(d)
		p := Make(v)
		require.Greater(t, neck, 0.0)
		assert.Equal(t, neck < 2*v.Sheet.T, has(p, "curve-crosses"), "a neck of %.1f mm, a sheet of %.1f: %+v", neck, v.Sheet.T, p.Findings)
		for _, r := range p.Ribs.Kinds {
			assert.Empty(t, offset.Crossings(r.Outline.Paths()...), "a hole that runs into itself is left out")
		}
	}
}

// FuzzDrawnRound: whatever line a design says it wraps, it is wrapped or refused in words.
func FuzzDrawnRound(f *testing.F) {
	f.Add("M 0 0 L 300 0 L 300 200 Z", 10.0, false)
	f.Add(closedBox(300, 200, 90, false).String(), 60.0, true)
	f.Add("M 0 0 B 1 300 0 B 1 0 0 Z", 0.0, false)
	f.Add("M 0 0 C 100 0 300 100 300 200 C 300 300 -100 300 0 0 Z", 1e9, true)
	f.Add("M 0 0 L 1e300 0 L 0 1e-300 Z", -1.0, true)
	oval, _ := bean(150, 0.7)
	f.Add(oval.String(), 333.0, false)
	d := wrapped("M 0 0", nil)
	v, _ := design.Read(d)
	f.Fuzz(func(t *testing.T, line string, seam float64, mirror bool) {
		if len(line) > 2000 || math.IsNaN(seam) || seam < 0 || seam > 50000 {
			return
		}
		w := v
		w.Curve.Drawn.Line, w.Curve.Drawn.Mirror = line, mirror
		w.Curve.Drawn.Seam = design.Opt{V: seam, OK: seam > 0}
		p := Plan{V: w}
		if !p.Run(StageLine, StageSection) {
			if len(p.Findings) == 0 {
				t.Fatalf("%q is refused without a word", line)
			}
			return
		}
		if turn := p.Section.Edge.Turning(); math.Abs(turn+2*math.Pi) > 0.02 {
			t.Fatalf("%q turns by %v in all, not once round to the right", line, turn)
		}
		if gap := p.Section.Edge.At(0).P.Dist(p.Section.Edge.At(p.Section.Edge.Length()).P); gap > 0.05 {
			t.Fatalf("%q leaves %v mm at the seam", line, gap)
		}
	})
}
