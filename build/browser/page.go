package browser

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// Void is the value of a script that has none.
type Void = chromedp.Void

// state is the page's state, to a script.
const state = `document.querySelector('springrib-page').state`

// patience is how long anything may take before the test gives up on it.
const patience = 30 * time.Second

// Page is one tab with storage of its own. Its methods fail the test when the page
// does not do as asked.
type Page struct {
	browser   *Browser
	t         testing.TB
	ctx       context.Context
	cancel    context.CancelFunc
	downloads string

	mu       sync.Mutex
	console  []string
	seen     chan string // sentinels as they pass
	finished bool
}

// Open opens url in a fresh tab. When the test ends the tab is closed, and whatever
// went wrong on its console fails the test.
func (b *Browser) Open(t testing.TB, url string) *Page {
	t.Helper()
	p := b.Blank(t)
	p.Go(url)
	return p
}

// Blank opens an empty tab, for a test that sets things up before the page comes.
func (b *Browser) Blank(t testing.TB) *Page {
	t.Helper()
	return b.blank(t, chromedp.WithNewBrowserContext())
}

// Beside opens url in a second tab that shares the storage of the first.
func (p *Page) Beside(url string) *Page {
	p.t.Helper()
	other := p.browser.blank(p.t, chromedp.WithExistingBrowserContext(chromedp.FromContext(p.ctx).BrowserContextID))
	other.Go(url)
	return other
}

func (b *Browser) blank(t testing.TB, options ...chromedp.ContextOption) *Page {
	t.Helper()
	ctx, cancel := chromedp.NewContext(b.ctx, options...)
	p := &Page{browser: b, t: t, ctx: ctx, cancel: cancel, downloads: t.TempDir(), seen: make(chan string, 1)}
	t.Cleanup(p.Close)
	p.must(chromedp.Do(ctx))
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			p.hear(m)
		}
	}()
	_, err := chromedp.Call(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior:         browser.SetDownloadBehaviorBehaviorAllowAndName,
		BrowserContextID: chromedp.FromContext(ctx).BrowserContextID,
		DownloadPath:     p.downloads,
		EventsEnabled:    new(true),
	})
	p.must(err)
	p.Resize(1280, 900)
	return p
}

// Go navigates to url.
func (p *Page) Go(url string) {
	p.t.Helper()
	p.do(chromedp.Navigate(url))
}

func (p *Page) must(err error) {
	if err != nil {
		p.t.Helper()
		p.t.Fatal(err)
	}
}

func (p *Page) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	p.must(chromedp.Do(ctx, steps...))
}

const sentinel = "the console up to here: "

// driver is what the drivers of graphics cards say of their speed, for instance when a
// picture is read back.
const driver = "GL Driver Message (OpenGL, Performance"

// hear keeps what went wrong. Warnings are kept too: the page gives no cause for any.
func (p *Page) hear(m chromedp.ConsoleMessage) {
	if strings.HasPrefix(m.Text, sentinel) {
		p.seen <- m.Text
		return
	}
	if strings.Contains(m.Text, driver) {
		return
	}
	switch m.Type {
	case chromedp.ConsoleError, chromedp.ConsoleException, chromedp.ConsoleWarning:
		p.mu.Lock()
		defer p.mu.Unlock()
		p.console = append(p.console, m.String())
	}
}

// Console returns the errors and warnings so far and forgets them, for a test that
// expects one.
func (p *Page) Console() []string {
	p.t.Helper()
	Eval[Void](p, "console.debug("+quote(sentinel)+")")
	select {
	case <-p.seen:
	case <-time.After(patience):
		p.t.Fatal("the console went silent")
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	was := p.console
	p.console = nil
	return was
}

// Close closes the tab, as the end of the test does too, and fails the test for
// everything that is left on the console.
func (p *Page) Close() {
	if p.finished {
		return
	}
	p.finished = true
	defer p.cancel()
	if p.t.Failed() {
		p.Screenshot("failed")
	}
	for _, line := range p.Console() {
		p.t.Errorf("on the console: %s", line)
	}
}

// Eval evaluates a JavaScript expression; a promise is waited for.
func Eval[T any](p *Page, expression string) T {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%v\nin %s", err, expression)
	}
	return v
}

// Wait waits until a JavaScript expression is truthy, looking once a frame.
func (p *Page) Wait(expression string) {
	p.t.Helper()
	Eval[bool](p, `(async () => { while (!(`+expression+`)) await new Promise(requestAnimationFrame); return true })()`)
}

