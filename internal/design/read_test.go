package design

import (
	"math"
	"math/rand"
	"reflect"
	"strings"
	"testing"

	"springrib/internal/machine"
	"springrib/internal/stock"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typedDesign is one with every question answered, so that a test can spoil one field.
func typedDesign() Document {
	d := Empty()
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width = "120", "90", "80"
	return d
}

// sound checks that a Values can be computed with: every figure is finite and every
// bound that the mechanics rest on holds, whatever the document said.
func sound(t testing.TB, v Values) {
	t.Helper()
	finite(t, reflect.ValueOf(v), "")
	s, m := v.Sheet, v.Machine
	require.Positive(t, s.T)
	for _, f := range []stock.Figure{s.E, s.EZ, s.GXZ, s.Rupture, s.MOR, s.Density, s.InternalBond, v.Rib.E, v.Rib.MOR, v.Rib.GlueBond} {
		require.Positive(t, f.Value)
		require.Positive(t, f.Low)
		require.LessOrEqual(t, f.Low, f.Value*(1+1e-12))
		require.GreaterOrEqual(t, f.High, f.Value*(1-1e-12))
	}
	require.NotEmpty(t, m.Depths)
	require.True(t, m.Growing())
	for n := range m.Depths {
		h := m.Skin(n+1, s.T, 0).Value
		require.True(t, h > 0.02 && h < s.T, "skin %v of %v", h, s.T)
	}
	require.Positive(t, m.ScoreWidth)
	require.Positive(t, m.Speed)
	require.Positive(t, v.Panel.Quantity)
	require.Positive(t, v.Rib.Quantity)
	require.GreaterOrEqual(t, v.Panel.StrainSafe, 1.0)
	if v.Curve.Kind == Chain {
		require.NotEmpty(t, v.Curve.Pieces)
	}
	for _, o := range v.Cut.Operations {
		require.Regexp(t, "^#[0-9A-F]{6}$", o.Colour)
		require.NotEmpty(t, o.Name)
	}
}

func finite(t testing.TB, v reflect.Value, path string) {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("%s is %v", path, x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			finite(t, v.Index(i), path)
		}
	}
}

func TestAnEmptyDesignAsksForThreeThings(t *testing.T) {
	v, found := Read(Empty())
	assert.Equal(t, []string{"field-missing curve.radius", "field-missing curve.angle", "field-missing panel.width"}, named(found))
	sound(t, v)
	_, found = Read(typedDesign())
	assert.Empty(t, found)
	v, found = Read(Document{})
	assert.Len(t, found, 3, "nothing at all reads like an empty design")
	sound(t, v)
}

func TestDefaults(t *testing.T) {
	d := typedDesign()
	d.Sheet.Readings = []string{"3.1", "", "3.14"}
	v, found := Read(d)
	require.Empty(t, found)
	assert.InDelta(t, 3.12, v.Sheet.T, 1e-12)
	assert.True(t, v.Sheet.Measured)
	assert.InDelta(t, 6.24, v.Curve.Foot, 1e-12, "twice the thickness")
	assert.InDelta(t, 6.24, v.Curve.Tip, 1e-12)
	assert.InDelta(t, 0.15, v.Panel.StandOff, 1e-12)
	assert.InDelta(t, 1.5, v.Panel.StrainSafe, 0)
	assert.InDelta(t, 1.1, v.Panel.ClosingSafe, 0)
	assert.InDelta(t, 1.5*math.Pi/180, v.Panel.FoldLimit, 1e-12)
	assert.Equal(t, machine.Defaults(machine.Laser, 3.12), v.Machine.Setup)
	assert.False(t, v.Machine.Typed)
	assert.Zero(t, v.Panel.Passes)
	assert.False(t, v.Panel.Overrun.OK)
	assert.False(t, v.Rib.Short.OK)
	assert.Equal(t, 7.0, v.Panel.Overrun.Or(7))
	assert.Equal(t, PanelStock, v.Rib.StockAt)
	assert.InDelta(t, 3.12, v.Rib.Thickness, 1e-12)
	assert.Equal(t, v.Sheet.InternalBond, v.Rib.GlueBond)
	assert.InDelta(t, 120, v.Cut.Operations[0].Speed, 0)
	assert.Equal(t, 0, v.Cut.Operations[0].Passes)
	assert.Equal(t, 1, v.Cut.Operations[3].Passes)
	assert.InDelta(t, 0.010, v.Sheet.Rupture.Value, 1e-12)
	v, _ = Read(typedDesign())
	assert.False(t, v.Sheet.Measured)
	assert.InDelta(t, 3, v.Sheet.T, 0)
	assert.InDelta(t, 0.2, v.Sheet.TSpread, 1e-12, "the tolerance as sold")
}

