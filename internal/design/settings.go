package design

import (
	"springrib/internal/finding"
	"springrib/internal/unit"
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

var machineFile = fileKind{MachineFormat, MachineVersion, "does not hold the settings of a machine", "file of a machine"}

// SaveMachine writes the machine and the operations of a design as a file, as Save does a
// design. What the table of fields says is of one job alone stays out of it.
func SaveMachine(doc Document) []byte {
	doc = Clone(doc)
	takeJob(&doc, Document{})
	return write(&MachineFile{Format: MachineFormat, Version: MachineVersion, Units: doc.Units, Machine: doc.Machine, Cut: doc.Cut})
}

// takeJob gives a document what is of one job alone from another: how its parts lie, and
// what a sheet costs.
func takeJob(doc *Document, from Document) {
	for _, f := range table() {
		if f.job {
			memberAt(doc, f.Path).Set(memberAt(&from, f.Path))
		}
	}
	doc.Cut.Places = from.Cut.Places // what packing found is no field
}

// OpenMachine puts the settings of a file into a design, in the design's unit. The error,
// if any, is a *FileError; findings are as of Open. What a file leaves out is emptied,
// for it was empty where it was saved.
func OpenMachine(doc Document, text []byte) (Document, []finding.Finding, error) {
	var f MachineFile
	o, err := open(text, &f, machineFile)
	if err != nil {
		return doc, nil, err
	}
	from := inUnits(Document{Units: f.Units, Machine: f.Machine, Cut: f.Cut}, doc.Units)
	takeJob(&from, doc)
	doc.Machine, doc.Cut = from.Machine, from.Cut
	return Clone(doc), o.notes, nil
}

// inUnits is Convert where there are such units.
func inUnits(doc Document, units string) Document {
	if _, ok := unit.SystemOf(units); !ok {
		return doc
	}
	return Convert(doc, units)
}
