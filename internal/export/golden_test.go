package export

import (
	"flag"
	"fmt"
	"hash/fnv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the files in testdata/golden")

// golden compares got with testdata/golden/name.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name)
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, got, 0o644))
		return
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run the test with -update to write it")
	require.Equal(t, string(want), string(got))
}

// sums lists files with their sizes and a checksum of each.
func sums(files []File) string {
	var b strings.Builder
	for _, f := range files {
		h := fnv.New64a()
		h.Write(f.Data)
		fmt.Fprintf(&b, "%s %d %016x\n", f.Name, len(f.Data), h.Sum64())
	}
	return b.String()
}
