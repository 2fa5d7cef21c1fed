package coupon

import (
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is learnt steers a design, so it must be the same to the last bit on amd64 and
// under wasm; other machines may fuse products and sums.
func TestBitsAreTheSameEverywhere(t *testing.T) {
	if runtime.GOARCH != "amd64" && runtime.GOARCH != "wasm" {
		t.Skip("equal bits are promised for amd64 and wasm")
	}
	b := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .2, round: .5}
	got := Learn(handbook(), b.strip(), Owner{})
	hex := func(v float64) string { return strconv.FormatFloat(v, 'x', -1, 64) }
	assert.Equal(t, []string{"0x1.8ccd0843113a8p+11", "0x1.7c9e9e89bcc94p+00", "0x1.91dec27731ee2p-01", "0x1.6daeeaf5f45dep-07"},
		[]string{hex(got.Material.E), hex(got.Skins[0].Value), hex(got.Skins[1].Value), hex(got.Skins[1].Sigma)})
}
