package intake

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// node is an element of an SVG file, with the attributes that matter here.
type node struct {
	name     string
	attrs    []attr
	children []*node
	text     []byte // of a style element
}

type attr struct{ name, value string }

// get returns the attribute, "" when absent.
func (n *node) get(name string) string {
	for _, a := range n.attrs {
		if a.name == name {
			return a.value
		}
	}
	return ""
}

const svgSpace = "http://www.w3.org/2000/svg"

// kept reports whether an attribute is read anywhere.
func kept(name string) bool {
	switch name {
	case "id", "class", "style", "d", "points", "x", "y", "width", "height", "rx", "ry", "cx", "cy", "r",
		"x1", "y1", "x2", "y2", "viewBox", "preserveAspectRatio", "href", "requiredExtensions", "label", "groupmode":
		return true
	}
	_, ok := propertyOf(name)
	return ok
}

// parseTree reads the elements of an SVG file and returns its root.
func parseTree(data []byte) (*node, error) {
	data = utf8Text(data)
	if bytes.IndexByte(data[:min(len(data), 1024)], 0) >= 0 {
		return nil, refuse(NotText, "The file is not text.")
	}
	if bytes.Count(data, []byte("=")) > 5*MaxElements {
		return nil, refuse(TooMany, "The file holds more attributes than any drawing needs.")
	}
	dec := xml.NewDecoder(asXML10(data))
	dec.CharsetReader = func(label string, in io.Reader) (io.Reader, error) { return charset(label, data, in) }
	t := treeReader{dec: dec, data: data}
	root, err := t.read()
	return root, t.explain(err)
}

type treeReader struct {
	dec   *xml.Decoder
	data  []byte
	count int
}

// explain turns what the XML reader says into words for the person.
func (t *treeReader) explain(err error) error {
	var syntax *xml.SyntaxError
	var own *FileError
	switch {
	case err == nil, errors.As(err, &own):
		return err
	case errors.As(err, &syntax) && strings.Contains(syntax.Msg, "UTF-8"):
		return refuse(NotText, "Line %d of the file is not text (UTF-8).", syntax.Line)
	case errors.As(err, &syntax):
		return refuse(Broken, "The file breaks off or is damaged at line %d (%s).", syntax.Line, plainName(syntax.Msg))
	}
	return refuse(Broken, "The file is damaged (%s).", plainName(err.Error()))
}

func (t *treeReader) read() (*node, error) {
	var stack []*node
	var root *node
	for {
		tok, err := t.dec.Token()
		if err == io.EOF && root != nil {
			return root, nil
		}
		if err == io.EOF {
			return nil, refuse(UnknownFormat, "The file holds no SVG drawing.")
		}
		if err != nil {
			return nil, err
		}
		switch tok := tok.(type) {
		case xml.Directive:
			if t.dec.Entity, err = entities(tok, t.data); err != nil {
				return nil, err
			}
		case xml.CharData:
			if len(stack) > 0 && stack[len(stack)-1].name == "style" {
				top := stack[len(stack)-1]
				top.text = append(top.text, tok...)
			}
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		case xml.StartElement:
			n, err := t.element(tok, len(stack))
			if err != nil {
				return nil, err
			}
			switch {
			case len(stack) > 0:
				up := stack[len(stack)-1]
				up.children = append(up.children, n)
			case n.name != "svg" || root != nil:
				return nil, refuse(UnknownFormat, "The file is not an SVG drawing.")
			default:
				root = n
			}
			stack = append(stack, n)
		}
	}
}

func (t *treeReader) element(tok xml.StartElement, depth int) (*node, error) {
	if t.count++; t.count > MaxElements {
		return nil, refuse(TooMany, "The drawing has more than %d elements. Leave out what isn't cut.", MaxElements)
	}
	if depth >= MaxDepth {
		return nil, refuse(TooDeep, "Groups in the file are nested more than %d deep.", MaxDepth)
	}
	n := &node{name: tok.Name.Local}
	if tok.Name.Space != "" && tok.Name.Space != svgSpace && tok.Name.Space != "svg" {
		n.name = "" // of another language
	}
	for _, a := range tok.Attr {
		// The label and mode of a layer, and references, stand in name spaces of
		// their own; any other foreign attribute may mean anything.
		name := a.Name.Local
		foreign := a.Name.Space != "" && name != "label" && name != "groupmode" && name != "href"
		if !foreign && kept(name) {
			n.attrs = append(n.attrs, attr{name, a.Value})
		}
	}
	return n, nil
}

