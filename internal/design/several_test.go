package design

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/finding"
)

// Depths and thicknesses as people write them, all in one field.
func TestSeveralFiguresInOneField(t *testing.T) {
	for _, text := range []string{"1.2 2.0 2.35", "1.2; 2; 2,35", "1.2, 2, 2.35 mm"} {
		d := Examples()[0].Design
		d.Sheet.Readings = []string{"3.02 3.05 3", "3.01"}
		d.Machine.Depths = []string{text}
		v, found := Read(d)
		assert.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
		assert.Equal(t, []float64{1.2, 2, 2.35}, v.Machine.Depths, text)
		assert.Equal(t, []float64{3.02, 3.05, 3, 3.01}, v.Sheet.Readings)

		inches, found := Read(Convert(d, "in"))
		assert.NotEqual(t, finding.Stop, finding.Worst(found))
		require.Len(t, inches.Machine.Depths, 3)
		for i, depth := range inches.Machine.Depths {
			assert.InDelta(t, v.Machine.Depths[i], depth, 2e-5)
		}
	}
	d := Examples()[0].Design
	d.Sheet.Readings = []string{strings.Repeat("3 ", 10000)}
	v, found := Read(d)
	assert.Len(t, v.Sheet.Readings, maxList)
	assert.Equal(t, finding.Stop, finding.Worst(found))
	assert.Less(t, len(found), 5)
}