// find is JavaScript: every element that fits a selector, in the document and in every
// open shadow root; the control that a label names; what a button says.
const find = `(() => {
  const all = (selector, root = document) => [...root.querySelectorAll('*')].flatMap((e) =>
    [...(e.matches(selector) ? [e] : []), ...(e.shadowRoot ? all(selector, e.shadowRoot) : [])]);
  const said = (e) => (e?.textContent ?? '').replace(/\s+/g, ' ').trim();
  const named = (e) => e.getAttribute('aria-label') || (e.getAttribute('aria-labelledby') ?? '').split(/\s+/)
    .map((id) => id && said(e.getRootNode().getElementById(id))).join(' ').trim() ||
    [...(e.labels ?? [])].map(said).join(' ') || (e.matches('button, a, summary') ? said(e) : '');
  const shown = (e) => e.checkVisibility({ visibilityProperty: true });
  const modal = () => [...document.querySelectorAll('dialog:modal')].at(-1); // what lies under it is out of reach
  const one = (selector, name) => {
    const fit = all(selector, modal()).filter((e) => shown(e) && (named(e) === name));
    if (fit.length === 1) return fit[0];
    const have = all(selector).filter(shown).map(named).join(' | ');
    throw new Error(fit.length + ' of ' + selector + ' named "' + name + '" among: ' + have);
  };
  return { all, said, named, shown, one };
})()`

const fields = "input, select, textarea"

const buttons = "button, a[href], summary, [role=button], [role=tab]"

// Fill replaces what is in the field of that label by typing, and leaves the field.
func (p *Page) Fill(label, text string) {
	p.t.Helper()
	p.focus(label)
	keys := text
	if keys == "" {
		keys = kb.Delete
	}
	p.do(chromedp.KeyEvent(keys), chromedp.KeyEvent(kb.Tab))
}

// Paste puts a whole text into the field of that label at once, and leaves the field.
func (p *Page) Paste(label, text string) {
	p.t.Helper()
	p.focus(label)
	_, err := chromedp.Call(p.ctx, input.InsertText, input.InsertTextParams{Text: text})
	p.must(err)
	p.Key(kb.Tab)
}

// focus goes to the field of that label and selects what is in it.
func (p *Page) focus(label string) {
	p.t.Helper()
	Eval[Void](p, `(() => { const e = `+find+`.one(`+quote(fields)+`, `+quote(label)+`); e.scrollIntoView({block: 'center', behavior: 'instant'}); e.focus(); e.select() })()`)
}

// Value returns what is in the field of that label.
func (p *Page) Value(label string) string {
	p.t.Helper()
	return Eval[string](p, find+`.one(`+quote(fields)+`, `+quote(label)+`).value`)
}

// Choose picks an option, by its words, in the list or among the buttons of that label.
func (p *Page) Choose(label, option string) {
	p.t.Helper()
	Eval[Void](p, `(() => {
  const f = `+find+`, label = `+quote(label)+`, option = `+quote(option)+`;
  const group = f.all('[role=radiogroup]').find((e) => f.shown(e) && f.named(e) === label);
  if (group) {
    const radio = [...group.querySelectorAll('input[type=radio]')].find((e) => f.named(e) === option);
    if (!radio) throw new Error('no ' + option + ' in ' + f.said(group));
    radio.click();
    return;
  }
  const list = f.one('select', label);
  const at = [...list.options].findIndex((o) => f.said(o) === option);
  if (at < 0) throw new Error('no ' + option + ' in ' + f.said(list));
  list.selectedIndex = at;
  list.dispatchEvent(new Event('input', { bubbles: true }));
  list.dispatchEvent(new Event('change', { bubbles: true }));
})()`)
}

// standing brings an element into sight and returns its middle once that has kept its place
// for three frames: in the first after a window changed its size nothing has moved yet.
const standing = `(async (e) => {
  e.scrollIntoView({ block: 'center', behavior: 'instant' });
  const middle = () => { const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2] };
  let at = middle();
  for (let same = 0; same < 3;) {
    await new Promise(requestAnimationFrame);
    const now = middle();
    same = String(now) === String(at) ? same + 1 : 0;
    at = now;
  }
  return at;
})`

// Press clicks the button, link or summary with these words, with the mouse. A button
// that something else lies on can't be pressed. One that moved away from under the mouse,
// as when a sentence is shown above it, is aimed at again, as a person would.
func (p *Page) Press(words string) {
	p.t.Helper()
	for range 5 {
		at := Eval[[2]float64](p, `(async () => {
  const f = `+find+`, e = f.one(`+quote(buttons)+`, `+quote(words)+`);
  const at = await `+standing+`(e);
  const top = e.getRootNode().elementFromPoint(...at);
  if (!e.contains(top)) throw new Error(`+quote(words)+` + ' lies under ' + top?.outerHTML.slice(0, 200));
  document.pressed = 'nothing';
  addEventListener('click', (click) => { document.pressed = click.composedPath().includes(e) ? 'it' : 'nothing' }, { capture: true, once: true });
  return at;
})()`)
		p.do(chromedp.MouseClickXY(at[0], at[1]))
		if Eval[string](p, `String(document.pressed)`) != "nothing" { // a page that it leads to knows of none
			return
		}
	}
	p.t.Fatalf("%s moves away from under the mouse", words)
}

