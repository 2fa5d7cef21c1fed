package sheet

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
	"springrib/internal/unit"
)

// randomJob returns a job of 2 to 7 kinds of part, now and then on a scrap or with
// a part pinned.
func randomJob(r *rand.Rand) Job {
	job := Job{Gap: between(r, 0, 6), Beds: bed(between(r, 200, 700), between(r, 150, 500), between(r, 0, 8)), CutOuts: r.IntN(2) == 0}
	if r.IntN(4) == 0 {
		w, h := between(r, 250, 500), between(r, 200, 400)
		scrap := poly(0, 0, w, 0, w+between(r, -40, 40), 0.45*h, 0.6*w, between(r, 0.5, 0.7)*h, 0.55*w, h, between(r, -30, 30), h)
		if r.IntN(2) == 0 {
			scrap.Holes = append(scrap.Holes, plane.CirclePath(plane.Pt(0.3*w, 0.3*h), between(r, 5, 40)).Reverse())
		}
		job.Beds = append([]Bed{{Outline: scrap, Margin: between(r, 0, 5), Count: 1 + r.IntN(2)}}, job.Beds...)
	}
	for range 2 + r.IntN(6) {
		p := randomPiece(r)
		if r.IntN(5) == 0 {
			p.Pins = []Place{{Sheet: r.IntN(2), X: between(r, 0, 300), Y: between(r, 0, 200), Turn: between(r, 0, 6)}}
		}
		job.Pieces = append(job.Pieces, p)
	}
	return job
}

// Nothing free overlaps, comes nearer than the gap, lets an overrun into a
// neighbour or off the sheet, and every copy is laid once or reported: by Verify,
// which shares nothing with the packer.
func TestPackRandomJobs(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	pins, scraps, sheets, closer := 0, 0, 0, 0
	for k := range jobs() {
		job := randomJob(r)
		effort := int64(1+k%5) * 100_000
		if k%3 == 0 {
			effort *= 20 // enough for all tables and more
		}
		l, first := found(job, effort)
		if Closer(l, first) {
			closer++
		}
		require.True(t, sound(&job, &first), "job %d", k)
		require.True(t, sound(&job, &l), "job %d", k)
		for _, f := range Verify(&job, &l) {
			require.Contains(t, []Flaw{Overlap, Near, OffBed}, f.Flaw)
			pins++
		}
		for _, m := range l.Missing {
			if m.Why != TooLarge { // it fits on the scrap only, and that is full
				require.False(t, job.Beds[0].rectangle())
			}
		}
		if !job.Beds[0].rectangle() {
			scraps++
		}
		if len(l.Sheets) > 1 {
			sheets++
		}
	}
	require.Greater(t, pins, jobs()/15)
	require.Greater(t, scraps, jobs()/8)
	require.Greater(t, sheets, jobs()/3)
	require.Greater(t, closer, jobs()/4, "the search betters what is laid first")
}

// pack returns what a search comes to that has all its effort in one piece.
func pack(job Job, effort int64) Layout {
	s := NewSearch(job, effort, 0)
	s.Run(effort)
	return s.Best()
}

// found returns the best layout of a search, and the first.
func found(job Job, effort int64) (best, first Layout) {
	s := NewSearch(job, effort, 0)
	s.Run(0)
	first = s.layout(false)
	s.Run(effort)
	return s.layout(true), first
}

// jobs is how many random jobs are laid: fewer where the code runs slower.
func jobs() int {
	if runtime.GOARCH == "wasm" {
		return 60
	}
	return 300
}

// mixed returns 40 parts of the kinds the program makes, all different.
func mixed(turns []float64) Job {
	r := rand.New(rand.NewPCG(40, 1))
	job := Job{Gap: 3, Beds: bed(1000, 600, 5), CutOuts: true}
	for range 40 {
		p := randomPiece(r)
		p.Quantity, p.Turns = 1, turns
		job.Pieces = append(job.Pieces, p)
	}
	return job
}

// BenchmarkMixed lays 40 mixed parts: until all are laid for the first time, and with
// the effort Good.
func BenchmarkMixed(b *testing.B) {
	job := mixed([]float64{0, math.Pi / 2, math.Pi, -math.Pi / 2})
	for name, effort := range map[string]int64{"first": 0, "good": Good} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				l := pack(job, effort)
				b.ReportMetric(l.Sheets[0].Length, "mm")
				b.ReportMetric(100*l.Density(&job, 0), "%")
			}
		})
	}
}

