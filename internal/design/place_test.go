package design

import (
	"fmt"
	"reflect"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A row of the table puts what is read in a member that can hold it and that no other row
// has.
func TestEveryFieldHasAPlaceOfItsOwn(t *testing.T) {
	holds := map[Kind][]reflect.Type{
		Choose: {reflect.TypeFor[string]()}, Text: {reflect.TypeFor[string]()}, Colour: {reflect.TypeFor[string]()},
		Check: {reflect.TypeFor[bool]()}, Count: {reflect.TypeFor[int]()}, Drawings: {reflect.TypeFor[Drawing]()},
	}
	figure := []reflect.Type{reflect.TypeFor[float64](), reflect.TypeFor[Opt]()}
	taken, plain := map[string]string{}, 0
	var look func(fields []Field, of reflect.Value, list string)
	look = func(fields []Field, of reflect.Value, list string) {
		for _, f := range fields {
			if f.into != nil || f.list != nil {
				assert.Empty(t, f.to, "%s%s has two places", list, f.Path)
				continue
			}
			place := list + fmt.Sprint(f.member)
			assert.Empty(t, taken[place], "%s%s takes the place of another", list, f.Path)
			taken[place] = f.Path
			got := f.in(of)
			if f.Kind == Rows {
				require.Equal(t, reflect.Slice, got.Kind(), f.Path)
				look(f.Columns, reflect.New(got.Type().Elem()).Elem(), f.Path+" ")
				continue
			}
			plain++
			want := holds[f.Kind]
			if want == nil {
				want = figure
			}
			assert.Contains(t, want, got.Type(), "%s%s", list, f.Path)
		}
	}
	look(Fields(), reflect.ValueOf(new(Values)).Elem(), "")
	assert.Greater(t, plain, 120)
	assert.PanicsWithValue(t, "design: nothing takes curve.nothing", func() {
		f := Field{Path: "curve.nothing", Kind: Length}
		f.settle(reflect.TypeFor[Values]())
	})
}

// A list that is longer than what is read of it stops the design, and the rest of it counts.
func TestListsAreBounded(t *testing.T) {
	for _, f := range Fields() {
		if f.Kind != Rows {
			continue
		}
		most := maxList
		if f.Path == "curve.points" {
			most = 500
		}
		for _, n := range []int{most, most + 1} {
			d := typedDesign()
			for _, term := range f.When {
				d, _ = Set(d, term.Path, term.Values[0])
			}
			list := memberAt(&d, f.Path)
			list.Set(reflect.MakeSlice(list.Type(), n, n))
			for i := range n {
				for c := range f.Columns {
					if f.Columns[c].Kind == Length {
						require.True(t, set(reflect.ValueOf(&d).Elem(), index(f.Path, i)+"."+f.Columns[c].Path, strconv.Itoa(i+1)))
					}
				}
			}
			v, found := Read(d)
			over := 0
			for _, x := range found {
				if x.Place.Field == f.Path && x.ID == "field-range" || f.Path == "strips.readings" && x.ID == "field-range" {
					over++
					assert.Equal(t, f.Label+": "+strconv.Itoa(n)+" are too many. "+strconv.Itoa(most)+" are read.", x.Text)
				}
			}
			assert.Equal(t, n-most, over, "%s, %d", f.Path, n)
			if f.Path == "curve.points" {
				assert.Len(t, v.Curve.Points, most)
				assert.Equal(t, most-1, v.Curve.PointRows[most-1])
			}
		}
	}
}

// Every entry of a list takes the new unit, however long the list is.
func TestConvertTakesAllPoints(t *testing.T) {
	d := typedDesign()
	d.Curve.Kind = Points
	for i := range 200 {
		d.Curve.Points = append(d.Curve.Points, Point{X: strconv.Itoa(3 * i), Y: strconv.Itoa(i % 7)})
	}
	mm, found := Read(d)
	require.Empty(t, found)
	in, found := Read(Convert(d, "in"))
	require.Empty(t, found)
	require.Len(t, in.Curve.Points, 200)
	for i, at := range mm.Curve.Points {
		assert.InDelta(t, at[0], in.Curve.Points[i][0], 3e-5, i)
		assert.InDelta(t, at[1], in.Curve.Points[i][1], 3e-5, i)
	}
}

func TestFieldsAreFoundInLists(t *testing.T) {
	for path, label := range map[string]string{
		"curve.radius": "Radius", "panel.holes.12.along": "Along", "sheet.readings.3": "Thickness, as measured", "cut.operations.mark.name": "Marks are called",
		"panel.holes": "Holes", "panel.holes.2": "", "panel.holes.2.nothing": "", "curve.radiu": "", "curve.radius.x": "", "": "",
	} {
		f, ok := At(path)
		assert.Equal(t, label != "", ok, path)
		assert.Equal(t, label, f.Label, path)
	}
}
