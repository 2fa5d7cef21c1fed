package unit

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFormatted(t *testing.T) {
	for _, c := range []struct{ want, got string }{
		{"2.6 mm", Length(2.6, MM)}, {"3.92 mm", Length(3.92, MM)}, {"57.2 mm", Length(57.15001, MM)}, {"118.4 mm", Length(118.41, MM)},
		{"120 mm", Length(120.04, MM)}, {"10 mm", Length(9.996, MM)}, {"0 mm", Length(-0.001, MM)}, {"-0.15 mm", Length(-0.15, MM)},
		{"1 9/16 in", Length(39.6875, Inch)}, {"1 9/16 in", Length(39.7, Inch)}, {"1/8 in", Length(3.175, Inch)}, {"2 in", Length(50.8, Inch)},
		{"0.116 in", Length(2.9464, Inch)}, {"0.008 in", Length(0.2, Inch)}, {"-1/2 in", Length(-12.7, Inch)}, {"0.031 in", Length(0.79375, Inch)}, {"0 in", Length(0, Inch)},
		{"0.203 mm", LengthFine(0.2034, MM)}, {"0.0079 in", LengthFine(0.2, Inch)}, {"1.5625 in", LengthFine(39.6875, Inch)},
		{"16.85 mm", LengthFit(16.854, MM)}, {"3 mm", LengthFit(3, MM)}, {"0.125 in", LengthFit(3.175, Inch)}, {"0.122 in", LengthFit(3.1, Inch)}, {"without limit", LengthFit(math.Inf(1), MM)},
		{"1 score", Plural(1, "score")}, {"0 scores", Plural(0, "score")}, {"1 pass", Plural(1, "pass")}, {"3 passes", Plural(3, "pass")},
		{"", List(nil)}, {"ash", List([]string{"ash"})}, {"ash and oak", List([]string{"ash", "oak"})}, {"ash, oak and elm", List([]string{"ash", "oak", "elm"})},
		{"90°", Angle(math.Pi / 2)}, {"1.53°", Angle(1.53 * degree)}, {"22.5°", Angle(math.Pi / 8)},
		{"0.78", Ratio(0.784)}, {"1.00", Ratio(1)}, {"12.3", Ratio(12.34)}, {"120", Ratio(120.2)}, {"0.00", Ratio(-0.001)},
		{"0.66-0.91", Range(0.66, 0.914)}, {"0.66", Range(0.66, 0.6601)}, {"above 0.66", Range(0.66, math.Inf(1))},
		{"2.4-2.7 mm", LengthRange(2.4, 2.7, MM)}, {"above 38 mm", LengthRange(38, math.Inf(1), MM)}, {"1/4-1/2 in", LengthRange(6.35, 12.7, Inch)},
		{"0.99 %", Percent(0.0099)}, {"1.23 %", Percent(0.01234)}, {"12.3 %", Percent(0.1234)},
		{"85 g", Mass(85*NPerGram, MM)}, {"8.5 g", Mass(8.5*NPerGram, MM)}, {"1.24 kg", Mass(12.16, MM)}, {"3 oz", Mass(85*NPerGram, Inch)}, {"2.2 lb", Mass(9.80665, Inch)},
		{"3590 MPa", Stress(3590)}, {"35.9 MPa", Stress(35.85)}, {"0.65 MPa", Stress(0.65)},
		{"120 mm/s", Speed(120, MM)}, {"5 in/s", Speed(127, Inch)},
		{"45 s", Time(45)}, {"3 min 20 s", Time(200)}, {"2 min", Time(119.6)}, {"3 min", Time(179.7)},
		{"unknown", Length(math.NaN(), MM)}, {"without limit", Length(math.Inf(1), Inch)}, {"below any limit", Decimal(math.Inf(-1), 2)},
		{"100000000000000", Decimal(1e14, 3)}, {"0.000001", Decimal(1e-6, 6)}, {"0.00000123", Figures(1.234e-6, 3)}, {"0", Figures(0, 3)},
		{"1/16", Bare(1.5875, Inch)}, {"1.5875", Bare(1.5875, MM)}, {"0.11811", Bare(3, Inch)}, {"3", Bare(2.999994, MM)}, {"2 1/4", Bare(57.15, Inch)},
	} {
		assert.Equal(t, c.want, c.got)
	}
}

