package design

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func polygonDesign(corners ...Corner) Document {
	d := typedDesign()
	d.Panel.Shape, d.Panel.Width, d.Panel.Corners = Polygon, "", corners
	return d
}

func TestCornersAreRead(t *testing.T) {
	d := polygonDesign(Corner{"0", "-30", ""}, Corner{}, Corner{"4 in", "-30", "5"}, Corner{"50", "40", "0"})
	v, found := Read(d)
	require.Empty(t, found)
	assert.Equal(t, []CornerValues{{0, 0, -30, 0}, {2, 101.6, -30, 5}, {3, 50, 40, 0}}, v.Panel.Corners, "an empty row is no corner")
	in := Convert(d, "in")
	w, found := Read(in)
	require.Empty(t, found)
	assert.InDelta(t, 50, w.Panel.Corners[2].Along, 3e-5)
	assert.Equal(t, "4 in", in.Panel.Corners[2].Along)
}

func TestBadCornersAreFoundAtTheirPlace(t *testing.T) {
	for _, c := range []struct {
		name    string
		corners []Corner
		want    []string
	}{
		{"none", nil, []string{"field-missing panel.corners"}},
		{"one", []Corner{{"0", "0", ""}}, []string{"field-missing panel.corners"}},
		{"half a corner", []Corner{{"0", "0", ""}, {"50", "", ""}, {"50", "50", ""}}, []string{"field-missing panel.corners.1.across"}},
		{"unreadable", []Corner{{"0", "0", ""}, {"50", "x", ""}, {"50", "50", "y"}, {"0", "50", ""}},
			[]string{"field-unreadable panel.corners.1.across", "field-unreadable panel.corners.2.radius"}},
		{"two in one place", []Corner{{"0", "0", ""}, {"50", "0", ""}, {}, {"50", "0.001", ""}, {"0", "50", ""}}, []string{"corners-coincide panel.corners.3.along"}},
		{"the last on the first", []Corner{{"0", "0", ""}, {"50", "0", ""}, {"50", "50", ""}, {"0", "0", ""}}, []string{"corners-coincide panel.corners.0.along"}},
		{"in line", []Corner{{"0", "0", ""}, {"50", "25", ""}, {"100", "50", ""}, {"20", "10.001", ""}}, []string{"corners-in-line panel.corners.3.along"}},
	} {
		v, found := Read(polygonDesign(c.corners...))
		assert.Equal(t, c.want, named(found), c.name)
		sound(t, v)
		assert.GreaterOrEqual(t, len(v.Panel.Corners), 3, "%s: something stands in", c.name)
	}
}

func TestHolesAreRead(t *testing.T) {
	d := typedDesign()
	d.Panel.Holes = []Hole{{Along: "40", Across: "-5", Width: "12"}, {Kind: "slot"}, {Kind: SlotHole, Along: "90", Width: "6", Length: "30", Turn: "45"}}
	v, found := Read(d)
	require.Empty(t, found)
	assert.Equal(t, HoleValues{Along: 40, Across: -5, Width: 12, Length: 30}, v.Panel.Holes[0])
	assert.Len(t, v.Panel.Holes, 2, "a choice alone is no hole yet")
	slot := v.Panel.Holes[1]
	assert.True(t, slot.Slot)
	assert.InDelta(t, degrees(45), slot.Turn, 1e-12)
	d.Panel.Holes[2].Length = ""
	d.Panel.Holes[0].Length = "rubbish" // not asked of a round hole
	_, found = Read(d)
	assert.Equal(t, []string{"field-missing panel.holes.2.length"}, named(found))
}

func TestRibPlaces(t *testing.T) {
	d := typedDesign()
	d.Rib.Thickness, d.Rib.E = "4", "5000"
	d.Rib.Places = []RibPlace{{Across: "-20"}, {Across: "20", Stock: "birch-6", Foot: Stub}, {Across: "0", Stock: "same"}}
	v, found := Read(d)
	require.Empty(t, found)
	a, b, c := v.Rib.Places[0], v.Rib.Places[1], v.Rib.Places[2]
	assert.Equal(t, RibPlaceValues{0, -20, v.Rib.Stock, PanelStock, 4, v.Rib.E, v.Rib.MOR, Plain}, a)
	assert.Equal(t, "birch-6", b.Stock.ID)
	assert.Equal(t, "rib.places.1.stock", b.StockAt)
	assert.InDelta(t, b.Stock.Thickness.Value, b.Thickness, 1e-12, "its own, not the other ribs'")
	assert.NotEqual(t, v.Rib.E, b.E)
	assert.Equal(t, Stub, b.Foot)
	assert.InDelta(t, 4, c.Thickness, 1e-12, "the same sheet is what stands above")
	d.Rib.Places[2].Across = "-17"
	v, found = Read(d)
	assert.Equal(t, []string{"ribs-overlap rib.places.2.across"}, named(found))
	assert.Len(t, v.Rib.Places, 2)
	sound(t, v)
}

func TestADesignWithoutListsSavesNone(t *testing.T) {
	text := string(Save(typedDesign()))
	for _, word := range []string{"corners", "holes", "places", "along", "view"} {
		assert.NotContains(t, text, word)
	}
}
