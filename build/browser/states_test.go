package browser

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	form "springrib/internal/design"
)

// sizes are the windows that every state of the page is made for.
var sizes = [][2]int64{{1440, 900}, {1024, 600}, {390, 844}, {844, 390}}

// states are what a person can meet, each from a page that has just opened.
var states = []struct {
	name string
	open func(p *Page)
}{
	{"example", func(*Page) {}},
	{"stop", func(p *Page) {
		d := form.Clone(form.Examples()[0].Design)
		d.Panel.Spacing, d.Panel.Count = "count", "8"
		p.bring(d)
	}},
	{"warning", func(p *Page) {
		d := form.Clone(form.Examples()[0].Design)
		d.Curve.Foot, d.Curve.Tip, d.Panel.Finish, d.Rib.Side, d.Panel.ShowFace = "3", "3", "gloss", "round", "hollow"
		p.bring(d)
	}},
	{"nothing yet", func(p *Page) { p.bring(form.Empty()) }},
	{"long names", func(p *Page) {
		d := form.Clone(form.Examples()[4].Design)
		d.Name = "Sturmlaternengehäuseverkleidung für das Lesezimmer am Hafenbecken, zweite Ausführung"
		d.Sheet.OwnName, d.Revision = "Mitteldichte Faserplatte", "Entwurfsfassung 12"
		d = form.Convert(d, "in")
		p.bring(d)
	}},
	{"bench", func(p *Page) { p.Press("Take it to the bench") }},
	{"bench sheet", func(p *Page) {
		p.Press("The bench sheet")
		p.Wait(settled + ` && document.querySelector('springrib-benchsheet h3')`)
		Eval[Void](p, `document.querySelector('springrib-benchsheet').scrollIntoView()`)
	}},
	{"cards", func(p *Page) {
		Eval[Void](p, `document.querySelectorAll('springrib-card details').forEach((d) => { d.open = true })`)
		p.Wait(settled)
	}},
	{"new", func(p *Page) { p.shelf() }},
	{"your designs", func(p *Page) { p.shelf(); p.Press("one of your designs") }},
	{"intake", func(p *Page) {
		typeLampShade(p)
		p.openCard("The panel")
		p.Choose("Shape", "Drawn elsewhere")
		p.Wait(settled)
		p.openDrawing("tray.svg", strings.Replace(tray, `width="260mm" height="120mm"`, "", 1))
		p.Wait(sheet)
	}},
}

// Axe-core has nothing against any state of the page, in either scheme, and decides the
// contrast of every text; nothing sticks out sideways.
func TestEveryStateIsAccessible(t *testing.T) {
	windows := [][2]int64{{1440, 900}, {390, 844}}
	if os.Getenv("SPRINGRIB_PICTURES") != "" {
		windows = sizes
	}
	url := Serve(t, dist)
	for _, s := range states {
		t.Run(s.name, func(t *testing.T) {
			p := chrome.Open(t, url)
			p.Wait(settled)
			s.open(p)
			for _, size := range windows {
				p.Resize(size[0], size[1])
				p.Wait(settled)
				assert.LessOrEqual(t, Eval[float64](p, `(document.querySelector('dialog[open]') ?? document.documentElement).scrollWidth - innerWidth`), 0.0, "%d wide", size[0])
				for _, scheme := range []string{"light", "dark"} {
					p.Scheme(scheme)
					p.View(scheme + "-" + p.size())
					if size[0] != 1024 && size[0] != 844 {
						assert.Empty(t, p.Violations(), "%s at %d", scheme, size[0])
						assert.Empty(t, p.Faint(), "%s at %d", scheme, size[0])
					}
				}
			}
		})
	}
}

// A text with too little contrast is found, wherever it stands.
func TestFaintTextIsFound(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	assert.Empty(t, p.Faint())
	Eval[Void](p, `(() => { const e = document.createElement('em'); e.textContent = 'hardly seen'; e.style.color = '#999'; document.querySelector('springrib-benchbar p').append(e) })()`)
	assert.Contains(t, strings.Join(p.Faint(), " "), "hardly seen")
}
