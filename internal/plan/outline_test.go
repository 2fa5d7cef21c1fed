package plan

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/plane"
)

// archDesign is an arc of 60 degrees over radius 200 with straight ends of 20, 3 mm MDF.
func archDesign() design.Document {
	d := design.Empty()
	d.Name = "Arch"
	d.Curve.Radius, d.Curve.Angle = "200", "60"
	d.Curve.Foot, d.Curve.Tip = "20", "20"
	d.Panel.Width = "120"
	d.Rib.FootDepth, d.Rib.TipDepth = "30", "20"
	return d
}

func shaped(shape string, edit func(p *design.Panel)) design.Document {
	d := archDesign()
	d.Panel.Shape = shape
	if edit != nil {
		edit(&d.Panel)
	}
	return d
}

func cornerRows(rows ...[3]string) []design.Corner {
	var out []design.Corner
	for _, r := range rows {
		out = append(out, design.Corner{Along: r[0], Across: r[1], Radius: r[2]})
	}
	return out
}

// Areas by the formulas of any table: what is cut is what was asked for.
func TestShapes(t *testing.T) {
	lens := func(l, w float64) float64 {
		r := (l*l + w*w) / (4 * w)
		a := 4 * math.Atan(w/l)
		return r * r * (a - math.Sin(a))
	}
	for _, c := range []struct {
		name string
		doc  design.Document
		area func(l float64) float64
	}{
		{"rectangle", shaped("rectangle", nil), func(l float64) float64 { return l * 120 }},
		{"rounded rectangle", shaped("rectangle", func(p *design.Panel) { p.CornerRadius = "30" }), func(l float64) float64 { return l*120 - (4-math.Pi)*900 }},
		{"ellipse", shaped("ellipse", nil), func(l float64) float64 { return math.Pi / 4 * l * 120 }},
		{"lens", shaped("lens", nil), func(l float64) float64 { return lens(l, 120) }},
		{"sector", shaped("sector", func(p *design.Panel) { p.InnerRadius, p.SectorAngle, p.Length = "50", "40", "150" }), func(float64) float64 {
			return 40 * math.Pi / 180 / 2 * (200*200 - 50*50)
		}},
		{"polygon", shaped("polygon", func(p *design.Panel) {
			p.Corners = cornerRows([3]string{"0", "-40", ""}, [3]string{"200", "-60", ""}, [3]string{"230", "0", "10"}, [3]string{"200", "60", ""}, [3]string{"0", "40", ""})
		}), nil},
		{"ellipse with holes", shaped("ellipse", func(p *design.Panel) {
			p.Holes = []design.Hole{{Along: "80", Width: "30"}, {Kind: "slot", Along: "150", Across: "20", Width: "8", Length: "40", Turn: "30"}}
		}), func(l float64) float64 { return math.Pi/4*l*120 - math.Pi*225 - (32*8 + math.Pi*16) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := must(t, c.doc)
			require.True(t, p.Drawn, "%+v", p.Findings)
			if c.area != nil {
				assert.InDelta(t, c.area(p.Scores.Layout.Length), p.Outline.Region.Area(), 4, "0.01 mm all round")
			}
			if c.name != "sector" && c.name != "polygon" {
				assert.InDelta(t, 0, p.Outline.From, 0.011)
				assert.InDelta(t, p.Scores.Layout.Length, p.Outline.To, 0.011)
			}
			for _, s := range p.Panel.Flat.Segments {
				for f := 0.01; f < 1; f += 0.07 {
					require.True(t, p.Panel.Flat.Outline.Contains(s.A.Lerp(s.B, f)))
				}
			}
		})
	}
}

