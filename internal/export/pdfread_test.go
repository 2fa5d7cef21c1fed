package export

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// A small reader of the PDFs written here: it follows the table of offsets, which
// text search would not, and reads the operators of page contents.

type pdfFile struct {
	objects map[int]string
	pages   []pdfPage
}

type pdfPage struct {
	width, height float64 // points
	content       string
}

func readPDF(t *testing.T, data []byte) pdfFile {
	t.Helper()
	require.True(t, bytes.HasPrefix(data, []byte("%PDF-1.6\n")))
	m := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindSubmatch(data)
	require.NotNil(t, m)
	at, _ := strconv.Atoi(string(m[1]))
	table := strings.Split(string(data[at:]), "\n")
	require.Equal(t, "xref", table[0])
	var n int
	fmt.Sscanf(table[1], "0 %d", &n)
	f := pdfFile{objects: map[int]string{}}
	for i := 1; i < n; i++ {
		line := table[2+i]
		require.Len(t, line, 19, "with its line end an entry is 20 bytes")
		offset, err := strconv.Atoi(line[:10])
		require.NoError(t, err)
		head := fmt.Sprintf("%d 0 obj\n", i)
		require.True(t, bytes.HasPrefix(data[offset:], []byte(head)), "object %d is where the table says", i)
		body := data[offset+len(head):]
		end := bytes.Index(body, []byte("\nendobj\n"))
		if k := bytes.Index(body, []byte("\nstream\n")); k >= 0 && k < end {
			end = len(body) // a stream is read by its length
		}
		f.objects[i] = string(body[:end])
	}
	for _, kid := range regexp.MustCompile(`(\d+) 0 R`).FindAllStringSubmatch(match(t, f.objects[pagesObject], `/Kids \[(.*?)\]`), -1) {
		k, _ := strconv.Atoi(kid[1])
		page := f.objects[k]
		box := strings.Fields(match(t, page, `/MediaBox \[(.*?)\]`))
		c, _ := strconv.Atoi(match(t, page, `/Contents (\d+) 0 R`))
		p := pdfPage{content: streamOf(t, f.objects[c])}
		p.width, _ = strconv.ParseFloat(box[2], 64)
		p.height, _ = strconv.ParseFloat(box[3], 64)
		f.pages = append(f.pages, p)
	}
	return f
}

func match(t *testing.T, s, re string) string {
	t.Helper()
	m := regexp.MustCompile(re).FindStringSubmatch(s)
	require.NotNil(t, m, "%s in %.200s", re, s)
	return m[1]
}

func streamOf(t *testing.T, object string) string {
	t.Helper()
	n, _ := strconv.Atoi(match(t, object, `/Length (\d+)`))
	head, rest, _ := strings.Cut(object, "\nstream\n")
	require.True(t, strings.HasPrefix(rest[n:], "\nendstream\nendobj\n"))
	if !strings.Contains(head, "/FlateDecode") {
		return rest[:n]
	}
	r, err := zlib.NewReader(strings.NewReader(rest[:n]))
	require.NoError(t, err)
	out, err := io.ReadAll(r)
	require.NoError(t, err)
	return string(out)
}

// pdfToken splits content into numbers, names, strings and operators.
var pdfToken = regexp.MustCompile(`\((?:\\.|[^\\()])*\)|\[|\]|/?[^\s\[\]()]+`)

// strokes returns the stroked paths of a page in mm, by colour.
func (p pdfPage) strokes(t *testing.T) map[RGB][]plane.Path {
	t.Helper()
	out := map[RGB][]plane.Path{}
	var args []float64
	var path plane.Path
	var at, start plane.Point
	var colour RGB
	pt := func(i int) plane.Point { return plane.Pt(args[i], args[i+1]) }
	for _, tok := range pdfToken.FindAllString(p.content, -1) {
		if v, err := strconv.ParseFloat(tok, 64); err == nil {
			args = append(args, v)
			continue
		}
		switch tok {
		case "m":
			at = pt(0)
			start = at
		case "l":
			path.Segs = append(path.Segs, plane.LineSeg(at, pt(0)))
			at = pt(0)
		case "c":
			path.Segs = append(path.Segs, plane.CubicSeg(at, pt(0), pt(2), pt(4)))
			at = pt(4)
		case "h":
			if at != start {
				path.Segs = append(path.Segs, plane.LineSeg(at, start))
			}
			path.Closed = true
		case "RG":
			colour = RGB{uint8(args[0]*255 + 0.5), uint8(args[1]*255 + 0.5), uint8(args[2]*255 + 0.5)}
		case "S":
			out[colour] = append(out[colour], path)
			path = plane.Path{}
		case "[", "]":
			continue
		}
		args = nil
	}
	return out
}
