package browser

import (
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// Hand is the mouse with its button held down, somewhere on the page.
type Hand struct {
	p    *Page
	x, y float64
	down bool
}

// Grab presses the mouse down in the middle of the one element that fits a selector.
func (p *Page) Grab(selector string) *Hand {
	p.t.Helper()
	at := Eval[[2]float64](p, `(() => {
  const e = `+find+`.all(`+quote(selector)+`);
  if (e.length !== 1) throw new Error(e.length + ' of ' + `+quote(selector)+`);
  return `+standing+`(e[0]);
})()`)
	h := &Hand{p: p, x: at[0], y: at[1]}
	h.event(chromedp.MouseMoved)
	h.down = true
	h.event(chromedp.MousePressed)
	return h
}

// Move moves the hand by so many pixels, in steps as a hand does.
func (h *Hand) Move(dx, dy float64, steps int) {
	h.p.t.Helper()
	for range steps {
		h.x, h.y = h.x+dx/float64(steps), h.y+dy/float64(steps)
		h.event(chromedp.MouseMoved)
	}
}

// LetGo lifts the button.
func (h *Hand) LetGo() {
	h.p.t.Helper()
	h.down = false
	h.event(chromedp.MouseReleased)
}

func (h *Hand) event(kind input.DispatchMouseEventType) {
	h.p.t.Helper()
	h.p.do(chromedp.MouseEvent(kind, h.x, h.y, chromedp.ButtonLeft, chromedp.ClickCount(1), func(e *input.DispatchMouseEventParams) {
		if h.down {
			e.Buttons = 1
		}
	}))
}

// Hover moves the mouse to a place of the window.
func (p *Page) Hover(x, y float64) {
	p.t.Helper()
	p.do(chromedp.MouseEvent(chromedp.MouseMoved, x, y))
}

// Swipe puts one finger down at a place of the window, moves it and lifts it.
func (p *Page) Swipe(x, y, dx, dy float64) {
	p.t.Helper()
	const steps = 10
	touch := func(kind input.DispatchTouchEventType, points ...*input.TouchPoint) {
		_, err := chromedp.Call(p.ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
		p.must(err)
	}
	touch(input.DispatchTouchEventTypeTouchStart, &input.TouchPoint{X: x, Y: y})
	for i := 1; i <= steps; i++ {
		touch(input.DispatchTouchEventTypeTouchMove, &input.TouchPoint{X: x + dx*float64(i)/steps, Y: y + dy*float64(i)/steps})
	}
	touch(input.DispatchTouchEventTypeTouchEnd)
}
