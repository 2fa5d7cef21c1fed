package browser

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tray is an invented drawing, the side of a tray: an outline 200 by 90 mm with two
// holes, a mark, and a note beside it.
const tray = `<svg xmlns="http://www.w3.org/2000/svg" width="260mm" height="120mm" viewBox="0 0 260 120" fill="none" stroke="#000">
<g id="edge"><path d="M10 10H210V100H10Z"/><circle cx="60" cy="55" r="15"/><rect x="120" y="40" width="40" height="30"/></g>
<g id="words" stroke="#00f"><path d="M90 40L110 60"/></g><g id="notes" stroke="#f00"><path d="M230 10L250 90"/></g></svg>`

// sheet is true once what a drawing holds lies on the page, and the core is at rest.
const sheet = `document.querySelector('dialog.intake[open] .spread[aria-busy=false]') && ` + settled

// drawnElsewhere opens the page with the panel's shape drawn elsewhere.
func drawnElsewhere(t *testing.T, url string) *Page {
	p := chrome.Open(t, url)
	p.Wait(settled)
	typeLampShade(p)
	p.openCard("The panel")
	p.Choose("Shape", "Drawn elsewhere")
	p.Wait(settled)
	return p
}

func (p *Page) openDrawing(name, content string) {
	p.t.Helper()
	p.Upload("#f-panel-drawn-file", write(p.t.(*testing.T), p.t.(*testing.T).TempDir(), name, content))
}

// scoresInside counts the stretches of scores that the flat drawing shows with their
// middle within a box of the panel, mm.
const scoresInside = `((x0, y0, x1, y1) => {
  const { plan, streams } = document.querySelector('springrib-page').state.picture;
  const k = plan.drawings.findIndex((d) => d.id === 'flat'), s = streams[k];
  let n = 0;
  for (const item of plan.drawings[k].items) if (item.role === 'score') for (let i = item.from; i < item.to; i += 6) {
    const x = (s[i + 1] + s[i + 4]) / 2, y = (s[i + 2] + s[i + 5]) / 2;
    if (x > x0 && x < x1 && y > y0 && y < y1) n++;
  }
  return n;
})`

func TestADrawingIsTakenAndScored(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := drawnElsewhere(t, url)
		assert.Contains(t, p.Text(".problem"), "Open a drawing and choose the outline in it.")
		p.openDrawing("tray <b>.svg", tray)
		p.Wait(sheet)
		p.Screenshot("sheet")
		assert.Equal(t, "What the drawing holds", p.Text("dialog h2"))
		assert.Contains(t, p.Text("dialog header"), "tray b .svg SVG, 240 by 90 mm")
		assert.Contains(t, p.Text("dialog footer"), "Takes an outline 200 mm long and 90 mm wide, 2 holes, 1 mark.")
		before := Eval[string](p, `JSON.stringify(`+state+`.doc)`)

		p.Choose("notes: an open line, 82.5 mm long", "Mark on the scored face")
		p.Wait(sheet)
		assert.Contains(t, p.Text("dialog footer"), "2 marks.")
		p.Choose("notes: an open line, 82.5 mm long", "Left out")
		p.Fill("Length of the outline", "1/16")
		p.Wait(`document.querySelector('dialog .problem')`)
		assert.True(t, Eval[bool](p, find+`.one("button", "Take it").disabled`), "not with a field that can't be read")
		p.Fill("Length of the outline", "160 mm")
		p.Wait(sheet + ` && !document.querySelector('dialog .problem')`)
		assert.Contains(t, p.Text("dialog footer"), "160 mm long and 72 mm wide")
		assert.Equal(t, before, Eval[string](p, `JSON.stringify(`+state+`.doc)`), "nothing is taken before it is taken")
		p.Press("Take it")
		p.Wait(settled + ` && !document.querySelector('dialog[open]') && ` + state + `.picture.doc === ` + state + `.doc`)
		p.Screenshot("taken")

		assert.Equal(t, "160 mm", p.Value("Length of the outline"))
		assert.True(t, Eval[bool](p, state+`.picture.plan.drawn`))
		// The hole of 15 mm radius about (50, 0) of 200 is one of 12 about (40, 0) of 160.
		assert.Zero(t, Eval[int](p, scoresInside+`(34, -8, 46, 8)`), "no score crosses the hole")
		assert.Greater(t, Eval[int](p, scoresInside+`(34, -36, 46, 36)`), 4, "but they go on above and below it")

		name, saved := p.Download(func() { p.Press("Save") })
		assert.Contains(t, name, "ier-lamp")
		var doc struct {
			Panel struct {
				Drawn struct {
					Outline      string
					Holes, Marks []string
				}
			}
		}
		require.NoError(t, json.Unmarshal(saved, &doc))
		assert.Len(t, doc.Panel.Drawn.Holes, 2)
		assert.Len(t, doc.Panel.Drawn.Marks, 1)
		assert.NotContains(t, string(saved), "<")
		assert.Less(t, len(saved), 12_000)

		now := Eval[string](p, `JSON.stringify(`+state+`.doc)`)
		p.Press("Undo")
		p.Wait(settled)
		assert.Equal(t, before, Eval[string](p, `JSON.stringify(`+state+`.doc)`))
		p.Upload("#design-file", write(t, t.TempDir(), "again.json", string(saved)))
		p.Wait(settled + ` && ` + state + `.doc.panel.drawn`)
		assert.JSONEq(t, now, Eval[string](p, `JSON.stringify(`+state+`.doc)`))
		assert.Zero(t, Eval[int](p, scoresInside+`(34, -8, 46, 8)`))

		// The files of the page are those of the build program.
		dir := natively(t, saved)
		files := Eval[[]struct{ Name, Label string }](p, state+`.plan.files`)
		_, svg := p.Download(func() { p.Press(files[0].Label) })
		native, err := os.ReadFile(filepath.Join(dir, files[0].Name))
		require.NoError(t, err)
		assert.Equal(t, string(native), string(svg))
	})
}

