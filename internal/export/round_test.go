package export

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestLengthText(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", math.Copysign(0, -1): "0", -0.0004: "0", 0.0004: "0", 0.0005: "0.001", -0.0005: "-0.001",
		1: "1", -1: "-1", 1.5: "1.5", 2.0405: "2.041", 100.10: "100.1", 71054274e-22: "0", 123456.7894: "123456.789", 1e6: "1000000",
		0.1 + 0.2: "0.3", 999.9996: "1000", -999.9996: "-1000", 0.05: "0.05", 0.005: "0.005",
	} {
		assert.Equal(t, want, length(v))
	}
}

func TestLengthTextReadsBackAsRound(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 100000 {
		v := (r.Float64() - 0.5) * math.Exp(r.Float64()*14)
		got, err := strconv.ParseFloat(length(v), 64)
		assert.NoError(t, err)
		if got != Round(v) {
			t.Fatalf("%v: text %v, Round %v", v, got, Round(v))
		}
		if math.Abs(got-v) > Step/2*(1+1e-9) {
			t.Fatalf("%v moved to %v", v, got)
		}
		ratio := strconv.FormatFloat(math.Round(v/1000*1e9)/1e9, 'f', -1, 64)
		if ratio == "-0" {
			ratio = "0"
		}
		assert.Equal(t, ratio, string(appendRatio(nil, v/1000)))
	}
}

func TestRoundRefusesWhatIsNoLength(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1.1e6} {
		assert.Panics(t, func() { Round(v) })
		assert.Panics(t, func() { length(v) })
	}
}
