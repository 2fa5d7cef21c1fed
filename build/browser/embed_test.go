package browser

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// serveToAll serves dist as a server does that lets pages of other origins read it.
func serveToAll(t *testing.T) (url string) {
	t.Helper()
	files := http.FileServer(http.Dir(dist))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Access-Control-Allow-Origin", "*")
		files.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	return server.URL + "/"
}

// host serves one page of somebody else's, on an origin of its own.
func host(t *testing.T, head, body string) (url string) {
	t.Helper()
	page := `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A blog</title><link rel="icon" href="data:,">` + head +
		`</head><body><main><h1>A blog</h1>` + body + `</main></body></html>`
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Write([]byte(page))
	}))
	t.Cleanup(server.Close)
	return server.URL + "/"
}

var (
	tagPattern    = regexp.MustCompile(`<script src="(embed-[0-9a-f]+\.js)" integrity="[^"]+" crossorigin="anonymous" defer></script>`)
	designPattern = regexp.MustCompile(`design="(#design=[\w-]+)"`)
)

// snippet returns the script tag and the designs of the example page, for a server at url.
func snippet(t *testing.T, url string) (tag string, designs []string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dist, "embed-example.html"))
	require.NoError(t, err)
	m := tagPattern.FindStringSubmatch(string(text))
	require.NotNil(t, m)
	for _, d := range designPattern.FindAllStringSubmatch(string(text), -1) {
		designs = append(designs, d[1])
	}
	require.Len(t, designs, 2)
	return strings.Replace(m[0], m[1], url+m[1], 1), designs
}

// inside is what fits a selector inside an embedded design.
func inside(id, selector string) string {
	return `document.getElementById(` + quote(id) + `)?.shadowRoot?.querySelector(` + quote(selector) + `)`
}

func TestADesignOnAPageOfAnotherOrigin(t *testing.T) {
	tag, designs := snippet(t, serveToAll(t))
	p := chrome.Blank(t)
	p.BeforePage(watchWorkers)
	p.Go(host(t, tag+tag+`<style>p, svg, .verdict { display: none !important } * { color: rgb(255, 0, 0) } :root { --paper: red; --ink: red }</style>`,
		`<springrib-design id="one" view="bent" design="`+designs[0]+`">not drawn yet</springrib-design>
		<springrib-design id="two" design="`+designs[1]+`"></springrib-design>
		<springrib-design id="three" view="flat" live design='{"format":"springrib design","version":1,"name":"By hand"}'></springrib-design>
		<springrib-design id="four" design="#design=nothing">a sentence for those who see no drawing</springrib-design>`))
	for _, id := range []string{"one", "two"} {
		p.Wait(inside(id, "svg.drawing path.panel"))
		assert.NotEmpty(t, Eval[string](p, inside(id, ".verdict .sentence")+`.textContent`))
	}
	p.Wait(inside("three", "springrib-field input"))
	p.Wait(inside("four", ".problem"))
	assert.Equal(t, 1, Eval[int](p, `workers.length`), "all designs share one core")
	assert.Equal(t, []int{1, 2, 0}, Eval[[]int](p, `['one', 'two', 'three'].map((id) => document.getElementById(id).shadowRoot.querySelectorAll('svg.drawing').length)`))
	assert.Contains(t, Eval[string](p, inside("four", ".problem")+`.textContent`), "cut short")
	assert.True(t, Eval[bool](p, inside("four", "slot")+`.assignedNodes().length > 0`), "the host's own words stay")

	// The host's style stays outside, the design's inside.
	assert.True(t, Eval[bool](p, inside("one", ".verdict .sentence")+`.checkVisibility()`))
	assert.NotEqual(t, "rgb(255, 0, 0)", Eval[string](p, `getComputedStyle(`+inside("one", ".verdict .sentence")+`).color`))
	assert.Equal(t, "rgb(255, 0, 0)", Eval[string](p, `getComputedStyle(document.querySelector('h1')).color`))
	link := Eval[string](p, inside("one", "a")+`.href`)
	assert.Contains(t, link, "/#design=")

	// Its height follows what it shows.
	low := Eval[int](p, `document.getElementById('one').offsetHeight`)
	Eval[Void](p, `document.getElementById('one').view = 'both'`)
	p.Wait(inside("one", "springrib-drawing + springrib-drawing"))
	assert.Greater(t, Eval[int](p, `document.getElementById('one').offsetHeight`), low)

	// Another design in the same element.
	Eval[Void](p, `document.getElementById('one').design = `+quote(designs[1]))
	p.Wait(inside("one", ".title") + `.textContent === ` + inside("two", ".title") + `.textContent`)
}

