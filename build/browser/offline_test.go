package browser

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ready is true once a service worker has the page.
const ready = `navigator.serviceWorker.ready.then((r) => r.active.state === 'activated' && Boolean(navigator.serviceWorker.controller))`

// stoppable serves dir until stop is called.
func stoppable(t *testing.T, dir string) (url string, stop func()) {
	t.Helper()
	server := httptest.NewServer(http.FileServer(http.Dir(dir)))
	t.Cleanup(server.Close)
	return server.URL + "/", func() {
		server.CloseClientConnections()
		server.Close()
	}
}

func TestThePageWorksAfterTheServerIsGone(t *testing.T) {
	url, stop := stoppable(t, dist)
	p := chrome.Open(t, url)
	p.Wait(settled)
	p.Wait(`await ` + ready)
	p.rename("Pier lamp")
	stop()
	for _, address := range []string{url, url + "index.html", url + "?from=home"} {
		p.cold(address)
		assert.Equal(t, "Pier lamp", p.Value("Name of the design"), address)
		assert.NotEmpty(t, p.Text("springrib-verdict h1"))
	}
	// What was never shown is at hand too.
	assert.Equal(t, 200, Eval[int](p, `fetch(document.getElementById('scene').getAttribute('src')).then((r) => r.status)`))
	p.Console() // the browser may say that it could not look for a new service worker
}

// anotherBuild makes a build that differs in its script: as if the page had changed.
func anotherBuild(t *testing.T, from, mark string) (dir string) {
	t.Helper()
	dir = t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS(from)))
	scripts, err := filepath.Glob(filepath.Join(dir, "page-*.js"))
	require.NoError(t, err)
	require.Len(t, scripts, 1)
	old := filepath.Base(scripts[0])
	renamed := "page-" + strings.Repeat(mark, 16) + ".js"
	text, err := os.ReadFile(scripts[0])
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, renamed), append(text, "\nwindow.build = '"+mark+"';"...), 0o644))
	require.NoError(t, os.Remove(scripts[0]))
	for _, name := range []string{"index.html", "offline.js"} {
		file := filepath.Join(dir, name)
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		text = []byte(strings.ReplaceAll(string(text), old, renamed))
		text = regexp.MustCompile(`build:"[0-9a-f]{16}"`).ReplaceAll(text, []byte(`build:"`+strings.Repeat(mark, 16)+`"`))
		require.NoError(t, os.WriteFile(file, text, 0o644))
	}
	return dir
}

func TestANewBuildTakesThePlaceOfTheOldOneWhole(t *testing.T) {
	dir := dist
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		http.FileServer(http.Dir(dir)).ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	p := chrome.Open(t, server.URL+"/")
	p.Wait(settled)
	p.Wait(`await ` + ready)
	Eval[Void](p, `caches.open('of another page')`)
	for _, mark := range []string{"a", "b", "c"} {
		dir = anotherBuild(t, dist, mark)
		Eval[Void](p, `new Promise(async (done) => {
  const r = await navigator.serviceWorker.ready, was = r.active;
  await r.update();
  while (r.active === was || r.active.state !== 'activated') await new Promise((next) => setTimeout(next, 20));
  done();
})`)
		p.Go(server.URL + "/")
		p.Wait(settled)
		assert.Equal(t, mark, Eval[string](p, "window.build"), "page and script are of the new build")
		own := Eval[[]string](p, `caches.keys().then((all) => all.filter((k) => k.startsWith('springrib ')))`)
		assert.Len(t, own, 2, "its own files, and those of the build before for windows that still show it")
	}
	assert.True(t, Eval[bool](p, `caches.has('of another page')`), "what belongs to others stays")
}

func TestTheServedPageIsInstallable(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	icons := Eval[[]string](p, `fetch(document.querySelector('link[rel=manifest]').href).then((r) => r.json()).then((m) =>
  Promise.all(m.icons.map(async (i) => i.src + ' ' + (await fetch(i.src)).status)))`)
	assert.Equal(t, []string{"icon.svg 200", "icon-192.png 200", "icon-512.png 200"}, icons)
	p.Wait(`await ` + ready)
}

func TestTheSingleFileKeepsNoServiceWorker(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist)+"springrib.html")
	p.Wait(settled)
	assert.Equal(t, 0, Eval[int](p, `navigator.serviceWorker.getRegistrations().then((all) => all.length)`))
}