func TestADrawingWithoutUnitsIsAskedAbout(t *testing.T) {
	p := drawnElsewhere(t, Serve(t, dist))
	p.openDrawing("tray.svg", strings.Replace(tray, `width="260mm" height="120mm"`, "", 1))
	p.Wait(sheet)
	assert.Contains(t, p.Text("dialog footer"), "Say how large the drawing is.")
	assert.True(t, Eval[bool](p, find+`.one("button", "Take it").disabled`))
	assert.Contains(t, p.Text("dialog fieldset"), "240 by 90 mm")
	Eval[Void](p, `(() => { const f = `+find+`; f.all('dialog fieldset input').find((e) => f.named(e).startsWith('240 by 90 mm')).click() })()`)
	p.Wait(sheet)
	assert.Contains(t, p.Text("dialog footer"), "Takes an outline 200 mm long")
	p.Press("Take it")
	p.Wait(settled + ` && ` + state + `.picture.doc === ` + state + `.doc`)
	assert.True(t, Eval[bool](p, state+`.picture.plan.drawn`))
}

func TestMendingIsShownBeforeItIsTaken(t *testing.T) {
	p := drawnElsewhere(t, Serve(t, dist))
	gaps := strings.Replace(tray, `<path d="M10 10H210V100H10Z"/>`, `<path d="M10 10H210V99.95"/><path d="M210 100H10V10.02"/>`, 1)
	p.openDrawing("gaps.svg", gaps)
	p.Wait(sheet)
	assert.Contains(t, p.Text("dialog .changes"), "2 pieces chained to a closed path; widest gap 0.050 mm.")
	assert.Contains(t, p.Text("dialog footer"), "Takes an outline 200 mm long")
	Eval[Void](p, `document.querySelector('dialog .changes input').click()`)
	p.Wait(sheet + ` && !document.querySelector('dialog footer p').textContent.includes('200 mm')`)
	assert.False(t, Eval[bool](p, `document.querySelector('dialog .changes input').checked`))
	Eval[Void](p, `document.querySelector('dialog .changes input').click()`)
	p.Wait(sheet + ` && document.querySelector('dialog footer p').textContent.includes('200 mm')`)
	p.Fill("Close gaps up to", "0.01")
	p.Wait(sheet + ` && !document.querySelector('dialog .changes input')`)
	p.Press("Leave it")
	p.Wait(`!document.querySelector('dialog[open]')`)
	assert.Equal(t, "Open a drawing", Eval[string](p, `document.activeElement.textContent.trim()`), "the keyboard is back where it was")
}

// Where a line is on the drawing and in the table is told both ways, and Escape leaves.
func TestLinesAreLitInBothPlaces(t *testing.T) {
	p := drawnElsewhere(t, Serve(t, dist))
	p.openDrawing("tray.svg", tray)
	p.Wait(sheet)
	Eval[Void](p, find+`.one('select', 'words: an open line, 28.3 mm long').focus()`)
	p.Wait(`document.querySelector('dialog svg path.lit.mark')`)
	Eval[Void](p, `(() => {
  const path = document.querySelector('dialog svg path.ink.inner'), r = path.getBoundingClientRect();
  const at = { clientX: r.x + r.width / 2, clientY: r.y, bubbles: true };
  path.dispatchEvent(new PointerEvent('pointermove', at));
})()`)
	p.Wait(`document.querySelector('dialog svg path.lit.inner')`)
	assert.Contains(t, p.Text("dialog tr.lit"), "edge 2 closed lines")
	p.Key("\u001b")
	p.Wait(`!document.querySelector('dialog[open]')`)
}

