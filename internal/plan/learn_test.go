package plan

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/coupon"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/hinge"
	"springrib/internal/learn"
	"springrib/internal/solve"
	"springrib/internal/stock"
)

// ply is a design in 3.9 mm plywood, scored 0.18 wide, 2.5, 2.9 and 3.2 deep after one,
// two and three passes (an invented machine).
func ply() design.Document {
	d := design.Empty()
	d.Name = "Strip of ply"
	d.Sheet.Stock, d.Sheet.Grain = "birch-4", "across"
	d.Sheet.Readings = []string{"3.9", "3.91", "3.9", "3.89", "3.9"}
	d.Machine.Depths, d.Machine.ScoreWidth = []string{"2.5", "2.9", "3.2"}, "0.18"
	d.Curve.Radius, d.Curve.Angle = "12", "90"
	d.Panel.Width, d.Panel.Finish, d.Panel.StandOff = "80", "any", "1"
	d.Rib.FootDepth, d.Rib.TipDepth = "8", "6"
	return d
}

func said(p Plan, id string) bool {
	for _, f := range p.Findings {
		if f.ID == id {
			return true
		}
	}
	return false
}

// smallest is the inside radius, to half a millimetre, from which the deepest score is
// sound.
func smallest(t *testing.T, v design.Values) (radius float64) {
	t.Helper()
	for r := 12.0; r < 200; r += 0.5 {
		v.Curve.Radius = r
		p := Plan{Asked: &v}
		require.True(t, p.Run(StageReadings, StageLine, StageSection))
		if t := p.Passed(3, p.Rule()); t.Sound() {
			return r
		}
	}
	t.Fatal("no radius is sound")
	return 0
}

// A radius of 12 mm inside is refused, pinching and cracking both over their limits;
// strips then teach what the sheet bears, and the smallest radius moves as the law says.
// A tighter strip than the handbook promises makes no mouth wider: 12 mm stays refused.
func TestStripsTeachTheSheet(t *testing.T) {
	d := ply()
	v, found := design.Read(d)
	require.Empty(t, found)
	before := Make(v)
	require.NotEmpty(t, before.Scores.Tries)
	for _, try := range before.Scores.Tries {
		assert.False(t, try.Sound())
		assert.Greater(t, try.Pinching.Value, 1.0, "%d passes pinch", try.Passes)
		assert.Greater(t, try.Cracking.Value, 1.0, "%d passes crack", try.Passes)
	}

	d.Strips.Readings = []design.Reading{
		{Kind: "bend", Passes: "3", Spacing: "1", Value: "30", Verdict: "held", Date: "2 March"},
		{Kind: "bend", Passes: "3", Spacing: "1", Value: "25", Verdict: "broke", Date: "2 March"},
	}
	u, found := design.Read(d)
	require.Empty(t, found)
	after := Make(u)
	assert.Empty(t, after.Readings.Learned.Findings)

	// What the law makes of both strips brackets the new limit.
	strain := func(inside float64) float64 {
		law := before.scoring().Law(3)
		return law.Strain(1, 1/(inside+v.Sheet.T-law.Neutral(1)))
	}
	got := after.V.Sheet.Rupture
	assert.InEpsilon(t, solve.Pow(strain(30)*strain(25), 0.5), got.Value, 0.06)
	assert.Greater(t, got.Value, 0.95*strain(30))
	assert.Less(t, got.Value, strain(25))
	assert.True(t, after.V.Sheet.StrainTested)
	assert.Equal(t, stock.Tested, got.Grade)
	higher := got.Value > v.Sheet.Rupture.Value
	assert.Equal(t, strain(30) > v.Sheet.Rupture.Value || higher, higher)

	v.Panel.Passes, u.Panel.Passes = 3, 3
	was, is := smallest(t, v), smallest(t, u)
	t.Logf("rupture %.4f -> %.4f, smallest radius %.1f -> %.1f", v.Sheet.Rupture.Value, got.Value, was, is)
	assert.Less(t, is, was, "less spread and a higher limit: tighter is sound")

	for _, try := range after.Scores.Tries {
		assert.False(t, try.Sound())
		assert.Equal(t, Pinches, try.Out, "%d passes", try.Passes)
		assert.Greater(t, try.Pinching.Value, 1.0)
	}

	// A weaker board goes the other way.
	d.Strips.Readings[0].Value, d.Strips.Readings[1].Value = "110", "90"
	w, _ := design.Read(d)
	w.Panel.Passes = 3
	weak := Make(w)
	assert.Less(t, weak.V.Sheet.Rupture.Value, v.Sheet.Rupture.Value)
	assert.Greater(t, smallest(t, w), was)
}

