package browser

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// knob is the handle with that ID.
func knob(id string) string { return `.grip[data-handle="` + id + `"] .knob` }

// where is the middle of a handle on the screen.
func where(p *Page, id string) [2]float64 {
	p.t.Helper()
	return Eval[[2]float64](p, `(() => { const r = document.querySelector('`+knob(id)+`').getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2] })()`)
}

// steps is how many steps of undo there are.
func steps(p *Page) int {
	p.t.Helper()
	return Eval[int](p, state+`.history.past.length`)
}

// typed is what the field of a path holds.
func typed(p *Page, path string) string {
	p.t.Helper()
	return Eval[string](p, `document.getElementById('f-`+strings.ReplaceAll(path, ".", "-")+`').value`)
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

func TestDraggingAPointOfTheCurveChangesItsFigures(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		throughPoints(p)
		p.openCard("The curve")
		before, had := typed(p, "curve.points.1.x"), steps(p)
		scale := Eval[float64](p, `document.querySelector('#drawing-bent').scale`)
		hand := p.Grab(knob("point 2"))
		began := where(p, "point 2")
		hand.Move(20, -30, 12)
		p.Wait(settled)
		// The handle lies under the hand, whatever else moved on the page.
		now := where(p, "point 2")
		assert.InDelta(t, began[0]+20, now[0], 1+0.1*scale)
		assert.InDelta(t, began[1]-30, now[1], 1+0.1*scale)
		assert.True(t, Eval[bool](p, state+`.held.grip !== undefined`))
		hand.LetGo()
		p.Wait(settled)
		assert.InDelta(t, number(t, before)+20/scale, number(t, typed(p, "curve.points.1.x")), 0.11)
		assert.Equal(t, had+1, steps(p), "one hold is one step of undo")
		assert.Equal(t, Eval[string](p, state+`.doc.curve.points[1].x`), Eval[string](p, state+`.asked.picture.doc.curve.points[1].x`))
		p.Press("Undo")
		p.Wait(settled)
		assert.Equal(t, before, typed(p, "curve.points.1.x"))
		p.Press("Redo")
		p.Wait(settled)
		assert.NotEqual(t, before, typed(p, "curve.points.1.x"))
	})
}

// throughPoints gives the curve as four points, all invented.
func throughPoints(p *Page) {
	p.t.Helper()
	Eval[Void](p, `(() => {
  const s = `+state+`;
  s.replace({ ...s.asked.controls.empty, name: 'Mooring hood', curve: { ...s.asked.controls.empty.curve, kind: 'points', foot: '15', tip: '15',
    points: [{ x: '0', y: '0' }, { x: '90', y: '42' }, { x: '200', y: '40' }, { x: '290', y: '5' }] },
    panel: { ...s.asked.controls.empty.panel, width: '90' } }, 'test');
})()`)
	p.Wait(settled)
}

func TestEveryHandleOfTheExamplesCanBeHeld(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	for _, id := range Eval[[]string](p, state+`.asked.controls.examples.map((e) => e.id)`) {
		Eval[Void](p, state+`.replace(`+state+`.asked.controls.examples.find((e) => e.id === `+quote(id)+`).design, 'example')`)
		p.Wait(settled)
		handles := Eval[[]string](p, state+`.asked.plan.drawings.flatMap((d) => d.handles ?? []).map((h) => h.id)`)
		assert.NotEmpty(t, handles)
		for _, h := range handles {
			doc, had := Eval[string](p, `JSON.stringify(`+state+`.doc)`), steps(p)
			// A handle on a line of its own need not move for every pull.
			for _, way := range [][2]float64{{-14, 9}, {-14, -9}, {14, 9}} {
				hand := p.Grab(knob(h))
				hand.Move(way[0], way[1], 4)
				hand.LetGo()
				p.Wait(settled)
				if steps(p) != had {
					break
				}
			}
			assert.NotEqual(t, doc, Eval[string](p, `JSON.stringify(`+state+`.doc)`), "%s of %s", h, id)
			assert.Equal(t, had+1, steps(p), "%s of %s", h, id)
			assert.Empty(t, Eval[string](p, state+`.notice`))
			Eval[Void](p, state+`.undo()`)
			p.Wait(settled)
			assert.Equal(t, doc, Eval[string](p, `JSON.stringify(`+state+`.doc)`), "%s of %s", h, id)
		}
	}
}

