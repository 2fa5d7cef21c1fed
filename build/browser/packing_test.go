package browser

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	maker "springrib/internal/design"
	"springrib/internal/plan"
	nest "springrib/internal/sheet"
)

// fortyParts is forty parts of four kinds, an invented screen of ten leaves: each a panel
// shaped like a lens on three ribs of which no two are alike.
func fortyParts() maker.Document {
	d := maker.Examples()[0].Design
	d.Name = "Screen of ten leaves"
	d.Curve.Kind, d.Curve.Radius, d.Curve.Angle = "radius-angle", "130", "75"
	d.Panel.Shape, d.Panel.Width, d.Panel.Length, d.Panel.Quantity = "lens", "90", "", "10"
	d.Rib.Places = []maker.RibPlace{{Across: "-22"}, {Across: "0"}, {Across: "12"}}
	d.Machine.BedWidth, d.Machine.BedHeight = "900", "600"
	d.Cut.Turns = "quarter"
	return d
}

// planOf works out the design that a page has now, natively.
func planOf(t testing.TB, p *Page) plan.Plan {
	t.Helper()
	var d maker.Document
	require.NoError(t, json.Unmarshal([]byte(Eval[string](p, `JSON.stringify(`+state+`.doc)`)), &d))
	v, _ := maker.Read(d)
	out := plan.Make(v)
	require.True(t, out.Drawn, "%+v", out.Findings)
	return out
}

// sound holds a layout against the exact check, and counts its parts.
func sound(t testing.TB, p plan.Plan) (parts int) {
	t.Helper()
	for i := range p.Lay.Sheets {
		g := &p.Lay.Sheets[i]
		require.Empty(t, g.Layout.Missing)
		require.Empty(t, nest.Verify(&g.Job, &g.Layout), "as laid")
		parts += len(g.Layout.Placed)
	}
	return parts
}

// taken is the length of sheet that a plan uses, mm.
func taken(p plan.Plan) float64 {
	length := 0.0
	for _, g := range p.Lay.Sheets {
		for _, s := range g.Layout.Sheets {
			length += s.Length
		}
	}
	return length
}

// put makes a design the page's.
func (p *Page) put(t testing.TB, d maker.Document) {
	t.Helper()
	raw, err := json.Marshal(d)
	require.NoError(t, err)
	Eval[Void](p, state+`.replace(`+string(raw)+`, 'a test')`)
	p.Wait(settled)
}

// showSheets opens the drawings of the sheets, where the means to pack are.
func (p *Page) showSheets() {
	p.t.Helper()
	Eval[Void](p, `(async () => { const f = `+find+`;
  const label = f.all('label').find((l) => f.shown(l) && /^On (the sheet|\d+ sheets)$/.test(f.said(l)));
  if (!label) throw new Error('no view of the sheets');
  label.click();
})()`)
	p.Wait(find + `.all('springrib-packing').some(` + find + `.shown)`)
}

const (
	packingSaid = find + `.said(` + find + `.all('springrib-packing [role=status]')[0])`
	packing     = `Boolean(` + find + `.all('springrib-packing progress')[0])`
)

