package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/state"
)

// apartDesign is a shade whose depths were typed with how far they may be off, and skins of
// one strip.
func apartDesign(t *testing.T, skins ...string) *Plan {
	d := design.Empty()
	d.Sheet.Readings = []string{"3.00", "3.00", "3.00"}
	d.Machine.Depths, d.Machine.DepthSpread = []string{"1.3", "2.18"}, "0.1"
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width, d.Panel.Passes = "90", "100", "120", "2"
	d.Panel.Spacing, d.Panel.Count = "count", "60"
	for _, s := range skins {
		d.Strips.Readings = append(d.Strips.Readings, design.Reading{Kind: "skin", Passes: "2", Value: s})
	}
	v, found := design.Read(d)
	require.Empty(t, found)
	p := Make(v)
	require.True(t, p.Drawn)
	return &p
}

// What is known of a depth is split: all together, and score to score. Without readings half
// of the variance is either's; five skins of one strip, worked by hand, tell the second.
func TestDepthsAreSplitIntoTogetherAndScoreToScore(t *testing.T) {
	half := 0.1 / state.NineInTen * math.Sqrt(0.5) // .042986
	p := apartDesign(t)
	lot := p.Proof.Chance.Lot.panel()
	assert.InDelta(t, half, lot.Apart, 1e-12)
	assert.InDelta(t, half, lot.Setting.SD, 1e-12)

	// .004 about their mean: s^2 = (4 .042986^2 + .004)/8 = .0014239
	q := apartDesign(t, "0.78", "0.84", "0.80", "0.86", "0.82")
	got := q.Proof.Chance.Lot.panel()
	assert.InDelta(t, 0.037735, got.Apart, 1e-5)
	assert.Equal(t, 5, q.Readings.Learned.Apart.N)
	skin := q.Readings.Learned.Skins[1].Sigma
	assert.InDelta(t, 0.05/math.Sqrt(5), skin, 1e-3, "five readings of one skin")
	assert.InDelta(t, math.Hypot(skin, half), got.Setting.SD, 1e-9, "all together: the mean skin, and the bed")
	assert.InDelta(t, state.NineInTen*math.Sqrt(skin*skin+half*half+got.Apart*got.Apart), q.V.Machine.Spread(2), 1e-9)

	// One skin alone leaves the typed share; a depth strip's own error is all together.
	one := apartDesign(t, "0.82").Proof.Chance.Lot.panel()
	assert.InDelta(t, half, one.Apart, 1e-12)
	assert.Greater(t, one.Setting.SD, half)
}

// The same mean of skins that lie closer together or further apart moves the chance the same
// way.
func TestSkinsApartRaiseTheChance(t *testing.T) {
	close := apartDesign(t, "0.82", "0.82", "0.83", "0.81", "0.82", "0.82")
	apart := apartDesign(t, "0.74", "0.90", "0.82", "0.72", "0.92", "0.82")
	assert.InDelta(t, close.V.Machine.Depths[1], apart.V.Machine.Depths[1], 1e-3)
	assert.Less(t, 1.2*close.Proof.Chance.Fail, apart.Proof.Chance.Fail)
}

// A person who knows it may type it.
func TestScoreToScoreCanBeTyped(t *testing.T) {
	d := design.Empty()
	d.Machine.Apart, d.Machine.DepthSpread = "0.02", "0.1"
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width = "90", "100", "120"
	v, found := design.Read(d)
	require.Empty(t, found)
	p := Make(v)
	lot := p.Proof.Chance.Lot.panel()
	assert.InDelta(t, 0.02/state.NineInTen, lot.Apart, 1e-12)
	assert.InDelta(t, math.Sqrt(0.1*0.1-0.02*0.02)/state.NineInTen, lot.Setting.SD, 1e-12)
}
