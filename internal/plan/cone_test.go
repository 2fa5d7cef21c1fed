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
	assert.InDelta(t, s.Thickness*butt.V.Panel.StandOff/s.Wedge, s.glueWidth(butt.V.Panel.StandOff), 1e-9)
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
