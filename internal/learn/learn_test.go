package learn

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/design"
	"springrib/internal/machine"
)

func ExampleFrom() {
	d := design.Empty()
	d.Machine.Depths = []string{"1.8"}
	d.Strips.Readings = []design.Reading{{Kind: "skin", Passes: "1", Value: "1.0"}, {Kind: "skin", Passes: "1", Value: "1.0"}}
	v, _ := design.Read(d)
	r, said := From(&v)
	fmt.Printf("%d readings of a skin of %.1f mm; the depth is %.1f mm now; in doubt: %d\n",
		r.Learned.Skins[0].N, r.Learned.Skins[0].Value, v.Machine.Depths[0], len(said))
	// Output: 2 readings of a skin of 1.0 mm; the depth is 2.0 mm now; in doubt: 0
}

func TestDepthsKeepGrowing(t *testing.T) {
	assert.Equal(t, []float64{1, 1.01, 2}, growing([]float64{1, 0.9, 2}, machine.Top, 3))
	assert.Equal(t, []float64{1, 2}, growing([]float64{1, 2, 2.99}, machine.Top, 3))
	assert.Equal(t, []float64{1, 0.99, 0.5}, growing([]float64{1, 1.2, 0.5}, machine.Table, 3))
	assert.InDelta(t, 1.1, nearest([]float64{0, 1.1, 0, 0.9}, 2), 0)
	assert.InDelta(t, 1, nearest([]float64{0, 0}, 0), 0)
}
