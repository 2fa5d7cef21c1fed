package intake

import (
	"flag"
	"fmt"
	"math"
	"math/rand"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

func kinds(changes []Change) string {
	var out []string
	for _, c := range changes {
		out = append(out, fmt.Sprintf("%s %v", c.Kind, c.Items))
	}
	return strings.Join(out, "; ")
}

func TestMend(t *testing.T) {
	for _, c := range []struct {
		name, drawn string
		gap         float64
		want        string
		changes     string
	}{
		{"nothing to do", "M 0 0 L 10 0 L 10 10 Z", 0.1, "M 0 0 L 10 0 L 10 10 L 0 0 Z", ""},
		{"nothing at all", "", 0.1, "", ""},
		{"two pieces that meet", "M 0 0 L 10 0\nM 10 0 L 10 10", 0, "M 0 0 L 10 0 L 10 10", "joined [0 1]"},
		{"two pieces nose to nose", "M 0 0 L 10 0\nM 10 10 L 10 0", 0, "M 0 0 L 10 0 L 10 10", "joined [0 1]"},
		{"two pieces tail to tail", "M 10 0 L 0 0\nM 10 0 L 10 10", 0, "M 10 10 L 10 0 L 0 0", "joined [0 1]"},
		{"a square of four lines, any way round", "M 0 0 L 10 0\nM 10 10 L 10 0\nM 0 10 L 10 10\nM 0 10 L 0 0", 0,
			"M 0 0 L 10 0 L 10 10 L 0 10 L 0 0 Z", "closed [0 1 2 3]"},
		{"a narrow gap: both ends move", "M 0 0 L 10 0\nM 10 .04 L 10 10", 0.1, "M 0 0 L 10 .02 L 10 10", "joined [0 1]"},
		{"a wide gap: a line", "M 0 0 L 10 0\nM 10 1 L 10 10", 1.5, "M 0 0 L 10 0 L 10 1 L 10 10", "joined [0 1]"},
		{"a gap too wide", "M 0 0 L 10 0\nM 10 1 L 10 10", 0.9, "M 0 0 L 10 0\nM 10 1 L 10 10", "near-miss [0 1]"},
		{"an outline nearly closed", "M 0 0 L 10 0 L 10 10 L 0 10 L 0 .03", 0.05, "M 0 .015 L 10 0 L 10 10 L 0 10 L 0 .015 Z", "closed [0]"},
		{"an outline left open, pointed at", "M 0 0 L 10 0 L 10 10 L 0 10 L 0 .3", 0.05, "M 0 0 L 10 0 L 10 10 L 0 10 L 0 .3", "still-open [0]"},
		{"a short line doesn't close on itself", "M 0 0 L .04 0", 0.05, "M 0 0 L .04 0", ""},
		{"two half circles", "M 10 0 B 1 -10 0\nM 10 0 B -1 -10 0", 0, "M 10 0 B 1 -10 0 B 1 10 0 Z", "closed [0 1]"},
		{"an arc keeps its bulge over a gap", "M 10 0 B 1 -10 0\nM -10 .02 L -10 -5", 0.05, "M 10 0 B 1 -10 .01 L -10 -5", "joined [0 1]"},
		{"a cubic keeps its end tangent", "M 0 0 C 5 0 10 5 10 10\nM 10.04 10 L 10.04 20", 0.05,
			"M 0 0 C 5 0 10.02 5 10.02 10 L 10.04 20", "joined [0 1]"},
		{"a line drawn twice", "M 0 0 L 10 0\nM 0 0 L 10 0", 0, "M 0 0 L 10 0", "duplicate [0 1]"},
		{"drawn back over", "M 0 0 L 10 0 L 10 5\nM 10 5 L 10 0 L 0 0", 0, "M 0 0 L 10 0 L 10 5", "duplicate [0 1]"},
		{"a closed path from another start, backwards", "M 0 0 L 10 0 L 10 5 Z\nM 10 0 L 0 0 L 10 5 Z", 0, "M 0 0 L 10 0 L 10 5 L 0 0 Z", "duplicate [0 1]"},
		{"drawn again with more corners", "M 0 0 L 10 0 L 10 5 Z\nM 0 0 L 5 0 L 10 0 L 10 5 Z", 0, "M 0 0 L 10 0 L 10 5 L 0 0 Z", "duplicate [0 1]"},
		{"nearly the same", "M 0 0 L 10 0 L 10 5\nM 0 .005 L 10 0 L 10 5", 0, "M 0 0 L 10 0 L 10 5", "duplicate [0 1]"},
		{"not the same", "M 0 0 L 10 0 L 10 5\nM 0 .1 L 10 5.1", 0, "M 0 0 L 10 0 L 10 5\nM 0 .1 L 10 5.1", "near-miss [0 1]; near-miss [0 1]"},
		{"arc and chord", "M 0 0 B .01 10 0\nM 0 0 L 10 0", 0, "M 0 0 B .01 10 0 L 0 0 Z", "closed [0 1]; turned"},
		{"closed path and its pieces", "M 0 0 L 10 0 L 10 5 Z\nM 0 0 L 10 0\nM 10 0 L 10 5\nM 10 5 L 0 0", 0,
			"M 0 0 L 10 0 L 10 5 L 0 0 Z", "closed [1 2 3]; duplicate [0 1 2 3]"},
		{"outline clockwise", "M 0 0 L 0 10 L 10 10 Z", 0, "M 0 0 L 10 10 L 0 10 L 0 0 Z", "turned [0]"},
		{"hole counter-clockwise", "M 0 0 L 30 0 L 30 30 L 0 30 Z\nM 5 5 L 10 5 L 10 10 Z", 0,
			"M 0 0 L 30 0 L 30 30 L 0 30 L 0 0 Z\nM 5 5 L 10 10 L 10 5 L 5 5 Z", "turned [1]"},
		{"island in a hole", "M 0 0 L 30 0 L 30 30 L 0 30 Z\nM 5 5 L 5 25 L 25 25 L 25 5 Z\nM 10 10 L 12 10 L 12 12 Z", 0,
			"M 0 0 L 30 0 L 30 30 L 0 30 L 0 0 Z\nM 5 5 L 5 25 L 25 25 L 25 5 L 5 5 Z\nM 10 10 L 12 10 L 12 12 L 10 10 Z", ""},
		{"there and back", "M 0 0 L 10 0 L 0 0 Z", 0, "M 0 0 L 10 0 L 0 0 Z", ""},
		{"a speck", "M 0 0 L .00005 0", 0, "", "speck [0]"},
		{"a bow tie", "M 0 0 L 10 10 L 10 0 L 0 12 Z", 0, "", "crossing [0]"},
		{"three ends in a point", "M 0 0 L 10 0\nM 10 0 L 20 0\nM 10 0 L 10 10", 0, "M 0 0 L 10 0 L 20 0\nM 10 0 L 10 10", "junction [0]; joined [0 1]"},
		{"a cross of four", "M -10 0 L 0 0\nM 0 -10 L 0 0\nM 0 0 L 10 0\nM 0 0 L 0 10", 0,
			"M -10 0 L 0 0 L 10 0\nM 0 -10 L 0 0 L 0 10", "junction [0]; joined [0 2]; joined [1 3]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			items := drawn(t, c.drawn)
			before := fmt.Sprint(items)
			m, changes := Mend(items, c.gap)
			require.Equal(t, before, fmt.Sprint(items), "the given items must stay as they are")
			if c.name == "arc and chord" { // of a bulge: which way round follows from the sense
				require.Len(t, m.Items, 1)
				require.True(t, m.Items[0].Path.Closed)
				require.Greater(t, m.Items[0].Path.Area(), 0.0)
				return
			}
			require.Equal(t, c.changes, kinds(changes))
			if c.name != "a bow tie" {
				requirePaths(t, c.want, m.Items, 1e-9)
			}
			requireSound(t, m.Items)
			require.Len(t, m.From, len(m.Items))
			again, more := Mend(m.Items, c.gap)
			require.Equal(t, len(m.Items), len(again.Items))
			for _, ch := range more {
				require.False(t, ch.Done(), "mending twice does nothing more: %v", ch)
			}
		})
	}
}

