package intake

import (
	"bufio"
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every icon of a large free set reads with the area and length that paper.js, a
// general-purpose library of vector geometry, finds, within 0.1 %. The set and the
// library are development dependencies of the page; CORPUS_ROOT may name another
// folder with node_modules in it.
func TestIconCorpus(t *testing.T) {
	if runtime.GOOS == "js" {
		t.Skip("No other program can be run from wasm; icons are compared natively.")
	}
	root := os.Getenv("CORPUS_ROOT")
	if root == "" {
		root = "../../site"
	}
	root, err := filepath.Abs(root)
	require.NoError(t, err)
	const set = "@material-design-icons/svg"
	modules := filepath.Join(root, "node_modules")
	for _, need := range []string{set, "paper", "@xmldom/xmldom"} {
		if _, err := os.Stat(filepath.Join(modules, need)); err != nil {
			t.Skipf("The npm package %s is not installed for the page; icons were not compared.", need)
		}
	}
	out, err := exec.Command("node", "../../site/testing/corpus.mjs", root, set).Output()
	require.NoError(t, err)
	n, worstA, worstL := 0, 0.0, 0.0
	for lines := bufio.NewScanner(bytes.NewReader(out)); lines.Scan(); n++ {
		f := strings.Split(lines.Text(), "\t")
		require.Len(t, f, 4)
		dA, dL := compareIcon(t, filepath.Join(modules, set, f[0]), figure(t, f[1]), figure(t, f[2]), figure(t, f[3]))
		worstA, worstL = math.Max(worstA, dA), math.Max(worstL, dL)
	}
	require.GreaterOrEqual(t, n, 5000)
	t.Logf("%d icons compared; worst share off: area %.2g, length %.2g", n, worstA, worstL)
}

func figure(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// compareIcon reads one icon and returns the shares by which it is off. Areas are
// signed, Y down there and up here. Their share is of what is drawn without regard to
// sign, since an outline and its hole may nearly cancel, and paper.js itself draws
// arcs as cubics that hold 0.03 % more.
func compareIcon(t *testing.T, file string, area, gross, length float64) (dArea, dLength float64) {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	d, err := ReadSVG(data, Options{PerInch: 25.4})
	require.NoError(t, err, file)
	var gotArea, gotLength float64
	for _, it := range d.Items {
		gotArea -= it.Path.Area()
		gotLength += it.Path.Length()
	}
	share := func(off, of float64) float64 {
		if of == 0 {
			return math.Abs(off)
		}
		return math.Abs(off) / of
	}
	dArea, dLength = share(gotArea-area, gross), share(gotLength-length, length)
	if dArea > 1e-3 || dLength > 1e-3 {
		t.Errorf("%s: area %.6f, want %.6f; length %.6f, want %.6f", file, gotArea, area, gotLength, length)
	}
	return dArea, dLength
}
