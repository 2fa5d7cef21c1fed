package browser

import (
	"bytes"
	"encoding/json"
	"image"
	"image/color"
	"image/png"
	"reflect"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/view"
	"springrib/internal/wire"
)

// inSpace waits for the view in space to stand there, bent.
func inSpace(p *Page) {
	p.t.Helper()
	p.Wait(`document.querySelector('springrib-space')?.view?.panel || document.querySelector('springrib-space svg.drawing')`)
	p.Wait(settled)
	p.Wait(`!document.querySelector('springrib-space').busy`)
}

// still is the picture of the view in space that the page saves.
func still(t *testing.T, p *Page) image.Image {
	t.Helper()
	name, content := p.Download(func() { p.Press("Save a picture") })
	assert.Regexp(t, `^[\w-]+-bent\.png$`, name)
	picture, err := png.Decode(bytes.NewReader(content))
	require.NoError(t, err)
	return picture
}

// inked is the share of a picture that is not its paper, the colour of its corner.
func inked(picture image.Image) float64 {
	b := picture.Bounds()
	paper := color.NRGBAModel.Convert(picture.At(b.Min.X, b.Min.Y))
	n, all := 0, 0
	for y := b.Min.Y; y < b.Max.Y; y += 4 {
		for x := b.Min.X; x < b.Max.X; x += 4 {
			all++
			if color.NRGBAModel.Convert(picture.At(x, y)) != paper {
				n++
			}
		}
	}
	return float64(n) / float64(all)
}

// differ is the share of two pictures of one size that is not alike.
func differ(a, b image.Image) float64 {
	n, all := 0, 0
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y += 4 {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x += 4 {
			all++
			if a.At(x, y) != b.At(x, y) {
				n++
			}
		}
	}
	return float64(n) / float64(all)
}

func TestThePanelIsShownBentInSpace(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		inSpace(p)
		assert.True(t, Eval[bool](p, `'springribScene' in globalThis`))
		glued := still(t, p)
		assert.Equal(t, 2400, glued.Bounds().Dx())
		assert.Greater(t, inked(glued), 0.1, "the panel fills a good part of the picture")
		assert.Less(t, inked(glued), 0.9)

		p.focus("Bend it")
		p.Key(kb.Home)
		assert.Equal(t, "flat", p.Text(".space-tools output"))
		flat := still(t, p)
		assert.Greater(t, differ(glued, flat), 0.05)
		p.focus("Bend it")
		p.Key(kb.End)
		assert.Equal(t, "glued", p.Text(".space-tools output"))
		assert.Less(t, differ(glued, still(t, p)), 0.002, "and back")
	})
}

// Bent to a share of the scores, what is still straight is where the core says: the
// place beside a score moves from where it lies flat to where it is bent, and one that is
// bent stays.
func TestTheSlideBendsFromTheFoot(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	inSpace(p)
	at := func(score string) [3]float64 {
		return Eval[[3]float64](p, `document.querySelector('springrib-space').view.panel.beside(`+score+`).toArray()`)
	}
	bend := func(share string) {
		Eval[Void](p, `(() => { const s = document.querySelector('#bend-slide'); s.value = `+share+`; s.dispatchEvent(new Event('input', { bubbles: true })) })()`)
	}
	scores := Eval[string](p, `String(`+state+`.asked.picture.plan.scores.length)`)
	first, last := at("1"), at(scores)
	bend("400")
	assert.Equal(t, first, at("1"), "what is glued stays")
	assert.NotEqual(t, last, at(scores))
	bend("0")
	flat := at(scores)
	bend("1000")
	assert.Equal(t, last, at(scores))
	assert.Greater(t, flat[1], last[1]+20, "straight from the foot it stands up in the air")
}

