package main

import (
	"bytes"
	"encoding/json"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// installable makes a repository with what addOffline needs of it.
func installable(t *testing.T) (root string) {
	t.Helper()
	return site(t, map[string]string{
		"offline-worker.ts": `import kept from 'springrib:kept'; console.log(kept.build, kept.files);`,
		manifestName:        "{}", "icon.svg": "<svg/>", "icon-192.png": "1", "icon-512.png": "5",
	})
}

func TestTheOfflineWorkerKnowsTheFilesOfItsBuild(t *testing.T) {
	root := installable(t)
	files, err := servedPage(sample)
	require.NoError(t, err)
	names := keptNames(files)
	assert.Len(t, names, len(files)-1)
	require.NoError(t, addOffline(root, files))
	worker := string(files[offlineName])
	for _, name := range append(names, "icon-512.png", manifestName) {
		assert.Contains(t, worker, `"`+name+`"`)
	}
	assert.NotContains(t, worker, `"index.html"`)
	assert.NotContains(t, worker, `"`+offlineName+`"`)
}

func TestAnyChangeMakesAnotherOfflineWorker(t *testing.T) {
	root := installable(t)
	seen := map[string]bool{}
	for _, change := range []func(*pieces){
		func(*pieces) {}, func(p *pieces) { p.script += ";" }, func(p *pieces) { p.style += " " },
		func(p *pieces) { p.template += " " }, func(p *pieces) { p.core = append([]byte{0}, p.core...) },
	} {
		p := sample
		change(&p)
		files, err := servedPage(p)
		require.NoError(t, err)
		require.NoError(t, addOffline(root, files))
		seen[string(files[offlineName])] = true
	}
	assert.Len(t, seen, 5)
}

// W3C, Web Application Manifest: members of the manifest; "sizes" of an icon are its
// pixels. Addresses are relative, so that the page may lie in any folder of a server.
func TestTheManifestNamesIconsOfTheirSizes(t *testing.T) {
	root, err := findRoot()
	require.NoError(t, err)
	text, err := os.ReadFile(filepath.Join(root, "site", manifestName))
	require.NoError(t, err)
	var manifest struct {
		Name, Display, Scope string
		StartURL             string `json:"start_url"`
		Icons                []struct{ Src, Sizes, Type string }
	}
	require.NoError(t, json.Unmarshal(text, &manifest))
	assert.Equal(t, []string{"Springrib", "standalone", "./", "./"}, []string{manifest.Name, manifest.Display, manifest.Scope, manifest.StartURL})
	want := map[string]int{"192x192": 192, "512x512": 512}
	for _, icon := range manifest.Icons {
		if icon.Type != "image/png" {
			continue
		}
		picture := readPNG(t, filepath.Join(root, "site", icon.Src))
		assert.Equal(t, image.Pt(want[icon.Sizes], want[icon.Sizes]), picture.Bounds().Size(), icon.Src)
		delete(want, icon.Sizes)
	}
	assert.Empty(t, want)
}

// The pictures are icon.svg as librsvg draws it; a hundredth of the scale is for other
// versions of it.
func TestTheIconsShowTheIcon(t *testing.T) {
	tool, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Skip("rsvg-convert is not here (package librsvg2-bin): the icons are not checked")
	}
	root, err := findRoot()
	require.NoError(t, err)
	out, err := exec.Command(tool, "-w", "192", "-h", "192", filepath.Join(root, "site", "icon.svg")).Output()
	require.NoError(t, err)
	drawn, err := png.Decode(bytes.NewReader(out))
	require.NoError(t, err)
	kept := readPNG(t, filepath.Join(root, "site", "icon-192.png"))
	off := 0.0
	for y := range 192 {
		for x := range 192 {
			r, g, b, _ := drawn.At(x, y).RGBA()
			r2, g2, b2, _ := kept.At(x, y).RGBA()
			off += max(float64(r)-float64(r2), float64(r2)-float64(r)) + max(float64(g)-float64(g2), float64(g2)-float64(g)) + max(float64(b)-float64(b2), float64(b2)-float64(b))
		}
	}
	assert.Less(t, off/(192*192*3*0xffff), 0.01)
}

func readPNG(t *testing.T, name string) image.Image {
	t.Helper()
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	picture, err := png.Decode(bytes.NewReader(text))
	require.NoError(t, err)
	return picture
}
