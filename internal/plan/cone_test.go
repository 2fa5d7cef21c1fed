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
	"springrib/internal/support"
)

// shade is a cone of 3 mm MDF on two rings, its sizes in mm.
func shade(small, large, high float64) design.Document {
	d := design.Empty()
	d.Sheet.Readings = []string{"3.02", "3.05", "3.00", "3.04", "3.01"}
	d.Machine.Depths = []string{"1.25", "2.2", "2.55"}
	d.Machine.ScoreWidth, d.Machine.Kerf, d.Machine.DepthSpread = "0.2", "0.18", "0.08"
	text := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	d.Curve.Kind, d.Curve.Small, d.Curve.Large, d.Curve.RimHeight = design.Cone, text(small), text(large), text(high)
	return d
}

func madeCone(t *testing.T, d design.Document) Plan {
	t.Helper()
	v, found := design.Read(d)
	require.Empty(t, found)
	p := Make(v)
	for _, f := range p.Findings {
		t.Logf("%s %s: %s", f.ID, f.Place.Field, f.Text)
	}
	return p
}

// A round shade comes out whole: panel, a ring at each rim, marks, all on their sheets.
func TestAShadeIsDrawn(t *testing.T) {
	p := madeCone(t, shade(120, 160, 110))
	require.True(t, p.Drawn)
	require.Len(t, p.Supports.All, 2)
	lean := math.Atan2(20, 110)
	// The sizes are of the inside: the flat's arcs are those of the cone moved out by D.
	n := float64(len(p.Scores.Layout.Folds))
	d := p.Scores.Layout.Folds[1].D
	assert.InDelta(t, 60/math.Sin(lean)+d/math.Tan(lean), p.Panel.Fan.Inner, 0.5, "the apex moves by D cot(lean), and a little for the other end's D")
	assert.InDelta(t, 20/math.Sin(lean), p.Width(), 1e-9, "the slant, not the height")
	assert.InDelta(t, 2*math.Pi*math.Cos(lean)/n, p.Scores.Layout.Folds[3].Theta, 1e-4)
	b := p.Panel.Flat.Outline.Outer
	assert.Len(t, b.Segs, 4, "two arcs and two ends: %v", b)
	// Rings: flush with the rims, touching at their narrow faces.
	top, foot := p.Supports.All[0], p.Supports.All[1]
	assert.InDelta(t, 0, top.Height, 1e-9)
	assert.InDelta(t, 110-foot.Thickness, foot.Height, 1e-9)
	assert.InDelta(t, 120, p.Ribs.Kinds[top.Kind].Outline.Box().W(), 1e-6)
	assert.InDelta(t, 160-2*foot.Thickness*math.Tan(lean), p.Ribs.Kinds[foot.Kind].Outline.Box().W(), 1e-6)
	assert.InDelta(t, foot.Thickness*math.Sin(lean), foot.Wedge, 1e-9)
	marks := 0
	for _, w := range p.Panel.Flat.Work {
		if w.Kind == cut.Mark {
			marks++
		}
	}
	assert.Equal(t, 1, marks, "the narrow rim is itself the line of its ring")
}

// What the diameters are of decides where the contact face lies.
func TestWhatTheDiametersAreOf(t *testing.T) {
	d := shade(120, 160, 110)
	inside := madeCone(t, d).Section.Cone
	d.Curve.Sizes = design.Outside
	p := madeCone(t, d)
	in := p.V.Sheet.T * math.Cos(inside.Lean())
	assert.InDelta(t, 60-in, p.Section.Cone.Narrow, 1e-9)
	assert.InDelta(t, 80-in, p.Section.Cone.Wide, 1e-9)
	d.Curve.Sizes = design.RingCut
	p = madeCone(t, d)
	for i, want := range []float64{120, 160} {
		assert.InDelta(t, want, p.Ribs.Kinds[p.Supports.All[i].Kind].Outline.Box().W(), 1e-6)
	}
}

