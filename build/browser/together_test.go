package browser

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Designs that the browser keeps are cut together: so many of each, in one file that holds the same
// bytes as the command writes for the job in it.
func TestDesignsCutTogether(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	for _, id := range []string{"boathouse-arch", "dory-side", "skylight-well"} {
		Eval[Void](p, `(async () => { const s = `+state+`; s.kept.keep(); const e = s.asked.controls.examples.find((e) => e.id === `+quote(id)+`); s.begin ? s.begin(e.design) : s.replace(e.design, 'example'); })()`)
		p.Wait(settled)
		p.rename(id)
		if id != "skylight-well" {
			p.fresh()
		}
	}
	p.Press("Designs")
	require.GreaterOrEqual(t, len(Eval[[]string](p, keptNames)), 3)
	p.Fill("boathouse-arch: how many to cut together", "2")
	p.Fill("dory-side: how many to cut together", "1")
	p.Fill("skylight-well: how many to cut together", "1")
	p.Fill("dory-side: how many to cut together", "0") // taken out again
	assert.Empty(t, p.Violations(), "the list with numbers")
	p.Screenshot("together")
	name, content := p.Download(func() { p.Press("Take 2 designs to the bench") })
	assert.Contains(t, name, "job.zip")
	files := map[string][]byte{}
	z, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	require.NoError(t, err)
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		files[f.Name], err = io.ReadAll(r)
		require.NoError(t, err)
	}
	dir, job := t.TempDir(), ""
	for n := range files {
		if filepath.Ext(n) == ".json" {
			job = filepath.Join(dir, "job.json")
			require.NoError(t, os.WriteFile(job, files[n], 0o644))
		}
	}
	require.NotEmpty(t, job, "the job is in it")
	out, err := exec.Command("go", "run", "springrib/build", "files", job, filepath.Join(dir, "out")).CombinedOutput()
	require.NoError(t, err, string(out))
	svgs := 0
	for n, data := range files {
		if filepath.Ext(n) != ".svg" && filepath.Ext(n) != ".dxf" && filepath.Ext(n) != ".pdf" {
			continue
		}
		native, err := os.ReadFile(filepath.Join(dir, "out", n))
		require.NoError(t, err, n)
		assert.True(t, bytes.Equal(native, data), n)
		svgs++
	}
	assert.Greater(t, svgs, 5)
	p.Wait(`document.querySelector('dialog .told').textContent.includes('one file')`)
	assert.Contains(t, p.Text("dialog .told"), "It is laid on sheets of its own.")
}
