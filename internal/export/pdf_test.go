package export

import (
	"bytes"
	"encoding/xml"
	"image"
	"math/rand/v2"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

func TestPDFGolden(t *testing.T) {
	golden(t, "small.pdf", PDF(smallJob(), PDFOptions{Plain: true}))
	golden(t, "small-a4.pdf", PDF(smallJob(), PDFOptions{Plain: true, Paper: A4()}))
}

func TestPDFIsTheSameCompressed(t *testing.T) {
	plain := PDF(bigJob(), PDFOptions{Plain: true, Paper: Letter()})
	packed := PDF(bigJob(), PDFOptions{Paper: Letter()})
	assert.Equal(t, readPDF(t, plain).pages, readPDF(t, packed).pages)
	assert.Less(t, len(packed), len(plain)/2)
}

func TestPDFWholePageKeepsEveryPlace(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	for range 10 {
		job := randomJob(r)
		data := PDF(job, PDFOptions{})
		f := readPDF(t, data)
		require.Len(t, f.pages, 1)
		assert.InDelta(t, job.Width, f.pages[0].width/ptPerMM, 1e-6)
		assert.InDelta(t, job.Height, f.pages[0].height/ptPerMM, 1e-6)
		byColour := f.pages[0].strokes(t)
		for _, op := range job.Operations {
			paths := byColour[operationColour(op)]
			require.Len(t, paths, len(op.Strokes))
			for i, s := range op.Strokes {
				samePlaces(t, s.Path, paths[i], 0.008) // of which 5e-6 of the largest radius
			}
		}
	}
}

// Every place of every stroke must be on some tile, at the right place of it, and
// neighbouring tiles must share their overlap.
func TestPDFTilesCoverEverything(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 34))
	for _, paper := range []Paper{A4(), Letter()} {
		for range 8 {
			job := randomJob(r)
			boxes := strokeBoxes(job)
			tl := tile(drawnBox(job, boxes), paper, defaultOverlap)
			used := tl.used(boxes)
			for _, op := range job.Operations {
				for _, s := range op.Strokes {
					for _, q := range samples(s.Path, 8) {
						found := false
						for row := range used {
							for column, u := range used[row] {
								found = found || u && tl.box(row, column).Contains(q)
							}
						}
						require.True(t, found, "%v", q)
					}
				}
			}
			for row := range tl.rows {
				for column := range tl.columns - 1 {
					a, b := tl.box(row, column), tl.box(row, column+1)
					assert.InDelta(t, defaultOverlap, a.Max.X-b.Min.X, 1e-9)
					shared := 0
					for _, x := range tl.crosses(row, column) {
						for _, y := range tl.crosses(row, column+1) {
							if x.Dist(y) < 1e-9 {
								shared++
							}
						}
					}
					assert.Equal(t, 2, shared, "two crosses fall on each other")
				}
			}
		}
	}
}

func TestPDFTilesShowTheirPartOfTheSheet(t *testing.T) {
	job := bigJob()
	data := PDF(job, PDFOptions{Paper: A4()})
	f := readPDF(t, data)
	boxes := strokeBoxes(job)
	tl := tile(drawnBox(job, boxes), A4(), defaultOverlap)
	require.Len(t, f.pages, 1+tl.rows*tl.columns)
	i := 1
	for row := tl.rows - 1; row >= 0; row-- {
		for column := range tl.columns {
			shift := tl.origin(row, column).Sub(plane.Pt(pageMargin, pageMargin))
			want := within(job, boxes, tl.box(row, column))
			got := f.pages[i].strokes(t)
			for _, op := range want.Operations {
				paths := got[operationColour(op)]
				require.Len(t, paths, len(op.Strokes))
				for k, s := range op.Strokes {
					samePlaces(t, s.Path, paths[k].Apply(plane.Translate(shift.X, shift.Y)), 0.002)
				}
			}
			assert.Contains(t, f.pages[i].content, "("+tl.name(row, column)+")")
			i++
		}
	}
}

