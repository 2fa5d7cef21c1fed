package sheet

import (
	"math"
	"math/rand/v2"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
	"springrib/internal/unit"
)

func bed(w, h, margin float64) []Bed { return []Bed{{W: w, H: h, Margin: margin}} }

func TestRowsFillsARow(t *testing.T) {
	job := Job{Gap: 3, Beds: bed(100, 100, 5), Pieces: []Piece{{ID: "a", Outline: rect(20, 30), Quantity: 5}}}
	l := Rows(job)
	require.Empty(t, Verify(&job, &l))
	// 5 + 20 + 3 + 20 + 3 + 20 + 3 = 74: a fourth would end at 94.
	xs := []float64{5, 28, 51, 74, 5}
	ys := []float64{5, 5, 5, 5, 38}
	for i, p := range l.Placed {
		assert.InDelta(t, xs[i], p.X, 1e-6)
		assert.InDelta(t, ys[i], p.Y, 1e-6)
	}
	assert.Equal(t, 1, len(l.Sheets))
	assert.InDelta(t, 5*600, l.Sheets[0].Area, 1e-9)
	assert.InDelta(t, 89, l.Sheets[0].Length, 1e-6)
}

// Two overruns of 6 mm and a gap of 3 mm: the neighbour's edge stays 3 mm off the
// tip of the overrun, and the overruns pass each other in the same strip.
func TestRowsLetsOverrunsShareTheStrip(t *testing.T) {
	p := Piece{ID: "a", Outline: rect(20, 30), Quantity: 2}
	p.Reach = []plane.Path{plane.Open(plane.Pt(-6, 15), plane.Pt(26, 15))}
	job := Job{Gap: 3, Beds: bed(100, 100, 0), Pieces: []Piece{p}}
	l := Rows(job)
	require.Empty(t, Verify(&job, &l))
	require.Len(t, l.Placed, 2)
	assert.InDelta(t, 6, l.Placed[0].X, 1e-6)
	assert.InDelta(t, 6+20+6+3, l.Placed[1].X, 1e-6)
}

func TestRowsOffBed(t *testing.T) {
	job := Job{Gap: 3, Beds: bed(600, 300, 5), Pieces: []Piece{
		{ID: "rib", Outline: rect(40, 30), Quantity: 1},
		{ID: "panel", Outline: rect(640.04, 120), Quantity: 2},
		{ID: "turns", Outline: rect(100, 580), Quantity: 1, Turns: []float64{0, math.Pi / 2}},
	}}
	l := Rows(job)
	require.Empty(t, Verify(&job, &l))
	require.Len(t, l.Placed, 2)
	assert.Equal(t, math.Pi/2, l.Placed[1].Turn)
	fs := l.Findings(&job, unit.MM)
	require.Len(t, fs, 1)
	assert.Equal(t, "off-bed", fs[0].ID)
	assert.Equal(t, "panel", fs[0].Place.Part)
	assert.Equal(t, 2., fs[0].Numbers["copies"])
	assert.InDelta(t, 640.04, fs[0].Numbers["width"], 1e-9)
	assert.InDelta(t, 590, fs[0].Numbers["bedWidth"], 1e-9)
	figures := func(u unit.System) []string {
		return regexp.MustCompile(`[\d.]+ x [\d.]+ \w+`).FindAllString(l.Findings(&job, u)[0].Text, -1)
	}
	assert.Equal(t, []string{"640.1 x 120.0 mm", "590.0 x 290.0 mm"}, figures(unit.MM), "a part's up, a sheet's down")
	assert.Equal(t, []string{"25.20 x 4.73 in", "23.23 x 11.42 in"}, figures(unit.Inch))
	job.Pieces[l.Missing[0].Piece].Name = "rib 1"
	assert.Contains(t, l.Findings(&job, unit.MM)[0].Text, "Rib 1 ", "told by its name")
}

func TestRowsExactFit(t *testing.T) {
	job := Job{Gap: 3, Beds: bed(600, 300, 0), Pieces: []Piece{{ID: "a", Outline: rect(600, 148.5), Quantity: 3}}}
	l := Rows(job)
	require.Empty(t, Verify(&job, &l))
	require.Empty(t, l.Missing)
	assert.Len(t, l.Sheets, 2)
}

