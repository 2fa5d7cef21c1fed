package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/tdewolff/font"
)

// readers are rooms whose texts are letters that are read, written into files or drawn at
// random, and not sentences of the page.
var readers = map[string]bool{"unit": true, "export": true, "trial": true, "intake": true}

// onlyRead are signs that the core knows when they are typed or stand in a file, and never says.
const onlyRead = "⅛⅜⅝⅞\ufffd"

// said returns what the page can say of itself, by the file that says it: every text of the
// core's rooms and of the bench sheet, and every text of the page's own scripts.
func said(t *testing.T, root string) map[string]string {
	t.Helper()
	out := map[string]string{}
	quoted := regexp.MustCompile("(?s)`[^`]*`|'[^'\n]*'|\"[^\"\n]*\"")
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if d.Name() == "node_modules" || d.Name() == "testing" || readers[d.Name()] || strings.HasPrefix(d.Name(), ".") && path != root {
				return filepath.SkipDir
			}
			return nil
		}
		in, _ := filepath.Rel(root, path)
		switch {
		case strings.HasSuffix(path, "_test.go"), strings.HasSuffix(path, ".test.ts"):
			return nil
		case strings.HasPrefix(in, "internal") && strings.HasSuffix(path, ".go"):
			out[in] = goTexts(t, path)
		case strings.HasPrefix(in, "internal") && strings.HasSuffix(path, ".txt"), strings.HasPrefix(in, "site") && strings.HasSuffix(path, ".html"):
			text, err := os.ReadFile(path)
			out[in] = string(text)
			return err
		case strings.HasPrefix(in, "site") && strings.HasSuffix(path, ".ts"):
			text, err := os.ReadFile(path)
			out[in] = strings.Join(quoted.FindAllString(string(text), -1), "\n")
			return err
		}
		return nil
	})
	require.NoError(t, err)
	return out
}

// goTexts joins every text of a Go file.
func goTexts(t *testing.T, path string) string {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
	require.NoError(t, err)
	var b strings.Builder
	ast.Inspect(file, func(n ast.Node) bool {
		if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
			text, err := strconv.Unquote(l.Value)
			require.NoError(t, err)
			b.WriteString(text + "\n")
		}
		return true
	})
	return b.String()
}

// The cuts are small, and every letter of the page's own sentences is in each of them; read
// back by a library that is not the one that made them.
func TestTheTypefaceHasTheLettersOfThePage(t *testing.T) {
	root, err := findRoot()
	require.NoError(t, err)
	faces, err := cutTypeface(root)
	require.NoError(t, err)
	require.Len(t, faces, 3)
	all := 0
	texts := said(t, root)
	require.Greater(t, len(texts), 200)
	for _, f := range faces {
		all += len(f.woff2)
		plain, err := font.ToSFNT(f.woff2)
		require.NoError(t, err)
		sfnt, err := font.ParseSFNT(plain, 0)
		require.NoError(t, err)
		for file, text := range texts {
			for _, r := range text {
				if !unicode.IsControl(r) && !unicode.Is(unicode.Cf, r) && !strings.ContainsRune(onlyRead, r) {
					assert.NotZero(t, sfnt.GlyphIndex(r), "%d: %s of %s", f.weight, strconv.QuoteRune(r), file)
				}
			}
		}
		for _, r := range "ÄÖÜäöüßÇçñéèêåæøŒœ" { // names
			assert.NotZero(t, sfnt.GlyphIndex(r), string(r))
		}
		// Figures of one width, and parts of fractions: OpenType features by these names.
		for _, tag := range []string{"tnum", "lnum", "frac", "numr", "dnom"} {
			assert.Contains(t, string(sfnt.Tables["GSUB"]), tag)
		}
	}
	assert.Less(t, all, 45_000, "all cuts together")
	assert.Greater(t, all, 15_000)
}

// SIL Open Font License 1.1, condition 2: each copy contains the copyright notice and the licence.
func TestTheLicenceOfTheTypefaceGoesAlong(t *testing.T) {
	root, err := findRoot()
	require.NoError(t, err)
	licence, err := typefaceLicence(root)
	require.NoError(t, err)
	assert.Contains(t, licence, "SIL OPEN FONT LICENSE Version 1.1")
	assert.Contains(t, licence, "The Alegreya Sans Project Authors")
	p := sample
	p.licence = licence
	files, err := servedPage(p)
	require.NoError(t, err)
	assert.Equal(t, licence, string(files[licenceName]))
	single, err := singlePage(p)
	require.NoError(t, err)
	assert.Contains(t, string(single), licence)
}
