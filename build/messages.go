package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/constant"
	"go/parser"
	"go/printer"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"reflect"
	"strings"
)

// messagesFile is the TypeScript half of the wire, written by "messages".
const messagesFile = "site/messages.ts"

// messageRoots are the types that cross the wire; what they hold comes along.
var messageRoots = [...]string{"Request", "Reply"}

// messagePackages are read in this order, so that a type is looked up in the first
// that has it.
var messagePackages = [...]string{"internal/wire", "internal/finding"}

// tsName returns a type's name on the page: its own, unless that is a global there.
func tsName(name string) string {
	if name == "Number" {
		return "NumberView"
	}
	return name
}

// checkMessages reports a messagesFile that is not what the Go types say.
func checkMessages(root string) error {
	want, err := messages(root)
	if err != nil {
		return err
	}
	have, err := os.ReadFile(filepath.Join(root, messagesFile))
	if err != nil || !bytes.Equal(have, want) {
		return fmt.Errorf("%s is not what internal/wire says; run: go run ./build messages", messagesFile)
	}
	return nil
}

// writeMessages brings messagesFile up to date.
func writeMessages(root string) error {
	text, err := messages(root)
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(root, messagesFile), text, 0o644)
}

// messages returns the TypeScript for every type that crosses the wire, in the order
// in which a reader meets them.
func messages(root string) ([]byte, error) {
	g := &tsWriter{decls: map[string]typeDecl{}, consts: map[string][]string{}, seen: map[string]bool{}}
	for _, dir := range messagePackages {
		if err := g.read(filepath.Join(root, dir)); err != nil {
			return nil, err
		}
	}
	g.out.WriteString("// Made from the Go types of internal/wire by: go run ./build messages\n// Change those, not this file.\n")
	g.out.WriteString(g.limits)
	queue := append([]string(nil), messageRoots[:]...)
	for len(queue) > 0 {
		name := queue[0]
		queue = queue[1:]
		if g.seen[name] {
			continue
		}
		g.seen[name] = true
		more, err := g.write(name)
		if err != nil {
			return nil, err
		}
		queue = append(queue, more...)
	}
	return g.out.Bytes(), nil
}

type typeDecl struct {
	doc  string
	expr ast.Expr
}

type tsWriter struct {
	decls  map[string]typeDecl
	consts map[string][]string // named string type -> its values, as Go literals
	limits string
	seen   map[string]bool
	out    bytes.Buffer
}

// read gathers the types and constants of one package.
func (g *tsWriter) read(dir string) error {
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return err
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		for _, d := range file.Decls {
			if d, ok := d.(*ast.GenDecl); ok {
				if err := g.gather(d); err != nil {
					return fmt.Errorf("%s: %w", name, err)
				}
			}
		}
	}
	return nil
}

