package hinge

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Among even neighbours a fold is one spacing of the even panel bent to theta/p.
func TestEvenFoldIsTheArray(t *testing.T) {
	r := rand.New(rand.NewSource(21))
	for range 300 {
		l, p := sample(r)
		theta := .1 * r.Float64()
		f := l.Fold(theta, p, p, false)
		c := l.At(p)
		assert.InEpsilon(t, theta*(1-1/c.Softening), f.Elastic, 1e-9)
		assert.InEpsilon(t, l.Strain(p, theta/p), f.Strain, 1e-9)
		assert.InEpsilon(t, l.NetSectionStrain(p, theta/p), f.NetStrain, 1e-9)
		assert.InEpsilon(t, l.Moment(p, theta/p), f.Moment, 1e-9)
		assert.InDelta(t, l.Score().Width-theta*c.MouthLever, f.MouthGap, 1e-9)
		shut := l.Fold(c.ClosingAngle, p, p, false)
		assert.InDelta(t, 0, shut.MouthGap, 1e-9, "the closing angle shuts the mouth")
	}
}

func TestUnevenFold(t *testing.T) {
	l := New(mdf(), laserScore())
	inf := math.Inf(1)
	a := l.Fold(.03, 1.6, 4, false)
	b := l.Fold(.03, 4, 1.6, false)
	assert.Equal(t, a, b, "left and right are alike")
	assert.InDelta(t, (l.HingeLength(1.6)+l.HingeLength(4))/2, a.HingeLength, 1e-12)

	// The end of an array, and a score on its own: longer hinge, less strain.
	inside, end, alone := l.Fold(.03, 1.6, 1.6, false), l.Fold(.03, 1.6, inf, false), l.Fold(.03, inf, inf, false)
	assert.Less(t, inside.HingeLength, end.HingeLength)
	assert.Less(t, end.HingeLength, alone.HingeLength)
	assert.Less(t, end.Strain, inside.Strain)
	assert.Equal(t, .03, alone.Elastic)
	assert.Equal(t, l.HingeLength(inf), alone.HingeLength)
	assert.Less(t, inside.Elastic, end.Elastic)
	assert.Less(t, end.Elastic, alone.Elastic)

	held := l.Fold(.03, 1.6, 1.6, true)
	assert.Equal(t, .03, held.Elastic)
	assert.Greater(t, held.Strain, inside.Strain, "a facet that can't bend leaves it all to the score")
	assert.InDelta(t, .2-.03*held.Lever, held.MouthGap, 1e-15)
	assert.InDelta(t, .2+.03*held.Lever, held.OpenWidth, 1e-15)
	assert.Zero(t, l.Fold(0, 1.6, 1.6, false).Strain)
}

// The end score of a strip soft as MDF (E_z/E_x .05, G_xz/E_x .06) has a hinge of 1.90
// mm against 1.34 mm inside: finite elements of uneven strips, computed for this
// project, t 3, d 2.2, w 0.2, p 1.6 mm; the law promises 3 %.
func TestEndScoreOfSoftStrip(t *testing.T) {
	m := Material{E: 3590, NuXY: .3, NuXZ: .3, EZ: .05 * 3590, GXZ: .06 * 3590}
	l := New(m, laserScore())
	assert.InEpsilon(t, 1.34, l.Fold(.01, 1.6, 1.6, false).HingeLength, .03)
	assert.InEpsilon(t, 1.90, l.Fold(.01, 1.6, math.Inf(1), false).HingeLength, .03)
}

// Uniform moment along a strip of unevenly spaced scores: the folds and lands add up
// to the rotation of the whole, whatever the order.
func TestFoldsOfAStripAddUp(t *testing.T) {
	l := New(mdfSoft(), laserScore())
	gaps := []float64{math.Inf(1), 2, 1.6, 3, 1.4, 5, math.Inf(1)}
	const moment = 3.0
	total, elastic := 0.0, 0.0
	for i := range len(gaps) - 1 {
		unit := l.Fold(1, gaps[i], gaps[i+1], false)
		theta := moment / unit.Moment // a fold's rotation under this moment
		f := l.Fold(theta, gaps[i], gaps[i+1], false)
		assert.InEpsilon(t, moment, f.Moment, 1e-12)
		total += theta
		elastic += f.Elastic
	}
	assert.InEpsilon(t, moment*(2+1.6+3+1.4+5)/l.PlainStiffness(), total-elastic, 1e-12, "the lands between")
}
