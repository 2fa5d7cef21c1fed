package view

import (
	"encoding/json"
	"errors"
	"math"

	"springrib/internal/bridge"
	"springrib/internal/design"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// handles puts what can be held into the bent and the flat drawing.
func (w worked) handles(drawings []bridge.Drawing) {
	f := w.table
	for _, g := range append(f.curveGrips(w.plan.V), f.panelGrips(&w.plan)...) {
		for i := range drawings {
			if drawings[i].ID == g.drawing {
				drawings[i].Handles = append(drawings[i].Handles, g.handle(w.plan.V.Units))
			}
		}
	}
}

// Drag works out what the fields must say for a handle to lie where it was moved to, or
// as near as it comes, rounded as a person would write it.
func (Core) Drag(raw []byte, drag bridge.Drag) (map[string]string, []byte, error) {
	doc, err := document(raw)
	if err != nil {
		return nil, nil, err
	}
	if !(math.Abs(drag.X) < 1e6 && math.Abs(drag.Y) < 1e6) {
		return nil, nil, errors.New("the page moved a handle out of the drawing; let go and take hold again")
	}
	table := fieldTable(design.Fields())
	v, _, _ := design.ReadBy(table, doc)
	g, ok := table.held(v, drag.Handle)
	if !ok {
		return nil, nil, errors.New("what you held is no longer there; let go and take hold again")
	}
	figures, rate := g.pull(plane.Pt(drag.X, -drag.Y))
	set := map[string]string{}
	for path, text := range g.rest {
		set[path] = text
	}
	for i, k := range g.knobs {
		former, _ := design.Get(doc, k.path)
		set[k.path] = k.write(k.clamp(figures[i]), rate, former, v.Units, drag.Fine)
	}
	changed, err := json.Marshal(with(doc, set))
	return set, changed, err
}

// held returns the handle of a design by its ID. The curve's need no plan.
func (f fieldTable) held(v design.Values, id string) (grip, bool) {
	for _, g := range f.curveGrips(v) {
		if g.id == id {
			return g, true
		}
	}
	p := plan.Make(v)
	if !p.Drawn {
		return grip{}, false
	}
	for _, g := range f.panelGrips(&p) {
		if g.id == id {
			return g, true
		}
	}
	return grip{}, false
}

// with returns the document with the texts put in.
func with(doc design.Document, set map[string]string) design.Document {
	out := doc
	for _, path := range design.Paths(set) {
		changed, ok := design.Set(out, path, set[path])
		if !ok {
			panic("view: no field " + path)
		}
		out = changed
	}
	return out
}

// fieldTable is the table of all fields, made once for all handles.
type fieldTable []design.Field

func (f fieldTable) at(path string) design.Field {
	field, ok := design.At(f, path)
	if !ok {
		panic("view: no field " + path)
	}
	return field
}

// label is what the form calls a field.
func (f fieldTable) label(path string) string { return f.at(path).Label }

// bounds returns what the form allows a figure to be.
func (f fieldTable) bounds(path string) (low, high float64) {
	field := f.at(path)
	return field.Min, field.Max
}