func (g *tsWriter) gather(d *ast.GenDecl) error {
	for _, spec := range d.Specs {
		switch s := spec.(type) {
		case *ast.TypeSpec:
			doc := s.Doc
			if doc == nil {
				doc = d.Doc
			}
			if _, there := g.decls[s.Name.Name]; !there {
				g.decls[s.Name.Name] = typeDecl{doc.Text(), s.Type}
			}
		case *ast.ValueSpec:
			if d.Tok == token.CONST {
				if err := g.constant(s, d.Doc.Text()); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// constant keeps the values of named string types, and exported numbers as limits that
// the page keeps as well.
func (g *tsWriter) constant(s *ast.ValueSpec, doc string) error {
	for i, value := range s.Values {
		if t, ok := s.Type.(*ast.Ident); ok {
			if lit, ok := value.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				g.consts[t.Name] = append(g.consts[t.Name], "'"+strings.Trim(lit.Value, "\"")+"'")
			}
			continue
		}
		name := s.Names[i].Name
		if s.Type != nil || !ast.IsExported(name) {
			continue
		}
		var text bytes.Buffer
		if err := printer.Fprint(&text, token.NewFileSet(), value); err != nil {
			return err
		}
		v, err := types.Eval(token.NewFileSet(), nil, token.NoPos, text.String())
		if err != nil || v.Value == nil || v.Value.Kind() != constant.Int {
			continue
		}
		g.limits += "\n" + tsDoc(doc, "") + fmt.Sprintf("export const %s = %s;\n", lowerFirst(name), v.Value.ExactString())
	}
	return nil
}

// write writes one type and returns the names of those it needs.
func (g *tsWriter) write(name string) (needs []string, err error) {
	decl, ok := g.decls[name]
	if !ok {
		return nil, fmt.Errorf("no type %s in %v", name, messagePackages)
	}
	fmt.Fprintf(&g.out, "\n%s", tsDoc(decl.doc, ""))
	switch t := decl.expr.(type) {
	case *ast.StructType:
		fmt.Fprintf(&g.out, "export interface %s {\n", tsName(name))
		for _, f := range t.Fields.List {
			more, err := g.member(f)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			needs = append(needs, more...)
		}
		g.out.WriteString("}\n")
		return needs, nil
	case *ast.Ident:
		if t.Name == "string" && len(g.consts[name]) > 0 {
			fmt.Fprintf(&g.out, "export type %s = %s;\n", tsName(name), strings.Join(g.consts[name], " | "))
			return nil, nil
		}
	}
	return nil, fmt.Errorf("%s is neither a struct nor a string type with constants", name)
}

func (g *tsWriter) member(f *ast.Field) (needs []string, err error) {
	if f.Tag == nil || len(f.Names) != 1 {
		return nil, fmt.Errorf("a member needs one name and a json tag")
	}
	tag, options, _ := strings.Cut(reflect.StructTag(strings.Trim(f.Tag.Value, "`")).Get("json"), ",")
	if tag == "" {
		return nil, fmt.Errorf("%s has no json name", f.Names[0].Name)
	}
	text, needs, err := tsType(f.Type)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", tag, err)
	}
	optional := ""
	if strings.Contains(options, "omitempty") {
		optional = "?"
	}
	doc := f.Doc.Text()
	if doc == "" {
		doc = f.Comment.Text()
	}
	fmt.Fprintf(&g.out, "%s  %s%s: %s;\n", tsDoc(doc, "  "), tag, optional, text)
	return needs, nil
}

// tsType translates a Go type as encoding/json writes it, once lists are never null.
func tsType(e ast.Expr) (text string, needs []string, err error) {
	switch t := e.(type) {
	case *ast.Ident:
		switch t.Name {
		case "string":
			return "string", nil, nil
		case "bool":
			return "boolean", nil, nil
		case "int", "float64", "float32":
			return "number", nil, nil
		}
		if ast.IsExported(t.Name) {
			return tsName(t.Name), []string{t.Name}, nil
		}
	case *ast.SelectorExpr:
		if t.Sel.Name == "RawMessage" {
			return "unknown", nil, nil
		}
		return tsName(t.Sel.Name), []string{t.Sel.Name}, nil
	case *ast.StarExpr:
		return tsType(t.X)
	case *ast.ArrayType:
		return tsArray(t)
	case *ast.MapType:
		text, needs, err := tsType(t.Value)
		return "Record<string, " + text + ">", needs, err
	}
	return "", nil, fmt.Errorf("no TypeScript for a %T", e)
}

func tsArray(t *ast.ArrayType) (string, []string, error) {
	text, needs, err := tsType(t.Elt)
	if err != nil || t.Len == nil {
		return text + "[]", needs, err
	}
	lit, ok := t.Len.(*ast.BasicLit)
	if !ok {
		return "", nil, fmt.Errorf("the length of an array must be a plain number")
	}
	v, _ := constant.Int64Val(constant.MakeFromLiteral(lit.Value, lit.Kind, 0))
	return "[" + strings.Repeat(text+", ", int(v)-1) + text + "]", needs, nil
}

// tsDoc writes a doc comment before a line that is indented by indent.
func tsDoc(doc, indent string) string {
	doc = strings.TrimSpace(strings.ReplaceAll(doc, "*/", "* /"))
	if doc == "" {
		return ""
	}
	lines := strings.Split(doc, "\n")
	if len(lines) == 1 {
		return indent + "/** " + doc + " */\n"
	}
	out := indent + "/**\n"
	for _, l := range lines {
		out += strings.TrimRight(indent+" * "+l, " ") + "\n"
	}
	return out + indent + " */\n"
}

func lowerFirst(s string) string { return strings.ToLower(s[:1]) + s[1:] }
