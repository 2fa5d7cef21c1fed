package view

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/bench"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// body returns a file as the page gets it.
// drawer keeps the plan of the design whose files are asked for, as that of the page does.
var drawer = New()

func body(t *testing.T, d design.Document, name string) []byte {
	t.Helper()
	f, err := drawer.File(raw(t, d), name, nil)
	require.NoError(t, err)
	return bodyOf(t, f)
}

func bodyOf(t *testing.T, f wire.FileBody) []byte {
	t.Helper()
	out, err := base64.StdEncoding.DecodeString(f.Base64)
	require.NoError(t, err)
	return out
}

// outside runs a program of other people on data; ok is false where it is not installed.
func outside(t *testing.T, program, name string, data []byte, args ...string) (out []byte, ok bool) {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		t.Logf("%s is not here; what it would check was not checked with it", program)
		return nil, false
	}
	file := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(file, data, 0o644))
	for i := range args {
		args[i] = strings.ReplaceAll(args[i], "FILE", file)
	}
	out, err = exec.Command(path, args...).CombinedOutput()
	require.NoError(t, err, "%s: %s", program, out)
	return out, true
}

// hostile are names that mean something to one or another kind of file.
var hostile = []string{
	"0\nSECTION\n2\nENTITIES", "]]></title><script>alert(1)</script>", `") Tj ET (`, "../../etc/passwd", `..\..\windows`, "\x00\x01\x1b[31m", "a/b:c*d?e\"f<g>h|i",
	"=cmd|' /C calc'!A0", "\u202egnp.exe", "CON", strings.Repeat("long ", 400), "%s%n%x", "日本語の箱", "\xff\xfe", "  ", "}{\\rtf1", "999\n0\nEOF",
}

// Whatever is typed as a name, every file can be read, and holds as many strokes as it
// does under a plain name.
func TestHostileNames(t *testing.T) {
	plain := design.Examples()[0].Design
	plainView := untried(t, plain)
	former := map[int][]byte{}
	for n, name := range hostile {
		d := design.Clone(plain)
		d.Name, d.Revision, d.Notes, d.Cut.Currency = name, name, name, name
		d.Cut.SheetPrice = "10"
		d.Cut.Operations = map[string]design.Operation{"score": {Name: name, Colour: name}, "mark": {Name: name}, "outer": {Name: name}}
		d.Cut.Operations["score"] = design.Operation{Name: name}
		v := untried(t, d)
		require.True(t, v.Drawn, "%q: %+v", name, v.Findings)
		require.Equal(t, len(plainView.Files), len(v.Files), "%q", name)
		seen := map[string]bool{}
		for i, f := range v.Files {
			assert.Regexp(t, `^[^/\\:*?"<>|\x00-\x1f]+$`, f.Name)
			assert.NotContains(t, f.Name, "..")
			assert.LessOrEqual(t, len(f.Name), 255)
			assert.False(t, seen[f.Name], "two files of one name")
			seen[f.Name] = true
			if kind := filepath.Ext(f.Name); kind == ".png" || kind == ".zip" && n%6 > 0 {
				continue // no text in it; all of the others once more
			}
			if former[i] == nil {
				former[i] = body(t, plain, plainView.Files[i].Name)
			}
			readable(t, f.Name, body(t, d, f.Name), former[i])
		}
	}
}

// readable checks a file by its kind against the same one under a plain name.
func readable(t *testing.T, name string, data, plain []byte) {
	t.Helper()
	switch filepath.Ext(name) {
	case ".svg":
		assert.Equal(t, elements(t, plain), elements(t, data), name)
	case ".dxf":
		assert.Equal(t, entities(t, plain), entities(t, data), name)
	case ".pdf":
		assert.True(t, bytes.HasPrefix(data, []byte("%PDF-1.")) && bytes.HasSuffix(bytes.TrimSpace(data), []byte("%%EOF")), name)
	case ".zip":
		for _, f := range unzipped(t, data) {
			assert.Regexp(t, `^[^/\\:*?"<>|\x00-\x1f]+$`, f)
		}
	case ".csv":
		assert.NotRegexp(t, `(?m)^[=+@]`, string(data), "a spreadsheet takes this for a formula")
	}
}

