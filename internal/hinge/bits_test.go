package hinge

import (
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Equal bytes of a cut file start here: amd64 and wasm agree to the last bit. Other
// machines may fuse products and sums.
func TestBitsAreTheSameEverywhere(t *testing.T) {
	if runtime.GOARCH != "amd64" && runtime.GOARCH != "wasm" {
		t.Skip("equal bits are promised for amd64 and wasm")
	}
	hex := func(v float64) string { return strconv.FormatFloat(v, 'x', -1, 64) }
	l := New(mdfSoft(), laserScore())
	c := l.At(1.6)
	f := l.Fold(.03, 1.6, 2.5, false)
	assert.Equal(t, []string{"0x1.55cd1af46129ap+05", "0x1.b76ec79bea01p-02", "0x1.4ad03f40ad459p+01", "0x1.d8e87b804020bp-01", "0x1.e0bbfacf91089p-08", "0x1.f6acce936158fp-04"},
		[]string{hex(c.Softening), hex(c.Neutral), hex(c.MouthLever), hex(c.StrainFactor), hex(f.Strain), hex(f.MouthGap)})
}
