package solve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The judge is Go's own math library, whose error functions follow W. J. Cody and FDLIBM.
func TestNormal(t *testing.T) {
	for x := -36.9; x < 9; x += 0.0137 {
		want := math.Erfc(-x/math.Sqrt2) / 2
		assert.InEpsilon(t, want, Normal(x), 1e-12, x)
		assert.InDelta(t, want, Normal(x), 2e-14, x)
	}
	assert.Zero(t, Normal(math.Inf(-1)))
	assert.Equal(t, 1.0, Normal(math.Inf(1)))
	assert.InDelta(t, 0.975, Normal(1.959963984540054), 1e-14, "the 97.5th percentile, from any table")
}

func BenchmarkNormal(b *testing.B) {
	sum := 0.0
	for i := 0; b.Loop(); i++ {
		sum += Normal(float64(i%1000)/100 - 5)
	}
}
