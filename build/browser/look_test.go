package browser

import (
	"net/http"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// textOff is the text of the elements of a selector that starts nearer than 10 px to the
// edge of the window.
const textOff = `(selector) => [...document.querySelectorAll(selector)].filter((e) => {
  const r = document.createRange();
  r.selectNodeContents(e);
  return e.textContent.trim() && e.checkVisibility() && r.getBoundingClientRect().left < 10;
}).map((e) => e.textContent)`

// Until the core has answered the page says that it gets ready, away from the edge of the
// window, and nothing of what a design lacks.
func TestWhileThePageStarts(t *testing.T) {
	wait := make(chan struct{})
	p := chrome.Open(t, serveWith(t, func(w http.ResponseWriter, r *http.Request) {
		<-wait
		http.ServeFile(w, r, filepath.Join(dist, r.URL.Path))
	}))
	p.Wait(`document.querySelector('springrib-page .empty')`)
	for _, width := range []int64{390, 1440} {
		p.Resize(width, 900)
		assert.Empty(t, Eval[[]string](p, `(`+textOff+`)('main p, main h1, main h2')`), "at %d", width)
	}
	assert.NotContains(t, p.Text("main"), "as soon as")
	close(wait)
	p.Wait(settled)
}

// On a narrow screen drawings are looked at one by one: each fills the room there is,
// however large the others are.
func TestEachDrawingFillsANarrowScreen(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.Resize(390, 844)
	for _, change := range []string{`{}`, `{ 'panel.width': '590' }`} {
		changeAll(p, change)
		p.Wait(settled)
		for _, id := range []string{"bent", "flat"} {
			filled := Eval[float64](p, `(() => { const d = document.querySelector('#drawing-`+id+`'), [, , w, h] = d.view.box, free = 2 * 30;
  return Math.max(w * d.scale / ((innerWidth - 32) * .93 - free), h * d.scale / (innerHeight * .44 - 30 - free)) })()`)
			assert.InDelta(t, 1, filled, 0.12, "%s with %s", id, change)
		}
	}
}

// The name of a drawing lies on no part of it.
func TestNamesOfDrawingsLieBesideThem(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	for _, n := range examplesOf(p) {
		takeExample(p, n)
		for _, width := range []int64{1100, 1440, 2560} {
			p.Resize(width, 900)
			p.Wait(settled)
			on := Eval[[]string](p, `[...document.querySelectorAll('springrib-stage springrib-drawing')].filter((d) => {
  const words = document.createRange();
  words.selectNodeContents(d.querySelector('figcaption'));
  const a = words.getBoundingClientRect();
  return [...d.querySelectorAll('.ink, .grip .knob')].some((e) => { const b = e.getBoundingClientRect(); return a.right > b.left && b.right > a.left && a.bottom > b.top && b.bottom > a.top });
}).map((d) => d.id)`)
			assert.Empty(t, on, "%s at %d", n, width)
		}
	}
}

// What is said beside the slide that bends the panel doesn't change how long the slide is:
// else the thumb would leave the hand.
func TestTheSlideKeepsItsLength(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	takeExample(p, "lantern-case")
	p.Wait(`document.querySelector('#bend-slide')`)
	for _, width := range []int64{390, 1024, 1440} {
		p.Resize(width, 844)
		p.Wait(settled)
		long := map[float64]bool{}
		for _, at := range []string{"0", "30", "500", "999", "1000"} {
			long[Eval[float64](p, `(async () => { const e = document.querySelector('#bend-slide'); e.value = `+at+`; e.dispatchEvent(new Event('input', { bubbles: true }));
  await document.querySelector('springrib-space').updateComplete; return e.getBoundingClientRect().width })()`)] = true
		}
		assert.Len(t, long, 1, "at %d", width)
	}
}

// A warning that offers nothing to press still has its place found: by the keyboard, and
// with a finger, which lights it until it touches something else.
func TestThePlaceOfAWarningIsFoundWithoutAMouse(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	takeExample(p, "chart-rest")
	place := `document.querySelector('springrib-page').state.focus.score`
	p.Press("Show where")
	require.Greater(t, Eval[int](p, place+` ?? 0`), 0)
	p.Wait(`(() => { const r = document.querySelector('#drawing-bent .lit').getBoundingClientRect(); return r.top > 0 && r.bottom < innerHeight })()`)
	p.Key(kb.Tab)
	assert.Zero(t, Eval[int](p, place+` ?? 0`))

	p.Resize(390, 844)
	p.Wait(settled)
	at := Eval[[2]float64](p, `(() => { const e = document.querySelector('.first-finding p'); e.scrollIntoView({ block: 'center', behavior: 'instant' }); const r = e.getBoundingClientRect(); return [r.x + 40, r.y + 12] })()`)
	p.Swipe(at[0], at[1], 0, 0)
	assert.Greater(t, Eval[int](p, place+` ?? 0`), 0)
}

// Figures stay on one line with their unit, and fractions with their whole.
func TestFiguresOfACardStayWhole(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.Choose("Units", "in")
	p.Wait(settled)
	torn := Eval[[]string](p, `[...document.querySelectorAll('.card-head .sentence, .sentence, .finding p, .figures dd')].map((e) => e.textContent).filter((s) => /\d (mm|in\b|%|\d+\/\d)/.test(s))`)
	assert.Empty(t, torn)
}

// On paper notes are read, not unfolded, and nothing stands there that only unfolds.
func TestNotesAreOnPaper(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	note := Eval[string](p, `document.querySelector('springrib-page').state.asked.plan.findings.find((f) => f.severity === 'note').text`)
	paper := p.printed()
	assert.Contains(t, plain(paper), plain(note))
	assert.NotContains(t, plain(paper), plain("pass counts work"))
}

// Each small drawing belongs to a field that there is; of a choice there is one for each
// option, and the one that is chosen stands out.
func TestWeakWordsAreDrawn(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	Eval[Void](p, `(() => { const s = `+state+`; s.asked.controls.cards.forEach((c) => s.open.has(c.id) || s.toggle(c.id)) })()`)
	p.Wait(`document.querySelector('springrib-card:last-of-type springrib-field')`)
	type drawn struct {
		Path          string
		Tiles, Chosen int
		Options       int
		Hit           bool
	}
	all := Eval[[]drawn](p, `[...document.querySelectorAll('springrib-field:has(.sketches)')].map((f) => { const tiles = [...f.querySelectorAll('.sketches svg')], options = f.control.choices ?? [];
  const out = tiles.findIndex((e) => !e.classList.contains('other'));
  return { Path: f.control.path, Tiles: tiles.length, Chosen: out, Options: options.length, Hit: options[out]?.value === `+state+`.effective(f.control.path) } })`)
	assert.GreaterOrEqual(t, len(all), 14)
	for _, d := range all {
		if d.Tiles > 1 {
			assert.Equal(t, d.Options, d.Tiles, d.Path)
			assert.True(t, d.Hit, d.Path)
		}
	}
	strangers := Eval[[]string](p, `(() => { const s = `+state+`, real = new Set(s.asked.controls.controls.map((c) => c.path)); return [...document.querySelectorAll('springrib-field:has(.sketches)')].map((f) => f.control.path).filter((p) => !real.has(p)) })()`)
	assert.Empty(t, strangers)
	p.Choose("Score the", "Round side")
	p.Wait(settled)
	assert.True(t, Eval[bool](p, `[...document.querySelectorAll('springrib-field')].find((f) => f.control.path === 'panel.scoredFace').querySelectorAll('.sketches svg')[0].classList.contains('other')`))
	for _, scheme := range []string{"light", "dark"} {
		p.Scheme(scheme)
		assert.Empty(t, p.Violations(), scheme)
	}
}

// A fraction is part of its figure: no window hides it where the whole number is seen.
func TestFractionsAreSeenInEveryWindow(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	takeExample(p, "lantern-case")
	p.Choose("Units", "in")
	p.Wait(settled)
	require.NotEmpty(t, Eval[[]string](p, `[...document.querySelectorAll('springrib-benchbar .frac')].map((e) => e.textContent)`), "the sheet is no whole inches wide")
	for _, size := range sizes {
		p.Resize(size[0], size[1])
		p.Wait(settled)
		assert.Empty(t, Eval[[]string](p, `[...document.querySelectorAll('.frac')].filter((e) => e.parentElement.checkVisibility() && !e.checkVisibility()).map((e) => e.parentElement.textContent)`), "at %v", size)
	}
}
