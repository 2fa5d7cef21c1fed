package export

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// A cubic that rounds a corner within a hundredth of a millimetre comes out as arcs shorter than that:
// they are taken out, for a head stutters over them and some readers drop them.
func TestArcsOfACubicAreNotTooShort(t *testing.T) {
	p, err := plane.Parse("M 790.772 824.831 C 790.794 824.827 790.76 824.797 791.272 825.413 L 878 929 L 640 958 Z")
	require.NoError(t, err)
	short := func(p plane.Path) (n int) {
		for _, s := range p.Segs {
			if s.Length() < 0.01 {
				n++
			}
		}
		return n
	}
	bare := plane.Path{Closed: true}
	for _, s := range p.Segs {
		if s.Kind == plane.Cubic {
			bare.Segs = append(bare.Segs, arcsOf(s, 0.005)...)
		} else {
			bare.Segs = append(bare.Segs, s)
		}
	}
	require.Positive(t, short(bare), "or this shows nothing")
	assert.Zero(t, short(withArcs(p, 0.005)))
}
