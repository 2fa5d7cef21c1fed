package cut

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// panelPart is a scored rectangle with its foot at the left, a mark, and a hole.
func panelPart(id string, at plane.Point, length, width, pitch float64) Part {
	p := Part{ID: id}
	for x := 10.0; x < length-10; x += pitch {
		p.Strokes[Score] = append(p.Strokes[Score], openLine(at.Add(plane.Pt(x, -4)), at.Add(plane.Pt(x, width+4))))
	}
	p.Strokes[Mark] = []plane.Path{openLine(at.Add(plane.Pt(-3, width/2)), at.Add(plane.Pt(length*0.8, width/2)))}
	p.Strokes[Inner] = []plane.Path{plane.CirclePath(at.Add(plane.Pt(5, width/2)), 2).Reverse()}
	p.Strokes[Outer] = []plane.Path{plane.RectPath(plane.BoxOf(at, at.Add(plane.Pt(length, width))))}
	return p
}

func sheetOf(n, scores int) []Part {
	var parts []Part
	side := int(math.Ceil(math.Sqrt(float64(n))))
	for i := range n {
		at := plane.Pt(10+float64(i%side)*140, 10+float64(i/side)*70)
		parts = append(parts, panelPart(fmt.Sprintf("panel%d", i+1), at, 120, 50, 99.9/float64(scores)))
	}
	return parts
}

// canonical names a stroke whichever way and from wherever it is run.
func canonical(s Stroke) string {
	var segs []string
	for _, g := range s.Path.Segs {
		a, b, bulge := g.A, g.B, g.Bulge
		if a.X > b.X || a.X == b.X && a.Y > b.Y {
			a, b, bulge = b, a, -bulge
		}
		segs = append(segs, fmt.Sprintf("%.6f,%.6f %.6f,%.6f %.6f", a.X, a.Y, b.X, b.Y, bulge))
	}
	slices.Sort(segs)
	return s.Part + fmt.Sprint(segs)
}

func TestOrderCutsEverythingOnce(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for round := range 60 {
		parts := randomParts(r)
		s := Settings{EveryThird: round%2 == 0, Start: pt(r, 100)}
		ops := Order(parts, s)
		var want, got []string
		for _, p := range parts {
			for k := range p.Strokes {
				for _, path := range p.Strokes[k] {
					want = append(want, canonical(Stroke{p.ID, path}))
				}
			}
		}
		last := Score
		for _, op := range ops {
			require.GreaterOrEqual(t, op.Kind, last, "kinds in cutting order")
			last = op.Kind
			for _, st := range op.Strokes {
				got = append(got, canonical(st))
			}
		}
		var plain []string
		for _, op := range Unordered(parts, s) {
			for _, st := range op.Strokes {
				plain = append(plain, canonical(st))
			}
		}
		slices.Sort(want)
		slices.Sort(got)
		slices.Sort(plain)
		require.Equal(t, want, got)
		require.Equal(t, want, plain, "also unordered")
		require.Equal(t, ops, Order(parts, s), "the same again")
	}
}

func randomParts(r *rand.Rand) []Part {
	var parts []Part
	for i := range 1 + r.IntN(12) {
		p := Part{ID: fmt.Sprintf("part%d", i+1)}
		at := pt(r, 400)
		for j := range r.IntN(9) {
			x := at.X + 3*float64(j)
			p.Strokes[Score] = append(p.Strokes[Score], openLine(plane.Pt(x, at.Y), plane.Pt(x, at.Y+10)))
			if r.IntN(3) == 0 { // interrupted by a hole
				p.Strokes[Score] = append(p.Strokes[Score], openLine(plane.Pt(x, at.Y+15), plane.Pt(x, at.Y+40)))
			}
		}
		for range r.IntN(3) {
			p.Strokes[Mark] = append(p.Strokes[Mark], openLine(pt(r, 400), pt(r, 400)))
		}
		for range r.IntN(3) {
			p.Strokes[Inner] = append(p.Strokes[Inner], plane.CirclePath(pt(r, 400), 1+9*r.Float64()))
		}
		p.Strokes[Outer] = append(p.Strokes[Outer], plane.RectPath(plane.BoxOf(at, at.Add(plane.Pt(30, 20)))))
		parts = append(parts, p)
	}
	return parts
}

