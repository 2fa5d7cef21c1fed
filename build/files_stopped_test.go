package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/view"
	"springrib/internal/wire"
)

// The program itself, run again by a test that asks for its status.
func TestMain(m *testing.M) {
	if os.Getenv("SPRINGRIB_RUN") != "" {
		main()
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// runFiles runs "files" on a design and returns its status, what it says, and the files
// by name.
func runFiles(t *testing.T, d design.Document) (status int, said string, files map[string][]byte) {
	t.Helper()
	dir := t.TempDir()
	file := filepath.Join(dir, "d.json")
	require.NoError(t, os.WriteFile(file, design.Save(d), 0o644))
	run := exec.Command(os.Args[0], "files", file, filepath.Join(dir, "out"))
	run.Env = append(os.Environ(), "SPRINGRIB_RUN=1")
	out, err := run.CombinedOutput()
	if err != nil {
		require.ErrorAs(t, err, new(*exec.ExitError), "%s", out)
	}
	files = map[string][]byte{}
	entries, err := os.ReadDir(filepath.Join(dir, "out"))
	require.NoError(t, err, "%s", out)
	for _, e := range entries {
		if files[e.Name()], err = os.ReadFile(filepath.Join(dir, "out", e.Name())); err != nil {
			t.Fatal(err)
		}
	}
	return run.ProcessState.ExitCode(), string(out), files
}

func names(files map[string][]byte) []string {
	var out []string
	for n := range files {
		out = append(out, n)
	}
	sort.Strings(out)
	return out
}

func harbour() design.Document {
	d := design.Clone(design.Examples()[0].Design)
	d.Name, d.Revision = "Harbour", ""
	return d
}

func TestFilesOfASoundDesignLeaveUnmarked(t *testing.T) {
	status, _, files := runFiles(t, harbour())
	assert.Zero(t, status)
	for _, n := range []string{"report.json", "Harbour.json", "Harbour-sheet-1.svg", "Harbour-sheet-1.dxf", "Harbour-sheet-1-R12.dxf", "Harbour-sheet-1-template.pdf",
		"Harbour-test-strips.svg", "Harbour-test-strips-R12.dxf", "Harbour-bench-sheet.pdf", "Harbour-score-positions.csv", "Harbour.zip"} {
		assert.Contains(t, names(files), n)
	}
	for n, data := range files {
		assert.False(t, bytes.Contains(data, []byte("Not sound")), n)
	}
}

// Two parts put down over one another, 70 mm and more.
func overlapping() design.Document {
	d := harbour()
	d.Panel.Quantity = "2"
	d.Cut.Pins = []design.Pin{{Part: "panel", X: "20", Y: "20"}, {Part: "panel", X: "30", Y: "30"}}
	return d
}

func TestFilesOfAWrongDesignAreWithheld(t *testing.T) {
	for want, d := range map[string]design.Document{
		"overlap by": overlapping(),
		"over the margin": func() design.Document {
			d := harbour()
			d.Cut.Pins = []design.Pin{{Part: "panel", X: "-40", Y: "20"}}
			return d
		}(),
		"does not fit": func() design.Document {
			d := harbour()
			d.Machine.BedWidth, d.Machine.BedHeight = "120", "120"
			return d
		}(),
	} {
		status, said, files := runFiles(t, d)
		assert.Equal(t, 3, status, "%s: %s", want, said)
		_, why, _ := strings.Cut(said, "no cut files were written. Mend this first: ")
		assert.Contains(t, why, want)
		assert.Equal(t, []string{"Do-not-cut-Harbour-bench-sheet.pdf", "Do-not-cut-Harbour.zip", "Harbour-machine-settings.json", "Harbour-sheet.json",
			"Harbour-test-strips-R12.dxf", "Harbour-test-strips.dxf", "Harbour-test-strips.svg", "Harbour.json", "report.json"}, leftOf(files), want)
		var r view.Report
		require.NoError(t, json.Unmarshal(files["report.json"], &r))
		assert.Equal(t, "withheld", r.Files)
		assert.NotContains(t, zipped(t, files["Do-not-cut-Harbour.zip"]), "Harbour-sheet-1.svg")
		assert.Contains(t, zipped(t, files["Do-not-cut-Harbour.zip"]), "Harbour.json")
		assert.Contains(t, firstLine(t, files["Do-not-cut-Harbour-bench-sheet.pdf"]), "Do not cut.")
	}
}

// leftOf are the names of files; strips that a small bed has no room for count as there.
func leftOf(files map[string][]byte) []string {
	out := names(files)
	if !strings.Contains(strings.Join(out, " "), "test-strips") {
		out = append(out, "Harbour-test-strips-R12.dxf", "Harbour-test-strips.dxf", "Harbour-test-strips.svg")
		sort.Strings(out)
	}
	return out
}

func zipped(t *testing.T, data []byte) []string {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	var out []string
	for _, f := range r.File {
		out = append(out, f.Name)
	}
	return out
}

// firstLine is what a reader of a PDF sees first.
func firstLine(t *testing.T, pdf []byte) string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not here (package poppler-utils)")
	}
	file := filepath.Join(t.TempDir(), "a.pdf")
	require.NoError(t, os.WriteFile(file, pdf, 0o644))
	out, err := exec.Command(tool, "-layout", "-enc", "UTF-8", file, "-").Output()
	require.NoError(t, err)
	line, _, _ := strings.Cut(strings.TrimSpace(string(out)), "\n")
	return line
}

