package design

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/finding"
)

// A sheet is of whatever thickness it is measured: nothing is said against 18 mm, and a
// wrong unit is told of.
func TestAnyThickness(t *testing.T) {
	for _, c := range []struct {
		stock, reading, name string
		odd                  bool
	}{
		{"mdf-6", "18", "MDF", false}, {"mdf-3", "3.1", "MDF 3 mm", false}, {"birch", "12", "Birch plywood", false},
		{"acrylic", "5", "Cast acrylic", false}, {"mdf", "0.3", "MDF", true}, {"mdf-3", "28", "MDF", true},
	} {
		d := typedDesign()
		d.Sheet.Stock, d.Sheet.Readings = c.stock, []string{c.reading}
		v, found := Read(d)
		assert.Equal(t, c.name, v.Sheet.Stock.Name, c.stock)
		odd := false
		for _, f := range found {
			odd = odd || f.ID == "thickness-odd"
		}
		assert.Equal(t, c.odd, odd, "%s %s: %+v", c.stock, c.reading, found)
	}
	d := typedDesign()
	d.Sheet.Stock, d.Sheet.Readings = "mdf", nil
	_, found := Read(d)
	assert.Equal(t, finding.Stop, finding.Worst(found), "without a thickness by name one has to be typed")
	d = typedDesign()
	d.Rib.Stock, d.Rib.Thickness = "mdf-6", "18"
	v, _ := Read(d)
	assert.Equal(t, "MDF", v.Rib.Stock.Name)
	// So it is for one rib of its own, and for the base: 18 N/mm² is asked of board of more than 19 mm
	// (EN 622-5, as in package stock), 23 of one of 6 mm.
	d = typedDesign()
	d.Rib.Foot, d.Base.Kind, d.Base.Stock, d.Base.Thickness = Tenon, RowBase, "mdf-6", "22"
	d.Rib.Places = []RibPlace{{Across: "-20", Stock: "mdf-6", Thickness: "22"}, {Across: "20", Stock: "mdf-6"}}
	v, _ = Read(d)
	assert.Equal(t, "MDF", v.Base.Stock.Name)
	assert.Equal(t, []string{"MDF", "MDF 6 mm"}, []string{v.Rib.Places[0].Stock.Name, v.Rib.Places[1].Stock.Name})
	assert.InDelta(t, 18, v.Rib.Places[0].MOR.Low, 0.01)
	assert.Greater(t, v.Rib.Places[1].MOR.Low, 18.0)
}

// A sheet of one's own starts from what it is made of: its stiffness is a guess with a
// wide range, and a plastic that nobody named stays off the laser.
func TestOwnSheetStartsFromAKind(t *testing.T) {
	for kind, never := range map[string]bool{"wood": false, "acrylic": false, "plastic": true} {
		d := typedDesign()
		d.Sheet = Sheet{Stock: "own", OwnKind: kind, Readings: []string{"4"}}
		v, found := Read(d)
		assert.NotEqual(t, finding.Stop, finding.Worst(found), "%s: %+v", kind, found)
		assert.Equal(t, never, v.Sheet.Stock.Laser.Never, kind)
		assert.Contains(t, tell(Stress, v.Sheet.E), "a guess", kind)
		assert.Greater(t, v.Sheet.E.High/v.Sheet.E.Low, 1.15, kind)
	}
}

// What is set from the table is the skin left, and the field says so.
func TestASawAsksForSkinLeft(t *testing.T) {
	d := typedDesign()
	d.Machine = Machine{Tool: "saw"}
	_, _, states := ReadStates(d)
	said := map[string]State{}
	for _, s := range states {
		said[s.Path] = s
	}
	assert.Equal(t, "Skin left after each pass", said["machine.depths"].Label)
	d.Machine.Depths = []string{"0.9"}
	_, _, states = ReadStates(d)
	for _, s := range states {
		said[s.Path] = s
	}
	assert.Equal(t, "Skin left after each pass", said["machine.depths"].Label)
}
