package browser

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The tests share one build of the page and one browser.
var (
	chrome *Browser
	dist   string
)

func TestMain(m *testing.M) { os.Exit(testMain(m)) }

func testMain(m *testing.M) int {
	dir, err := os.MkdirTemp("", "springrib-dist")
	if err == nil {
		defer os.RemoveAll(dir)
		dist = dir
		err = BuildPage(dir)
	}
	if err == nil {
		chrome, err = Start()
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer chrome.Close()
	return m.Run()
}

// bothWays runs a test on the served page and on the single file from disk.
func bothWays(t *testing.T, test func(t *testing.T, url string)) {
	t.Run("served", func(t *testing.T) { test(t, Serve(t, dist)) })
	t.Run("from disk", func(t *testing.T) { test(t, OnDisk(t, dist)) })
}

// settled is true once the core has answered everything that the page asked of it.
const settled = `(() => { const s = document.querySelector('springrib-page')?.state; return s?.asked.controls && s.asked.core.idle })()`

func TestThePageOpensAndTheCoreAnswers(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		assert.NotEmpty(t, p.Text("springrib-verdict"))
		p.Screenshot("open")
	})
}

// Axe-core holds the page against the Web Content Accessibility Guidelines of the W3C
// and some rules of good practice.
func TestThePageIsAccessible(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	for _, width := range []int64{390, 1440} {
		p.Resize(width, 900)
		for _, scheme := range []string{"light", "dark"} {
			p.Scheme(scheme)
			assert.Empty(t, p.Violations(), "%s at %d", scheme, width)
			p.Screenshot(fmt.Sprintf("%s-%d", scheme, width))
		}
	}
}
