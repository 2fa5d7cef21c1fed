package coupon

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/hinge"
)

// snapped is what a caliper reads of skins, a few of each number of passes, and off as it
// goes in a groove.
func (b bench) snapped(each int) []Reading {
	var out []Reading
	for p, h := range b.skins {
		for range each {
			off := 0.0
			if b.rnd != nil {
				off = caliperSigma * b.rnd.NormFloat64()
			}
			out = append(out, Reading{Kind: KindSkin, Passes: p + 1, Value: h + off})
		}
	}
	return out
}

// faced believes in stiff faces of MDF, 1.1 and from 1 to 1.25.
func faced() Belief {
	b := handbook()
	b.Material.Face, b.SpreadFace = 1.1, 0.25/(2*1.645)
	return b
}

// A strip whose skins were both bent and measured tells how stiff the faces are: read
// without error it goes from what was believed toward the truth, and is known the better.
func TestSagTellsTheFaces(t *testing.T) {
	for _, truth := range []float64{1, 1.2} {
		m := softTruth()
		m.Face = truth
		b := bench{truth: m, t: 3, skins: []float64{1.9, 1.2, .7}, width: .2}
		was := faced()
		readings := append(b.strip(), b.snapped(5)...)
		got := Learn(was, readings, Owner{})
		assert.Empty(t, got.Findings)
		off := got.Material.Face - was.Material.Face
		assert.Greater(t, off/(truth-was.Material.Face), 0.3, "face %g: %g", truth, got.Material.Face)
		assert.Less(t, off/(truth-was.Material.Face), 1.0)
		assert.Less(t, got.SpreadFace, 0.8*was.SpreadFace)
		assert.Contains(t, got.Names, "face")
		for i, h := range b.skins {
			assert.InDelta(t, h, got.Skins[i].Value, 0.02)
		}
	}
	tongues := Learn(faced(), bench{truth: softTruth(), t: 3, skins: []float64{1.9, .7}, width: .2}.strip(), Owner{})
	assert.Greater(t, tongues.SpreadFace, 0.8*faced().SpreadFace, "without a caliper skin and face can't be told apart")
}

// Where nobody asks for the faces nothing is fitted, and the faces stay as they were.
func TestFacesThatAreKnownStay(t *testing.T) {
	was := faced()
	was.SpreadFace = 0
	got := Learn(was, bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .2}.strip(), Owner{})
	assert.Equal(t, 1.1, got.Material.Face)
	assert.NotContains(t, got.Names, "face")
}

// Over boards of any faces within what was believed the error stated is the error made.
func TestFacesMonteCarlo(t *testing.T) {
	rnd := rand.New(rand.NewSource(11))
	var faces, skins spread
	runs := 60
	if testing.Short() {
		runs = 15
	}
	for range runs {
		m := hinge.Material{E: 3590 * (1 + .1*rnd.NormFloat64()), NuXY: .3, NuXZ: .3, EZ: 300, GXZ: 200}
		m.Face = 1.1 + 0.07*rnd.NormFloat64()
		b := bench{truth: m, t: 3, skins: []float64{1.9, 1.2, .7}, width: .2, round: .5, rnd: rnd}
		got := Learn(faced(), append(b.strip(), b.snapped(4)...), Owner{})
		faces.add((got.Material.Face - m.Face) / got.SpreadFace)
		skins.add((got.Skins[2].Value - .7) / got.Skins[2].Sigma)
	}
	assert.InDelta(t, 1, faces.rms(), 0.4)
	assert.InDelta(t, 1, skins.rms(), 0.4)
}