// Forty mixed parts are packed when the button is pressed: how far it is is shown, and what
// is kept is sound and takes less of the sheet than rows do.
func TestPackingOfFortyParts(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.put(t, fortyParts())
	rows := planOf(t, p)
	require.Equal(t, 40, sound(t, rows))
	kinds := 0
	for _, g := range rows.Lay.Sheets {
		kinds += len(g.Parts)
	}
	require.Equal(t, 4, kinds)
	p.showSheets()
	// Every share of the work that the bar shows, as it shows it.
	Eval[Void](p, `(() => { window.shares = []; const look = () => { const b = `+find+`.all('springrib-packing progress')[0];
  if (b && window.shares.at(-1) !== b.value) window.shares.push(b.value); requestAnimationFrame(look) }; look() })()`)
	p.Press("Pack closer")
	p.Wait(packing)
	p.Wait(`window.shares.length > 4`)
	p.Press("Stop") // all of the effort is half a minute's work
	p.Wait(settled)
	shares := Eval[[]float64](p, `window.shares`)
	require.GreaterOrEqual(t, len(shares), 3, "%v", shares)
	assert.Zero(t, shares[0])
	assert.IsIncreasing(t, shares)
	said := Eval[string](p, packingSaid)
	assert.Regexp(t, `^On \d sheets?; of the last one .* is used, \d+ % of that by parts\. Stopped there\.$`, said)
	packed := planOf(t, p)
	require.Equal(t, 40, sound(t, packed))
	assert.True(t, packed.Lay.Sheets[0].Packed)
	assert.Less(t, taken(packed), 0.9*taken(rows), "rows take %.0f mm, packed %.0f", taken(rows), taken(packed))
	// What the page draws are those places: as many outlines of parts as there are parts.
	assert.Contains(t, said, fmt.Sprintf("On %d sheet", len(packed.Lay.Jobs)))
	p.Screenshot("packed")

	// One step of undo brings the rows back.
	Eval[Void](p, state+`.undo()`)
	p.Wait(settled)
	assert.InDelta(t, taken(rows), taken(planOf(t, p)), 1e-9)
}

// Stopped in the middle, packing ends at once, and what is there then is a sound layout of
// all parts; the page answers meanwhile.
func TestPackingStops(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	p.put(t, fortyParts())
	p.showSheets()
	p.Press("Pack closer")
	p.Wait(packing + ` && ` + packingSaid + ` !== 'Packing…'`) // the first layout is there
	p.Press("Stop")
	assert.False(t, Eval[bool](p, packing))
	assert.Contains(t, Eval[string](p, packingSaid), "Stopped")
	p.Wait(settled)
	first := planOf(t, p)
	require.Equal(t, 40, sound(t, first))
	assert.True(t, first.Lay.Sheets[0].Packed)
	// Nothing more comes of it.
	Eval[Void](p, `new Promise((r) => setTimeout(r, 500))`)
	assert.InDelta(t, taken(first), taken(planOf(t, p)), 1e-9)

	// Pressed again it goes on from there: what is kept is never less close.
	p.Press("Pack closer")
	p.Wait(packing + ` && ` + packingSaid + ` !== 'Packing…'`)
	p.Press("Stop")
	p.Wait(settled)
	again := planOf(t, p)
	require.Equal(t, 40, sound(t, again))
	assert.LessOrEqual(t, taken(again), taken(first)+1e-5, "places are kept to 0.000001 mm")

	// Stopped before anything is laid, the design is as it was.
	p.Press("Lay in rows again")
	p.Wait(settled)
	before := Eval[string](p, `JSON.stringify(`+state+`.doc)`)
	Eval[Void](p, `(() => { const f = `+find+`; f.one('button', 'Pack closer').click(); return f.all('springrib-packing')[0].updateComplete.then(() => f.one('button', 'Stop').click()) })()`)
	p.Wait(`!(` + packing + `)`)
	assert.Contains(t, Eval[string](p, packingSaid), "Stopped before anything was laid")
	assert.Equal(t, before, Eval[string](p, `JSON.stringify(`+state+`.doc)`))
}

// The worker that packs is given the core that the first worker compiled; the page compiles none.
func TestPackingCompilesNothingAnew(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Blank(t)
		p.BeforePage(watchWorkers + `
  window.compiled = 0;
  for (const how of ['compile', 'compileStreaming', 'instantiate', 'instantiateStreaming']) {
    const plain = WebAssembly[how];
    WebAssembly[how] = (...given) => { window.compiled++; return plain.apply(WebAssembly, given); };
  }
  window.given = [];
  const post = Plain.prototype.postMessage;
  Plain.prototype.postMessage = function (m, ...rest) { if (m?.kind === 'start') given.push([workers.indexOf(this), m.wasm instanceof WebAssembly.Module]); return post.call(this, m, ...rest); };`)
		p.Go(url)
		p.Wait(settled)
		p.put(t, fortyParts())
		p.showSheets()
		p.Press("Pack closer")
		p.Wait(packing + ` && ` + packingSaid + ` !== 'Packing…'`)
		count := Eval[int](p, "workers.length")
		assert.GreaterOrEqual(t, count, 2)
		assert.Zero(t, Eval[int](p, "window.compiled"))
		given := Eval[string](p, "JSON.stringify(given)")
		for k := 1; k < count; k++ {
			assert.Contains(t, given, fmt.Sprintf("[%d,true]", k))
		}
		p.Press("Stop")
	})
}

