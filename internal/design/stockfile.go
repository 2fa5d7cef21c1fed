package design

import (
	"slices"
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

var stockFile = fileKind{StockFormat, StockVersion, "does not hold a sheet", "sheet"}

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
	return write(&f)
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
	var f StockFile
	o, err := open(text, &f, stockFile)
	if err != nil {
		return doc, nil, err
	}
	from := inUnits(Document{Units: f.Units, Sheet: f.Sheet, Strips: Strips{Readings: f.Readings}}, doc.Units)
	out := Clone(doc)
	out.Sheet = from.Sheet
	for _, r := range from.Strips.Readings {
		if !slices.Contains(out.Strips.Readings, r) {
			out.Strips.Readings = append(out.Strips.Readings, r)
		}
	}
	return out, o.notes, nil
}