func TestTileCounts(t *testing.T) {
	box := func(w, h float64) plane.Box { return plane.Box{Max: plane.Pt(w, h)} }
	// A4 shows 184 by 271; with 15 mm of overlap a step is 169 by 256.
	for _, c := range []struct {
		w, h          float64
		rows, columns int
	}{
		{100, 100, 1, 1}, {184, 271, 1, 1}, {184.01, 271, 1, 1}, {271, 184, 1, 1}, {300, 271, 1, 2},
		{184 + 169, 271, 1, 2}, {600, 400, 2, 4},
	} {
		got := tile(box(c.w, c.h), A4(), 15)
		if c.w == 184.01 { // turned paper does not help here
			assert.Equal(t, 2, got.rows*got.columns)
			continue
		}
		assert.Equal(t, c.rows*c.columns, got.rows*got.columns, "%v", c)
	}
	assert.Equal(t, []string{"A", "Z", "AA", "AB", "BA"}, []string{rowName(0), rowName(25), rowName(26), rowName(27), rowName(52)})
}

func TestNoPDFPageIsTooLarge(t *testing.T) {
	assert.InDelta(t, 5080, MaxPage, 1e-9) // 200 inches
	job := smallJob()
	job.Width = 6000
	assert.Panics(t, func() { PDF(job, PDFOptions{}) })
	readPDF(t, PDF(job, PDFOptions{Paper: A4()}))
	job.Width = 60
	for _, h := range []float64{1, 10, 19, 30, 60} { // no room for a bar is no reason to fail
		job.Height = h
		readPDF(t, PDF(job, PDFOptions{}))
	}
}

func TestPDFOfAnEmptyJob(t *testing.T) {
	job := cut.Job{Title: "nothing", Width: 300, Height: 200}
	for _, o := range []PDFOptions{{}, {Paper: A4()}} {
		data := PDF(job, o)
		readPDF(t, data)
	}
}

func TestPDFHostileNames(t *testing.T) {
	for _, name := range hostileNames() {
		job := smallJob()
		job.Title, job.Operations[0].Name, job.Operations[0].Colour = name, name, name
		for _, o := range []PDFOptions{{}, {Paper: A4()}} {
			data := PDF(job, o)
			f := readPDF(t, data)
			for _, p := range f.pages {
				assert.Equal(t, strings.Count(p.content, "BT "), strings.Count(p.content, " Tj ET\n"))
				for i := range len(p.content) {
					require.True(t, p.content[i] == '\n' || p.content[i] >= ' ' && p.content[i] < 0x7f, "%q", name)
				}
			}
			if strings.ContainsRune(name, '竹') {
				assert.Contains(t, Lacking(name), '竹')
			}
		}
	}
}

func TestPDFTextForms(t *testing.T) {
	got, lacking := pdfText("a − b ≤ 3 μm, 5″ × ½ → ∑ 竹\nnext")
	assert.Equal(t, "a - b <= 3 \xb5m, 5\" \xd7 \xbd -> ? ? next", string(got))
	assert.Equal(t, []rune("∑竹"), lacking)
	assert.Equal(t, `(a\(b\)\\\200\377)`, string(pdfString([]byte("a(b)\\\x80\xff"))))
	assert.Equal(t, "<FEFF00417AF9D83DDE00>", pdfUnicode("A竹😀"))
}

// standard is a document in the standard faces of the format.
var standard = NewDocument("", nil)