func TestRowsScrapsFirstThenUsedUp(t *testing.T) {
	job := Job{Gap: 2, Beds: []Bed{{W: 60, H: 60, Count: 2}, {W: 200, H: 100, Count: 1}}, Pieces: []Piece{
		{ID: "large", Outline: rect(150, 90), Quantity: 2},
		{ID: "small", Outline: rect(50, 50), Quantity: 2},
	}}
	l := Rows(job)
	require.Empty(t, Verify(&job, &l))
	var sheets []int
	for _, p := range l.Placed {
		sheets = append(sheets, p.Sheet)
	}
	assert.Equal(t, []int{2, 0, 1}, sheets)
	require.Len(t, l.Missing, 1)
	assert.Equal(t, NoRoom, l.Missing[0].Why)
	assert.Equal(t, "sheets-used-up", l.Findings(&job, unit.MM)[0].ID)
}

func TestRowsStepRoundPins(t *testing.T) {
	p := Piece{ID: "a", Outline: rect(30, 20), Quantity: 12, Pins: []Place{{X: 40, Y: 3}, {X: 60, Y: 60, Turn: 0.5}}}
	job := Job{Gap: 3, Beds: bed(120, 100, 2), Pieces: []Piece{p}}
	l := Rows(job)
	require.Empty(t, Verify(&job, &l))
	assert.Equal(t, p.Pins[0], l.Placed[0].Place)
	assert.Equal(t, p.Pins[1], l.Placed[1].Place)
	assert.Empty(t, l.Missing)
}

func TestRowsOnScrap(t *testing.T) {
	scrap := poly(0, 0, 300, 0, 300, 80, 120, 80, 120, 260, 0, 260)
	job := Job{Gap: 3, Beds: []Bed{{Outline: scrap, Margin: 4, Count: 1}}, Pieces: []Piece{{ID: "a", Outline: rect(50, 40), Quantity: 30}}}
	l := Rows(job)
	require.Empty(t, Verify(&job, &l))
	assert.GreaterOrEqual(t, len(l.Placed), 9)
	assert.Equal(t, 30-len(l.Placed), l.Missing[0].Copies)
}

func TestRowsPinOnNoSheetAndNoShape(t *testing.T) {
	job := Job{Gap: 3, Beds: []Bed{{W: 100, H: 100, Count: 1}}, Pieces: []Piece{
		{ID: "a", Outline: rect(10, 10), Quantity: 1, Pins: []Place{{Sheet: 3}}},
		{ID: "b", Quantity: 2},
		{ID: "c", Outline: rect(10, 10), Quantity: 1e9},
	}}
	job.Beds[0].Count = 0
	job.Pieces[0].Pins[0].Sheet = -1
	l := Rows(job)
	require.Empty(t, Verify(&job, &l))
	require.Len(t, l.Placed, MaxParts-1)
	var ids []string
	for _, f := range l.Findings(&job, unit.MM) {
		ids = append(ids, f.ID)
	}
	assert.Equal(t, []string{"pin-off-sheet", "no-outline", "too-many-parts"}, ids)
}

func TestRowsRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	for range 60 {
		job := Job{Gap: between(r, 0, 6), Beds: bed(between(r, 200, 700), between(r, 150, 500), between(r, 0, 8)), CutOuts: r.IntN(2) == 0}
		for range 2 + r.IntN(6) {
			job.Pieces = append(job.Pieces, randomPiece(r))
		}
		l := Rows(job)
		require.Empty(t, Verify(&job, &l))
	}
}

func TestCallersMistakesPanic(t *testing.T) {
	assert.Panics(t, func() { Rows(Job{Gap: math.NaN(), Beds: bed(10, 10, 0)}) })
	assert.Panics(t, func() { Rows(Job{Beds: bed(0, 10, 0)}) })
	assert.Panics(t, func() { Rows(Job{Beds: bed(10, 10, -1)}) })
	assert.Panics(t, func() {
		Rows(Job{Beds: []Bed{{Outline: plane.Region{Outer: plane.Open(plane.Pt(0, 0), plane.Pt(1, 1))}}}})
	})
	assert.Panics(t, func() { NewSearch(Job{Beds: bed(10, 10, 0), Pieces: []Piece{{Turns: []float64{math.Inf(1)}}}}, 0, 0) })
	assert.Panics(t, func() { NewSearch(Job{Beds: bed(10, 10, 0), Pieces: []Piece{{Pins: []Place{{X: math.NaN()}}}}}, 0, 0) })
}
