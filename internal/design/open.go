package design

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"springrib/internal/finding"
)

// MaxFile is the largest design file read, bytes. Real ones have two to five thousand.
const MaxFile = 1 << 20

// Trouble says why a file could not be opened.
type Trouble uint8

// The troubles with a file.
const (
	TooLarge  Trouble = iota // over MaxFile
	Nothing                  // empty
	CutShort                 // ends in the middle
	NotJSON                  // no JSON text
	TooDeep                  // nested beyond anything a design holds
	NotDesign                // JSON, but no design
	Newer                    // of a version that this program does not know
)

// FileError is the error of Open, in words for the person who chose the file.
type FileError struct {
	Trouble Trouble
	Text    string
}

// Error returns Text.
func (e *FileError) Error() string { return e.Text }

// maxNotes bounds the findings about single members of a file.
const maxNotes = 20

// Open reads a saved design of this or an earlier version. The error, if any, is a
// *FileError. A member of the wrong type is left empty ("file-type", a warning), one
// that is not known is left out ("file-unknown", a note), one that occurs twice counts
// as it stands last ("file-twice", a note). Nothing is said about what the fields mean: Read does.
func Open(text []byte) (doc Document, notes []finding.Finding, err error) {
	o, err := open(text, &doc, designFile)
	doc.Format, doc.Version = Format, Version
	if err != nil {
		return Document{}, nil, err
	}
	return doc, o.notes, nil
}

// fileKind is a kind of file: what it says of itself, and what is said of it.
type fileKind struct {
	format  string
	version int
	not     string // what a file of another kind fails to do
	name    string
}

var designFile = fileKind{Format, Version, "is not a design: it does not say that it is one", "design"}

// open fills what a pointer points to from a file of a kind. The error, if any, is a
// *FileError.
func open(text []byte, into any, kind fileKind) (o opener, err error) {
	n, err := tree(text)
	if err != nil {
		return o, err
	}
	if format, _ := n.get("format"); format.text != kind.format || format.kind != 's' {
		return o, &FileError{NotDesign, "This file " + kind.not + ". Choose one that was saved here."}
	}
	v, _ := n.get("version")
	switch version, ok := v.whole(); {
	case !ok || version < 1:
		return o, &FileError{NotDesign, "This " + kind.name + " does not say of which version it is. Save it again where it came from."}
	case version > kind.version:
		return o, &FileError{Newer, "This " + kind.name + " is of version " + strconv.Itoa(version) + ", made by a newer page; this one reads up to version " + strconv.Itoa(kind.version) + ". Open it in the newer page."}
	}
	// There is only one version of each kind yet. The next one brings a file of the version
	// before up to itself here, and a file of that to testdata.
	o.fill(reflect.ValueOf(into).Elem(), n, "")
	return o, nil
}

func tree(text []byte) (node, error) {
	if len(text) > MaxFile {
		return node{}, &FileError{TooLarge, "This file has " + strconv.Itoa(len(text)>>20) + " MB; a design never comes near 1 MB. Choose a design that was saved here."}
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	if len(bytes.TrimSpace(text)) == 0 {
		return node{}, &FileError{Nothing, "This file is empty. Choose a design that was saved here."}
	}
	n, err := parse(text)
	var syntax *json.SyntaxError
	switch {
	case err == nil && n.kind == '{':
		return n, nil
	case err == nil || !looksText(text):
		return n, &FileError{NotDesign, "This file is not a design. Choose one that was saved here; its name ends in .json."}
	case errors.Is(err, errDeep):
		return n, &FileError{TooDeep, "This file is nested more deeply than any design. Choose one that was saved here."}
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || errors.As(err, &syntax) && strings.Contains(syntax.Error(), "unexpected end"):
		return n, &FileError{CutShort, "This file is cut short: it ends in the middle. Save or copy it again."}
	}
	return n, &FileError{NotJSON, "This file can't be read as a design: it is damaged or of another kind. Choose one that was saved here."}
}

// opener fills a document from a tree and takes notes.
type opener struct{ notes []finding.Finding }

func (o *opener) note(sev finding.Severity, id, path, text string) {
	if len(o.notes) < maxNotes {
		o.notes = append(o.notes, finding.Finding{ID: id, Severity: sev, Place: finding.Place{Field: path}, Text: text})
	}
}

func (o *opener) wrong(n node, path, wanted string) {
	if n.kind != '0' { // null is an empty field
		o.note(finding.Warn, "file-type", path, "In the file, "+path+" holds "+n.what()+" instead of "+wanted+". It was left empty.")
	}
}

func (o *opener) fill(v reflect.Value, n node, path string) {
	switch v.Kind() {
	case reflect.Struct, reflect.Map:
		o.members(v, n, path)
	case reflect.String:
		switch {
		case n.kind == 's':
			v.SetString(n.text)
		case n.kind == 'n' && !strings.ContainsAny(n.text, "eE"):
			v.SetString(n.text)
		default:
			o.wrong(n, path, "text")
		}
	case reflect.Bool:
		if n.kind == 'b' {
			v.SetBool(n.on)
		} else {
			o.wrong(n, path, "yes or no")
		}
	case reflect.Slice:
		if n.kind != '[' {
			o.wrong(n, path, "a list")
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), len(n.entries), len(n.entries)))
		for i, e := range n.entries {
			o.fill(v.Index(i), e, index(path, i))
		}
	}
}

func (o *opener) members(v reflect.Value, n node, path string) {
	if n.kind != '{' {
		o.wrong(n, path, "a group of fields")
		return
	}
	for i, name := range n.names {
		at := name
		if path != "" {
			at = path + "." + name
		}
		m := under(v, name)
		if !m.IsValid() {
			o.note(finding.Note, "file-unknown", at, "The file holds "+short(at)+", which this page does not know. It was left out.")
			continue
		}
		if slices.Contains(n.names[:i], name) {
			o.note(finding.Note, "file-twice", at, "The file gives "+short(at)+" twice. The last one counts.")
		}
		m.SetZero()
		o.fill(m, n.entries[i], at)
		keep(v, name, m)
	}
}