// A part lies in the hole of another only when that is allowed.
func TestPackCutOuts(t *testing.T) {
	job := Job{Gap: 3, Beds: bed(110, 110, 2), CutOuts: true, Pieces: []Piece{
		{ID: "ring", Outline: ring(52, 40), Quantity: 1},
		{ID: "small", Outline: rect(24, 22), Quantity: 3},
	}}
	job.Beds[0].Count = 1
	l := pack(job, 1e6)
	require.Empty(t, Verify(&job, &l))
	require.Empty(t, l.Missing)
	job.CutOuts = false
	l = pack(job, 1e5)
	require.Empty(t, Verify(&job, &l))
	require.Len(t, l.Missing, 1)
	assert.Equal(t, Missing{Piece: 1, Copies: 3, Why: NoRoom, Need: l.Missing[0].Need, Room: l.Missing[0].Room}, l.Missing[0])
}

// What fits to the last micrometre fits: the bed's width, and two halves of its
// height with the gap between.
func TestPackExactFit(t *testing.T) {
	job := Job{Gap: 3, Beds: bed(600, 300, 0), Pieces: []Piece{{ID: "a", Outline: rect(600, 148.5), Quantity: 3}}}
	l := pack(job, 1e6)
	require.Empty(t, Verify(&job, &l))
	require.Empty(t, l.Missing)
	assert.Len(t, l.Sheets, 2)
}

func TestPackTurnsOnlyAsAllowed(t *testing.T) {
	p := Piece{ID: "a", Outline: rect(40, 150), Quantity: 2, Turns: []float64{0, math.Pi}}
	job := Job{Gap: 3, Beds: bed(300, 100, 0), Pieces: []Piece{p}}
	l := pack(job, 1e6)
	require.Len(t, l.Missing, 1)
	assert.Equal(t, TooLarge, l.Missing[0].Why)
	job.Pieces[0].Turns = []float64{0, math.Pi / 2}
	l = pack(job, 1e6)
	require.Empty(t, Verify(&job, &l))
	require.Empty(t, l.Missing)
	assert.InDelta(t, 150, l.Sheets[0].Length, 0.01) // one above the other
}

// Two right-angled triangles of 100 x 80 with 3 between their long sides take
// 100 + 3/sin(a) of a strip 80 high, tan(a) = 80/100.
func TestPackTriangles(t *testing.T) {
	tri := Piece{ID: "t", Outline: poly(0, 0, 100, 0, 0, 80), Quantity: 2, Turns: []float64{0, math.Pi}}
	job := Job{Gap: 3, Beds: bed(500, 80, 0), Pieces: []Piece{tri}}
	l := pack(job, 3e6)
	require.Empty(t, Verify(&job, &l))
	assert.InDelta(t, 100+3/math.Sin(math.Atan2(80, 100)), l.Sheets[0].Length, 0.05)
}

// Overruns of 10 mm on two parts side by side share the strip: 10 + 3 between the
// parts, not 23.
func TestPackOverrunsShare(t *testing.T) {
	p := Piece{ID: "p", Outline: rect(50, 90), Quantity: 2}
	for y := 10.; y < 85; y += 5 {
		p.Reach = append(p.Reach, plane.Open(plane.Pt(-10, y), plane.Pt(60, y)))
	}
	job := Job{Gap: 3, Beds: bed(300, 100, 0), Pieces: []Piece{p}}
	l := pack(job, 1e6)
	require.Empty(t, Verify(&job, &l))
	assert.InDelta(t, 10+50+13+50+10, l.Sheets[0].Length, 0.01)
}

// A bed cut into eight rectangles, each a little smaller than its share: the first
// layout often takes a second sheet, the search brings most of these back to one.
func TestPackGathersOntoFewerSheets(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	two, one := 0, 0
	for range 20 {
		shares := []plane.Box{plane.BoxOf(plane.Point{}, plane.Pt(200, 160))}
		for len(shares) < 8 { // cut the largest
			k := 0
			for i, b := range shares {
				if b.W()*b.H() > shares[k].W()*shares[k].H() {
					k = i
				}
			}
			b := shares[k]
			m := b.Min.Lerp(b.Max, between(r, 0.3, 0.7))
			c := b
			if b.W() > b.H() {
				b.Max.X, c.Min.X = m.X, m.X
			} else {
				b.Max.Y, c.Min.Y = m.Y, m.Y
			}
			shares[k] = b
			shares = append(shares, c)
		}
		job := Job{Beds: bed(200, 160, 0)}
		for _, b := range shares {
			job.Pieces = append(job.Pieces, Piece{ID: "a", Outline: rect(0.96*b.W(), 0.96*b.H()), Quantity: 1})
		}
		l, first := found(job, 3e6)
		require.Empty(t, Verify(&job, &l))
		if len(first.Sheets) > 1 {
			two++
			if len(l.Sheets) == 1 {
				one++
			}
		}
	}
	t.Logf("%d took two sheets at first, %d of them one in the end", two, one)
	assert.Greater(t, two, 5)
	assert.Greater(t, 2*one, two)
}