// Each optional change can be left alone, whatever happens to the others; it is told
// all the same, under the same key.
func TestMendLeavesWhatItIsAskedToLeave(t *testing.T) {
	items := drawn(t, "M 0 0 L 10 0\nM 10 0.05 L 10 10 L 0 10 L 0 0\nM 40 0 L 50 0 L 50 10\nM 50 10 L 40 0.02\nM 90 0 L 99 0 L 95 9 Z\nM 90 0 L 99 0 L 95 9 Z\nM 70 0 L 80 0 L 80 5 L 75 9")
	items[6].Stroke, items[6].Fill = "", "#000000"
	all, changes := Mend(items, 0.1)
	require.Equal(t, "duplicate [4 5]; filled [6]; closed [0 1]; closed [2 3]", kinds(changes))
	require.Len(t, all.Items, 4)
	for i, c := range changes {
		require.True(t, c.Optional())
		m, again := Mend(items, 0.1, c.Key())
		require.Equal(t, kinds(changes), kinds(without(again, StillOpen)))
		for j, d := range without(again, StillOpen) {
			require.Equal(t, i != j, d.Done(), d.Key())
			require.Equal(t, i == j, d.Left, d.Key())
			require.Equal(t, changes[j].Key(), d.Key())
		}
		require.Len(t, m.Items, 4+map[ChangeKind]int{Duplicate: 1, Closed: 1}[c.Kind])
		requireSound(t, m.Items)
	}
	none, _ := Mend(items, 0.1, changes[0].Key(), changes[1].Key(), changes[2].Key(), changes[3].Key(), "no such")
	requirePaths(t, "M 0 0 L 10 0\nM 10 0.05 L 10 10 L 0 10 L 0 0\nM 40 0 L 50 0 L 50 10\nM 50 10 L 40 0.02\nM 90 0 L 99 0 L 95 9 L 90 0 Z\nM 90 0 L 99 0 L 95 9 L 90 0 Z\nM 70 0 L 80 0 L 80 5 L 75 9", none.Items, 1e-9)
}