// Cones at random, of one sheet, scored on either face: folded up again from the places in the
// file, every flat touches both rims and no flat stands off by more than the planes do; the seam
// closes; every score keeps its land, and what runs past an edge keeps off the next.
func TestFiveHundredCones(t *testing.T) {
	r := rand.New(rand.NewPCG(121, 122))
	count, drawn := 500, 0
	var worst [3]float64
	if testing.Short() {
		count = 40
	}
	for i := range count {
		small := 60 + 300*r.Float64()
		high := 40 + 300*r.Float64()
		large := small + 2*high*math.Tan((2+55*r.Float64())*math.Pi/180)
		d := shade(small, large, high)
		d.Machine.BedWidth, d.Machine.BedHeight = "20000", "20000"
		d.Curve.Sizes = []string{design.Inside, design.Outside, design.RingCut}[r.IntN(3)]
		d.Panel.ScoredFace = []string{design.Hollow, design.Round}[r.IntN(2)]
		d.Panel.ShowFace = []string{design.Hollow, design.Round}[r.IntN(2)]
		d.Panel.Finish = "any"
		if r.IntN(3) == 0 {
			d.Curve.Seam, d.Curve.Lap = design.Lap, "10"
		}
		v, found := design.Read(d)
		require.Empty(t, found)
		p := Plan{Asked: &v}
		ok := true
		for s := StageReadings; s <= StageProof && ok; s++ {
			ok = p.Run(s)
		}
		if !ok {
			for _, f := range p.Findings {
				require.Contains(t, []string{"cone-overlaps", "cone-few-scores"}, f.ID, f.Text)
			}
			continue
		}
		drawn++
		fit, k := p.Proof.Fit, p.Section.Cone
		n := float64(len(p.Scores.Layout.Folds))
		stands := k.Wide * (1/math.Cos(math.Pi/n) - 1) * math.Cos(k.Lean())
		require.Greater(t, fit.Least, -0.005, "cone %d", i)
		require.Less(t, fit.Most, stands+0.005, "cone %d", i)
		require.Less(t, fit.EndMiss, 0.02, "cone %d", i)
		worst = [3]float64{math.Min(worst[0], fit.Least), math.Max(worst[1], fit.Most-stands), math.Max(worst[2], fit.EndMiss)}
		land := p.Law().Score().Width + p.V.Panel.MinLand
		if Reached(p.Scores.Layout) {
			apart := math.Inf(1)
			segs := p.Panel.Flat.Segments
			for j := 1; j < len(segs); j++ {
				off := segs[j].B.Sub(segs[j].A).Unit()
				at := math.Min(math.Abs(segs[j-1].RunA.Sub(segs[j].A).Cross(off)), math.Abs(segs[j-1].RunB.Sub(segs[j].A).Cross(off)))
				apart = math.Min(apart, at)
			}
			require.Greater(t, apart, land-0.01, "cone %d", i)
		}
		require.Len(t, p.Panel.Flat.Segments, len(p.Scores.Layout.Folds), "each score is one stretch, cone %d", i)
	}
	assert.Greater(t, drawn, count/2)
	t.Logf("%d of %d drawn: into a rim by %.5f mm at most, over the height of the flats by %.5f, seam %.5f", drawn, count, -worst[0], worst[1], worst[2])
}

// A ring is as long as its own girth, which the narrow rim is not: past that nothing bends, and
// nothing pulls there either.
func TestNothingPullsAlongARound(t *testing.T) {
	d := shade(60, 260, 120)
	d.Machine.BedWidth, d.Machine.BedHeight = "2000", "2000"
	p := madeCone(t, d)
	require.True(t, p.Drawn)
	assert.Less(t, p.Strength.Bond.Use, 1e-6)
}

// Glue over a wedge holds where the wedge is as narrow as a flat may stand off, and a lap holds the
// seam over the width of the panel.
func TestWhatHoldsTheSeam(t *testing.T) {
	d := shade(140, 180, 120)
	butt := madeCone(t, d)
	s := butt.Supports.All[0]
	assert.InDelta(t, s.Thickness*butt.V.Panel.StandOff/s.Wedge, s.GlueWidth(butt.V.Panel.StandOff), 1e-9)
	_, peels := butt.Peels(false)
	assert.True(t, peels)
	d.Curve.Seam, d.Curve.Lap = design.Lap, "15"
	_, peels = func() (Peeling, bool) { p := madeCone(t, d); return p.Peels(false) }()
	assert.False(t, peels)
	d.Curve.Lap = "1"
	_, peels = func() (Peeling, bool) { p := madeCone(t, d); return p.Peels(false) }()
	assert.True(t, peels, "a millimetre holds nothing")
}