func TestWidthOfATaperIsItsGreatest(t *testing.T) {
	v, _ := Read(readingTray())
	assert.InDelta(t, 60, v.Panel.Width, 0)
}

func TestToolDecidesTheMachine(t *testing.T) {
	for _, c := range []struct {
		tool string
		want machine.Tool
	}{{"laser", machine.Laser}, {"router", machine.Router}, {"saw", machine.Saw}, {"knife", machine.Knife}} {
		d := typedDesign()
		d.Machine.Tool = c.tool
		v, found := Read(d)
		require.Empty(t, found)
		assert.Equal(t, machine.Defaults(c.want, v.Sheet.T), v.Machine.Setup, c.tool)
	}
	d := typedDesign()
	d.Machine.Reference = "table"
	v, found := Read(d)
	require.Empty(t, found)
	assert.Equal(t, machine.Table, v.Machine.Reference)
	assert.InDelta(t, 3-2.19, v.Machine.Depths[1], 1e-9, "the same scores, told from the table")
	sound(t, v)
}

func TestGrain(t *testing.T) {
	d := typedDesign()
	d.Sheet.Stock = "birch-4"
	s, _ := stock.Lookup("birch-4")
	for _, c := range []struct {
		grain, angle string
		e            float64
		toScores     float64
	}{
		{"", "", s.EAlong.Value, 90}, {"across", "", s.EAlong.Value, 90}, {"along", "", s.ECross.Value, 0},
		{"angle", "30", stock.OffAxis(s.EAlong.Value, s.ECross.Value, 650, 0.08, degrees(60)), 30},
		{"30", "", stock.OffAxis(s.EAlong.Value, s.ECross.Value, 650, 0.08, degrees(60)), 30},
		{"none", "", s.EAlong.Value, 90},
	} {
		d.Sheet.Grain, d.Sheet.GrainAngle = c.grain, c.angle
		v, found := Read(d)
		require.Empty(t, found, c.grain)
		assert.InEpsilon(t, c.e, v.Sheet.E.Value, 1e-9, c.grain)
		assert.InDelta(t, degrees(c.toScores), v.Sheet.GrainToScores, 1e-9, c.grain)
		assert.Equal(t, c.grain != "none", v.Sheet.Grained)
	}
}

func TestTypedFiguresReplaceTheHandbook(t *testing.T) {
	d := typedDesign()
	d.Sheet.E, d.Sheet.MOR, d.Sheet.EZ, d.Sheet.GXZ = "4 GPa", "30", "120", "90 MPa"
	v, found := Read(d)
	require.Empty(t, found)
	assert.InDelta(t, 4000, v.Sheet.E.Value, 1e-9)
	assert.Equal(t, stock.Typed, v.Sheet.E.Grade)
	assert.InDelta(t, 0.0075, v.Sheet.Rupture.Value, 1e-12, "strength over modulus")
	assert.InDelta(t, 120, v.Sheet.EZ.Value, 0)
	assert.InDelta(t, 90, v.Sheet.GXZ.Value, 0)
	d.Sheet.StrainLimit = "1.8 %"
	v, _ = Read(d)
	assert.InDelta(t, 0.018, v.Sheet.Rupture.Value, 1e-12)
	assert.False(t, v.Sheet.StrainTested)
	d.Sheet.StrainTested = true
	v, _ = Read(d)
	assert.Equal(t, stock.Tested, v.Sheet.Rupture.Grade)
	d.Sheet.StrainLimit = ""
	v, _ = Read(d)
	assert.False(t, v.Sheet.StrainTested, "ticked, but nothing written")
}

func TestOwnSheet(t *testing.T) {
	d := typedDesign()
	d.Sheet = Sheet{Stock: "own", OwnName: "Shed ply", OwnKind: "wood", E: "5000", MOR: "40", OwnDensity: "0.6 g/cm3", Readings: []string{"5.1", "5.2"}, Grain: "along"}
	v, found := Read(d)
	require.Empty(t, found)
	assert.Equal(t, "Shed ply", v.Sheet.Stock.Name)
	assert.False(t, v.Sheet.Stock.Laser.Never)
	assert.InDelta(t, 0.008, v.Sheet.Rupture.Value, 1e-12)
	assert.InDelta(t, 600, v.Sheet.Density.Value, 1e-9)
	assert.InDelta(t, 5000, v.Rib.E.Value, 1e-9, "the rib is cut from it too")
	assert.InDelta(t, 5.15, v.Rib.Thickness, 1e-9)
	for _, kind := range []string{"", "unknown"} {
		d.Sheet.OwnKind = kind
		v, _ = Read(d)
		assert.True(t, v.Sheet.Stock.Laser.Never, "an unknown plastic stays off the laser")
	}
	d.Sheet.OwnKind = "acrylic"
	v, _ = Read(d)
	assert.False(t, v.Sheet.Stock.Laser.Never)
	assert.InDelta(t, 5000, v.Sheet.EZ.Value, 1e-9)
}

