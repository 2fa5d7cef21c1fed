package view

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/plane"
	"springrib/internal/wire"
)

// reported are the findings of report.json.
func reported(t *testing.T, d design.Document) []finding.Finding {
	t.Helper()
	data, err := Core{}.Report(raw(t, d))
	require.NoError(t, err)
	var r Report
	require.NoError(t, json.Unmarshal(data, &r))
	return r.Findings
}

func ofID(fs []finding.Finding, id string) (out []finding.Finding) {
	for _, f := range fs {
		if f.ID == id {
			out = append(out, f)
		}
	}
	return out
}

func plainDesign() design.Document {
	d := design.Clone(design.Examples()[0].Design)
	d.Name, d.Revision = "Harbour", ""
	return d
}

// What files can't hold as it is typed is said on the page and in report.json, in a draft
// and in the whole plan alike; and of a plain design nothing is said.
func TestWhatFilesCannotHoldIsSaid(t *testing.T) {
	for _, c := range []struct {
		id, field, says string
		edit            func(d *design.Document)
	}{
		{"characters-missing", "", "日", func(d *design.Document) { d.Name = "日 lamp" }},
		{"characters-missing", "", "竹", func(d *design.Document) { d.Cut.Operations = map[string]design.Operation{"mark": {Name: "竹"}} }},
		{"name-changed", "cut.operations.inner.name", `"score/1" is called "score_1"`, func(d *design.Document) {
			d.Cut.Operations = map[string]design.Operation{"inner": {Name: "score/1"}, "outer": {Name: "score:1"}}
		}},
		{"name-changed", "cut.operations.outer.name", `"score:1" is called "score_1-2"`, func(d *design.Document) {
			d.Cut.Operations = map[string]design.Operation{"inner": {Name: "score/1"}, "outer": {Name: "score:1"}}
		}},
		{"name-changed", "cut.operations.score.name", "old readers", func(d *design.Document) {
			d.Cut.Operations = map[string]design.Operation{"score": {Name: "deep deep deep deep deeper"}} // with its pass 33 long in the strips
		}},
		{"page-too-large", "machine.bedWidth", "6000 mm", func(d *design.Document) { d.Machine.BedWidth = "6000" }},
		{"colour-faint", "cut.operations.mark.colour", "#FFFF00", func(d *design.Document) {
			d.Cut.Operations = map[string]design.Operation{"mark": {Colour: "#ffff00"}}
		}},
	} {
		d := plainDesign()
		c.edit(&d)
		v, _ := show(t, d)
		brief := workOut(d, wire.Show{Brief: true}, new(plan.Memory)).findings
		for where, fs := range map[string][]finding.Finding{"page": v.Findings, "report.json": reported(t, d), "draft": brief} {
			found := false
			for _, f := range ofID(fs, c.id) {
				found = found || strings.Contains(f.Text, c.says) && f.Place.Field == c.field
			}
			assert.True(t, found, "%s on the %s: %+v", c.id, where, ofID(fs, c.id))
		}
		plain, _ := show(t, plainDesign())
		assert.Empty(t, ofID(plain.Findings, c.id))
	}
}

// What is offered for a name or a colour does away with the finding, pressed once or twice,
// alone or with all others.
func TestRemediesOfNamesAndColours(t *testing.T) {
	d := plainDesign()
	d.Cut.RepeatLayers = true
	d.Cut.Operations = map[string]design.Operation{"score": {Name: "schräg/tief"}, "mark": {Name: "a:b", Colour: "#ffff00"}, "inner": {Name: "score/1", Colour: "#00ff00"}, "outer": {Name: "score:1", Colour: "#ffffff"}}
	v, _ := show(t, d)
	require.Len(t, ofID(v.Findings, "name-changed"), 4)
	require.Len(t, ofID(v.Findings, "colour-faint"), 3)
	for range 2 {
		for _, f := range v.Findings {
			if f.ID != "name-changed" && f.ID != "colour-faint" {
				continue
			}
			require.Len(t, f.Remedies, 1, f.Text)
			for path, text := range f.Remedies[0].Set {
				var ok bool
				d, ok = design.Set(d, path, text)
				require.True(t, ok)
			}
		}
	}
	v, _ = show(t, d)
	assert.Empty(t, ofID(v.Findings, "name-changed"))
	assert.Empty(t, ofID(v.Findings, "colour-faint"))
	assert.Empty(t, ofID(v.Findings, "colours-alike"))
}