// elements counts the elements of an SVG by name.
func elements(t *testing.T, data []byte) map[string]int {
	t.Helper()
	out := map[string]int{}
	d := xml.NewDecoder(bytes.NewReader(data))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		require.NoError(t, err)
		if e, ok := tok.(xml.StartElement); ok {
			out[e.Name.Local]++
		}
	}
}

// entities counts the entities of a DXF by kind: pairs of lines, a group code and a value
// (AutoCAD DXF reference, "Group codes in numerical order").
func entities(t *testing.T, data []byte) map[string]int {
	t.Helper()
	out := map[string]int{}
	lines := strings.Split(strings.ReplaceAll(strings.TrimSuffix(string(data), "\n"), "\r", ""), "\n")
	require.Zero(t, len(lines)%2, "a DXF is pairs of lines")
	for i := 0; i < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		require.NoError(t, err, "line %d", i+1)
		if code == 0 {
			out[lines[i+1]]++
		}
	}
	require.Equal(t, 1, out["EOF"])
	return out
}

func unzipped(t *testing.T, data []byte) []string {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	var names []string
	for _, f := range r.File {
		names = append(names, f.Name)
		rc, err := f.Open()
		require.NoError(t, err)
		_, err = io.Copy(io.Discard, rc)
		require.NoError(t, err)
		rc.Close()
	}
	return names
}

func TestCharactersNoFontHasAreReported(t *testing.T) {
	d := design.Examples()[0].Design
	d.Name = "日本語"
	v, _ := show(t, d)
	text := ""
	for _, f := range v.Findings {
		text += f.Text + "\n"
	}
	assert.Contains(t, text, "日")
	d.Name = "Bücherbrücke"
	v, _ = show(t, d)
	for _, f := range v.Findings {
		assert.NotContains(t, f.Text, "ü", "the font has it")
	}
}

// every lists a file's name by its ending and what it is.
func every(t *testing.T, d design.Document, pattern string) []string {
	t.Helper()
	v := untried(t, d)
	var out []string
	for _, f := range v.Files {
		if regexp.MustCompile(pattern).MatchString(f.Name) {
			out = append(out, f.Name)
		}
	}
	require.NotEmpty(t, out, pattern)
	return out
}

func TestTheZipHoldsEverything(t *testing.T) {
	for _, e := range design.Examples() {
		v := untried(t, e.Design)
		data := body(t, e.Design, every(t, e.Design, `\.zip$`)[0])
		assert.Len(t, unzipped(t, data), len(v.Files), "all files but itself, and the design")
		out, ok := outside(t, "unzip", "all.zip", data, "-t", "FILE")
		if ok {
			assert.Contains(t, string(out), "No errors detected")
		}
	}
}

// squeeze makes one line of a text with single spaces, as a reader of a page does.
func squeeze(s string) string { return strings.Join(strings.Fields(s), " ") }

// The printed sheet holds everything the bench sheet says, and the bench sheet every
// step, number and caution it must: as a person would read it.
func TestBenchSheetOfEachExample(t *testing.T) {
	docs := map[string]design.Document{"ring": tenFins()}
	for _, e := range design.Examples() {
		docs[e.ID] = e.Design
	}
	for id, d := range docs {
		t.Run(id, func(t *testing.T) {
			w := work(d)
			require.True(t, w.plan.Drawn, "%+v", w.findings)
			s := w.bench()
			said := wordsOf(s)
			for _, want := range mustSay(w) {
				assert.Contains(t, said, want)
			}
			data := body(t, d, every(t, d, `bench.sheet.*\.pdf$`)[0])
			out, ok := outside(t, "pdftotext", "bench.pdf", data, "-raw", "-enc", "UTF-8", "FILE", "-")
			if !ok {
				return
			}
			printed := squeeze(regexp.MustCompile(regexp.QuoteMeta(s.Title)+`, page \d+\s`).ReplaceAllString(string(out), " "))
			for _, text := range textsOf(s) {
				assert.Contains(t, printed, squeeze(text))
			}
			if info, ok := outside(t, "pdfinfo", "bench.pdf", data, "FILE"); ok {
				assert.Regexp(t, `Page size:\s+595\.\d+ x 841\.\d+ pts \(A4\)`, string(info))
			}
		})
	}
}