// A worker that dies while it packs is replaced, and what was found stays.
func TestPackingOutlivesItsWorkers(t *testing.T) {
	p := chrome.Blank(t)
	p.BeforePage(watchWorkers)
	p.Go(Serve(t, dist))
	p.Wait(settled)
	p.put(t, fortyParts())
	p.showSheets()
	p.Press("Pack closer")
	p.Wait(packing + ` && ` + packingSaid + ` !== 'Packing…'`)
	before := Eval[int](p, "workers.length")
	first := planOf(t, p)
	Eval[Void](p, `(() => { for (const w of workers.slice(1)) { w.terminate(); w.onerror?.(new ErrorEvent('error', { message: 'killed', cancelable: true })) } })()`)
	p.Wait(fmt.Sprintf("workers.length > %d && ", before) + packing)
	p.Press("Stop")
	p.Wait(settled)
	last := planOf(t, p)
	require.Equal(t, 40, sound(t, last))
	assert.LessOrEqual(t, taken(last), taken(first)+1e-5)
}

// BenchmarkPacking tells how long after the press the first layout of forty mixed parts
// stands, and the second, which gains little from there on, and how much of the sheet each
// leaves used against rows.
func BenchmarkPacking(b *testing.B) {
	p := chrome.Open(b, Serve(b, dist))
	p.Wait(settled)
	p.put(b, fortyParts())
	rows := taken(planOf(b, p))
	p.showSheets()
	var first, good, rest []float64
	var after [2]float64
	for b.Loop() {
		// The places of each round, with the time since the press.
		Eval[Void](p, `(() => { const s = `+state+`; window.laid = []; let was = JSON.stringify(s.doc.cut.places ?? []); const start = performance.now();
  const look = () => { const now = JSON.stringify(s.doc.cut.places ?? []), said = `+packingSaid+`;
    if (said.startsWith('On ') && (now !== was || said !== window.said)) { was = now; window.said = said; window.laid.push([performance.now() - start, JSON.stringify(s.doc)]) }
    window.watch = setTimeout(look, 5) };
  window.said = ''; `+find+`.one('button', 'Pack closer').click(); look() })()`)
		p.Wait(packing)
		for Eval[bool](p, packing) {
			Eval[Void](p, `new Promise((r) => setTimeout(r, 200))`)
		}
		laid := Eval[[][2]any](p, `(clearTimeout(window.watch), window.laid)`)
		require.NotEmpty(b, laid)
		first = append(first, laid[0][0].(float64))
		second := laid[min(1, len(laid)-1)]
		good = append(good, second[0].(float64))
		rest = append(rest, laid[len(laid)-1][0].(float64))
		for i, l := range [][2]any{laid[0], second} {
			var d maker.Document
			require.NoError(b, json.Unmarshal([]byte(l[1].(string)), &d))
			v, _ := maker.Read(d)
			packed := plan.Make(v)
			require.Equal(b, 40, sound(b, packed))
			after[i] = taken(packed) / rows
		}
		p.Press("Lay in rows again")
		p.Wait(settled)
	}
	b.ReportMetric(median(first), "ms-to-first")
	b.ReportMetric(median(good), "ms-to-good")
	b.ReportMetric(median(rest), "ms-to-last-gain")
	b.ReportMetric(after[0], "first-over-rows")
	b.ReportMetric(after[1], "good-over-rows")
}