func TestNothingPrintsAnExponent(t *testing.T) {
	values := []float64{0, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64, 1e15, 1e-15, -1e9, 123456.789}
	for _, v := range values {
		for _, s := range []string{Length(v, MM), Length(v, Inch), LengthFine(v, MM), LengthFine(v, Inch), Bare(v, MM), Bare(v, Inch), Angle(v), Ratio(v), Range(v, v), Percent(v), Figures(v, 4), Mass(v, MM), Mass(v, Inch), Stress(v), Speed(v, MM), Time(v), Decimal(v, 6)} {
			assert.NotRegexp(t, `[0-9]e[-+0-9]|Inf|NaN`, s)
			assert.Less(t, len(s), 40, s)
		}
	}
}

// Every formatted length can be typed back, within half its last figure.
func TestLengthRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewSource(2))
	for range 20000 {
		mm := math.Abs(rng.NormFloat64()) * []float64{0.01, 1, 30, 800, 20000}[rng.Intn(5)]
		for _, sys := range []System{MM, Inch} {
			got, err := ParseLength(Length(mm, sys), MM)
			require.NoError(t, err)
			assert.InDelta(t, mm, got, 0.0501, Length(mm, sys))
			got, err = ParseLength(LengthFine(mm, sys), MM)
			require.NoError(t, err)
			assert.InDelta(t, mm, got, 0.0013, LengthFine(mm, sys))
			got, err = ParseLength(Bare(mm, sys), sys)
			require.NoError(t, err)
			assert.InDelta(t, mm, got, bareFraction*1.001, Bare(mm, sys))
		}
	}
}

// A figure of up to three decimals, or a fraction, survives any number of switches of
// the unit.
func TestBareSurvivesTheOtherUnit(t *testing.T) {
	rng := rand.New(rand.NewSource(3))
	for range 20000 {
		typed := Decimal(float64(rng.Intn(2000000))/1000, 3)
		mm, err := ParseLength(typed, MM)
		require.NoError(t, err)
		via, err := ParseLength(Bare(mm, Inch), Inch)
		require.NoError(t, err)
		assert.Equal(t, typed, Bare(via, MM), "by way of %s in", Bare(mm, Inch))

		whole, den := rng.Intn(100), 1<<(1+rng.Intn(6))
		inches := strings.TrimPrefix(Decimal(float64(whole), 0)+" ", "0 ") + Decimal(float64(2*rng.Intn(den/2)+1), 0) + "/" + Decimal(float64(den), 0)
		mm, err = ParseLength(inches, Inch)
		require.NoError(t, err, inches)
		via, err = ParseLength(Bare(mm, MM), MM)
		require.NoError(t, err)
		assert.Equal(t, inches, Bare(via, Inch), "by way of %s mm", Bare(mm, MM))
	}
}

func TestOtherRoundTrips(t *testing.T) {
	rng := rand.New(rand.NewSource(4))
	for range 5000 {
		a := rng.Float64() * 2 * math.Pi
		got, err := ParseAngle(Angle(a))
		require.NoError(t, err)
		assert.InDelta(t, a, got, 0.0501*degree)
		n := rng.Float64() * 50
		for _, sys := range []System{MM, Inch} {
			got, err = ParseForce(Mass(n, sys), sys)
			require.NoError(t, err)
			assert.InEpsilon(t, n, got, 0.051, Mass(n, sys))
		}
		got, err = ParsePercent(Percent(n / 100))
		require.NoError(t, err)
		assert.InEpsilon(t, n/100, got, 0.0051)
		got, err = ParseStress(Stress(n))
		require.NoError(t, err)
		assert.InEpsilon(t, n, got, 0.0051)
		got, err = ParseSpeed(Speed(n, Inch), MM)
		require.NoError(t, err)
		assert.InEpsilon(t, n, got, 0.0051)
	}
}

func TestSystemOf(t *testing.T) {
	for _, s := range []System{MM, Inch} {
		got, ok := SystemOf(s.String())
		assert.True(t, ok)
		assert.Equal(t, s, got)
	}
	_, ok := SystemOf("furlong")
	assert.False(t, ok)
}
