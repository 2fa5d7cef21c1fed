package sheet

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// randomJob returns a job of 2 to 7 kinds of part.
func randomJob(r *rand.Rand) Job {
	job := Job{Gap: between(r, 0, 6), Beds: bed(between(r, 200, 700), between(r, 150, 500), between(r, 0, 8)), CutOuts: r.IntN(2) == 0}
	for range 2 + r.IntN(6) {
		job.Pieces = append(job.Pieces, randomPiece(r))
	}
	return job
}

func TestPackRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	for k := range 60 {
		job := randomJob(r)
		l := Pack(job, 0, Watch{})
		require.Empty(t, Verify(&job, &l), "job %d", k)
	}
}

// instance reads a public strip-packing instance: a list of polygons, how many of
// each, the turns allowed in degrees, and the height of the strip.
func instance(t testing.TB, name string) (Job, float64) {
	dir := os.Getenv("SPRINGRIB_PACKING")
	if dir == "" {
		t.Skip("set SPRINGRIB_PACKING to the folder of the public strip-packing instances to run this")
	}
	data, err := os.ReadFile(filepath.Join(dir, name+".json"))
	require.NoError(t, err)
	var in struct {
		Items []struct {
			Demand       int
			Orientations []float64 `json:"allowed_orientations"`
			Shape        struct{ Data [][2]float64 }
		}
		Height float64 `json:"strip_height"`
	}
	require.NoError(t, json.Unmarshal(data, &in))
	job := Job{CutOuts: true}
	area, long := 0., 0.
	for _, it := range in.Items {
		var pts []plane.Point
		for _, q := range it.Shape.Data {
			pts = append(pts, plane.Pt(q[0], q[1]))
		}
		p := Piece{ID: name, Outline: plane.Region{Outer: plane.Poly(pts...)}.Normal(), Quantity: it.Demand}
		for _, o := range it.Orientations {
			p.Turns = append(p.Turns, o*math.Pi/180)
		}
		area += float64(it.Demand) * p.Outline.Area()
		b := p.Outline.Box()
		long = math.Max(long, b.W()+b.H())
		job.Pieces = append(job.Pieces, p)
	}
	job.Beds = bed(3*area/in.Height+long, in.Height, 0)
	return job, area / in.Height
}

// best holds the densities best known, in percent, for the public instances
// (Gardeyn, Vanden Berghe & Wauters, arXiv 2509.13329, 2025, and its records).
var best = []struct {
	name    string
	density float64
}{
	{"albano", 89.82}, {"blaz1", 86.22}, {"dagli", 90.17}, {"fu", 92.39}, {"jakobs1", 89.24},
	{"mao", 86.87}, {"shapes0", 69.98}, {"shirts", 90.92}, {"swim", 79.83},
}

func effortOf(t testing.TB) int64 {
	s := os.Getenv("EFFORT")
	if s == "" {
		return 5e8
	}
	f, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return int64(f)
}

func TestPublicInstances(t *testing.T) {
	for _, b := range best {
		job, least := instance(t, b.name)
		start := time.Now()
		l := Pack(job, effortOf(t), Watch{})
		took := time.Since(start)
		require.Empty(t, l.Missing)
		require.Empty(t, Verify(&job, &l))
		d := 100 * least / l.Sheets[0].Length
		t.Logf("%-8s length %9.3f density %.2f %% (best known %.2f) in %v", b.name, l.Sheets[0].Length, d, b.density, took)
	}
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

func BenchmarkFirstLayout(b *testing.B) {
	job := mixed([]float64{0, math.Pi / 2, math.Pi, -math.Pi / 2})
	for b.Loop() {
		pinned, free, _ := job.sortOut()
		p := newPacker(&job, pinned, free)
		p.fill(p.byArea())
	}
}

func TestMixed(t *testing.T) {
	job := mixed([]float64{0, math.Pi / 2, math.Pi, -math.Pi / 2})
	start := time.Now()
	l := Pack(job, effortOf(t), Watch{Progress: func(done float64, l Layout) {
		n := len(l.Sheets) - 1
		t.Logf("%.3f s: %.3f of the effort, %d sheets, last %.1f mm, density %.1f %%", time.Since(start).Seconds(), done, n+1, l.Sheets[n].Length, 100*l.Density(&job, n))
	}})
	require.Empty(t, Verify(&job, &l))
}
