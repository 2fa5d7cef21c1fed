package design

import (
	"sort"
	"strings"
)

// At returns the one of fields at a path, "curve.radius", or the column of a list that it
// is in, "panel.holes.2.along".
func At(fields []Field, path string) (Field, bool) {
	for _, f := range fields {
		if f.Path == path {
			return f, true
		}
		rest, ok := strings.CutPrefix(path, f.Path+".")
		if !ok || f.Kind != Rows {
			continue
		}
		_, column, _ := strings.Cut(rest, ".")
		for _, c := range f.Columns {
			if c.Path == column {
				return c, true
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
	f, _ := At(Fields(), list)
	return blankRow(list, f.Columns, row)
}

func blankRow(list string, columns []Field, row int) map[string]string {
	out := map[string]string{}
	for _, c := range columns {
		if c.Kind != Choose {
			out[index(list, row)+"."+c.Path] = ""
		}
	}
	return out
}
