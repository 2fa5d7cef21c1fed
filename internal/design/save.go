package design

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
)

// Save writes a design as a file: JSON, indented, members in the order of Document,
// ending in a line feed. Equal designs give equal bytes, and opening and saving again
// changes nothing.
func Save(doc Document) []byte {
	doc = Clone(doc)
	doc.Format, doc.Version = Format, Version
	return write(&doc)
}

// write writes what a pointer points to as a file, once it is tidy.
func write(file any) []byte {
	tidy(reflect.ValueOf(file).Elem())
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(file); err != nil {
		panic(err) // a file of ours holds nothing that JSON can't
	}
	return b.Bytes()
}

// tidy makes every text valid UTF-8, nil lists empty ones, and drops operations that no
// document has.
func tidy(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			tidy(v.Field(i))
		}
	case reflect.String:
		v.SetString(strings.ToValidUTF8(v.String(), "\uFFFD"))
	case reflect.Slice:
		if v.IsNil() {
			v.Set(reflect.MakeSlice(v.Type(), 0, 0))
		}
		for i := range v.Len() {
			tidy(v.Index(i))
		}
	case reflect.Map:
		old := reflect.ValueOf(v.Interface())
		v.SetZero()
		for _, id := range OperationIDs() {
			if old.MapIndex(reflect.ValueOf(id)).IsValid() {
				op := under(old, id)
				tidy(op)
				keep(v, id, op)
			}
		}
	}
}