// scrapped returns a job on a scrap with a part pinned, which has too little room for all.
func scrapped() Job {
	scrap := poly(0, 0, 300, 0, 300, 80, 120, 80, 120, 260, 0, 260)
	return Job{Gap: 3, Beds: []Bed{{Outline: scrap, Margin: 4, Count: 1}}, Pieces: []Piece{
		{ID: "a", Outline: rect(50, 40), Quantity: 40, Turns: []float64{0, math.Pi / 2}, Pins: []Place{{X: 60, Y: 150, Turn: 0.7}}},
	}}
}

func TestPackOnScrapWithPin(t *testing.T) {
	job := scrapped()
	pin := job.Pieces[0].Pins[0]
	rows := Rows(job)
	l := pack(job, 1e7)
	require.Empty(t, Verify(&job, &l))
	assert.Equal(t, pin, l.Placed[0].Place)
	assert.Greater(t, len(l.Placed), len(rows.Placed))
}

func TestPinnedOnOneAnother(t *testing.T) {
	job := Job{Gap: 3, Beds: bed(300, 200, 5), Pieces: []Piece{
		{ID: "a", Outline: rect(50, 40), Quantity: 4, Pins: []Place{{X: 20, Y: 20}, {X: 30, Y: 30}, {X: 2, Y: 100}}},
	}}
	l := pack(job, 1e6)
	fs := FaultFindings(&job, &l, Verify(&job, &l), unit.MM)
	require.Len(t, fs, 2)
	assert.Equal(t, "off-bed", fs[0].ID)
	assert.InDelta(t, 3, fs[0].Numbers["by"], 1e-6)
	assert.Equal(t, "parts-overlap", fs[1].ID)
	assert.Empty(t, l.Missing)
}

// alike returns 40 parts of eight kinds.
func alike() Job {
	job := mixed([]float64{0, math.Pi})
	job.Pieces = job.Pieces[:8]
	for i := range job.Pieces {
		job.Pieces[i].Quantity = 5
	}
	return job
}

// A search run in slices comes to the same as in one piece, asked for its best or not.
func TestSearchInSlices(t *testing.T) {
	for _, job := range []Job{alike(), scrapped()} {
		whole := pack(job, 5e6)
		s := NewSearch(job, 5e6, 0)
		done, gains := 0., 0
		for s.Run(100_000) {
			require.GreaterOrEqual(t, s.Done(), done)
			if done = s.Done(); s.Gains() > gains {
				gains = s.Gains()
				best := s.Best()
				require.True(t, sound(&job, &best))
			}
		}
		assert.Positive(t, gains)
		assert.Equal(t, 1., s.Done())
		assert.Equal(t, whole, s.Best())
		assert.False(t, s.Run(1e6), "there is no more to do")
	}
}

// Another seed gives another layout, the same one the same.
func TestSearchBySeed(t *testing.T) {
	job := alike()
	of := func(seed uint64) Layout {
		s := NewSearch(job, 3e7, seed)
		s.Run(3e7)
		return s.Best()
	}
	one := of(1)
	assert.Equal(t, one, of(1))
	assert.NotEqual(t, one, of(2))
}

// Before anything is laid the best there is are rows.
func TestSearchNotRun(t *testing.T) {
	job := alike()
	s := NewSearch(job, Good, 0)
	assert.Zero(t, s.Gains())
	assert.Equal(t, Rows(job), s.Best())
}

