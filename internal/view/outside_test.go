package view

import (
	"bytes"
	"math/rand"
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
)

// randomDesign is one of any tool, unit, shape, joint and way of lying on the sheet, with
// ribs of several stocks and names in any script. It may be stopped.
func randomDesign(r *rand.Rand) design.Document {
	f := func(lo, hi float64) string { return strconv.FormatFloat(lo+(hi-lo)*r.Float64(), 'f', 2, 64) }
	pick := func(s ...string) string { return s[r.Intn(len(s))] }
	d := design.Empty()
	d.Name, d.Revision = pick("Harbour lamp", "Außen", "Λάμπα", "Лампа", "מנורה", "竹の灯", "दीपक", "a<b>&\"c\" %s"), pick("", "2", "β")
	d.Machine.Tool = pick("laser", "laser", "router", "knife", "saw")
	d.Machine.BedWidth, d.Machine.BedHeight, d.Machine.Kerf = f(500, 1200), f(400, 900), f(0, 0.6)
	d.Curve.Radius, d.Curve.Angle, d.Curve.Foot, d.Curve.Tip = f(90, 300), f(30, 90), f(0, 30), f(0, 30)
	d.Panel.Shape, d.Panel.Width, d.Panel.View = pick("rectangle", "taper", "ellipse", "lens", "sector"), f(40, 110), pick("flat", "seen")
	d.Panel.CornerRadius, d.Panel.FootWidth, d.Panel.WidestWidth, d.Panel.TipWidth = f(0, 10), f(30, 60), f(60, 110), f(20, 60)
	d.Panel.TipRound, d.Panel.InnerRadius, d.Panel.SectorAngle = r.Intn(2) == 0, f(20, 150), f(10, 40)
	for range r.Intn(3) {
		d.Panel.Holes = append(d.Panel.Holes, design.Hole{Kind: pick("round", "slot"), Along: f(10, 100), Across: f(-40, 40), Width: f(3, 14), Length: f(16, 40), Turn: f(0, 180)})
	}
	d.Panel.Quantity, d.Rib.Quantity = pick("1", "2", "5"), pick("1", "2", "3")
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Foot, d.Rib.Stock = f(12, 40), f(6, 12), pick("plain", "stub", "tenon"), pick("same", "mdf-6", "birch-6")
	d.Base.Kind, d.Base.Copies = pick("none", "row", "ring"), pick("1", "3")
	d.Cut.Gap, d.Cut.Margin, d.Cut.Turns = f(0, 10), f(0, 15), pick("grain", "none", "half", "quarter")
	d.Cut.EveryThird, d.Cut.RepeatLayers = r.Intn(2) == 0, r.Intn(3) == 0
	d.Cut.Bridges, d.Cut.BridgeBelow, d.Cut.Curves, d.Cut.Paper = pick("small", "none", "all"), f(0, 60), pick("arcs", "arcs", "splines"), pick("auto", "a4", "letter")
	if r.Intn(2) == 0 {
		d.Cut.Operations = map[string]design.Operation{"score": {Name: d.Name}, "outer": {Name: d.Name, Colour: pick("#ffff00", "")}}
	}
	if r.Intn(3) == 0 {
		d = design.Convert(d, "in")
	}
	return d
}

// othersRead returns the files of a design that readers of other people are tried on, by
// name; none where there is no plan.
func othersRead(d design.Document) map[string][]byte {
	out := map[string][]byte{}
	for _, f := range work(d).all() {
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
	r := rand.New(rand.NewSource(12))
	dir := t.TempDir()
	byKind := map[string][]string{}
	drawn := 0
	for tried := 0; drawn < designs; tried++ {
		require.Less(t, tried, 3*designs, "most designs can be drawn")
		files := othersRead(randomDesign(r))
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