// Tongues, a snapped one and a closed strip, made from a known sheet by the law and the
// elastica, give that sheet back to the plan.
func TestTonguesTeachDepthsAndWidth(t *testing.T) {
	d := design.Empty()
	d.Sheet.Readings = []string{"3.00", "3.01", "3.00", "2.99", "3.00"}
	d.Machine.Depths, d.Machine.ScoreWidth = []string{"1.2", "2.1", "2.5"}, "0.2"
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width = "110", "100", "80"
	v, _ := design.Read(d)
	blind := Make(v)
	require.True(t, blind.Drawn)

	truth := hinge.Material{E: 3300, NuXY: .3, NuXZ: .3, EZ: .08 * 3300, GXZ: .06 * 3300, Narrow: true}
	const skin, width = 0.72, 0.23
	wide := truth
	wide.Narrow = false
	sag := func(passes int, p float64, loads ...float64) {
		ei := 12 * truth.E * 27 / 12
		if passes > 0 {
			ei = 12 * hinge.New(truth, hinge.Score{Thickness: 3, Depth: 3 - skin, Width: width}).Stiffness(p)
		}
		weight := 750e-9 * 9.80665 * 3 * 12
		if passes > 0 {
			weight *= 1 - (3-skin)*width/(3*p)
		}
		for _, g := range loads {
			drop := coupon.Tongue{Length: 80, Weight: weight}.Bend(ei, g*9.80665e-3).Drop
			r := design.Reading{Kind: "sag", Passes: f(float64(passes)), Load: f(g), Value: f(drop), Spacing: f(p)}
			if passes == 0 {
				r.Passes, r.Spacing = "", ""
			} else {
				r.Passes = map[int]string{2: "2"}[passes]
			}
			d.Strips.Readings = append(d.Strips.Readings, r)
		}
	}
	sag(0, 0, 200, 500)
	sag(2, 0.9, 10, 25)
	sag(2, 2.4, 15, 40)
	turn := 30 * hinge.New(wide, hinge.Score{Thickness: 3, Depth: 3 - skin, Width: width}).ClosingAngle(1.2)
	d.Strips.Readings = append(d.Strips.Readings,
		design.Reading{Kind: "skin", Passes: "2", Value: "0.74"},
		design.Reading{Kind: "closing", Passes: "2", Spacing: "1.2", Count: "30", Turn: f(turn * 180 / 3.141592653589793)},
		design.Reading{Kind: "kerf", Value: "0.22"})
	v, found := design.Read(d)
	require.Empty(t, found)
	p := Make(v)
	require.True(t, p.Drawn)
	m := p.V.Machine
	assert.InDelta(t, skin, m.Skin(2, p.V.Sheet.T, 0).Value, 0.02)
	assert.InDelta(t, width, m.ScoreWidth, 0.004)
	assert.InDelta(t, 0.22, m.Kerf, 1e-9)
	assert.InEpsilon(t, truth.E, p.V.Sheet.E.Value, 0.03)
	assert.True(t, m.Tested && m.WidthTested)
	assert.True(t, m.Growing())
	assert.InEpsilon(t, m.Depths[1]/2.1, m.Depths[0]/1.2, 1e-9, "what no tongue told follows in proportion")
	// What is known better is promised more narrowly.
	assert.Less(t, m.Spread(2), blind.V.Machine.Spread(2))
	assert.Less(t, p.Try().Pinching.Bad/p.Try().Pinching.Value, blind.Try().Pinching.Bad/blind.Try().Pinching.Value)
	// Planned again from its own values, nothing is learned twice.
	again := Make(p.V)
	assert.Equal(t, p.V, again.V)
	assert.Equal(t, p.Scores.Layout, again.Scores.Layout)
}