// An outline that starts after the foot and ends before the tip: the scores it does not
// reach are left out, rib and mark run between its own ends.
func TestAnOutlineWithinTheCurve(t *testing.T) {
	d := shaped("ellipse", func(p *design.Panel) { p.Length, p.Along, p.Across = "150", "60", "10" })
	d.Rib.Places = []design.RibPlace{{Across: "10"}}
	p := must(t, d)
	require.True(t, p.Drawn, "%+v", p.Findings)
	assert.InDelta(t, 60, p.Outline.From, 0.011)
	assert.InDelta(t, 210, p.Outline.To, 0.011)
	assert.Greater(t, len(p.Panel.Flat.Outside), 4)
	assert.Equal(t, len(p.Scores.Layout.Folds), p.ScoresCut()+len(p.Panel.Flat.Outside))
	// A strip as wide as the rib lies on the ellipse where its corners do.
	half := 75 - 75*math.Sqrt(1-math.Pow(1.5/60, 2))
	assert.InDelta(t, 60+half, p.Supports.Mark.From+p.V.Rib.MarkStart, 0.02)
	assert.InDelta(t, 60+half, p.Place(p.Ribs.Task.Start), 0.02)
	assert.Less(t, p.Place(p.Ribs.Task.End), 210.0)
	assert.InDelta(t, 10, p.Supports.Mark.Across, 0)
	assert.Greater(t, p.Supports.TipEnd.Bent, 0.0, "it ends within the bend")
}

// Bad outlines stop at their place, and what is offered mends them.
func TestBadOutlines(t *testing.T) {
	box := cornerRows([3]string{"0", "-50", ""}, [3]string{"200", "-50", ""}, [3]string{"200", "50", ""}, [3]string{"0", "50", ""})
	with := func(h ...design.Hole) func(p *design.Panel) {
		return func(p *design.Panel) { p.Corners, p.Holes = box, h }
	}
	for _, c := range []struct {
		id, field string
		doc       design.Document
	}{
		{"outline-crosses", "panel.corners.2.along", shaped("polygon", func(p *design.Panel) {
			p.Corners = cornerRows([3]string{"0", "-50", ""}, [3]string{"200", "50", ""}, [3]string{"100", "0", ""}, [3]string{"200", "-50", ""}, [3]string{"0", "50", ""})
		})},
		{"outline-splits", "panel.corners.1.along", shaped("polygon", func(p *design.Panel) {
			p.Corners = cornerRows([3]string{"0", "-50", ""}, [3]string{"200", "-50", ""}, [3]string{"100", "-50", ""}, [3]string{"200", "50", ""}, [3]string{"0", "50", ""})
		})},
		{"radius-no-room", "panel.corners.1.radius", shaped("polygon", func(p *design.Panel) {
			p.Corners = cornerRows([3]string{"0", "-50", "20"}, [3]string{"200", "-50", "95"}, [3]string{"200", "50", "40"}, [3]string{"0", "50", ""})
		})},
		{"radius-no-room", "panel.cornerRadius", shaped("rectangle", func(p *design.Panel) { p.CornerRadius = "61" })},
		{"radius-no-room", "panel.tipRadius", shaped("lens", func(p *design.Panel) { p.TipRadius = "60" })},
		{"radius-no-room", "panel.width", shaped("lens", func(p *design.Panel) { p.Width = "400" })},
		{"hole-outside", "panel.holes.0.along", shaped("polygon", with(design.Hole{Along: "300", Width: "10"}))},
		{"hole-at-edge", "panel.holes.1.along", shaped("polygon", with(design.Hole{}, design.Hole{Along: "198", Width: "10"}))},
		{"holes-meet", "panel.holes.1.along", shaped("polygon", with(design.Hole{Along: "100", Width: "10"}, design.Hole{Along: "105", Width: "10"}))},
		{"outline-off-curve", "panel.along", shaped("polygon", func(p *design.Panel) { p.Corners, p.Along = box, "300" })},
		{"outline-off-curve", "panel.along", shaped("ellipse", func(p *design.Panel) { p.Along = "300" })},
		{"outline-off-curve", "panel.along", shaped("ellipse", func(p *design.Panel) { p.Length, p.Along = "50", "-60" })},
		{"outline-unseen", "panel.view", func() design.Document {
			d := shaped("ellipse", func(p *design.Panel) { p.View = "seen" })
			d.Curve.Angle = "200"
			return d
		}()},
		{"rib-off-panel", "rib.places.0.across", func() design.Document {
			d := shaped("ellipse", nil)
			d.Rib.Places = []design.RibPlace{{Across: "70"}}
			return d
		}()},
	} {
		t.Run(c.id+" "+c.field, func(t *testing.T) {
			p := must(t, c.doc)
			require.False(t, p.Drawn)
			require.NotEmpty(t, p.Findings)
			f := p.Findings[len(p.Findings)-1]
			assert.Equal(t, finding.Stop, f.Severity)
			assert.Equal(t, c.id, f.ID, f.Text)
			assert.Equal(t, c.field, f.Place.Field, f.Text)
			for _, rem := range f.Remedies {
				doc, ok := c.doc, true
				for path, text := range rem.Set {
					doc, ok = design.Set(doc, path, text)
					require.True(t, ok, path)
				}
				q := must(t, doc)
				for _, g := range q.Findings {
					assert.NotEqual(t, c.id, g.ID, "%q does not mend %s", rem.Text, f.Text)
				}
			}
		})
	}
}

