package intake

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// FileError says why a file can't be taken. ID is stable; Text is for the person.
type FileError struct {
	ID   string
	Text string
}

// Error returns the text for the person.
func (e *FileError) Error() string { return e.Text }

// The ids of FileError.
const (
	TooLarge      = "file-too-large"
	TooMany       = "file-too-much-in-it"
	TooDeep       = "file-nested-too-deep"
	Circular      = "file-contains-itself"
	UnknownFormat = "file-format-unknown"
	BinaryDXF     = "file-binary-dxf"
	NotText       = "file-not-text"
	Broken        = "file-broken"
)

func refuse(id, format string, args ...any) error {
	return &FileError{ID: id, Text: fmt.Sprintf(format, args...)}
}

func checkSize(data []byte) error {
	if len(data) > MaxBytes {
		return refuse(TooLarge, "The file has %.0f MB; at most %d MB are read. Leave out pictures and anything but the outlines.",
			float64(len(data))/1e6, MaxBytes/1_000_000)
	}
	return nil
}

func tooManySegments() error {
	return refuse(TooMany, "The drawing has more than %d lines and curves. Leave out what isn't cut.", MaxSegments)
}

// sniff tells the format by the first characters, and names what is often handed
// in instead.
func sniff(data []byte) (Format, error) {
	head := bytes.TrimLeft(data[:min(len(data), 4096)], " \t\r\n")
	first := head
	if end := bytes.IndexAny(head, "\r\n"); end >= 0 {
		first = head[:end]
	}
	_, number := strconv.Atoi(string(bytes.TrimSpace(first[:min(len(first), 40)])))
	switch {
	case len(head) == 0:
		return "", refuse(UnknownFormat, "The file is empty.")
	case isBinaryDXF(head):
		return "", binaryDXF()
	case head[0] == '<':
		return SVG, nil
	case number == nil:
		return DXF, nil
	case bytes.HasPrefix(head, []byte("%PDF")):
		return "", refuse(UnknownFormat, "This is a PDF. Save the drawing as SVG or DXF.")
	case bytes.HasPrefix(head, []byte("\x1f\x8b")), bytes.HasPrefix(head, []byte("PK")):
		return "", refuse(UnknownFormat, "This file is compressed. Unpack it, or save as plain SVG or DXF.")
	case bytes.HasPrefix(head, []byte("AC10")):
		return "", refuse(UnknownFormat, "This is a DWG drawing. Save it as DXF (text).")
	}
	return "", refuse(UnknownFormat, "This is neither SVG nor DXF.")
}

// isBinaryDXF recognises the sentinel that opens a binary DXF file.
func isBinaryDXF(head []byte) bool {
	return bytes.Contains(head[:min(len(head), 32)], []byte("Binary DXF"))
}

func binaryDXF() error {
	return refuse(BinaryDXF, "This is a binary DXF file. Save the drawing as DXF in text form (ASCII).")
}

// maxName is the longest name that is kept, in characters.
const maxName = 40

// PlainName reduces a name to at most 40 letters, digits and plain signs.
func PlainName(s string) string { return plainName(s) }

// plainName reduces a name of the file to at most 40 letters, digits and plain
// signs, so that it can be shown anywhere.
func plainName(s string) string {
	var b strings.Builder
	n, gap := 0, false
	for _, c := range s[:min(len(s), 16*maxName)] {
		if !(unicode.IsLetter(c) || unicode.IsDigit(c) || strings.ContainsRune("-_.,+#()/*", c)) || c == utf8.RuneError {
			gap = n > 0
			continue
		}
		if gap {
			b.WriteByte(' ')
			n++
		}
		gap = false
		if n++; n > maxName {
			break
		}
		b.WriteRune(c)
	}
	return strings.TrimRight(b.String(), " ")
}