// Bad readings: each a clear warning at its row, the sheet as it was.
func TestBadReadingsLeaveTheSheetAsItWas(t *testing.T) {
	sag := func(load, drop string) design.Reading {
		return design.Reading{Kind: "sag", Passes: "2", Spacing: "0.9", Load: load, Value: drop}
	}
	for name, c := range map[string]struct {
		id   string
		rows []design.Reading
	}{
		"negative":               {coupon.IDNotPositive, []design.Reading{{Kind: "skin", Passes: "2", Value: "-0.8"}}},
		"crossed units":          {coupon.IDUnits, []design.Reading{{Kind: "thickness", Value: "0.118"}}},
		"skin over the sheet":    {coupon.IDSkinOver, []design.Reading{{Kind: "skin", Passes: "2", Value: "4.2"}}},
		"drop over the tongue":   {coupon.IDDropOver, []design.Reading{sag("20", "95")}},
		"one reading only":       {coupon.IDAlone, []design.Reading{sag("20", "12")}},
		"heavier sags less":      {coupon.IDContradicts, []design.Reading{sag("20", "22"), sag("40", "9")}},
		"held more than broke":   {coupon.IDContradicts, []design.Reading{{Kind: "bend", Passes: "3", Spacing: "1", Value: "24", Verdict: "held"}, {Kind: "bend", Passes: "3", Spacing: "1", Value: "60", Verdict: "broke"}}},
		"bend says nothing":      {coupon.IDIncomplete, []design.Reading{{Kind: "bend", Passes: "3", Spacing: "1", Value: "24"}}},
		"drop in the load's box": {"reading-unreadable", []design.Reading{{Kind: "sag", Passes: "2", Spacing: "0.9", Load: "12 mm", Value: "20"}}},
	} {
		d := ply()
		d.Curve.Radius = "90"
		v, _ := design.Read(d)
		want := Make(v)
		d.Strips.Readings = c.rows
		u, found := design.Read(d)
		p := Make(u)
		all := append(found, p.Findings...)
		var hit *finding.Finding
		for i := range all {
			if all[i].ID == c.id {
				hit = &all[i]
			}
		}
		require.NotNil(t, hit, "%s: %+v", name, all)
		assert.Equal(t, finding.Warn, hit.Severity, name)
		assert.Contains(t, hit.Place.Field, "strips.readings.", name)
		assert.Equal(t, want.V.Sheet, p.V.Sheet, name)
		assert.Equal(t, want.V.Machine, p.V.Machine, name)
		assert.Equal(t, want.Scores.Layout, p.Scores.Layout, name)
	}
}

// Readings of another sheet or setting are passed over, of another batch pointed out,
// and a damp week asks for new ones.
func TestReadingsBelongSomewhere(t *testing.T) {
	bend := func(r design.Reading) []design.Reading {
		r.Kind, r.Passes, r.Spacing = "bend", "3", "1"
		a, b := r, r
		a.Value, a.Verdict, b.Value, b.Verdict = "30", "held", "25", "broke"
		return []design.Reading{a, b}
	}
	for _, c := range []struct {
		row  design.Reading
		used bool
	}{
		{design.Reading{}, true}, {design.Reading{Stock: "Birch plywood 4 mm"}, true}, {design.Reading{Stock: "birch-4"}, true},
		{design.Reading{Stock: "mdf-3"}, false}, {design.Reading{Setting: "80 W, slow"}, true}, {design.Reading{Setting: "40 W"}, false},
		{design.Reading{Batch: "March"}, true},
	} {
		d := ply()
		d.Machine.Setting, d.Sheet.Batch = "80 W, slow", "May"
		d.Strips.Readings = bend(c.row)
		v, _ := design.Read(d)
		p := Make(v)
		assert.Equal(t, c.used, p.V.Sheet.StrainTested, "%+v", c.row)
		assert.Equal(t, c.row.Batch != "", said(p, coupon.IDOtherBatch))
		assert.False(t, said(p, "strips-stale"))
	}
	d := ply()
	d.Strips.Damp, d.Strips.Readings = true, bend(design.Reading{})
	v, _ := design.Read(d)
	damp := Make(v)
	assert.True(t, said(damp, "strips-stale"))
	d.Strips.Damp = false
	v, _ = design.Read(d)
	dry := Make(v)
	wide := func(f stock.Figure) float64 { return f.High / f.Low }
	assert.Greater(t, wide(damp.V.Sheet.Rupture), 1.05*wide(dry.V.Sheet.Rupture), "what damp changes is known the less")
	assert.Greater(t, wide(damp.V.Sheet.E), 1.05*wide(dry.V.Sheet.E))
	assert.Greater(t, damp.V.Sheet.TSpread, dry.V.Sheet.TSpread)
	assert.Greater(t, damp.V.Machine.Spread(1), dry.V.Machine.Spread(1))
	assert.Greater(t, damp.Proof.Ranges.Cracking.High-damp.Proof.Ranges.Cracking.Low, 1.02*(dry.Proof.Ranges.Cracking.High-dry.Proof.Ranges.Cracking.Low))
}