// maxEntity and maxExpanded bound what the names declared in a document type may
// stand for: programs use them for addresses of name spaces, and only one deep.
const (
	maxEntity   = 256
	maxExpanded = 1 << 20
)

// entities reads the declarations <!ENTITY name "text"> of a document type. A text
// that names another entity stays as it stands, so nothing can grow by nesting.
func entities(directive xml.Directive, data []byte) (map[string]string, error) {
	out := map[string]string{}
	rest := string(directive)
	expanded := 0
	for range 200 {
		_, after, found := strings.Cut(rest, "<!ENTITY")
		if !found {
			return out, nil
		}
		rest = after
		decl, _, _ := strings.Cut(after, ">")
		name, value, ok := strings.Cut(strings.TrimSpace(decl), " ")
		value = strings.TrimSpace(value)
		if !ok || len(value) < 2 || len(value) > maxEntity || value[0] != value[len(value)-1] || value[0] != '"' && value[0] != '\'' {
			continue
		}
		value = value[1 : len(value)-1]
		expanded += len(value) * bytes.Count(data, []byte("&"+name+";"))
		if expanded > maxExpanded {
			return nil, refuse(TooMany, "Names declared at the head of the file stand for too much text.")
		}
		out[name] = value
	}
	return nil, refuse(TooMany, "The head of the file declares more names than any drawing needs.")
}

// utf8Text returns data as UTF-8: UTF-16 is converted, with a byte order mark or told by
// its first character, which is one of ASCII in every drawing; a UTF-8 mark is taken off.
func utf8Text(data []byte) []byte {
	var big bool
	switch {
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		return data[3:]
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		big, data = true, data[2:]
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		data = data[2:]
	case len(data) < 4 || (data[0] == 0) == (data[1] == 0) || (data[0] == 0) != (data[2] == 0) || (data[1] == 0) != (data[3] == 0):
		return data
	default:
		big = data[0] == 0
	}
	out := make([]byte, 0, len(data)/2+16)
	var high rune
	for i := 0; i+1 < len(data); i += 2 {
		c := rune(data[i]) | rune(data[i+1])<<8
		if big {
			c = rune(data[i])<<8 | rune(data[i+1])
		}
		if utf16.IsSurrogate(c) && high == 0 {
			high = c
			continue
		}
		if high != 0 {
			c, high = utf16.DecodeRune(high, c), 0
		}
		out = utf8.AppendRune(out, c)
	}
	return out
}

// asXML10 reads data with a declaration of version 1.1 as 1.0. They differ in which rare
// characters a name may hold, which no outline asks for.
func asXML10(data []byte) io.Reader {
	head, rest := data, []byte(nil)
	if end := bytes.Index(data[:min(len(data), 256)], []byte("?>")); end >= 0 && bytes.HasPrefix(data, []byte("<?xml")) {
		head, rest = data[:end], data[end:]
		head = bytes.Replace(bytes.Replace(head, []byte(`"1.1"`), []byte(`"1.0"`), 1), []byte("'1.1'"), []byte("'1.0'"), 1)
	}
	return io.MultiReader(bytes.NewReader(head), bytes.NewReader(rest))
}

// charset reads whatever encoding a declaration names: by then the text is UTF-8 or ASCII
// is part of its encoding. Latin-1 stands for what holds other bytes: they occur in names
// alone.
func charset(label string, data []byte, in io.Reader) (io.Reader, error) {
	switch strings.ToLower(label) {
	case "utf-8", "utf8", "utf-16", "utf-16le", "utf-16be":
		return in, nil
	}
	for _, c := range data {
		if c >= utf8.RuneSelf {
			return &latin1{in: in}, nil
		}
	}
	return in, nil
}

// latin1 turns bytes into the characters of the same number.
type latin1 struct {
	in   io.Reader
	tail byte // second half of a character that didn't fit
}

func (l *latin1) Read(p []byte) (n int, err error) {
	if len(p) == 0 {
		return 0, nil
	}
	if l.tail != 0 {
		p[0], l.tail = l.tail, 0
		return 1, nil
	}
	buf := make([]byte, max(1, len(p)/2))
	m, err := l.in.Read(buf)
	for _, c := range buf[:m] {
		two := utf8.AppendRune(make([]byte, 0, 2), rune(c))
		p[n] = two[0]
		n++
		if len(two) == 2 && n < len(p) {
			p[n] = two[1]
			n++
		} else if len(two) == 2 {
			l.tail = two[1]
		}
	}
	return n, err
}
