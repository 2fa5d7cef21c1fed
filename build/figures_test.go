package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestBranchesAreCounted(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "a.go", `package p
func f(a, b bool, n int) int {
	for range n { // 1
		if a && b || n > 3 { // 2, with the two signs 4
			return 1
		}
	}
	switch {
	case a: // 5
		return func() int { if b { return 2 }; return 3 }() // 6
	default:
		return 0
	}
}`, 0)
	require.NoError(t, err)
	assert.Equal(t, 6, branches(file.Decls[0].(*ast.FuncDecl)))
}