func TestOrderKeepsTheWayRoundOfClosedStrokes(t *testing.T) {
	for _, op := range Order(sheetOf(9, 10), Settings{}) {
		for _, s := range op.Strokes {
			switch op.Kind {
			case Inner:
				assert.Negative(t, s.Path.Area(), "holes stay clockwise")
			case Outer:
				assert.Positive(t, s.Path.Area())
				assert.True(t, s.Path.Closed)
				assert.Equal(t, s.Path.Start(), s.Path.End())
			}
		}
	}
}

func TestOrderSettings(t *testing.T) {
	s := Settings{RepeatLayers: true}
	s.Kinds[Score] = Setting{Name: "shallow", Colour: "#112233", Passes: 3, Speed: 150}
	ops := Order(sheetOf(1, 4), s)
	require.Len(t, ops, 6)
	for i := range 3 {
		assert.Equal(t, fmt.Sprintf("shallow pass %d of 3", i+1), ops[i].Name)
		assert.Equal(t, "#112233", ops[i].Colour)
		assert.Equal(t, 1, ops[i].Passes)
		assert.Equal(t, 150.0, ops[i].Speed)
		assert.Equal(t, ops[0].Strokes, ops[i].Strokes)
	}
	assert.Equal(t, "2 mark", ops[3].Name)
	assert.Equal(t, "4 outer cuts", ops[5].Name)
	assert.Empty(t, Order(nil, s))
}

// A small part inside the cut-out of another, itself with a hole, must be free
// before the cut-out is, and its hole before it.
func TestOrderInnermostFirst(t *testing.T) {
	host, guest := Part{ID: "host"}, Part{ID: "guest"}
	host.Strokes[Outer] = []plane.Path{plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(200, 200)))}
	host.Strokes[Inner] = []plane.Path{plane.RectPath(plane.BoxOf(plane.Pt(20, 20), plane.Pt(180, 180))).Reverse()}
	guest.Strokes[Outer] = []plane.Path{plane.RectPath(plane.BoxOf(plane.Pt(50, 50), plane.Pt(150, 150)))}
	guest.Strokes[Inner] = []plane.Path{plane.CirclePath(plane.Pt(100, 100), 10).Reverse()}
	guest.Strokes[Score] = []plane.Path{openLine(plane.Pt(60, 60), plane.Pt(60, 140))}
	for _, parts := range [][]Part{{host, guest}, {guest, host}} {
		ops := Order(parts, Settings{})
		require.Len(t, ops, 3)
		require.Len(t, ops[1].Strokes, 3)
		assert.Equal(t, Inner, ops[1].Kind)
		var areas []float64
		for _, s := range ops[1].Strokes {
			areas = append(areas, math.Abs(math.Round(s.Path.Area())))
		}
		assert.Equal(t, []float64{314, 10000, 25600}, areas)
		require.Len(t, ops[2].Strokes, 1)
		assert.Equal(t, "host", ops[2].Strokes[0].Part)
	}
}

// Parallel scores are best run to and fro: the travel is the spacing between them
// and little else.
func TestOrderRunsScoresToAndFro(t *testing.T) {
	parts := []Part{panelPart("panel", plane.Pt(0, 10), 200, 50, 2)}
	ops := Order(parts, Settings{})
	n := len(ops[0].Strokes)
	first := ops[0].Strokes[0].Path.Start().Len()
	assert.InDelta(t, first+2*float64(n-1), travel(ops[:1], plane.Point{}), 1e-9)
}

