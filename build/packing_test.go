package main

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
	"springrib/internal/sheet"
)

// Searches that share their best come to the same twice over, however many they are; their
// layouts pass the exact check and take much less than rows.
func TestSearchesShareTheirBest(t *testing.T) {
	var job sheet.Job
	job.Gap = 3
	job.Beds = []sheet.Bed{{W: 900, H: 300, Margin: 5}}
	for k, pts := range [][]plane.Point{
		{plane.Pt(0, 0), plane.Pt(90, 0), plane.Pt(70, 50), plane.Pt(20, 60)},
		{plane.Pt(0, 0), plane.Pt(120, 0), plane.Pt(120, 30), plane.Pt(30, 30), plane.Pt(30, 80), plane.Pt(0, 80)},
		{plane.Pt(0, 0), plane.Pt(70, 10), plane.Pt(35, 90)},
	} {
		job.Pieces = append(job.Pieces, sheet.Piece{ID: string(rune('a' + k)), Outline: plane.Region{Outer: plane.Poly(pts...)}, Quantity: 7, Turns: []float64{0, 3.141592653589793}})
	}
	rows := sheet.Rows(job)
	for searches := 1; searches <= 3; searches++ {
		l := packStrip(job, 8e6, searches, 0)
		assert.Equal(t, l, packStrip(job, 8e6, searches, 0))
		require.Empty(t, sheet.Verify(&job, &l))
		require.Empty(t, l.Missing)
		assert.Less(t, l.Sheets[0].Length, 0.9*rows.Sheets[0].Length)
	}
}

// Public instances, with an effort of about ten seconds of one processor each.
func TestPublicPackingInstances(t *testing.T) {
	dir := os.Getenv(packingFolder)
	if dir == "" {
		t.Skipf("set %s to the folder of the public strip-packing instances to run this", packingFolder)
	}
	for _, b := range bestKnown {
		s, err := readStrip(dir, b.name)
		require.NoError(t, err)
		d, err := s.density(packStrip(s.job, 500_000_000, 2, 0))
		require.NoError(t, err)
		t.Logf("%-8s %.2f %%, best known %.2f %%", b.name, d, b.density)
		assert.Greater(t, d, b.density-6)
		assert.Less(t, d, b.density+0.5, "better than anybody: is the check right?")
	}
}

func TestPackingTableWithoutInstances(t *testing.T) {
	t.Setenv(packingFolder, "")
	var out bytes.Buffer
	require.NoError(t, printPacking(&out, nil))
	assert.Contains(t, out.String(), packingFolder)
}
