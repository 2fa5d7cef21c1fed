package design

import (
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// maxList is the longest list of readings, depths or pieces that Set will make.
const maxList = 60

// OperationIDs returns the keys of Cut.Operations in cutting order.
func OperationIDs() []string { return []string{"score", "mark", "inner", "outer"} }

// Get returns the text at a dotted path, "curve.radius" or "curve.pieces.2.length". A
// check box reads "true" or "false". ok is false where a document has no such field
// or, in a list, no such entry; an operation not yet named reads as empty.
func Get(doc Document, path string) (text string, ok bool) {
	v := reflect.ValueOf(&doc).Elem()
	for path != "" {
		var step string
		step, path, _ = strings.Cut(path, ".")
		switch v.Kind() {
		case reflect.Struct:
			v = member(v, step)
		case reflect.Slice:
			i, err := strconv.Atoi(step)
			if err != nil || i < 0 || i >= v.Len() {
				return "", false
			}
			v = v.Index(i)
		case reflect.Map:
			if !isOperation(step) {
				return "", false
			}
			entry := v.MapIndex(reflect.ValueOf(step))
			if !entry.IsValid() {
				entry = reflect.Zero(v.Type().Elem())
			}
			v = entry
		default:
			return "", false
		}
		if !v.IsValid() {
			return "", false
		}
	}
	switch v.Kind() {
	case reflect.String:
		return v.String(), true
	case reflect.Bool:
		return strconv.FormatBool(v.Bool()), true
	}
	return "", false
}

// textsOf returns every text of a document that is not empty, and every tick, by its path,
// as Get tells them one by one: to look each up would be a good part of the work of reading
// a document.
func textsOf(doc *Document) map[string]string {
	out := make(map[string]string, 64)
	gatherTexts(reflect.ValueOf(doc).Elem(), "", out)
	return out
}

func gatherTexts(v reflect.Value, path string, out map[string]string) {
	under := func(step string) string {
		if path == "" {
			return step
		}
		return path + "." + step
	}
	switch v.Kind() {
	case reflect.String:
		out[path] = v.String()
	case reflect.Bool:
		out[path] = strconv.FormatBool(v.Bool())
	case reflect.Struct:
		names := savedAs(v.Type())
		for i := range v.NumField() {
			if v.Field(i).IsZero() {
				continue // nothing is typed there
			}
			gatherTexts(v.Field(i), under(names[i]), out)
		}
	case reflect.Slice:
		for i := range v.Len() {
			gatherTexts(v.Index(i), under(strconv.Itoa(i)), out)
		}
	case reflect.Map:
		for _, id := range OperationIDs() {
			if entry := v.MapIndex(reflect.ValueOf(id)); entry.IsValid() {
				gatherTexts(entry, under(id), out)
			}
		}
	}
}

// Set returns doc with the text at path replaced; doc itself stays as it was. The
// entry after the last of a list, or a few beyond, is added. ok is false, and doc
// returned unchanged, where there is no such field, or a check box is given anything
// but "true" or "false".
func Set(doc Document, path, text string) (changed Document, ok bool) {
	changed = Clone(doc)
	if !set(reflect.ValueOf(&changed).Elem(), path, text) {
		return doc, false
	}
	return changed, true
}

func set(v reflect.Value, path, text string) bool {
	if path == "" {
		switch v.Kind() {
		case reflect.String:
			v.SetString(text)
			return true
		case reflect.Bool:
			on, err := strconv.ParseBool(text)
			if err == nil && (text == "true" || text == "false") {
				v.SetBool(on)
				return true
			}
		}
		return false
	}
	step, rest, _ := strings.Cut(path, ".")
	switch v.Kind() {
	case reflect.Struct:
		m := member(v, step)
		return m.IsValid() && set(m, rest, text)
	case reflect.Slice:
		i, err := strconv.Atoi(step)
		if err != nil || i < 0 || i >= max(maxList, v.Len()) {
			return false
		}
		for v.Len() <= i {
			v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
		}
		return set(v.Index(i), rest, text)
	case reflect.Map:
		if !isOperation(step) {
			return false
		}
		if v.IsNil() {
			v.Set(reflect.MakeMap(v.Type()))
		}
		entry := reflect.New(v.Type().Elem()).Elem()
		if old := v.MapIndex(reflect.ValueOf(step)); old.IsValid() {
			entry.Set(old)
		}
		if !set(entry, rest, text) {
			return false
		}
		v.SetMapIndex(reflect.ValueOf(step), entry)
		return true
	}
	return false
}

// member returns the field of struct v that is saved as name.
func member(v reflect.Value, name string) reflect.Value {
	for i, tag := range savedAs(v.Type()) {
		if tag == name {
			return v.Field(i)
		}
	}
	return reflect.Value{}
}

// savedNames keeps what savedAs found: a type's names never change.
var savedNames sync.Map

// savedAs returns the names that the fields of a struct are saved as.
func savedAs(t reflect.Type) []string {
	if names, ok := savedNames.Load(t); ok {
		return names.([]string)
	}
	names := make([]string, t.NumField())
	for i := range names {
		names[i], _, _ = strings.Cut(t.Field(i).Tag.Get("json"), ",")
	}
	savedNames.Store(t, names)
	return names
}

func isOperation(id string) bool {
	return slices.Contains(OperationIDs(), id)
}

// Clone returns a copy of doc that shares nothing with it.
func Clone(doc Document) Document {
	doc.Sheet.Readings = slices.Clone(doc.Sheet.Readings)
	doc.Machine.Depths = slices.Clone(doc.Machine.Depths)
	doc.Strips.Readings = slices.Clone(doc.Strips.Readings)
	doc.Curve.Pieces = slices.Clone(doc.Curve.Pieces)
	doc.Curve.Points = slices.Clone(doc.Curve.Points)
	doc.Panel.Corners = slices.Clone(doc.Panel.Corners)
	doc.Panel.Holes = slices.Clone(doc.Panel.Holes)
	doc.Panel.Drawn, doc.Curve.Drawn = doc.Panel.Drawn.clone(), doc.Curve.Drawn.clone()
	doc.Rib.Places = slices.Clone(doc.Rib.Places)
	doc.Base.Places = slices.Clone(doc.Base.Places)
	doc.Cut.Scrap, doc.Cut.Pins, doc.Cut.Places = slices.Clone(doc.Cut.Scrap), slices.Clone(doc.Cut.Pins), slices.Clone(doc.Cut.Places)
	doc.Cut.Operations = maps.Clone(doc.Cut.Operations)
	return doc
}

// rowCount returns how many rows the list at path has.
func rowCount(doc Document, path string) int {
	v := reflect.ValueOf(&doc).Elem()
	for _, step := range strings.Split(path, ".") {
		if v = member(v, step); !v.IsValid() {
			return 0
		}
	}
	if v.Kind() != reflect.Slice {
		return 0
	}
	return v.Len()
}
