package design

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"unicode/utf8"
)

// maxDepth is the deepest nesting of a file that is read; a design needs four.
const maxDepth = 16

// node is one value of a JSON text, members in their order and repeated ones kept.
type node struct {
	text    string // of a string or number
	kind    byte   // 's' string, 'n' number, 'b' boolean, '0' null, '[' list, '{' object
	on      bool
	names   []string // of an object's members
	entries []node   // members or entries
}

// errDeep and errMore are told apart from the errors of the JSON decoder.
var (
	errDeep = errors.New("nested too deeply")
	errMore = errors.New("text after the end")
)

// parse reads one JSON value and nothing after it.
func parse(text []byte) (node, error) {
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	n, err := value(d, 0)
	if err != nil {
		return n, err
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return n, errMore
	}
	return n, nil
}

func value(d *json.Decoder, depth int) (node, error) {
	if depth > maxDepth {
		return node{}, errDeep
	}
	tok, err := d.Token()
	if err != nil {
		return node{}, err
	}
	switch t := tok.(type) {
	case json.Delim:
		return container(d, byte(t), depth)
	case string:
		return node{kind: 's', text: t}, nil
	case json.Number:
		return node{kind: 'n', text: t.String()}, nil
	case bool:
		return node{kind: 'b', on: t}, nil
	}
	return node{kind: '0'}, nil
}

func container(d *json.Decoder, kind byte, depth int) (node, error) {
	n := node{kind: kind}
	for d.More() {
		if kind == '{' {
			tok, err := d.Token()
			if err != nil {
				return n, err
			}
			name, ok := tok.(string)
			if !ok {
				return n, errMore
			}
			n.names = append(n.names, name)
		}
		e, err := value(d, depth+1)
		if err != nil {
			return n, err
		}
		n.entries = append(n.entries, e)
	}
	_, err := d.Token() // the closing bracket
	return n, err
}

// get returns the last member called name.
func (n node) get(name string) (node, bool) {
	for i := len(n.names) - 1; i >= 0; i-- {
		if n.names[i] == name {
			return n.entries[i], true
		}
	}
	return node{}, false
}

// whole returns the value of a plain whole number.
func (n node) whole() (int, bool) {
	v, err := strconv.Atoi(n.text)
	return v, n.kind == 'n' && err == nil
}

// what names a node's kind in a sentence.
func (n node) what() string {
	switch n.kind {
	case 's':
		return "text"
	case 'n':
		return "a number"
	case 'b':
		return "yes or no"
	case '[':
		return "a list"
	case '{':
		return "a group of fields"
	}
	return "nothing"
}

// looksText tells whether the file is text at all.
func looksText(text []byte) bool { return utf8.Valid(text) && bytes.IndexByte(text, 0) < 0 }
