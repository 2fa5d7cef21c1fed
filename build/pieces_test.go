package main

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/fit"
	"springrib/internal/plane"
)

// The table of README.md is what comes out now, and nowhere does a library take fewer
// pieces. The libraries are fit-curve (P. J. Schneider, An algorithm for automatically
// fitting digitized curves, Graphics Gems, 1990) and paper.
func TestFewerPieces(t *testing.T) {
	root, err := findRoot()
	require.NoError(t, err)
	rows, err := countPieces(root)
	if errors.Is(err, errNoLibraries) {
		t.Skip(err)
	}
	require.NoError(t, err)
	require.Len(t, rows, 10)
	for _, r := range rows {
		assert.LessOrEqual(t, r.any, r.cubics, r.name)
		require.Len(t, r.library, 2)
		for name, n := range r.library {
			require.NotZero(t, n, "%s: no setting of %s comes within the tolerance", r.name, name)
			assert.LessOrEqual(t, r.cubics, n, "%s: %s takes fewer", r.name, name)
		}
	}
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	assert.Contains(t, string(readme), piecesTable(rows), "put the output of build pieces into README.md")
}

// Points that stand off the curve as far as chords of the samples do would be no samples
// of it.
func TestPieceSamplesAreDense(t *testing.T) {
	for _, c := range pieceCurves() {
		for i, r := range c.runs {
			_, hi := fit.Deviation(r, plane.Open(pieceRun(r)...), pieceTolerance/100)
			assert.LessOrEqual(t, hi, 0.07*pieceTolerance, "%s, run %d", c.name, i)
		}
	}
}

// A fit is counted only within the tolerance of the run, both ways, and the fewest win.
func TestFewestWithin(t *testing.T) {
	run := plane.MustParse("M 0 0 C 10 20 30 20 40 0")
	whole, off, half := [8]float64{0, 0, 10, 20, 30, 20, 40, 0}, [8]float64{0, 0, 10, 20.2, 30, 20, 40, 0}, [8]float64{}
	s := run.Segs[0].Split(0, 0.5)
	half = [8]float64{s.A.X, s.A.Y, s.C.X, s.C.Y, s.D.X, s.D.Y, s.B.X, s.B.Y}
	s = run.Segs[0].Split(0.5, 1)
	rest := [8]float64{s.A.X, s.A.Y, s.C.X, s.C.Y, s.D.X, s.D.Y, s.B.X, s.B.Y}
	assert.Equal(t, 1, fewestWithin(run, [][][8]float64{{half, rest}, {whole}, {off}}))
	assert.Equal(t, 2, fewestWithin(run, [][][8]float64{{off}, {half, rest}}))
	assert.Zero(t, fewestWithin(run, [][][8]float64{{off}, {half}, {}}), "half of the run is not the run")
}
