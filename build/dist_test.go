package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReplaceDistRemovesTheLastBuildAndNothingElse(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "dist")
	require.NoError(t, replaceDist(dir, map[string][]byte{"page-1111111111111111.js": {1}, "core-1111111111111111.wasm.gz": {1}, "index.html": {1}}))
	for _, name := range []string{"mine.txt", "my-page.js"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), nil, 0o644))
	}
	require.NoError(t, replaceDist(dir, map[string][]byte{"page-2222222222222222.js": {2}, "core-1111111111111111.wasm.gz": {1}, "index.html": {2}}))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	assert.Equal(t, []string{"core-1111111111111111.wasm.gz", "index.html", "mine.txt", "my-page.js", "page-2222222222222222.js"}, names)
}

// filled writes a dist whose core has so many bytes unpacked.
func filled(t *testing.T, core int) string {
	t.Helper()
	dir := t.TempDir()
	packed, err := pack(bytes.Repeat([]byte("springrib "), core/10))
	require.NoError(t, err)
	require.NoError(t, replaceDist(dir, map[string][]byte{
		"core-1111111111111111.wasm.gz": packed, "page-1111111111111111.js": []byte("x"), "page-1111111111111111.css": []byte("x"),
		"regular-1111111111111111.woff2": []byte("x"), "medium-1111111111111111.woff2": []byte("x"), "bold-1111111111111111.woff2": []byte("x"),
		"index.html": []byte("x"), singleName: []byte("x"),
	}))
	return dir
}

func TestSizesFailOverBudget(t *testing.T) {
	var out bytes.Buffer
	most := rows()[0].budget.raw
	assert.NoError(t, printSizes(&out, filled(t, most), true), "a budget may be used up")
	assert.Contains(t, out.String(), strconv.Itoa(most))
	assert.ErrorContains(t, printSizes(io.Discard, filled(t, most+10), true),
		fmt.Sprintf("core has %d bytes raw, at most %d are allowed", most+10, most))
}

func TestSizesNeedABuild(t *testing.T) {
	assert.ErrorContains(t, printSizes(io.Discard, t.TempDir(), true), "build first")
}

func TestBudgets(t *testing.T) {
	b := budget{gzip: 10, brotli: 5}
	assert.Empty(t, b.passed("x", budget{raw: 1000, gzip: 10, brotli: 5}))
	assert.Len(t, b.passed("x", budget{raw: 1000, gzip: 11, brotli: 6}), 2)
}

// RFC 7932 leaves the size to the encoder; a thousand times one letter must come down
// to a handful of bytes with any.
func TestBrotliSize(t *testing.T) {
	n, err := brotliSize(bytes.Repeat([]byte("a"), 1000))
	require.NoError(t, err)
	assert.InDelta(t, 10, n, 8)
}

// The same bytes in give the same bytes out, with no time in the header: RFC 1952,
// section 2.3.1, MTIME 0 means that no time is known.
func TestPackIsRepeatable(t *testing.T) {
	text := bytes.Repeat([]byte("score, bend, glue. "), 1000)
	a, err := pack(text)
	require.NoError(t, err)
	b, err := pack(text)
	require.NoError(t, err)
	assert.Equal(t, a, b)
	assert.Equal(t, []byte{0x1f, 0x8b}, a[:2])
	assert.Equal(t, make([]byte, 4), a[4:8])
	back, err := unpack(a)
	require.NoError(t, err)
	assert.Equal(t, text, back)
}
