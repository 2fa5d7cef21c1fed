package view

import (
	"encoding/json"
	"errors"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/sheet"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// mostEffort bounds one request for packing: the core answers nothing else meanwhile.
const mostEffort = 4 * sheet.Good

// Pack lays the parts closer and puts their places into the design.
func (Core) Pack(raw []byte, effort int64) ([]byte, wire.Packed, error) {
	doc, err := document(raw)
	if err != nil {
		return nil, wire.Packed{}, err
	}
	v, _ := design.Read(doc)
	p, lays := plan.Pack(v, min(max(effort, 1), mostEffort), sheet.Watch{})
	if !p.Drawn {
		return nil, wire.Packed{}, errors.New("there is nothing to pack yet; see what stops the design first")
	}
	doc = design.Clone(doc)
	doc.Cut.Places = make([]design.Lay, len(lays))
	for i, l := range lays {
		doc.Cut.Places[i] = l.Lay()
	}
	out, err := json.Marshal(doc)
	return out, wire.Packed{Sheets: len(p.Lay.Jobs), Text: used(&p)}, err
}

// used says how much of the sheets is used.
func used(p *plan.Plan) string {
	text := "On " + strconv.Itoa(len(p.Lay.Jobs)) + " sheets"
	if len(p.Lay.Jobs) == 1 {
		text = "On 1 sheet"
	}
	n := len(p.Lay.Sheets)
	if n == 0 || len(p.Lay.Sheets[n-1].Layout.Sheets) == 0 {
		return text + "."
	}
	for i, g := range p.Lay.Sheets {
		last := g.Layout.Sheets[len(g.Layout.Sheets)-1]
		if i == 0 {
			text += "; of the last one "
		} else {
			text += ", of the other stock's "
		}
		text += unit.Length(last.Length, p.V.Units)
	}
	return text + " of its length is used."
}

// Machine puts the settings of a machine into the design.
func (Core) Machine(raw []byte, text string) ([]byte, []finding.Finding, error) {
	doc, err := document(raw)
	if err != nil {
		return nil, nil, err
	}
	changed, found, err := design.OpenMachine(doc, []byte(text))
	if err != nil {
		return nil, nil, err
	}
	out, err := json.Marshal(changed)
	return out, found, err
}
