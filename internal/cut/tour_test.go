package cut

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

func pt(r *rand.Rand, size float64) plane.Point {
	return plane.Pt(size*r.Float64(), size*r.Float64())
}

func openLine(a, b plane.Point) plane.Path { return plane.Open(a, b) }

// randomElements mixes open lines, circles and polygons.
func randomElements(r *rand.Rand, n int) []element {
	var out []element
	for range n {
		var p plane.Path
		switch a := pt(r, 100); r.IntN(3) {
		case 0:
			p = plane.CirclePath(a, 1+5*r.Float64())
		case 1:
			p = plane.RectPath(plane.BoxOf(a, a.Add(pt(r, 40))))
		default:
			p = openLine(a, a.Add(pt(r, 60).Sub(plane.Pt(30, 30))))
		}
		out = append(out, single(Stroke{Path: p}))
	}
	return out
}

// bruteForce tries every order and every way.
func bruteForce(els []element, at plane.Point) float64 {
	best := math.Inf(1)
	used := make([]bool, len(els))
	var walk func(at plane.Point, left int, sofar float64)
	walk = func(at plane.Point, left int, sofar float64) {
		if sofar >= best {
			return
		}
		if left == 0 {
			best = sofar
			return
		}
		for e, el := range els {
			if used[e] {
				continue
			}
			used[e] = true
			for _, w := range el.ways {
				walk(w.out, left-1, sofar+at.Dist(w.in)+w.cost)
			}
			used[e] = false
		}
	}
	walk(at, len(els), 0)
	return best
}

func checkTour(t *testing.T, x *tour) {
	t.Helper()
	sorted := slices.Clone(x.order)
	slices.Sort(sorted)
	for i, e := range sorted {
		require.Equal(t, i, e, "every element once")
	}
	for i, e := range x.order {
		require.Equal(t, i, x.place[e])
	}
}

func TestExactTourIsTheBruteForceOptimum(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for n := 1; n <= 6; n++ {
		for range 12 {
			x := newTour(randomElements(r, n), pt(r, 100))
			require.True(t, x.exact())
			checkTour(t, x)
			assert.InDelta(t, bruteForce(x.els, x.start), x.length(), 1e-9, "n = %d", n)
		}
	}
}

// The search on its own, on cases small enough to know the optimum: the mean excess
// over the least travel is printed and must stay within 5 %.
func TestHeuristicTourNearTheOptimum(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for _, n := range []int{3, 5, 7, 9} {
		sum, worst, equal := 0.0, 0.0, 0
		const cases = 150
		for range cases {
			els, start := randomElements(r, n), pt(r, 100)
			best, found := newTour(els, start), newTour(els, start)
			require.True(t, best.exactWithin(1<<40))
			found.heuristic()
			checkTour(t, found)
			excess := found.length()/best.length() - 1
			require.Greater(t, excess, -1e-9, "below the optimum")
			sum, worst = sum+excess, math.Max(worst, excess)
			if excess < 1e-9 {
				equal++
			}
		}
		t.Logf("n = %d: mean excess %.2f %%, worst %.1f %%, optimal in %d of %d", n, 100*sum/cases, 100*worst, equal, cases)
		assert.Less(t, sum/cases, 0.05)
	}
}

func TestShortestIsOptimalUpToSeven(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for n := 1; n <= 7; n++ {
		els, start := randomElements(r, n), pt(r, 100)
		strokes, end := shortest(els, start)
		op := Operation{Strokes: strokes}
		assert.InDelta(t, bruteForce(els, start), travel([]Operation{op}, start), 1e-9)
		assert.Equal(t, strokes[len(strokes)-1].Path.End(), end)
	}
}

// Every move must leave a permutation and shorten the tour by what it claims.
func TestMovesGainWhatTheyClaim(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 3000 {
		n := 2 + r.IntN(12)
		x := newTour(randomElements(r, n), pt(r, 100))
		r.Shuffle(n, func(i, j int) { x.order[i], x.order[j] = x.order[j], x.order[i] })
		for i, e := range x.order {
			x.place[e], x.way[e] = i, r.IntN(len(x.els[e].ways))
		}
		s := &search{tour: x, queued: make([]bool, n)}
		before := x.length()
		i := r.IntN(n)
		j := i + r.IntN(n-i)
		var moved bool
		if r.IntN(2) == 0 {
			moved = s.reverse(i, j)
		} else {
			moved = s.moveNear(i, min(j, i+maxMoved-1), r.IntN(n))
		}
		checkTour(t, x)
		if moved {
			require.Less(t, x.length(), before-worthwhile/2)
			require.NotEmpty(t, s.queue)
		} else {
			require.Equal(t, before, x.length())
		}
	}
}

func TestBestWaysIsTheLeastForTheOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 100 {
		x := newTour(randomElements(r, 5), pt(r, 100))
		best := math.Inf(1)
		var try func(i int)
		try = func(i int) {
			if i == len(x.els) {
				best = math.Min(best, x.length())
				return
			}
			for w := range x.els[i].ways {
				x.way[i] = w
				try(i + 1)
			}
		}
		try(0)
		x.bestWays()
		assert.InDelta(t, best, x.length(), 1e-9)
	}
}

func TestGridFindsTheNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for range 60 {
		n := 1 + r.IntN(80)
		els := randomElements(r, n)
		if r.IntN(4) == 0 { // all on a line, and many in one place
			for i := range els {
				x := float64(r.IntN(4))
				els[i] = single(Stroke{Path: openLine(plane.Pt(x, 5), plane.Pt(x, 6))})
			}
		}
		g := newGrid(els)
		left := make([]bool, n)
		for i := range left {
			left[i] = true
		}
		for range n {
			p := pt(r, 140).Sub(plane.Pt(20, 20))
			var all []spot
			for e, el := range els {
				for w, x := range el.ways {
					if left[e] {
						all = append(all, spot{x.in, e, w, gap(p, x.in)})
					}
				}
			}
			slices.SortFunc(all, func(a, b spot) int {
				if a.before(b) {
					return -1
				}
				return 1
			})
			require.Equal(t, all[0], g.closest(p))
			skip, k := r.IntN(n), 1+r.IntN(6)
			var want []int
			for _, s := range all {
				if s.el != skip && !slices.Contains(want, s.el) && len(want) < k {
					want = append(want, s.el)
				}
			}
			require.Equal(t, fmt.Sprint(want), fmt.Sprint(g.nearby(p, skip, k)))
			e := all[r.IntN(len(all))].el
			left[e] = false
			g.remove(e, els[e].ways)
		}
	}
}

// The shortest tour through n random points of a square of area A is about
// 0.7124 sqrt(n A) for large n, with 0.33/n more at the edges: Johnson, McGeoch and
// Rothberg, "Asymptotic experimental analysis for the Held-Karp traveling salesman
// bound", SODA 1996 (from memory). 2-opt with neighbour lists and a queue ends
// some 5 % above it, Johnson and McGeoch, "The traveling salesman problem: a case
// study in local optimization", 1997 (from memory); or-opt takes a little off.
func TestTourThroughRandomPoints(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 10))
	const n = 2000
	var els []element
	for range n {
		els = append(els, single(Stroke{Path: plane.CirclePath(pt(r, 1000), 1e-6)}))
	}
	x := newTour(els, plane.Point{})
	x.heuristic()
	checkTour(t, x)
	ratio := x.length() / (0.7124 * 1000 * math.Sqrt(n) * (1 + 0.33/n))
	t.Logf("%.3f of the shortest tour expected", ratio)
	assert.Greater(t, ratio, 0.97)
	assert.Less(t, ratio, 1.09)
}

var update = flag.Bool("update", false, "rewrite the files in testdata/golden")

// The same order, to the bit, on every machine.
func TestOrderGolden(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 11))
	var out strings.Builder
	for _, everyThird := range []bool{false, true} {
		for _, op := range Order(randomParts(r), Settings{EveryThird: everyThird}) {
			fmt.Fprintf(&out, "%s %s %d\n", op.Name, op.Colour, op.Passes)
			for _, s := range op.Strokes {
				fmt.Fprintf(&out, "  %s %.6f,%.6f -> %.6f,%.6f\n", s.Part, s.Path.Start().X, s.Path.Start().Y, s.Path.End().X, s.Path.End().Y)
			}
		}
	}
	const file = "testdata/golden/order.txt"
	if *update {
		require.NoError(t, os.MkdirAll("testdata/golden", 0o755))
		require.NoError(t, os.WriteFile(file, []byte(out.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "run the test with -update to write it")
	assert.Equal(t, string(want), out.String())
}