// A narrow bridge warns and goes on.
func TestNarrowBridge(t *testing.T) {
	p := must(t, shaped("rectangle", func(p *design.Panel) { p.Holes = []design.Hole{{Along: "100", Across: "48.5", Width: "20"}} }))
	require.True(t, p.Drawn)
	require.Len(t, p.Findings, 1)
	assert.Equal(t, "hole-near", p.Findings[0].ID)
	assert.InDelta(t, 1.5, p.Findings[0].Numbers["left"], 0.02)
	require.NotNil(t, p.Findings[0].Place.At)
}

// Several ribs: each holds the width half way to its neighbours; the shares add up to the
// panel's width wherever one cuts it. Those alike are one part.
func TestSeveralRibs(t *testing.T) {
	d := shaped("ellipse", nil)
	d.Rib.Places = []design.RibPlace{{Across: "35"}, {Across: "-35"}, {Across: "0", Stock: "birch-6", Foot: "stub"}}
	p := must(t, d)
	require.True(t, p.Drawn, "%+v", p.Findings)
	require.Len(t, p.Supports.All, 3)
	assert.Equal(t, []float64{-35, 0, 35}, []float64{p.Supports.All[0].Across, p.Supports.All[1].Across, p.Supports.All[2].Across})
	require.Len(t, p.Ribs.Kinds, 2, "the outer two are alike")
	assert.Equal(t, 2, p.Ribs.Kinds[0].Quantity)
	assert.Equal(t, "rib1", p.Ribs.Kinds[0].ID)
	assert.Equal(t, "birch-6", p.Ribs.Kinds[1].From.Stock.ID)
	assert.Equal(t, 1, p.Supports.Longest, "the middle one is the longest")
	assert.Equal(t, p.Ribs.Rib.ID, "rib2")
	for _, s := range p.Across.S {
		sum := 0.0
		for _, sup := range p.Supports.All {
			sum += sup.Share(s)
		}
		require.InDelta(t, p.Across.Widths(math.Inf(-1), math.Inf(1))(s), sum, 1e-9)
	}
	mid := p.Section.Edge.Length() / 2
	assert.InDelta(t, 35, p.Supports.All[1].Share(mid), 0.5, "from -17.5 to 17.5")
	assert.InDelta(t, 42.5, p.Supports.All[0].Share(mid), 0.5)
	marks := 0
	for _, w := range p.Panel.Flat.Work {
		if w.Kind == cut.Mark {
			marks++
			assert.InDelta(t, p.Supports.All[marks-1].Across, mirrored(p)*w.Path.Start().Y, 1e-9)
		}
	}
	assert.Equal(t, 3, marks)
	assert.Len(t, p.Lay.Sheets, 2, "birch apart from MDF")
	assert.NotNil(t, p.Ribs.Kinds[1].Task.Stub)
	assert.Nil(t, p.Ribs.Kinds[0].Task.Stub)
	d.Panel.Quantity = "4"
	assert.Equal(t, 8, must(t, d).Ribs.Kinds[0].Quantity)
}

