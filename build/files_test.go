package main

import (
	"encoding/base64"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/view"
	"springrib/internal/wire"
)

func decoded(t *testing.T, base string) []byte {
	t.Helper()
	b, err := base64.StdEncoding.DecodeString(base)
	require.NoError(t, err)
	return b
}

// saved writes an example as a design file.
func saved(t *testing.T, id string) string {
	t.Helper()
	controls, err := view.Core{}.Controls()
	require.NoError(t, err)
	for _, e := range controls.Examples {
		if e.ID == id || id == "" {
			r, err := ask(wire.Request{Kind: "save", Design: e.Design})
			require.NoError(t, err)
			file := filepath.Join(t.TempDir(), r.File.Name)
			require.NoError(t, os.WriteFile(file, decoded(t, r.File.Base64), 0o644))
			return file
		}
	}
	t.Fatalf("no example %q", id)
	return ""
}

func TestFilesOfADesign(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	require.NoError(t, writeFiles(saved(t, ""), dir))
	names, err := filepath.Glob(filepath.Join(dir, "*"))
	require.NoError(t, err)
	assert.Greater(t, len(names), 1, "a cut file at least, besides the report")

	var report view.Report
	text, err := os.ReadFile(filepath.Join(dir, reportName))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &report))
	assert.True(t, report.Drawn)
	assert.NotEmpty(t, report.Scores)

	again := filepath.Join(t.TempDir(), "again")
	require.NoError(t, writeFiles(saved(t, ""), again))
	for _, name := range names {
		first, err := os.ReadFile(name)
		require.NoError(t, err)
		second, err := os.ReadFile(filepath.Join(again, filepath.Base(name)))
		require.NoError(t, err)
		assert.Equal(t, first, second, "the same bytes each time: %s", name)
	}
}

func TestFilesOfWhatIsNoDesign(t *testing.T) {
	file := filepath.Join(t.TempDir(), "x.json")
	require.NoError(t, os.WriteFile(file, []byte("score, bend, glue"), 0o644))
	dir := filepath.Join(t.TempDir(), "out")
	assert.Error(t, writeFiles(file, dir))
	assert.NoDirExists(t, dir)
	assert.Error(t, writeFiles(filepath.Join(t.TempDir(), "missing.json"), dir))
}

func TestAFileNeverLeavesItsFolder(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"", ".", "..", "../x", "a/b", "/etc/x"} {
		assert.Error(t, write(dir, name, nil), name)
	}
	require.NoError(t, writeBody(dir, wire.FileBody{Name: "a.bin", Base64: "AAEC"}))
	content, err := os.ReadFile(filepath.Join(dir, "a.bin"))
	require.NoError(t, err)
	assert.Equal(t, []byte{0, 1, 2}, content)
	assert.Error(t, writeBody(dir, wire.FileBody{Name: "a.bin", Base64: "?"}))
}