func TestHandlesMoveByTheArrowKeys(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	throughPoints(p)
	p.openCard("The curve")
	had := steps(p)
	Eval[Void](p, `document.querySelector('.grip[data-handle="point 3"]').focus()`)
	for range 3 {
		p.Key(kb.ArrowRight)
	}
	p.Key(kb.ArrowUp)
	p.Key(kb.ArrowLeft, chromedp.ModifierShift) // soon after, however slow the machine: a pause begins a step of its own
	p.Wait(settled)
	assert.Equal(t, "202.9", typed(p, "curve.points.2.x"), "three, and a tenth back with shift")
	assert.Equal(t, "41", typed(p, "curve.points.2.y"))
	assert.Equal(t, had+1, steps(p), "presses in one go are one step of undo")
	assert.Equal(t, "202.9 mm, 41 mm", Eval[string](p, `document.activeElement.getAttribute('aria-valuetext')`), "it is said what it stands at")
	p.Key("z", chromedp.ModifierCtrl)
	p.Wait(settled)
	assert.Equal(t, "200", typed(p, "curve.points.2.x"))
	assert.Equal(t, "40", typed(p, "curve.points.2.y"))
	Eval[Void](p, `document.querySelector('.grip[data-handle="point 3"]').focus()`)
	p.Key(kb.ArrowDown)
	p.Wait(settled)
	p.Key(kb.Escape)
	p.Wait(settled)
	assert.Equal(t, "40", typed(p, "curve.points.2.y"), "escape brings back what was there")
	p.Key(kb.Enter)
	p.Wait(`document.activeElement.matches('input')`)
	assert.Equal(t, "f-curve-points-2-x", Eval[string](p, `document.activeElement.id`), "enter goes to the figure")
}

func TestInchesAreMovedInInches(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	throughPoints(p)
	p.Choose("Units", "in")
	p.Wait(settled)
	p.openCard("The curve")
	Eval[Void](p, set("curve.points.2.x", "7 7/8"))
	p.Wait(settled)
	Eval[Void](p, `document.querySelector('.grip[data-handle="point 3"]').focus()`)
	p.Key(kb.ArrowRight)
	p.Wait(settled)
	assert.Equal(t, "7 15/16", typed(p, "curve.points.2.x"))
	p.Key(kb.ArrowRight, chromedp.ModifierShift)
	p.Wait(settled)
	assert.Equal(t, "7 61/64", typed(p, "curve.points.2.x"))
}

// What is dragged to where nothing can be drawn says so, keeps the last drawing, and
// comes back when it is dragged back.
func TestADragThroughTheImpossibleComesBack(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	throughPoints(p)
	before := Eval[string](p, drawn+`.getAttribute('d')`)
	scale := Eval[float64](p, `document.querySelector('#drawing-bent').scale`)
	hand := p.Grab(knob("point 2"))
	hand.Move(110*scale, 2*scale, 8) // onto the third point: no curve goes through both
	p.Wait(settled)
	assert.False(t, Eval[bool](p, state+`.asked.plan.drawn`))
	assert.NotEmpty(t, Eval[string](p, state+`.asked.plan.verdict.sentence`))
	hand.Move(-110*scale, -2*scale, 8)
	p.Wait(settled)
	assert.True(t, Eval[bool](p, state+`.asked.plan.drawn`))
	hand.LetGo()
	p.Wait(settled)
	assert.Equal(t, before, Eval[string](p, drawn+`.getAttribute('d')`))
}

func TestHandlesAreHeldByTouch(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Resize(390, 844)
	p.Wait(settled)
	throughPoints(p)
	// On a phone the drawings lie side by side.
	Eval[Void](p, `document.querySelector('#drawing-bent').scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' })`)
	p.Wait(settled)
	before := Eval[string](p, state+`.doc.curve.points[1].y`)
	at := where(p, "point 2")
	Eval[Void](p, `window.taken = 0; addEventListener('pointercancel', () => window.taken++, true)`)
	p.Swipe(at[0]+6, at[1]-6, 0, -40) // a finger is never quite on it
	p.Wait(settled)
	assert.Greater(t, number(t, Eval[string](p, state+`.doc.curve.points[1].y`)), number(t, before)+10)
	assert.Zero(t, Eval[int](p, "window.taken"), "the page doesn't take the finger for scrolling")
}

// figuresAreThose is true once the figures under the drawings are those of the last answer.
const figuresAreThose = `(() => {
  const plain = (t) => t.replace(/\u2060/g, '').replace(/\u00a0/g, ' ');
  const shown = [...document.querySelectorAll('.figures dd:not(.help)')].map((d) => plain(d.textContent));
  const said = ` + state + `.asked.plan.numbers.map((n) => plain(n.text));
  return said.length > 0 && shown.length === said.length && said.every((t, i) => t === shown[i]);
})()`

