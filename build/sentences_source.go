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
)

// sources takes the texts of the sources that no design made the core say: of the core's
// packages, of the bench sheet's text, and of the page.
func (c *collection) sources(root string) error {
	met := ""
	for _, s := range c.all {
		met += s.text + "\n"
	}
	silent := map[string]bool{"stock": true, "hinge": true, "chance": true, "trial": true, "wire": true, "solve": true, "plane": true} // figures and their sources
	internal := filepath.Join(root, "internal")
	err := filepath.WalkDir(internal, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || silent[filepath.Base(filepath.Dir(path))] {
			return err
		}
		name, _ := filepath.Rel(internal, path)
		return c.goFile(path, "source "+filepath.ToSlash(name), met)
	})
	if err != nil {
		return err
	}
	text, err := os.ReadFile(filepath.Join(internal, "bench/sheet.txt"))
	if err != nil {
		return err
	}
	for _, line := range strings.Split(string(text), "\n") {
		if _, rest, ok := strings.Cut(line, "] "); ok {
			line = rest
		}
		c.say("source bench/sheet.txt", gaps.ReplaceAllString(strings.TrimLeft(line, "=+ "), "…"))
	}
	site := filepath.Join(root, "site")
	return filepath.WalkDir(site, func(path string, d fs.DirEntry, err error) error {
		if d != nil && d.IsDir() && (d.Name() == "node_modules" || d.Name() == "testing") {
			return filepath.SkipDir
		}
		name, _ := filepath.Rel(site, path)
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".ts") || strings.HasSuffix(path, ".test.ts") || name == "messages.ts" {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		for _, t := range pageTexts(string(text)) {
			c.say("page "+filepath.ToSlash(name), t)
		}
		return nil
	})
}

var (
	gaps  = regexp.MustCompile(`\{\w+\}`)
	ids   = regexp.MustCompile(`^ ?[a-z]+-[a-z-]+( [a-z]+-[a-z-]+)*$`) // of findings, one after the other
	prose = regexp.MustCompile(`[A-Za-z]{2,},? [a-z]+|[A-Z][a-z]+ [a-z]`)
)

// goFile takes the texts of a Go file: strings and sums of them, with "…" for what is no string.
func (c *collection) goFile(path, where, met string) error {
	file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
	if err != nil {
		return err
	}
	var visit func(n ast.Node) bool
	visit = func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.CallExpr:
			if f, ok := n.Fun.(*ast.Ident); ok && f.Name == "panic" {
				return false
			}
		case *ast.KeyValueExpr:
			if k, ok := n.Key.(*ast.Ident); ok && (k.Name == "Why" || k.Name == "Source") {
				return false
			}
		case *ast.CompositeLit:
			if t, ok := n.Type.(*ast.ArrayType); ok {
				if e, ok := t.Elt.(*ast.Ident); ok && e.Name == "Rule" {
					return false // why a rule is there, and its source
				}
			}
		case *ast.BasicLit, *ast.BinaryExpr:
			if text, ok := sum(n.(ast.Expr)); ok {
				if prose.MatchString(text) && !ids.MatchString(text) && !wasMet(met, text) {
					c.say(where, text)
				}
				others(n.(ast.Expr), func(e ast.Expr) { ast.Inspect(e, visit) })
				return false
			}
		}
		return true
	}
	ast.Inspect(file, visit)
	return nil
}

// others calls f with the terms of a sum that are no strings.
func others(e ast.Expr, f func(ast.Expr)) {
	switch e := e.(type) {
	case *ast.BasicLit:
	case *ast.ParenExpr:
		others(e.X, f)
	case *ast.BinaryExpr:
		others(e.X, f)
		others(e.Y, f)
	default:
		f(e)
	}
}

// wasMet tells that all longer pieces of a text were met.
func wasMet(met, text string) bool {
	for _, piece := range strings.Split(text, "…") {
		if piece = strings.TrimSpace(piece); len(piece) > 8 && !strings.Contains(met, piece) {
			return false
		}
	}
	return true
}

// sum writes a string or a sum with strings in it.
func sum(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		if e.Kind == token.STRING {
			text, err := strconv.Unquote(e.Value)
			return text, err == nil
		}
	case *ast.BinaryExpr:
		if e.Op != token.ADD {
			return "", false
		}
		a, aok := sum(e.X)
		b, bok := sum(e.Y)
		if !aok && !bok {
			return "", false
		}
		if !aok {
			a = "…"
		}
		if !bok {
			b = "…"
		}
		return a + b, true
	case *ast.ParenExpr:
		return sum(e.X)
	}
	return "", false
}

var (
	tags     = regexp.MustCompile(`<[^<>]*>`)
	spokenAt = regexp.MustCompile(`(?:aria-label|title|placeholder|alt|summary)="([^"]+)"`)
	comments = regexp.MustCompile(`(?m)^\s*(//|\*|/\*).*$|\s// .*$`)
)

// pageTexts returns the texts of a file of the page: what stands between tags, what is read
// aloud, and strings of more than a word.
func pageTexts(source string) (out []string) {
	take := func(t string) {
		t = strings.Join(strings.Fields(t), " ")
		if prose.MatchString(t) && !strings.ContainsAny(t, "{}=;<>") {
			out = append(out, t)
		}
	}
	for _, s := range scripted(comments.ReplaceAllString(source, "")) {
		for _, a := range spokenAt.FindAllStringSubmatch(s, -1) {
			take(a[1])
		}
		for _, t := range strings.Split(tags.ReplaceAllString(s, "\x00"), "\x00") {
			take(t)
		}
	}
	return out
}

// scripted returns the strings of a script, those in the gaps of others on their own, with
// "…" for a gap.
func scripted(source string) (out []string) {
	var open []*strings.Builder // of template strings
	var braces []int
	for i := 0; i < len(source); i++ {
		ch := source[i]
		inside := len(open) > len(braces)
		switch {
		case inside && ch == '\\' && i+1 < len(source):
			i++
			open[len(open)-1].WriteByte(source[i])
		case inside && ch == '`':
			out = append(out, open[len(open)-1].String())
			open = open[:len(open)-1]
		case inside && ch == '$' && i+1 < len(source) && source[i+1] == '{':
			open[len(open)-1].WriteString("…")
			braces = append(braces, 0)
			i++
		case inside:
			open[len(open)-1].WriteByte(ch)
		case ch == '`':
			open = append(open, new(strings.Builder))
		case ch == '\'' || ch == '"':
			end := i + 1
			for end < len(source) && source[end] != ch && source[end] != '\n' {
				if source[end] == '\\' {
					end++
				}
				end++
			}
			out = append(out, strings.ReplaceAll(source[i+1:min(end, len(source))], `\`, ""))
			i = end
		case ch == '{' && len(braces) > 0:
			braces[len(braces)-1]++
		case ch == '}' && len(braces) > 0:
			if braces[len(braces)-1]--; braces[len(braces)-1] < 0 {
				braces = braces[:len(braces)-1]
			}
		}
	}
	return out
}