func TestWrap(t *testing.T) {
	ten := Type{}
	text := "Mask and raise the show face, run the scores, brush the kerfs, then dry-fit."
	for _, w := range []float64{15, 40, 80, 300} {
		lines := standard.Wrap(text, w, ten)
		assert.Equal(t, text, strings.Join(lines, " "))
		for i, l := range lines {
			assert.LessOrEqual(t, standard.TextWidth(l, ten), w)
			if i+1 < len(lines) {
				first, _, _ := strings.Cut(lines[i+1], " ")
				assert.Greater(t, standard.TextWidth(l+" "+first, ten), w, "no line ends early")
			}
		}
	}
	assert.Equal(t, []string{"one", "", "two"}, standard.Wrap("one\n\ntwo", 50, ten))
	assert.Equal(t, []string{"one", "two"}, standard.Wrap("one\r\ntwo", 50, ten))
	long := standard.Wrap("a"+strings.Repeat("W", 50)+" b", 20, ten)
	assert.Greater(t, len(long), 5)
	for _, l := range long {
		assert.LessOrEqual(t, standard.TextWidth(l, ten), 20.0)
	}
	assert.Equal(t, "aé竹", strings.Join(standard.Wrap("aé竹", 0.1, ten), ""), "never stuck")
	assert.Equal(t, []string{""}, standard.Wrap("", 50, ten))
}

// Widths by hand from the AFM file: H 722, e 556, l 222, o 556, at 10 pt.
func TestTextWidth(t *testing.T) {
	assert.InDelta(t, (722+556+2*222+556)*10.0/1000/ptPerMM, standard.TextWidth("Hello", Type{}), 1e-9)
	assert.InDelta(t, 2*standard.TextWidth("Hello", Type{}), standard.TextWidth("Hello", Type{Size: 20}), 1e-9)
	assert.Greater(t, standard.TextWidth("Hello", Type{Bold: true}), standard.TextWidth("Hello", Type{}))
	assert.Zero(t, standard.TextWidth("", Type{}))
	for c := 0x20; c < 0x100; c++ {
		r := []rune(string([]byte{byte(c)}))[0]
		if c < 0x80 {
			if _, ok := winAnsi(r); ok {
				assert.NotZero(t, helveticaWidths()[c-0x20])
				assert.NotZero(t, helveticaBoldWidths()[c-0x20])
			}
		}
	}
}

// poppler runs one of the programs of poppler-utils, which must have no complaint.
func poppler(t *testing.T, program string, data []byte, args ...string) []byte {
	t.Helper()
	return run(t, needs(t, program, "poppler-utils"), "job.pdf", data, args...)
}

func TestPDFPageSizesInPoppler(t *testing.T) {
	for _, c := range []struct {
		o    PDFOptions
		w, h float64
	}{{PDFOptions{}, 600, 400}, {PDFOptions{Paper: A4()}, 210, 297}, {PDFOptions{Paper: Letter()}, 215.9, 279.4}} {
		data := PDF(bigJob(), c.o)
		out := string(poppler(t, "pdfinfo", data, "-box", "FILE"))
		size := match(t, out, `Page size: +(\S+ x \S+) pts`)
		w, h, _ := strings.Cut(size, " x ")
		wv, _ := strconv.ParseFloat(w, 64)
		hv, _ := strconv.ParseFloat(h, 64)
		assert.InDelta(t, c.w, wv/ptPerMM, 0.1)
		assert.InDelta(t, c.h, hv/ptPerMM, 0.1)
		assert.Contains(t, out, "Hall seat, revision 3")
		assert.Contains(t, string(data), "/PrintScaling /None")
	}
}

// The bar must measure 100 mm in a picture another program makes of the page.
func TestPDFCheckBarInAPicture(t *testing.T) {
	const dpi = 400
	perMM := dpi / 25.4
	for name, c := range map[string]struct {
		job  cut.Job
		o    PDFOptions
		page string
		x, y float64 // of the bar's left end
	}{
		"whole sheet": {smallJob(), PDFOptions{}, "1", 10, 6},
		"key":         {bigJob(), PDFOptions{Paper: A4()}, "1", 210 - 127, 8.5},
		"tile":        {bigJob(), PDFOptions{Paper: Letter()}, "3", 215.9 - 127, 8.5},
	} {
		data := PDF(c.job, c.o)
		out := poppler(t, "pdftoppm", data, "-r", strconv.Itoa(dpi), "-f", c.page, "-l", c.page, "-png", "FILE")
		img, _, err := image.Decode(bytes.NewReader(out))
		require.NoError(t, err)
		// 1.8 mm above the bar only its end ticks are met.
		var ticks []float64
		for _, x := range darkRuns(img, img.Bounds().Dy()-int((c.y+1.8)*perMM)) {
			if x > (c.x-1)*perMM && x < (c.x+checkLength+1)*perMM { // not the labels beside it
				ticks = append(ticks, x)
			}
		}
		require.Len(t, ticks, 2, name)
		assert.InDelta(t, 100, (ticks[1]-ticks[0])/perMM, 0.1, name)
	}
}

