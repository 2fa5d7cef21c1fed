package main

import (
	"bytes"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
)

// manyBranches is what a function may have of them before it is told: as many as a reader
// keeps in mind at once (common practice, no source).
const manyBranches = 15

// roomFigures are those of one package.
type roomFigures struct {
	name                    string
	source, comments, tests int // lines
	biggest                 string
	fields                  int // of the biggest struct
	busiest                 string
	methods                 int // of the type that has most
	branchy                 []string
	structs, methodsOf      map[string]int
}

// printFigures prints the figures of the house: by room the lines of source and tests, what
// part of the source is comment, the largest struct and the type of most methods; then the
// functions of many branches, and those that no program reaches.
func printFigures(root string, w io.Writer) error {
	rooms, err := readRooms(root)
	if err != nil {
		return err
	}
	var all roomFigures
	var branchy []string
	fmt.Fprintf(w, "%-18s %6s %6s %6s %8s   %-32s %s\n", "room", "source", "tests", "ratio", "comments", "largest struct, fields", "most methods")
	for _, r := range rooms {
		r.print(w)
		all.source, all.tests, all.comments = all.source+r.source, all.tests+r.tests, all.comments+r.comments
		branchy = append(branchy, r.branchy...)
		if r.fields > all.fields {
			all.fields, all.biggest = r.fields, r.name+"."+r.biggest
		}
		if r.methods > all.methods {
			all.methods, all.busiest = r.methods, r.name+"."+r.busiest
		}
	}
	all.name = "all"
	all.print(w)
	fmt.Fprintf(w, "\n%d functions of more than %d branches (if, for, case, && and ||)\n", len(branchy), manyBranches)
	for _, b := range branchy {
		fmt.Fprintln(w, " ", b)
	}
	dead, err := deadFunctions(root)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "\n%d functions that neither program reaches\n%s", bytes.Count(dead, []byte("\n")), dead)
	return nil
}

func (r *roomFigures) print(w io.Writer) {
	share := func(a, b int) float64 { return float64(a) / float64(max(b, 1)) }
	fmt.Fprintf(w, "%-18s %6d %6d %6.2f %8.2f   %-32s %s\n", r.name, r.source, r.tests, share(r.tests, r.source), share(r.comments, r.source),
		fmt.Sprintf("%s, %d", r.biggest, r.fields), fmt.Sprintf("%s, %d", r.busiest, r.methods))
}

// readRooms reads all packages of the core, of build and of wasm, in order of their paths.
func readRooms(root string) (out []*roomFigures, err error) {
	files, err := filepath.Glob(filepath.Join(root, "internal", "*", "*.go"))
	if err != nil {
		return nil, err
	}
	for _, more := range []string{"build/*.go", "wasm/*.go"} {
		names, err := filepath.Glob(filepath.Join(root, more))
		if err != nil {
			return nil, err
		}
		files = append(files, names...)
	}
	of := map[string]*roomFigures{}
	for _, f := range files {
		name := filepath.Base(filepath.Dir(f))
		if of[name] == nil {
			of[name] = &roomFigures{name: name, structs: map[string]int{}, methodsOf: map[string]int{}}
			out = append(out, of[name])
		}
		if err := of[name].read(f); err != nil {
			return nil, err
		}
	}
	for _, r := range out {
		r.biggest, r.fields = most(r.structs)
		r.busiest, r.methods = most(r.methodsOf)
		sort.Strings(r.branchy)
	}
	return out, nil
}

// most returns the key of the largest number, the first of several.
func most(of map[string]int) (name string, n int) {
	for k, v := range of {
		if v > n || v == n && k < name {
			name, n = k, v
		}
	}
	return name, n
}

// read adds one file.
func (r *roomFigures) read(name string) error {
	text, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	lines := bytes.Count(text, []byte("\n"))
	if strings.HasSuffix(name, "_test.go") {
		r.tests += lines
		return nil
	}
	r.source += lines
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, text, parser.ParseComments)
	if err != nil {
		return err
	}
	commented := map[int]bool{}
	for _, g := range file.Comments {
		for l := set.Position(g.Pos()).Line; l <= set.Position(g.End()).Line; l++ {
			commented[l] = true
		}
	}
	r.comments += len(commented)
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.TypeSpec:
			if s, ok := n.Type.(*ast.StructType); ok {
				r.structs[n.Name.Name] = s.Fields.NumFields()
			}
		case *ast.FuncDecl:
			full := n.Name.Name
			if n.Recv != nil {
				receiver := receiverOf(n.Recv.List[0].Type)
				r.methodsOf[receiver]++
				full = receiver + "." + full
			}
			if b := branches(n); b > manyBranches {
				r.branchy = append(r.branchy, fmt.Sprintf("%s.%s, %d", r.name, full, b))
			}
		}
		return true
	})
	return nil
}

// receiverOf returns the name of a method's type.
func receiverOf(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return receiverOf(e.X)
	case *ast.IndexExpr:
		return receiverOf(e.X)
	case *ast.Ident:
		return e.Name
	}
	return ""
}

// branches counts the places where a function may go one way or another.
func branches(f *ast.FuncDecl) (n int) {
	ast.Inspect(f, func(node ast.Node) bool {
		switch node := node.(type) {
		case *ast.IfStmt, *ast.ForStmt, *ast.RangeStmt:
			n++
		case *ast.CaseClause:
			if node.List != nil {
				n++
			}
		case *ast.BinaryExpr:
			if node.Op == token.LAND || node.Op == token.LOR {
				n++
			}
		}
		return true
	})
	return n
}

// printDead lists the dead functions, and fails when there are any.
func printDead(root string, w io.Writer) error {
	dead, err := deadFunctions(root)
	if err != nil {
		return err
	}
	if _, err := w.Write(dead); err != nil {
		return err
	}
	if len(dead) > 0 {
		return errors.New("neither program reaches these; delete them or move them into tests")
	}
	return nil
}

// deadFunctions lists what neither the core nor this program reaches, one a line.
func deadFunctions(root string) ([]byte, error) {
	tool := exec.Command("go", "tool", "-n", "deadcode")
	tool.Dir = root
	name, err := tool.Output()
	if err != nil {
		return nil, err
	}
	cmd := exec.Command(strings.TrimSpace(string(name)), "./wasm", "./build")
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	cmd.Stderr = os.Stderr
	return cmd.Output()
}
