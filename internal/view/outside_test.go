package view

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/plan"
	"springrib/internal/trial"
	"springrib/internal/wire"
)

// othersRead returns the files of a design that readers of other people are tried on, by
// name; none where there is no plan.
func othersRead(d design.Document) map[string][]byte {
	out := map[string][]byte{}
	for _, f := range workOut(d, wire.Show{}, new(plan.Memory)).all() {
		switch filepath.Ext(f.name) {
		case ".svg", ".dxf", ".pdf":
			out[f.name] = f.body()
		}
	}
	return out
}

const auditDXF = `
import sys, ezdxf
for name in sys.argv[1:]:
    a = ezdxf.readfile(name).audit()
    for e in a.errors + a.fixes: print(name, e.message)
`

// Readers that other people wrote have nothing to say of any file of a hundred random
// designs: librsvg of the SVG, the audit of ezdxf of the DXF, qpdf of the PDF.
func TestOtherReadersAreSilent(t *testing.T) {
	designs := 100
	if runtime.GOARCH == "wasm" {
		t.Skip("no program can be run from here")
	}
	dir := t.TempDir()
	byKind := map[string][]string{}
	drawn := 0
	for tried := 0; drawn < designs; tried++ {
		require.Less(t, tried, 3*designs, "most designs can be drawn")
		files := othersRead(trial.Design(uint64(2000 + tried)))
		if len(files) == 0 {
			continue
		}
		drawn++
		for name, data := range files {
			at := filepath.Join(dir, strconv.Itoa(drawn)+"-"+name)
			kind := filepath.Ext(name)
			byKind[kind] = append(byKind[kind], at)
			require.NoError(t, os.WriteFile(at, data, 0o644))
		}
	}
	for kind, files := range byKind {
		t.Logf("%d files %s", len(files), kind)
	}
	silent(t, "rsvg-convert", "librsvg2-bin", append([]string{"-f", "pdf", "-o", filepath.Join(dir, "all.pdf")}, byKind[".svg"]...)...)
	if exec.Command("/usr/bin/python3", "-c", "import ezdxf").Run() == nil {
		silent(t, "/usr/bin/python3", "python3", append([]string{"-c", auditDXF}, byKind[".dxf"]...)...)
	} else {
		t.Log("the ezdxf library is not here (package python3-ezdxf): no DXF was audited")
	}
	for _, f := range byKind[".pdf"] {
		if !silent(t, "qpdf", "qpdf", "--check", f) {
			return
		}
	}
}

// silent runs a program, which must end well and say nothing but that all is well.
func silent(t *testing.T, program, from string, args ...string) bool {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		t.Logf("%s is not here (package %s): its files were not read", program, from)
		return true
	}
	out, err := exec.Command(path, args...).CombinedOutput()
	if program == "qpdf" { // says what it looked at, and that it found nothing
		var kept []string
		for _, l := range strings.Split(string(out), "\n") {
			if l != "" && !strings.HasPrefix(l, "checking ") && !strings.HasPrefix(l, "PDF Version: 1.6") && l != "File is not encrypted" && l != "File is not linearized" &&
				!strings.HasPrefix(l, "No syntax or stream encoding errors found") && l != "errors that qpdf cannot detect" {
				kept = append(kept, l)
			}
		}
		out = []byte(strings.Join(kept, "\n"))
	}
	said := string(out)
	return assert.NoError(t, err, "%s: %.2000s", program, said) && assert.Empty(t, said[:min(2000, len(said))], program)
}

// The check sees what it is there to see.
func TestOtherReadersSpeakOfBrokenFiles(t *testing.T) {
	if _, err := exec.LookPath("qpdf"); err != nil {
		t.Skip("qpdf is not here")
	}
	file := filepath.Join(t.TempDir(), "a.pdf")
	files := othersRead(plainDesign())
	require.NoError(t, os.WriteFile(file, bytes.Replace(files["Harbour-bench-sheet.pdf"], []byte("endstream"), []byte("endstreak"), 1), 0o644))
	assert.False(t, silent(new(testing.T), "qpdf", "qpdf", "--check", file))
	file = filepath.Join(t.TempDir(), "a.svg")
	require.NoError(t, os.WriteFile(file, files["Harbour-sheet-1.svg"][:2000], 0o644))
	assert.False(t, silent(new(testing.T), "rsvg-convert", "librsvg2-bin", "-f", "pdf", "-o", file+".pdf", file))
}
