package stock

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The veneer found from a sheet's moduli gives them back, and is wood: along the grain
// several times as stiff as across (birch, Wood Handbook FPL-GTR-190, 2010, tables 5-1 and
// 5-3: E_L 13.9 GPa, E_T/E_L 0.050).
func TestVeneerGivesTheSheetBack(t *testing.T) {
	n := 0
	for _, s := range All() {
		el, et := s.Veneer()
		if len(s.Plies) == 0 {
			assert.Zero(t, el)
			continue
		}
		n++
		along, cross := Laminate(s.Plies, el, et)
		assert.InEpsilon(t, s.EAlong.Value, along, 1e-9, s.ID)
		assert.InEpsilon(t, s.ECross.Value, cross, 1e-9, s.ID)
		assert.Positive(t, et, s.ID)
		assert.Greater(t, el, 4*et, s.ID)
	}
	assert.Greater(t, n, 2)
}
