package export

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"encoding/csv"
	"image"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

func TestFileName(t *testing.T) {
	for want, n := range map[string]Name{
		"Reading-lamp-rev-2-sheet-1-of-2-template-A4.pdf": {"", "Reading lamp", "2", 1, 2, "template A4", "pdf"},
		"Reading-lamp-sheet-1.svg":                        {"", "Reading lamp", "", 1, 1, "", "svg"},
		"Reading-lamp-rev-B.zip":                          {"", " Reading/lamp. ", "B", 0, 0, "", ".zip"},
		"Not-sound-the-skin-may-crack-Lamp.svg":           {"Not sound: the skin may crack", "Lamp", "", 0, 0, "", "svg"},
		"design.svg":                                      {"", "", "", 0, 0, "", "svg"},
		"design-con.svg":                                  {"", "con", "", 0, 0, "", "svg"},
		"竹の椅子-rev-é.svg":                                  {"", "竹の椅子", "é", 0, 0, "", "SVG"},
		"etc-passwd.svg":                                  {"", "../../etc/passwd", "", 0, 0, "", "svg"},
	} {
		assert.Equal(t, want, FileName(n))
	}
	assert.Len(t, FileName(Name{Design: strings.Repeat("a", 500), Ext: "svg"}), maxDesign+4)
}

func TestFileNamesAreSafe(t *testing.T) {
	for _, s := range hostileNames() {
		safeName(t, FileName(Name{Design: s, Revision: s, Sheet: 1, Sheets: 3, What: s, Ext: "svg"}))
		safeName(t, FileName(Name{Design: s, Ext: s}))
		long := strings.Repeat(s+"竹", 60)
		assert.LessOrEqual(t, len(FileName(Name{Mark: long, Design: long, Revision: long, Sheet: 500, Sheets: 500, What: long, Ext: "json"})), 255)
	}
}

func safeName(t *testing.T, name string) {
	t.Helper()
	assert.True(t, utf8.ValidString(name))
	assert.NotEmpty(t, name)
	assert.Equal(t, name, filepath.Base(name))
	assert.Regexp(t, `^[\pL\pM\pN][\pL\pM\pN.-]*[\pL\pM\pN]$`, name)
	assert.NotContains(t, name, "..")
	assert.NotRegexp(t, `(?i)^(con|prn|aux|nul|com\d|lpt\d)(\.|$)`, name)
	assert.LessOrEqual(t, len([]rune(name)), 250)
}

func TestZip(t *testing.T) {
	files := []File{
		{"a.svg", []byte("one")}, {"A.svg", []byte("two")}, {"sheet 1/cut.dxf", []byte("three")}, {"sheet 1/cut.dxf", []byte("four")},
		{"../../escape.txt", []byte("five")}, {"/abs/olute.txt", []byte("six")}, {`C:\windows\x.txt`, []byte("seven")}, {"", []byte("eight")},
		{"con.txt", []byte("nine")}, {"x.png", []byte("ten")}, {"a.svg/b.txt", []byte("eleven")}, {"sheet 1", nil},
	}
	data := Zip(files)
	assert.Equal(t, data, Zip(files))
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	require.Len(t, r.File, len(files))
	seen := map[string]bool{}
	for i, f := range r.File {
		assert.True(t, filepath.IsLocal(f.Name), f.Name)
		assert.False(t, seen[strings.ToLower(f.Name)], f.Name)
		seen[strings.ToLower(f.Name)] = true
		assert.Equal(t, 1980, f.Modified.Year())
		rc, err := f.Open()
		require.NoError(t, err)
		got, err := io.ReadAll(rc)
		require.NoError(t, err)
		assert.Equal(t, string(files[i].Data), string(got))
	}
	assert.Equal(t, "A-2.svg", r.File[1].Name)
	assert.Equal(t, "sheet-1/cut-2.dxf", r.File[3].Name)
	assert.Equal(t, "escape.txt", r.File[4].Name)
	assert.Equal(t, "file-con.txt", r.File[8].Name)
}

func TestZipUnpacksWithUnzip(t *testing.T) {
	unzip := needs(t, "unzip", "unzip")
	job := smallJob()
	files := jobFiles(job, A4())
	for _, n := range hostileNames() {
		files = append(files, File{n, []byte(n)}, File{n + "/" + n + ".svg", []byte(n)})
	}
	dir := t.TempDir()
	run(t, unzip, "all.zip", Zip(files), "-q", "FILE", "-d", filepath.Join(dir, "in"))
	count := 0
	require.NoError(t, filepath.WalkDir(dir, func(p string, d os.DirEntry, err error) error {
		require.NoError(t, err)
		if !d.IsDir() {
			count++
			assert.True(t, strings.HasPrefix(p, filepath.Join(dir, "in")))
		}
		return nil
	}))
	assert.Equal(t, len(files), count)
}