func TestRibOfOtherStock(t *testing.T) {
	d := typedDesign()
	d.Rib.Stock = "birch-6"
	v, found := Read(d)
	require.Empty(t, found)
	assert.Equal(t, "rib.stock", v.Rib.StockAt)
	assert.InDelta(t, 6, v.Rib.Thickness, 0)
	assert.Greater(t, v.Rib.E.Value, 5000.0)
	assert.Less(t, v.Rib.E.Value, 10000.0, "on edge the cross plies carry little")
}

func TestTroubleStaysAtItsField(t *testing.T) {
	clean, _ := Read(typedDesign())
	for _, f := range Fields() {
		if f.Kind == Text || f.Kind == Check || f.Kind == Lengths || f.Kind == Rows || f.When != nil && f.Path != "curve.radius" {
			continue
		}
		d, ok := Set(typedDesign(), f.Path, "rubbish?")
		require.True(t, ok, f.Path)
		before := Clone(d)
		v, found := Read(d)
		require.Equal(t, []string{"field-unreadable " + f.Path}, named(found))
		assert.True(t, strings.HasPrefix(found[0].Text, f.Label+": "), found[0].Text)
		assert.Equal(t, before, d, "nothing typed is lost")
		if f.Ask == "" {
			assert.Equal(t, clean, v, "%s: the default stands in", f.Path)
		}
		sound(t, v)
		mended(t, d, found)
	}
}

func TestEveryBoundHolds(t *testing.T) {
	for _, f := range Fields() {
		if f.Min == 0 && f.Max == 0 || f.Kind == Lengths || f.When != nil {
			continue
		}
		for _, c := range []struct {
			v  float64
			ok bool
		}{{f.Min, true}, {f.Max, true}, {f.Min - 0.01*(f.Max-f.Min), false}, {f.Max * 1.01, false}} {
			if f.Kind == Count && !c.ok {
				c.v = math.Round(c.v) + map[bool]float64{true: 1, false: -1}[c.v > f.Max]
			}
			d, _ := Set(typedDesign(), f.Path, f.store(c.v))
			_, found := Read(d)
			if c.ok {
				assert.NotContains(t, named(found), "field-range "+f.Path, "%v", c.v)
				continue
			}
			require.Contains(t, named(found), "field-range "+f.Path, "%v", c.v)
			mended(t, d, found)
		}
	}
}

func TestBareFractionIsSpelledOut(t *testing.T) {
	d := typedDesign()
	d.Panel.Width = "3 1/8"
	_, found, states := ReadStates(d)
	require.Len(t, found, 1)
	assert.Equal(t, "Width: 3 1/8 of what? Write 3 1/8 in or 79.4 mm.", found[0].Text)
	require.Len(t, found[0].Remedies, 2)
	assert.Equal(t, map[string]string{"panel.width": "3 1/8 in"}, found[0].Remedies[0].Set)
	for _, s := range states {
		if s.Path == "panel.width" {
			assert.Equal(t, "3 1/8 of what? Write 3 1/8 in or 79.4 mm.", s.Problem)
		}
	}
	mended(t, d, found)
}

func TestStatesTellDefaultsAndMeaning(t *testing.T) {
	d := typedDesign()
	d.Curve.Radius, d.Sheet.Readings, d.Curve.Foot = "4 1/2 in", []string{"3", "x"}, "10"
	_, _, states := ReadStates(d)
	by := map[string]State{}
	for _, s := range states {
		by[s.Path] = s
	}
	assert.Equal(t, "114.3 mm", by["curve.radius"].Means)
	assert.Empty(t, by["curve.foot"].Means)
	assert.Equal(t, "6 mm", by["curve.tip"].Default)
	assert.Contains(t, by["sheet.readings.1"].Problem, "not a figure")
	assert.False(t, by["curve.span"].Shown)
	assert.True(t, by["panel.width"].Shown)
	assert.Equal(t, "3590 MPa, handbook, 2700 MPa to 4300 MPa", by["sheet.e"].Default)
	assert.Contains(t, by["sheet.ez"].Default, "a guess")
	for _, f := range Fields() {
		_, ok := by[f.Path]
		assert.True(t, ok, f.Path)
	}
}

