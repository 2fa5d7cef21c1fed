package main

import (
	"encoding/ascii85"
	"encoding/base64"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var sample = pieces{
	template: "<!doctype html><head>\n<meta charset=\"utf-8\">\n<title>x</title>\n<!-- style -->\n</head><body>\n<!-- script -->\n</body>",
	style:    "p{color:red}",
	faces:    []face{{400, "regular-0123456789abcdef.woff2", []byte("letters")}},
	licence:  "who may use it",
	early:    `console.log("early")`,
	script:   `console.log("<!-- script -->")`,
	first:    []byte(`{"form":{},"plan":{},"streams":[]}`),
	later:    map[string]string{"scene": "var springribScene={}"},
	core:     []byte{0x1f, 0x8b, 8, 0},
}

func TestServedPageNamesItsFilesByContent(t *testing.T) {
	files, err := servedPage(sample)
	require.NoError(t, err)
	require.Len(t, files, 8)
	html := string(files["index.html"])
	for name := range files {
		if name != "index.html" && name != licenceName {
			assert.Regexp(t, `^(page|early|core|scene|regular)-[0-9a-f]{16}\.(css|js|wasm\.gz|woff2)$`, name)
			assert.Contains(t, html, `"`+name+`"`)
		}
	}
	other := sample
	other.script += ";"
	again, err := servedPage(other)
	require.NoError(t, err)
	changed := 0
	for name := range again {
		if _, ok := files[name]; !ok {
			changed++
		}
	}
	assert.Equal(t, 1, changed, "another script has another name, all else keeps its own")
}

// policy returns the value of the page's content policy.
func policy(t *testing.T, html string) string {
	t.Helper()
	m := regexp.MustCompile(`<meta http-equiv="Content-Security-Policy" content="([^"]+)">`).FindAllStringSubmatch(html, -1)
	require.Len(t, m, 1)
	return m[0][1]
}

// W3C, Content Security Policy Level 3, section 3.3: a policy in a meta element rules
// only what follows it; section 2.3.1: a hash source is base64 of the digest.
func TestPolicyStandsBeforeAllItRules(t *testing.T) {
	files, err := servedPage(sample)
	require.NoError(t, err)
	single, err := singlePage(sample)
	require.NoError(t, err)
	for _, html := range []string{string(files["index.html"]), string(single)} {
		at := strings.Index(html, "Content-Security-Policy")
		for _, ruled := range []string{"<style", "<script", "<link", "<title"} {
			if i := strings.Index(html, ruled); i >= 0 {
				assert.Less(t, at, i, ruled)
			}
		}
		for _, part := range []string{"default-src 'none'", "'wasm-unsafe-eval'", "worker-src blob:", "base-uri 'none'", "form-action 'none'"} {
			assert.Contains(t, policy(t, html), part)
		}
		for _, part := range []string{"unsafe-inline", "'unsafe-eval'", "*", "http:", "https:"} {
			assert.NotContains(t, policy(t, html), part)
		}
	}
	assert.Contains(t, policy(t, string(single)), "connect-src 'none'")
	assert.NotContains(t, policy(t, string(single)), "'self'")
}

func TestSinglePageHoldsEverythingAndFetchesNothing(t *testing.T) {
	html, err := singlePage(sample)
	require.NoError(t, err)
	assert.NotRegexp(t, `(?:src|href)=`, string(html))
	assert.Contains(t, string(html), sample.style+"</style>")
	assert.Contains(t, string(html), sample.licence)
	assert.Contains(t, string(html), "data:font/woff2;base64,"+base64.StdEncoding.EncodeToString(sample.faces[0].woff2))
	assert.Contains(t, string(html), "<script>"+sample.script+"</script>")
	assert.Contains(t, string(html), inLetters(sample.core))
	assert.Contains(t, policy(t, string(html)), sourceHash(sample.early))
	assert.Contains(t, policy(t, string(html)), sourceHash(sample.script))
	assert.Contains(t, policy(t, string(html)), sourceHash(sample.singleStyle()))
	held := regexp.MustCompile(`<script id="scene" type="application/octet-stream">([^<]+)</script>`).FindSubmatch(html)
	require.Len(t, held, 2)
	packed := written(t, string(held[1]))
	scene, err := unpack(packed)
	require.NoError(t, err)
	assert.Equal(t, sample.later["scene"], string(scene))
	assert.Contains(t, policy(t, string(html)), sourceHash(sample.later["scene"]))
}

// written reads bytes back with the library's own decoder, which knows the letter v as <.
func written(t *testing.T, text string) []byte {
	t.Helper()
	plain := strings.ReplaceAll(text, "v", "<")
	out := make([]byte, len(plain)+4) // the decoder writes whole words
	n, _, err := ascii85.Decode(out, []byte(plain), true)
	require.NoError(t, err)
	return out[:n]
}

func TestBytesStandInAPageAsLetters(t *testing.T) {
	for n := range 200 {
		bytes := make([]byte, n)
		for i := range bytes {
			bytes[i] = byte(i * i * n)
		}
		text := inLetters(bytes)
		assert.NotContains(t, text, "<")
		assert.NotContains(t, text, "z")
		assert.Equal(t, bytes, append([]byte{}, written(t, text)...), n)
	}
	assert.Equal(t, "87cURD]i,\"Ebo80", inLetters([]byte("Hello World!")), "of four letters and bytes, from memory of the format's usual example")
}

// The digest of the empty text is the first test vector for SHA-256 of NIST's
// Cryptographic Algorithm Validation Program (SHA256ShortMsg, Len = 0): e3b0c442...
func TestSourceHash(t *testing.T) {
	assert.Equal(t, "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='", sourceHash(""))
}

func TestWhatWouldEndAnElementEarlyIsRefused(t *testing.T) {
	for _, text := range []string{"</script>", "</SCRIPT ", "<!--<script"} {
		p := sample
		p.script = text
		_, err := singlePage(p)
		assert.ErrorContains(t, err, "would end it early", text)
		p = sample
		p.later = map[string]string{"scene": text}
		_, err = singlePage(p)
		assert.NoError(t, err, "what is packed ends nothing")
	}
	p := sample
	p.style = "a::after{content:'</style>'}"
	_, err := singlePage(p)
	assert.ErrorContains(t, err, "would end it early")
}

func TestTemplateNeedsEachPlaceOnceAndInOrder(t *testing.T) {
	for _, template := range []string{
		"", strings.Replace(sample.template, placeStyle, "", 1), strings.Replace(sample.template, placeHead, "", 1),
		sample.template + placeScript, placeScript + sample.template[:len(sample.template)-len(placeScript)-10],
	} {
		p := sample
		p.template = template
		_, err := servedPage(p)
		assert.Error(t, err, template)
	}
}
