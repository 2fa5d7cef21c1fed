package design

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/finding"
	"springrib/internal/unit"
)

func readings(rows ...Reading) Document {
	d := typedDesign()
	d.Strips.Readings = rows
	return d
}

func TestReadingsAreReadInAnyOrder(t *testing.T) {
	v, found := Read(readings(
		Reading{Kind: "closing", Turn: "120", Count: "30", Passes: "2", Spacing: "1.2", Date: "2 March"},
		Reading{},
		Reading{Kind: "sag", Value: "11.5", Load: "20", Passes: "2", Spacing: "0.9", Spot: "left"},
		Reading{Kind: "bend", Value: "30", Verdict: "held", Passes: "3", Spacing: "1", Side: "round"},
		Reading{Kind: "fit", Value: "-0.1", Verdict: "tight"},
	))
	require.Empty(t, found)
	got := v.Strips.Readings
	require.Len(t, got, 4, "an empty row is none yet")
	assert.InDelta(t, 120*math.Pi/180, got[0].Turn, 1e-12)
	assert.Equal(t, 30, got[0].Count)
	assert.Equal(t, "2 March", got[0].Date)
	assert.Equal(t, 2, got[1].Row)
	assert.InDelta(t, 0.02*9.80665, got[1].Load, 1e-9)
	assert.InDelta(t, 80, got[1].Length, 0)
	assert.InDelta(t, 12, got[1].Width, 0)
	assert.True(t, got[2].RoundSide)
	assert.Equal(t, "tight", got[3].Verdict)
	assert.InDelta(t, -0.1, got[3].Value, 1e-12)
}

// What can't be read of a reading is a warning; the design goes on without it.
func TestAReadingNeverStopsADesign(t *testing.T) {
	v, found := Read(readings(Reading{Kind: "sag", Value: "eleven", Load: "20"}, Reading{Kind: "skin", Value: "0.8", Passes: "two"}, Reading{Kind: "skin", Value: "0.8", Passes: "2"}))
	require.Len(t, found, 2)
	for i, f := range found {
		assert.Equal(t, finding.Warn, f.Severity)
		assert.Equal(t, "reading-unreadable", f.ID)
		assert.Contains(t, f.Place.Field, []string{"strips.readings.0.value", "strips.readings.1.passes"}[i])
	}
	assert.True(t, v.Strips.Readings[0].Bad)
	assert.True(t, v.Strips.Readings[1].Bad)
	assert.False(t, v.Strips.Readings[2].Bad)
}

func TestWeightsAndLengthsOfReadingsConvert(t *testing.T) {
	d := readings(Reading{Kind: "sag", Value: "11.5", Load: "20", Spacing: "0.9", Length: "80", Passes: "2"})
	in := Convert(d, "in")
	a, _ := Read(d)
	b, found := Read(in)
	require.Empty(t, found)
	x, y := a.Strips.Readings[0], b.Strips.Readings[0]
	assert.InDelta(t, x.Load, y.Load, 1e-6)
	assert.InDelta(t, x.Value, y.Value, 3e-5)
	assert.InDelta(t, x.Spacing, y.Spacing, 3e-5)
	assert.Equal(t, "20 g", in.Strips.Readings[0].Load)
	assert.Equal(t, "0.5 oz", unit.Mass(0.5*unit.NPerOunce, unit.Inch))
}