// tenFins is an assembly: ten fins round a ring, of which every part is cut at once.
func tenFins() design.Document {
	d := design.Examples()[0].Design
	d.Name, d.Panel.Width, d.Panel.Quantity, d.Rib.Quantity = "Ten fins", "40", "10", "1"
	d.Rib.Foot, d.Base.Kind, d.Cut.BridgeBelow = "tenon", "ring", "90"
	d.Machine.BedWidth, d.Machine.BedHeight = "900", "600"
	d.Cut.SheetPrice, d.Cut.HourPrice, d.Cut.Currency = "12", "30", "EUR"
	return d
}

func textsOf(s bench.Sheet) []string {
	out := []string{s.Title, s.Lead}
	if s.Warning != "" {
		out = append([]string{s.Warning}, out...)
	}
	for _, sec := range s.Sections {
		out = append(out, sec.Title)
		out = append(out, sec.Lines...)
		for _, st := range sec.Steps {
			out = append(out, st.What, st.How)
		}
		if sec.Table != nil {
			out = append(out, strings.Join(sec.Table.Head, " "))
			for _, r := range sec.Table.Rows {
				out = append(out, strings.Join(r, " "))
			}
		}
		for _, f := range sec.Figures {
			out = append(out, f.Caption)
			for _, l := range f.Labels {
				out = append(out, l.Text)
			}
		}
	}
	return out
}

func wordsOf(s bench.Sheet) string { return squeeze(strings.Join(textsOf(s), "\n")) }

// mustSay is what lies beside the machine and the vice or it is no bench sheet.
func mustSay(w *worked) []string {
	p, v := &w.plan, w.plan.V
	mm := func(x float64) string { return unit.Length(x, v.Units) }
	fit := func(x float64) string { return unit.LengthFit(x, v.Units) }
	_, span, rise := bench.Profile(p)
	out := []string{
		v.Name, "What may go wrong", "What to cut from what", "panel", p.Ribs.Kinds[0].Name, v.Sheet.Stock.Name, mm(v.Machine.BedWidth), mm(v.Machine.BedHeight),
		fit(v.Machine.ScoreWidth), "The kerf of " + unit.LengthFine(v.Machine.Kerf, v.Units) + " is already allowed for in the files: cut on the line.",
		fit(v.Sheet.T), fit(p.Try().Skin), fit(v.Sheet.T - p.Try().Skin), mm(p.Panel.Overrun),
		"Mask", "All scores", "then the outer cuts", "Brush the scores", "Scrape the",
		"Dry-fit", unit.Mass(p.Strength.Hold.EndForce, v.Units), "your glue's label", mm(v.Panel.StandOff), "in the worst case " + unit.Ratio(p.Scores.Cracking.Bad),
		"cracks", "pinch shut", "stands off the", "Finish after bending", "manual", "local rules", "people trained",
		"Never leave a running laser alone", "extinguisher", "PVC", "outdoors", "lids and interlocks", "mask", "may cause cancer", "cotton", "Instant glue",
		"Test strips: cut, read, enter", "Drop of a tongue under a weight",
	}
	if k := p.Section.Cone; k != nil && p.Section.Closed {
		out = append(out, "Bind it all round", "A lamp heats the shade", mm(2*k.Narrow)+" and "+mm(2*k.Wide)+" inside", mm(k.Height)+" from rim to rim",
			mm(v.Curve.Lap)+" at the narrow rim and "+mm(v.Curve.Lap*k.Wide/k.Narrow)+" at the wide one", "slides toward the narrow rim", fit(2*k.Narrow))
	} else if n := p.Panel.Net; n != nil && p.Section.Closed {
		past := p.Outline.Length - p.Scores.Layout.Length
		lap := func(at float64) string { return mm(n.Place(n.End()+past, at).Dist(n.Place(n.End(), at))) }
		out = append(out, "lap over its start by "+lap(0)+" at the near rib and "+lap(n.Width)+" at the far one", "Glue from the seam", "Bind it all round", "Measure both ends")
	} else if p.Section.Closed {
		out = append(out, "over all, away from the seam", "lap over its start by "+mm(p.Outline.Length-p.Scores.Layout.Length), "Glue from the seam", "Bind it all round")
	} else {
		out = append(out, "span "+mm(span), "rise "+mm(rise), mm(p.Strength.Hold.Rib.Movement), "Glue the foot first", "stop at the foot", "Hold it down", "foot edge", "tip")
	}
	if p.Panel.Mirror {
		out = append(out, "strips at its margin")
	}
	switch {
	case p.Ruled(): // a panel whose scores run apart has no profile
	case bench.InTrueSize(p):
		out = append(out, "Hold the piece against this profile", "Outer face, bent")
	default:
		out = append(out, "too small to hold the piece against", bench.ProfileFile)
	}
	for _, f := range w.findings {
		if f.Severity != finding.Note {
			out = append(out, squeeze(f.Text))
		}
	}
	for _, o := range p.Lay.Operations() {
		out = append(out, o.Name, o.Colour)
	}
	if v.Cut.EveryThird {
		out = append(out, "every third line in three sweeps")
	}
	if p.Base != nil {
		out = append(out, "Stand the ribs in the base", "10 slots", fit(p.Base.Slots[0].Width), fit(p.Base.Slots[0].Length))
	}
	if v.Cut.SheetPrice > 0 {
		out = append(out, "At your prices: EUR")
	}
	return out
}

