package chance

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The judge is Go's own math library.
func TestGamma(t *testing.T) {
	for x := 1.0; x <= 3; x += 0.0031 {
		assert.InEpsilon(t, math.Gamma(x), gamma(x), 1e-13, x)
	}
	assert.InEpsilon(t, math.Sqrt(math.Pi)/2, gamma(1.5), 1e-13)
	assert.Panics(t, func() { gamma(0.5) })
}
