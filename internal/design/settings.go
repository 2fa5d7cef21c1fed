package design

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strconv"

	"springrib/internal/finding"
)

// MachineFormat and MachineVersion identify saved settings of a machine.
const (
	MachineFormat  = "springrib machine"
	MachineVersion = 1
)

// MachineFile is what belongs to a machine and its operations rather than to one design:
// it can be opened into any design.
type MachineFile struct {
	Format  string  `json:"format"`
	Version int     `json:"version"`
	Units   string  `json:"units"`
	Machine Machine `json:"machine"`
	Cut     Cut     `json:"cut"`
}

// SaveMachine writes the machine and the operations of a design as a file, as Save does a
// design. How the parts of this design lie stays out of it, and so does what a sheet
// costs.
func SaveMachine(doc Document) []byte {
	doc = Clone(doc)
	f := MachineFile{Format: MachineFormat, Version: MachineVersion, Units: doc.Units, Machine: doc.Machine, Cut: shared(doc.Cut)}
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

// shared returns what of a Cut belongs to the machine.
func shared(c Cut) Cut {
	c.Scrap, c.Pins, c.Places = nil, nil, nil
	c.SheetPrice, c.CutOuts, c.Turns = "", false, ""
	return c
}

// OpenMachine puts the settings of a file into a design, in the design's unit. The error,
// if any, is a *FileError; findings are as of Open. What a file leaves out is emptied,
// for it was empty where it was saved.
func OpenMachine(doc Document, text []byte) (Document, []finding.Finding, error) {
	root, err := tree(text)
	if err != nil {
		return doc, nil, err
	}
	format, _ := root.get("format")
	if format.kind != 's' || format.text != MachineFormat {
		return doc, nil, &FileError{NotDesign, "This file does not hold the settings of a machine. Choose one that was saved here."}
	}
	v, _ := root.get("version")
	version, ok := v.whole()
	switch {
	case !ok || version < 1:
		return doc, nil, &FileError{NotDesign, "These settings do not say of which version they are. Save them again where they came from."}
	case version > MachineVersion:
		return doc, nil, &FileError{Newer, "These settings are of version " + strconv.Itoa(version) + ", made by a newer page; this one reads up to version " + strconv.Itoa(MachineVersion) + ". Open them in the newer page."}
	}
	o := opener{}
	var f MachineFile
	o.fill(reflect.ValueOf(&f).Elem(), without(root, "format", "version"), "")
	from := Document{Units: f.Units, Machine: f.Machine, Cut: shared(f.Cut)}
	if doc.Units == "mm" || doc.Units == "in" {
		from = Convert(from, doc.Units)
	}
	out := Clone(doc)
	own := out.Cut
	out.Machine, out.Cut = from.Machine, from.Cut
	out.Cut.Scrap, out.Cut.Pins, out.Cut.Places = own.Scrap, own.Pins, own.Places
	out.Cut.SheetPrice, out.Cut.CutOuts, out.Cut.Turns = own.SheetPrice, own.CutOuts, own.Turns
	return out, o.notes, nil
}

// without returns a group without the members named: version is a number, which no
// member that opener fills is.
func without(n node, names ...string) node {
	out := node{kind: n.kind}
	for i, name := range n.names {
		keep := true
		for _, gone := range names {
			keep = keep && name != gone
		}
		if keep {
			out.names, out.entries = append(out.names, name), append(out.entries, n.entries[i])
		}
	}
	return out
}