// Without places, ribs stand in the middles of equal parts of the width, one in the
// middle; each part of the panel is held by one of them.
func TestRibsByNumber(t *testing.T) {
	d := archDesign()
	one := must(t, d)
	d.Rib.Quantity = "3"
	p := must(t, d)
	require.Len(t, p.Supports.All, 3)
	assert.InDeltaSlice(t, []float64{-40, 0, 40}, []float64{p.Supports.All[0].Across, p.Supports.All[1].Across, p.Supports.All[2].Across}, 1e-9)
	require.Len(t, p.Ribs.Kinds, 1)
	assert.Equal(t, 3, p.Ribs.Kinds[0].Quantity)
	for _, s := range p.Supports.All {
		assert.InDelta(t, 40, s.Share(100), 1e-9)
	}
	assert.InDelta(t, one.Strength.Hold.Moment/3, p.Strength.Hold.Moment, 1e-9)
	assert.InDelta(t, one.Strength.Hold.EndForce, p.Strength.Hold.EndForce, 1e-9, "that is of the whole width")
}

// A hole takes width from the rib that would hold it.
func TestAHoleCarriesNothing(t *testing.T) {
	d := archDesign()
	solid := must(t, d)
	d.Panel.Holes = []design.Hole{{Along: "124", Width: "60"}}
	p := must(t, d)
	mid := p.Section.Edge.Length() / 2
	assert.InDelta(t, 120, solid.Supports.All[0].Share(mid), 1e-9)
	assert.InDelta(t, 60, p.Supports.All[0].Share(mid), 0.5)
	assert.Less(t, p.Strength.Hold.Rib.Movement, solid.Strength.Hold.Rib.Movement)
}

// An outline given as seen, laid onto the flat and put back in its place in space, is
// seen as it was given, within the tolerance of the outline; in few pieces.
func TestSeenOutline(t *testing.T) {
	for _, show := range []string{"round", "hollow"} {
		for _, kind := range []string{"radius-angle", "points"} {
			d := shaped("ellipse", func(p *design.Panel) { p.View, p.ShowFace = "seen", show })
			d.Panel.Holes = []design.Hole{{Along: "100", Across: "10", Width: "30"}}
			if kind == "points" {
				d.Curve.Kind = kind
				d.Curve.Points = []design.Point{{X: "0", Y: "0"}, {X: "100", Y: "40"}, {X: "200", Y: "55"}, {X: "300", Y: "30"}}
			}
			p := must(t, d)
			require.True(t, p.Drawn, "%+v", p.Findings)
			given := p.Given()
			span := given.Length
			assert.InDelta(t, p.Scores.Layout.Length, p.Outline.Length, 0.02, "from end to end")
			assert.LessOrEqual(t, len(p.Outline.Region.Outer.Segs), 16)
			assert.LessOrEqual(t, len(p.Outline.Region.Holes[0].Segs), 8)
			for _, q := range p.Outline.Region.Outer.Flatten(0.001) {
				x := given.Along(q.X)
				// distance to the ellipse, to first order
				a, b := span/2, 60.0
				f := math.Pow((x-a)/a, 2) + math.Pow(q.Y/b, 2) - 1
				g := 2 * math.Hypot((x-a)/(a*a), q.Y/(b*b))
				require.Less(t, math.Abs(f/g), 0.022, "%s %s at %v", show, kind, q)
			}
			for _, q := range p.Outline.Region.Holes[0].Flatten(0.001) {
				x := given.Along(q.X)
				require.InDelta(t, 15, math.Hypot(x-100, q.Y-10), 0.012)
			}
		}
	}
}

// Seen on a flat sheet of a curve there is nothing to develop: lengths along a straight
// stretch stay as they are.
func TestSeenWidthStays(t *testing.T) {
	p := must(t, shaped("polygon", func(p *design.Panel) {
		p.View = "seen"
		p.Corners = cornerRows([3]string{"0", "-50", ""}, [3]string{"220", "-50", "10"}, [3]string{"220", "50", "10"}, [3]string{"0", "50", ""})
	}))
	require.True(t, p.Drawn, "%+v", p.Findings)
	b := p.Outline.Region.Box()
	assert.InDelta(t, 100, b.H(), 1e-6)
	assert.Greater(t, b.W(), 225.0, "the bend is longer than its shadow")
	for _, s := range p.Outline.Region.Outer.Segs[:1] {
		assert.Equal(t, plane.Line, s.Kind, "a side along the bend stays straight")
	}
}

