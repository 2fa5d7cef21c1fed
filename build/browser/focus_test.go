package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// covered says how what has the keyboard is covered by what sticks to the window's edges:
// its name and by how much, or "" when all of it that fits is in the open.
const covered = `(() => {
  const e = document.activeElement, page = document.querySelector('springrib-page');
  if (!e || e === document.body) return '';
  const r = e.getBoundingClientRect();
  const stuck = [page.querySelector(':scope > header'), page.querySelector('springrib-verdict'), page.querySelector('springrib-benchbar'), page.querySelector(':scope > .notice')]
    .filter((s) => s && getComputedStyle(s).position === 'sticky');
  const open = innerHeight - stuck.reduce((sum, s) => sum + s.offsetHeight, 0) - 20;
  for (const s of stuck) {
    if (s.contains(e)) continue;
    const b = s.getBoundingClientRect();
    if (b.height === 0 || r.right <= b.left || r.left >= b.right) continue;
    const over = Math.min(r.bottom, b.bottom) - Math.max(r.top, b.top);
    if (over > 1 && (r.height < open || over > r.height - 40)) return (e.getAttribute('aria-label') || e.textContent || e.id).trim() + ' under ' + s.localName + '.' + s.className + ' by ' + over;
  }
  return '';
})()`

// W3C, Web Content Accessibility Guidelines 2.2, success criterion 2.4.11 (and its
// stricter sister 2.4.12): what has the keyboard focus is not hidden by other content.
func TestNothingFocusedHidesUnderTheVerdict(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	// Warnings with buttons, and a notice at the bottom.
	Eval[Void](p, `(() => { `+set("panel.spacing", "count")+`; `+set("panel.count", "18")+`; `+set("machine.bedWidth", "150")+`; `+state+`.say('Something to put away.') })()`)
	p.Wait(settled)
	for _, width := range []int64{390, 600, 768, 900, 1024, 1440} {
		p.Resize(width, 680)
		p.Wait(settled)
		// Back from the last thing on the page: each stop is scrolled in from above, where the
		// verdict sticks; then on again, where the notice does.
		Eval[Void](p, `(() => { const all = [...document.querySelectorAll('springrib-bench button')]; all.at(-1).focus(); scrollTo({ top: document.documentElement.scrollHeight, behavior: 'instant' }) })()`)
		seen := map[string]bool{}
		for i := range 90 {
			if i < 60 {
				p.Key(kb.Tab, chromedp.ModifierShift)
			} else {
				p.Key(kb.Tab)
			}
			seen[Eval[string](p, `(document.activeElement.localName + document.activeElement.textContent + document.activeElement.id)`)] = true
			require.Empty(t, Eval[string](p, covered), "at %d, stop %d", width, i)
		}
		assert.Greater(t, len(seen), 25, strconv.Itoa(int(width)))
	}
}
