package browser

import (
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	things "springrib/internal/design"
)

// fresh begins with an empty bench.
func (p *Page) fresh() {
	p.t.Helper()
	p.Press("New")
	p.Wait(`document.querySelector('dialog.new')?.open`)
	p.Press("an empty bench")
	p.Wait(settled)
}

// shelf opens the shelf of a new design.
func (p *Page) shelf() {
	p.t.Helper()
	p.Press("New")
	p.Wait(`document.querySelector('dialog.new')?.open && document.querySelector('dialog.new .beside')`)
}

func TestTheShelfIsWalkedWithArrowsAndTakenWithEnter(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		p.shelf()
		for _, thing := range things.Things() {
			assert.Equal(t, thing.Name, p.Text(".beside h3"))
			assert.Contains(t, p.Text(".new-verdict"), "Sound.")
			assert.NotEmpty(t, Eval[string](p, `document.querySelector('.beside .small-thing path').getAttribute('d')`))
			p.Key(kb.ArrowRight)
		}
		p.Key(kb.ArrowRight)
		p.Key(kb.Enter)
		p.Wait(settled)
		assert.Equal(t, "Tray", Eval[string](p, state+`.asked.picture.doc.name`))
		assert.Equal(t, "Sound.", p.Text("springrib-verdict h1"))
		p.Press("Undo")
		p.Wait(settled)
		assert.Equal(t, "Harbour lamp", Eval[string](p, state+`.doc.name`))
	})
}

func TestAFigureOfAThingIsJudgedAtOnce(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.shelf()
	was := p.Text(".new-verdict")
	p.Fill("Radius", "15")
	p.Wait(`!document.querySelector('.new-verdict').textContent.includes('Sound')`)
	assert.NotEqual(t, was, p.Text(".new-verdict"))
	p.Fill("Radius", "130")
	p.Wait(`document.querySelector('.new-verdict').textContent.includes('Sound')`)
	p.Press("Make this shade")
	p.Wait(settled)
	assert.Equal(t, "130", Eval[string](p, state+`.asked.picture.doc.curve.radius`))
}

func TestTheShelfSpeaksTheUnitsOfThePage(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.Choose("Units", "in")
	p.Wait(settled)
	p.shelf()
	assert.Equal(t, "in", p.Text(".big:first-of-type span"))
	p.Press("Make this shade")
	p.Wait(settled)
	assert.Equal(t, "in", Eval[string](p, state+`.asked.picture.doc.units`))
	assert.Equal(t, "Sound.", p.Text("springrib-verdict h1"))
}

func TestTheShelfFitsAndIsAccessible(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.shelf()
	for _, size := range [][2]int64{{1440, 900}, {1024, 600}, {844, 390}, {390, 844}} {
		p.Resize(size[0], size[1])
		assert.LessOrEqual(t, Eval[float64](p, `document.querySelector('dialog.new').scrollWidth - innerWidth`), 0.0, "%d wide", size[0])
		for _, scheme := range []string{"light", "dark"} {
			p.Scheme(scheme)
			assert.Empty(t, p.Violations(), "%s at %d", scheme, size[0])
			p.Screenshot(scheme + "-" + p.size())
		}
	}
}

// size is the size of the window as a name.
func (p *Page) size() string { return Eval[string](p, "`${innerWidth}x${innerHeight}`") }

func TestAnEmptyBenchOneOfYourDesignsOrALink(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.fresh()
	assert.Empty(t, Eval[string](p, state+`.doc.name`))
	p.shelf()
	p.Press("one of your designs")
	p.Wait(`document.querySelector('dialog.kept')?.open`)
	p.Press("Close")
	p.shelf()
	p.Press("a link")
	p.Fill("Paste the link here", "https://example.org/nothing")
	p.Press("Open it")
	p.Wait(state + `.notice`)
	require.Contains(t, Eval[string](p, state+`.notice`), "no link to a design")
}
