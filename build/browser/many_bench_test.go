package browser

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/systeminfo"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	maker "springrib/internal/design"
)

// mostMemory is what the core may take for a job of two hundred parts and twenty thousand
// scores, MB.
const mostMemory = 512

// manyParts is two hundred parts with twenty thousand scores, an invented wall of a hundred
// leaves: a panel of two hundred scores each, and its rib.
func manyParts() maker.Document {
	d := maker.Examples()[0].Design
	d.Name = "Wall of a hundred leaves"
	d.Curve.Kind, d.Curve.Length, d.Curve.Radius = "length-radius", "500", "400"
	d.Panel.Shape, d.Panel.Width, d.Panel.Length, d.Panel.Quantity = "rectangle", "60", "", "100"
	d.Panel.Spacing, d.Panel.Count, d.Panel.Finish = "count", "200", "any"
	d.Rib.Quantity, d.Rib.Caul = "1", "no"
	d.Machine.BedWidth, d.Machine.BedHeight = "1200", "900"
	return d
}

// measured puts a script before the worker's own that tells, when asked on a channel, how
// large the memory of the core is; such a memory never shrinks. A core is given a minute
// where a page gives ten seconds: a busy machine is not the subject here.
const measured = `
  const later = setTimeout;
  const before = [
    "let memory; const made = WebAssembly.instantiate;",
    "WebAssembly.instantiate = (...a) => made(...a).then((r) => { memory = (r.instance ?? r).exports.mem; return r });",
    "const channel = new BroadcastChannel('memory');",
    "channel.onmessage = (e) => { if (e.data === 'how much') channel.postMessage(memory?.buffer.byteLength ?? 0) };",
  ].join('');
  const named = URL.createObjectURL;
  URL.createObjectURL = (b) => named(/javascript/.test(b.type) ? new Blob([before, b], { type: b.type }) : b);
  window.setTimeout = (f, ms, ...rest) => later(f, ms === 10000 ? 60000 : ms, ...rest);`

// wasm returns the size of the core's memory, MB.
func wasm(p *Page) float64 {
	return Eval[float64](p, `new Promise((done) => { const c = new BroadcastChannel('memory');
  c.onmessage = (e) => { if (typeof e.data === 'number') { c.close(); done(e.data / 1048576) } }; c.postMessage('how much') })`)
}

var highWater = regexp.MustCompile(`VmHWM:\s+(\d+) kB`)

// peak returns the most memory that any renderer of the browser has taken, in MB, as the
// system counts it: page, worker and the browser's own code together. 0 where the system
// does not tell.
func peak(t testing.TB, b *Browser) float64 {
	t.Helper()
	list, err := chromedp.CallBrowser(b.ctx, systeminfo.GetProcessInfo, cdp.Empty{})
	require.NoError(t, err)
	most := 0.0
	for _, p := range list.ProcessInfo {
		if p.Type != "renderer" {
			continue
		}
		status, err := os.ReadFile(filepath.Join("/proc", strconv.FormatInt(p.ID, 10), "status"))
		if err != nil {
			continue
		}
		if m := highWater.FindSubmatch(status); m != nil {
			kb, _ := strconv.ParseFloat(string(m[1]), 64)
			most = max(most, kb/1024)
		}
	}
	return most
}

// BenchmarkManyParts plans two hundred parts with twenty thousand scores in the page and
// makes every file, and tells how long each takes and how much memory all of it needed: of
// the core, and of the whole process at each stage, the browser's own code and the page's
// pictures with it. It fails when the core's is more than mostMemory.
func BenchmarkManyParts(b *testing.B) {
	raw, err := json.Marshal(manyParts())
	require.NoError(b, err)
	var planned, made, zipped, shown []float64
	var before, drawn, loose, high, core float64
	for b.Loop() {
		alone, err := Start() // its memory is that of this page alone
		require.NoError(b, err)
		p := alone.Blank(b)
		p.BeforePage(measured)
		p.Go(Serve(b, dist))
		p.Wait(settled)
		before = max(before, peak(b, alone))
		planned = append(planned, Eval[float64](p, `(async () => { const s = `+state+`, start = performance.now();
  s.replace(`+string(raw)+`, 'a test');
  while (s.asked.picture?.doc !== s.doc || !s.asked.core.idle) await new Promise((r) => setTimeout(r, 10));
  return performance.now() - start })()`))
		shown = append(shown, Eval[float64](p, `(async () => { const s = `+state+`, start = performance.now(); s.set('panel.width', '60.5', true);
  while (s.asked.picture?.doc !== s.doc || !s.asked.core.idle) await new Promise((r) => setTimeout(r, 10));
  return performance.now() - start })()`))
		drawn = max(drawn, peak(b, alone))
		job := planOf(b, p)
		require.Equal(b, 200, sound(b, job))
		require.Equal(b, 20000, job.ScoresCut()*100)
		total, bytes := 0.0, 0
		files := Eval[[]string](p, state+`.asked.plan.files.map((f) => f.name)`)
		require.Greater(b, len(files), 10)
		for _, name := range files {
			r := Eval[[2]any](p, `(async () => { const s = `+state+`, start = performance.now();
  const a = await s.asked.core.ask({ kind: 'file', design: s.doc, file: `+quote(name)+` });
  const f = a.reply.file;
  return [performance.now() - start, f ? (f.text || f.base64 || '').length : String(a.reply.error)] })()`)
			size, _ := r[1].(float64)
			assert.Greater(b, size, 100.0, "%s: %v", name, r[1])
			total += r[0].(float64)
			bytes += int(size)
			if strings.HasSuffix(name, ".zip") {
				zipped = append(zipped, r[0].(float64))
			} else {
				loose = max(loose, peak(b, alone))
			}
		}
		made = append(made, total)
		high = max(high, peak(b, alone))
		core = max(core, wasm(p))
		require.Greater(b, core, 4.0, "the core's memory was found")
		b.Logf("%d files, %.1f MB of them: %s", len(files), float64(bytes)/1e6, strings.Join(files[:3], ", "))
		p.Close()
		alone.Close()
	}
	b.Logf("MB: empty page %.0f, planned %.0f, single files %.0f, all %.0f; the core alone %.0f", before, drawn, loose, high, core)
	b.ReportMetric(median(planned), "ms-to-plan")
	b.ReportMetric(median(shown), "ms-to-change")
	b.ReportMetric(median(made), "ms-to-all-files")
	b.ReportMetric(before, "MB-empty-page")
	b.ReportMetric(drawn, "MB-planned")
	b.ReportMetric(median(zipped), "ms-to-zip")
	b.ReportMetric(loose, "MB-single-files")
	b.ReportMetric(high, "MB-all-files")
	b.ReportMetric(core, "MB-core")
	if core > mostMemory {
		b.Errorf("%.0f MB of the core's memory are more than %d", core, mostMemory)
	}
}
