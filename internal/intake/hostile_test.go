package intake

import (
	"fmt"
	"math"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// hostile is a file made to hurt. id is the refusal that it must meet; "" when it is
// to be read in spite of all.
type hostile struct {
	name, id string
	file     func() string
}

func repeat(s string, n int) string { return strings.Repeat(s, n) }

// upTo repeats s until the file is nearly as large as is taken.
func upTo(s string) string { return repeat(s, (MaxBytes-20_000)/len(s)) }

func numbered(format string, n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}

func hostileSVG() []hostile {
	const million = 1_000_000
	svg := func(body string) func() string { return func() string { return sheet100(body) } }
	late := func(body func() string) func() string { return func() string { return sheet100(body()) } }
	doubling := func(tag string) func() string {
		return late(func() string {
			body := `<line id="u0" x2="1"/>`
			for i := 1; i <= 40; i++ {
				body += fmt.Sprintf(`<%s id="u%d"><use href="#u%d"/><use href="#u%d"/></%s>`, tag, i, i-1, i-1, tag)
			}
			return "<defs>" + body + `</defs><use href="#u40"/>`
		})
	}
	return []hostile{
		{"200 MB", TooLarge, func() string { return repeat(" ", 200<<20) }},
		{"names within names", Broken, func() string {
			s := `<!DOCTYPE svg [<!ENTITY a0 "lol">`
			for i := 1; i < 30; i++ {
				s += fmt.Sprintf(`<!ENTITY a%d "&a%d;&a%d;&a%d;">`, i, i-1, i-1, i-1)
			}
			return s + `]><svg id="&a29;&lol;"></svg>`
		}},
		{"a long name often", TooMany, func() string {
			return `<!DOCTYPE svg [<!ENTITY a "` + repeat("x", 250) + `">]><svg>` + repeat("<g id='&a;'/>", 100_000) + `</svg>`
		}},
		{"very many names", TooMany, func() string {
			return `<!DOCTYPE svg [` + numbered(`<!ENTITY a%d "x">`, 100_000) + `]><svg/>`
		}},
		{"a million groups in one another", TooDeep, late(func() string { return repeat("<g>", million) + repeat("</g>", million) })},
		{"a million groups", TooMany, late(func() string { return repeat("<g/>", million) })},
		{"a million attributes", TooMany, late(func() string { return "<g " + numbered(`a%d="" `, million) + "/>" })},
		{"attributes just within the limit", "", late(func() string { return "<g " + numbered(`a%d="" `, 5*MaxElements-20) + "/>" })},
		{"elements just within the limit", "", late(func() string { return repeat(`<path d="M0 0h1" style="fill:red" class="a b" id="x"/>`, MaxElements-10) })},
		{"a million segments", TooMany, late(func() string { return `<path d="M0 0` + repeat("h1v1", million/2) + `"/>` })},
		{"a million segments of no length", TooMany, late(func() string { return `<path d="M0 0` + repeat("h0", million) + `"/>` })},
		{"a million subpaths", TooMany, late(func() string { return `<path d="` + repeat("M0 0h9z", million) + `"/>` })},
		{"segments just within the limit", "", late(func() string { return `<path d="M0 0` + repeat("c1 1 2 2 3 0", MaxSegments-10) + `"/>` })},
		{"a million points", TooMany, late(func() string { return `<polyline points="` + repeat("1,2 3,4 ", million/2) + `"/>` })},
		{"a million arcs", TooMany, late(func() string { return `<path d="M0 0` + repeat("a9 5 3 1 1 1 2", million) + `"/>` })},
		{"moves alone", "", late(func() string { return `<path d="` + upTo("M0 0") + `"/>` })},
		{"blanks in a path", "", late(func() string { return `<path d="M0 0` + upTo(" ") + `h5"/>` })},
		{"one long number", "", late(func() string { return `<path d="M0 0h1.` + upTo("1") + `"/>` })},
		{"a long exponent", "", late(func() string { return `<path d="M0 0h1e` + upTo("9") + `"/>` })},
		{"a long path often", TooMany, late(func() string {
			return `<defs><path id="p" d="M0 0h1` + repeat(" ", 8<<20) + `"/></defs>` + repeat(`<use href="#p"/>`, 100_000)
		})},
		{"a long transform often", TooMany, late(func() string {
			return `<defs><line id="p" x2="1" transform="` + repeat("scale(1)", million) + `"/></defs>` + repeat(`<use href="#p"/>`, 100_000)
		})},
		{"a long style often", TooMany, late(func() string {
			return `<defs><line id="p" x2="1" style="` + repeat("fill:red;", million) + `"/></defs>` + repeat(`<use href="#p"/>`, 100_000)
		})},
		{"many classes", TooMany, late(func() string {
			return `<style>` + numbered(".a{fill:red}.b%d{fill:red}", 9000) + `</style>` + repeat(`<line class="a a a a a" x2="1"/>`, 150_000)
		})},
		{"very many rules", TooMany, late(func() string { return `<style>` + upTo("a{fill:red}") + `</style>` })},
		{"one rule for very many", TooMany, late(func() string { return `<style>` + upTo("a,") + `a{fill:red}</style>` })},
		{"a long style sheet in bits", "", late(func() string { return `<style>` + upTo("a<!---->") + `</style><line x2="1"/>` })},
		{"braces", "", late(func() string { return `<style>@media ` + upTo("{") + `</style><line x2="1"/>` })},
		{"slashes", "", late(func() string { return `<style>` + upTo("/* */") + `</style><line x2="1"/>` })},
		{"a long text", "", late(func() string { return `<text>` + upTo("lorem ") + `</text><line x2="1"/>` })},
		{"a long picture", "", late(func() string { return `<image href="data:image/png;base64,` + upTo("A") + `"/><line x2="1"/>` })},
		{"a long name", "", late(func() string { return `<g id="` + upTo("é") + `"><line x2="1"/></g>` })},
		{"comments", "", late(func() string { return upTo("<!-- -->") + `<line x2="1"/>` })},
		{"name spaces", "", late(func() string { return repeat(`<g xmlns:a="b" a:c="d"/>`, 90_000) + `<line x2="1"/>` })},
		{"name spaces without end", TooMany, late(func() string { return repeat(`<g xmlns:a="b" a:c="d"/>`, 150_000) + `<line x2="1"/>` })},
		{"use of itself", Circular, svg(`<use id="a" href="#a"/>`)},
		{"use of what holds it", Circular, svg(`<g id="a"><use href="#a"/></g>`)},
		{"uses in a ring", Circular, svg(`<defs><g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g></defs><use href="#a"/>`)},
		{"a symbol in itself", Circular, svg(`<symbol id="a"><use href="#a"/></symbol><use href="#a"/>`)},
		{"doubling groups", TooMany, doubling("g")},
		{"doubling symbols", TooMany, doubling("symbol")},
		{"uses in a long row", TooDeep, late(func() string {
			return `<defs><line id="u0" x2="1"/>` + numbered(`<use id="v%[1]d" href="#v%[1]d0"/>`, 1) +
				func() string {
					var b strings.Builder
					for i := 1; i < 2000; i++ {
						fmt.Fprintf(&b, `<use id="u%d" href="#u%d"/>`, i, i-1)
					}
					return b.String()
				}() + `</defs><use href="#u1999"/>`
		})},
		{"a number too large", "", svg(`<path d="M0 0L1e999 0"/>`)},
		{"infinity", "", svg(`<path d="M0 0Linf 0"/>`)},
		{"not a number", "", svg(`<polyline points="0 0 NaN 1"/>`)},
		{"an infinite circle", "", svg(`<circle r="Infinity"/>`)},
		{"a far place", "", svg(`<path d="M0 0L1e300 0"/>`)},
		{"a huge scale", "", svg(`<g transform="scale(1e300)"><g transform="scale(1e300)"><circle r="1"/></g></g>`)},
		{"a tiny box", "", svg(`<svg viewBox="0 0 1e-320 1e-320"><line x2="1"/></svg>`)},
		{"bytes that are no text", NotText, svg("<g id='\xff\xfe\xc0'/>")},
		{"bytes that are no text, outside", NotText, svg("\xc3\x28")},
		{"UTF-16 cut in two", Broken, func() string { return "\xff\xfe<\x00s\x00v\x00g\x00 " }},
		{"breaks off", Broken, func() string { return `<svg><path d="M0 0` }},
		{"ends that don't match", Broken, func() string { return `<svg><g></svg></g>` }},
		{"a page", UnknownFormat, func() string { return `<html><svg/></html>` }},
		{"two roots", UnknownFormat, func() string { return `<svg/><svg/>` }},
		{"nothing", UnknownFormat, func() string { return " \n " }},
		{"a comment alone", UnknownFormat, func() string { return "<!-- -->" }},
		{"an unknown encoding", "", func() string { return `<?xml version="1.0" encoding="EBCDIC"?><svg/>` }},
	}
}

func hostileDXF() []hostile {
	const million = 1_000_000
	dxf := func(entities, blocks string) func() string { return func() string { return dxfOf(entities, blocks) } }
	raw := func(entities func() string) func() string {
		return func() string {
			return groupsOf("0 SECTION; 2 ENTITIES") + entities() + groupsOf("0 ENDSEC; 0 EOF")
		}
	}
	return []hostile{
		{"200 MB", TooLarge, func() string { return repeat("0\n", 100<<20) }},
		{"binary", BinaryDXF, func() string { return "AutoCAD Binary DXF\r\n\x1a\x00\x00SECTION\x00" }},
		{"zeros", NotText, func() string { return "0\nSECTION\n2\nENTITIES\n0\n\x00\x00\x00" }},
		{"a million lines", TooMany, raw(func() string { return repeat("0\nLINE\n", million) })},
		{"lines just within the limit", "", raw(func() string { return repeat("0\nLINE\n8\nA\n10\n1\n20\n2\n11\n3\n21\n4\n", MaxElements-1) })},
		{"a million corners", TooMany, raw(func() string { return "0\nLWPOLYLINE\n" + repeat("10\n1\n20\n2\n10\n2\n20\n3\n", million/2) })},
		{"corners just within the limit", "", raw(func() string { return "0\nLWPOLYLINE\n" + repeat("10\n1\n20\n2\n10\n2\n20\n3\n", MaxSegments/2) })},
		{"a million vertices", TooMany, raw(func() string { return "0\nPOLYLINE\n" + repeat("0\nVERTEX\n10\n1\n", million) })},
		{"groups without end", TooMany, raw(func() string { return "0\nLINE\n" + upTo("1\n\n") })},
		{"a spline of a million points", TooMany, raw(func() string { return "0\nSPLINE\n71\n3\n" + repeat("10\n1\n20\n2\n", million) })},
		{"a spline through a million points", TooMany, raw(func() string { return "0\nSPLINE\n71\n3\n" + repeat("11\n1\n21\n2\n", million) })},
		{"a spline of high degree", TooMany, raw(func() string {
			var b strings.Builder
			b.WriteString("0\nSPLINE\n71\n25\n")
			for i := range 300_000 {
				fmt.Fprintf(&b, "40\n%d\n10\n%d\n20\n%d\n41\n%d\n", i, i, i%7, 1+i%3)
			}
			for i := range 26 {
				fmt.Fprintf(&b, "40\n%d\n", 300_000+i)
			}
			return b.String()
		})},
		{"splines of wild shape", TooMany, raw(func() string {
			const one = "0\nSPLINE\n71\n5\n40\n0\n40\n0\n40\n0\n40\n0\n40\n0\n40\n0\n40\n1\n40\n1\n40\n1\n40\n1\n40\n1\n40\n1\n" +
				"10\n0\n20\n0\n10\n9e8\n20\n1\n10\n-9e8\n20\n5\n10\n9e8\n20\n9e8\n10\n0\n20\n-9e8\n10\n3\n20\n3\n"
			return repeat(one, 50_000)
		})},
		{"a field of inserts", TooMany, dxf("0 INSERT; 2 B; 70 32767; 71 32767; 44 1; 45 1", "0 BLOCK; 2 B; 0 LINE; 11 1; 0 ENDBLK")},
		{"a field of a huge count", TooMany, dxf("0 INSERT; 2 B; 70 2147483647; 71 2147483647", "0 BLOCK; 2 B; 0 LINE; 11 1; 0 ENDBLK")},
		{"fields of fields of nothing", TooMany, dxf("0 INSERT; 2 B; 70 30000; 71 30000", "0 BLOCK; 2 B; 0 INSERT; 2 C; 70 30000; 71 30000; 0 ENDBLK; 0 BLOCK; 2 C; 0 ENDBLK")},
		{"a block in itself", Circular, dxf("0 INSERT; 2 B", "0 BLOCK; 2 B; 0 INSERT; 2 b; 0 ENDBLK")},
		{"blocks in a ring", Circular, dxf("0 INSERT; 2 B", "0 BLOCK; 2 B; 0 INSERT; 2 C; 0 ENDBLK; 0 BLOCK; 2 C; 0 INSERT; 2 B; 0 ENDBLK")},
		{"doubling blocks", TooMany, func() string {
			blocks := "0 BLOCK; 2 B0; 0 LINE; 11 1; 0 ENDBLK"
			for i := 1; i <= 40; i++ {
				blocks += fmt.Sprintf("; 0 BLOCK; 2 B%d; 0 INSERT; 2 B%d; 0 INSERT; 2 B%d; 0 ENDBLK", i, i-1, i-1)
			}
			return dxfOf("0 INSERT; 2 B40", blocks)
		}},
		{"blocks in a long row", TooDeep, func() string {
			blocks := "0 BLOCK; 2 B0; 0 LINE; 11 1; 0 ENDBLK"
			for i := 1; i <= 2000; i++ {
				blocks += fmt.Sprintf("; 0 BLOCK; 2 B%d; 0 INSERT; 2 B%d; 0 ENDBLK", i, i-1)
			}
			return dxfOf("0 INSERT; 2 B2000", blocks)
		}},
		{"a large block often", TooMany, func() string {
			return groupsOf("0 SECTION; 2 BLOCKS; 0 BLOCK; 2 B; 0 LWPOLYLINE") + repeat("10\n1\n20\n2\n10\n2\n20\n2\n", 150_000) +
				groupsOf("0 ENDBLK; 0 ENDSEC; 0 SECTION; 2 ENTITIES") + repeat(groupsOf("0 INSERT; 2 B"), 1000) + groupsOf("0 ENDSEC; 0 EOF")
		}},
		{"a million layers", TooMany, func() string {
			return groupsOf("0 SECTION; 2 TABLES; 0 TABLE; 2 LAYER") + numbered("0\nLAYER\n2\n%d\n", million*9/10)
		}},
		{"a million blocks", TooMany, func() string {
			return groupsOf("0 SECTION; 2 BLOCKS") + numbered("0\nBLOCK\n2\n%d\n", million*9/10)
		}},
		{"a million kinds", TooMany, raw(func() string { return numbered("0\nK%d\n", million) })},
		{"infinity", "", dxf("0 LINE; 11 inf", "")},
		{"not a number", "", dxf("0 LWPOLYLINE; 10 NaN; 20 0; 10 5; 20 0", "")},
		{"a number too large", "", dxf("0 CIRCLE; 40 1e999", "")},
		{"a far place", "", dxf("0 LINE; 11 1e300", "")},
		{"a huge scale", "", dxf("0 INSERT; 2 B; 41 1e308", "0 BLOCK; 2 B; 0 CIRCLE; 40 1e9; 0 ENDBLK")},
		{"a huge bulge", "", dxf("0 LWPOLYLINE; 10 0; 20 0; 42 1e300; 10 5; 20 0; 42 -1e-300; 10 5; 20 5", "")},
		{"a word for a number", "", dxf("0 LINE; 11 five", "")},
		{"no group code", Broken, dxf("0 LINE; eleven 5", "")},
		{"breaks off", Broken, func() string { return "0\nSECTION\n2\nENTITIES\n0\nLINE\n11" }},
		{"numbers alone", UnknownFormat, func() string { return "0\n1\n2\n3\n" }},
		{"bytes that are no text, in a name", "", dxf("0 LINE; 8 \xff\xfe\xc0; 11 1", "")},
		{"lines without end", Broken, func() string { return "0\nSECTION\n2\nENTITIES\n" + upTo("9") }},
	}
}

// peak runs f and returns the most heap in use meanwhile, above what was before.
func peak(f func()) (bytes int64) {
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	base := int64(m.HeapAlloc)
	done, out := make(chan bool), make(chan int64)
	go func() {
		most := int64(0)
		for {
			runtime.ReadMemStats(&m)
			most = max(most, int64(m.HeapAlloc)-base)
			select {
			case <-done:
				out <- most
				return
			case <-time.After(2 * time.Millisecond):
			}
		}
	}()
	f()
	done <- true
	return <-out
}

// Every hostile file is refused with its reason, or read, within 256 MB. How long
// each takes is told by BenchmarkHostile.
func TestHostile(t *testing.T) {
	for format, list := range map[Format][]hostile{SVG: hostileSVG(), DXF: hostileDXF()} {
		for _, h := range list {
			t.Run(string(format)+" "+h.name, func(t *testing.T) {
				data := []byte(h.file())
				if len(data) > 1<<20 && (testing.Short() || runtime.GOOS == "js") {
					t.Skip("Files over 1 MB are tried on the native build only, and not with -short.")
				}
				if h.id != TooLarge {
					require.LessOrEqual(t, len(data), MaxBytes)
				}
				var d Drawing
				var err error
				most := peak(func() {
					if format == SVG {
						d, err = ReadSVG(data, Options{})
					} else {
						d, err = ReadDXF(data, Options{})
					}
				})
				t.Logf("%d MB of heap beside the file's own %d MB", most>>20, len(data)>>20)
				require.Less(t, most+int64(len(data)), int64(256<<20)+int64(max(0, len(data)-MaxBytes)))
				if h.id == "" {
					require.NoError(t, err)
					if len(d.Items) < 1000 {
						requireSound(t, d.Items)
					}
					return
				}
				requireRefused(t, err, h.id)
				require.Empty(t, d.Items)
			})
		}
	}
}

// Read tells the formats apart and names what else was handed in.
func TestSniff(t *testing.T) {
	for text, id := range map[string]string{
		"":                               UnknownFormat,
		"%PDF-1.7":                       UnknownFormat,
		"\x1f\x8b\x08":                   UnknownFormat,
		"PK\x03\x04":                     UnknownFormat,
		"AC1032\x00":                     UnknownFormat,
		"hello":                          UnknownFormat,
		"AutoCAD Binary DXF\r\n\x1a\x00": BinaryDXF,
		"<html/>":                        UnknownFormat,
		"0\nhello\n":                     UnknownFormat,
	} {
		_, err := Read([]byte(text), Options{})
		requireRefused(t, err, id)
	}
	require.Panics(t, func() { _, _ = ReadSVG(nil, Options{PerInch: -1}) })
}

func TestPlainName(t *testing.T) {
	for in, want := range map[string]string{
		"":                             "",
		"Layer 1":                      "Layer 1",
		"  a \t b  ":                   "a b",
		"<script>alert(1)</script>":    "script alert(1) /script",
		"a\u202eb\u0000c":              "a b c",
		"\xff\xfe":                     "",
		"日本":                           "日本",
		"javascript:alert('x')":        "javascript alert( x )",
		strings.Repeat("ab ", 40):      strings.TrimSpace(strings.Repeat("ab ", 14))[:40],
		strings.Repeat("&", 1<<20):     "",
		strings.Repeat("日", 1<<16):     strings.Repeat("日", 40),
		strings.Repeat("a", 39) + " b": strings.Repeat("a", 39),
	} {
		got := plainName(in)
		require.Equal(t, want, got)
		require.Equal(t, got, plainName(got), "twice is once")
	}
}

// What is read is mended and guessed at in bounds too: scribbles that cross themselves
// millions of times, rings in rings, and many ends in one place.
func TestHostileToMend(t *testing.T) {
	star := "M50 0"
	for i := range 20_000 {
		a := float64(i) * 2.39996 // the golden angle: every line crosses most others
		star += fmt.Sprintf("L%.3f %.3f", 50+50*math.Sin(a), 50-50*math.Cos(a))
	}
	rings := func(format string) func() string {
		return func() string { return sheet100(numbered(format, 50_000)) }
	}
	for name, file := range map[string]func() string{
		"a scribble":          func() string { return sheet100(`<path stroke="red" d="` + star + `z"/>`) },
		"loops on a loop":     func() string { return sheet100(`<path d="M0 0` + repeat("c9 9 -9 9 0 .01", 60_000) + `z"/>`) },
		"rings in rings":      rings(`<circle stroke="red" r="1%05d"/>`),
		"rings near rings":    rings(`<circle stroke="red" r="50.%05d"/>`),
		"ends in one place":   rings(`<path d="M0 0L%d 9"/>`),
		"one line very often": rings(`<path stroke="red" d="M0 0h9"/><!--%d-->`),
	} {
		t.Run(name, func(t *testing.T) {
			if testing.Short() || runtime.GOOS == "js" {
				t.Skip("Large files are tried on the native build only, and not with -short.")
			}
			d, err := ReadSVG([]byte(file()), Options{})
			require.NoError(t, err)
			start := time.Now()
			most := peak(func() {
				mended, _ := Mend(d.Items, 0.5)
				Guess(mended.Items, plane.Box{}, Unsaid)
			})
			t.Logf("%v, %d MB of heap", time.Since(start), most>>20)
			require.Less(t, most, int64(256<<20))
			// A quarter of that on a machine of 2024 with nothing else to do.
			require.Less(t, time.Since(start), 8*time.Second)
		})
	}
}

// Where there are too many rings to look at all, what was not looked at lies in none.
func TestRingsNotLookedAtLieInNone(t *testing.T) {
	var items []Item
	for i := range 400 {
		items = append(items, Item{Stroke: "#ff0000", Path: plane.CirclePath(plane.Pt(0, 0), float64(10+i))})
	}
	var pieces []piece
	for _, it := range items {
		it.Box()
		pieces = append(pieces, piece{Item: it})
	}
	ins, all := nest(pieces)
	require.False(t, all)
	for i, n := range ins {
		require.True(t, n.in == -1 || n.in > i, "ring %d in %d", i, n.in)
	}
}
