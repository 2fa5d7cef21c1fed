package hinge

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// layered is one row of testdata/reference/layered-fe.csv.
type layered struct {
	face, layer, ez, gxz, d, w, p float64
	c, arm, lever, neutral        float64
}

func (r layered) law() Cell {
	m := Material{E: 1000, NuXY: 0.3, NuXZ: 0.3, EZ: 1000 * r.ez, GXZ: 1000 * r.gxz, Face: r.face}
	return New(m, Score{Thickness: 1, Depth: r.d, Width: r.w, Bottom: Flat}).At(r.p)
}

func layeredCells(t testing.TB) []layered {
	var out []layered
	for _, row := range readTable(t, "layered-fe.csv") {
		n := func(i int) float64 { return number(t, row[i]) }
		out = append(out, layered{n(0), n(1), n(2), n(3), n(4), n(5), n(6), n(7), n(8), n(9), n(10)})
	}
	require.Len(t, out, 51)
	return out
}

// Finite elements of sheets with stiff faces, three depths by three spacings (CalculiX,
// computed for this project): what the layers change, against the even sheet of the same
// cell, within 2 % in everything; C, closing and fibre themselves within 2 %. Strain
// itself is as far off as for an even sheet of such corners, 4.5 %.
func TestLayersAgainstFiniteElements(t *testing.T) {
	type cell struct{ ez, d, p float64 }
	even := map[cell]layered{}
	checked := 0
	for _, r := range layeredCells(t) {
		name := fmt.Sprintf("%+v", r)
		at := cell{r.ez, r.d, r.p}
		switch {
		case r.face == 1:
			even[at] = r
			continue
		case r.layer > 0:
			continue
		}
		checked++
		e, ok := even[at]
		require.True(t, ok, name)
		got, plain := r.law(), e.law()
		change := func(law, evenLaw, fe, evenFE float64) float64 { return law / evenLaw / (fe / evenFE) }
		assert.InDelta(t, 1, change(got.Softening, plain.Softening, r.c, e.c), 0.013, name)
		assert.InDelta(t, 1, change(got.StrainArm, plain.StrainArm, r.arm, e.arm), 0.018, name)
		assert.InDelta(t, 1, change(got.MouthLever, plain.MouthLever, r.lever, e.lever), 0.005, name)
		assert.InDelta(t, 0, got.Neutral-plain.Neutral-(r.neutral-e.neutral), 0.0025, name)
		assert.InEpsilon(t, r.c, got.Softening, 0.0205, name)
		assert.InEpsilon(t, r.arm, got.StrainArm, 0.045, name)
		assert.InEpsilon(t, r.lever, got.MouthLever, 0.01, name)
		assert.InDelta(t, r.neutral, got.Neutral, 0.004, name)
	}
	assert.Equal(t, 27, checked)
}

// Boards of three plain layers are no parabolas: the law is safe in strain, and its C too
// low by what the package says.
func TestThreeLayersAreAnotherSheet(t *testing.T) {
	for _, r := range layeredCells(t) {
		if r.layer == 0 {
			continue
		}
		least := map[float64]float64{1.15: -0.12, 1.3: -0.27}[r.face]
		got := r.law()
		assert.Greater(t, got.Softening/r.c-1, least, "%+v", r)
		assert.Less(t, got.Softening/r.c-1, 0.01, "%+v", r)
		assert.Greater(t, got.StrainArm, r.arm, "%+v", r)
	}
}

// The skin's bending stiffness and its fibre without stress, summed over thin slices.
func TestSkinIsABeam(t *testing.T) {
	for _, face := range []float64{0.8, 1, 1.1, 1.3, 1.5} {
		for _, eta := range []float64{0.02, 0.15, 0.27, 0.5, 0.98, 1} {
			const n = 20000
			area, first, second := 0.0, 0.0, 0.0
			for i := range n {
				y := (float64(i) + 0.5) / n * eta
				z := 1 - 2*y
				e := (1 + 2.5*(face-1)*(z*z-0.6)) * eta / n
				area, first, second = area+e, first+e*y, second+e*y*y
			}
			stiff, arm := Material{E: 1, Face: face}.skin(eta)
			assert.InEpsilon(t, 2*first/area/eta, arm, 1e-6, "%g %g", face, eta)
			assert.InEpsilon(t, 12*(second-first*first/area)/(eta*eta*eta), stiff, 1e-6, "%g %g", face, eta)
		}
		stiff, arm := Material{E: 1, Face: face}.skin(1)
		assert.InDelta(t, 1, stiff, 1e-12, "the sheet itself has its modulus")
		assert.InDelta(t, 1, arm, 1e-12)
	}
}

// A ratio of 1 is no layer, to the last bit.
func TestFacesAsStiffAsTheMeanChangeNothing(t *testing.T) {
	for _, m := range []Material{mdf(), mdfSoft(), {E: 3590, NuXY: 0.3, Narrow: true}} {
		one := m
		one.Face = 1
		a, b := New(m, laserScore()), New(one, laserScore())
		for _, p := range []float64{0.1, 1.6, 7, math.Inf(1)} {
			assert.Equal(t, a.At(p), b.At(p))
			assert.Equal(t, a.Fold(0.03, p, 2, false), b.Fold(0.03, p, 2, false))
		}
	}
}

// Scores that touch leave a thin sheet that bends as the skin does, about its own fibre.
func TestTouchingScoresOfALayeredSheet(t *testing.T) {
	m := mdfSoft()
	m.Face = 1.2
	l := New(m, laserScore())
	stiff, arm := m.skin(0.8 / 3)
	got := l.At(1e-4)
	assert.InEpsilon(t, m.EPrime()*stiff*0.8*0.8*0.8/12, got.Stiffness, 1e-9)
	assert.InEpsilon(t, 0.4*arm, got.Neutral, 1e-6)
	assert.InEpsilon(t, 0.4*arm, got.StrainArm, 1e-6, "the far face strains by its distance from that fibre")
	assert.InEpsilon(t, 3-0.4*arm, got.MouthLever, 1e-6)
	f := l.Fold(1e-4/60, 1e-4, 1e-4, false)
	assert.InEpsilon(t, got.StrainArm/60, f.Strain, 1e-6)
}

func TestFacesThatNoSheetHasPanic(t *testing.T) {
	for _, face := range []float64{-1, 0.5, 1.7, math.NaN()} {
		m := mdf()
		m.Face = face
		assert.Panics(t, func() { New(m, laserScore()) }, face)
	}
}
