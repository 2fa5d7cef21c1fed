package sheet

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// laid returns a job and layout of pieces at the given places on a 200 x 100 bed.
func laid(gap, margin float64, cutOuts bool, pieces []Piece, places ...Place) (*Job, *Layout) {
	job := &Job{Gap: gap, Beds: bed(200, 100, margin), CutOuts: cutOuts, Pieces: pieces}
	l := &Layout{}
	for i, at := range places {
		pieces[i].Quantity = 1
		l.Placed = append(l.Placed, Placed{i, 0, at})
	}
	return job, l
}

func one(t *testing.T, want Flaw, by float64, job *Job, l *Layout) {
	t.Helper()
	got := Verify(job, l)
	if want == "" {
		require.Empty(t, got)
		return
	}
	require.Len(t, got, 1)
	assert.Equal(t, want, got[0].Flaw)
	assert.InDelta(t, by, got[0].By, 2e-3)
}

func TestVerifyGapBetweenSquares(t *testing.T) {
	two := func(dx, dy float64) (*Job, *Layout) {
		return laid(3, 0, false, []Piece{{Outline: rect(20, 20)}, {Outline: rect(20, 20)}}, Place{X: 10, Y: 10}, Place{X: 10 + dx, Y: 10 + dy})
	}
	job, l := two(23, 0)
	one(t, "", 0, job, l)
	job, l = two(22.9, 0)
	one(t, Near, 0.1, job, l)
	job, l = two(20+3*0.6, 20+3*0.8) // corner to corner, 3 : 4 : 5
	one(t, "", 0, job, l)
	job, l = two(20+2*0.6, 20+2*0.8)
	one(t, Near, 1, job, l)
	job, l = two(20, 5) // touching
	one(t, Near, 3, job, l)
	job, l = two(18, 0)
	assert.Equal(t, Overlap, Verify(job, l)[0].Flaw)
	job, l = two(0, 0) // one on top of the other
	assert.Equal(t, Overlap, Verify(job, l)[0].Flaw)
	job, l = two(0, 5) // edges in line
	assert.Equal(t, Overlap, Verify(job, l)[0].Flaw)
}

// Without a gap, touching is sound and any overlap is not.
func TestVerifyNoGap(t *testing.T) {
	two := func(dx float64) (*Job, *Layout) {
		return laid(0, 0, false, []Piece{{Outline: rect(20, 20)}, {Outline: rect(20, 20)}}, Place{X: 10, Y: 10}, Place{X: 10 + dx, Y: 10})
	}
	job, l := two(20)
	one(t, "", 0, job, l)
	job, l = two(19.99)
	assert.Equal(t, Overlap, Verify(job, l)[0].Flaw)
}

// A triangle stands on a box that is too narrow for it, with rounding between them.
func TestVerifyEdgesInLine(t *testing.T) {
	for _, h := range []float64{5, 5.000000000000001, 4.999999999999999, 5.0014042698732615} {
		for _, y := range []float64{h, h + 1e-15, h - 1e-15} {
			job, l := laid(0, 0, false, []Piece{{Outline: rect(5, h)}, {Outline: poly(0, 0, 4, 0, 2, 3)}}, Place{X: 6}, Place{X: 4.7, Y: y})
			one(t, "", 0, job, l)
		}
	}
}

// An edge that goes in exactly through a corner.
func TestVerifyThroughCorners(t *testing.T) {
	for k := range 40 {
		turn := float64(k) * 0.157
		job, l := laid(0, 0, false, []Piece{{Outline: rect(20, 20)}, {Outline: poly(0, -1, 40, -1, 40, 0, 0, 1)}}, Place{X: 50, Y: 50, Turn: turn})
		m := l.Placed[0].Move()
		at := m.Apply(plane.Pt(-10, -10)) // the spike's axis runs along the diagonal
		l.Placed = append(l.Placed, Placed{1, 0, Place{X: at.X, Y: at.Y, Turn: turn + math.Pi/4}})
		job.Pieces[1].Quantity = 1
		for i := range job.Pieces {
			job.Pieces[i].Turns = []float64{l.Placed[i].Turn}
		}
		got := Verify(job, l)
		require.NotEmpty(t, got)
		assert.Equal(t, Overlap, got[0].Flaw)
		assert.Greater(t, got[0].By, 5.)
	}
}

