package part

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/fit"
	"springrib/internal/offset"
	"springrib/internal/plane"
)

// blob is a smooth closed curve about c, of about the given radius, that goes round once:
// as deep waves as waves says.
func blob(rng *rand.Rand, c plane.Point, radius, waves float64) plane.Path {
	var amp, phase [5]float64
	for k := range amp {
		amp[k], phase[k] = waves*rng.Float64()/float64(k+2), 2*math.Pi*rng.Float64()
	}
	at := func(t float64) (p, d plane.Point) {
		r, dr := 1.0, 0.0
		for k := range amp {
			n := float64(k + 2)
			s, co := math.Sincos(n*t + phase[k])
			r, dr = r+amp[k]*s, dr+n*amp[k]*co
		}
		u := plane.Dir(t)
		return c.Add(u.Mul(radius * r)), u.Mul(radius * dr).Add(u.Left().Mul(radius * r))
	}
	return fit.Fit(plane.Func(true, at, 0, math.Pi/2, math.Pi, 1.5*math.Pi, 2*math.Pi), fit.Options{Tolerance: 0.02}).Path
}

// jagged is a star of lines and arcs, and of cubics as well where they are asked for,
// with corners both ways.
func jagged(rng *rand.Rand, c plane.Point, radius float64, n int, cubics bool) plane.Path {
	kinds := 2
	if cubics {
		kinds = 3
	}
	pts := make([]plane.Point, n)
	for i := range pts {
		pts[i] = c.Add(plane.Dir(2 * math.Pi * (float64(i) + 0.5*rng.Float64()) / float64(n)).Mul(radius * (0.3 + 0.7*rng.Float64())))
	}
	var segs []plane.Segment
	for i, a := range pts {
		b := pts[(i+1)%n]
		switch rng.IntN(kinds) {
		case 0:
			segs = append(segs, plane.LineSeg(a, b))
		case 1:
			segs = append(segs, plane.BulgeSeg(a, b, 0.2*rng.Float64()-0.1))
		default:
			l := a.Dist(b)
			segs = append(segs, plane.CubicSeg(a, a.Lerp(b, 0.3).Add(plane.Dir(6*rng.Float64()).Mul(l/8)), a.Lerp(b, 0.7).Add(plane.Dir(6*rng.Float64()).Mul(l/8)), b))
		}
	}
	return plane.Chain(true, segs...)
}

// randomRegion is a sound outline with up to three holes: one in twenty smooth, one in
// twenty with cubics between corners, the others of lines and arcs.
func randomRegion(rng *rand.Rand) plane.Region {
	for {
		r := plane.Region{}
		kind := rng.IntN(20)
		hole := func(c plane.Point) plane.Path { return jagged(rng, c, 5+5*rng.Float64(), 3+rng.IntN(4), kind == 1) }
		if kind == 0 {
			r.Outer = blob(rng, plane.Point{}, 60, 0.35)
			hole = func(c plane.Point) plane.Path { return blob(rng, c, 3+6*rng.Float64(), 0.4) }
		} else {
			r.Outer = jagged(rng, plane.Point{}, 75, 5+rng.IntN(9), kind == 1)
		}
		for _, c := range []plane.Point{plane.Pt(11, 9), plane.Pt(-13, 5), plane.Pt(2, -14)} {
			if rng.IntN(3) > 0 {
				r.Holes = append(r.Holes, hole(c))
			}
		}
		if r = r.Normal(); len(Faults(r, 0)) == 0 {
			return r
		}
	}
}

// measured is what shapely makes of a region: see testdata/offsets.py.
type measured struct {
	area          float64
	pieces, holes int
}

// leastCounted is the area, mm², of a piece or hole that counts: smaller ones are there
// or not by rounding.
const leastCounted = 0.05

// shapely returns the Python that has it.
func shapely(t *testing.T) (python string) {
	t.Helper()
	for _, p := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(p, "-c", "import shapely").Run() == nil {
			return p
		}
	}
	t.Skip("The Python library shapely is not installed (Debian: python3-shapely); offsets were not compared with it.")
	return ""
}

// byShapely offsets every region by its distance.
func byShapely(t *testing.T, python string, regions []plane.Region, d []float64) []measured {
	t.Helper()
	var in bytes.Buffer
	for i, r := range regions {
		var rings [][][2]float64
		for _, p := range r.Paths() {
			var ring [][2]float64
			for _, q := range p.Flatten(2e-4) {
				ring = append(ring, [2]float64{q.X, q.Y})
			}
			rings = append(rings, ring)
		}
		line, err := json.Marshal(map[string]any{"rings": rings, "d": d[i], "least": leastCounted})
		require.NoError(t, err)
		in.Write(append(line, '\n'))
	}
	cmd := exec.Command(python, "testdata/offsets.py")
	cmd.Stdin = &in
	out, err := cmd.Output()
	require.NoError(t, err)
	var all []measured
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		var m measured
		_, err := fmt.Sscan(line, &m.area, &m.pieces, &m.holes)
		require.NoError(t, err)
		all = append(all, m)
	}
	require.Len(t, all, len(regions))
	return all
}