func TestAReadOnlyDesignIsOneAndALiveOneIsWorked(t *testing.T) {
	tag, designs := snippet(t, serveToAll(t))
	p := chrome.Open(t, host(t, tag, `<springrib-design id="still" design="`+designs[1]+`"></springrib-design><springrib-design id="live" live design="`+designs[1]+`"></springrib-design>`))
	p.Wait(inside("still", "svg.drawing path.panel") + ` && ` + inside("live", "springrib-field input"))
	assert.Equal(t, 0, Eval[int](p, `document.getElementById('still').shadowRoot.querySelectorAll('input, select, [tabindex]').length`))
	Eval[Void](p, `window.told = []; document.addEventListener('springrib-change', (e) => told.push([e.target.id, JSON.parse(e.detail.design).curve.rise]))`)
	before := Eval[string](p, inside("live", "svg.drawing path.panel")+`.getAttribute('d')`)
	p.Fill("Rise", "55")
	p.Wait(`told.length && ` + inside("live", "svg.drawing path.panel") + `.getAttribute('d') !== ` + quote(before))
	assert.Equal(t, []string{"live", "55"}, Eval[[]string](p, `told.at(-1)`))
	assert.Equal(t, 0, Eval[int](p, `localStorage.length`), "nothing is left in the host's store")
	assert.Equal(t, before, Eval[string](p, inside("still", "svg.drawing path.panel")+`.getAttribute('d')`))
}

func TestAChangedScriptOrCoreIsRefused(t *testing.T) {
	files := http.FileServer(http.Dir(dist))
	change := ""
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Access-Control-Allow-Origin", "*")
		w.Header().Set("Cache-Control", "no-store")
		if change != "" && strings.HasPrefix(r.URL.Path, "/"+change) {
			w.Write([]byte("\x00asm\x01\x00\x00\x00"))
			return
		}
		files.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	tag, designs := snippet(t, server.URL+"/")
	page := host(t, tag, `<springrib-design id="one" design="`+designs[0]+`">a picture instead</springrib-design>`)

	change = "core"
	p := chrome.Open(t, page)
	p.Wait(inside("one", ".problem"))
	assert.Contains(t, Eval[string](p, inside("one", ".problem")+`.textContent`), "does not start")
	assert.True(t, Eval[bool](p, inside("one", "slot")+`.assignedNodes().length > 0`))

	change = "embed"
	p = chrome.Open(t, page)
	assert.False(t, Eval[bool](p, `new Promise((done) => setTimeout(() => done(Boolean(customElements.get('springrib-design'))), 300))`))
	assert.NotEmpty(t, p.Console(), "the browser says why")
}

func TestTheFrameOnAPageOfAnotherOrigin(t *testing.T) {
	t.Run("of any server", func(t *testing.T) { frameOn(t, Serve(t, dist), "") })
	t.Run("in a sandbox", func(t *testing.T) { frameOn(t, serveToAll(t), `sandbox="allow-scripts allow-popups"`) })
}

func frameOn(t *testing.T, url, sandbox string) {
	_, designs := snippet(t, url)
	p := chrome.Open(t, host(t, `<script>
window.heights = [];
addEventListener('message', (e) => { if (e.source === document.getElementById('frame').contentWindow && e.data?.springrib === 'height') heights.push(e.data.height) });
</script>`, `<iframe id="frame" title="A bent panel" `+sandbox+` style="width:40rem;height:30rem" src="`+url+`embed.html`+designs[0]+`&view=bent"></iframe>
<iframe id="stranger" title="Another frame" srcdoc="<p>x</p>"></iframe>`))
	p.Wait(`heights.at(-1) > 300`)
	tall := Eval[int](p, `new Promise((done) => setTimeout(() => done(heights.at(-1)), 1000))`)
	send := `document.getElementById('frame').contentWindow.postMessage({ springrib: 'design', design: 'broken' }, '*')`
	// From another frame it is not taken.
	Eval[Void](p, `new Promise((done) => { const s = document.getElementById('stranger').contentDocument.createElement('script');
  s.textContent = "parent."+`+quote(send)+`; document.getElementById('stranger').contentDocument.body.append(s); setTimeout(done, 800) })`)
	assert.Equal(t, tall, Eval[int](p, `heights.at(-1)`))
	// From the page around it is.
	Eval[Void](p, send)
	p.Wait(`heights.at(-1) !== ` + strconv.Itoa(tall))
}

// Axe-core goes into open shadow roots; what a frame holds is checked as a page.
func TestEmbeddedDesignsAreAccessible(t *testing.T) {
	url := serveToAll(t)
	for _, page := range []string{"embed-example.html", "embed.html"} {
		address := url + page
		if page == "embed.html" {
			_, designs := snippet(t, url)
			address += designs[1] + "&live"
		}
		p := chrome.Open(t, address)
		for _, width := range []int64{390, 1440} {
			p.Resize(width, 4000) // all of it in sight, so that all of it works
			p.Wait(`[...document.querySelectorAll('springrib-design')].every((e) => e.shadowRoot?.querySelector('svg.drawing'))`)
			for _, scheme := range []string{"light", "dark"} {
				p.Scheme(scheme)
				assert.Empty(t, p.Violations(), "%s, %s at %d", page, scheme, width)
				p.Screenshot(page + scheme)
			}
		}
	}
}
