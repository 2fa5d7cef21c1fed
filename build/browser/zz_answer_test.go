package browser

import (
	"fmt"
	"testing"
)

func TestZZAnswer(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	for _, id := range Eval[[]string](p, state+`.controls.examples.map((e) => e.id)`) {
		Eval[Void](p, state+`.replace(`+state+`.controls.examples.find((e) => e.id === `+quote(id)+`).design, 'example')`)
		p.Wait(settled)
		r := Eval[[]float64](p, `(async () => {
			const s = `+state+`; const h = s.plan.drawings.flatMap((d) => d.handles ?? [])[0];
			const ts = [];
			for (let i = 0; i < 150; i++) {
				const t = performance.now();
				await s.core.ask({kind:'plan', design: s.doc, drag: {handle: h.id, x: h.x + 4*Math.sin(i/15), y: h.y + 4*Math.sin(i/20)}});
				ts.push(performance.now() - t);
			}
			const m = (a) => a.slice().sort((p,q)=>p-q)[a.length>>1];
			return [m(ts.slice(0,20)), m(ts.slice(50)), Math.min(...ts)];
		})()`)
		fmt.Printf("%-20s first20 %.1f later %.1f min %.1f\n", id, r[0], r[1], r[2])
	}
}
