package design

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strconv"
	"strings"

	"springrib/internal/finding"
	"springrib/internal/stock"
)

// StockFormat and StockVersion identify a saved stock.
const (
	StockFormat  = "springrib stock"
	StockVersion = 1
)

// StockFile is a sheet as a person knows it: what they typed of it and what test strips
// of it said. It can be opened into any design.
type StockFile struct {
	Format   string    `json:"format"`
	Version  int       `json:"version"`
	Units    string    `json:"units"`
	Sheet    Sheet     `json:"sheet"`
	Readings []Reading `json:"readings"`
}

// SaveStock writes the sheet of a design with its readings as a file, as Save does a
// design. Every reading is given the sheet, setting and batch that an empty one stands
// for, so that it stays theirs in whatever design it is opened; readings of other sheets
// stay out.
func SaveStock(doc Document) []byte {
	doc = Clone(doc)
	f := StockFile{Format: StockFormat, Version: StockVersion, Units: doc.Units, Sheet: doc.Sheet}
	for _, r := range doc.Strips.Readings {
		if !sameSheet(r.Stock, doc.Sheet) || r == (Reading{}) {
			continue
		}
		r.Stock = sheetName(doc.Sheet)
		if r.Setting == "" {
			r.Setting = doc.Machine.Setting
		}
		if r.Batch == "" {
			r.Batch = doc.Sheet.Batch
		}
		f.Readings = append(f.Readings, r)
	}
	tidy(reflect.ValueOf(&f).Elem())
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(f); err != nil {
		panic(err) // it holds nothing that JSON can't
	}
	return b.Bytes()
}

// sheetName is what a reading calls the sheet of a design.
func sheetName(s Sheet) string {
	id := s.Stock
	if id == "" {
		id = "mdf-3"
	}
	if st, ok := stock.Lookup(id); ok {
		return st.Name
	}
	if name := strings.TrimSpace(s.OwnName); name != "" {
		return name
	}
	return id
}

// sameSheet tells whether a reading's sheet is the one of the design.
func sameSheet(named string, s Sheet) bool {
	named = strings.TrimSpace(named)
	return named == "" || strings.EqualFold(named, s.Stock) || strings.EqualFold(named, sheetName(s))
}

// OpenStock puts the sheet of a file into a design, in the design's unit, and adds the
// readings that it has not got. The error, if any, is a *FileError; findings are as of
// Open.
func OpenStock(doc Document, text []byte) (Document, []finding.Finding, error) {
	root, err := tree(text)
	if err != nil {
		return doc, nil, err
	}
	format, _ := root.get("format")
	if format.kind != 's' || format.text != StockFormat {
		return doc, nil, &FileError{NotDesign, "This file does not hold a sheet. Choose one that was saved here."}
	}
	v, _ := root.get("version")
	version, ok := v.whole()
	switch {
	case !ok || version < 1:
		return doc, nil, &FileError{NotDesign, "This sheet does not say of which version it is. Save it again where it came from."}
	case version > StockVersion:
		return doc, nil, &FileError{Newer, "This sheet is of version " + strconv.Itoa(version) + ", made by a newer page; this one reads up to version " + strconv.Itoa(StockVersion) + ". Open it in the newer page."}
	}
	o := opener{}
	var f StockFile
	o.fill(reflect.ValueOf(&f).Elem(), without(root, "format", "version"), "")
	from := Document{Units: f.Units, Sheet: f.Sheet, Strips: Strips{Readings: f.Readings}}
	if doc.Units == "mm" || doc.Units == "in" {
		from = Convert(from, doc.Units)
	}
	out := Clone(doc)
	out.Sheet = from.Sheet
	for _, r := range from.Strips.Readings {
		if !has(out.Strips.Readings, r) {
			out.Strips.Readings = append(out.Strips.Readings, r)
		}
	}
	return out, o.notes, nil
}

func has(all []Reading, r Reading) bool {
	for _, x := range all {
		if x == r {
			return true
		}
	}
	return false
}
