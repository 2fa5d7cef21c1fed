package design

import (
	"sort"
	"strings"
)

// At returns the field at a path, "curve.radius", or that of a place in a list: the column,
// "panel.holes.2.along", or the list of lengths itself, "sheet.readings.0".
func At(path string) (Field, bool) {
	for i := range table() {
		f := &table()[i]
		n := len(f.Path)
		switch {
		case path == f.Path:
			return *f, true
		case len(path) <= n || path[n] != '.' || path[:n] != f.Path:
		case f.Kind == Lengths:
			return *f, true
		case f.Kind == Rows:
			_, column, _ := strings.Cut(path[n+1:], ".")
			for _, c := range f.Columns {
				if c.Path == column {
					return c, true
				}
			}
		}
	}
	return Field{}, false
}

// Paths returns the paths of a set of texts in an order in which they can be put into a
// document: rows of a list one after the other.
func Paths(set map[string]string) []string {
	out := make([]string, 0, len(set))
	for path := range set {
		out = append(out, path)
	}
	sort.Slice(out, func(i, j int) bool {
		if len(out[i]) != len(out[j]) {
			return len(out[i]) < len(out[j]) // "…9.x" before "…10.x"
		}
		return out[i] < out[j]
	})
	return out
}

// BlankRow returns the texts that empty a row of a list, which then counts for nothing.
func BlankRow(list string, row int) map[string]string {
	f, _ := At(list)
	out := map[string]string{}
	for _, c := range f.Columns {
		if c.Kind != Choose {
			out[index(list, row)+"."+c.Path] = ""
		}
	}
	return out
}
