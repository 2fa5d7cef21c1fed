package sheet

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

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

// publicEffort is what takes about five seconds of native code on the machine this
// was written on; SPRINGRIB_PACKING_EFFORT overrides it.
func publicEffort(t testing.TB) int64 {
	s := os.Getenv("SPRINGRIB_PACKING_EFFORT")
	if s == "" {
		return 500_000_000
	}
	f, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return int64(f)
}

// At least seven of the nine come within 12 points of the best density known, and
// nothing ever overlaps.
func TestPublicInstances(t *testing.T) {
	within := 0
	for _, b := range best {
		if only := os.Getenv("SPRINGRIB_PACKING_ONLY"); only != "" && !strings.Contains(only, b.name) {
			continue
		}
		job, least := instance(t, b.name)
		start := time.Now()
		l, first := found(job, publicEffort(t))
		took := time.Since(start).Seconds()
		require.Empty(t, l.Missing)
		require.Empty(t, Verify(&job, &first))
		require.Empty(t, Verify(&job, &l))
		d := 100 * least / l.Sheets[0].Length
		if d >= b.density-12 {
			within++
		}
		t.Logf("%-8s length %9.3f  density %.2f %%, first %.2f %%, best known %.2f %%; %.1f s",
			b.name, l.Sheets[0].Length, d, 100*least/first.Sheets[0].Length, b.density, took)
	}
	assert.GreaterOrEqual(t, within, 7)
}
