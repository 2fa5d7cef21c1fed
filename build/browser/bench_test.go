package browser

import (
	"sort"
	"testing"
)

// The figures that a person feels, each as a median over the runs of the benchmark.
// "make speed" runs them 15 times.

// median returns the middle of the samples, the lower of two.
func median(samples []float64) float64 {
	sort.Float64s(samples)
	return samples[(len(samples)-1)/2]
}

// drawn is a path of the bent or flat drawing.
const drawn = `document.querySelector('springrib-stage svg path[d]')`

// noteFirstDrawing keeps when the first drawing was on the screen, when the core had
// answered for the first time, in ms after the navigation began, and by how much what was
// shown moved by itself: the sum of layout shifts as the W3C's Layout Instability has them.
const noteFirstDrawing = `
  const shown = (then) => {
    const done = new MessageChannel();
    done.port1.onmessage = () => then(performance.now());
    done.port2.postMessage(0); // after the frame is painted
  };
  // A drawing that is put in while nothing has been painted yet is on the screen with the first paint.
  const look = new MutationObserver(() => {
    if (!` + drawn + `) return;
    look.disconnect();
    const put = performance.now();
    requestAnimationFrame(() => shown((at) => { Object.assign(window, { put, firstDrawing: at }); }));
  });
  look.observe(document, { childList: true, subtree: true });
  const wait = () => {
    if (document.querySelector('springrib-page')?.state?.asked.live) window.firstLive = performance.now();
    else setTimeout(wait, 5);
  };
  wait();
  window.shifts = [];
  new PerformanceObserver((list) => {
    for (const e of list.getEntries()) shifts.push({ at: e.startTime, value: e.value,
      of: e.sources.map((s) => (s.node?.outerHTML ?? s.node?.nodeName ?? '').slice(0, 80) + JSON.stringify([s.previousRect, s.currentRect].map((r) => [r.x, r.y, r.width, r.height]))) });
  }).observe({ type: 'layout-shift', buffered: true });`

// opening is what noteFirstDrawing has noted.
type opening struct{ Drawing, Live, Shift float64 }

// noted waits until the core has answered everything and returns how the page came.
func noted(p *Page) opening {
	p.t.Helper()
	p.Wait("window.firstDrawing && window.firstLive && " + settled)
	return Eval[opening](p, "({ drawing: performance.getEntriesByName('first-contentful-paint').find((e) => e.startTime >= put)?.startTime ?? firstDrawing, live: firstLive, shift: shifts.reduce((sum, s) => sum + s.value, 0) })")
}

// BenchmarkFirstDrawing opens the page with nothing kept and nothing cached.
func BenchmarkFirstDrawing(b *testing.B) {
	bothWaysBench(b, func(b *testing.B, url string) {
		var drawing, live, shift []float64
		for b.Loop() {
			p := chrome.Blank(b)
			p.BeforePage(noteFirstDrawing)
			p.Go(url)
			o := noted(p)
			drawing, live, shift = append(drawing, o.Drawing), append(live, o.Live), append(shift, o.Shift)
			p.Close()
		}
		b.ReportMetric(median(drawing), "ms-to-drawing")
		b.ReportMetric(median(live), "ms-to-live")
		b.ReportMetric(median(shift), "layout-shift")
	})
}

// change changes the panel's width a little and tells how long it took until the answer
// was in the document and until it was on the screen, in ms.
const change = `(async () => {
  const s = document.querySelector('springrib-page').state;
  const now = s.effective('panel.width'), number = /^[\d.]+/.exec(now)?.[0] ?? '40';
  const start = performance.now();
  s.set('panel.width', now.replace(/^[\d.]*/, String(Number(number) + (Math.random() < 0.5 ? 0.5 : -0.5))), true);
  while (s.asked.picture.doc !== s.doc) await new Promise((r) => setTimeout(r));
  const answered = performance.now() - start;
  await new Promise(requestAnimationFrame);
  await new Promise((r) => { const c = new MessageChannel(); c.port1.onmessage = r; c.port2.postMessage(0); });
  return [answered, performance.now() - start];
})()`

// BenchmarkRedraw changes each example and waits for its new drawing.
func BenchmarkRedraw(b *testing.B) {
	p := chrome.Open(b, Serve(b, dist))
	p.Wait(settled)
	for _, id := range Eval[[]string](p, state+`.asked.controls.examples.map((e) => e.id)`) {
		b.Run(id, func(b *testing.B) {
			Eval[Void](p, state+`.replace(`+state+`.asked.controls.examples.find((e) => e.id === `+quote(id)+`).design, 'example')`)
			p.Wait(settled)
			for range 20 { // compiled code first: a person changes things more than once
				Eval[[2]float64](p, change)
			}
			var answered, shown []float64
			for b.Loop() {
				s := Eval[[2]float64](p, change)
				p.Wait(settled)
				answered, shown = append(answered, s[0]), append(shown, s[1])
			}
			b.ReportMetric(median(answered), "ms-to-answer")
			b.ReportMetric(median(shown), "ms-to-drawing")
		})
	}
}

func bothWaysBench(b *testing.B, bench func(b *testing.B, url string)) {
	b.Run("served", func(b *testing.B) { bench(b, Serve(b, dist)) })
	b.Run("disk", func(b *testing.B) { bench(b, OnDisk(b, dist)) })
}