// The PDF writer knows best which characters it lacked: all of them were said before.
func TestNoCharacterIsMissingUnsaid(t *testing.T) {
	docs := []design.Document{tenFins()}
	for _, e := range design.Examples() {
		docs = append(docs, e.Design)
	}
	for i, d := range docs {
		d = design.Clone(d)
		if i%2 == 0 {
			d.Name, d.Revision, d.Cut.Currency, d.Cut.SheetPrice = "Lámpa 日 שלום", "Ω", "₿", "10"
			d.Cut.Operations = map[string]design.Operation{"score": {Name: "竹"}, "outer": {Name: "नमस्ते"}}
		}
		w := work(d)
		said := ""
		for _, f := range ofID(w.findings, "characters-missing") {
			said += f.Text
		}
		text, err := json.Marshal(w.bench()) // all that the bench sheet prints
		require.NoError(t, err)
		lacking := export.Lacking(string(text))
		if i%2 == 0 {
			require.NotEmpty(t, lacking)
		}
		for _, r := range lacking {
			assert.Contains(t, said, strings.Trim(strconv.QuoteRune(r), "'"))
		}
	}
}

// No page is longer than a PDF's may be, 14,400 pt (ISO 32000-1, annex C.2), whatever the
// bed and the tool; and there is a template all the same.
func TestPagesOfALargeBed(t *testing.T) {
	for _, tool := range []string{"laser", "saw"} {
		d := plainDesign()
		d.Machine.Tool, d.Machine.BedWidth = tool, "6000"
		if tool == "saw" {
			d.Machine.Depths = []string{"0.8"}
			d.Strips.Which = design.DepthStrip
		}
		pdfs := every(t, d, `\.pdf$`)
		assert.Contains(t, strings.Join(pdfs, " "), "template-A4")
		for _, n := range pdfs {
			out, ok := outside(t, "pdfinfo", "a.pdf", body(t, d, n), "FILE")
			if !ok {
				return
			}
			for _, m := range regexp.MustCompile(`Page size:\s+([\d.]+) x ([\d.]+)`).FindAllStringSubmatch(string(out), -1) {
				for _, s := range m[1:] {
					side, err := strconv.ParseFloat(s, 64)
					require.NoError(t, err)
					assert.LessOrEqual(t, side, 14400.0, n)
				}
			}
		}
	}
}

// sixScripts are names in Latin with marks, Greek, Cyrillic, Hebrew, Han and Devanagari.
var sixScripts = []string{"Außen Bänke", "Λάμπα", "Лампа", "מנורה", "竹の灯", "दीपक"}

// A file saved alone is the one in the zip, byte for byte and name for name.
func TestASingleFileIsTheOneInTheZip(t *testing.T) {
	for i, name := range sixScripts {
		d := plainDesign()
		if i%2 == 1 {
			d.Panel.Spacing, d.Panel.Count = "count", "8" // marked
		}
		d.Name, d.Revision = name, name
		d.Cut.Operations = map[string]design.Operation{"score": {Name: name}, "outer": {Name: name + " 2"}}
		v, _ := show(t, d)
		w := work(d)
		files := w.all()
		require.Equal(t, len(v.Files), len(files))
		data := body(t, d, v.Files[len(v.Files)-1].Name)
		r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
		require.NoError(t, err)
		packed := map[string][]byte{}
		for _, f := range r.File {
			rc, err := f.Open()
			require.NoError(t, err)
			packed[f.Name], err = io.ReadAll(rc)
			require.NoError(t, err)
		}
		saved, err := Core{}.Save(raw(t, d))
		require.NoError(t, err)
		assert.Equal(t, packed[saved.Name], bodyOf(t, saved))
		for _, f := range files[:len(files)-1] {
			require.Contains(t, packed, f.name)
			assert.True(t, bytes.Equal(packed[f.name], f.body()), f.name)
			if kind := filepath.Ext(f.name); kind == ".dxf" { // as the page gets it, through the bridge
				assert.True(t, bytes.Equal(packed[f.name], body(t, d, f.name)), f.name)
			}
		}
		assert.Len(t, packed, len(files))
	}
}

