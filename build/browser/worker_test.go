package browser

import (
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// watchWorkers keeps the workers that the page starts in window.workers, and makes a
// worker that hangs be given up after three seconds instead of ten.
const watchWorkers = `
  window.workers = [];
  const Plain = Worker, later = setTimeout;
  window.Worker = class extends Plain { constructor(url) { super(url); workers.push(this); } };
  window.setTimeout = (f, ms, ...rest) => later(f, ms === 10000 ? 3000 : ms, ...rest);`

// set puts a text into the document as typing it would.
func set(path, text string) string {
	return state + `.set(` + quote(path) + `, ` + quote(text) + `, true)`
}

// watched opens the page with its workers watched and waits for the first plan.
func watched(t *testing.T, url string) *Page {
	p := chrome.Blank(t)
	p.BeforePage(watchWorkers)
	p.Go(url)
	p.Wait(settled)
	require.Equal(t, 1, Eval[int](p, "workers.length"))
	return p
}

// kept checks that the newest text is in the document and that a plan was made of it.
func kept(t *testing.T, p *Page, name string) {
	t.Helper()
	p.Wait(settled)
	assert.Equal(t, name, Eval[string](p, state+`.doc.name`))
	assert.Equal(t, name, Eval[string](p, state+`.asked.picture.doc.name`), "what is drawn is the newest design")
	assert.Empty(t, Eval[string](p, state+`.notice`))
}

func TestAWorkerThatDiesIsReplacedAndNothingTypedIsLost(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := watched(t, url)
		// It dies while it works on the first of two changes.
		Eval[Void](p, set("name", "before")+`; workers[0].terminate(); `+
			`workers[0].dispatchEvent(new ErrorEvent('error', { message: 'out of memory', cancelable: true })); `+set("name", "after"))
		kept(t, p, "after")
		assert.Equal(t, 2, Eval[int](p, "workers.length"))
	})
}

func TestAWorkerThatHangsIsReplacedAndNothingTypedIsLost(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := watched(t, url)
		// A terminated worker answers as much as one that hangs.
		Eval[Void](p, `workers[0].terminate(); `+set("name", "asked in vain")+`; `+set("name", "newest"))
		kept(t, p, "newest")
		assert.Equal(t, 2, Eval[int](p, "workers.length"))
	})
}

// serveWith serves dist through a handler that may answer for the core itself.
func serveWith(t *testing.T, core http.HandlerFunc) string {
	t.Helper()
	files := http.FileServer(http.Dir(dist))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.Contains(r.URL.Path, ".wasm") {
			core(w, r)
			return
		}
		files.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	return server.URL + "/"
}

func TestTheCoreLoadsHoweverAServerSendsIt(t *testing.T) {
	send := func(encoding, kind string) http.HandlerFunc {
		return func(w http.ResponseWriter, r *http.Request) {
			f, err := os.Open(filepath.Join(dist, r.URL.Path))
			if err != nil {
				http.Error(w, err.Error(), http.StatusNotFound)
				return
			}
			defer f.Close()
			w.Header().Set("Content-Type", kind)
			w.Header().Set("Content-Encoding", encoding)
			var body io.Reader = f
			if encoding == "identity" {
				if body, err = gzip.NewReader(f); err != nil {
					http.Error(w, err.Error(), http.StatusInternalServerError)
					return
				}
			}
			io.Copy(w, body)
		}
	}
	for name, core := range map[string]http.HandlerFunc{
		"unpacked by the browser": send("gzip", "application/wasm"), // as where ".gz" is taken for an encoding
		"unpacked by the server":  send("identity", "application/octet-stream"),
	} {
		t.Run(name, func(t *testing.T) {
			p := chrome.Open(t, serveWith(t, core))
			p.Wait(settled)
			assert.NotEmpty(t, p.Text("springrib-verdict h1"))
		})
	}
}

func TestACoreThatIsMissingIsSaidAndTriedAgain(t *testing.T) {
	missing := true
	p := chrome.Open(t, serveWith(t, func(w http.ResponseWriter, r *http.Request) {
		if missing {
			http.NotFound(w, r)
			return
		}
		http.ServeFile(w, r, filepath.Join(dist, r.URL.Path))
	}))
	p.Wait(state + `.notice`)
	notice := Eval[string](p, state+`.notice`)
	assert.Contains(t, notice, "the server answers 404 for the core")
	assert.Contains(t, notice, "What you typed is kept")
	for _, line := range p.Console() {
		assert.Contains(t, line, "404", "the browser's own word for a missing file, and nothing else")
	}
	missing = false
	p.Go(Eval[string](p, "location.href"))
	p.Wait(settled)
}

func TestThePageWorksInASandboxedFrameWithoutStorage(t *testing.T) {
	page, err := os.ReadFile(filepath.Join(dist, "springrib.html"))
	require.NoError(t, err)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/frame" {
			w.Header().Set("Content-Security-Policy", "sandbox allow-scripts") // an origin of its own, and no storage
			w.Write(page)
			return
		}
		w.WriteHeader(http.StatusNoContent)
	}))
	t.Cleanup(server.Close)
	p := chrome.Open(t, server.URL+"/frame")
	p.Wait(settled)
	assert.Equal(t, "null", Eval[string](p, "origin"))
	assert.NotEmpty(t, p.Text("springrib-verdict h1"))
}
