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

// Whatever the window, the first screen has the verdict, what to do about it, the thing itself
// and the way to the bench, and head and verdict take about a quarter of the height at most.
func TestTheFirstScreenHasWhatMatters(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Scheme("light")
	p.Wait(settled)
	inSpace(p)
	for _, size := range [][2]int64{{1440, 900}, {1024, 600}, {390, 844}, {844, 390}} {
		p.Resize(size[0], size[1])
		p.Wait(settled)
		type seen struct {
			What        string
			Top, Bottom float64
		}
		assert.LessOrEqual(t, Eval[float64](p, `document.querySelector('springrib-space').getBoundingClientRect().top`), 0.26*float64(size[1]), "head and verdict at %v", size)
		for _, s := range Eval[[]seen](p, `Object.entries({ verdict: 'springrib-verdict h1', chance: '.sentence', remedy: '.first-finding button', thing: 'springrib-space canvas', bench: 'springrib-benchbar button' })
  .map(([What, where]) => { const r = document.querySelector(where).getBoundingClientRect(); return { What, Top: r.top, Bottom: r.bottom } })`) {
			assert.GreaterOrEqual(t, s.Top, 0.0, "%s at %v", s.What, size)
			assert.LessOrEqual(t, s.Bottom, float64(size[1])+1, "%s at %v", s.What, size)
			if s.What == "thing" {
				assert.Greater(t, s.Bottom-s.Top, float64(size[1])*0.3, "the thing at %v", size)
			}
		}
		assert.Equal(t, "Take it to the bench", p.Text("springrib-benchbar button"))
		p.View(p.size())
	}
	p.Press("Take it to the bench")
	p.Wait(`(() => { const r = document.querySelector('.files .whole').getBoundingClientRect(); return r.top > 0 && r.bottom < innerHeight })()`)
}

// The typeface of the page is its own, served and from disk, for figures of every weight.
func TestThePageIsSetInItsOwnTypeface(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		got := Eval[[]string](p, `document.fonts.ready.then(() => [...document.fonts].filter((f) => f.status === 'loaded').map((f) => f.weight).sort())`)
		assert.Equal(t, []string{"400", "500", "700"}, got)
	})
}