func without(changes []Change, kind ChangeKind) []Change {
	var out []Change
	for _, c := range changes {
		if c.Kind != kind {
			out = append(out, c)
		}
	}
	return out
}

func TestMendKeepsLayersApart(t *testing.T) {
	items := drawn(t, "M 0 0 L 10 0\nM 10 0 L 10 10\nM 10 10 L 0 0")
	items[1].Layer = "score"
	m, changes := Mend(items, 0.1)
	require.Len(t, m.Items, 2)
	require.Equal(t, "joined [0 2]; apart [0 1 2]; apart [0 1 2]", kinds(changes))
	items[1].Layer, items[1].Stroke = "0", "#ff0000"
	m, _ = Mend(items, 0.1)
	require.Len(t, m.Items, 2, "colours too")

	same := drawn(t, "M 0 0 L 10 0 L 10 5 Z\nM 0 0 L 10 0 L 10 5 Z")
	same[1].Layer = "score"
	m, changes = Mend(same, 0)
	require.Len(t, m.Items, 2)
	require.Equal(t, "doubled [0 1]", kinds(changes))
	require.False(t, changes[0].Done())
}

func TestMendClosesFilled(t *testing.T) {
	items := drawn(t, "M 0 0 L 10 0 L 10 10 L 5 12\nM 50 0 L 60 0")
	for i := range items {
		items[i].Stroke, items[i].Fill = "", "#000000"
	}
	m, changes := Mend(items, 0)
	require.Equal(t, "filled [0]", kinds(changes))
	requirePaths(t, "M 0 0 L 10 0 L 10 10 L 5 12 L 0 0 Z\nM 50 0 L 60 0", m.Items, 0)
	require.InDelta(t, 13, changes[0].Gap, 1e-12)
	items[0].Stroke = "#000000"
	_, changes = Mend(items, 0)
	require.Empty(t, changes, "a drawn line shows that it is open")
}

