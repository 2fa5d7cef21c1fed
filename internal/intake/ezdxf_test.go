package intake

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

const reference = "../../testdata/intake/reference.py"

// python returns the Python that has ezdxf, a general-purpose DXF library.
func python(t *testing.T) string {
	t.Helper()
	for _, p := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(p, "-c", "import ezdxf").Run() == nil {
			return p
		}
	}
	t.Skip("The Python library ezdxf is not installed (Debian: python3-ezdxf); DXF was not compared with it.")
	return ""
}

// measured is what ezdxf finds in a drawing, in drawing units.
type measured struct {
	Version  string
	InsUnits int
	Layers   map[string]struct {
		Length, Area float64
		Box          [4]float64
		Colours      []string
	}
}

// compare checks every layer of d against what ezdxf measured; k is mm to the unit.
func compare(t *testing.T, want measured, d Drawing, k float64) {
	t.Helper()
	type sum struct {
		length, area float64
		box          plane.Box
		colours      map[string]bool
	}
	got := map[string]*sum{}
	for _, it := range d.Items {
		s := got[it.Layer]
		if s == nil {
			s = &sum{box: plane.EmptyBox(), colours: map[string]bool{}}
			got[it.Layer] = s
		}
		s.length += it.Path.Length()
		s.area += math.Abs(it.Path.Area())
		s.box = s.box.Union(it.Path.Box())
		s.colours[it.Stroke] = true
	}
	require.Len(t, got, len(want.Layers))
	for name, w := range want.Layers {
		g := got[name]
		require.NotNil(t, g, name)
		require.InDelta(t, w.Length*k, g.length, 1e-4*w.Length*k+4*accuracy, name)
		require.InDelta(t, w.Area*k*k, g.area, 5e-4*w.Area*k*k+w.Length*k*accuracy, name)
		for i, v := range [4]float64{g.box.Min.X, g.box.Min.Y, g.box.Max.X, g.box.Max.Y} {
			require.InDelta(t, w.Box[i]*k, v, accuracy+2e-4*k, "%s box %d", name, i)
		}
		if c := w.Colours[0]; c[0] == '#' {
			require.True(t, g.colours[c], "%s: %s", name, c)
		}
	}
}

// Drawings written by ezdxf in every version from R12 to R2018 read as ezdxf
// measures them: each kind of entity on a layer of its own.
func TestDXFWrittenByEzdxf(t *testing.T) {
	py, dir := python(t), t.TempDir()
	out, err := exec.Command(py, reference, "write", dir).CombinedOutput()
	require.NoError(t, err, string(out))
	text, err := os.ReadFile(filepath.Join(dir, "expected.json"))
	require.NoError(t, err)
	var want map[string]measured
	require.NoError(t, json.Unmarshal(text, &want))
	require.Len(t, want, 7)
	for name, w := range want {
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(filepath.Join(dir, name))
			require.NoError(t, err)
			d, err := Read(data, Options{})
			require.NoError(t, err)
			requireSound(t, d.Items)
			_, perInch, stated := unitOf(w.InsUnits)
			require.Equal(t, stated, d.Units.Stated)
			k := 1.0
			if stated {
				k = 25.4 / perInch
			}
			compare(t, w, d, k)
		})
	}
}

// Drawings written by hand read alike here and in ezdxf.
func TestDXFReadByEzdxf(t *testing.T) {
	py := python(t)
	files, err := filepath.Glob("../../testdata/intake/*.dxf")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	out, err := exec.Command(py, append([]string{reference, "read"}, files...)...).Output()
	require.NoError(t, err)
	var want map[string]measured
	require.NoError(t, json.Unmarshal(out, &want))
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) {
			data, err := os.ReadFile(f)
			require.NoError(t, err)
			d, err := Read(data, Options{})
			require.NoError(t, err)
			w := want[f]
			delete(w.Layers, "HELP") // off; ezdxf lists it all the same
			compare(t, w, d, 1)
		})
	}
}
