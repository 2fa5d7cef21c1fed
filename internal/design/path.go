package design

import (
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
	for _, step := range strings.Split(path, ".") {
		if v = under(v, step); !v.IsValid() {
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

// under returns what v keeps under a name: a member, an entry of a list, or a copy of an
// operation, whether it is there or not. What it returns is not valid where v has none.
func under(v reflect.Value, name string) reflect.Value {
	switch v.Kind() {
	case reflect.Struct:
		return member(v, name)
	case reflect.Slice:
		if i, err := strconv.Atoi(name); err == nil && i >= 0 && i < v.Len() {
			return v.Index(i)
		}
	case reflect.Map:
		if slices.Contains(OperationIDs(), name) {
			entry := reflect.New(v.Type().Elem()).Elem()
			if old := v.MapIndex(reflect.ValueOf(name)); old.IsValid() {
				entry.Set(old)
			}
			return entry
		}
	}
	return reflect.Value{}
}

// keep puts an operation back that under gave a copy of; other things are where they were.
func keep(v reflect.Value, name string, entry reflect.Value) {
	if v.Kind() == reflect.Map {
		if v.IsNil() {
			v.Set(reflect.MakeMap(v.Type()))
		}
		v.SetMapIndex(reflect.ValueOf(name), entry)
	}
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
	step, rest, more := strings.Cut(path, ".")
	if v.Kind() == reflect.Slice {
		if i, err := strconv.Atoi(step); err == nil && i >= v.Len() && i < maxList {
			v.Grow(i + 1 - v.Len())
			v.SetLen(i + 1)
		}
	}
	m := under(v, step)
	if !m.IsValid() || more && !set(m, rest, text) || !more && !fill(m, text) {
		return false
	}
	keep(v, step, m)
	return true
}

// fill puts a text where one stands, or a tick.
func fill(v reflect.Value, text string) bool {
	switch {
	case v.Kind() == reflect.String:
		v.SetString(text)
	case v.Kind() == reflect.Bool && (text == "true" || text == "false"):
		v.SetBool(text == "true")
	default:
		return false
	}
	return true
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

// Clone returns a copy of doc that shares nothing with it.
func Clone(doc Document) Document {
	detach(reflect.ValueOf(&doc).Elem())
	return doc
}

// detach gives v lists and maps of its own. Their entries hold texts alone.
func detach(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			detach(v.Field(i))
		}
	case reflect.Slice:
		if !v.IsNil() {
			v.Set(reflect.AppendSlice(reflect.MakeSlice(v.Type(), 0, v.Len()), v))
		}
	case reflect.Map:
		if !v.IsNil() {
			own := reflect.MakeMapWithSize(v.Type(), v.Len())
			for at := v.MapRange(); at.Next(); {
				own.SetMapIndex(at.Key(), at.Value())
			}
			v.Set(own)
		}
	}
}

// memberAt returns the member of a document at a path without an entry of a list in it.
func memberAt(doc *Document, path string) reflect.Value {
	v := reflect.ValueOf(doc).Elem()
	for _, step := range strings.Split(path, ".") {
		v = member(v, step)
	}
	return v
}
