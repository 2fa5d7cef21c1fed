package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A reading typed into the page is used at once, told on the card and drawn; one that
// can't be is said to be, and changes nothing.
func TestReadingsOfStripsAreTypedAndDrawn(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	typeLampShade(p)
	p.openCard("Test strips")
	p.Press("Add a reading")
	p.Wait(settled)
	p.Choose("Reading", "Skin of a snapped tongue")
	p.Wait(settled)
	// The names in a row are those of its heads, so its boxes are found by their paths.
	fill := func(column, text string) {
		Eval[Void](p, state+`.set('strips.readings.0.`+column+`', `+quote(text)+`, true)`)
	}
	fill("passes", "2")
	fill("value", "-0.7")
	p.Wait(settled)
	skin := state + `.asked.plan.numbers.find((n) => n.id === 'skin').text`
	before := Eval[string](p, skin)
	assert.True(t, Eval[bool](p, state+`.asked.plan.findings.some((f) => f.id === 'reading-not-positive' && f.severity === 'warn')`))
	fill("value", "0.7")
	p.Wait(settled)
	assert.NotEqual(t, before, Eval[string](p, skin))
	assert.Contains(t, Eval[string](p, state+`.asked.plan.cards.strips`), "of skin after two passes")
	assert.True(t, Eval[bool](p, `(() => {
  const s = `+find+`;
  const side = s.all('input[name=side]').at(-1);
  side.click();
  return true;
})()`))
	p.Wait(settled)
	assert.True(t, Eval[bool](p, `!!document.querySelector('#drawing-readings .ink.point')`), "the reading is a point in the drawing")
	assert.True(t, Eval[bool](p, `!!document.querySelector('#drawing-strips1 .ink.score')`), "the strips lie on their sheet")
	p.Screenshot("strips")
}