func TestMendPointsAtPlaces(t *testing.T) {
	for _, c := range []struct {
		name, drawn, want string
		at                plane.Point
	}{
		{"bow tie", "M 0 0 L 10 10 L 10 0 L 0 10 Z", "crossing [0]", plane.Pt(5, 5)},
		{"figure of eight of arcs", "M 0 0 B 1 10 0 B -1 20 0 B -1 10 0 B 1 0 0 Z", "touching [0]", plane.Pt(10, 0)},
		{"loop in a cubic", "M 0 0 C 30 20 -20 20 10 0", "crossing [0]", plane.Pt(5, 3.75)},
		{"pinched at a corner", "M 0 0 L 5 5 L 10 0 L 10 10 L 5 5 L 0 10 Z", "touching [0]", plane.Pt(5, 5)},
		{"corner on an edge", "M 0 0 L 10 0 L 10 10 L 5 0 L 0 10 Z", "touching [0]", plane.Pt(5, 0)},
		{"there and back", "M 0 0 L 10 0 L 10 10 L 10 15 L 10 10 L 0 10 Z", "touching [0]", plane.Pt(10, 10)},
		{"open and crossing", "M 0 0 L 10 0 L 10 10 L 5 10 L 5 -5", "crossing [0]", plane.Pt(5, 0)},
		{"hole through the edge", "M 0 0 L 30 0 L 30 30 L 0 30 Z\nM 25 10 L 35 15 L 25 20 Z", "overlapping [0 1]; overlapping [0 1]", plane.Pt(30, 12.5)},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, changes := Mend(drawn(t, c.drawn), 0)
			var found []Change
			for _, ch := range changes {
				if !ch.Done() {
					found = append(found, ch)
				}
			}
			require.Equal(t, c.want, kinds(found))
			require.InDelta(t, 0, found[0].At.Dist(c.at), 0.02)
		})
	}
}

// Clean outlines give no false alarm: star shapes of lines, arcs and cubics with
// corners of every angle.
func TestMendNoFalseCrossings(t *testing.T) {
	rnd := rand.New(rand.NewSource(3))
	for range 200 {
		p := star(rnd, 5+rnd.Intn(60))
		_, changes := Mend([]Item{{Path: p}}, 0)
		require.Empty(t, changes)
	}
}

// star is an outline that goes round the origin once.
func star(rnd *rand.Rand, n int) plane.Path {
	var pts []plane.Point
	for i := range n {
		pts = append(pts, plane.Dir(2*math.Pi*float64(i)/float64(n)).Mul(20+30*rnd.Float64()))
	}
	var segs []plane.Segment
	for i, a := range pts {
		b := pts[(i+1)%n]
		switch rnd.Intn(3) {
		case 0:
			segs = append(segs, plane.LineSeg(a, b))
		case 1:
			segs = append(segs, plane.BulgeSeg(a, b, 0.02))
		default:
			segs = append(segs, plane.CubicSeg(a, a.Lerp(b, .3).Mul(1.01), a.Lerp(b, .7).Mul(1.01), b))
		}
	}
	return plane.Chain(true, segs...)
}

// An outline cut into pieces, shuffled, turned and moved apart by less than the gap
// comes back with its length, area and sense.
func TestMendPutsPiecesBack(t *testing.T) {
	rnd := rand.New(rand.NewSource(4))
	for range 100 {
		p := star(rnd, 8+rnd.Intn(40))
		items := shattered(rnd, p, 0.01)
		m, changes := Mend(items, 0.03)
		require.Len(t, m.Items, 1)
		require.Equal(t, Closed, changes[0].Kind)
		require.InEpsilon(t, p.Length(), m.Items[0].Path.Length(), 0.02)
		require.InEpsilon(t, p.Area(), m.Items[0].Path.Area(), 0.005)
		require.Len(t, m.From[0], len(items))
		requireSound(t, m.Items)
	}
}

func shattered(rnd *rand.Rand, p plane.Path, jitter float64) []Item {
	var out []Item
	for from := 0; from < len(p.Segs); {
		to := min(len(p.Segs), from+1+rnd.Intn(3))
		piece := plane.Path{Segs: append([]plane.Segment(nil), p.Segs[from:to]...)}
		shift := plane.Dir(7 * rnd.Float64()).Mul(jitter * rnd.Float64())
		piece = piece.Apply(plane.Translate(shift.X, shift.Y))
		if rnd.Intn(2) == 0 {
			piece = piece.Reverse()
		}
		out = append(out, Item{Path: piece})
		from = to
	}
	rnd.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out
}

