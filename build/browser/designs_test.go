package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// keptNames is the names of the designs that the browser keeps, in order.
const keptNames = state + `.kept.designs().map((d) => d.name).sort()`

// rename types a name into the head of the page.
func (p *Page) rename(name string) {
	p.t.Helper()
	p.Fill("Name of the design", name)
	p.Wait(settled)
}

func TestUndoGoesOnAfterAReload(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		was := p.Value("Name of the design")
		p.rename("Pier lamp")
		p.rename("Pier lamp, wider")
		p.Go("about:blank")
		p.Go(url)
		p.Wait(settled)
		assert.Equal(t, "Pier lamp, wider", p.Value("Name of the design"))
		p.Press("Undo")
		assert.Equal(t, "Pier lamp", p.Value("Name of the design"))
		p.Key("z", chromedp.ModifierCtrl)
		assert.Equal(t, was, p.Value("Name of the design"))
		p.Press("Redo")
		assert.Equal(t, "Pier lamp", p.Value("Name of the design"))
	})
}

// What a crash leaves is what lies in the store while nobody has left the page.
func TestTypingIsKeptWithoutLeavingThePage(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		p.Paste("Name of the design", "before the crash")
		p.Wait(`Object.keys(localStorage).some((k) => localStorage[k].includes('before the crash'))`)
	})
}

func TestSeveralDesignsByName(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		p.rename("Pier lamp")
		p.fresh()
		p.rename("Shelf front")
		p.Press("Designs")
		assert.Equal(t, []string{"Pier lamp", "Shelf front"}, Eval[[]string](p, keptNames))
		assert.Empty(t, p.Violations(), "the list of designs")
		p.Screenshot("list")
		p.Press("Rename Pier lamp")
		p.Fill("New name of Pier lamp", "Quay lamp")
		p.Press("Rename")
		assert.Equal(t, []string{"Quay lamp", "Shelf front"}, Eval[[]string](p, keptNames))

		p.Press("Delete Shelf front")
		assert.Equal(t, []string{"Quay lamp"}, Eval[[]string](p, keptNames))
		p.Press("Close")
		p.Wait(settled)
		assert.Equal(t, "Quay lamp", p.Value("Name of the design"), "the next one is shown")
		p.Press("Bring it back")
		p.Wait(settled)
		assert.Equal(t, "Shelf front", p.Value("Name of the design"))

		p.Press("Designs")
		p.Press("Delete Quay lamp")
		p.Go("about:blank")
		p.Go(url)
		p.Wait(settled)
		assert.Equal(t, "Shelf front", p.Value("Name of the design"))
		p.Press("Designs")
		p.Press("Bring it back")
		p.Wait(settled)
		assert.Equal(t, "Quay lamp", p.Value("Name of the design"), "also after a reload")
	})
}

func TestTheListOfDesignsByKeyboard(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.rename("Pier lamp")
	Eval[Void](p, find+`.one('button', 'Designs').focus()`)
	p.Key("\r")
	p.Wait(`document.querySelector('dialog.kept[open]')`)
	for range 12 {
		p.Key("\t")
		assert.True(t, Eval[bool](p, `document.activeElement === document.body || document.querySelector('dialog').contains(document.activeElement)`), "the list holds the keyboard")
	}
	p.Press("Rename Pier lamp")
	p.Wait(`document.activeElement.id === 'new-name'`)
	p.Key("\x1b")
	p.Wait(`document.activeElement.matches('dialog[open] li .open')`)
	p.Key("\x1b")
	p.Wait(`!document.querySelector('dialog[open]')`)
	assert.Equal(t, "Designs", Eval[string](p, `document.activeElement.textContent`), "and gives it back")
}

// fill leaves no room in the store.
const fill = `(() => { let text = 'x'.repeat(1 << 22); for (let i = 0; text.length > 0; ) {
  try { localStorage.setItem('of another page ' + i++, text) } catch { text = text.slice(0, text.length >> 1) } } })()`

func TestAFullStoreIsSaidAndOffersTheFile(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		p.rename("Pier lamp")
		p.Wait(keptNames + `.includes('Pier lamp')`)
		Eval[Void](p, fill)
		// Longer than what it takes the place of, however much of the history is left out.
		Eval[Void](p, set("notes", strings.Repeat("long ", 2000)))
		p.Wait(state + `.notice`)
		assert.Contains(t, p.Text(".notice"), "no room left")
		_, content := p.Download(func() { p.Press("Save to a file") })
		assert.Contains(t, string(content), "long long long")
		assert.True(t, Eval[bool](p, state+`.kept.unkept`), "leaving the page asks first")

		Eval[Void](p, `for (const k of Object.keys(localStorage)) if (k.startsWith('of another')) localStorage.removeItem(k)`)
		p.rename("Pier lamp, kept")
		p.Wait(`!` + state + `.kept.unkept && ` + keptNames + `.includes('Pier lamp, kept')`)
	})
}

func TestTwoWindowsOnOneDesign(t *testing.T) {
	url := Serve(t, dist)
	p := chrome.Open(t, url)
	p.Wait(settled)
	p.rename("ours")
	p.Wait(keptNames + `.includes('ours')`)
	other := p.Beside(url)
	other.Wait(settled)
	assert.Equal(t, "ours", other.Value("Name of the design"))
	Eval[Void](other, set("name", "by the other"))
	// The window behind draws no frames; it hears all the same.
	Eval[bool](p, `(async () => { while (`+state+`.doc.name !== 'by the other') await new Promise((next) => setTimeout(next, 20)); return true })()`)
	require.Equal(t, []string{"by the other"}, Eval[[]string](p, keptNames))
}
