package design

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"reflect"
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
func Open(text []byte) (Document, []finding.Finding, error) {
	tree, err := tree(text)
	if err != nil {
		return Document{}, nil, err
	}
	version, err := versionOf(tree)
	if err != nil {
		return Document{}, nil, err
	}
	tree = upgrade(tree, version)
	o := opener{}
	var doc Document
	o.fill(reflect.ValueOf(&doc).Elem(), tree, "")
	doc.Format, doc.Version = Format, Version
	return doc, o.notes, nil
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

func versionOf(n node) (int, error) {
	format, _ := n.get("format")
	if format.text != Format || format.kind != 's' {
		return 0, &FileError{NotDesign, "This file is not a design: it does not say that it is one. Choose one that was saved here."}
	}
	v, _ := n.get("version")
	version, ok := v.whole()
	switch {
	case !ok || version < 1:
		return 0, &FileError{NotDesign, "This design does not say of which version it is. Save it again where it came from."}
	case version > Version:
		return 0, &FileError{Newer, "This design is of version " + strconv.Itoa(version) + ", made by a newer page; this one reads up to version " + strconv.Itoa(Version) + ". Open it in the newer page."}
	}
	return version, nil
}

// upgrade brings a file of an earlier version up to the present one, a version at a
// time. There is only one version yet; the next adds its case here, and a file of this
// one to testdata.
func upgrade(n node, version int) node {
	for ; version < Version; version++ {
		panic("design: no upgrade from version " + strconv.Itoa(version))
	}
	return n
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
	case reflect.Struct:
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
	case reflect.Map:
		o.operations(v, n, path)
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
		m := member(v, name)
		if !m.IsValid() {
			o.unknown(at)
			continue
		}
		o.twice(n, i, at)
		m.SetZero()
		o.fill(m, n.entries[i], at)
	}
}

func (o *opener) operations(v reflect.Value, n node, path string) {
	if n.kind != '{' {
		o.wrong(n, path, "a group of fields")
		return
	}
	v.Set(reflect.MakeMap(v.Type()))
	for i, id := range n.names {
		at := path + "." + id
		if !isOperation(id) {
			o.unknown(at)
			continue
		}
		o.twice(n, i, at)
		op := reflect.New(v.Type().Elem()).Elem()
		o.fill(op, n.entries[i], at)
		v.SetMapIndex(reflect.ValueOf(id), op)
	}
}

func (o *opener) unknown(path string) {
	o.note(finding.Note, "file-unknown", path, "The file holds "+short(path)+", which this page does not know. It was left out.")
}

func (o *opener) twice(n node, i int, path string) {
	for _, earlier := range n.names[:i] {
		if earlier == n.names[i] {
			o.note(finding.Note, "file-twice", path, "The file gives "+short(path)+" twice. The last one counts.")
			return
		}
	}
}