// "Außen" in code page 1252, which a DXF of R2000 is in: ß is one byte, DF.
func TestLettersOfADXFStay(t *testing.T) {
	d := plainDesign()
	d.Cut.Operations = map[string]design.Operation{"outer": {Name: "Außen"}}
	assert.Contains(t, string(body(t, d, "Harbour-sheet-1.dxf")), "\nAu\xdfen\n")
}

// Cells of the table are numbers in one unit, which stands in the head.
func TestPositionsAreNumbers(t *testing.T) {
	for units, one := range map[string]float64{"mm": 1, "in": 25.4} {
		d := plainDesign()
		if units == "in" {
			d = design.Convert(d, "in")
		}
		w := planned(d)
		r := csv.NewReader(bytes.NewReader(body(t, d, every(t, d, `\.csv$`)[0])))
		r.FieldsPerRecord = -1
		rows, err := r.ReadAll()
		require.NoError(t, err)
		assert.Equal(t, []string{"score", "from the foot edge (" + units + ")", "from the score before (" + units + ")", "skin left (" + units + ")"}, rows[1])
		require.Len(t, rows, 2+len(w.plan.Scores.Layout.Folds))
		sum := 0.0
		for i, row := range rows[2:] {
			var n [4]float64
			for k, cell := range row {
				n[k], err = strconv.ParseFloat(cell, 64)
				require.NoError(t, err, "%q", cell)
				assert.Regexp(t, `^-?\d+(\.\d+)?$`, cell)
			}
			sum += n[2]
			assert.InDelta(t, w.plan.Scores.Layout.Folds[i].U-w.plan.Outline.From, n[1]*one, 0.0015)
			assert.InDelta(t, n[1], sum, 0.001*float64(i+1))
			assert.InDelta(t, w.plan.Try().Skin, n[3]*one, 0.0015)
		}
	}
}

// Scores past the ends of a short panel stand in no list: whoever follows it has no wood there.
func TestPositionsAreOnThePanel(t *testing.T) {
	d := plainDesign()
	d.Panel.Length = "60"
	w := planned(d)
	rows := w.positions().Rows
	require.NotEmpty(t, rows)
	require.Less(t, len(rows), len(w.plan.Scores.Layout.Folds))
	for _, row := range rows {
		at, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		assert.Greater(t, at, 0.0)
		assert.Less(t, at, 60.0)
	}
}

// Paper goes as the unit does until it is chosen.
func TestPaperIsAChoice(t *testing.T) {
	for _, c := range []struct{ units, paper, want string }{{"mm", "", "A4"}, {"in", "", "Letter"}, {"mm", "letter", "Letter"}, {"in", "a4", "A4"}, {"in", "auto", "Letter"}} {
		d := plainDesign()
		if c.units == "in" {
			d = design.Convert(d, "in")
		}
		d.Cut.Paper = c.paper
		names := every(t, d, `\.pdf$`)
		assert.Contains(t, strings.Join(names, " "), "template-"+c.want+".pdf")
		size := map[string]string{"A4": "595.276 x 841.89", "Letter": "612 x 792"}[c.want]
		if out, ok := outside(t, "pdfinfo", "b.pdf", body(t, d, every(t, d, `bench.sheet`)[0]), "FILE"); ok {
			assert.Contains(t, string(out), size)
		}
	}
}

