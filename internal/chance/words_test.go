package chance

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestOneIn(t *testing.T) {
	for x, want := range map[float64]string{0.55: "about 6 panels in 10", 0.2: "about 1 panel in 5", 0.023: "about 1 panel in 45", 0.0089: "about 1 panel in 110",
		0.0001591: "about 1 panel in 6500", 1e-9: "fewer than 1 panel in 10000"} {
		assert.Equal(t, want, OneIn(x))
	}
}
