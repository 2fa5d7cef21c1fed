package design

import (
	"math"
	"reflect"
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
	into := reflect.ValueOf(&out).Elem()
	for path, text := range textsOf(&doc) { // each for itself, so in any order
		if f, ok := At(path); ok {
			if again, ok := restateAll(f.Kind, text, now, next); ok {
				set(into, path, again)
			}
		}
	}
	return out
}

// restateAll is restate for each length of an entry that holds several.
func restateAll(k Kind, text string, now, next unit.System) (string, bool) {
	parts := []string{text}
	switch k {
	case Lengths:
		parts = unit.Several(text, now)
	case Length, Speed, Acceleration, Force:
	default:
		return "", false // it has no unit, or one that nobody changes
	}
	changed := false
	for i, p := range parts {
		if again, ok := restate(k, p, now, next); ok {
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
