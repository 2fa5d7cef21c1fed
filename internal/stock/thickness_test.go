package stock

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Birch plywood as sold: Handbook of Finnish Plywood (2007), standard constructions, from
// memory, confidence high.
func TestPliesByThickness(t *testing.T) {
	for thick, n := range map[float64]int{4: 3, 6.5: 5, 9: 7, 12: 9, 15: 11, 18: 13, 21: 15, 24: 17} {
		s, _ := Lookup("birch")
		assert.Len(t, s.Of(thick).Plies, n, "%v mm", thick)
	}
	// Mean moduli for the mean thickness of 17.6 mm, along and across, for a veneer of 17,500
	// N/mm² with nothing across (same handbook, from memory, confidence fair).
	along, cross := Laminate(evenPlies(17.6, 1.4), 17500, 0)
	assert.InDelta(t, 10048, along, 2)
	assert.InDelta(t, 7452, cross, 2)
}

// The figures follow a thickness that was measured, and the name promises no other.
func TestWhatIsKnownByThickness(t *testing.T) {
	s, ok := Lookup("mdf-6")
	require.True(t, ok)
	assert.Equal(t, "MDF 6 mm", s.Of(6.2).Name, "within a quarter of its name")
	thick := s.Of(18)
	assert.Equal(t, "MDF", thick.Name)
	assert.Equal(t, "mdf-6", thick.ID, "readings of strips know it by that")
	assert.Less(t, thick.MORAlong.Low, s.MORAlong.Low)
	assert.Less(t, thick.EAlong.Low, s.EAlong.Low)
	assert.InDelta(t, 18, thick.Thickness.Value, 0)
	for _, s := range All() {
		for _, mm := range []float64{0.5, 1.2, 9, 25} {
			o := s.Of(mm)
			assert.Equal(t, s.Laser, o.Laser, "%s at %v mm", s.ID, mm)
			assert.Equal(t, s.Family, o.Family, s.ID)
			for name, f := range figures(o) {
				if f.Given() {
					assert.LessOrEqual(t, f.Low, f.Value, "%s %s at %v", s.ID, name, mm)
					assert.GreaterOrEqual(t, f.High, f.Value, "%s %s at %v", s.ID, name, mm)
				}
			}
		}
	}
}

// Every material can be had in a thickness of its own, and what must not meet a laser in
// one thickness must not in any.
func TestMaterials(t *testing.T) {
	unsized := 0
	for _, s := range Choices() {
		got, ok := Lookup(s.ID)
		require.True(t, ok, s.ID)
		assert.Equal(t, s, got)
		if s.Unsized {
			unsized++
			assert.NotContains(t, s.Name, " mm")
		}
	}
	assert.Equal(t, 7, unsized)
	pvc, _ := Lookup("pvc")
	assert.True(t, pvc.Laser.Never)
	assert.Equal(t, "Rigid PVC (not for the laser)", pvc.Name)
}
