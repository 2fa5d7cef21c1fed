package main

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"os"
	"path/filepath"
	"strings"

	"github.com/evanw/esbuild/pkg/api"

	"springrib/internal/wire"
)

// Pages about and around embedded designs. Hosts write these names into their own pages,
// so that they carry no hash.
const (
	frameName   = "embed.html"
	exampleName = "embed-example.html"
	typesName   = "springrib-design.d.ts"
)

// frameStyle is all the style of the page inside a frame.
const frameStyle = "body{margin:0}h1{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}"

// framePolicy is the content policy of that page with this style. The element's own style is
// made by its script and rests on script-src.
func framePolicy(style string) string {
	return "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src " + sourceHash(style) +
		"; worker-src blob:; connect-src 'self'; font-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'"
}

// listener is what a host's page does to follow the height of a frame.
const listener = `
addEventListener('message', (event) => {
  const frame = document.getElementById('frame');
  if (event.source !== frame.contentWindow || event.data?.springrib !== 'height') return;
  frame.style.height = Math.min(Number(event.data.height) || 640, 4000) + 'px';
});
`

// addEmbed adds the script that puts designs into other pages, the page that does the
// same in a frame, an example of both, and the types.
func addEmbed(root string, p pieces, files map[string][]byte) error {
	core := contentName("core.wasm.gz", p.core)
	script, err := bundleEmbed(root, p, core)
	if err != nil {
		return err
	}
	embed := contentName("embed.js", []byte(script))
	files[embed] = []byte(script)
	frame, err := bundle(root, "embed/frame.ts", "", nil)
	if err != nil {
		return err
	}
	files[contentName("frame.js", []byte(frame))] = []byte(frame)
	if files[frameName], err = framePage(root, p, script, frame); err != nil {
		return err
	}
	if files[exampleName], err = examplePage(root, embed, script); err != nil {
		return err
	}
	files[typesName], err = os.ReadFile(filepath.Join(root, "site", "embed", typesName))
	return err
}

// bundleEmbed bundles the script. It holds the worker, and the name and sum of the core.
func bundleEmbed(root string, p pieces, core string) (string, error) {
	style, err := bundle(root, "embed/embed.css", "", nil)
	if err != nil {
		return "", err
	}
	wasm, err := unpack(p.core)
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(wasm)
	about, err := json.Marshal(map[string]string{"file": core, "sha256": hex.EncodeToString(sum[:])})
	if err != nil {
		return "", err
	}
	return bundle(root, "embed/main.ts", "", made{
		"worker": {p.worker, api.LoaderText},
		"core":   {string(about), api.LoaderJSON},
		"style":  {strings.ReplaceAll(style, ":root", ":host"), api.LoaderText},
	})
}

// integrity is the value of that attribute for a script.
func integrity(script string) string {
	sum := sha512.Sum384([]byte(script))
	return "sha384-" + base64.StdEncoding.EncodeToString(sum[:])
}

// scriptTag is the one tag of a page that embeds designs.
func scriptTag(file, script string) string {
	return fmt.Sprintf(`<script src="%s" integrity="%s" crossorigin="anonymous" defer></script>`, file, integrity(script))
}

func framePage(root string, p pieces, embed, frame string) ([]byte, error) {
	template, err := os.ReadFile(filepath.Join(root, "site", "embed", "frame.html"))
	if err != nil {
		return nil, err
	}
	p.template = string(template)
	style := faceRules(p.faces, func(f face) string { return f.file }) + frameStyle
	html, err := fillTemplate(p, framePolicy(style), "", "<style>"+style+"</style>",
		scriptTag(contentName("embed.js", []byte(embed)), embed)+"\n"+scriptTag(contentName("frame.js", []byte(frame)), frame))
	return []byte(html), err
}

func examplePage(root, file, script string) ([]byte, error) {
	template, err := os.ReadFile(filepath.Join(root, "site", "embed", "example.html"))
	if err != nil {
		return nil, err
	}
	r, err := ask(wire.Request{Kind: "fields"})
	if err != nil {
		return nil, err
	}
	if len(r.Controls.Examples) < 2 {
		return nil, errors.New("the example of embedding needs two example designs")
	}
	fill := strings.NewReplacer(
		"{{tag}}", scriptTag(file, script),
		"{{shownTag}}", html.EscapeString(scriptTag("https://example.org/springrib/"+file, script)),
		"{{first}}", linkOf(r.Controls.Examples[0].Design),
		"{{second}}", linkOf(r.Controls.Examples[1].Design),
		"{{listener}}", listener,
		"{{shownListener}}", html.EscapeString("<script>"+listener+"</script>"),
	)
	return []byte(fill.Replace(string(template))), nil
}

// linkOf returns the part of an address that holds a design, as site/link.ts reads it.
func linkOf(design []byte) string {
	var packed bytes.Buffer
	w, err := flate.NewWriter(&packed, flate.BestCompression)
	if err == nil {
		_, err = w.Write(design)
	}
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		panic(err) // memory takes everything
	}
	return "#design=" + base64.RawURLEncoding.EncodeToString(packed.Bytes())
}