// What can't be a cone is told with a place, and what to do.
func TestWhatIsNoCone(t *testing.T) {
	for _, c := range []struct {
		id, field string
		edit      func(*design.Document)
	}{
		{"cone-turned", "curve.large", func(d *design.Document) { d.Curve.Large = "120" }},
		{"cone-straight", "curve.large", func(d *design.Document) { d.Curve.Large = "151" }},
		{"cone-no-room", "curve.rimHeight", func(d *design.Document) {
			d.Curve.Sizes, d.Curve.RimHeight, d.Rib.Thickness, d.Rib.Stock = design.RingCut, "12", "18", "mdf-3"
		}},
		{"cone-no-room", "curve.sizes", func(d *design.Document) {
			d.Sheet.Stock, d.Sheet.Readings, d.Machine.Depths = "birch-6", nil, []string{"3", "4.8"}
			d.Curve.Sizes, d.Curve.Small, d.Curve.Large, d.Curve.RimHeight = design.Outside, "10", "20", "40"
		}},
		{"cone-few-scores", "panel.spacing", func(d *design.Document) {
			d.Curve.Large, d.Curve.RimHeight, d.Panel.Spacing, d.Panel.Count = "300", "60", design.FixedCount, "3"
		}},
		{"cone-overlaps", "curve.rimHeight", func(d *design.Document) {
			d.Curve.Small, d.Curve.Large, d.Curve.RimHeight, d.Curve.Seam, d.Curve.Lap = "200", "500", "12", design.Lap, "60"
		}},
		{"hub-no-room", "rib.hubHole", func(d *design.Document) { d.Rib.Hub, d.Rib.HubHole = design.HubNarrow, "140" }},
		{"cone-past-point", "curve.slant", func(d *design.Document) { d.Curve.Rims, d.Curve.Slant, d.Curve.Lean = design.BySlant, "300", "20" }},
		{"curve-crosses", "curve.sweep", func(d *design.Document) { d.Curve.Kind, d.Curve.Sweep = design.ConePart, "350" }},
		{"rib-off-panel", "rib.places.1.across", func(d *design.Document) { d.Rib.Places = []design.RibPlace{{Across: "0"}, {Across: "85"}} }},
	} {
		d := shade(150, 200, 160)
		c.edit(&d)
		p := madeCone(t, d)
		assert.False(t, p.Drawn, c.id)
		found := false
		for _, f := range p.Findings {
			if f.ID == c.id {
				found = true
				assert.Equal(t, c.field, f.Place.Field, c.id)
				assert.NotEmpty(t, f.Numbers, c.id)
			}
		}
		assert.True(t, found, "%s: %v", c.id, p.Findings)
	}
}

// A cone may be typed by its large diameter, slant and lean: it is the same cone, and the slant is
// not taken for the height.
func TestAConeByItsSlant(t *testing.T) {
	text := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	for _, sizes := range []string{design.Inside, design.Outside, design.RingCut} {
		d := shade(120, 160, 110)
		d.Curve.Sizes = sizes
		want := madeCone(t, d).Section.Cone
		d.Curve.Rims, d.Curve.Slant, d.Curve.Lean = design.BySlant, text(want.Slant()), text(want.Lean()*180/math.Pi)
		d.Curve.Small, d.Curve.RimHeight = "", ""
		got := madeCone(t, d).Section.Cone
		assert.InDelta(t, want.Narrow, got.Narrow, 1e-9, sizes)
		assert.InDelta(t, want.Wide, got.Wide, 1e-9, sizes)
		assert.InDelta(t, want.Height, got.Height, 1e-9, sizes)
	}
	// A school geometry page's frustum, 5 and 8 in across and 4 in high, given by its slant.
	d := shade(1, 1, 1)
	d.Units, d.Machine.ScoreWidth, d.Machine.Depths, d.Sheet.Readings = "in", "0.2 mm", []string{"2.2 mm"}, nil
	d.Machine.Kerf, d.Machine.DepthSpread, d.Panel.Finish = "0.18 mm", "0.08 mm", "any"
	d.Curve.Rims, d.Curve.Large, d.Curve.Slant, d.Curve.Lean = design.BySlant, "8", text(math.Hypot(1.5, 4)), text(math.Atan2(1.5, 4)*180/math.Pi)
	k := madeCone(t, d).Section.Cone
	inner, outer, angle := k.Net()
	assert.InDelta(t, 7.12, inner/25.4, 0.005)
	assert.InDelta(t, 11.39, outer/25.4, 0.005)
	assert.InDelta(t, 126.4, angle*180/math.Pi, 0.05)
}