func TestFirstBendNamesTheSides(t *testing.T) {
	d := typedDesign()
	d.Curve = Curve{Kind: Chain, Pieces: []Piece{{Straight, "30", ""}, {Back, "100", "150"}, {Over, "60", "4 in"}}}
	v, found := Read(d)
	assert.Equal(t, []PieceValues{{Turn: Straight, Length: 30}, {Over, 100, 150}, {Back, 60, 101.6}}, v.Curve.Pieces)
	require.Len(t, found, 1)
	mended(t, d, found)
	d.Curve.Pieces[1].Radius = "1/8"
	d.Curve.Pieces[2].Length = ""
	_, found = Read(d)
	assert.Equal(t, []string{"field-unreadable curve.pieces.1.radius", "field-missing curve.pieces.2.length", "first-bend curve.pieces"}, named(found))
}

func TestLongListsAreBounded(t *testing.T) {
	d := typedDesign()
	d.Curve.Kind, d.Curve.Pieces = Chain, make([]Piece, 5000)
	d.Sheet.Readings, d.Machine.Depths = make([]string, 5000), make([]string, 5000)
	v, found := Read(d)
	assert.Len(t, v.Curve.Pieces, maxList)
	assert.Contains(t, named(found), "field-range curve.pieces")
	assert.Contains(t, named(found), "field-range sheet.readings")
	assert.Less(t, len(found), 3*maxList)
}

func TestExamplesReadCleanly(t *testing.T) {
	for _, e := range Examples() {
		v, found := Read(e.Design)
		assert.Empty(t, found, e.ID)
		sound(t, v)
		assert.Contains(t, e.Title, "invented")
		h := v.Machine.Skin(2, v.Sheet.T, 0).Value / v.Sheet.T
		assert.True(t, h > 0.24 && h < 0.32, "%s: two passes leave %.2f of the sheet", e.ID, h)
	}
}

// Property: whatever is typed wherever, Read gives values that can be computed with,
// findings at fields that exist, and leaves the document alone.
func TestAnythingTypedAnywhere(t *testing.T) {
	rng := rand.New(rand.NewSource(8))
	texts := []string{"", "auto", "0", "-1", "3", "3.2 mm", "1/16", "1/16 in", "2 1/", "1e308", "NaN", "9999", "90°", "1.5 rad", "50 %", "0.001", "1,234", "abc", "own", "chain", "along", "table", "taper", "stub", "true", "#12345", "#aabbcc", "saw", "length-radius", "birch-4", strings.Repeat("9", 500), "\xff"}
	fields := Fields()
	for range 400 {
		d := Empty()
		d.Units = []string{"mm", "in", "", "ell"}[rng.Intn(4)]
		for range rng.Intn(30) {
			f := fields[rng.Intn(len(fields))]
			path := f.Path
			switch f.Kind {
			case Lengths:
				path = index(path, rng.Intn(4))
			case Rows:
				path = index(path, rng.Intn(4)) + "." + f.Columns[rng.Intn(len(f.Columns))].Path
			case Choose:
				if rng.Intn(3) > 0 {
					d, _ = Set(d, path, f.Choices[rng.Intn(len(f.Choices))].Value)
					continue
				}
			}
			d, _ = Set(d, path, texts[rng.Intn(len(texts))])
		}
		before := Clone(d)
		v, found := Read(d)
		sound(t, v)
		require.Equal(t, before, d)
		for _, f := range found {
			require.NotEmpty(t, f.Place.Field)
			require.NotContains(t, f.Text, "!")
			require.Less(t, len(f.Text), 400)
		}
		mended(t, d, found)
	}
}

func FuzzRead(f *testing.F) {
	f.Add("curve.radius", "1/16", "mm", "panel.width", "9e9")
	f.Add("machine.depths.1", "0.02", "in", "sheet.readings.0", "0.25")
	f.Add("sheet.stock", "own", "mm", "sheet.e", "250000")
	f.Add("curve.pieces.3.turn", "back", "mm", "curve.kind", "chain")
	f.Fuzz(func(t *testing.T, path, text, units, path2, text2 string) {
		d := typedDesign()
		d.Units = units
		d, _ = Set(d, path, text)
		d, _ = Set(d, path2, text2)
		v, found := Read(d)
		sound(t, v)
		mended(t, d, found)
	})
}

func BenchmarkRead(b *testing.B) {
	d := Examples()[1].Design
	for b.Loop() {
		ReadStates(d)
	}
}