func TestVerifyOverruns(t *testing.T) {
	p := Piece{Outline: rect(20, 20), Reach: []plane.Path{plane.Open(plane.Pt(-5, 10), plane.Pt(25, 10))}}
	two := func(dx, dy float64) (*Job, *Layout) {
		return laid(3, 2, false, []Piece{p, p}, Place{X: 10, Y: 10}, Place{X: 10 + dx, Y: 10 + dy})
	}
	job, l := two(28, 0) // overruns on one another, 3 mm off the parts
	one(t, "", 0, job, l)
	job, l = two(27, 0)
	one(t, Near, 1, job, l)
	job, l = two(23, 25) // past each other's corners
	one(t, "", 0, job, l)
	job, l = two(24, 0) // overrun 1 mm into the neighbour
	one(t, Overlap, 1, job, l)
	job, l = two(24, 25) // but not where the overrun passes the corner
	one(t, "", 0, job, l)

	job, l = laid(3, 2, false, []Piece{p}, Place{X: 6.5, Y: 10}) // overrun 0.5 mm on the margin
	one(t, OffBed, 0.5, job, l)
	job, l = laid(3, 2, false, []Piece{p}, Place{X: 4, Y: 10}) // and 1 mm off the bed
	one(t, OffBed, 3, job, l)
}

func TestVerifyCutOuts(t *testing.T) {
	pieces := func() []Piece { return []Piece{{Outline: ring(40, 30)}, {Outline: rect(20, 20)}} }
	job, l := laid(3, 0, true, pieces(), Place{X: 50, Y: 50}, Place{X: 40, Y: 40})
	one(t, "", 0, job, l)
	job, l = laid(3, 0, false, pieces(), Place{X: 50, Y: 50}, Place{X: 40, Y: 40})
	assert.Equal(t, Overlap, Verify(job, l)[0].Flaw)
	// A corner at 28.28 from the middle, 1.72 from the hole's edge.
	job, l = laid(3, 0, true, pieces(), Place{X: 50, Y: 50}, Place{X: 30, Y: 30})
	one(t, Near, 3-(30-math.Hypot(20, 20)), job, l)
	job, l = laid(3, 0, true, pieces(), Place{X: 50, Y: 50}, Place{X: 60, Y: 40}) // across the rim
	assert.Equal(t, Overlap, Verify(job, l)[0].Flaw)
	// A tool path that crosses the hole is in the way too.
	ps := pieces()
	ps[0].Reach = []plane.Path{plane.Open(plane.Pt(-45, 0), plane.Pt(45, 0))}
	job, l = laid(3, 0, true, ps, Place{X: 50, Y: 50}, Place{X: 40, Y: 40})
	one(t, Overlap, 10, job, l)
}

func TestVerifyBeds(t *testing.T) {
	scrap := Bed{Outline: poly(0, 0, 100, 0, 100, 40, 40, 40, 40, 100, 0, 100), Margin: 2}
	at := func(x, y float64, b Bed) []Fault {
		job := &Job{Beds: []Bed{b}, Pieces: []Piece{{Outline: rect(30, 30), Quantity: 1}}}
		return Verify(job, &Layout{Placed: []Placed{{0, 0, Place{X: x, Y: y}}}})
	}
	assert.Empty(t, at(2, 2, scrap))
	assert.Empty(t, at(8, 68, scrap))
	assert.NotEmpty(t, at(9, 68, scrap))
	assert.NotEmpty(t, at(60, 60, scrap)) // in the notch, within the box
	assert.NotEmpty(t, at(-100, 0, scrap))
	holed := Bed{W: 0, Outline: ring(50, 5)}
	assert.Empty(t, at(6, -15, holed))
	assert.NotEmpty(t, at(-15, -15, holed)) // the hole is under the part
	assert.NotEmpty(t, at(3, -15, holed))
}