// What Mend does doesn't depend on where and how the drawing lies.
func TestMendMovesAlong(t *testing.T) {
	rnd := rand.New(rand.NewSource(6))
	for range 50 {
		items := shattered(rnd, star(rnd, 20), 0.01)
		items = append(items, drawn(t, "M -5 0 L 5 0 L 0 5 Z\nM 5 0 L 0 5 L -5 0 Z\nM 70 0 L 80 0 L 75 9 L 75 -9")...)
		m, changes := Mend(items, 0.03)
		for _, a := range []plane.Affine{plane.Rotate(rnd.Float64() * 7), plane.Rotate(1.1).Mul(plane.Scale(-1, 1)), plane.Translate(1e4, -300)} {
			n, after := Mend(moved(items, a), 0.03)
			require.Equal(t, sorted(changes), sorted(after))
			require.Len(t, n.Items, len(m.Items))
			for i := range n.Items {
				require.InEpsilon(t, m.Items[i].Path.Length(), n.Items[i].Path.Length(), 1e-9)
				require.InDelta(t, math.Abs(m.Items[i].Path.Area()), math.Abs(n.Items[i].Path.Area()), 1e-5)
			}
		}
	}
}

// sorted lists the changes without turnings, which mirroring adds.
func sorted(changes []Change) []string {
	var out []string
	for _, c := range changes {
		if c.Kind != Turned {
			out = append(out, fmt.Sprintf("%s %v %.6f", c.Kind, c.Items, c.Gap))
		}
	}
	sort.Strings(out)
	return out
}

// Curves a thousand kilometres long, which no sheet holds but a file may, don't run
// away when they are followed closely.
func TestMendHugeCurves(t *testing.T) {
	items := drawn(t, "M 0 0 C 9e8 9e8 -9e8 9e8 0 1 C 9e8 -9e8 -9e8 9e8 0 0 Z\nM 0 0 C 9e8 9e8 -9e8 9e8 0 1.1 C 9e8 -9e8 -9e8 9e8 0 0 Z")
	for range 8 {
		items = append(items, items...)
	}
	m, _ := Mend(items, 1e6)
	requireSound(t, m.Items)
	var pieces []piece
	points := 0
	for _, it := range items {
		pieces = append(pieces, piece{Item: it})
	}
	tol := flatTolerance(pieces, flatWithin)
	for _, it := range items {
		points += len(it.Path.Flatten(tol))
	}
	require.Less(t, points, 2*maxFlat)
	require.Greater(t, points, maxFlat/4)
}

func TestMendRefusesBadGap(t *testing.T) {
	for _, gap := range []float64{-1, math.NaN(), math.Inf(1)} {
		require.Panics(t, func() { Mend(nil, gap) })
	}
}

func TestGuess(t *testing.T) {
	const sheet = "M 0 0 L 50 0 L 50 50 L 0 50 Z\n"
	for _, c := range []struct{ name, drawn, want string }{
		{"nothing", "", ""},
		{"one outline", sheet, "outline"},
		{"outline and holes", sheet + "M 5 5 L 9 5 L 9 9 Z\nM 35 5 B 1 39 5 B 1 35 5 Z", "outline hole hole"},
		{"holes first", "M 5 5 L 9 5 L 9 9 Z\n" + sheet, "hole outline"},
		{"lines inside and outside", sheet + "M 5 5 L 9 5\nM 60 0 L 70 0", "outline mark "},
		{"an island in a hole", sheet + "M 5 5 L 5 25 L 25 25 L 25 5 Z\nM 10 10 L 12 10 L 12 12 Z", "outline hole mark"},
		{"a smaller part beside it", sheet + "M 60 0 L 70 0 L 70 10 Z\nM 64 1 L 69 1 L 69 2 Z", "outline  "},
		{"one curve", "M 0 0 B .2 100 0", "curve"},
		{"a curve and a short line", "M 0 0 L 5 0\nM 0 0 B .2 100 0", " curve"},
		{"the same outline twice", sheet + sheet, "outline "},
	} {
		var got []string
		for _, r := range Guess(drawn(t, c.drawn), plane.Box{}, Unsaid).Roles {
			got = append(got, string(r))
		}
		require.Equal(t, c.want, strings.Join(got, " "), c.name)
	}
	items := drawn(t, "M -9 -9 L 90 -9 L 90 90 L -9 90 Z\n"+sheet)
	items[0].Stroke = ""
	require.Equal(t, []Role{Unused, Outline}, Guess(items, plane.Box{}, Unsaid).Roles, "an invisible frame isn't the outline")
	items[1].Stroke = ""
	require.Equal(t, []Role{Outline, Hole}, Guess(items, plane.Box{}, Unsaid).Roles, "unless nothing is visible")
}

