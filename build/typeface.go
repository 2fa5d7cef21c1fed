package main

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// The page's typeface is Alegreya Sans, under the SIL Open Font License 1.1. Its cuts come from
// a package; the build leaves out of them what the page can't show.
const (
	typefaceName    = "Alegreya Sans"
	typefacePackage = "@fontsource/alegreya-sans"
	licenceName     = "alegreya-sans-licence.txt"
)

// cuts are the weights that the style sheet asks for, with the names of their files.
var cuts = [...]struct {
	weight int
	name   string
}{{400, "regular"}, {500, "medium"}, {700, "bold"}}

// features are those that it asks for by font-variant-numeric, with kerning. The first four
// digits of a fraction are made of numr and dnom.
var features = []string{"kern", "tnum", "lnum", "frac", "numr", "dnom"}

// letters are what is kept: ASCII, the letters and signs of Latin-1 for names, and the marks
// that the page's own sentences use. All else falls back to the reader's own faces.
var letters = span(' ', '~') + span('\u00a0', '\u00ff') + "ŒœŸ‐–—‘’‚“”„…•′″⁄−€"

// span is every character from one to another.
func span(from, to rune) string {
	var b strings.Builder
	for r := from; r <= to; r++ {
		b.WriteRune(r)
	}
	return b.String()
}

// face is one cut of the typeface as WOFF2.
type face struct {
	weight int
	file   string // its name beside the served page
	woff2  []byte
}

// dataURL is the cut as an address that holds it.
func (f face) dataURL() string {
	return "data:font/woff2;base64," + base64.StdEncoding.EncodeToString(f.woff2)
}

// subset is the script that makes the cuts, with harfbuzz as wasm. Node resolves packages from
// its working directory.
const subset = `
const { readFileSync } = require('fs'), subset = require('subset-font');
const { files, letters, features } = JSON.parse(readFileSync(0, 'utf8'));
Promise.all(files.map((f) => subset(readFileSync(f), letters, { targetFormat: 'woff2', keepFeatures: features, noHinting: true })))
  .then((cuts) => process.stdout.write(JSON.stringify(cuts.map((c) => c.toString('base64')))));
`

// cutTypeface makes the cuts of the typeface with the letters that the page can show.
func cutTypeface(root string) ([]face, error) {
	var files []string
	for _, c := range cuts {
		files = append(files, filepath.Join("node_modules", filepath.FromSlash(typefacePackage), "files", fmt.Sprintf("alegreya-sans-latin-%d-normal.woff2", c.weight)))
	}
	question, err := json.Marshal(map[string]any{"files": files, "letters": letters, "features": features})
	if err != nil {
		return nil, err
	}
	cmd := exec.Command("node", "-e", subset)
	cmd.Dir = filepath.Join(root, "site")
	cmd.Stdin = bytes.NewReader(question)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("cutting the typeface with node: %w", err)
	}
	var made [][]byte
	if err := json.Unmarshal(out, &made); err != nil || len(made) != len(cuts) {
		return nil, fmt.Errorf("cutting the typeface gave %d cuts: %w", len(made), err)
	}
	faces := make([]face, len(cuts))
	for i, c := range cuts {
		faces[i] = face{c.weight, contentName(c.name+".woff2", made[i]), made[i]}
	}
	return faces, nil
}

// typefaceLicence is the licence of the typeface, which goes along with it.
func typefaceLicence(root string) (string, error) {
	text, err := os.ReadFile(filepath.Join(root, "site", "node_modules", filepath.FromSlash(typefacePackage), "LICENSE"))
	return string(text), err
}

// faceRules are the style rules that name the cuts, each at the address that at gives it.
// Until a cut is there a face of the reader's stands in, as wide and as high, so that no line
// breaks anew.
func faceRules(faces []face, at func(face) string) string {
	var b strings.Builder
	for _, f := range faces {
		fmt.Fprintf(&b, `@font-face{font-family:%q;font-weight:%d;font-display:swap;src:url(%s) format("woff2")}`, typefaceName, f.weight, at(f))
	}
	return b.String()
}