// Part of a cone: half of one is half the whole's fan, its ribs are as much of the rings, and it
// goes straight on, square to its ends, as far as its foot and tip.
func TestPartOfACone(t *testing.T) {
	d := shade(120, 160, 110)
	whole := madeCone(t, d)
	d.Curve.Kind, d.Curve.Sweep, d.Curve.Foot, d.Curve.Tip = design.ConePart, "180", "8", "10"
	p := madeCone(t, d)
	require.True(t, p.Drawn)
	require.Len(t, p.Supports.All, 2)
	assert.InDelta(t, whole.Panel.Fan.Angle/2, p.Panel.Fan.Angle, 1e-4)
	assert.InDelta(t, whole.Panel.Fan.Inner, p.Panel.Fan.Inner, 0.02)
	for i, s := range p.Supports.All {
		r := p.Section.Cone.Radius(s.Height)
		assert.InDelta(t, whole.Supports.All[i].Task.End, 2*math.Pi*r, 1e-9)
		assert.InDelta(t, math.Pi*r+18-support.ShortOfTip, s.Task.End, 1e-9)
		assert.InDelta(t, s.Task.End, p.Ribs.Kinds[s.Kind].Contact.Length(), 1e-9)
	}
	out := p.Panel.Flat.Outline
	arcs := p.Panel.Fan.Angle * (2*p.Panel.Fan.Inner + p.Width())
	assert.InDelta(t, arcs+2*p.Width()+2*18, out.Outer.Length(), 1e-6)
	assert.InDelta(t, p.Width()*(arcs/2+18), out.Area(), 1e-5)
	assert.InDelta(t, 8, p.Section.Foot(), 1e-12)
	assert.Nil(t, p.Base)
}

// Parts of cones at random: every flat meets both rims, straights and all, and the far end comes to
// its place.
func TestPartsOfConesMeetBothRims(t *testing.T) {
	r := rand.New(rand.NewPCG(131, 132))
	count, drawn, worst := 300, 0, [3]float64{}
	if testing.Short() {
		count = 40
	}
	for i := range count {
		high := 40 + 300*r.Float64()
		small := 60 + 300*r.Float64()
		d := shade(small, small+2*high*math.Tan((2+55*r.Float64())*math.Pi/180), high)
		d.Machine.BedWidth, d.Machine.BedHeight, d.Panel.Finish = "20000", "20000", "any"
		d.Curve.Kind, d.Curve.Sweep = design.ConePart, strconv.FormatFloat(5+310*r.Float64(), 'f', 2, 64)
		d.Curve.Foot, d.Curve.Tip = strconv.FormatFloat(20*r.Float64(), 'f', 2, 64), strconv.FormatFloat(20*r.Float64(), 'f', 2, 64)
		d.Panel.ScoredFace = []string{design.Hollow, design.Round}[r.IntN(2)]
		d.Panel.ShowFace = []string{design.Hollow, design.Round}[r.IntN(2)]
		v, found := design.Read(d)
		require.Empty(t, found)
		p := Plan{Asked: &v}
		ok := true
		for s := StageReadings; s <= StageProof && ok; s++ {
			ok = p.Run(s)
		}
		if !ok {
			for _, f := range p.Findings {
				require.Contains(t, []string{"cone-overlaps", "cone-few-scores", "curve-crosses", "rib-too-deep"}, f.ID, f.Text)
			}
			continue
		}
		drawn++
		fit, k := p.Proof.Fit, p.Section.Cone
		n := float64(len(p.Scores.Layout.Folds))
		stands := k.Wide * (1/math.Cos(p.Section.Sweep/2/n) - 1) * math.Cos(k.Lean())
		require.Greater(t, fit.Least, -0.005, "part %d", i)
		require.Less(t, fit.Most, stands+0.005, "part %d", i)
		require.Less(t, fit.EndMiss, 0.02, "part %d", i)
		require.Len(t, p.Panel.Flat.Segments, len(p.Scores.Layout.Folds), "each score is one stretch, part %d", i)
		worst = [3]float64{math.Min(worst[0], fit.Least), math.Max(worst[1], fit.Most-stands), math.Max(worst[2], fit.EndMiss)}
	}
	assert.Greater(t, drawn, count/2)
	t.Logf("%d of %d drawn: into a rim by %.5f mm at most, over the height of the flats by %.5f, end %.5f", drawn, count, -worst[0], worst[1], worst[2])
}

