package internal

import (
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every stop says what it does to the files: package finding has a row for its id. Which
// ids are stops is read from the sources, with some to spare: in a function whose severity
// is a variable that may be a stop, every id counts.

var idShape = regexp.MustCompile(`^[a-z]+(-[a-z]+)+$`)

// stopIDs returns the ids in a file that may be those of stops.
func stopIDs(file *ast.File) []string {
	found := map[string]bool{}
	for _, d := range file.Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok || f.Body == nil {
			continue
		}
		varies := namesItsID(f) || stopIsAssigned(f)
		ast.Inspect(f.Body, func(n ast.Node) bool {
			if ids := idsOf(n); varies || mentionsStop(n) || callsStop(n) {
				for _, id := range ids {
					found[id] = true
				}
			}
			return true
		})
	}
	var out []string
	for id := range found {
		out = append(out, id)
	}
	sort.Strings(out)
	return out
}

// idsOf returns the literals that have the shape of an id directly under a call, a
// composite, a return or an assignment.
func idsOf(n ast.Node) []string {
	var under []ast.Expr
	switch n := n.(type) {
	case *ast.CallExpr:
		under = n.Args
	case *ast.CompositeLit:
		for _, e := range n.Elts {
			if kv, ok := e.(*ast.KeyValueExpr); ok {
				if k, ok := kv.Key.(*ast.Ident); ok && k.Name == "ID" {
					under = append(under, kv.Value)
				}
				continue
			}
			under = append(under, e)
		}
	case *ast.ReturnStmt:
		under = n.Results
	case *ast.AssignStmt:
		under = n.Rhs
	}
	var out []string
	for _, e := range under {
		if l, ok := e.(*ast.BasicLit); ok && l.Kind == token.STRING {
			if s, err := strconv.Unquote(l.Value); err == nil && idShape.MatchString(s) {
				out = append(out, s)
			}
		}
	}
	return out
}

func isStop(e ast.Expr) bool {
	s, ok := e.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	x, ok := s.X.(*ast.Ident)
	return ok && x.Name == "finding" && s.Sel.Name == "Stop"
}

// mentionsStop tells whether a call, a composite or a return names the severity itself.
func mentionsStop(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.CallExpr:
		for _, a := range n.Args {
			if isStop(a) {
				return true
			}
		}
	case *ast.CompositeLit:
		for _, e := range n.Elts {
			if kv, ok := e.(*ast.KeyValueExpr); ok && isStop(kv.Value) || isStop(e) {
				return true
			}
		}
	case *ast.ReturnStmt:
		for _, r := range n.Results {
			if isStop(r) {
				return true
			}
		}
	}
	return false
}

// callsStop tells whether n calls a helper named stop or stopNumbers.
func callsStop(n ast.Node) bool {
	c, ok := n.(*ast.CallExpr)
	if !ok {
		return false
	}
	name := ""
	switch f := c.Fun.(type) {
	case *ast.Ident:
		name = f.Name
	case *ast.SelectorExpr:
		name = f.Sel.Name
	}
	return name == "stop" || name == "Stop" || name == "stopNumbers"
}

// stopIsAssigned tells whether a severity that is a variable may become a stop, or a
// finding that is one gets its id later.
func stopIsAssigned(f *ast.FuncDecl) bool {
	assigned := false
	ast.Inspect(f.Body, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			for _, r := range n.Rhs {
				assigned = assigned || isStop(r)
			}
		case *ast.CompositeLit:
			hasID := false
			for _, e := range n.Elts {
				if kv, ok := e.(*ast.KeyValueExpr); ok {
					if k, ok := kv.Key.(*ast.Ident); ok && k.Name == "ID" {
						hasID = true
					}
				}
			}
			assigned = assigned || mentionsStop(n) && !hasID
		}
		return true
	})
	return assigned
}

// namesItsID tells whether a function returns ids under that name.
func namesItsID(f *ast.FuncDecl) bool {
	if f.Type.Results == nil {
		return false
	}
	for _, r := range f.Type.Results.List {
		for _, n := range r.Names {
			if n.Name == "id" {
				return true
			}
		}
	}
	return false
}

// policyIDs returns the ids of all stops that have a row in the table of effects: the words
// of the first text of each row.
func policyIDs(t *testing.T) (ids []string) {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), "finding/effect.go", nil, 0)
	require.NoError(t, err)
	var text func(e ast.Expr)
	text = func(e ast.Expr) {
		switch e := e.(type) {
		case *ast.BasicLit:
			s, err := strconv.Unquote(e.Value)
			require.NoError(t, err)
			ids = append(ids, strings.Fields(s)...)
		case *ast.BinaryExpr:
			text(e.X)
			text(e.Y)
		}
	}
	for _, d := range file.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Name.Name == "policies" {
			ast.Inspect(f, func(n ast.Node) bool {
				if row, ok := n.(*ast.CompositeLit); ok && row.Type == nil {
					text(row.Elts[0])
				}
				return true
			})
		}
	}
	return ids
}

func TestEveryStopSaysWhatItDoesToTheFiles(t *testing.T) {
	known := map[string]bool{}
	for _, id := range policyIDs(t) {
		assert.False(t, known[id], "two rows for %s", id)
		known[id] = true
	}
	seen := map[string]bool{}
	for _, s := range sources(t) {
		file, err := parser.ParseFile(token.NewFileSet(), s.file, nil, 0)
		require.NoError(t, err)
		if s.room == "finding" || s.room == "intake" { // what a drawing holds is no finding of a plan
			continue
		}
		for _, id := range stopIDs(file) {
			seen[id] = true
			if !known[id] {
				t.Errorf("%s: %s may be a stop and has no row in internal/finding/effect.go", s.file, id)
			}
		}
	}
	for id := range known {
		assert.True(t, seen[id], "%s has a row and is no stop", id)
	}
	require.Greater(t, len(seen), 30)
}

func TestStopsAreSeen(t *testing.T) {
	for text, want := range map[string][]string{
		`func f() { p.stop("curve-tight", "curve.radius") }`:                                            {"curve-tight"},
		`func f() { n.Stop("curve-tight", "curve.radius") }`:                                            {"curve-tight"},
		`func f() { p.note("packing-old", finding.Note) }`:                                              nil,
		`func f() { found("does-not-fit", finding.Stop, "no-thing at all") }`:                           {"does-not-fit"},
		`func f() { sev := finding.Warn; if x { sev = finding.Stop }; found("rib-weak", sev) }`:         {"rib-weak"},
		`func f() any { return F{ID: "off-bed", Severity: finding.Stop, Text: "a-b"} }`:                 {"off-bed"},
		`func f() any { return F{ID: "off-bed", Severity: finding.Note} }`:                              nil,
		`func f() any { out := F{Severity: finding.Stop}; out.ID = "parts-near"; return out }`:          {"parts-near"},
		`func f() (id, text string) { return "too-many", "Ask for fewer." }`:                            {"too-many"},
		`func f() (string, Severity) { if x { return "a-note", Note }; return "b-stop", finding.Stop }`: {"b-stop"},
	} {
		file, err := parser.ParseFile(token.NewFileSet(), "a.go", "package p; "+text, 0)
		require.NoError(t, err, text)
		assert.Equal(t, want, stopIDs(file), text)
	}
}
