package export

import (
	"encoding/xml"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// printed is the typeface that goes along.
func printed(t *testing.T) *Faces {
	t.Helper()
	text, err := os.ReadFile("../../site/print/faces.json")
	require.NoError(t, err)
	f, err := ReadFaces(text)
	require.NoError(t, err)
	return f
}

// What is printed is what another program reads, letters of other scripts among it; where there
// is but a question mark, the letter itself is still copied and searched for.
func TestTextInTheTypefaceIsReadable(t *testing.T) {
	job := bigJob()
	job.Title = "Très (petit) banc \\ 20 € – ½ size"
	names := []string{job.Title, "Žižkov Řasa", "Ωμέγα φάρος", "Книга ґанок", "Lamp 竹 1"}
	job.Note = strings.Join(names[1:], " | ")
	data := PDF(job, PDFOptions{Paper: A4(), Faces: printed(t)})
	text := string(poppler(t, "pdftotext", data, "-layout", "FILE", "-"))
	for _, want := range append(names, "1 score: 120 lines", "A1", "row B of 2, column 1 of 2", "Print at 100 %") {
		assert.Contains(t, text, want)
	}
	fonts := string(poppler(t, "pdffonts", data, "FILE"))
	assert.NotContains(t, fonts, "Helvetica")
	for _, line := range strings.Split(strings.TrimSpace(fonts), "\n")[2:] {
		assert.Regexp(t, `AlegreyaSans.*Identity-H +yes yes yes`, line, "embedded, a subset, with its letters")
	}
	assert.Empty(t, Lacking(names[:4]...))
	assert.Equal(t, []rune("竹"), Lacking(names...))
	for i, p := range readPDF(t, PDF(job, PDFOptions{Paper: A4(), Faces: printed(t)})).pages {
		assert.NotContains(t, p.content, "/R ", "page %d", i)
	}
}

// The widths of words as another program lays them out from the fonts in the file.
func TestWidthsInTheTypefaceAgainstPoppler(t *testing.T) {
	d := NewDocument("widths", printed(t))
	p := d.Add(200, 200)
	words := []string{"Springrib", "WAVE", "il|1!", "10½", "Überlänge", "fluffy", "Žižkov", "€5", "“quoted”", "φάρος"}
	for i, w := range words {
		p.Text(plane.Pt(10, 180-float64(i)*15), w, Type{Size: 24, Bold: i%2 == 1})
	}
	var doc struct {
		Words []struct {
			XMin float64 `xml:"xMin,attr"`
			XMax float64 `xml:"xMax,attr"`
			Text string  `xml:",chardata"`
		} `xml:"body>doc>page>word"`
	}
	require.NoError(t, xml.Unmarshal(poppler(t, "pdftotext", d.Bytes(), "-bbox", "FILE", "-"), &doc))
	require.Len(t, doc.Words, len(words))
	for i, w := range doc.Words {
		assert.Equal(t, words[i], w.Text)
		assert.InDelta(t, d.TextWidth(words[i], Type{Size: 24, Bold: i%2 == 1})*ptPerMM, w.XMax-w.XMin, 0.1)
	}
	for _, c := range "0123456789" {
		assert.Equal(t, d.TextWidth("0", Type{}), d.TextWidth(string(c), Type{}), "figures stand under each other")
	}
}

func TestFacesThatCantBeRead(t *testing.T) {
	f, err := ReadFaces(nil)
	assert.Nil(t, f)
	assert.NoError(t, err)
	for _, text := range []string{"{}", "x", `{"cuts":[{"runes":"ab","widths":[1]}]}`, `[]`} {
		_, err := ReadFaces([]byte(text))
		assert.Error(t, err, text)
	}
}
