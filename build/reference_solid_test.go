package main

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// storedSolids reads a table of testdata/reference: what was found of each case, in a mesh.
func storedSolids(t *testing.T, name string, of func(row map[string]float64) (solidCase, station)) map[string][]station {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", "reference", name))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	out := map[string][]station{}
	for _, row := range rows[1:] {
		v := map[string]float64{}
		for i, head := range rows[0] {
			if i > 0 {
				v[head], err = strconv.ParseFloat(row[i], 64)
				require.NoError(t, err)
			}
		}
		c, s := of(v)
		key := row[0] + " " + c.key()
		out[key] = append(out[key], s)
	}
	return out
}

func (c solidCase) key() string {
	return c.String() + " " + strconv.FormatFloat(c.ez, 'g', -1, 64) + "/" + strconv.FormatFloat(c.g, 'g', -1, 64)
}

func storedWedges(t *testing.T) map[string][]station {
	return storedSolids(t, "cone-fe.csv", func(v map[string]float64) (solidCase, station) {
		s := station{x: v["s"], folds: [2]float64{v["fold_1"] / 1.5, v["fold_2"] / 1.5}}
		for i, n := range []string{"1", "2"} {
			s.strain[i], s.mouth[i] = v["strain_"+n]*s.folds[i], v["closing_"+n]*s.folds[i]
		}
		return solidCase{name: "cone", ez: v["ez"], g: v["gxz"], turn: 1}, s
	})
}

func storedPairs(t *testing.T) map[string][]station {
	return storedSolids(t, "stop-fe.csv", func(v map[string]float64) (solidCase, station) {
		s := station{x: v["x"], folds: [2]float64{2 - v["fold_short"], v["fold_short"]}, fibre: v["y_n"]}
		s.strain[0], s.mouth[0] = v["strain"], v["closing"]
		return solidCase{name: "stop", ez: v["ez"], g: v["gxz"], gap: v["p_t"]}, s
	})
}

// Three scores of a cone, solved as a solid (testdata/reference/cone-fe.csv, computed for this
// project): the fold of a score is the same all along it within 2 %, and that of a sheet that
// does not stretch; strain and closing are those of the law for the spacing at each place.
func TestTheLawOfAConeAgainstSolids(t *testing.T) {
	stored := storedWedges(t)
	for _, c := range solidCases() {
		if c.turn == 0 {
			continue
		}
		found := stored["usual "+c.key()]
		require.Greater(t, len(found), 10, c.key())
		least, most := math.Inf(1), 0.0
		for _, s := range found {
			for _, f := range s.folds {
				least, most = math.Min(least, f), math.Max(most, f)
			}
			assert.InEpsilon(t, s.folds[0], s.folds[1], 0.002, "one score is as another")
		}
		assert.Less(t, most/least-1, 0.02, c.key())
		t.Logf("%s: fold %.4f to %.4f", c.key(), 1.5*least, 1.5*most)
		for _, m := range c.matches(found) {
			t.Logf("%-22s law %.4f solid %.4f %+.2f %%", m.what, m.law, m.fe, 100*(m.law/m.fe-1))
			switch what := strings.Fields(m.what)[0]; what {
			case "fold":
				assert.InEpsilon(t, m.fe, m.law, 0.02, m.what)
			case "lever":
				assert.InEpsilon(t, m.fe, m.law, 0.03, m.what)
			default: // of a soft sheet the law errs a little more, to the safe side
				room := 0.05
				if c.ez > 0 {
					room = 0.06
				}
				assert.InEpsilon(t, m.fe, m.law, room, "%s %s", c.key(), m.what)
				assert.Greater(t, m.law, 0.98*m.fe, "%s %s", c.key(), m.what)
			}
		}
	}
}

// A long and a short score (testdata/reference/stop-fe.csv, computed for this project): lambda within a
// tenth, of a soft sheet with wide lands too long; strain and closing far from the end within 5 % of
// the law for the spacing there; and no strain anywhere above that behind the short score's end.
func TestTheLawOfStopsAgainstSolids(t *testing.T) {
	stored := storedPairs(t)
	for _, c := range solidCases() {
		if c.turn > 0 {
			continue
		}
		for _, mesh := range []string{"usual", "refined"} {
			if mesh == "refined" && (c.gap > 1 || c.ez > 0) {
				continue // not stored
			}
			found := stored[mesh+" "+c.key()]
			require.Greater(t, len(found), 10, c.key())
			for _, m := range c.matches(found) {
				t.Logf("%s %s %-15s law %.4f solid %.4f %+.2f %%", mesh, c.key(), m.what, m.law, m.fe, 100*(m.law/m.fe-1))
				switch {
				case m.what == "lambda" && c.ez > 0 && c.gap > 1: // see hinge.Law.Transition
					assert.Greater(t, m.law, m.fe, c.key())
				case m.what == "lambda":
					assert.InEpsilon(t, m.fe, m.law, 0.1, c.key())
				case strings.HasPrefix(m.what, "fibre"):
					assert.InDelta(t, m.fe, m.law, 0.008, "%s %s", c.key(), m.what)
				case m.what == "most strain":
					assert.InEpsilon(t, m.fe, m.law, 0.025, c.key())
				default:
					assert.InEpsilon(t, m.fe, m.law, 0.05, "%s %s", c.key(), m.what)
				}
			}
		}
	}
}

// What was stored does not hang on the mesh: once refined, folds and lengths move by less than 0.5 %,
// strain by less than 2 %.
func TestSolidsDoNotHangOnTheMesh(t *testing.T) {
	checked := 0
	for _, stored := range []map[string][]station{storedWedges(t), storedPairs(t)} {
		for _, c := range solidCases() {
			usual, refined := stored["usual "+c.key()], stored["refined "+c.key()]
			if usual == nil || refined == nil {
				continue
			}
			coarse, fine := c.matches(usual), c.matches(refined)
			for i, m := range coarse {
				checked++
				t.Logf("%s %-20s %.5f refined %.5f: %+.2f %%", c.key(), m.what, m.fe, fine[i].fe, 100*(fine[i].fe/m.fe-1))
				room := 0.005
				if strings.Contains(m.what, "strain") {
					room = 0.02
				}
				assert.InEpsilon(t, m.fe, fine[i].fe, room, "%s %s", c.key(), m.what)
			}
		}
	}
	assert.Equal(t, 8, checked)
}