// Left out, a reading that lies apart is not spoken of again.
func TestAReadingThatLiesApartCanBeLeftOut(t *testing.T) {
	d := ply()
	d.Strips.Readings = []design.Reading{
		{Kind: "skin", Passes: "1", Value: "2.8"}, {Kind: "skin", Passes: "1", Value: "2.8"}, {Kind: "skin", Passes: "1", Value: "2.2"},
	}
	p := must(t, d)
	pressed := 0
	for _, f := range p.Findings {
		if f.ID != coupon.IDOutlier || f.Place.Field != "strips.readings.2.value" {
			continue
		}
		require.Len(t, f.Remedies, 1)
		for path, text := range f.Remedies[0].Set {
			var ok bool
			d, ok = design.Set(d, path, text)
			require.True(t, ok)
		}
		pressed++
	}
	require.Equal(t, 1, pressed)
	p = must(t, d)
	assert.False(t, said(p, coupon.IDOutlier))
	assert.Equal(t, 2, p.Readings.Learned.Skins[0].N)
}

// Whatever a person types into the rows, the plan stands.
func TestAnyReadingsAreStood(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	pick := func(xs ...string) string { return xs[r.IntN(len(xs))] }
	figure := func() string {
		return pick("", "0", "-3", "0.001", "0.8", "1", "2.4", "12", "30", "90", "1e3", "99999", "3 in", "x")
	}
	for range 300 {
		d := ply()
		d.Curve.Radius = pick("40", "120")
		d.Machine.Reference = pick("", "table")
		if d.Machine.Reference == "table" {
			d.Machine.Depths = []string{"1.4", "1", "0.7"}
		}
		for range 1 + r.IntN(6) {
			d.Strips.Readings = append(d.Strips.Readings, design.Reading{
				Kind: pick("sag", "skin", "closing", "bend", "thickness", "kerf", "fit"), Value: figure(), Turn: pick("5", "90", "400", "-1", ""),
				Verdict: pick("held", "broke", "loose", "good", "tight", ""), Passes: pick("", "1", "2", "3", "4", "5", "12"), Spacing: figure(),
				Count: pick("", "1", "30"), Load: pick("", "0", "20", "500", "3 kg"), Length: pick("", "80", "2"), Width: pick("", "12", "0.5"), Side: pick("hollow", "round"),
			})
		}
		v, found := design.Read(d)
		require.NotEqual(t, finding.Stop, finding.Worst(found))
		p := Make(v)
		assert.True(t, p.V.Machine.Growing())
		assert.Positive(t, p.V.Sheet.T)
		for n := range p.V.Machine.Depths {
			h := p.V.Machine.Skin(n+1, p.V.Sheet.T, 0).Value
			require.True(t, h > 0 && h < p.V.Sheet.T, "skin %v of %v from %+v", h, p.V.Sheet.T, d.Strips.Readings)
		}
	}
}

// A change of air widens what moves with moisture, both ways, and the middles stay. Without a
// strip that was read before it, it says that nothing changes.
func TestAChangeOfAirWidens(t *testing.T) {
	d := ply()
	d.Strips.Readings = []design.Reading{{Kind: "skin", Passes: "1", Value: "1.5"}, {Kind: "skin", Passes: "1", Value: "1.52"}}
	dry, _ := design.Read(d)
	learn.From(&dry)
	d.Strips.Damp = true
	damp, _ := design.Read(d)
	_, found := learn.From(&damp)
	require.NotEmpty(t, found)
	for _, f := range []struct{ dry, damp stock.Figure }{
		{dry.Sheet.E, damp.Sheet.E}, {dry.Sheet.EZ, damp.Sheet.EZ}, {dry.Sheet.GXZ, damp.Sheet.GXZ}, {dry.Sheet.MOR, damp.Sheet.MOR}, {dry.Sheet.Rupture, damp.Sheet.Rupture},
	} {
		assert.Equal(t, f.dry.Value, f.damp.Value)
		if f.dry.Value > 0 {
			assert.Less(t, f.damp.Low, f.dry.Low)
			assert.Greater(t, f.damp.High, f.dry.High)
		}
	}
	assert.Equal(t, dry.Machine.Depths, damp.Machine.Depths)
	assert.Greater(t, damp.Sheet.TSpread, dry.Sheet.TSpread)
	assert.Greater(t, damp.Machine.Spreads[0], dry.Machine.Spreads[0])

	d.Strips.Readings = nil
	none, _ := design.Read(d)
	_, found = learn.From(&none)
	require.Len(t, found, 1)
	assert.Equal(t, "strips-none", found[0].ID)
	assert.Equal(t, finding.Note, found[0].Severity)
}
