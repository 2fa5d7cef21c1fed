package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// newcomer is somebody who has never seen the page. Whatever is pressed, chosen, typed into
// a field or opened is an action.
type newcomer struct {
	*Page
	actions int
}

func (n *newcomer) do(act func()) {
	n.t.Helper()
	n.actions++
	act()
	n.Wait(settled)
}

func (n *newcomer) begin(thing string) {
	n.t.Helper()
	n.do(n.shelf)
	n.do(func() { Eval[Void](n.Page, find+`.one("input", `+quote(thing)+`).click()`) })
}

func (n *newcomer) fill(label, text string) { n.t.Helper(); n.do(func() { n.Fill(label, text) }) }

func (n *newcomer) press(words string) { n.t.Helper(); n.do(func() { n.Press(words) }) }

func (n *newcomer) choose(label, option string) {
	n.t.Helper()
	n.do(func() { n.Choose(label, option) })
}

func (n *newcomer) card(title string) { n.t.Helper(); n.do(func() { n.openCard(title) }) }

// upload gives a file to a field and takes what is in it.
func (n *newcomer) upload(field, name, content string) {
	n.t.Helper()
	n.do(func() {
		n.Upload("#"+field+"-file", write(n.t.(*testing.T), n.t.(*testing.T).TempDir(), name, content))
		n.Wait(sheet)
	})
	n.press("Take it")
}

// An outline with curved sides, 290 mm long, and the side view of a free curve of 242 mm, to which the design adds two straights of 25 mm; both invented.
const (
	visor = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="150mm" viewBox="0 0 300 150"><path d="M5 35C90 5 210 5 295 35L295 115C210 145 90 145 5 115Z" fill="none" stroke="#000"/></svg>`
	sweep = `<svg xmlns="http://www.w3.org/2000/svg" width="320mm" height="120mm" viewBox="0 0 320 120"><path d="M10 100C74 68 181 68 245 100" fill="none" stroke="#000"/></svg>`
)

func TestANewcomerReachesACutFile(t *testing.T) {
	for name, job := range map[string]struct {
		most int
		do   func(n *newcomer)
		now  string // what must be so in the end
	}{
		"a shade": {8, func(n *newcomer) {
			n.begin("Shade")
			n.fill("Radius", "100")
			n.fill("Height", "150")
			n.press("Make this shade")
		}, `doc.curve.radius === "100" && doc.panel.width === "150"`},
		"six tapering fins with one straight edge": {12, func(n *newcomer) {
			n.begin("Fin on a rib")
			n.fill("Foot", "60")
			n.fill("Tip", "25")
			n.fill("How many", "6")
			n.press("Make this fin")
		}, `doc.panel.quantity === "6" && doc.panel.edges === "one" && doc.panel.tipWidth === "25"`},
		"an apron by saw": {12, func(n *newcomer) {
			n.begin("Apron by saw")
			n.fill("Radius", "500")
			n.fill("Height", "80")
			n.press("Make this apron")
		}, `doc.machine.tool === "saw" && doc.curve.radius === "500"`},
		"an imported outline on a free curve": {14, func(n *newcomer) {
			n.begin("Outline drawn elsewhere")
			n.press("Make this outline")
			n.upload("f-panel-drawn", "visor.svg", visor)
			n.card("The curve")
			n.choose("Given by", "A line drawn elsewhere")
			n.upload("f-curve-drawn", "sweep.svg", sweep)
		}, `doc.panel.drawn.source === "visor.svg" && doc.curve.drawn.source === "sweep.svg"`},
		"copies in a round base": {12, func(n *newcomer) {
			n.begin("Fin on a rib")
			n.fill("How many", "8")
			n.press("Make this fin")
			n.card("The rib")
			n.choose("Foot", "With a tenon, for a base")
			n.choose("A base with slots", "Panels round a ring")
		}, `doc.panel.quantity === "8" && doc.base.kind === "ring"`},
	} {
		t.Run(name, func(t *testing.T) {
			n := &newcomer{Page: chrome.Open(t, Serve(t, dist))}
			n.Wait(settled)
			job.do(n)
			assert.Equal(t, "Sound.", n.Text("springrib-verdict h1"), n.Text("springrib-verdict .sentence"))
			n.actions++
			_, zip := n.Download(func() { n.Press("Everything in one file") })
			require.NotEmpty(t, zip)
			assert.True(t, Eval[bool](n.Page, `(({ doc }) => `+job.now+`)(`+state+`)`))
			t.Logf("%d actions", n.actions)
			assert.LessOrEqual(t, n.actions, job.most)
		})
	}
}