func measure(regions []plane.Region) (m measured) {
	for _, r := range regions {
		m.area += r.Area()
		if r.Area() > leastCounted {
			m.pieces++
		}
		for _, h := range r.Holes {
			if math.Abs(h.Area()) > leastCounted {
				m.holes++
			}
		}
	}
	return m
}

// requireSound checks that nothing crosses itself or anything else, and that all run the
// right way round.
func requireSound(t *testing.T, regions []plane.Region, what string) {
	t.Helper()
	for i, r := range regions {
		require.Empty(t, offset.Crossings(r.Paths()...), what)
		require.True(t, r.Outer.IsCCW(), what)
		for _, h := range r.Holes {
			require.False(t, h.IsCCW(), what)
			require.True(t, r.Outer.Contains(h.Start()), what)
		}
		for _, other := range regions[:i] {
			require.Empty(t, offset.Crossings(r.Outer, other.Outer), what)
		}
	}
}

// Offsets of 1,000 random outlines with holes, inward and outward, up to where necks
// close and holes vanish: no loop and no crossing, and the area, the pieces and the
// holes that shapely finds.
func TestOffsetsOfAThousandOutlines(t *testing.T) {
	python := shapely(t)
	rng := rand.New(rand.NewPCG(11, 12))
	var regions []plane.Region
	var d []float64
	for i := range 1000 {
		regions = append(regions, randomRegion(rng))
		far := []float64{1, 5, 12}[i%3]
		d = append(d, far*(1.5*rng.Float64()-1))
	}
	want := byShapely(t, python, regions, d)
	split, worst, differ := 0, 0.0, 0
	for i, r := range regions {
		what := fmt.Sprintf("outline %d by %g: %v", i, d[i], r)
		out, err := offset.Region(r, d[i], 0.01)
		require.NoError(t, err, what)
		requireSound(t, out, what)
		got := measure(out)
		// What the tolerance of fitted curves allows over the length of the edge comes on top
		// where little area is left of a long edge.
		edge := 0.0
		for _, o := range out {
			for _, p := range o.Paths() {
				edge += p.Length()
			}
		}
		require.InDelta(t, want[i].area, got.area, 1e-3*want[i].area+0.002*edge, what)
		worst = math.Max(worst, math.Abs(got.area-want[i].area)/r.Area())
		if len(out) > 1 {
			split++
		}
		if got.pieces != want[i].pieces || got.holes != want[i].holes {
			differ++
		}
	}
	t.Logf("most off, share of the outline: %.2g; %d fell in pieces", worst, split)
	assert.Greater(t, split, 10, "necks did close")
	assert.LessOrEqual(t, differ, 3, "a neck or hole of no width is there or not by rounding")
}

// The kerf allowance of the same kind of outlines agrees too: sharp corners add less than
// the bound.
func TestKerfOfAThousandOutlines(t *testing.T) {
	python := shapely(t)
	rng := rand.New(rand.NewPCG(13, 14))
	var regions []plane.Region
	var d []float64
	for range 1000 {
		regions = append(regions, randomRegion(rng))
		d = append(d, 0.02+0.28*rng.Float64())
	}
	want := byShapely(t, python, regions, d)
	for i, r := range regions {
		what := fmt.Sprintf("outline %d, kerf %g: %v", i, 2*d[i], r)
		a := Allow(r, 2*d[i])
		require.False(t, a.Failed, what)
		requireSound(t, []plane.Region{a.Outline}, what)
		require.InEpsilon(t, want[i].area, a.Outline.Area(), 1e-3, what)
		require.Equal(t, len(r.Holes), len(a.Outline.Holes)+len(a.Lost), what)
	}
}

// Steiner's formula, area + d length + pi d² for each outline less one for each hole, holds
// where nothing bends against the offset more tightly than d (R. Schneider, Convex
// Bodies: The Brunn-Minkowski Theory, 2nd ed. 2014, 4.2, for convex ones; for smooth
// curves it follows by integrating along the parallel).
func TestOffsetsBySteiner(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	tried := 0
	for tried < 25 {
		r := plane.Region{Outer: blob(rng, plane.Point{}, 60, 0.12), Holes: []plane.Path{blob(rng, plane.Pt(12, 9), 9, 0.08), blob(rng, plane.Pt(-15, -4), 7, 0.08)}}.Normal()
		room := tightest(r)
		if room < 0.5 {
			continue
		}
		tried++
		d := (2*rng.Float64() - 1) * 0.8 * math.Min(room, 3)
		length := 0.0
		for _, p := range r.Paths() {
			length += p.Length()
		}
		out, err := offset.Region(r, d, 0.005)
		require.NoError(t, err)
		require.Len(t, out, 1)
		require.Len(t, out[0].Holes, 2)
		want := r.Area() + d*length + math.Pi*d*d*(1-2)
		require.InDelta(t, want, out[0].Area(), 0.005*length)
	}
}

// tightest returns the least radius at which any edge bends, and the room between edges.
func tightest(r plane.Region) float64 {
	least := 6.0 // half the least distance between these edges, by construction
	for _, p := range r.Paths() {
		for _, s := range p.Segs {
			for i := range 17 {
				if k := math.Abs(s.Curvature(float64(i) / 16)); k > 0 {
					least = math.Min(least, 1/k)
				}
			}
		}
	}
	return least
}