func TestEveryThirdNeverTouchesAHotLine(t *testing.T) {
	for n := 1; n <= 60; n++ {
		p := Part{ID: "panel"}
		for i := range n {
			x := 2.5 * float64(i)
			p.Strokes[Score] = append(p.Strokes[Score], openLine(plane.Pt(x, 0), plane.Pt(x, 20)))
			if i%4 == 1 {
				p.Strokes[Score] = append(p.Strokes[Score], openLine(plane.Pt(x, 50), plane.Pt(x, 30)))
			}
		}
		ops := Order([]Part{p}, Settings{EveryThird: true})
		var seq []int
		for _, s := range ops[0].Strokes {
			if k := int(math.Round(s.Path.Start().X / 2.5)); len(seq) == 0 || seq[len(seq)-1] != k {
				seq = append(seq, k)
			}
		}
		require.Len(t, seq, n, "the pieces of a line stay together")
		beside := 0
		for i := 1; i < n; i++ {
			if d := seq[i] - seq[i-1]; d == 1 || d == -1 {
				beside++
			}
		}
		switch {
		case n >= 4:
			assert.Zero(t, beside, "%v", seq)
		case n > 1:
			assert.Equal(t, 1, beside, "%v", seq)
		}
		sorted := slices.Clone(seq)
		slices.Sort(sorted)
		for i := range n {
			assert.Equal(t, i, sorted[i])
		}
	}
}

func TestEveryThirdCostsThreeLengthsOfThePanel(t *testing.T) {
	for _, n := range []int{10, 41, 100} {
		p := Part{ID: "panel"}
		for i := range n {
			p.Strokes[Score] = append(p.Strokes[Score], openLine(plane.Pt(2.5*float64(i), 0), plane.Pt(2.5*float64(i), 40)))
		}
		length := 2.5 * float64(n-1)
		assert.InDelta(t, length, travel(Order([]Part{p}, Settings{}), plane.Point{}), 1e-9)
		swept := travel(Order([]Part{p}, Settings{EveryThird: true}), plane.Point{})
		assert.InDelta(t, 3*length, swept, length+15)
	}
}

func TestTravelIsShortOnAFullSheet(t *testing.T) {
	parts := sheetOf(49, 30)
	ops := Order(parts, Settings{})
	asGiven := func(k Kind) float64 {
		op := Operation{}
		for _, p := range parts {
			for _, path := range p.Strokes[k] {
				op.Strokes = append(op.Strokes, Stroke{p.ID, path})
			}
		}
		return travel([]Operation{op}, plane.Point{})
	}
	// Scores: all within parts to and fro, and one step of at most a part's length
	// from each part to the next.
	scores := travel(ops[:1], plane.Point{})
	n := len(ops[0].Strokes)
	assert.Less(t, scores, 1.1*(float64(n)*3.33+49*70))
	assert.Less(t, scores, asGiven(Score)/5)
	for i, k := range []Kind{Mark, Inner, Outer} {
		assert.LessOrEqual(t, travel(ops[i+1:i+2], ops[i].Strokes[len(ops[i].Strokes)-1].Path.End()), asGiven(k), "%v", k)
	}
}

func BenchmarkOrder200Parts20000Scores(b *testing.B) {
	parts := sheetOf(200, 100)
	for b.Loop() {
		Order(parts, Settings{})
	}
}

func BenchmarkOrder200Parts20000ScoresEveryThird(b *testing.B) {
	parts := sheetOf(200, 100)
	for b.Loop() {
		Order(parts, Settings{EveryThird: true})
	}
}

func BenchmarkOrderScattered20000(b *testing.B) {
	r := rand.New(rand.NewPCG(8, 8))
	p := Part{ID: "p"}
	for range 20000 {
		a := pt(r, 1000)
		p.Strokes[Score] = append(p.Strokes[Score], openLine(a, a.Add(pt(r, 40).Sub(plane.Pt(20, 20)))))
	}
	for b.Loop() {
		Order([]Part{p}, Settings{})
	}
}

func BenchmarkOrderSevenRoundStrokes(b *testing.B) {
	r := rand.New(rand.NewPCG(12, 12))
	p := Part{ID: "p"}
	for range 7 {
		c := pt(r, 200)
		var pts []plane.Point
		for k := range maxStarts {
			pts = append(pts, c.Add(plane.Dir(float64(k)*2*math.Pi/maxStarts).Mul(10)))
		}
		p.Strokes[Inner] = append(p.Strokes[Inner], plane.Poly(pts...))
	}
	for b.Loop() {
		Order([]Part{p}, Settings{})
	}
}