// Figures that are in sight follow the hand. Those far below the window wait until they
// come into sight or the hand lets go; nothing is ever left behind.
func TestFiguresFollowTheHandWhereTheyAreSeen(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.Resize(1280, 3400)
	throughPoints(p)
	inSight := `!document.querySelector('springrib-figures').outOfSight`
	p.Wait(inSight)
	hand := p.Grab(knob("point 2"))
	hand.Move(10, -15, 5)
	p.Wait(settled)
	assert.True(t, Eval[bool](p, figuresAreThose), "in sight")
	hand.LetGo()
	p.Wait(settled)

	p.Resize(1280, 700)
	hand = p.Grab(knob("point 2"))
	p.Wait(`!(` + inSight + `)`)
	hand.Move(10, -15, 5)
	p.Wait(settled)
	assert.False(t, Eval[bool](p, figuresAreThose), "far below the window")
	Eval[Void](p, `document.querySelector('.figures').scrollIntoView({ behavior: 'instant' })`)
	p.Wait(inSight)
	p.Wait(figuresAreThose)
	Eval[Void](p, `scrollTo({ top: 0, behavior: 'instant' })`)
	p.Wait(`!(` + inSight + `)`)
	hand.Move(10, 15, 5)
	p.Wait(settled)
	assert.False(t, Eval[bool](p, figuresAreThose), "far below the window again")
	hand.LetGo()
	p.Wait(settled)
	assert.True(t, Eval[bool](p, figuresAreThose), "let go")
}

// An open bench sheet, which takes the core a while, is written anew once the hand lets go.
func TestTheBenchSheetWaitsForTheHand(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	throughPoints(p)
	Eval[Void](p, `(() => {
  const { core } = `+state+`.asked, ask = core.ask;
  window.asked = [];
  core.ask = function (q) { window.asked.push(q.kind); return ask.call(this, q); };
  document.querySelector('details.benchsheet').open = true;
})()`)
	p.Wait(`window.asked.includes('bench') && ` + settled)
	Eval[Void](p, `window.asked.length = 0`)
	hand := p.Grab(knob("point 2"))
	hand.Move(12, -12, 6)
	p.Wait(settled)
	assert.NotContains(t, Eval[[]string](p, `window.asked`), "bench")
	hand.LetGo()
	p.Wait(`window.asked.includes('bench') && ` + settled)
}

// A corner that is not rounded can't be rounded less: pulled past that, or pushed there by
// keys, it leaves nothing to undo.
func TestAHandlePulledPastItsBoundLeavesNoEmptyStep(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	Eval[Void](p, set("panel.cornerRadius", "0"))
	p.Wait(settled)
	doc, had := Eval[string](p, `JSON.stringify(`+state+`.doc)`), steps(p)
	at := Eval[[2]float64](p, `(() => { const k = document.querySelector('`+knob("panel-corner")+`').getBoundingClientRect(), f = document.querySelector('#drawing-flat .ink').closest('svg').getBoundingClientRect();
  return [Math.sign(k.x - f.x - f.width / 2), Math.sign(k.y - f.y - f.height / 2)] })()`)
	hand := p.Grab(knob("panel-corner"))
	hand.Move(30*at[0], 30*at[1], 6)
	hand.LetGo()
	p.Wait(settled)
	assert.Equal(t, doc, Eval[string](p, `JSON.stringify(`+state+`.doc)`))
	assert.Equal(t, had, steps(p))
	hand = p.Grab(knob("panel-corner"))
	hand.Move(-60*at[0], -60*at[1], 6)
	hand.LetGo()
	p.Wait(settled)
	assert.Equal(t, had+1, steps(p), "the other way it is rounded")
}

// Corners start from the shape that was there before.
func TestCornersStartFromTheShapeBefore(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.openCard("The panel")
	outline := `Math.round(document.querySelector('#drawing-flat').view.box[2] * 10)`
	before, had := Eval[float64](p, outline), steps(p)
	p.Choose("Shape", "By its corners")
	p.Wait(settled)
	assert.Len(t, Eval[[]any](p, state+`.doc.panel.corners`), 4)
	assert.True(t, Eval[bool](p, state+`.asked.plan.drawn`), "%s", p.Text("springrib-verdict .sentence"))
	assert.InDelta(t, before, Eval[float64](p, outline), 20)
	assert.Equal(t, had+1, steps(p), "one step of undo takes both back")
	p.Press("Undo")
	p.Wait(settled)
	assert.Equal(t, "rectangle", Eval[string](p, state+`.effective('panel.shape')`))
}
