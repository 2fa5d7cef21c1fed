package browser

import (
	"strconv"
	"testing"
)

// dragged moves the handle that is held by hand 90 times, once a frame, and tells in ms:
// what the main thread works on a frame, and how long it is from the event of a move to
// the frame that shows its answer. Moves whose answer a newer one overtook show nothing.
const dragged = `(async (id, x, y) => {
  const s = ` + state + `, canvas = document.querySelector('[data-handle="' + id + '"]').closest('svg');
  const painted = () => new Promise((r) => { const c = new MessageChannel(); c.port1.onmessage = r; c.port2.postMessage(0); });
  const frame = () => new Promise(requestAnimationFrame);
  const shown = [], work = [];
  let spent = 0;
  // Work is the event's handler, the answer with all that is redrawn after it, and the frame.
  const tell = s.tell.bind(s);
  s.tell = (topic) => { const t = performance.now(); tell(topic); painted().then(() => { spent += performance.now() - t; }); };
  const pull = s.held.pull.bind(s.held);
  s.held.pull = async (grip, drag) => {
    const t = performance.now(), was = s.asked.picture;
    await pull(grip, drag);
    if (s.asked.picture === was) return;
    await frame();
    await painted();
    shown.push(performance.now() - t);
  };
  for (let i = 0; i < 90; i++) {
    await frame();
    const t = performance.now();
    canvas.dispatchEvent(new PointerEvent('pointermove', { pointerId: 1, pointerType: 'mouse', bubbles: true,
      clientX: x - 12 * Math.sin(i / 15), clientY: y - 12 * Math.sin(i / 20) }));
    await painted();
    work.push(performance.now() - t + spent);
    spent = 0;
  }
  while (!s.asked.core.idle) await frame();
  s.held.pull = pull;
  delete s.tell;
  const median = (a) => a.sort((p, q) => p - q)[(a.length - 1) >> 1];
  return [median(work), median(shown), shown.length];
})`

// BenchmarkDrag drags a handle of each example, as the page opens.
func BenchmarkDrag(b *testing.B) {
	p := chrome.Open(b, Serve(b, dist))
	p.Wait(settled)
	for _, id := range Eval[[]string](p, state+`.asked.controls.examples.map((e) => e.id)`) {
		b.Run(id, func(b *testing.B) {
			Eval[Void](p, state+`.replace(`+state+`.asked.controls.examples.find((e) => e.id === `+quote(id)+`).design, 'example')`)
			p.Wait(settled)
			handle := Eval[string](p, state+`.asked.plan.drawings.flatMap((d) => d.handles ?? [])[0].id`)
			hand := p.Grab(knob(handle))
			defer hand.LetGo()
			at := where(p, handle)
			var work, shown, count []float64
			for b.Loop() {
				s := Eval[[3]float64](p, dragged+`(`+quote(handle)+`, `+strconv.FormatFloat(at[0], 'f', 2, 64)+`, `+strconv.FormatFloat(at[1], 'f', 2, 64)+`)`)
				work, shown, count = append(work, s[0]), append(shown, s[1]), append(count, s[2])
			}
			b.ReportMetric(median(work), "ms-work-a-frame")
			b.ReportMetric(median(shown), "ms-to-shown")
			b.ReportMetric(median(count)/0.9, "percent-shown")
		})
	}
}