// A search goes on from a layout found elsewhere: from the beginning, or in the middle when it
// is much better; what is worse or not sound it leaves.
func TestSearchTakes(t *testing.T) {
	for _, job := range []Job{alike(), scrapped()} {
		good := pack(job, 3e7)
		s := NewSearch(job, 3e6, 1)
		require.True(t, s.Take(good))
		s.Run(3e6)
		best := s.Best()
		require.True(t, sound(&job, &best))
		assert.False(t, Closer(good, best))

		s = NewSearch(job, 6e6, 1)
		s.Run(0)
		first := s.Best()
		require.Equal(t, Closer(good, first), s.Take(good))
		assert.False(t, s.Take(first), "what is no better")
		s.Run(1e6)
		best = s.Best()
		assert.False(t, Closer(good, best))
		for i := range job.Pieces { // pins stay
			for k, pin := range job.Pieces[i].Pins {
				at := slices.IndexFunc(best.Placed, func(q Placed) bool { return q.Piece == i && q.Copy == k })
				assert.Equal(t, pin, best.Placed[at].Place)
			}
		}
		broken := good
		broken.Placed = slices.Clone(good.Placed)
		broken.Placed[len(broken.Placed)-1].X -= 20
		assert.False(t, NewSearch(job, 3e6, 1).Take(broken))
	}
}

// A sawtooth of 2000 teeth, a comb of deep ones, and strokes in disorder: held a
// little more loosely, in good time.
func TestPackJaggedOutlines(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 1))
	saw := []float64{0, 0, 200, 0}
	for x := 200.; x > 0; x -= 0.1 {
		saw = append(saw, x, 50, x-0.05, 50+between(r, 0.1, 0.3))
	}
	comb := []float64{0, 0, 200, 0}
	for x := 200.; x > 1; x -= 1 {
		comb = append(comb, x, 50, x-0.5, between(r, 20, 40))
	}
	messy := Piece{ID: "m", Outline: rect(60, 60), Quantity: 2}
	for range 1000 {
		a, b := plane.Pt(between(r, -20, 80), between(r, -20, 80)), plane.Pt(between(r, -20, 80), between(r, -20, 80))
		messy.Reach = append(messy.Reach, plane.Open(a, b))
	}
	job := Job{Gap: 3, Beds: bed(500, 300, 5), CutOuts: true, Pieces: []Piece{
		{ID: "saw", Outline: poly(saw...), Quantity: 2}, {ID: "comb", Outline: poly(comb...), Quantity: 2}, messy,
	}}
	l := pack(job, 3e6)
	require.Empty(t, Verify(&job, &l))
	require.Empty(t, l.Missing)
	assert.Less(t, newSolid(&job.Pieces[0], true, 1).slack, 0.5)
}

// More parts than are searched for, and a bed that none fits.
func TestPackMany(t *testing.T) {
	job := Job{Gap: 2, Beds: bed(600, 400, 5), Pieces: []Piece{{ID: "a", Outline: rib(80, 1, 12), Quantity: searchLimit + 50, Turns: []float64{0, math.Pi}}, {ID: "b", Outline: rect(700, 20), Quantity: 2}}}
	l := pack(job, 1e6)
	require.Empty(t, Verify(&job, &l))
	require.Len(t, l.Missing, 1)
	assert.Equal(t, TooLarge, l.Missing[0].Why)
}

func TestPackNothing(t *testing.T) {
	l := pack(Job{Beds: bed(10, 10, 0)}, 1e6)
	assert.Empty(t, l.Placed)
	assert.Empty(t, l.Sheets)
}

var update = flag.Bool("update", false, "rewrite the golden files")

// The same job gives the same digits, twice over and on every machine the suite runs
// on, native amd64 and wasm alike. The file changes whenever the search does.
func TestPackSameEverywhere(t *testing.T) {
	job := mixed([]float64{0, math.Pi / 2})
	a, b := pack(job, 2e7), pack(job, 2e7)
	require.Equal(t, a, b)
	var text strings.Builder
	text.WriteString("# piece copy sheet x y turn: 40 mixed parts on a bed of 1000 x 600\n")
	for _, p := range a.Placed {
		fmt.Fprintln(&text, p.Piece, p.Copy, p.Sheet, p.X, p.Y, p.Turn)
	}
	const golden = "testdata/mixed.txt"
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(text.String()), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	if runtime.GOARCH == "amd64" || runtime.GOARCH == "wasm" {
		assert.Equal(t, string(want), text.String())
	}
}

// Two hundred parts with a hundred scores each.
func BenchmarkTwoHundred(b *testing.B) {
	p := strip(300, 40, 60, 20, 2.95, 4, true)
	p.Quantity, p.Turns = 200, []float64{0, math.Pi}
	job := Job{Gap: 3, Beds: bed(1200, 900, 5), Pieces: []Piece{p}}
	for b.Loop() {
		l := pack(job, 0)
		require.Empty(b, l.Missing)
	}
}
