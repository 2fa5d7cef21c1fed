package main

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// W3C, Subresource Integrity, section 3.2: the digest of "alert('Hello, world.');" with
// SHA-384 is the example of that section.
func TestIntegrity(t *testing.T) {
	assert.Equal(t, "sha384-H8BRh8j48O9oYatfu5AZzq6A9RINhZO5H16dQZngK7T62em8MUt1FLm52t+eX6xO", integrity("alert('Hello, world.');"))
}

func TestALinkUnpacksToItsDesign(t *testing.T) {
	design := []byte(`{"name":"` + strings.Repeat("a long name ", 50) + `"}`)
	link := linkOf(design)
	assert.Regexp(t, `^#design=[A-Za-z0-9_-]+$`, link)
	assert.Less(t, len(link), 100)
	packed, err := base64.RawURLEncoding.DecodeString(strings.TrimPrefix(link, "#design="))
	require.NoError(t, err)
	back, err := io.ReadAll(flate.NewReader(bytes.NewReader(packed)))
	require.NoError(t, err)
	assert.Equal(t, design, back)
}

// embedding makes a repository with what addEmbed needs of it.
func embedding(t *testing.T) (root string, p pieces) {
	t.Helper()
	root = site(t, nil)
	for name, text := range map[string]string{
		"embed/main.ts": `import core from 'springrib:core'; import style from 'springrib:style'; import worker from 'springrib:worker';
console.log(core.file, core.sha256, style, worker);`,
		"embed/embed.css": `:root { color: red }`, "embed/frame.ts": `console.log('frame')`,
		"embed/frame.html":   "<!doctype html>\n<meta charset=\"utf-8\">\n<!-- style -->\n<springrib-design></springrib-design>\n<!-- script -->",
		"embed/example.html": "{{tag}}\n<pre>{{shownTag}}</pre>\n{{first}} {{second}}\n<script>{{listener}}</script><pre>{{shownListener}}</pre>",
		"embed/" + typesName: "export {};",
	} {
		file := filepath.Join(root, "site", name)
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	}
	p = sample
	p.worker = "the worker's source"
	var err error
	p.core, err = pack([]byte("the core"))
	require.NoError(t, err)
	return root, p
}

func TestEmbeddingNamesOneBuild(t *testing.T) {
	root, p := embedding(t)
	files := map[string][]byte{}
	require.NoError(t, addEmbed(root, p, files))
	embed, frame := "", ""
	for name := range files {
		if strings.HasPrefix(name, "embed-") && strings.HasSuffix(name, ".js") {
			embed = name
		}
		if strings.HasPrefix(name, "frame-") {
			frame = name
		}
	}
	script := string(files[embed])
	assert.Contains(t, script, contentName("core.wasm.gz", p.core))
	// SHA-256 of "the core", by coreutils sha256sum.
	assert.Contains(t, script, "80e17d643e0cd6eebaf1044f96b5e713cc6c67fb3646a1176023af5227ee5b14")
	assert.Contains(t, script, p.worker)
	assert.Contains(t, script, ":host{color:red}")

	tag := scriptTag(embed, script)
	assert.Contains(t, string(files[exampleName]), tag)
	assert.Contains(t, string(files[exampleName]), "&lt;script src=&#34;https://example.org/springrib/"+embed)
	assert.Len(t, regexp.MustCompile(`#design=[\w-]{100,}`).FindAll(files[exampleName], -1), 2)
	assert.NotContains(t, string(files[exampleName]), "{{")

	html := string(files[frameName])
	assert.Contains(t, html, tag)
	assert.Contains(t, html, `src="`+frame+`"`)
	style := regexp.MustCompile(`<style>([^<]+)</style>`).FindStringSubmatch(html)
	require.Len(t, style, 2)
	assert.Contains(t, style[1], "url("+sample.faces[0].file+")")
	assert.Contains(t, policy(t, html), sourceHash(style[1]))
	assert.NotContains(t, policy(t, html), "unsafe-inline")
	assert.Contains(t, files, typesName)
}