func TestTheSheetIsAccessible(t *testing.T) {
	p := drawnElsewhere(t, Serve(t, dist))
	p.openDrawing("tray.svg", strings.Replace(strings.Replace(tray, `width="260mm" height="120mm"`, "", 1), "<path", `<path d="M0 0L50 50L50 0L0 50Z"/><text>tray</text><path`, 1))
	p.Wait(sheet)
	for _, width := range []int64{390, 1440} {
		p.Resize(width, 900)
		for _, scheme := range []string{"light", "dark"} {
			p.Scheme(scheme)
			assert.Empty(t, p.Violations(), "%s at %d", scheme, width)
			p.Screenshot(fmt.Sprintf("sheet-%s-%d", scheme, width))
		}
		wide := Eval[[2]float64](p, `(() => { const d = document.querySelector('dialog'); return [d.scrollWidth, d.clientWidth] })()`)
		assert.LessOrEqual(t, wide[0], wide[1]+1, "nothing sticks out sideways at %d", width)
	}
}

// A line from a DXF file becomes the curve.
func TestACurveIsTakenFromAFile(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	typeLampShade(p)
	p.Choose("Given by", "A line drawn elsewhere")
	p.Wait(settled)
	// An arc of 90 degrees over a radius of 150, in millimetres.
	p.Upload("#f-curve-drawn-file", write(t, t.TempDir(), "side.dxf",
		"0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nARC\n8\nside\n10\n0\n20\n0\n40\n150\n50\n45\n51\n135\n0\nENDSEC\n0\nEOF\n"))
	p.Wait(sheet)
	assert.Contains(t, p.Text("dialog footer"), "Takes a curve 235.6 mm long.")
	p.Press("Take it")
	p.Wait(settled + ` && ` + state + `.picture.doc === ` + state + `.doc`)
	assert.Equal(t, "drawn", Eval[string](p, state+`.doc.curve.kind`))
	assert.Contains(t, p.Text("springrib-card[open] .means"), "a line from side.dxf")
}

// hostile are files that are refused, or come to nothing, in words.
func hostile() map[string]string {
	groups := strings.Repeat("<g>", 400_000)
	uses := `<svg xmlns="http://www.w3.org/2000/svg"><defs><path id="a0" d="M0 0h9v9z"/>`
	for i := range 40 {
		uses += fmt.Sprintf(`<g id="a%d"><use href="#a%d"/><use href="#a%d"/></g>`, i+1, i, i)
	}
	return map[string]string{
		"empty.svg":     "",
		"letter.svg":    "Dear maker, the drawing follows.",
		"picture.svg":   "\x89PNG\r\n\x1a\n\x00\x00",
		"cut-short.svg": tray[:len(tray)/2],
		"nested.svg":    `<svg xmlns="http://www.w3.org/2000/svg">` + groups,
		"cyclic.svg":    `<svg xmlns="http://www.w3.org/2000/svg"><g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g></svg>`,
		"uses.svg":      uses + `</defs><use href="#a40"/></svg>`,
		"entities.svg":  `<!DOCTYPE svg [<!ENTITY a "M0 0h9">` + entities() + `]><svg xmlns="http://www.w3.org/2000/svg"><path d="&z;"/></svg>`,
		"numbers.svg":   `<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm"><path d="M0 0L1e308 NaN L1e999 5z"/></svg>`,
		"array.dxf":     "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nB\n10\n0\n20\n0\n0\nLINE\n10\n0\n20\n0\n11\n9\n21\n9\n0\nENDBLK\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nINSERT\n2\nB\n70\n30000\n71\n30000\n44\n1\n45\n1\n0\nENDSEC\n0\nEOF\n",
		"binary.dxf":    "AutoCAD Binary DXF\r\n\x1a\x00\x00\x00",
		"long.svg":      tray + strings.Repeat(" ", 17<<20), // past what is read
		"huge.svg":      tray,                               // made 200 MB long
	}
}

func entities() string {
	out, last := "", "a"
	for c := 'b'; c <= 'z'; c++ {
		out += fmt.Sprintf(`<!ENTITY %c "%s">`, c, strings.Repeat("&"+last+";", 10))
		last = string(c)
	}
	return out
}