// What a person may know better leaves, and every file about the parts says what is wrong:
// in its name, and where a reader of the format looks.
func TestFilesOfADoubtfulDesignSayWhatIsWrong(t *testing.T) {
	d := harbour()
	d.Panel.Spacing, d.Panel.Count = "count", "8"
	status, _, files := runFiles(t, d)
	assert.Zero(t, status)
	const mark, words = "Not-sound-the-scores-may-pinch-shut-Harbour", "Not sound: the scores may pinch shut."
	for n, data := range files {
		switch {
		case n == "report.json" || n == "Harbour.json" || strings.Contains(n, "settings") || n == "Harbour-sheet.json" || strings.Contains(n, "strips"):
			assert.NotContains(t, n, "Not-sound", "it says nothing of the parts")
			continue
		}
		assert.True(t, strings.HasPrefix(n, mark), n)
		switch filepath.Ext(n) {
		case ".svg":
			assert.Contains(t, string(data), "<title>"+words)
		case ".dxf":
			assert.True(t, strings.HasPrefix(string(data), "999\n"+words+"\n"), n)
		case ".csv":
			assert.True(t, strings.HasPrefix(string(data), "Not sound: the scores may pinch shut; panel\r\n"), "%q", data[:60])
		case ".pdf":
			if strings.Contains(n, "bench") {
				assert.Contains(t, firstLine(t, data), "Not sound. These scores pinch shut")
			}
		}
	}
	var r view.Report
	require.NoError(t, json.Unmarshal(files["report.json"], &r))
	assert.Equal(t, "marked", r.Files)
}

// A forbidden sheet gets no file for the beam at all, not even a strip.
func TestNoFileForAForbiddenSheet(t *testing.T) {
	for _, edit := range []func(d *design.Document){
		func(d *design.Document) { d.Sheet.Stock = "pvc-3" }, func(d *design.Document) { d.Rib.Stock = "pvc-3" },
	} {
		d := harbour()
		edit(&d)
		status, said, files := runFiles(t, d)
		assert.Equal(t, 3, status)
		assert.Contains(t, said, "must not be cut with a laser")
		assert.Equal(t, []string{"Do-not-cut-Harbour-bench-sheet.pdf", "Do-not-cut-Harbour.zip", "Harbour-machine-settings.json", "Harbour-sheet.json", "Harbour.json", "report.json"}, names(files))
	}
}

func TestFilesOfADesignThatIsNotDoneYet(t *testing.T) {
	d := harbour()
	d.Curve.Radius = ""
	status, said, files := runFiles(t, d)
	assert.Equal(t, 3, status)
	assert.Equal(t, []string{"Harbour.json", "report.json"}, names(files))
	assert.Contains(t, said, "Mend this first")
}

// What the page lists and the program writes is one list: nothing that is withheld can be
// had by asking for it.
func TestWhatIsWithheldCannotBeAskedFor(t *testing.T) {
	raw, err := json.Marshal(overlapping())
	require.NoError(t, err)
	for _, n := range []string{"Harbour-sheet-1.svg", "Do-not-cut-Harbour-sheet-1.svg", "Harbour-sheet-1.dxf", "Harbour.zip"} {
		_, err := ask(wire.Request{Kind: "file", Design: raw, File: n})
		assert.Error(t, err, n)
	}
}