func TestTheViewInSpaceIsTurnedByKeysAndByHand(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	inSpace(p)
	eye := func() [3]float64 {
		return Eval[[3]float64](p, `document.querySelector('springrib-space').view.world.camera.position.toArray()`)
	}
	began := eye()
	Eval[Void](p, `document.querySelector('.space-stage').focus()`)
	p.Key(kb.ArrowRight)
	p.Key(kb.ArrowUp)
	turned := eye()
	assert.Greater(t, turned[0], began[0]+10, "the eye goes to the right")
	assert.Greater(t, turned[1], began[1]+10, "and up")
	p.Key("+")
	nearer := eye()
	assert.NotEqual(t, turned, nearer)
	p.Key("0")
	fitted := eye()
	for i := range fitted {
		assert.InDelta(t, turned[i], fitted[i], 1e-6, "fitted from where one looks")
	}
	p.Key(kb.Home)
	home := eye()
	for i := range home {
		assert.InDelta(t, began[i], home[i], 1e-6, "as it began")
	}
	hand := p.Grab(".space-stage canvas")
	hand.Move(80, 20, 6)
	hand.LetGo()
	assert.NotEqual(t, home, eye())
	p.Press("Turn it back")
	again := eye()
	for i := range again {
		assert.InDelta(t, began[i], again[i], 1e-6)
	}
}

func TestAScoreIsLitInSpaceAndFromThere(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	inSpace(p)
	const view = `document.querySelector('springrib-space').view`
	p.focus("Along the scores")
	p.Key(kb.ArrowRight)
	assert.Equal(t, 2, Eval[int](p, view+`.lit`))
	assert.Equal(t, 1, Eval[int](p, view+`.marks.group.children.length`), "its number stands beside it")
	// The mouse over the panel's edge where score 40 is.
	at := Eval[[2]float64](p, `(() => { const v = `+view+`, c = v.world.canvas; c.scrollIntoView({ block: 'center', behavior: 'instant' });
  const r = c.getBoundingClientRect(), q = v.beside(40).project(v.world.camera);
  return [r.x + (q.x + 1) / 2 * r.width, r.y + (1 - q.y) / 2 * r.height] })()`)
	p.Hover(at[0], at[1])
	p.Wait(state + `.focus.score === 40`)
	assert.Contains(t, p.Text("springrib-scores .told"), "40 of")
	p.Hover(2, 2)
	p.Wait(state + `.focus.score === undefined`)
}

// Scores near a limit carry a sign and their number, which are part of the picture.
func TestScoresNearALimitAreMarkedInSpace(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	typeLampShade(p)
	// Far too few scores for the bend.
	Eval[Void](p, `(() => { `+set("panel.spacing", "count")+`; `+set("panel.count", "18")+` })()`)
	p.Wait(settled)
	inSpace(p)
	marks := Eval[[]struct {
		First, Last int
		Text        string
	}](p, state+`.asked.picture.plan.space.marks`)
	require.NotEmpty(t, marks)
	near := Eval[[]int](p, state+`.asked.picture.plan.scores.filter((s) => s.near).map((s) => s.n)`)
	covered := 0
	for _, m := range marks {
		covered += m.Last - m.First + 1
		assert.Contains(t, near, m.First)
		assert.Contains(t, near, m.Last)
	}
	assert.Equal(t, len(near), covered, "every one, and no other")
	assert.Equal(t, len(marks), Eval[int](p, `document.querySelector('springrib-space').view.marks.group.children.length`))
}

// A base with several panels is shown with all of them, wherever they stand, and they bend
// as one; what is typed for their places moves them.
func TestEveryPanelOfABaseIsShownInSpace(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	Eval[Void](p, state+`.apply({ 'rib.foot': 'tenon', 'base.kind': 'ring', 'panel.quantity': '5' }, 'A ring')`)
	p.Wait(settled)
	inSpace(p)
	const view = `document.querySelector('springrib-space').view`
	p.Wait(view + `.others?.group.children.length === 4`)
	// Where the far end of a panel's straight part comes to stand.
	tips := func() [][3]float64 {
		return Eval[[][3]float64](p, `(() => { const v = `+view+`; v.others.group.updateMatrixWorld(true);
  return v.others.group.children.map((one) => one.children[0].children[0].matrixWorld.elements.slice(12, 15)) })()`)
	}
	glued := tips()
	p.focus("Bend it")
	p.Key(kb.Home)
	flat := tips()
	require.Len(t, flat, 4)
	for i := range flat {
		assert.NotEqual(t, glued[i], flat[i])
		assert.NotEqual(t, flat[i], flat[(i+1)%4], "each stands in its own place")
	}
	Eval[Void](p, `(() => { `+set("base.kind", "row")+`; `+set("base.copies", "2")+` })()`)
	p.Wait(settled)
	p.Wait(view + `.others.group.children.length === 1`)
	assert.Greater(t, inked(still(t, p)), 0.05)
	p.Press("Undo")
	p.Wait(view + `.others.group.children.length === 4`)
}

