package browser

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// openCard presses a card's head when the card is closed.
func (p *Page) openCard(title string) {
	p.t.Helper()
	Eval[Void](p, `(() => {
  const f = `+find+`;
  const head = f.all('.card-head').find((e) => f.said(e.querySelector('.title')).startsWith(`+quote(title)+`));
  if (!head) throw new Error('no card ' + `+quote(title)+`);
  if (head.getAttribute('aria-expanded') === 'false') head.click();
})()`)
	p.Wait(settled)
}

// typeLampShade does the job from an empty design, a field at a time: an invented lamp
// shade of 3 mm board, bent by 90 degrees at 120 mm.
func typeLampShade(p *Page) {
	p.t.Helper()
	p.fresh()
	p.Fill("Name of the design", "Pier lamp")
	p.openCard("The sheet")
	p.Choose("What it is", "MDF 3 mm")
	p.openCard("The machine")
	p.Fill("Width of a score at its mouth", "0.2")
	p.Fill("Width of a through cut", "0.18")
	p.openCard("The curve")
	p.Choose("Given by", "Radius and angle")
	p.Fill("Radius", "120")
	p.Fill("Angle turned through", "90")
	p.openCard("The panel")
	p.Fill("Width", "100")
	p.openCard("The rib")
	p.Fill("Depth at the foot", "28")
	p.Fill("Depth at the tip", "14")
	p.Wait(settled)
}

// natively writes the files of a saved design with the build program.
func natively(t *testing.T, design []byte) (dir string) {
	t.Helper()
	dir = t.TempDir()
	file := filepath.Join(dir, "design.json")
	require.NoError(t, os.WriteFile(file, design, 0o644))
	out, err := exec.Command("go", "run", "springrib/build", "files", file, filepath.Join(dir, "out")).CombinedOutput()
	require.NoError(t, err, "%s", out)
	return filepath.Join(dir, "out")
}

func TestTheJobFromAnEmptyDesignByTyping(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		typeLampShade(p)
		assert.Equal(t, "120", Eval[string](p, state+`.asked.picture.doc.curve.radius`), "what is drawn is what was typed")
		assert.NotEmpty(t, p.Text("springrib-verdict .sentence"))
		p.Screenshot("typed")

		name, design := p.Download(func() { p.Press("Save") })
		assert.Equal(t, "pier-lamp.json", strings.ToLower(name))
		dir := natively(t, design)

		files := Eval[[]struct{ Name, Label string }](p, state+`.asked.plan.files`)
		require.NotEmpty(t, files)
		for _, f := range files {
			p.unfold()
			name, content := p.Download(func() { p.Press(f.Label) })
			assert.Equal(t, f.Name, name)
			native, err := os.ReadFile(filepath.Join(dir, f.Name))
			require.NoError(t, err)
			require.NotEmpty(t, native)
			assert.Equal(t, string(native), string(content), "%s from the page and natively", f.Name)
		}
		assert.FileExists(t, filepath.Join(dir, "report.json"))
	})
}

func TestWhatIsWrongInAFieldIsSaidThereAndTheDrawingStays(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	typeLampShade(p)
	before := Eval[string](p, drawn+`.getAttribute('d')`)
	for _, text := range []string{"1/16", "a hand", "-3", "1e99", "99999999999", "0"} {
		p.Paste("Radius", text)
		p.Wait(settled)
		assert.Equal(t, text, p.Value("Radius"), "what was typed stays")
		assert.True(t, Eval[bool](p, find+`.one(`+quote(fields)+`, "Radius").getAttribute('aria-invalid') === 'true'`), text)
		assert.Equal(t, before, Eval[string](p, drawn+`.getAttribute('d')`), "the last good drawing stays: %s", text)
	}
	p.Fill("Radius", "4 3/4 in")
	p.Wait(settled)
	assert.NotEqual(t, before, Eval[string](p, drawn+`.getAttribute('d')`))
}

func TestBadDesignFilesAreRefusedInWords(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	typeLampShade(p)
	before := Eval[string](p, `JSON.stringify(`+state+`.doc)`)
	dir := t.TempDir()
	for name, content := range map[string]string{
		"empty.json": "", "cut-short.json": before[:len(before)/2], "not.json": "score, bend, glue", "other.json": `{"type":"FeatureCollection"}`,
		"newer.json": strings.Replace(before, `"version":1`, `"version":999`, 1), "long.json": before + strings.Repeat(" ", 50<<20),
	} {
		file := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(file, []byte(content), 0o644))
		Eval[Void](p, state+`.say('')`)
		p.Upload("#design-file", file)
		p.Wait(state + `.notice`)
		p.Wait(settled)
		assert.NotContains(t, Eval[string](p, state+`.notice`), "Opened", name)
		assert.Equal(t, before, Eval[string](p, `JSON.stringify(`+state+`.doc)`), name)
	}
	p.Upload("#design-file", write(t, dir, "good.json", strings.Replace(before, "Pier lamp", "Quay lamp", 1)))
	p.Wait(state + `.doc.name === "Quay lamp"`)
}

func write(t *testing.T, dir, name, content string) (file string) {
	t.Helper()
	file = filepath.Join(dir, name)
	require.NoError(t, os.WriteFile(file, []byte(content), 0o644))
	return file
}