// What was done about the kerf stands in every file that a tool follows, with the revision
// and the sheet.
func TestTitlesSayTheKerf(t *testing.T) {
	for units, kerf := range map[string]string{"mm": "0.18 mm", "in": "0.0071 in"} {
		d := plainDesign()
		d.Machine.Kerf, d.Revision = "0.18", "C"
		if units == "in" {
			d = design.Convert(d, "in")
		}
		d.Cut.Curves = "splines"
		note := "The kerf of " + kerf + " is already allowed for: cut on the line."
		assert.Contains(t, string(body(t, d, "Harbour-rev-C-sheet-1.svg")), "<title>Harbour, revision C, sheet 1 of 1. "+note+"</title>")
		for _, n := range []string{"Harbour-rev-C-sheet-1.dxf", "Harbour-rev-C-sheet-1-R12.dxf"} {
			assert.True(t, strings.HasPrefix(string(body(t, d, n)), "999\nHarbour, revision C, sheet 1 of 1\n999\n"+note+"\n"), n)
		}
		assert.Contains(t, string(body(t, d, "Harbour-rev-C-test-strips.svg")), note)
	}
	d := plainDesign()
	d.Machine.Kerf = "0"
	assert.Contains(t, string(body(t, d, "Harbour-sheet-1.svg")), "No kerf is allowed for")
}

const oneEntity = `
import sys, json, ezdxf
from ezdxf.path import make_path
out = []
for e in ezdxf.readfile(sys.argv[1]).modelspace():
    pts = [[p.x, p.y] for p in make_path(e).flattening(0.0005)]
    out.append({"kind": e.dxftype(), "layer": e.dxf.layer, "closed": bool(getattr(e, "closed", False) or getattr(e, "is_closed", False)), "points": pts})
print(json.dumps(out))
`

// Each stroke of a sheet is one entity of the DXF, closed where the stroke is, and lies
// within 0.005 mm of it both ways: free curves too, as ezdxf draws them.
func TestOutlinesAreOneEntityEach(t *testing.T) {
	if exec.Command("/usr/bin/python3", "-c", "import ezdxf").Run() != nil {
		t.Skip("the ezdxf library is not here; on Debian, apt-get install python3-ezdxf to run this check")
	}
	d := plainDesign()
	d.Panel.Shape, d.Panel.Width, d.Panel.View = "ellipse", "150", "seen"
	d.Panel.Holes = []design.Hole{{Kind: "round", Along: "100", Across: "40", Width: "12"}}
	w := planned(d)
	require.True(t, w.plan.Drawn, "%+v", w.findings)
	for _, name := range []string{"Harbour-sheet-1.dxf", "Harbour-sheet-1-R12.dxf"} {
		out, _ := outside(t, "/usr/bin/python3", "a.dxf", body(t, d, name), "-c", oneEntity, "FILE")
		var es []struct {
			Kind, Layer string
			Closed      bool
			Points      [][2]float64
		}
		require.NoError(t, json.Unmarshal(out, &es), "%s", out)
		at, cubics := 0, 0
		for _, op := range w.plan.Lay.Jobs[0].Operations {
			for _, s := range op.Strokes {
				require.Less(t, at, len(es))
				e := es[at]
				at++
				assert.Equal(t, s.Path.Closed, e.Closed, "%s of %s", e.Kind, s.Part)
				for _, g := range s.Path.Segs {
					if g.Kind == plane.Cubic {
						cubics++
					}
				}
				want := s.Path.Flatten(0.0005)
				var got []plane.Point
				for _, p := range e.Points {
					got = append(got, plane.Pt(p[0], p[1]))
				}
				assert.LessOrEqual(t, math.Max(farthest(want, got), farthest(got, want)), 0.005+0.001, "%s of %s", op.Name, s.Part)
			}
		}
		assert.Equal(t, at, len(es), "as many entities as strokes")
		assert.Greater(t, cubics, 5, "there are free curves among them")
	}
	d.Cut.Curves = "splines"
	assert.Contains(t, string(body(t, d, "Harbour-sheet-1.dxf")), "\nSPLINE\n")
	assert.NotContains(t, string(body(t, d, "Harbour-sheet-1-R12.dxf")), "\nSPLINE\n")
}

// farthest returns how far the points of a lie from the polyline b at most.
func farthest(a, b []plane.Point) float64 {
	most := 0.0
	for _, p := range a {
		least := math.Inf(1)
		for i := 1; i < len(b); i++ {
			d := b[i].Sub(b[i-1])
			f := 0.0
			if l := d.Dot(d); l > 0 {
				f = math.Min(1, math.Max(0, p.Sub(b[i-1]).Dot(d)/l))
			}
			least = math.Min(least, p.Dist(b[i-1].Add(d.Mul(f))))
		}
		most = math.Max(most, least)
	}
	return most
}