const measureDXF = `
import sys, json, math, ezdxf
d = ezdxf.readfile(sys.argv[1])
a = d.audit()
def length(e):
    k = e.dxftype()
    if k == "LINE": return e.dxf.start.distance(e.dxf.end)
    if k == "ARC": return e.dxf.radius * math.radians((e.dxf.end_angle - e.dxf.start_angle) % 360)
    if k == "CIRCLE": return 2 * math.pi * e.dxf.radius
    if k == "SPLINE":
        pts = list(e.construction_tool().flattening(1e-6))
        return sum(q.distance(r) for q, r in zip(pts, pts[1:]))
    return sum(length(v) for v in e.virtual_entities())
out = {"units": d.units, "errors": [e.message for e in a.errors] + [e.message for e in a.fixes], "layers": {}}
for e in d.modelspace(): out["layers"][e.dxf.layer] = out["layers"].get(e.dxf.layer, 0) + length(e)
print(json.dumps(out))
`

// The DXF of each example as a reader that was not written by us sees it: no errors,
// millimetres, a layer to an operation, and the plan's lengths.
func TestDXFOfEachExample(t *testing.T) {
	python := ""
	for _, p := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(p, "-c", "import ezdxf").Run() == nil {
			python = p
			break
		}
	}
	if python == "" {
		t.Skip("the ezdxf library is not here; on Debian, apt-get install python3-ezdxf to run this check")
	}
	docs := []design.Document{tenFins()}
	for _, e := range design.Examples() {
		docs = append(docs, e.Design)
	}
	for _, d := range docs {
		w := planned(d)
		names := every(t, d, `\.dxf$`)
		at := 0
		for _, name := range names {
			if strings.HasSuffix(name, "R12.dxf") || strings.Contains(name, "test-strips") {
				continue
			}
			out, _ := outside(t, python, "sheet.dxf", body(t, d, name), "-c", measureDXF, "FILE")
			var r struct {
				Units  int
				Errors []string
				Layers map[string]float64
			}
			require.NoError(t, json.Unmarshal(out, &r), "%s", out)
			assert.Empty(t, r.Errors, name)
			assert.Equal(t, 4, r.Units, "millimetres")
			for _, o := range w.plan.Lay.Jobs[at].Operations {
				assert.InDelta(t, strokeLength(o), r.Layers[o.Name], 1e-4*strokeLength(o)+0.01*math.Sqrt(float64(len(o.Strokes))), "%s: %s", name, o.Name)
			}
			assert.Len(t, r.Layers, len(w.plan.Lay.Jobs[at].Operations))
			at++
		}
		assert.Equal(t, len(w.plan.Lay.Jobs), at)
	}
}

func strokeLength(o cut.Operation) float64 {
	l := 0.0
	for _, s := range o.Strokes {
		l += s.Path.Length()
	}
	return l
}
