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
	tidy(reflect.ValueOf(&doc).Elem())
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(doc); err != nil {
		panic(err) // a Document holds nothing that JSON can't
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
		ops := reflect.MakeMap(v.Type())
		for _, id := range OperationIDs() {
			key := reflect.ValueOf(id)
			if old := v.MapIndex(key); old.IsValid() {
				op := reflect.New(v.Type().Elem()).Elem()
				op.Set(old)
				tidy(op)
				ops.SetMapIndex(key, op)
			}
		}
		v.Set(ops)
	}
}