// A plate with a thousand holes, each turned the wrong way, sorts itself out.
func TestMendManyHoles(t *testing.T) {
	items := []Item{{Path: plane.RectPath(box(0, 0, 1000, 1000))}}
	for i := range 1000 {
		items = append(items, Item{Path: plane.CirclePath(plane.Pt(15+30*float64(i%32), 15+30*float64(i/32)), 5)})
	}
	m, changes := Mend(items, 0.1)
	require.Len(t, changes, 1000)
	area := 0.0
	for i, role := range Guess(m.Items, plane.Box{}, Unsaid).Roles {
		require.Equal(t, i == 0, role == Outline)
		require.Equal(t, i > 0, role == Hole)
		area += m.Items[i].Path.Area()
	}
	require.InEpsilon(t, 1e6-1000*25*math.Pi, area, 1e-12)
	require.Negative(t, m.Items[7].Path.Area())
}

var update = flag.Bool("update", false, "rewrite the golden files")

// What reading and mending say about whole drawings, as text a person can read.
func TestGolden(t *testing.T) {
	files, err := filepath.Glob("../../testdata/intake/*.*")
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, f := range files {
		if ext := filepath.Ext(f); ext != ".svg" && ext != ".dxf" {
			continue
		}
		name := filepath.Base(f) + ".txt"
		seen[name] = true
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(f)
			require.NoError(t, err)
			d, err := Read(data, Options{})
			require.NoError(t, err)
			golden := filepath.Join("../../testdata/intake/golden", name)
			got := describe(d)
			if *update {
				require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
			}
			want, err := os.ReadFile(golden)
			require.NoError(t, err)
			require.Equal(t, string(want), got)
		})
	}
	require.NotEmpty(t, seen)
	goldens, err := filepath.Glob("../../testdata/intake/golden/*.txt")
	require.NoError(t, err)
	for _, g := range goldens {
		require.True(t, seen[filepath.Base(g)], "%s belongs to no drawing", g)
	}
}

func describe(d Drawing) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, unit %q, %.4g to the inch\n\nread\n", d.Format, d.Units.Name, d.Units.PerInch)
	list := func(items []Item, roles []Role) {
		for i, it := range items {
			var n [3]int
			for _, s := range it.Path.Segs {
				n[s.Kind]++
			}
			box := it.Path.Box()
			fmt.Fprintf(&b, "%2d %-8s layer %q stroke %q fill %q %s: closed %v, %d lines %d arcs %d cubics, length %.3f area %.3f, x %.3f..%.3f y %.3f..%.3f\n",
				i, roles[i], it.Layer, it.Stroke, it.Fill, it.Source, it.Path.Closed, n[0], n[1], n[2],
				it.Path.Length(), it.Path.Area(), box.Min.X, box.Max.X, box.Min.Y, box.Max.Y)
		}
	}
	list(d.Items, Guess(d.Items, plane.Box{}, Unsaid).Roles)
	for _, f := range d.Notes {
		fmt.Fprintf(&b, "%s %s: %s\n", f.Severity, f.ID, f.Text)
	}
	m, changes := Mend(d.Items, 0.1)
	fmt.Fprintf(&b, "\nmended over gaps of 0.1 mm\n")
	for _, c := range changes {
		fmt.Fprintf(&b, "%s %v at %.3f, %.3f: %s\n", c.Kind, c.Items, c.At.X, c.At.Y, c.Text)
	}
	list(m.Items, Guess(m.Items, plane.Box{}, Unsaid).Roles)
	return b.String()
}