// Turned over about the curve's middle line, or everything larger: the panel likewise.
func TestPanelInvariance(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	for n := 0; n < 40; {
		d := randomOutline(r, randomDesign(r))
		p := must(t, d)
		if !p.Drawn {
			continue
		}
		n++
		m := design.Clone(d)
		neg := func(s *string) {
			if v, err := strconv.ParseFloat(*s, 64); err == nil {
				*s = f6(-v)
			}
		}
		for i := range m.Panel.Corners {
			neg(&m.Panel.Corners[i].Across)
		}
		for i := range m.Panel.Holes {
			neg(&m.Panel.Holes[i].Across)
			neg(&m.Panel.Holes[i].Turn)
		}
		for i := range m.Rib.Places {
			neg(&m.Rib.Places[i].Across)
		}
		neg(&m.Panel.Across)
		q := must(t, m)
		require.True(t, q.Drawn, "%+v", q.Findings)
		require.Equal(t, len(p.Supports.All), len(q.Supports.All))
		sameArea(t, p.Outline.Region, q.Outline.Region)
		for i, s := range p.Supports.All {
			o := q.Supports.All[len(q.Supports.All)-1-i]
			require.InDelta(t, -s.Across, o.Across, 1e-6)
			require.InDelta(t, s.Task.Start, o.Task.Start, 0.25)
			require.InEpsilon(t, 1+s.Hold.Moment, 1+o.Hold.Moment, 5e-3)
		}
	}
}

// larger returns values with every length times k. What is fixed in millimetres, such as
// how short of the tip the glue ends, is typed beforehand.
func larger(v design.Values, k float64) design.Values {
	for _, x := range []*float64{
		&v.Sheet.T, &v.Sheet.TSpread, &v.Machine.Kerf, &v.Machine.ScoreWidth, &v.Machine.DepthSpread, &v.Machine.WidthSpread, &v.Machine.BedWidth, &v.Machine.BedHeight,
		&v.Machine.Speed, &v.Machine.Acceleration, &v.Curve.Radius, &v.Curve.Foot, &v.Curve.Tip, &v.Panel.Width, &v.Panel.FootWidth, &v.Panel.WidestWidth, &v.Panel.TipWidth, &v.Panel.CornerRadius, &v.Panel.FootRadius, &v.Panel.TipRadius,
		&v.Panel.InnerRadius, &v.Panel.Along, &v.Panel.Across, &v.Panel.Length.V, &v.Panel.StandOff, &v.Panel.MinLand, &v.Rib.Short.V, &v.Rib.EndGap, &v.Rib.MarkStart,
		&v.Rib.Thickness, &v.Rib.FootDepth, &v.Rib.TipDepth, &v.Rib.TipRound, &v.Cut.Gap, &v.Cut.Margin,
	} {
		*x *= k
	}
	depths := append([]float64{}, v.Machine.Depths...)
	for i := range depths {
		depths[i] *= k
	}
	v.Machine.Depths = depths
	cs := append([]design.CornerValues{}, v.Panel.Corners...)
	for i := range cs {
		cs[i].Along, cs[i].Across, cs[i].Radius = cs[i].Along*k, cs[i].Across*k, cs[i].Radius*k
	}
	hs := append([]design.HoleValues{}, v.Panel.Holes...)
	for i := range hs {
		hs[i].Along, hs[i].Across, hs[i].Width, hs[i].Length = hs[i].Along*k, hs[i].Across*k, hs[i].Width*k, hs[i].Length*k
	}
	ps := append([]design.RibPlaceValues{}, v.Rib.Places...)
	for i := range ps {
		ps[i].Across, ps[i].Thickness = ps[i].Across*k, ps[i].Thickness*k
	}
	v.Panel.Corners, v.Panel.Holes, v.Rib.Places = cs, hs, ps
	return v
}

