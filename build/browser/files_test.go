package browser

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	form "springrib/internal/design"
	"springrib/internal/wire"
)

// bring puts a design on the page.
func (p *Page) bring(d form.Document) {
	p.t.Helper()
	text, err := json.Marshal(d)
	p.must(err)
	Eval[Void](p, state+`.replace(`+string(text)+`, 'brought')`)
	p.Wait(settled)
}

// unfold opens everything at the bench that is folded away, the files of further sheets too.
func (p *Page) unfold() {
	p.t.Helper()
	Eval[Void](p, `document.querySelectorAll('springrib-bench .kind details').forEach((d) => { d.open = true })`)
}

// fileHere writes a file of a design with the core compiled for this machine.
func fileHere(t *testing.T, d form.Document, name string) []byte {
	t.Helper()
	text, err := json.Marshal(d)
	require.NoError(t, err)
	faces, err := os.ReadFile("../../site/print/faces.json")
	require.NoError(t, err)
	var r wire.Reply
	require.NoError(t, json.Unmarshal(askHere(t, wire.Request{Kind: "file", Design: text, File: name, Faces: faces}).Reply, &r))
	require.NotNil(t, r.File, "%s: %s", name, r.Error)
	data, err := base64.StdEncoding.DecodeString(r.File.Base64)
	require.NoError(t, err)
	return data
}

// What is saved from the page is what the program writes natively, byte for byte: every
// kind of file, and names in Latin with marks, Greek, Cyrillic, Hebrew, Han and Devanagari.
func TestDownloadsAreTheNativeFiles(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	for i, name := range []string{"Außen Bänke", "Λάμπα", "Лампа", "מנורה", "竹の灯", "दीपक"} {
		d := form.Clone(form.Examples()[0].Design)
		d.Name, d.Revision = name, name
		d.Cut.Operations = map[string]form.Operation{"score": {Name: name}, "outer": {Name: name + " 2"}}
		p.bring(d)
		for _, f := range Eval[[]struct{ Name, Label string }](p, state+`.asked.plan.files`) {
			if i > 0 && !strings.HasSuffix(f.Name, ".dxf") && !strings.HasSuffix(f.Name, ".svg") && !strings.HasSuffix(f.Name, ".zip") {
				continue
			}
			p.unfold()
			got, content := p.Download(func() { p.Press(f.Label) })
			assert.Equal(t, f.Name, got)
			assert.Equal(t, fileHere(t, d, f.Name), content, f.Name)
		}
	}
}

// So is every file of every example.
func TestEveryFileOfEveryExampleIsTheNativeFile(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	for _, e := range form.Examples() {
		p.bring(e.Design)
		files := Eval[[]struct{ Name, Label string }](p, state+`.asked.plan.files`)
		assert.Greater(t, len(files), 8, e.ID)
		for _, f := range files {
			p.unfold()
			got, content := p.Download(func() { p.Press(f.Label) })
			assert.Equal(t, f.Name, got)
			native := fileHere(t, e.Design, f.Name)
			assert.True(t, bytes.Equal(native, content), "%s: %d bytes natively, %d from the page", f.Name, len(native), len(content))
		}
	}
}

// A stop that makes the file wrong takes the files away, says why and what to mend, and
// mending brings them back.
func TestWithheldFilesAreSaidOnThePage(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	d := form.Clone(form.Examples()[0].Design)
	d.Panel.Quantity = "2"
	d.Cut.Pins = []form.Pin{{Part: "panel", X: "20", Y: "20"}, {Part: "panel", X: "30", Y: "30"}}
	p.bring(d)
	p.Screenshot("withheld")
	assert.Contains(t, p.Text(".withheld"), "There are no files to cut from. Mend this first:")
	assert.Contains(t, p.Text(".because"), "overlap by")
	assert.Contains(t, p.Text("springrib-verdict"), "Do not cut")
	assert.Contains(t, p.Text("springrib-verdict"), "overlap by")
	names := Eval[[]string](p, state+`.asked.plan.files.map((f) => f.name)`)
	for _, n := range names {
		assert.NotContains(t, n, "sheet-1")
	}
	assert.Contains(t, strings.Join(names, " "), "Do-not-cut-Harbour-lamp-rev-A-bench-sheet.pdf")
	p.Press("Let it lie where there is room")
	p.Wait(settled)
	assert.Empty(t, p.Text(".withheld"))
	assert.Contains(t, strings.Join(Eval[[]string](p, state+`.asked.plan.files.map((f) => f.name)`), " "), "Harbour-lamp-rev-A-sheet-1.svg")

	d.Cut.Pins = nil
	d.Panel.Spacing, d.Panel.Count = "count", "8"
	p.bring(d)
	assert.Contains(t, p.Text(".withheld"), "Files of the parts say in their names and titles what is wrong.")
	p.Press("The bench sheet")
	p.Wait(settled + ` && ` + find + `.all('.bench-warning').length`)
	assert.True(t, strings.HasPrefix(p.Text(".bench-warning"), "Not sound. These scores pinch shut"))
	p.Screenshot("marked")
}