func TestVerifyCounts(t *testing.T) {
	job := &Job{Beds: bed(200, 100, 0), Pieces: []Piece{{Outline: rect(10, 10), Quantity: 2, Pins: []Place{{X: 50, Y: 50}}}}}
	l := &Layout{Placed: []Placed{{0, 0, Place{X: 50, Y: 53}}, {0, 1, Place{Turn: 1, X: 20}}}}
	got := Verify(job, l)
	require.Len(t, got, 2)
	assert.Equal(t, Fault{Unpinned, 0, -1, 3}, got[0])
	assert.Equal(t, Turned, got[1].Flaw)
	assert.Equal(t, Counted, Verify(job, &Layout{Placed: []Placed{{0, 0, job.Pieces[0].Pins[0]}}})[0].Flaw)
	twice := &Layout{Placed: []Placed{{0, 1, Place{}}, {0, 1, Place{X: 90}}}}
	assert.Equal(t, Counted, Verify(job, twice)[0].Flaw)
}

// Faults do not depend on where the whole lies: turned and mirrored about, bed, parts
// and places alike, the same pairs are at fault by the same amounts.
func TestVerifyTurnedAndMirrored(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	found := 0
	for range 15 {
		job := Job{Gap: between(r, 1, 6), CutOuts: true, Beds: []Bed{{Outline: rect(400, 300), Margin: 5}}}
		l := Layout{}
		for i := range 8 {
			p := randomPiece(r)
			p.Quantity = 1
			at := Place{X: between(r, 0, 400), Y: between(r, 0, 300), Turn: between(r, 0, 6)}
			p.Turns = []float64{at.Turn}
			job.Pieces = append(job.Pieces, p)
			l.Placed = append(l.Placed, Placed{i, 0, at})
		}
		want := Verify(&job, &l)
		found += len(want)
		turn := between(r, 0, 6)
		m := plane.Translate(between(r, -500, 500), 77).Mul(plane.Rotate(turn))
		flip := plane.Scale(-1, 1)
		for _, mirrored := range []bool{false, true} {
			job2, l2 := job, Layout{}
			job2.Beds = []Bed{{Outline: job.Beds[0].Outline.Apply(m), Margin: 5}}
			job2.Pieces = nil
			for i, p := range job.Pieces {
				at := l.Placed[i].Place
				o := m.Apply(plane.Pt(at.X, at.Y))
				at2 := Place{X: o.X, Y: o.Y, Turn: at.Turn + turn}
				if mirrored {
					at2 = Place{X: -o.X, Y: o.Y, Turn: -at2.Turn}
					p.Outline = p.Outline.Apply(flip)
					reach := p.Reach
					p.Reach = nil
					for _, s := range reach {
						p.Reach = append(p.Reach, s.Apply(flip))
					}
				}
				p.Turns = []float64{at2.Turn}
				job2.Pieces = append(job2.Pieces, p)
				l2.Placed = append(l2.Placed, Placed{i, 0, at2})
			}
			if mirrored {
				job2.Beds[0].Outline = job2.Beds[0].Outline.Apply(flip)
			}
			got := Verify(&job2, &l2)
			require.Equal(t, len(want), len(got))
			for i, f := range got {
				require.Equal(t, want[i].Flaw, f.Flaw)
				require.Equal(t, [2]int{want[i].A, want[i].B}, [2]int{f.A, f.B})
				if f.Flaw != Overlap { // how deep an overlap is found depends on sampled points
					require.InDelta(t, want[i].By, f.By, 1e-6)
				}
			}
		}
	}
	assert.Greater(t, found, 50)
}