func TestPanelScales(t *testing.T) {
	r := rand.New(rand.NewPCG(65, 66))
	for n := 0; n < 25; {
		d := randomOutline(r, archDesign())
		d.Rib.Short = "5"
		d.Panel.MayFail = "100" // the chance does not scale: longer scores are weaker
		v, found := design.Read(d)
		require.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
		p := alone(v)
		if !p.Drawn {
			continue
		}
		n++
		for i, s := range p.Supports.All { // the steps in which a place is looked for do not scale
			s.Row = i
			v.Rib.Places = append(v.Rib.Places[:i:i], s.RibPlaceValues)
		}
		const k = 2.5
		v.Panel.Passes = p.Try().Passes // how far a rib may give does not scale
		q := alone(larger(v, k))
		require.True(t, q.Drawn, "%+v", q.Findings)
		require.Len(t, q.Scores.Layout.Folds, len(p.Scores.Layout.Folds))
		for i, f := range p.Scores.Layout.Folds {
			require.InDelta(t, k*f.U, q.Scores.Layout.Folds[i].U, 1e-6)
			require.InDelta(t, f.State.Strain, q.Scores.Layout.Folds[i].State.Strain, 1e-9)
		}
		require.InDelta(t, k*k*p.Outline.Region.Area(), q.Outline.Region.Area(), 0.03*k*k*p.Outline.Region.Outer.Length())
		for i, s := range p.Supports.All {
			require.InDelta(t, k*s.Task.Start, q.Supports.All[i].Task.Start, 0.5, "%+v", d.Panel)
			require.InDelta(t, k*s.Task.End, q.Supports.All[i].Task.End, 0.5)
			require.InEpsilon(t, 1+s.Hold.RibUse, 1+q.Supports.All[i].Hold.RibUse, 0.01, "stresses stay")
		}
	}
}

func sameArea(t *testing.T, a, b plane.Region) {
	t.Helper()
	require.Len(t, b.Holes, len(a.Holes))
	require.InDelta(t, a.Area(), b.Area(), 0.012*a.Outer.Length())
	ba, bb := a.Box(), b.Box()
	require.InDelta(t, ba.Min.X, bb.Min.X, 0.02)
	require.InDelta(t, ba.Min.Y, -bb.Max.Y, 0.02)
}

// Folded up from the file, sound panels of all outlines meet their ribs; every score lies
// on material, runs out past the edge and touches nothing else; outlines have no faults.
func TestRandomOutlines(t *testing.T) {
	r := rand.New(rand.NewPCG(63, 64))
	seen := map[string]int{}
	for n := 0; n < 250; {
		d := randomOutline(r, randomDesign(r))
		p := must(t, d)
		if !p.Drawn || !p.Try().Sound() || p.ScoresCut() == 0 {
			seen["not drawn"]++
			continue
		}
		n++
		seen[d.Panel.Shape]++
		if p.V.Panel.Seen {
			seen["seen"]++
		}
		if len(p.Outline.Region.Holes) > 0 {
			seen["holes"]++
		}
		if len(p.Supports.All) > 1 {
			seen["ribs"]++
		}
		require.InDelta(t, 0, p.Proof.Fit.LeastFlat, 0.02, "%+v", d)
		require.LessOrEqual(t, p.Proof.Fit.Most, 1.05*p.V.Panel.StandOff)
		require.Less(t, p.Proof.Fit.EndMiss, 0.02)
		if n%5 == 0 {
			fileHolds(t, p)
		}
		for _, f := range part.Faults(p.Outline.Region, 0) {
			require.Failf(t, "fault", "%+v of %+v", f, d.Panel)
		}
		outerOnly := plane.Region{Outer: p.Panel.Flat.Outline.Outer}
		for _, s := range p.Panel.Flat.Segments {
			for f := 0.003; f < 1; f += 0.0497 {
				require.True(t, p.Panel.Flat.Outline.Contains(s.A.Lerp(s.B, f)), "score %d", s.Score)
			}
			for f := 0.01; f < 1; f += 0.11 {
				for _, q := range [2]plane.Point{s.A.Lerp(s.RunA, f), s.B.Lerp(s.RunB, f)} {
					require.False(t, p.Panel.Flat.Outline.Contains(q), "overrun of score %d re-enters at %v", s.Score, q)
				}
			}
		}
		for _, s := range p.Supports.All {
			if s.Narrow || p.Section.Closed {
				continue
			}
			// The ends of the rib lie under the panel.
			for _, at := range []float64{p.Place(s.Task.Start) + 0.2, p.Place(s.Task.End) - 0.2} {
				require.True(t, outerOnly.Apply(plane.Scale(1, mirrored(p))).Contains(pt(at, s.Across)), "%v %+v", at, d.Panel)
			}
			require.LessOrEqual(t, s.Task.End, p.Section.Edge.Length()+1e-9)
		}
	}
	for _, k := range []string{"rectangle", "taper", "ellipse", "lens", "sector", "polygon", "seen", "holes", "ribs"} {
		assert.Greater(t, seen[k], 12, k)
	}
	t.Log(seen)
}