func FuzzZipNames(f *testing.F) {
	for _, n := range hostileNames() {
		f.Add(n, n)
	}
	f.Fuzz(func(t *testing.T, a, b string) {
		data := Zip([]File{{a, []byte("a")}, {b, []byte("b")}, {a + "/" + b, nil}})
		r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]bool{}
		for _, x := range r.File {
			if !filepath.IsLocal(x.Name) || seen[strings.ToLower(x.Name)] || strings.ContainsAny(x.Name, `\:*?"<>|`) {
				t.Fatalf("%q", x.Name)
			}
			seen[strings.ToLower(x.Name)] = true
		}
	})
}

func positions() []Table {
	return []Table{
		Positions("Panel", "in", 4, "skin left", []Position{{1, 1.5625, 1.5625, 0.03125}, {2, 1.6875, 0.125, 0.03125}, {3, 10.25, 8.5625, 0.046875}}),
		Positions(`=HYPERLINK("x"), "quoted", comma`, "mm", 3, "", []Position{{1, 39.7, 39.7, 0}, {2, -0.5, -40.2, 0}}),
	}
}

func TestTablesGolden(t *testing.T) {
	golden(t, "positions.csv", CSV(positions()))
}

func TestCSVReadsBack(t *testing.T) {
	for _, s := range append(hostileNames(), positions()[1].Title) {
		data := CSV([]Table{{Title: s, Head: []string{"a", s}, Rows: [][]string{{s, "1"}, {"2", s}}}})
		r := csv.NewReader(bytes.NewReader(data))
		r.FieldsPerRecord = -1
		rows, err := r.ReadAll()
		require.NoError(t, err)
		for _, row := range rows {
			for _, c := range row {
				assert.NotRegexp(t, `^[=+@]`, c)
				assert.Equal(t, strings.TrimPrefix(c, "'"), cleanLine(strings.TrimPrefix(c, "'")))
			}
		}
		if cleanLine(s) != "" {
			assert.Equal(t, cleanLine(s), strings.TrimPrefix(rows[1][1], "'"))
		}
	}
}

func decode(t *testing.T, data []byte) image.Image {
	t.Helper()
	img, format, err := image.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	require.Equal(t, "png", format)
	return img
}

func TestPNGSizes(t *testing.T) {
	job := smallJob()
	for _, c := range []struct {
		perMM float64
		w, h  int
	}{{0, 2000, 1334}, {10, 1200, 800}, {1, 120, 80}, {1000, 6000, 4000}} {
		b := decode(t, PNG(job, PNGOptions{PerMM: c.perMM})).Bounds()
		assert.Equal(t, c.w, b.Dx())
		assert.Equal(t, c.h, b.Dy())
	}
}

// The pixels of a metre, as the chunk pHYs has them (PNG, W3C Recommendation 2003, 11.3.5.3):
// what a program needs to show or print a picture in its size.
func TestPNGTellsItsResolution(t *testing.T) {
	for _, c := range []struct{ perMM, pixels float64 }{{0, 1000 * 2000 / 120.0}, {10, 10000}, {300. / 25.4, 11811}} { // 300 dots an inch
		data := PNG(smallJob(), PNGOptions{PerMM: c.perMM})
		at := bytes.Index(data, []byte("pHYs"))
		require.Equal(t, 8+25+4, at, "right behind the header")
		for _, n := range []uint32{binary.BigEndian.Uint32(data[at+4:]), binary.BigEndian.Uint32(data[at+8:])} {
			assert.InDelta(t, c.pixels, float64(n), 0.5)
		}
		assert.Equal(t, byte(1), data[at+12], "the metre")
		decode(t, data) // with the chunk's checksum
	}
}

// Each pixel must be as dark as its distance from the lines says, worked out the
// slow way for every pixel.
func TestPNGAgainstDistances(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	job := cut.Job{Width: 40, Height: 30, Operations: []cut.Operation{{Kind: cut.Score, Colour: "#000000"}}}
	pt := func() plane.Point { return plane.Pt(-5+50*r.Float64(), -5+40*r.Float64()) }
	var all plane.Path
	for range 12 {
		p := plane.Path{Segs: []plane.Segment{plane.BulgeSeg(pt(), pt(), r.Float64()-0.5)}}
		all.Segs = append(all.Segs, p.Segs...)
		job.Operations[0].Strokes = append(job.Operations[0].Strokes, cut.Stroke{Path: p})
	}
	const k = 4
	img := decode(t, PNG(job, PNGOptions{PerMM: k}))
	for y := 1; y < 30*k-1; y++ { // the outermost pixels show the sheet's edge
		for x := 1; x < 40*k-1; x++ {
			hint := 0
			d := k * distance(all, plane.Pt((float64(x)+0.5)/k, 30-(float64(y)+0.5)/k), -1, &hint)
			want := 255 * (1 - math.Min(1, math.Max(0, 1.0-d)))
			got, _, _, _ := img.At(x, y).RGBA()
			require.InDelta(t, want, float64(got>>8), 255*0.12, "pixel %d %d, %.2f px from the lines", x, y, d)
		}
	}
}

