package main

import (
	"crypto/sha256"
	"encoding/ascii85"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
)

// pieces are the parts that both pages are put together from.
type pieces struct {
	template string // site/index.html
	style    string
	faces    []face
	licence  string // of the faces
	early    string // the script that starts the worker, which it holds
	script   string
	later    map[string]string // scripts that are loaded when first needed, by name
	worker   string            // the core's worker
	core     []byte            // gzipped wasm
	first    []byte            // the answer that comes with the page, as JSON
}

// parts are the names of the later scripts, in order.
func (p pieces) parts() []string { return slices.Sorted(maps.Keys(p.later)) }

// Places in the template, in this order. The content policy goes after the first,
// before anything that it rules.
const (
	placeHead   = `<meta charset="utf-8">`
	placeStyle  = "<!-- style -->"
	placeScript = "<!-- script -->"
)

// servedPolicy is the content policy of the served page.
const servedPolicy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; worker-src blob: 'self'; " +
	"connect-src 'self'; manifest-src 'self'; font-src 'self'; img-src 'self' data: blob:; base-uri 'none'; form-action 'none'"

// singlePolicy is the content policy of the single file, which fetches nothing at all.
func singlePolicy(p pieces) string {
	scripts := sourceHash(p.early) + " " + sourceHash(p.script)
	for _, name := range p.parts() {
		scripts += " " + sourceHash(p.later[name])
	}
	return "default-src 'none'; script-src " + scripts + " 'wasm-unsafe-eval'; style-src " + sourceHash(p.singleStyle()) +
		"; worker-src blob:; connect-src 'none'; font-src data:; img-src data: blob:; base-uri 'none'; form-action 'none'"
}

// singleStyle is the style of the single file, with the faces and their licence in it.
func (p pieces) singleStyle() string {
	return "/*\n" + p.licence + "\n*/\n" + faceRules(p.faces, face.dataURL) + p.style
}

// sourceHash names an inline script or style in a content policy.
func sourceHash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// contentName puts a hash of the content into a file's name, so that a name never
// means two contents: page.js becomes page-0123456789abcdef.js.
func contentName(name string, content []byte) string {
	sum := sha256.Sum256(content)
	stem, rest, _ := strings.Cut(name, ".")
	return stem + "-" + hex.EncodeToString(sum[:8]) + "." + rest
}

// servedPage returns the files of the page for a server, by name.
func servedPage(p pieces) (map[string][]byte, error) {
	styled := faceRules(p.faces, func(f face) string { return f.file }) + p.style
	style := contentName("page.css", []byte(styled))
	script := contentName("page.js", []byte(p.script))
	early := contentName("early.js", []byte(p.early))
	core := contentName("core.wasm.gz", p.core)
	files := map[string][]byte{style: []byte(styled), early: []byte(p.early), script: []byte(p.script), core: p.core, licenceName: []byte(p.licence)}
	fonts := ""
	for _, f := range p.faces {
		files[f.file] = f.woff2
		fonts += fmt.Sprintf(`<link rel="preload" as="font" type="font/woff2" crossorigin href="%s">`+"\n", f.file)
	}
	// A script of an unknown type is not fetched; load.ts reads the address when the time comes.
	later := ""
	for _, name := range p.parts() {
		file := contentName(name+".js", []byte(p.later[name]))
		files[file] = []byte(p.later[name])
		later += fmt.Sprintf(`<script id="%s" type="text/plain" src="%s"></script>`+"\n", name, file)
	}
	first, err := firstBlock(p)
	if err != nil {
		return nil, err
	}
	// The core takes longest: its worker is started before style and script are read, and fetches it.
	html, err := fillTemplate(p, servedPolicy,
		fmt.Sprintf(`<link id="core" rel="alternate" type="application/wasm" href="%s">`+"\n"+`<script src="%s"></script>`+"\n"+`<link rel="manifest" href="%s">`, core, early, manifestName),
		fonts+fmt.Sprintf(`<link rel="stylesheet" href="%s">`, style),
		first+later+fmt.Sprintf(`<script src="%s"></script>`, script))
	files["index.html"] = []byte(html)
	return files, err
}

// singlePage returns the page as one file that fetches nothing. What is not needed for
// the first drawing is packed and comes last; the policy names the sum of what comes out.
func singlePage(p pieces) ([]byte, error) {
	later := ""
	for _, name := range p.parts() {
		packed, err := pack([]byte(p.later[name]))
		if err != nil {
			return nil, err
		}
		later += block(name, packed, "")
	}
	first, err := firstBlock(p)
	if err != nil {
		return nil, err
	}
	if m := endsScript.FindString(p.early + "\n" + p.script); m != "" {
		return nil, fmt.Errorf("the script holds %q, which would end it early inside a page", m)
	}
	if m := endsStyle.FindString(p.singleStyle()); m != "" {
		return nil, fmt.Errorf("the style holds %q, which would end it early inside a page", m)
	}
	html, err := fillTemplate(p, singlePolicy(p), "<script>"+p.early+"</script>",
		"<style>"+p.singleStyle()+"</style>",
		first+"<script>"+p.script+"</script>\n"+block("core", p.core, "")+later)
	return []byte(html), err
}

// block is an element that holds bytes and runs nothing: a script of an unknown type. They are
// written in Ascii85, five letters for four bytes, where base64 takes four for three.
func block(id string, bytes []byte, more string) string {
	return `<script id="` + id + `" type="application/octet-stream"` + more + `>` + inLetters(bytes) + "</script>\n"
}

// inLetters writes bytes in Ascii85 for the page to read (site/bytes.ts), with v for the letter
// that begins a tag and without the shorthand z for four zeros.
func inLetters(bytes []byte) string {
	out := make([]byte, ascii85.MaxEncodedLen(len(bytes)))
	out = out[:ascii85.Encode(out, bytes)]
	return strings.NewReplacer("<", "v", "z", "!!!!!").Replace(string(out))
}

// A script element ends at "</script", and "<!--" followed by "<script" hides that end.
var (
	endsScript = regexp.MustCompile(`(?i)</?script`)
	endsStyle  = regexp.MustCompile(`(?i)</style`)
)

// fillTemplate puts the policy, further head elements, style and script into the page.
func fillTemplate(p pieces, policy, head, style, script string) (string, error) {
	head = placeHead + "\n" + `<meta http-equiv="Content-Security-Policy" content="` + policy + `">` + "\n" + head
	// The places are found before anything is put in: a script may hold the same text.
	var out strings.Builder
	rest := p.template
	for _, put := range []struct{ place, text string }{{placeHead, head}, {placeStyle, style}, {placeScript, script}} {
		before, after, ok := strings.Cut(rest, put.place)
		if !ok {
			return "", fmt.Errorf("site/index.html needs %s, in the order charset, style, script", put.place)
		}
		out.WriteString(before)
		out.WriteString(put.text)
		rest = after
	}
	for _, place := range []string{placeHead, placeStyle, placeScript} {
		if strings.Contains(rest, place) {
			return "", fmt.Errorf("site/index.html has %s twice", place)
		}
	}
	out.WriteString(rest)
	return out.String(), nil
}