// Key presses keys of the keyboard where the focus is.
func (p *Page) Key(keys string, modifiers ...chromedp.Modifier) {
	p.t.Helper()
	p.do(chromedp.KeyEvent(keys, chromedp.KeyModifiers(modifiers...)))
}

// Text returns the visible words of everything that fits a selector.
func (p *Page) Text(selector string) string {
	p.t.Helper()
	return Eval[string](p, `(() => { const f = `+find+`; return f.all(`+quote(selector)+`).filter(f.shown).map(f.said).join('\n') })()`)
}

// Upload gives files to the file input that fits a selector.
func (p *Page) Upload(selector string, files ...string) {
	p.t.Helper()
	p.do(chromedp.SetUploadFiles(chromedp.CSS(selector), files))
}

// Download does what starts a download and returns the file that comes of it.
func (p *Page) Download(start func()) (name string, content []byte) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	begun := chromedp.Events(ctx, browser.DownloadWillBegin)
	progress := chromedp.Events(ctx, browser.DownloadProgress)
	start()
	guid := ""
	for e, err := range begun {
		if err != nil {
			p.t.Fatalf("no download began: %v; the page says %q", err, Eval[string](p, `document.pressed + ', ' + `+state+`.notice`))
		}
		name, guid = e.SuggestedFilename, e.GUID
		break
	}
	for e, err := range progress {
		p.must(err)
		if e.GUID == guid && e.State == browser.DownloadProgressStateCompleted {
			break
		}
		if e.GUID == guid && e.State == browser.DownloadProgressStateCanceled {
			p.t.Fatalf("the download of %s was cancelled", name)
		}
	}
	content, err := os.ReadFile(filepath.Join(p.downloads, guid))
	p.must(err)
	return name, content
}

// Resize sets the size of the window; a width under 600 is a phone with touch.
func (p *Page) Resize(width, height int64) {
	p.t.Helper()
	if width < 600 {
		p.do(chromedp.EmulateViewport(width, height, chromedp.EmulateMobile, chromedp.EmulateTouch, chromedp.EmulatePortrait))
	} else {
		p.do(chromedp.EmulateViewport(width, height))
	}
	// What measures itself is drawn anew in the frames after.
	Eval[Void](p, `(async () => { for (let i = 0; i < 3; i++) await new Promise((done) => { requestAnimationFrame(done); setTimeout(done, 500) }) })()`)
}

// media makes a media feature have a value and waits for the page to come to rest.
func (p *Page) media(name, value string) {
	p.t.Helper()
	_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: name, Value: value}},
	})
	p.must(err)
	Eval[Void](p, "Promise.allSettled(document.getAnimations().map((a) => a.finished))")
}

// BeforePage runs a script in each page that is opened from now on, before its own.
func (p *Page) BeforePage(script string) {
	p.t.Helper()
	_, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
	p.must(err)
}

// Screenshot saves a picture of the whole page under the folder that the variable
// SPRINGRIB_PICTURES names; without it, of failed tests only, in the temporary folder.
func (p *Page) Screenshot(name string) { p.picture(name, chromedp.FullScreenshot(100)) }

// View saves a picture of what the window shows, where Screenshot would.
func (p *Page) View(name string) { p.picture(name, chromedp.CaptureScreenshot()) }

func (p *Page) picture(name string, take chromedp.Action[[]byte]) {
	dir := os.Getenv("SPRINGRIB_PICTURES")
	if dir == "" {
		if !p.t.Failed() {
			return
		}
		dir = filepath.Join(os.TempDir(), "springrib-pictures")
	}
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	picture, err := chromedp.Run(ctx, take)
	if err == nil {
		err = os.MkdirAll(dir, 0o755)
	}
	file := filepath.Join(dir, strings.NewReplacer("/", "-", " ", "-").Replace(p.t.Name()+"-"+name)+".png")
	if err == nil {
		err = os.WriteFile(file, picture, 0o644)
	}
	if err != nil {
		p.t.Logf("no picture: %v", err)
		return
	}
	p.t.Logf("picture: %s", file)
}

// quote writes s as a JavaScript literal.
func quote(s string) string {
	out, err := json.Marshal(s)
	if err != nil {
		panic(err) // a string can always be written
	}
	return string(out)
}
