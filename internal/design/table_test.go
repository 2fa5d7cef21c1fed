package design

import (
	"math/rand"
	"reflect"
	"strings"
	"testing"

	"springrib/internal/stock"
	"springrib/internal/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// leaves lists the path of every text and check box of a document.
func leaves(v reflect.Type, path string) []string {
	if v == reflect.TypeFor[Drawing]() {
		return []string{path} // one field holds it all
	}
	switch v.Kind() {
	case reflect.Struct:
		var all []string
		for i := range v.NumField() {
			name, _, _ := strings.Cut(v.Field(i).Tag.Get("json"), ",")
			all = append(all, leaves(v.Field(i).Type, strings.TrimPrefix(path+"."+name, "."))...)
		}
		return all
	case reflect.Map:
		var all []string
		for _, id := range OperationIDs() {
			all = append(all, leaves(v.Elem(), path+"."+id)...)
		}
		return all
	}
	return []string{path}
}

func TestEveryMemberOfADocumentIsAField(t *testing.T) {
	want := leaves(reflect.TypeFor[Document](), "")
	got := []string{"format", "version", "units", "cut.places"} // not asked on a card
	for _, f := range Fields() {
		got = append(got, f.Path)
	}
	assert.ElementsMatch(t, want, got)
	rows := map[string]reflect.Type{
		"curve.pieces": reflect.TypeFor[Piece](), "curve.farPieces": reflect.TypeFor[Piece](), "curve.points": reflect.TypeFor[Point](), "panel.corners": reflect.TypeFor[Corner](),
		"panel.holes": reflect.TypeFor[Hole](), "rib.places": reflect.TypeFor[RibPlace](), "strips.readings": reflect.TypeFor[Reading](),
		"cut.scrap": reflect.TypeFor[ScrapPoint](), "cut.pins": reflect.TypeFor[Pin](), "base.places": reflect.TypeFor[BasePlace](),
	}
	for _, f := range Fields() {
		if f.Kind != Rows {
			continue
		}
		var inside []string
		for _, c := range f.Columns {
			inside = append(inside, c.Path)
		}
		require.Contains(t, rows, f.Path)
		assert.ElementsMatch(t, leaves(rows[f.Path], ""), inside, f.Path)
		assert.NotEmpty(t, f.Row, f.Path)
	}
}

func TestRowsAreComplete(t *testing.T) {
	cards := map[string]bool{}
	for _, c := range Cards() {
		cards[c.ID] = true
	}
	choices := map[string]map[string]bool{}
	all := Fields()
	for _, f := range Fields() {
		all = append(all, f.Columns...)
	}
	for _, f := range all {
		assert.True(t, cards[f.Card], f.Path)
		assert.NotEmpty(t, f.Label, f.Path)
		assert.True(t, strings.HasSuffix(f.Help, ".") && strings.Count(f.Help, ". ") == 0, "%s: help is one sentence", f.Path)
		for _, text := range []string{f.Label, f.Help, f.Ask, f.Auto} {
			assert.NotContains(t, text, "!", f.Path)
			for _, w := range []string{"neutral fibre", "web", "pitch ", "coupon", "invalid"} {
				assert.NotContains(t, strings.ToLower(text), w, f.Path)
			}
		}
		assert.LessOrEqual(t, f.Min, f.Max, f.Path)
		if f.Kind == Choose {
			choices[f.Path] = map[string]bool{}
			for _, c := range f.Choices {
				assert.NotEmpty(t, c.Label)
				choices[f.Path][c.Value] = true
			}
			if f.text != "" {
				assert.True(t, choices[f.Path][f.text], f.Path)
			}
		}
		for _, term := range f.When {
			assert.NotEmpty(t, term.Values, f.Path)
			for _, v := range term.Values {
				assert.True(t, choices[term.Path][v], "%s: asks about no earlier choice: %s is %q", f.Path, term.Path, v)
			}
		}
	}
}

// Every default of a figure lies within its own bounds, for every stock and tool.
func TestDefaultsAreWithinBounds(t *testing.T) {
	stocks, tools := append(stockChoices(stock.All()), Choice{"own", ""}), []string{"laser", "router", "saw", "knife"}
	for _, s := range stocks {
		for _, tool := range tools {
			d := typedDesign()
			d.Sheet.Stock, d.Machine.Tool = s.Value, tool
			if s.Value == "own" {
				d.Sheet.E, d.Sheet.Readings = "3000", []string{"3"}
			}
			v, found := Read(d)
			require.Empty(t, found, "%s %s", s.Value, tool)
			sound(t, v)
			for _, f := range Fields() {
				if f.preset == nil || f.Path == "machine.acceleration" && tool == "saw" {
					continue
				}
				_, word := f.outside(f.preset(&v))
				assert.Empty(t, word, "%s by default is %v with %s, %s", f.Path, f.preset(&v), s.Value, tool)
			}
		}
	}
}

func TestGetAndSet(t *testing.T) {
	d := Empty()
	for _, c := range []struct{ path, text string }{
		{"name", "x"}, {"units", "in"}, {"curve.radius", "12"}, {"curve.pieces.2.length", "4 in"}, {"machine.depths.1", "2.2"},
		{"sheet.readings.0", "3"}, {"cut.operations.score.colour", "#000000"}, {"panel.tipRound", "true"}, {"machine.tested", "false"},
	} {
		before := Clone(d)
		after, ok := Set(d, c.path, c.text)
		require.True(t, ok, c.path)
		assert.Equal(t, before, d, "Set leaves its argument alone")
		got, ok := Get(after, c.path)
		assert.True(t, ok)
		assert.Equal(t, c.text, got)
		d = after
	}
	assert.Len(t, d.Curve.Pieces, 3)
	assert.Equal(t, []string{"", "2.2"}, d.Machine.Depths)
	for _, path := range []string{"", "nope", "curve", "curve.nope", "curve.radius.x", "curve.pieces", "curve.pieces.x", "curve.pieces.-1.length", "curve.pieces.60.length", "machine.depths.1000000000", "cut.operations.engrave.name", "panel.tipRound", "version", "Name", "."} {
		after, ok := Set(d, path, "maybe")
		assert.False(t, ok, path)
		assert.Equal(t, d, after)
	}
	for _, path := range []string{"", "nope", "curve.pieces.9.length", "cut.operations", "cut.operations.engrave.name", "version"} {
		_, ok := Get(d, path)
		assert.False(t, ok, path)
	}
	got, ok := Get(Document{}, "cut.operations.inner.name")
	assert.True(t, ok)
	assert.Empty(t, got)
}

func TestHolds(t *testing.T) {
	said := map[string]string{"a": "1", "b": "x"}
	look := func(p string) string { return said[p] }
	one := is("a", "1")
	for _, c := range []struct {
		when Condition
		want bool
	}{
		{nil, true}, {one, true}, {is("a", "2"), false}, {is("a", "2", "1"), true}, {one.and("b", "x"), true}, {one.and("b", "y"), false},
		{is("c", "1"), false}, {is("c", ""), true},
	} {
		assert.Equal(t, c.want, c.when.holds(look), "%v", c.when)
	}
	both, other := one.and("b", "x"), one.and("b", "y")
	assert.True(t, both.holds(look), "a condition made of another leaves that one's others alone: %v", other)
}

func TestHiddenFieldsCountForNothing(t *testing.T) {
	d := typedDesign()
	clean, _ := Read(d)
	hidden := 0
	_, _, states := ReadStates(d)
	for _, s := range states {
		if f := byPath(s.Path); !s.Shown && f.Kind != Rows && f.Kind != Check && f.Kind != Drawings {
			hidden++
			spoilt, ok := Set(d, f.Path, "rubbish")
			require.True(t, ok)
			v, found := Read(spoilt)
			assert.Empty(t, found, f.Path)
			assert.Equal(t, clean, v, f.Path)
		}
	}
	assert.Greater(t, hidden, 10)
}

func byPath(path string) Field {
	for _, f := range Fields() {
		if f.Path == path {
			return f
		}
	}
	return Field{Kind: Rows}
}

func TestConvertKeepsTheSize(t *testing.T) {
	rng := rand.New(rand.NewSource(9))
	for range 60 {
		d := typedDesign()
		d.Sheet.Readings = []string{"3.05", "3.1", " "}
		d.Machine.Depths = []string{"1.25", "2.1 mm"}
		d.Curve.Kind = []string{RadiusAngle, LengthRadius, Chain}[rng.Intn(3)]
		d.Curve.Pieces = []Piece{{Over, "100", "150"}, {Back, "2 in", "half"}}
		d.Curve.Radius = unit.Decimal(50+float64(rng.Intn(500000))/1000, 3)
		d.Curve.Length = "3 1/2" // can't be read in mm
		d.Panel.Width = "3.25 in"
		d.Machine.Speed, d.Machine.Acceleration = "120", "1500"
		d.Panel.Overrun, d.Curve.Foot = "auto", "0"
		before := Clone(d)
		in := Convert(d, "in")
		require.Equal(t, before, d)
		assert.Equal(t, "in", in.Units)
		assert.Equal(t, "3.25 in", in.Panel.Width)
		assert.Equal(t, "2.1 mm", in.Machine.Depths[1])
		assert.Equal(t, "half", in.Curve.Pieces[1].Radius)
		assert.Equal(t, "90", in.Curve.Angle)
		assert.Equal(t, "auto", in.Panel.Overrun)
		assert.Equal(t, "0", in.Curve.Foot)
		assert.Equal(t, "3 1/2", in.Curve.Length)
		back := Convert(in, "mm")
		assert.Equal(t, before.Curve.Radius, back.Curve.Radius)
		assert.Equal(t, before.Sheet.Readings, back.Sheet.Readings)
		assert.Equal(t, before.Machine, back.Machine)
		v, _ := Read(d)
		w, _ := Read(in)
		assert.InDelta(t, v.Sheet.T, w.Sheet.T, 3e-5)
		assert.InDelta(t, v.Curve.Radius, w.Curve.Radius, 3e-5)
		assert.InDelta(t, v.Machine.Speed, w.Machine.Speed, 3e-5)
		assert.InDelta(t, v.Machine.Acceleration, w.Machine.Acceleration, 3e-5)
		assert.InDelta(t, v.Panel.Width, w.Panel.Width, 1e-9)
	}
	same := Convert(typedDesign(), "mm")
	assert.Equal(t, typedDesign(), same)
	assert.Panics(t, func() { Convert(Document{}, "ell") })
	assert.Equal(t, "in", Convert(Document{Units: "ell"}, "in").Units)
}

func TestConvertSettlesAfterOneTurn(t *testing.T) {
	for _, e := range Examples() {
		in := Convert(e.Design, "in")
		mm := Convert(in, "mm")
		assert.Equal(t, string(Save(in)), string(Save(Convert(mm, "in"))))
		v, f := Read(e.Design)
		w, g := Read(in)
		assert.Equal(t, f, g)
		assert.InDelta(t, v.Panel.TipWidth, w.Panel.TipWidth, 3e-5)
	}
}

func TestControlKinds(t *testing.T) {
	known := map[string]bool{"length": true, "lengths": true, "angle": true, "number": true, "count": true, "choice": true, "check": true, "text": true, "colour": true, "rows": true, "drawing": true}
	for _, f := range Fields() {
		assert.True(t, known[f.Kind.Control()], f.Path)
	}
}