func TestPNGAgreesWithTheSVG(t *testing.T) {
	job := smallJob()
	const k = 10
	ours := inkBox(decode(t, PNG(job, PNGOptions{PerMM: k})).(interface {
		SubImage(image.Rectangle) image.Image
	}).SubImage(image.Rect(3, 3, 1197, 797)))
	theirs := inkBox(rasterise(t, "rsvg-convert", SVG(job, SVGOptions{}), "--zoom="+zoomFor(k), "--background-color=white"))
	for _, d := range []int{ours.Min.X - theirs.Min.X, ours.Min.Y - theirs.Min.Y, ours.Max.X - theirs.Max.X, ours.Max.Y - theirs.Max.Y} {
		assert.LessOrEqual(t, max(d, -d), 3)
	}
}

// Readable goldens cover the small job; for one with every kind of shape in odd
// places sums are enough to see that native and wasm agree, since this test runs as
// both. What compression makes of it is left out: it may change with the toolchain.
func TestBytesAreTheSameEverywhere(t *testing.T) {
	job := randomJob(rand.New(rand.NewPCG(51, 52)))
	r2000 := DXF(job, DXFOptions{})
	r12 := DXF(job, DXFOptions{R12: true})
	whole := PDF(job, PDFOptions{Plain: true})
	tiled := PDF(job, PDFOptions{Plain: true, Paper: A4()})
	picture := decode(t, PNG(job, PNGOptions{})).(*image.RGBA).Pix
	golden(t, "sums.txt", []byte(sums([]File{{"svg", SVG(job, SVGOptions{})}, {"r2000", r2000}, {"r12", r12},
		{"pdf", whole}, {"tiled", tiled}, {"pixels", picture}})))
}

// crowded has 200 parts of 100 scores each.
func crowded() cut.Job {
	job := cut.Job{Title: "crowd", Sheet: 1, Sheets: 1, Width: 2500, Height: 1300}
	ops := make([]cut.Operation, 4)
	for i, k := range cut.Kinds() {
		ops[i] = cut.Operation{Kind: k, Name: k.Name(), Colour: k.Colour(), Passes: 1}
	}
	for i := range 200 {
		x, y := 10+float64(i%20)*124, 10+float64(i/20)*128
		for k := range 100 {
			u := x + 8 + float64(k)
			ops[0].Strokes = append(ops[0].Strokes, cut.Stroke{Part: "p", Path: line(u, y-4, u, y+110)})
		}
		ops[2].Strokes = append(ops[2].Strokes, cut.Stroke{Part: "p", Path: circle(x+4, y+50, 2)})
		ops[3].Strokes = append(ops[3].Strokes, cut.Stroke{Part: "p", Path: plane.RectPath(plane.BoxOf(plane.Pt(x, y), plane.Pt(x+118, y+106)))})
	}
	job.Operations = ops
	return job
}

func BenchmarkSVG20000(b *testing.B) { benchmark(b, func(j cut.Job) { SVG(j, SVGOptions{}) }) }
func BenchmarkDXF20000(b *testing.B) { benchmark(b, func(j cut.Job) { DXF(j, DXFOptions{}) }) }
func BenchmarkPDF20000(b *testing.B) { benchmark(b, func(j cut.Job) { PDF(j, PDFOptions{}) }) }
func BenchmarkTiledPDF20000(b *testing.B) {
	benchmark(b, func(j cut.Job) { PDF(j, PDFOptions{Paper: A4()}) })
}
func BenchmarkPNG20000(b *testing.B) { benchmark(b, func(j cut.Job) { PNG(j, PNGOptions{}) }) }
func BenchmarkEverythingZipped20000(b *testing.B) {
	benchmark(b, func(j cut.Job) {
		Zip(jobFiles(j, A4()))
	})
}

func benchmark(b *testing.B, write func(cut.Job)) {
	job := crowded()
	b.ReportAllocs()
	for b.Loop() {
		write(job)
	}
}
