// Package browser drives the built page in Chromium as a person would: it opens it from
// a plain server or from disk, types into fields by their labels, presses buttons by
// their words and saves files. Any error on the console fails the test.
package browser

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Browser is one running Chromium; every Page in it has storage of its own.
type Browser struct {
	ctx    context.Context
	cancel context.CancelFunc
}

// Start starts Chromium. Close ends it.
func Start() (*Browser, error) {
	exe, err := chromium()
	if err != nil {
		return nil, err
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(exe),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-domain-reliability", true),
		chromedp.Flag("no-pings", true),
		chromedp.Flag("enable-unsafe-swiftshader", true),    // the view in space, drawn without a graphics card
		chromedp.Flag("force-prefers-reduced-motion", true), // where the picture of a bend takes as long as a test
		// The page must work alone in the world: no other host can even be found.
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"),
	)
	allocator, cancelAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, cancelBrowser := chromedp.NewContext(allocator)
	cancel := func() { cancelBrowser(); cancelAllocator() }
	if err := chromedp.Do(ctx); err != nil {
		cancel()
		return nil, fmt.Errorf("%s does not start: %w", exe, err)
	}
	return &Browser{ctx, cancel}, nil
}

// Close ends the browser.
func (b *Browser) Close() { b.cancel() }

// chromium finds the browser by the names that systems give it.
func chromium() (string, error) {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if exe, err := exec.LookPath(name); err == nil {
			return exe, nil
		}
	}
	return "", fmt.Errorf("the browser tests need Chromium; on Debian: apt-get install chromium")
}

// BuildPage builds the page into dir with the build program of this repository.
func BuildPage(dir string) error {
	cmd := exec.Command("go", "run", "springrib/build", "-quick", "-out", dir)
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("the page does not build: %w\n%s", err, out)
	}
	return nil
}

// Serve serves dir on a loopback address as the plainest of servers does: nothing is
// compressed and every file that is not a page, a script or a style is called text.
func Serve(t testing.TB, dir string) (url string) {
	t.Helper()
	files := http.FileServer(http.Dir(dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch filepath.Ext(r.URL.Path) {
		case "", ".html", ".js", ".css":
		default:
			w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		}
		files.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	return server.URL + "/"
}

// OnDisk returns the address of the single-file page in dir, copied to where nothing
// else lies beside it.
func OnDisk(t testing.TB, dir string) (url string) {
	t.Helper()
	page, err := os.ReadFile(filepath.Join(dir, "springrib.html"))
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "a bench's page.html")
	if err := os.WriteFile(file, page, 0o644); err != nil {
		t.Fatal(err)
	}
	return "file://" + strings.ReplaceAll(file, " ", "%20")
}
