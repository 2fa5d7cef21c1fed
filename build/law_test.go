package main

import (
	"math"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/hinge"
)

func storedCells(t *testing.T) []feRow {
	t.Helper()
	rows, err := readCells(filepath.Join("..", "testdata", "reference", "scored-cell-fe.csv"))
	require.NoError(t, err)
	require.Len(t, rows, 1166)
	return rows
}

// The formulas as they stand in package hinge and as they are written out for the fit.
func TestLawWrittenTwice(t *testing.T) {
	k := usedLaw()
	bottoms := map[string]hinge.Bottom{"round": hinge.Round, "flat": hinge.Flat, "V": hinge.Vee}
	sheets := map[string]hinge.Material{
		"isot": {E: 1000, NuXY: 0.3}, "0.1/": {E: 1000, NuXY: 0.3, NuXZ: 0.3, EZ: 100, GXZ: 60},
		"0.05/0.06": {E: 1000, NuXY: 0.3, NuXZ: 0.3, EZ: 50, GXZ: 60}, "0.05/0.05": {E: 1000, NuXY: 0.3, NuXZ: 0.3, EZ: 50, GXZ: 50},
	}
	for _, r := range storedCells(t) {
		m, ok := sheets[r.group[:4]]
		if !ok {
			m = sheets[r.group[:9]]
		}
		got := hinge.New(m, hinge.Score{Thickness: 1, Depth: r.d, Width: r.w, Bottom: bottoms[r.bottom]}).At(r.p)
		c := k.softening(r)
		assert.InEpsilon(t, c, got.Softening, 1e-12, r)
		assert.InEpsilon(t, k.neutral(r, c), got.Neutral, 1e-12, r)
		assert.InEpsilon(t, k.lever(r, c), got.MouthLever, 1e-12, r)
		assert.InEpsilon(t, k.strain(r), got.StrainFactor, 1e-12, r)
	}
}

// The constants used are those that the stored finite elements ask for: each within three of
// its own standard deviations of the least squares, and all together missing the cells by
// at most 3 % more (of 1 % or so) than the least that these formulas can.
func TestConstantsAreThoseOfTheTable(t *testing.T) {
	rows, used, fitted := storedCells(t), usedLaw(), 0
	for _, f := range lawFits() {
		again, sigma, converged := f.refit(rows)
		require.True(t, converged, f.name)
		for _, name := range f.of {
			fitted++
			off := (used[name] - again[name]) / sigma[name]
			t.Logf("%-14s used %.4f, fitted %.4f, off by %+.2f standard deviations", name, used[name], again[name], off)
			assert.LessOrEqual(t, math.Abs(off), 3.0, name)
		}
		least, _, _ := f.missed(again, f.rows(rows))
		have, _, _ := f.missed(used, f.rows(rows))
		t.Logf("%s: rms %.5f used, %.5f fitted", f.name, have, least)
		assert.LessOrEqual(t, have, 1.03*least, f.name)
		assert.GreaterOrEqual(t, have, least*(1-1e-9), "least squares is the least: %s", f.name)
	}
	assert.Equal(t, len(used), fitted, "every constant belongs to one fit")
}
