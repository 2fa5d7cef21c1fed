package export

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"slices"
	"strconv"
	"unicode/utf16"
)

// A small writer of PDF 1.6 (ISO 32000-1). It is our own because all it has to do
// is pages of lines, fills and short texts in standard fonts: a library would bring
// fonts, images and encryption into the wasm, some 0.2 to 0.3 MB of it compressed.

// ptPerMM is how many PDF units, of 1/72 inch, make a millimetre.
const ptPerMM = 72 / 25.4

// MaxPage is the largest page side that viewers take, mm: 14,400 units or 200 inches
// (ISO 32000-1, annex C.2). A larger page could state a larger unit, but programs that
// overlook that print it too small, so there is none.
const MaxPage = 14400 / ptPerMM

// Document is a PDF being written, page by page. Everything is measured in
// millimetres from the lower left corner of the page, Y up; sizes of type in points.
//
// Printing is asked for at true size. The same calls give the same bytes.
type Document struct {
	// Plain leaves page contents uncompressed, for tests and curious eyes.
	Plain bool
	title string
	pages []*Page
	faces *Faces
	used  []bool // of each cut of faces
}

// NewDocument returns a document without pages. Its title is what viewers show. It is set in
// faces; nil is the standard faces of the format.
func NewDocument(title string, faces *Faces) *Document {
	d := &Document{title: cleanName(title), faces: faces}
	if faces != nil {
		d.used = make([]bool, len(faces.Cuts))
	}
	return d
}

// Add appends a page of the given size in mm.
func (d *Document) Add(width, height float64) *Page {
	checkFinite(width)
	checkFinite(height)
	p := &Page{Width: width, Height: height, doc: d}
	p.printf("%s 0 0 %s 0 0 cm 1 J 1 j\n", ratio(ptPerMM), ratio(ptPerMM)) // mm from here on; round ends
	d.pages = append(d.pages, p)
	return p
}

// Pages returns how many pages there are.
func (d *Document) Pages() int { return len(d.pages) }

// Lacking returns the characters of texts that neither the typeface nor the standard faces
// have, each once: they are printed as "?".
func Lacking(texts ...string) (out []rune) {
	for _, s := range texts {
		_, lacking := pdfText(s)
		for _, r := range lacking {
			if !isFurther(r) && !slices.Contains(out, r) {
				out = append(out, r)
			}
		}
	}
	return out
}

// Objects of the file before the pages; page i is object firstPage+2i, its content
// the one after it.
const (
	catalogObject = iota + 1
	pagesObject
	infoObject
	regularFont
	boldFont
	firstPage
)

// Bytes returns the finished file. A document without pages panics.
func (d *Document) Bytes() []byte {
	if len(d.pages) == 0 {
		panic("export: a PDF needs a page")
	}
	w := &pdfWriter{}
	w.b.WriteString("%PDF-1.6\n%\xe2\xe3\xcf\xd3\n")
	w.object(catalogObject, "<< /Type /Catalog /Pages %d 0 R /ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >> >>", pagesObject)
	var kids []byte
	for i := range d.pages {
		kids = fmt.Appendf(kids, " %d 0 R", firstPage+2*i)
	}
	w.object(pagesObject, "<< /Type /Pages /Count %d /Kids [%s ] >>", len(d.pages), kids)
	w.object(infoObject, "<< /Title %s /Producer (Springrib) >>", pdfUnicode(d.title))
	for i, name := range []string{"Helvetica", "Helvetica-Bold"} {
		w.object(regularFont+i, "<< /Type /Font /Subtype /Type1 /BaseFont /%s /Encoding /WinAnsiEncoding >>", name)
	}
	fonts := fmt.Appendf(nil, "/R %d 0 R /B %d 0 R", regularFont, boldFont)
	behind := firstPage + 2*len(d.pages)
	if d.faces != nil {
		fonts = nil
	}
	n := behind
	for i, used := range d.used {
		if used {
			fonts = fmt.Appendf(fonts, "/F%d %d 0 R ", i, n)
			n += objectsOfCut
		}
	}
	for i, p := range d.pages {
		n := firstPage + 2*i
		w.object(n, "<< /Type /Page /Parent %d 0 R /MediaBox [0 0 %s %s] /Contents %d 0 R /Resources << /Font << %s >> >> >>",
			pagesObject, ratio(p.Width*ptPerMM), ratio(p.Height*ptPerMM), n+1, fonts)
		w.stream(n+1, p.b, d.Plain)
	}
	n = behind
	for i, used := range d.used {
		if used {
			d.faces.Cuts[i].write(w, n)
			n += objectsOfCut
		}
	}
	return w.finish()
}

// pdfWriter writes objects and remembers where each starts.
type pdfWriter struct {
	b       bytes.Buffer
	offsets []int
}

// object writes object n; they come in order from 1.
func (w *pdfWriter) object(n int, format string, args ...any) {
	w.begin(n)
	fmt.Fprintf(&w.b, format, args...)
	w.b.WriteString("\nendobj\n")
}

func (w *pdfWriter) begin(n int) {
	if n != len(w.offsets)+1 {
		panic(fmt.Sprintf("export: PDF object %d out of order", n))
	}
	w.offsets = append(w.offsets, w.b.Len())
	fmt.Fprintf(&w.b, "%d 0 obj\n", n)
}

func (w *pdfWriter) stream(n int, content []byte, plain bool) {
	filter := ""
	if !plain {
		var z bytes.Buffer
		zw := zlib.NewWriter(&z)
		zw.Write(content) // a bytes.Buffer takes everything
		zw.Close()
		content, filter = z.Bytes(), "/Filter /FlateDecode"
	}
	w.packed(n, content, filter)
}

// packed writes a stream whose content is as its filter has it.
func (w *pdfWriter) packed(n int, content []byte, filter string) {
	w.begin(n)
	fmt.Fprintf(&w.b, "<< /Length %d", len(content))
	if filter != "" {
		w.b.WriteString(" " + filter)
	}
	w.b.WriteString(" >>\nstream\n")
	w.b.Write(content)
	w.b.WriteString("\nendstream\nendobj\n")
}

// finish writes the table of offsets and the trailer.
func (w *pdfWriter) finish() []byte {
	start := w.b.Len()
	fmt.Fprintf(&w.b, "xref\n0 %d\n0000000000 65535 f \n", len(w.offsets)+1)
	for _, o := range w.offsets {
		fmt.Fprintf(&w.b, "%010d 00000 n \n", o)
	}
	fmt.Fprintf(&w.b, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R >>\nstartxref\n%d\n%%%%EOF\n",
		len(w.offsets)+1, catalogObject, infoObject, start)
	return w.b.Bytes()
}

// pdfUnicode returns s as a PDF text string in UTF-16, written in hexadecimal.
func pdfUnicode(s string) string {
	b := []byte("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		b = fmt.Appendf(b, "%04X", u)
	}
	return string(append(b, '>'))
}

// pdfString returns WinAnsi text as a PDF string of ASCII.
func pdfString(text []byte) []byte {
	b := []byte{'('}
	for _, c := range text {
		switch {
		case c == '(' || c == ')' || c == '\\':
			b = append(b, '\\', c)
		case c < ' ' || c > '~':
			b = append(b, '\\')
			b = append(b, "00"[:3-len(strconv.FormatInt(int64(c), 8))]...)
			b = strconv.AppendInt(b, int64(c), 8)
		default:
			b = append(b, c)
		}
	}
	return append(b, ')')
}

// ratio is appendRatio as a string.
func ratio(v float64) string { return string(appendRatio(nil, v)) }