// Cut in parts, the panel of a cone has as many scores in each, its parts laid end to end are the
// whole, and what the rings stand is that of the whole.
func TestAConeInParts(t *testing.T) {
	d := shade(140, 190, 150)
	d.Machine.BedWidth, d.Machine.BedHeight, d.Curve.Trim = "2000", "2000", "0"
	whole := madeCone(t, d)
	for _, n := range []int{2, 3, 7} {
		d.Curve.Gores = strconv.Itoa(n)
		p := madeCone(t, d)
		require.True(t, p.Drawn)
		folds := len(p.Scores.Layout.Folds)
		assert.Zero(t, folds%n)
		assert.Less(t, folds-len(whole.Scores.Layout.Folds), 2*n)
		assert.Equal(t, folds/n, p.ScoresCut())
		assert.Len(t, p.Panel.Flat.Segments, folds/n)
		assert.Equal(t, n, p.Panel.Flat.Quantity)
		assert.InDelta(t, whole.Panel.Flat.Outline.Area(), float64(n)*p.Panel.Flat.Outline.Area(), 20, "but for the flats")
		b := p.Panel.Flat.Outline.Box()
		assert.InDelta(t, 0, b.Min.X+b.Max.X, 1e-6, "each lies upright")
		assert.InEpsilon(t, whole.Strength.Hold.EndForce, p.Strength.Hold.EndForce, 0.05)
		assert.Less(t, p.Proof.Fit.EndMiss, 0.02)
		// Half a pitch is left at both ends: beside the first score of one lies the last of another.
		segs := p.Panel.Flat.Segments
		first, last := segs[0], segs[len(segs)-1]
		assert.InDelta(t, first.A.X, -last.A.X, 0.002)
		d.Curve.Seam, d.Curve.Lap = design.Lap, "12"
		lapped := madeCone(t, d)
		assert.InDelta(t, p.Outline.Length+12, lapped.Outline.Length, 1e-9)
		d.Curve.Seam = design.Butt
		d.Panel.Spacing, d.Panel.Count = design.FixedCount, "200"
		assert.Len(t, madeCone(t, d).Scores.Layout.Folds, (200+n-1)/n*n)
		d.Panel.Spacing = design.Follow
	}
}

// A hole for a lamp holder lies in the ring that is asked for, and no other ring is cut like it.
func TestAHoleForALampHolder(t *testing.T) {
	for i, where := range []string{design.HubNarrow, design.HubWide} {
		d := shade(140, 190, 150)
		d.Machine.BedWidth, d.Machine.BedHeight = "2000", "2000"
		d.Rib.Hub, d.Rib.HubHole, d.Rib.Spokes = where, "42", "4"
		d.Rib.FootDepth = "12" // else there is room for no windows
		p := madeCone(t, d)
		require.True(t, p.Drawn)
		for k, s := range p.Supports.All {
			holes := p.Ribs.Kinds[s.Kind].Outline.Holes
			if k != i {
				assert.Len(t, holes, 1, "the inside of the ring")
				continue
			}
			require.Len(t, holes, 5)
			round := 0
			for _, h := range holes {
				if math.Abs(h.Box().W()-42) < 1e-9 && math.Abs(h.Box().H()-42) < 1e-9 {
					round++
				}
			}
			assert.Equal(t, 1, round)
		}
	}
}