func mirrored(p Plan) float64 {
	if p.Panel.Mirror {
		return -1
	}
	return 1
}

// randomOutline puts a random shape with holes and ribs on a design.
func randomOutline(r *rand.Rand, d design.Document) design.Document {
	pick := func(xs ...string) string { return xs[r.IntN(len(xs))] }
	p := &d.Panel
	w := 60 + 120*r.Float64()
	p.Width = f(w)
	switch p.Shape = pick("rectangle", "taper", "ellipse", "lens", "sector", "polygon"); p.Shape {
	case "rectangle":
		p.CornerRadius = f(w * 0.3 * r.Float64())
	case "taper":
		p.FootWidth, p.WidestWidth, p.TipWidth, p.TipRound = f(w), f(w*1.2), f(w*0.6), r.IntN(2) == 0
	case "lens":
		p.Width = f(w * 0.6)
		p.FootRadius, p.TipRadius = f(w*0.25*r.Float64()), f(w*0.25*r.Float64())
	case "sector":
		p.InnerRadius, p.SectorAngle = f(100*r.Float64()), f(10+40*r.Float64())
	case "polygon":
		l := 80 + 80*r.Float64()
		for i := range 5 {
			a := 2 * math.Pi * (float64(i) + 0.7*r.Float64()) / 5
			p.Corners = append(p.Corners, design.Corner{Along: f(l/2 + l/2*math.Cos(a)), Across: f(w / 2 * math.Sin(a)), Radius: f(6 * r.Float64())})
		}
	}
	if p.Shape != "polygon" && r.IntN(3) == 0 {
		p.Length = f(w + 60*r.Float64())
	}
	if r.IntN(3) == 0 {
		p.Along = f(40 * r.Float64())
	}
	if r.IntN(3) == 0 {
		p.View = "seen"
	}
	for range r.IntN(3) {
		p.Holes = append(p.Holes, design.Hole{Kind: pick("round", "slot"), Along: f(20 + 100*r.Float64()), Across: f(40*r.Float64() - 20), Width: f(4 + 10*r.Float64()), Length: f(15 + 15*r.Float64()), Turn: f(90 * r.Float64())})
	}
	if r.IntN(2) == 0 {
		p.Across = f(6*r.Float64() - 3)
		d.Rib.Places = []design.RibPlace{{Across: f(-12 - 5*r.Float64())}, {Across: f(12 + 5*r.Float64()), Stock: pick("", "birch-6", "same"), Foot: pick("", "stub")}}
	}
	return d
}

// A panel that lies on the straight foot alone has no scores, and nothing that cracks.
func TestAPanelOnTheStraightAlone(t *testing.T) {
	d := shaped("polygon", func(p *design.Panel) {
		p.Corners = cornerRows([3]string{"0", "-40", ""}, [3]string{"80", "-40", ""}, [3]string{"80", "40", ""}, [3]string{"0", "40", ""})
	})
	d.Curve.Foot = "120"
	p := must(t, d)
	require.True(t, p.Drawn, "%+v", p.Findings)
	assert.Zero(t, p.ScoresCut())
	assert.Zero(t, p.Scores.Cracking.Score)
	assert.Zero(t, p.Try().Seconds)
	assert.Less(t, p.Place(p.Ribs.Task.End), 80.0)
}
