package export

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"unicode/utf16"
)

// Faces is a typeface that goes along in a PDF. The page's builder makes it and the page hands
// it over with the question for a file, since its bytes would make the core longer for
// everybody. Without one a document is set in the standard faces of the format.
type Faces struct {
	// Cuts are tried in their order for each letter, those of the wanted weight first.
	Cuts []Cut `json:"cuts"`
}

// Cut is one weight of a typeface, with some of its letters.
type Cut struct {
	Name   string `json:"name"` // of the font, as PostScript has it, with the tag of a subset
	Bold   bool   `json:"bold"`
	Runes  string `json:"runes"`  // glyph 1 is the first of them
	Widths []int  `json:"widths"` // of each of Runes, thousandths of the size
	// Metrics are the members of the font's descriptor but its name and its file.
	Metrics string `json:"metrics"`
	Length  int    `json:"length"` // of the font, bytes
	File    []byte `json:"file"`   // the TrueType font, in the format of zlib
	glyphs  []rune
}

// ReadFaces reads Faces from JSON; no text is no typeface.
func ReadFaces(text []byte) (*Faces, error) {
	if len(text) == 0 {
		return nil, nil
	}
	f := &Faces{}
	err := json.Unmarshal(text, f)
	for i := range f.Cuts {
		c := &f.Cuts[i]
		c.glyphs = []rune(c.Runes)
		if len(c.glyphs) != len(c.Widths) {
			err = errors.New("widths")
		}
	}
	if err != nil || len(f.Cuts) == 0 {
		return nil, errors.New("the typeface of the PDFs can't be read; reload the page")
	}
	return f, nil
}

// facesLarger is by how much text is set larger in the typeface than in Helvetica: its small
// letters are lower (x-height 0.45 of the size against 0.52), its lines are shorter.
const facesLarger = 1.1

// Further letters that the typeface has and the standard faces have not: Latin Extended-A, Greek
// and Cyrillic, as far as living languages of Europe take them from there.
var furtherSpans = [...][2]rune{{0x100, 0x148}, {0x14a, 0x17e}, {0x386, 0x386}, {0x388, 0x38a}, {0x38c, 0x38c}, {0x38e, 0x3a1}, {0x3a3, 0x3ce}, {0x400, 0x45f}, {0x490, 0x491}}

// Further returns those letters.
func Further() []rune {
	var out []rune
	for _, s := range furtherSpans {
		for r := s[0]; r <= s[1]; r++ {
			out = append(out, r)
		}
	}
	return out
}

func isFurther(r rune) bool {
	for _, s := range furtherSpans {
		if r >= s[0] && r <= s[1] {
			return true
		}
	}
	return false
}

// find returns the cut that has a letter and its place there; ok is false where none has it.
func (f *Faces) find(r rune, bold bool) (cut, at int, ok bool) {
	for _, want := range [2]bool{bold, !bold} {
		for i, c := range f.Cuts {
			if c.Bold != want {
				continue
			}
			for at, g := range c.glyphs {
				if g == r {
					return i, at, true
				}
			}
		}
	}
	return 0, 0, false
}

// setRun is a stretch of text in one font.
type setRun struct {
	font  string // its name among the resources
	text  string // as an operand of Tj
	width int    // thousandths of the size
	// lost are the letters that question marks stand for: they are not seen, but copied,
	// searched for and read aloud.
	lost string
}

// runs sets s in the fonts of the document.
func (d *Document) runs(s string, bold bool) []setRun {
	if d.faces == nil {
		return standardRuns(s, bold)
	}
	var out []setRun
	last := -1
	add := func(r rune, lost string) bool {
		cut, at, ok := d.faces.find(r, bold)
		if !ok {
			return false
		}
		if n := len(out); n == 0 || last != cut || (out[n-1].lost == "") != (lost == "") {
			out = append(out, setRun{font: fmt.Sprintf("F%d", cut)})
			last = cut
		}
		o := &out[len(out)-1]
		o.text += fmt.Sprintf("%04X", at+1)
		o.width += d.faces.Cuts[cut].Widths[at]
		o.lost += lost
		d.used[cut] = true
		return true
	}
	for _, r := range cleanLine(s) {
		if add(r, "") {
			continue
		}
		if alt := standIn(r); alt != "" {
			for _, a := range alt {
				add(a, "")
			}
			continue
		}
		add('?', string(r))
	}
	for i := range out {
		out[i].text = "<" + out[i].text + ">"
	}
	return out
}

func standardRuns(s string, bold bool) []setRun {
	text, _ := pdfText(s)
	if len(text) == 0 {
		return nil
	}
	r := setRun{font: "R", text: string(pdfString(text))}
	table := helveticaWidths()
	if bold {
		r.font, table = "B", helveticaBoldWidths()
	}
	for _, c := range text {
		r.width += int(table[c-0x20])
	}
	return []setRun{r}
}

// objectsOfCut is how many objects of a file a cut takes.
const objectsOfCut = 5

// write writes a cut from object n on: the font, what it is made of, its measures, its file, and
// which letters its glyphs are (ISO 32000-1, 9.7.4, 9.8 and 9.10.3).
func (c *Cut) write(w *pdfWriter, n int) {
	w.object(n, "<< /Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H /DescendantFonts [%d 0 R] /ToUnicode %d 0 R >>", c.Name, n+1, n+4)
	w.object(n+1, "<< /Type /Font /Subtype /CIDFontType2 /BaseFont /%s /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /CIDToGIDMap /Identity /FontDescriptor %d 0 R /W [1 %d] >>",
		c.Name, n+2, c.Widths)
	w.object(n+2, "<< /Type /FontDescriptor /FontName /%s %s /FontFile2 %d 0 R >>", c.Name, c.Metrics, n+3)
	w.packed(n+3, c.File, fmt.Sprintf("/Length1 %d /Filter /FlateDecode", c.Length))
	w.stream(n+4, c.letters(), false)
}

// letters is the table from glyphs to letters.
func (c *Cut) letters() []byte {
	var b strings.Builder
	b.WriteString("/CIDInit /ProcSet findresource begin 12 dict begin begincmap /CMapName /Letters def /CMapType 2 def\n1 begincodespacerange <0000> <FFFF> endcodespacerange\n")
	for i, r := range c.glyphs {
		if i%100 == 0 { // so many stand in a block at most
			fmt.Fprintf(&b, "%d beginbfchar\n", min(100, len(c.glyphs)-i))
		}
		fmt.Fprintf(&b, "<%04X> <", i+1)
		for _, u := range utf16.Encode([]rune{r}) {
			fmt.Fprintf(&b, "%04X", u)
		}
		b.WriteString(">\n")
		if i%100 == 99 || i == len(c.glyphs)-1 {
			b.WriteString("endbfchar\n")
		}
	}
	b.WriteString("endcmap end end\n")
	return []byte(b.String())
}