// darkRuns returns the middles of the dark stretches in a row of pixels.
func darkRuns(img image.Image, y int) []float64 {
	var out []float64
	start := -1
	for x := range img.Bounds().Dx() {
		r, _, _, _ := img.At(x, y).RGBA()
		if dark := r < 0xA000; dark && start < 0 {
			start = x
		} else if !dark && start >= 0 {
			out, start = append(out, float64(start+x)/2), -1
		}
	}
	return out
}

func TestPDFTextIsReadable(t *testing.T) {
	job := bigJob()
	job.Title = "Très (petit) banc \\ 20 € – ½ size"
	data := PDF(job, PDFOptions{Paper: A4()})
	text := string(poppler(t, "pdftotext", data, "-layout", "FILE", "-"))
	for _, want := range []string{job.Title, "1 score: 120 lines", "A1", "B2", "row B of 2, column 1 of 2", "100 mm", "Print at 100 %"} {
		assert.Contains(t, text, want)
	}
}

// The widths of words as another program lays them out with its own metrics.
func TestTextWidthAgainstPoppler(t *testing.T) {
	d := NewDocument("widths", nil)
	p := d.Add(200, 200)
	words := []string{"Springrib", "WAVE", "il|1!", "10½", "Überlänge", "fluffy", "(brackets)", "€5", "“quoted”"}
	for i, w := range words {
		p.Text(plane.Pt(10, 180-float64(i)*15), w, Type{Size: 24, Bold: i%2 == 1})
	}
	out := poppler(t, "pdftotext", d.Bytes(), "-bbox", "FILE", "-")
	var doc struct {
		Words []struct {
			XMin float64 `xml:"xMin,attr"`
			XMax float64 `xml:"xMax,attr"`
			Text string  `xml:",chardata"`
		} `xml:"body>doc>page>word"`
	}
	require.NoError(t, xml.Unmarshal(out, &doc))
	require.Len(t, doc.Words, len(words))
	for i, w := range doc.Words {
		assert.Equal(t, words[i], w.Text)
		assert.InDelta(t, 10*ptPerMM, w.XMin, 0.1)
		assert.InDelta(t, standard.TextWidth(words[i], Type{Size: 24, Bold: i%2 == 1})*ptPerMM, w.XMax-w.XMin, 0.1)
	}
}

func TestPDFHostileNamesInPoppler(t *testing.T) {
	path := needs(t, "pdfinfo", "poppler-utils")
	for _, name := range hostileNames()[:8] {
		job := smallJob()
		job.Title, job.Operations[0].Name = name, name
		data := PDF(job, PDFOptions{Paper: A4()})
		cmd := exec.Command(path, "-")
		cmd.Stdin = bytes.NewReader(data)
		out, err := cmd.CombinedOutput()
		require.NoError(t, err)
		assert.NotContains(t, string(out), "rror", "%q", name)
		assert.Contains(t, string(out), "Pages:           2")
	}
}

func FuzzPDFText(f *testing.F) {
	for _, n := range hostileNames() {
		f.Add(n, 30.0)
	}
	f.Fuzz(func(t *testing.T, s string, width float64) {
		if !(width > 0 && width < 1000) || len(s) > 5000 {
			return
		}
		d := NewDocument(s, nil)
		d.Add(210, 297).Paragraph(plane.Pt(10, 280), width, s, Type{})
		if f := readPDF(t, d.Bytes()); len(f.pages) != 1 {
			t.Fatal(len(f.pages))
		}
	})
}