func TestHostileFilesLeaveTheDesignAlone(t *testing.T) {
	p := drawnElsewhere(t, Serve(t, dist))
	before := Eval[string](p, `JSON.stringify(`+state+`.doc)`)
	for name, content := range hostile() {
		Eval[Void](p, `(() => { const e = document.querySelector('springrib-drawn-elsewhere'); e.refusal = ''; e.requestUpdate(); return e.updateComplete.then(() => {}) })()`)
		file := write(t, t.TempDir(), name, content)
		if name == "huge.svg" {
			require.NoError(t, os.Truncate(file, 200<<20))
		}
		p.Upload("#f-panel-drawn-file", file)
		p.Wait(`document.querySelector('springrib-drawn-elsewhere [role=alert]').textContent.trim() || document.querySelector('dialog[open]')`)
		p.Wait(settled)
		said := p.Text("springrib-drawn-elsewhere [role=alert], dialog footer p")
		assert.True(t, strings.HasSuffix(said, "."), "%s: %q", name, said)
		if Eval[bool](p, `!!document.querySelector('dialog[open]')`) {
			assert.True(t, Eval[bool](p, find+`.one("button", "Take it").disabled`), "%s: %s", name, said)
			p.Press("Leave it")
			p.Wait(`!document.querySelector('dialog[open]')`)
		} else {
			assert.Contains(t, said, "Your design stays as it is.", name)
			assert.NotContains(t, said, "Something broke", name)
		}
		assert.Equal(t, before, Eval[string](p, `JSON.stringify(`+state+`.doc)`), name)
	}
	p.openDrawing("tray.svg", tray)
	p.Wait(sheet)
	assert.Contains(t, p.Text("dialog footer"), "Takes an outline", "the core goes on")
}

// Markup of a file never becomes markup of the page.
func TestMarkupStaysOutside(t *testing.T) {
	p := drawnElsewhere(t, Serve(t, dist))
	evil := `<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90" onload="window.taken=1"><script>window.taken=2</script>` +
		`<g id="&lt;img src=x onerror=&quot;window.taken=3&quot;&gt;"><path stroke="#000" fill="url(javascript:window.taken=4)" d="M5 5H80V80H5Z" onclick="window.taken=5"/></g>` +
		`<foreignObject><body xmlns="http://www.w3.org/1999/xhtml"><img src="x" onerror="window.taken=6"/></body></foreignObject></svg>`
	p.openDrawing(`"><img src=x onerror=window.taken=7>.svg`, evil)
	p.Wait(sheet)
	assert.Equal(t, 0, Eval[int](p, `document.querySelectorAll('img, script[src="x"], foreignObject, [onload], [onclick], [onerror]').length`))
	assert.True(t, Eval[bool](p, `window.taken === undefined`))
	p.Press("Take it")
	p.Wait(settled)
	assert.False(t, strings.Contains(Eval[string](p, `JSON.stringify(`+state+`.doc.panel.drawn)`), "<"))
}

// BenchmarkDrawingIn opens an outline of 20,000 points and takes it. Its bound is 600 ms
// for both together, reading, mending, fitting and the first picture of it included.
func BenchmarkDrawingIn(b *testing.B) {
	var d strings.Builder
	d.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="600mm" viewBox="0 0 600 600"><path d="`)
	for i := range 20_000 {
		a := 2 * math.Pi * float64(i) / 20_000
		w := 250 * (1 + 0.1*math.Sin(9*a))
		fmt.Fprintf(&d, "%c%.3f %.3f", "ML"[min(i, 1)], 300+w*math.Cos(a), 300+w*math.Sin(a))
	}
	d.WriteString(`Z"/></svg>`)
	p := chrome.Open(b, Serve(b, dist))
	p.Wait(settled)
	var shown, took []float64
	for b.Loop() {
		s := Eval[[2]float64](p, `(async () => {
  const s = `+state+`, intake = { name: 'ring.svg', base64: `+quote(base64.StdEncoding.EncodeToString([]byte(d.String())))+`, card: 'panel', perInch: 0, gap: '', leave: [], roles: {}, lay: {} };
  const a = performance.now();
  const one = await s.ask({ kind: 'intake', design: s.doc, intake });
  const c = performance.now();
  const two = await s.ask({ kind: 'take', design: s.doc, intake });
  if (!one.reply.intake.ready || !two.reply.design) throw new Error(JSON.stringify([one.reply.error, two.reply.error, one.reply.intake?.sentence]));
  return [c - a, performance.now() - c];
})()`)
		shown, took = append(shown, s[0]), append(took, s[1])
	}
	b.ReportMetric(median(shown), "ms-to-picture")
	b.ReportMetric(median(took), "ms-to-take")
}
