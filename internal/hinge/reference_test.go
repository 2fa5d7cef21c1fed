package hinge

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// feCell is one row of testdata/reference/scored-cell-fe.csv, lengths over t.
type feCell struct {
	d, w, p  float64
	bottom   Bottom
	material string // "iso" or "0.1/0.06": E_z/E_x and G_xz/E_x
	ez, gxz  float64
	c        float64
	leffOverH, kt,
	lever, neutral float64
	solver string
}

// law is the law of the row for a sheet 1 mm thick with E = 1000 MPa; the ratios of the
// table depend on neither.
func (r feCell) law() Law {
	m := Material{E: 1000, NuXY: 0.3, NuXZ: 0.3, EZ: 1000 * r.ez, GXZ: 1000 * r.gxz}
	return New(m, Score{Thickness: 1, Depth: r.d, Width: r.w, Bottom: r.bottom})
}

func (r feCell) String() string {
	return fmt.Sprintf("d %g w %g p %g bottom %d %s", r.d, r.w, r.p, r.bottom, r.material)
}

// readTable reads a csv under testdata/reference, without comment lines and head row.
func readTable(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", name))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 2, name)
	return rows[1:]
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

func readCells(t testing.TB) []feCell {
	t.Helper()
	bottoms := map[string]Bottom{"round": Round, "flat": Flat, "V": Vee}
	var out []feCell
	for _, row := range readTable(t, "scored-cell-fe.csv") {
		c := feCell{
			d: number(t, row[0]), w: number(t, row[1]), p: number(t, row[2]),
			bottom: bottoms[row[3]], material: "iso", c: number(t, row[5]),
			leffOverH: number(t, row[6]), kt: number(t, row[7]), lever: number(t, row[8]),
			neutral: number(t, row[9]), solver: row[10],
		}
		if s := row[4]; strings.HasPrefix(s, "ortho") {
			_, err := fmt.Sscanf(s, "ortho Ez/Ex=%g Gxz/Ex=%g nu_xz=nu_xy=0.3", &c.ez, &c.gxz)
			require.NoError(t, err)
			c.material = fmt.Sprintf("%g/%g", c.ez, c.gxz)
		}
		out = append(out, c)
	}
	return out
}

// spread gathers relative or absolute errors.
type spread struct {
	n          int
	sum, sumSq float64
	low, high  float64
	worst      string
}

func (s *spread) add(e float64, what fmt.Stringer) {
	s.n++
	s.sum += e
	s.sumSq += e * e
	if math.Abs(e) > s.max() {
		s.worst = what.String()
	}
	s.low, s.high = min(s.low, e), max(s.high, e)
}

func (s *spread) rms() float64 { return math.Sqrt(s.sumSq / float64(s.n)) }
func (s *spread) max() float64 { return max(-s.low, s.high) }

// lawErrors compares the law with the rows that keep accepts.
type lawErrors struct{ c, kt, lever, neutral spread }

func compare(cells []feCell, keep func(feCell) bool) lawErrors {
	var e lawErrors
	for _, r := range cells {
		if !keep(r) {
			continue
		}
		e.add(r)
	}
	return e
}

func (e *lawErrors) add(r feCell) {
	got := r.law().At(r.p)
	e.c.add(got.Softening/r.c-1, r)
	e.kt.add(got.StrainFactor/r.kt-1, r)
	e.lever.add(got.MouthLever/r.lever-1, r)
	e.neutral.add(got.Neutral-r.neutral, r)
}
