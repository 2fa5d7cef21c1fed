package view

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/intake"
	"springrib/internal/wire"
)

// hostileFile is a file made to hurt, within the size that the page takes.
type hostileFile struct {
	name string
	file func() string
}

// build joins n parts that one makes.
func build(n int, one func(b *strings.Builder, i int)) string {
	var b strings.Builder
	for i := range n {
		one(&b, i)
	}
	return b.String()
}

func inSVG(body string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="400mm" viewBox="0 0 400 400" fill="none" stroke="#000">` + body + `</svg>`
}

func inPath(data string) string { return inSVG(`<path d="` + data + `"/>`) }

func inDXF(entities string) string {
	return "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n" + entities + "0\nENDSEC\n0\nEOF\n"
}

// scattered returns a place of a sheet of 400 mm, another for each i.
func scattered(i int) (x, y float64) {
	return math.Mod(float64(i)*0.754877666*400, 400), math.Mod(float64(i)*0.569840291*400, 400)
}

// rings draws n circles in SVG.
func rings(n int, at func(i int) (x, y, r float64)) string {
	return inSVG(build(n, func(b *strings.Builder, i int) {
		x, y, r := at(i)
		fmt.Fprintf(b, `<circle cx="%.4f" cy="%.4f" r="%.4f"/>`, x, y, r)
	}))
}

// around returns path data of n points of a wavy ring.
func around(n int, r float64) string {
	return build(n, func(b *strings.Builder, i int) {
		a := 2 * math.Pi * float64(i) / float64(n)
		w := r * (1 + 0.1*math.Sin(9*a))
		fmt.Fprintf(b, "%c%.3f %.3f", "ML"[min(i, 1)], 200+w*math.Cos(a), 200+w*math.Sin(a))
	}) + "Z"
}

// hostiles are the classes of hostile file. Each is as large as the readers let it be, or as the
// page does.
func hostiles() []hostileFile {
	rng := rand.New(rand.NewSource(20))
	entity := func(kind string, figures ...float64) string {
		codes := map[string][]int{"LINE": {10, 20, 11, 21}, "CIRCLE": {10, 20, 40}, "ARC": {10, 20, 40, 50, 51}, "ELLIPSE": {10, 20, 11, 21, 40, 41, 42}}[kind]
		out := "0\n" + kind + "\n8\nA\n"
		for i, c := range codes {
			out += strconv.Itoa(c) + "\n" + strconv.FormatFloat(figures[i], 'g', 8, 64) + "\n"
		}
		return out
	}
	spline := func(n int, head string, code int, wild float64) string {
		return "0\nSPLINE\n8\nA\n" + head + build(n, func(b *strings.Builder, i int) {
			fmt.Fprintf(b, "%d\n%.3f\n%d\n%.3f\n", code, float64(i)*0.01, code+10, wild*math.Sin(float64(i)))
		})
	}
	knots := func(n, degree int) string {
		return "71\n" + strconv.Itoa(degree) + "\n" + build(n+degree+1, func(b *strings.Builder, i int) { fmt.Fprintf(b, "40\n%d\n", i) })
	}
	return []hostileFile{
		{"290,000 short subpaths", func() string {
			return inPath(build(290_000, func(b *strings.Builder, i int) { x, y := scattered(i); fmt.Fprintf(b, "M%.2f %.2fh1", x, y) }))
		}},
		{"290,000 subpaths in one place", func() string { return inPath(strings.Repeat("M9 9h1", 290_000)) }},
		{"390,000 short subpaths, more than are read", func() string {
			return inPath(build(390_000, func(b *strings.Builder, i int) { x, y := scattered(i); fmt.Fprintf(b, "M%.2f %.2fh1", x, y) }))
		}},
		{"99,000 closed subpaths", func() string {
			return inPath(build(99_000, func(b *strings.Builder, i int) { x, y := scattered(i); fmt.Fprintf(b, "M%.2f %.2fh1v1z", x, y) }))
		}},
		{"99,000 lines far apart", func() string {
			return inSVG(build(99_000, func(b *strings.Builder, i int) {
				x, y := scattered(i)
				fmt.Fprintf(b, `<line x1="%.2f" y1="%.2f" x2="9"/>`, x, y)
			}))
		}},
		{"a hatch of 99,000 lines", func() string {
			return inSVG(build(99_000, func(b *strings.Builder, i int) { fmt.Fprintf(b, `<path d="M0 %.3fh400"/>`, float64(i)*0.002) }))
		}},
		{"an outline in 99,000 pieces", func() string {
			return inSVG(build(99_000, func(b *strings.Builder, i int) {
				p := func(i int) (x, y float64) {
					s, c := math.Sincos(2 * math.Pi * float64(i) / 99_000)
					return 200 + 150*c, 200 + 150*s
				}
				x, y := p(i)
				u, v := p(i + 1)
				fmt.Fprintf(b, `<path d="M%.4f %.4fL%.4f %.4f"/>`, x, y, u, v)
			}))
		}},
		{"299,000 sides of one outline", func() string { return inPath(around(299_000, 150)) }},
		{"299,000 curves of one line", func() string { return inPath("M0 0" + strings.Repeat("c1 1-1 2 .001 0", 299_000)) }},
		{"wild curves", func() string { return inPath("M0 0" + strings.Repeat("C9e8-9e8-9e8 9e8 0 1", 299_000)) }},
		{"40,000 arcs of ellipses", func() string { return inPath("M0 0" + strings.Repeat("a9 5 3 1 1 .01 0", 40_000)) }},
		{"huge arcs of ellipses", func() string { return inPath("M0 0" + strings.Repeat("a9e8 5e8 3 0 1 9 0", 99_000)) }},
		{"99,000 circles of 900 km radius", func() string { return rings(99_000, func(i int) (x, y, r float64) { return float64(i), 0, 9e8 }) }},
		{"99,000 nested circles", func() string {
			return rings(99_000, func(i int) (x, y, r float64) { return 200, 200, 1 + float64(i)*0.0015 })
		}},
		{"99,000 circles in one another, touching", func() string {
			return rings(99_000, func(i int) (x, y, r float64) { r = 1 + float64(i)*0.0015; return 200 + r, 200, r })
		}},
		{"99,000 circles that are next to the same", func() string {
			return rings(99_000, func(i int) (x, y, r float64) { return 200, 200, 100 + float64(i)*1e-4 })
		}},
		{"99,000 circles that cross", func() string {
			return rings(99_000, func(i int) (x, y, r float64) { x, y = scattered(i); return x, y, 50 })
		}},
		{"99,000 small circles", func() string {
			return rings(99_000, func(i int) (x, y, r float64) { x, y = scattered(i); return x, y, 0.1 })
		}},
		{"a scribble of 20,000 lines", func() string {
			return inPath("M200 0" + build(20_000, func(b *strings.Builder, i int) {
				s, c := math.Sincos(float64(i) * 2.39996)
				fmt.Fprintf(b, "L%.3f %.3f", 200+200*s, 200+200*c)
			}) + "z")
		}},
		{"a scribble of 299,000 lines", func() string {
			return inPath("M200 0" + build(299_000, func(b *strings.Builder, i int) {
				s, c := math.Sincos(float64(i) * 2.39996)
				fmt.Fprintf(b, "L%.3f %.3f", 200+200*s, 200+200*c)
			}) + "z")
		}},
		{"loops on a loop", func() string { return inPath("M0 0" + strings.Repeat("c9 9-9 9 0 .01", 299_000) + "z") }},
		{"99,000 ends in one place", func() string {
			return inSVG(build(99_000, func(b *strings.Builder, i int) {
				x, y := scattered(i)
				fmt.Fprintf(b, `<path d="M0 0L%.3f %.3f"/>`, x, y)
			}))
		}},
		{"ends nearly in one place", func() string {
			return inSVG(build(99_000, func(b *strings.Builder, i int) {
				fmt.Fprintf(b, `<path d="M%.5f %.5fh9"/>`, float64(i%450)*2e-4, float64(i/450)*2e-4)
			}))
		}},
		{"one line 99,000 times", func() string { return inSVG(strings.Repeat(`<path d="M0 0h9"/>`, 99_000)) }},
		{"an outline of 19,000 points twenty times", func() string {
			return inSVG(build(20, func(b *strings.Builder, i int) { fmt.Fprintf(b, `<path d="%s"/>`, around(19_000+i, 150)) }))
		}},
		{"twins that are none", func() string {
			return inSVG(build(19, func(b *strings.Builder, i int) {
				fmt.Fprintf(b, `<path d="M0 0%sL200 0z"/>`, strings.Repeat([]string{"l.01 .01l.01-.01", "l.01-.01l.01 .01"}[i%2], 10_000))
			}))
		}},
		{"two outlines along each other", func() string {
			zig := strings.Repeat("l.0015.001.0015-.001", 74_000)
			return inPath("M0 0" + zig + "v9h-300z M0 0" + zig + "v8h-300z")
		}},
		{"37,000 panels with a hole each", func() string {
			return inPath(build(37_000, func(b *strings.Builder, i int) {
				x, y := scattered(i)
				fmt.Fprintf(b, "M%.2f %.2fh9v9h-9zm2 2v4h4v-4z", x, y)
			}))
		}},
		{"a comb of 290,000 sides", func() string { return inPath("M0 0" + strings.Repeat("v300h.001v-300h.001", 74_000) + "v-9h-300z") }},
		{"one far point", func() string { return inPath("M0 0" + strings.Repeat("l1 1 1-1", 149_000) + "L9e8 9e8z") }},
		{"long lines among short ones", func() string {
			return inPath("M0 0" + strings.Repeat("l1e-3 1e-3", 290_000) + strings.Repeat("L9e8 8e8L0 0", 1000) + "z")
		}},
		{"49,000 layers", func() string {
			return inSVG(build(49_000, func(b *strings.Builder, i int) { fmt.Fprintf(b, `<g id="g%d"><path d="M%d 0h9"/></g>`, i, i%400) }))
		}},
		{"99,000 colours", func() string {
			return inSVG(build(99_000, func(b *strings.Builder, i int) {
				fmt.Fprintf(b, `<path stroke="#%06x" d="M%.2f 0h9"/>`, i*83, float64(i)*.002)
			}))
		}},
		{"a part used 33,000 times", func() string {
			return inSVG(`<defs><g id="a"><path d="M0 0h9v9z"/></g></defs>` + build(33_000, func(b *strings.Builder, i int) {
				fmt.Fprintf(b, `<use href="#a" x="%d" y="%d"/>`, i%400, i/400)
			}))
		}},
		{"names of a kilobyte", func() string {
			return inSVG(build(14_000, func(b *strings.Builder, i int) {
				fmt.Fprintf(b, `<g id="%s%d"><path d="M%d 0h9"/></g>`, strings.Repeat("a", 1000), i, i%400)
			}))
		}},
		{"styles on every line", func() string {
			return inSVG(`<style>.a{fill:none;stroke:red}.b{stroke:blue!important}</style>` + strings.Repeat(`<path class="a b" style="fill:none;stroke-width:1;stroke:#123" d="M0 0h9v3"/>`, 90_000))
		}},
		{"a text of 16 MB", func() string {
			return inSVG(`<text>` + strings.Repeat("lorem ", 2_790_000) + `</text><path d="M0 0h9v9z"/>`)
		}},
		{"16 MB of UTF-16", func() string {
			var b strings.Builder
			b.WriteString("\xff\xfe")
			for _, c := range inPath("M0 0" + strings.Repeat("l1 1 1-1", 149_000) + "z") {
				b.WriteByte(byte(c))
				b.WriteByte(0)
			}
			return b.String()
		}},
		{"shapes that are all broken", func() string { return inSVG(strings.Repeat(`<line x1="3vw" x2="1e999"/>`, 99_000)) }},
		{"noise traced from a photograph", func() string {
			return inPath(build(290_000, func(b *strings.Builder, i int) {
				fmt.Fprintf(b, "%c%.2f %.2f", "ML"[min(i, 1)], float64(i)*0.001+rng.Float64(), 200+rng.Float64()*3)
			}) + "L390 300L0 300z")
		}},
		{"ten traced outlines", func() string {
			return inPath(build(20, func(b *strings.Builder, k int) {
				y := float64(k) * 19
				for i := range 18_000 {
					fmt.Fprintf(b, "%c%.2f %.2f", "ML"[min(i, 1)], float64(i)*0.02+rng.Float64(), y+rng.Float64()*3)
				}
				fmt.Fprintf(b, "L390 %.1fL0 %.1fz", y+10, y+10)
			}) + "M-9-9H399V399H-9z")
		}},
		{"marks in thousands", func() string {
			return inSVG(`<path d="M-9-9H409V409H-9z"/>` + build(90_000, func(b *strings.Builder, i int) {
				x, y := scattered(i)
				fmt.Fprintf(b, `<path d="M%.2f %.2fl1 1"/>`, x, y)
			}))
		}},
		{"DXF: 99,000 lines", func() string {
			return inDXF(build(99_000, func(b *strings.Builder, i int) { x, y := scattered(i); b.WriteString(entity("LINE", x, y, x+1, y)) }))
		}},
		{"DXF: 299,000 corners", func() string {
			return inDXF("0\nLWPOLYLINE\n8\nA\n70\n1\n" + build(299_000, func(b *strings.Builder, i int) {
				s, c := math.Sincos(2 * math.Pi * float64(i) / 299_000)
				fmt.Fprintf(b, "10\n%.4f\n20\n%.4f\n", 100*c, 100*s)
			}))
		}},
		{"DXF: corners with bulges", func() string {
			return inDXF("0\nLWPOLYLINE\n8\nA\n70\n1\n" + build(140_000, func(b *strings.Builder, i int) {
				s, c := math.Sincos(2 * math.Pi * float64(i) / 140_000)
				fmt.Fprintf(b, "10\n%.4f\n20\n%.4f\n42\n3\n", 100*c, 100*s)
			}))
		}},
		{"DXF: vertices one by one", func() string {
			return inDXF("0\nPOLYLINE\n8\nA\n" + build(290_000, func(b *strings.Builder, i int) { fmt.Fprintf(b, "0\nVERTEX\n10\n%d\n20\n%d\n", i%977, i%983) }))
		}},
		{"DXF: a spline through 200,000 points", func() string { return inDXF(spline(200_000, "71\n3\n", 11, 1)) }},
		{"DXF: a spline through 290,000 points", func() string { return inDXF(spline(290_000, "71\n3\n", 11, 1)) }},
		{"DXF: a spline of 200,000 control points", func() string { return inDXF(spline(200_000, knots(200_000, 3), 10, 1)) }},
		{"DXF: a spline of degree 5", func() string { return inDXF(spline(60_000, knots(60_000, 5), 10, 9)) }},
		{"DXF: a spline of degree 25", func() string { return inDXF(spline(1_500, knots(1_500, 25), 10, 9)) }},
		{"DXF: a spline with weights", func() string {
			return inDXF(spline(40_000, knots(40_000, 3), 10, 9) + build(40_000, func(b *strings.Builder, i int) { fmt.Fprintf(b, "41\n%d\n", 1+i%3) }))
		}},
		{"DXF: 99,000 arcs", func() string {
			return inDXF(build(99_000, func(b *strings.Builder, i int) {
				x, y := scattered(i)
				b.WriteString(entity("ARC", x, y, 3, float64(i), float64(i)+300))
			}))
		}},
		{"DXF: 90,000 ellipses", func() string {
			return inDXF(build(90_000, func(b *strings.Builder, i int) {
				x, y := scattered(i)
				b.WriteString(entity("ELLIPSE", x, y, 3, 1, 0.3, 0, 6))
			}))
		}},
		{"DXF: huge ellipses", func() string {
			return inDXF(build(2_500, func(b *strings.Builder, i int) { b.WriteString(entity("ELLIPSE", float64(i), 0, 9e8, 1e8, 0.3, 0, 6)) }))
		}},
		{"DXF: a field of inserts", func() string {
			return "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nB\n" + entity("CIRCLE", 0, 0, 0.4) +
				"0\nENDBLK\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nINSERT\n2\nB\n70\n300\n71\n300\n44\n1\n45\n1\n0\nENDSEC\n0\nEOF\n"
		}},
		{"DXF: figures that are all broken", func() string { return inDXF(strings.Repeat("0\nLINE\n8\nA\n10\nfive\n", 99_000)) }},
		{"DXF: layers without end", func() string {
			return "0\nSECTION\n2\nTABLES\n0\nTABLE\n2\nLAYER\n" + build(99_000, func(b *strings.Builder, i int) { fmt.Fprintf(b, "0\nLAYER\n2\nL%d\n62\n%d\n", i, i%256) }) +
				"0\nENDTAB\n0\nENDSEC\n" + inDXF(build(90_000, func(b *strings.Builder, i int) { fmt.Fprintf(b, "0\nLINE\n8\nL%d\n11\n9\n21\n%d\n", i, i%9) }))
		}},
	}
}

// spent is what a request took.
type spent struct {
	seconds float64 // of all processors
	bytes   uint64  // allocated in all
}

func measured(f func()) spent {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	start := processorSeconds()
	f()
	took := processorSeconds() - start
	runtime.ReadMemStats(&after)
	return spent{took, after.TotalAlloc - before.TotalAlloc}
}

// Whatever file the page takes, the whole request - reading, mending, guessing, and the reply -
// takes at most two seconds of processor and allocates at most 512 MB, as does taking what it
// holds: natively, and with the memory settings of the page's core.
func TestHostileRequests(t *testing.T) {
	if testing.Short() || runtime.GOOS == "js" {
		t.Skip("Large files are tried on the native build only, and not with -short.")
	}
	list := hostiles()
	require.GreaterOrEqual(t, len(list), 40)
	empty := raw(t, design.Empty())
	settings := map[string]func(){
		"native": func() {},
		"wasm": func() { // as wasm/main.go sets them
			debug.SetGCPercent(400)
			debug.SetMemoryLimit(200 << 20)
		},
	}
	for _, h := range list {
		t.Run(h.name, func(t *testing.T) {
			file := h.file()
			require.LessOrEqual(t, len(file), wire.MaxDrawing)
			encoded := base64.StdEncoding.EncodeToString([]byte(file))
			for _, setting := range []string{"native", "wasm"} {
				for _, kind := range []string{"intake", "take"} {
					request, err := json.Marshal(wire.Request{ID: 1, Kind: kind, Design: empty, Intake: &wire.Intake{Name: "a", Base64: encoded, Card: "panel"}})
					require.NoError(t, err)
					var reply []byte
					percent, limit := debug.SetGCPercent(100), debug.SetMemoryLimit(math.MaxInt64)
					settings[setting]()
					s := measured(func() { reply, _ = wire.Answer(Core{}, request) })
					debug.SetGCPercent(percent)
					debug.SetMemoryLimit(limit)
					t.Logf("%s %s: %.2f s of processor, %d MB allocated, reply %d kB: %.120s", kind, setting, s.seconds, s.bytes>>20, len(reply)>>10, said(t, reply))
					assert.Less(t, s.seconds, 2.0, "%s, %s", kind, setting)
					assert.Less(t, s.bytes, uint64(512<<20), "%s, %s", kind, setting)
				}
			}
		})
	}
}

// said returns the sentence of a reply, which must hold one.
func said(t *testing.T, reply []byte) string {
	t.Helper()
	var r wire.Reply
	require.NoError(t, json.Unmarshal(reply, &r))
	require.NotContains(t, r.Error, "Something broke inside")
	switch {
	case r.Error != "":
		return r.Error
	case r.Intake != nil:
		require.NotEmpty(t, r.Intake.Sentence)
		return r.Intake.Sentence
	}
	require.NotEmpty(t, r.Design)
	return "taken"
}

// What the page takes is what the readers take.
func TestLimitsAgree(t *testing.T) {
	assert.Equal(t, intake.MaxBytes, wire.MaxDrawing)
	assert.Less(t, base64.StdEncoding.EncodedLen(wire.MaxDrawing)+1<<20, wire.MaxRequest)
}
