package design

import (
	"math"
	"strings"

	"springrib/internal/unit"
)

// Convert returns doc with its Units changed to to ("mm" or "in") and every length,
// speed and acceleration that was typed without a unit rewritten in the new one, to
// within 0.00002 mm of what it was. Texts with a unit and texts that can't be read stay as they are;
// doc itself is not changed. It panics when to is no unit.
func Convert(doc Document, to string) Document {
	next, ok := unit.SystemOf(to)
	if !ok {
		panic("design: no such unit: " + to)
	}
	now, _ := unit.SystemOf(doc.Units) // an unknown unit is read as mm
	out := Clone(doc)
	out.Units = to
	if now == next {
		return out
	}
	for _, path := range measured(doc) {
		text, _ := Get(doc, path.path)
		if again, ok := restateAll(path, text, now, next); ok {
			out, _ = Set(out, path.path, again)
		}
	}
	return out
}

// restateAll is restate for each length of an entry that holds several.
func restateAll(path measuredPath, text string, now, next unit.System) (string, bool) {
	parts := []string{text}
	if path.several {
		parts = unit.Several(text, now)
	}
	changed := false
	for i, p := range parts {
		if again, ok := restate(path.kind, p, now, next); ok {
			parts[i], changed = again, true
		}
	}
	return strings.Join(parts, "; "), changed
}

// restate writes a text that was typed without a unit in the other system.
func restate(k Kind, text string, now, next unit.System) (string, bool) {
	if strings.TrimSpace(text) == "" {
		return "", false
	}
	v, err := k.read(text, now)
	if err != nil {
		return "", false
	}
	if w, err := k.read(text, next); err == nil && math.Abs(w-v) <= 1e-9*math.Abs(v) {
		return "", false // it names its unit, or is zero
	}
	if k == Force {
		return unit.Decimal(v/unit.NPerGram, 6) + " g", true
	}
	return unit.Bare(v, next), true
}

type measuredPath struct {
	path    string
	kind    Kind
	several bool // an entry may hold several lengths
}

// measured lists the path of every text in doc that the person's unit gives a meaning.
func measured(doc Document) []measuredPath {
	var all []measuredPath
	entries := func(k Kind, path string, n int, sub string) {
		for i := range min(n, maxList) {
			all = append(all, measuredPath{index(path, i) + sub, k, sub == ""})
		}
	}
	for _, f := range Fields() {
		switch f.Kind {
		case Length, Speed, Acceleration:
			all = append(all, measuredPath{path: f.Path, kind: f.Kind})
		case Lengths:
			n := len(doc.Sheet.Readings)
			if f.Path == "machine.depths" {
				n = len(doc.Machine.Depths)
			}
			entries(Length, f.Path, n, "")
		case Rows:
			for _, c := range f.Columns {
				if c.Kind == Length || c.Kind == Force {
					entries(c.Kind, f.Path, rowCount(doc, f.Path), "."+c.Path)
				}
			}
		}
	}
	return all
}