// noWebGL makes a browser that can't draw in space.
const noWebGL = `(() => { const get = HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = function (kind, ...rest) { return kind.startsWith('webgl') ? null : get.call(this, kind, ...rest) } })()`

func TestWithoutWebGLADrawingTakesItsPlace(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Blank(t)
		p.BeforePage(noWebGL)
		p.Go(url)
		p.Wait(settled)
		inSpace(p)
		p.Wait(`document.querySelector('springrib-space svg.drawing')`)
		assert.False(t, Eval[bool](p, `'springribScene' in globalThis`), "nothing is loaded in vain")
		d := `document.querySelector('springrib-space svg.drawing').innerHTML`
		glued := Eval[string](p, d)
		p.focus("Bend it")
		p.Key(kb.Home)
		p.Wait(settled)
		p.Wait(d + ` !== ` + quote(glued))
		assert.Equal(t, "flat", p.Text(".space-tools output"))
		assert.Empty(t, p.Violations())
	})
}

func TestALostContextGivesWayToTheDrawing(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	inSpace(p)
	Eval[Void](p, `document.querySelector('springrib-space').view.world.drawn.dispatchEvent(new Event('webglcontextlost'))`)
	p.Wait(`document.querySelector('springrib-space svg.drawing')`)
	p.Console() // three says that the context is lost
}

func TestTheViewInSpaceIsAccessible(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	inSpace(p)
	for _, width := range []int64{390, 1440} {
		p.Resize(width, 900)
		for _, scheme := range []string{"light", "dark"} {
			p.Scheme(scheme)
			p.Wait(settled)
			assert.Empty(t, p.Violations(), "%s at %d", scheme, width)
			p.Screenshot("space-" + scheme)
		}
	}
}

// Bodies, the drawing that stands in for them, and what a drag writes are the same in the
// browser as natively, to the last bit.
func TestSpaceAndDragsAreTheSameInTheBrowserAsNatively(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	controls, err := view.Core{}.Controls()
	require.NoError(t, err)
	for _, e := range controls.Examples {
		questions := []wire.Request{
			{Kind: "plan", Design: e.Design, Show: "space"},
			{Kind: "plan", Design: e.Design, Show: "isometric", Folded: 0.37},
		}
		var r wire.Reply
		require.NoError(t, json.Unmarshal(askHere(t, questions[0]).Reply, &r))
		for _, d := range r.Plan.Drawings {
			for _, h := range d.Handles {
				questions = append(questions, wire.Request{Kind: "plan", Design: e.Design, Drag: &wire.Drag{Handle: h.ID, X: h.X + 3.3, Y: h.Y - 4.1}})
			}
		}
		for _, q := range questions {
			here, there := askHere(t, q), askPage(p, q)
			assert.JSONEq(t, string(here.Reply), string(there.Reply), e.ID)
			assert.Equal(t, len(here.Streams), len(there.Streams), e.ID)
			for i := range here.Streams {
				assert.True(t, reflect.DeepEqual(here.Streams[i], there.Streams[i]), "%s, array %d", e.ID, i)
			}
		}
	}
}

// On a machine with a graphics card the thing casts a soft shadow: what is inked reaches
// beyond it. Without one the same view is drawn plain, and sooner.
func TestTheThingStandsLitWhereThereIsACard(t *testing.T) {
	plain := chrome.Open(t, Serve(t, dist))
	plain.Resize(1440, 900)
	inSpace(plain)
	p := chrome.Blank(t)
	p.BeforePage(`for (const g of [WebGL2RenderingContext.prototype]) { const was = g.getParameter; g.getParameter = function (name) { const v = was.call(this, name); return typeof v === 'string' ? v.replace(/swiftshader|llvmpipe|software/gi, 'card') : v } }`)
	p.Go(Serve(t, dist))
	p.Resize(1440, 900)
	p.Scheme("light")
	inSpace(p)
	assert.Greater(t, inked(still(t, p)), inked(still(t, plain))*1.02)
	Eval[Void](p, state+`.say(''); scrollTo(0, 0)`)
	p.Resize(1440, 900)
	p.View("lit")
}
